import type { LineRecord, CareEvent, Infusion, Ref } from '../record/model.js';
import type { Timed } from './timed.js';

/**
 * Two completed events of one activity on one target that lie this far apart or less are one that was charted twice.
 *
 * Common practice, no source: ten minutes is longer than it takes two people, or two systems, to chart the same care,
 * and shorter than the shortest interval at which a rule asks for any (15 minutes, the looks in the first hour). Where
 * it is wrong, two that were done within ten minutes count as one: the next is asked for up to ten minutes earlier,
 * never later.
 */
export const chartedTwiceMs = 10 * 60_000;

/** What may lie between two events so that the second is another one: a flush, a push of a drug, and a flush again. */
const usesLumen: ReadonlySet<CareEvent['activity']> = new Set([
  'infusion-start',
  'infusion-stop',
  'blood-sampling',
  'flush',
  'lock',
  'occlusion-treatment',
]);

/**
 * The events with those that were charted twice made one. They are the same where activity and target are, where what
 * they say was put on does not differ, and where they share an identifier or the Task they were done for, or lie within
 * `chartedTwiceMs` with no other use of the lumen between them.
 *
 * Of the references the first by its text is kept, so that the order of the input does not show; the others are its
 * `twins`. It is placed at the earlier time, from which the next is counted, and may have been as late as the later,
 * from which a hold lasts. A time given as a date is never taken to be within ten minutes of another.
 *
 * @param events completed events in the order of time.
 */
export function withoutTwins(
  line: LineRecord,
  events: readonly Timed<CareEvent>[],
  infusions: readonly (Timed<Infusion> & { readonly untilMs?: number })[],
): Timed<CareEvent>[] {
  const kept: Timed<CareEvent>[][] = [];
  const open = new Map<string, Timed<CareEvent>[][]>();
  for (const event of events) {
    const key = [event.fact.activity, lumenOf(line, event.fact) ?? '', event.fact.site].join('\u0000');
    const groups = open.get(key) ?? [];
    open.set(key, groups);
    const same = groups.find(
      (group) =>
        group.every((one) => agree(one.fact, event.fact)) &&
        group[0] !== undefined &&
        (group.some((one) => named(one.fact, event.fact)) ||
          (isNear(group[0], event) && !usedBetween(line, group[0], event, events, infusions))),
    );
    if (same) same.push(event);
    else {
      const group = [event];
      groups.push(group);
      kept.push(group);
    }
  }
  return kept.map(asOne).sort((a, b) => a.ms - b.ms || compare(placeOf(a.fact), placeOf(b.fact)));
}

function lumenOf(line: LineRecord, { lumen }: CareEvent): Ref | undefined {
  return line.lumens.length === 1 ? undefined : lumen;
}

function agree(a: CareEvent, b: CareEvent): boolean {
  const holds = (one: CareEvent) => [...(one.securement ?? [])].sort().join();
  return (
    (a.dressing ?? b.dressing) === (b.dressing ?? a.dressing) &&
    (a.securement === undefined || b.securement === undefined || holds(a) === holds(b))
  );
}

function named(a: CareEvent, b: CareEvent): boolean {
  return (a.identities ?? []).some((one) => b.identities?.includes(one));
}

function isNear(first: Timed<CareEvent>, event: Timed<CareEvent>): boolean {
  return !first.imprecise && !event.imprecise && event.ms - first.ms <= chartedTwiceMs;
}

function usedBetween(
  line: LineRecord,
  { ms: fromMs, fact }: Timed<CareEvent>,
  { ms: untilMs }: Timed<CareEvent>,
  events: readonly Timed<CareEvent>[],
  infusions: readonly (Timed<Infusion> & { readonly untilMs?: number })[],
): boolean {
  if (!usesLumen.has(fact.activity)) return false;
  const lumen = lumenOf(line, fact);
  const here = (other: { readonly lumen?: Ref }) =>
    lumen === undefined || other.lumen === undefined || other.lumen === lumen;
  const between = (ms: number | undefined) => ms !== undefined && ms >= fromMs && ms <= untilMs;
  return (
    events.some(
      (one) =>
        one.fact.activity !== fact.activity &&
        usesLumen.has(one.fact.activity) &&
        here(one.fact) &&
        one.ms > fromMs &&
        one.ms < untilMs,
    ) || infusions.some((one) => here(one.fact) && (between(one.ms) || between(one.untilMs)))
  );
}

function asOne(group: readonly Timed<CareEvent>[]): Timed<CareEvent> {
  const [first, ...others] = [...group].sort((a, b) => compare(a.fact.ref, b.fact.ref) || a.ms - b.ms);
  const earliest = [...group].sort((a, b) => a.ms - b.ms)[0];
  if (!first || !earliest) throw new RangeError('a group of events has at least one');
  if (others.length === 0) return first;
  const dressing = group.find(({ fact }) => fact.dressing)?.fact.dressing;
  const securement = group.find(({ fact }) => fact.securement)?.fact.securement;
  const twins = [...new Set(others.map(({ fact }) => fact.ref))].filter((ref) => ref !== first.fact.ref);
  return {
    fact: { ...first.fact, ...(dressing ? { dressing } : {}), ...(securement ? { securement } : {}) },
    ms: earliest.ms,
    latestMs: Math.max(...group.map(({ latestMs }) => latestMs)),
    ...(earliest.imprecise ? { imprecise: earliest.imprecise } : {}),
    ...(twins.length > 0 ? { twins } : {}),
  };
}

function placeOf({ ref, lumen }: CareEvent): string {
  return `${ref}\u0000${lumen ?? ''}`;
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
