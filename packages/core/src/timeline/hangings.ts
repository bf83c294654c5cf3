import type { Infusate } from '@dwellward/profiles';
import type { CareEvent, Infusion, LineRecord } from '../model/record.js';
import type { Timed } from './timed.js';

type TimedInfusion = Timed<Infusion> & { readonly untilMs?: number };

// Of these published sources give a hang time of the bag itself; the one with the shortest first.
const withHangTime: readonly Infusate[] = ['blood', 'fat-emulsion', 'nutrition-with-fat'];

/**
 * When the bag or bottle was hung out of which something still runs, for what has a hang time of its own: blood and fat.
 * Its start is the start of the infusion.
 *
 * Of several such bags on one lumen the one with the shortest hang time counts, and of those the one that hangs longest: a
 * second unit beside the first does not give the first more time. Where it is not on record when the infusion began there
 * is no such event, and its rule counts from earlier.
 *
 * @param infusions in the order of time.
 */
export function hangings(
  line: LineRecord,
  infusions: readonly TimedInfusion[],
  asOfMs: number,
): Timed<CareEvent>[] {
  const running = infusions.filter(
    ({ fact, ms, untilMs }) => ms <= asOfMs && (fact.running || (untilMs !== undefined && asOfMs < untilMs)),
  );
  return line.lumens.flatMap(({ ref }) => {
    const through = line.lumens.length === 1 ? running : running.filter(({ fact }) => fact.lumen === ref);
    const kind = withHangTime.find((one) => through.some(({ fact }) => fact.infusate === one));
    const first = through.find(({ fact }) => kind !== undefined && fact.infusate === kind);
    if (!first || !Number.isFinite(first.ms)) return [];
    const { fact, ms, latestMs, imprecise } = first;
    return [
      {
        fact: {
          ref: fact.ref,
          activity: 'bag-change' as const,
          status: 'completed' as const,
          ...(fact.lumen ? { lumen: fact.lumen } : {}),
          site: 'exit-site' as const,
        },
        ms,
        latestMs,
        ...(imprecise ? { imprecise } : {}),
      },
    ];
  });
}
