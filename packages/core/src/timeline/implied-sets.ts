import { activityRow } from '@dwellward/profiles';
import type { CareEvent, Infusion, LineRecord, Ref } from '../model/record.js';
import { chartedTwiceMs } from './charted-twice.js';
import { Lasting } from './in-time.js';
import type { Timed } from './timed.js';

type TimedInfusion = Timed<Infusion> & { readonly untilMs?: number };

/** How far back an infusion that ended still tells of intermittent use: the interval of such a set in INS. */
export const intermittentMs = 24 * 3_600_000;

/**
 * The sets that only the start of an infusion tells of: what begins to run through a lumen that was idle for a day or
 * more runs through a new set, also where nobody charted it. Intervals of sets count from the start of the infusion
 * (CDC 2011: within 24 hours of starting).
 *
 * None where an infusion ran through the lumen within the 24 hours before (the set may be the old one, kept for the next
 * dose), where it is not known whether one did, and where a set change of the lumen is on record within that time or up
 * to `chartedTwiceMs` after the start: it tells of the same set, and more exactly.
 *
 * @param infusions in the order of time.
 * @param events completed events in the order of time.
 */
export function impliedSets(
  line: LineRecord,
  infusions: readonly TimedInfusion[],
  events: readonly Timed<CareEvent>[],
): Timed<CareEvent>[] {
  const of = <Kind extends { readonly fact: { readonly lumen?: Ref } }>(
    list: readonly Kind[],
    lumen?: Ref,
  ) => (line.lumens.length === 1 ? list : list.filter(({ fact }) => fact.lumen === lumen));
  return line.lumens
    .flatMap(({ ref }) => setsOfLumen(of(infusions, ref), of(events, ref)))
    .sort((a, b) => a.ms - b.ms || (a.fact.ref < b.fact.ref ? -1 : 1));
}

function setsOfLumen(
  infusions: readonly TimedInfusion[],
  events: readonly Timed<CareEvent>[],
): Timed<CareEvent>[] {
  const changes = new Lasting(
    events.filter(({ fact }) => fact.activity === 'administration-set-change'),
    ({ latestMs }) => latestMs,
  );
  const runs = [
    ...infusions.map((one) => ({ ...one, endMs: one.untilMs ?? Infinity })),
    ...connections(events),
  ].sort((a, b) => a.ms - b.ms || (a.fact.ref < b.fact.ref ? -1 : 1));
  const sets: Timed<CareEvent>[] = [];
  // Until when something has run, or may have.
  let ranUntilMs = -Infinity;
  for (const { fact, ms, latestMs, imprecise, endMs } of runs) {
    const sinceMs = ms - intermittentMs;
    const changed = changes.from(ms + chartedTwiceMs, sinceMs).length > 0;
    if (Number.isFinite(ms) && ranUntilMs < sinceMs && !changed) {
      sets.push({
        fact: {
          ref: fact.ref,
          activity: 'administration-set-change',
          status: 'completed',
          ...(fact.lumen ? { lumen: fact.lumen } : {}),
          site: 'exit-site',
        },
        ms,
        latestMs,
        ...(imprecise ? { imprecise } : {}),
      });
    }
    ranUntilMs = Math.max(ranUntilMs, ms, endMs);
  }
  return sets;
}

/** What was connected by an event, until the stop that followed. */
function connections(events: readonly Timed<CareEvent>[]) {
  const leaves = ({ fact }: Timed<CareEvent>) => activityRow(fact.activity).leavesLumen;
  const turns = events.filter((one) => leaves(one) === 'infusing' || leaves(one) === 'open');
  let endMs = Infinity;
  const ends = turns.toReversed().map((one) => {
    const after = endMs;
    if (leaves(one) === 'open') endMs = one.latestMs;
    return after;
  });
  return turns.flatMap((turn, i) =>
    leaves(turn) === 'infusing' ? [{ ...turn, endMs: ends[turns.length - 1 - i] ?? Infinity }] : [],
  );
}
