import { activitiesWhere } from '@dwellward/profiles';
import type { LineRecord, CareEvent, Infusion, Ref } from '../model/record.js';
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
const usesLumen = new Set(activitiesWhere(({ throughLumen, look }) => throughLumen && !look));

/**
 * The events with those that were charted twice made one. They are the same where activity and target are, where what
 * they say was put on does not differ, and where they share an identifier or the Task they were done for, or lie within
 * `chartedTwiceMs` with no other use of the lumen between them.
 *
 * Of the references the first by its text is kept, so that the order of the input does not show; the others are its
 * `twins`. It is placed at the earlier time, from which the next is counted, and may have been as late as the later,
 * from which a hold lasts. The ten minutes run from the first record: of three at 0, 8 and 16 minutes the last is another
 * event, so that care charted every few minutes never melts into one. A time given as a date is never taken to be within ten minutes of another.
 *
 * @param events completed events in the order of time.
 */
export function withoutTwins(
  line: LineRecord,
  events: readonly Timed<CareEvent>[],
  infusions: readonly (Timed<Infusion> & { readonly untilMs?: number })[],
): Timed<CareEvent>[] {
  const kept: Group[] = [];
  const likes = new Map<string, Like>();
  for (const [at, event] of events.entries()) {
    const key = [event.fact.activity, lumenOf(line, event.fact) ?? '', event.fact.site].join('\u0000');
    const like = likes.get(key) ?? { groups: [], byIdentity: new Map<string, Set<Group>>() };
    likes.set(key, like);
    const same = candidates(like, event).find(
      (group) =>
        group.every((one) => agree(one.fact, event.fact)) &&
        (group.some((one) => named(one.fact, event.fact)) ||
          (isNear(group[0], event) && !usedBetween(line, group[0], event, events, at, infusions))),
    );
    if (same) same.push(event);
    else {
      const group: Group = [event];
      like.groups.push(group);
      kept.push(group);
    }
    const home = same ?? (like.groups.at(-1) as Group);
    for (const identity of event.fact.identities ?? []) {
      like.byIdentity.set(identity, (like.byIdentity.get(identity) ?? new Set()).add(home));
    }
  }
  return kept.map(asOne).sort((a, b) => a.ms - b.ms || compare(placeOf(a.fact), placeOf(b.fact)));
}

type Group = [Timed<CareEvent>, ...Timed<CareEvent>[]];

/** What was done of one activity on one target, in the order of time. */
interface Like {
  readonly groups: Group[];
  readonly byIdentity: Map<string, Set<Group>>;
}

/** The groups that an event may belong to, in the order of time: those it shares an identity with, and the near ones. */
function candidates({ groups, byIdentity }: Like, event: Timed<CareEvent>): Group[] {
  let from = groups.length;
  while (from > 0 && (groups[from - 1] as Group)[0].ms >= event.ms - chartedTwiceMs) from -= 1;
  const near = groups.slice(from);
  const shared = (event.fact.identities ?? []).flatMap((identity) => [...(byIdentity.get(identity) ?? [])]);
  const earlier = [...new Set(shared)].filter((group) => !near.includes(group));
  return [...earlier.sort((a, b) => a[0].ms - b[0].ms), ...near];
}

function lumenOf(line: LineRecord, { lumen }: CareEvent): Ref | undefined {
  return line.lumens.length === 1 ? undefined : lumen;
}

function agree(a: CareEvent, b: CareEvent): boolean {
  const securedBy = (one: CareEvent) => [...(one.securement ?? [])].sort().join();
  return (
    (a.dressing ?? b.dressing) === (b.dressing ?? a.dressing) &&
    (a.securement === undefined || b.securement === undefined || securedBy(a) === securedBy(b))
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
  at: number,
  infusions: readonly (Timed<Infusion> & { readonly untilMs?: number })[],
): boolean {
  if (!usesLumen.has(fact.activity)) return false;
  const lumen = lumenOf(line, fact);
  const here = (other: { readonly lumen?: Ref }) =>
    lumen === undefined || other.lumen === undefined || other.lumen === lumen;
  const between = (ms: number | undefined) => ms !== undefined && ms >= fromMs && ms <= untilMs;
  // In the order of time, so nothing before the last one that is too early needs a look.
  for (let i = at - 1; i >= 0; i--) {
    const one = events[i];
    if (!one || one.ms <= fromMs) break;
    if (
      one.ms < untilMs &&
      one.fact.activity !== fact.activity &&
      usesLumen.has(one.fact.activity) &&
      here(one.fact)
    )
      return true;
  }
  return infusions.some((one) => here(one.fact) && (between(one.ms) || between(one.untilMs)));
}

function asOne(group: Group): Timed<CareEvent> {
  const [first, ...others] = [...group].sort(
    (a, b) => compare(a.fact.ref, b.fact.ref) || a.ms - b.ms,
  ) as Group;
  // Events came in the order of time.
  const [earliest] = group;
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
