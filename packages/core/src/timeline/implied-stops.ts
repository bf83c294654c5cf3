import type { CareEvent, Infusion, LineRecord, Ref } from '../model/record.js';
import { chartedTwiceMs } from './charted-twice.js';
import { grouped } from '../model/gather.js';
import type { Calendar } from './calendar.js';
import { Lasting } from './in-time.js';
import type { Timed } from './timed.js';

type TimedInfusion = Timed<Infusion> & { readonly untilMs?: number };

/**
 * The stops that only a MedicationAdministration tells of: an infusion whose end is on record was disconnected then.
 *
 * No stop where another infusion runs on through the same lumen at that time (two at once, a bag that follows), and none where an infusion-stop of that lumen is on record as an event of its own within `chartedTwiceMs`: it
 * tells of the same stop, and more exactly. An infusion of which it is not known whether it runs does not run on: the
 * care after a stop is asked for rather than left out.
 *
 * A bag follows where it began within `chartedTwiceMs` of the end: the minutes in which a bag is changed are no end of
 * the use. Common practice, no source; where it is wrong, a rinse between two drugs is no longer asked for once the
 * second runs, and again when that one ends.
 *
 * An end that is known only by its day is placed at the start of that day, or at the infusion’s own start where that
 * is later, and may have been as late as the day’s end. Before the day is over the infusion is read as running, so
 * there is no stop yet. Infusions of one lumen that end at the same time are one stop: the one that began first stands
 * for it, the others are its `twins`.
 *
 * @param events completed events in the order of time.
 */
export function impliedStops(
  line: LineRecord,
  infusions: readonly TimedInfusion[],
  events: readonly Timed<CareEvent>[],
  calendar: Calendar,
  asOfMs: number,
): Timed<CareEvent>[] {
  const lumenOf = ({ lumen }: { readonly lumen?: Ref }) => (line.lumens.length === 1 ? undefined : lumen);
  const charted = lastingBy(
    events.filter(({ fact }) => fact.activity === 'infusion-stop'),
    lumenOf,
    ({ latestMs }) => latestMs,
  );
  const ofLumen = lastingBy(infusions, lumenOf, ({ fact, untilMs }) =>
    fact.running ? Infinity : (untilMs ?? -Infinity),
  );
  const stops = new Map<string, Timed<CareEvent>>();
  for (const infusion of infusions) {
    const { fact, ms: fromMs, untilMs: latestMs } = infusion;
    if (fact.running || !fact.until || latestMs === undefined || latestMs > asOfMs) continue;
    const lumen = lumenOf(fact);
    const runsOn = ofLumen.get(lumen)?.anyAfter(latestMs + chartedTwiceMs, latestMs);
    if (runsOn === true) continue;
    const ms = Math.min(latestMs, Math.max(calendar.earliest(fact.until), fromMs));
    const near = charted.get(lumen)?.from(latestMs + chartedTwiceMs, ms - chartedTwiceMs) ?? [];
    const said = near.some(
      // What was stopped when this one began was another infusion, unless this one began and ended at once.
      (stop) => stop.latestMs > fromMs || (stop.latestMs === fromMs && fromMs === latestMs),
    );
    if (said) continue;
    const key = `${lumen ?? ''}\u0000${ms}\u0000${latestMs}`;
    const same = stops.get(key);
    if (same) {
      if (same.fact.ref !== fact.ref)
        stops.set(key, { ...same, twins: [...(same.twins ?? []), fact.ref].sort() });
      continue;
    }
    stops.set(key, {
      fact: {
        ref: fact.ref,
        activity: 'infusion-stop',
        status: 'completed',
        at: fact.until,
        ...(fact.from ? { from: fact.from } : {}),
        ...(fact.lumen ? { lumen: fact.lumen } : {}),
        site: 'exit-site',
      },
      ms,
      latestMs,
      ...(fact.until.precision === 'instant' ? {} : { imprecise: fact.until }),
    });
  }
  return [...stops.values()];
}

/** What lasts, by the lumen that it is on; of a line with one lumen all of it. */
function lastingBy<One extends { readonly ms: number; readonly fact: { readonly lumen?: Ref } }>(
  all: readonly One[],
  lumenOf: (fact: One['fact']) => Ref | undefined,
  endOf: (one: One) => number,
): ReadonlyMap<Ref | undefined, Lasting<One>> {
  const none = Symbol('of no lumen');
  const lists = grouped(all, ({ fact }): Ref | typeof none => lumenOf(fact) ?? none);
  return new Map(
    [...lists].map(([lumen, list]) => [lumen === none ? undefined : lumen, new Lasting(list, endOf)]),
  );
}
