import type { Policy, Rule } from '@dwellward/policy';
import { activityRow, type LineCareActivity } from '@dwellward/profiles';
import { againstHolds } from './against-holds.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { closedBecause } from '../timeline/closed.js';
import { endedByOneLumen } from './ended-by-one-lumen.js';
import { inForceAt } from './in-force.js';
import { Judge, type Group } from './judge.js';
import type { AsOf, DueItem, LineCare, MetItem } from '../model/care.js';
import { itemId, otherIds } from './open-item.js';
import { inVisits } from './visits.js';
import { plannedInsertion } from '../timeline/planned-acts.js';
import { targetsOfRule } from '../rules/occurrences.js';
import { compareText, eventsOn, removedMs, timelineOf, type Timeline } from '../timeline/timeline.js';
import { timelineIssues } from '../timeline/timeline-issues.js';
import { lineWarnings } from '../lumens/line-warnings.js';
import { unansweredIssues, unansweredOn } from './unanswered.js';
import { lumenStatesOn } from '../lumens/lumen-states.js';
import type { LineRecord } from '../model/record.js';

/**
 * What care a line needs at a moment: every open item with its window, what has been met, what is held.
 *
 * A policy over time (`Policy.versions`) is judged item by item, by the version that was in force when the item’s
 * window opened: `judge.ts` says how, with the edges. A plain policy is in force for all time.
 *
 * Pure: the same record, policy, moment and zone give the same answer. Throws a CoreError where `asOf` is not an
 * instant with an offset or `zone` not an IANA zone; nothing else throws.
 *
 * It advises and never orders: local policy, the device's and the drug's own instructions and the licensed
 * clinician come first.
 * @example
 * ```ts
 * const [line] = records.lines;
 * line && dueCare(line, policy, when).items.every(({ opens, dueBy }) => instantMs(opens) <= instantMs(dueBy)); // true
 * ```
 */
export function dueCare(line: LineRecord, policy: Policy, when: AsOf): LineCare {
  const calendar = new Calendar(when.zone);
  const timeline = timelineOf(line, calendar, instantMs(when.asOf));
  const closed = closedBecause(timeline);
  const times = inForceAt(policy, calendar, timeline.asOfMs);
  const counts = rulesThatCount(closed);
  const plannedMs = closed === 'not-inserted-yet' ? plannedInsertion(timeline)?.ms : undefined;
  const judge = new Judge(timeline, times, counts);
  const items: DueItem[] = [];
  const met: MetItem[] = [];
  const all = times.flatMap((time) => judge.rulesOf(time, timeline));
  const afterRemoval = new Set(all.filter(countsAfterRemoval).map(({ activity }) => activity));
  for (const group of groups(all, timeline)) {
    met.push(...metItems(timeline, group, afterRemoval));
    const item = judge.itemOf(group);
    if (item) items.push(item);
  }
  const inForce = times.at(-1)?.policy ?? policy;
  const unanswered = unansweredOn(timeline, closed, inForce.rules.filter(counts), inForce.labStaleAfter);
  const holds = judge.holds.filter(({ untilMs }) => untilMs > timeline.asOfMs).map(({ hold }) => hold);
  const lumens = lumenStatesOn(timeline, holds);
  const tipIsAskedFor = items.some(
    ({ activity, state }) => activityRow(activity).confirmsTip && state !== 'upcoming',
  );
  const told = lineWarnings(timeline, lumens, holds, tipIsAskedFor);
  return {
    line: line.ref,
    patient: line.patient.ref,
    inPlace: closed === undefined,
    ...(closed ? { closed } : {}),
    ...(plannedMs === undefined ? {} : { plannedFor: calendar.text(plannedMs) }),
    items: inVisits(
      onceEach(items).sort(
        (a, b) =>
          compareText(a.activity, b.activity) ||
          compareText(a.target.ref, b.target.ref) ||
          compareText(a.target.scope, b.target.scope),
      ),
      timeline.asOfMs,
    ),
    met: met.sort((a, b) => compareText(a.id, b.id)),
    holds,
    lumens,
    warnings: closed === undefined ? told.warnings : [],
    unanswered,
    issues: [
      ...unansweredIssues(timeline, unanswered),
      ...timelineIssues(timeline, closed, afterRemoval),
      ...(closed === undefined
        ? [...againstHolds(timeline, judge.holds), ...endedByOneLumen(timeline, judge.holds), ...told.issues]
        : []),
    ],
  };
}

/** Of a line that is in every rule counts; else those that follow its removal, or that prepare its insertion. */
function rulesThatCount(closed: LineCare['closed']): (rule: Rule) => boolean {
  if (closed === undefined) return () => true;
  if (closed === 'line-removed') return countsAfterRemoval;
  if (closed === 'not-inserted-yet') return preparesInsertion;
  return () => false;
}

function preparesInsertion({ begins }: Rule): boolean {
  return begins.kind === 'before' && activityRow(begins.of).role === 'begins-line';
}

/**
 * Whether a rule counts for a line that is out: what the removal sets going, care or a hold, the first steps of an
 * emergency, which bleeding, air or a piece that stayed in bring about then as well, or what asks itself how long ago
 * the removal was.
 */
function countsAfterRemoval({ begins, priority, applicability }: Rule): boolean {
  if (begins.kind !== 'triggered') return false;
  return begins.by.some((trigger) =>
    trigger.kind === 'event'
      ? activityRow(trigger.activity).role === 'ends-line'
      : priority === 'stat' || applicability.uses.includes('line.removedDays'),
  );
}

/** The rules of one activity on one target belong together: they make one item. */
function groups(rules: readonly Rule[], timeline: Timeline): Group[] {
  const found = new Map<string, Group>();
  for (const rule of rules) {
    if (rule.effect === 'forbid' || rule.begins.kind === 'planned') continue;
    for (const target of targetsOfRule(rule, timeline)) {
      const key = [rule.activity, target.scope, target.ref].join('\u0000');
      if (!found.has(key)) found.set(key, { activity: rule.activity, target });
    }
  }
  return [...found].sort(([a], [b]) => compareText(a, b)).map(([, group]) => group);
}

/** What the same findings ask of a lumen is not asked of its line again. */
function onceEach(items: readonly DueItem[]): DueItem[] {
  return items.filter(
    ({ activity, target, countedFrom, movedBy }) =>
      target.scope !== 'line' ||
      countedFrom.basis !== 'finding' ||
      !movedBy.every((ref) =>
        items.some(
          (other) =>
            other.activity === activity && other.target.scope === 'lumen' && other.movedBy.includes(ref),
        ),
      ),
  );
}

/** @param afterRemoval what is asked for of a line that is out; anything else after a removal is no care of it. */
function metItems(
  timeline: Timeline,
  { activity, target }: Group,
  afterRemoval: ReadonlySet<LineCareActivity>,
): MetItem[] {
  const removal = removedMs(timeline) === undefined ? undefined : timeline.removals.at(-1);
  const outMs = removal && !afterRemoval.has(activity) ? removal.latestMs : Infinity;
  const events = eventsOn(timeline, activity, target).filter(({ ms }) => ms <= outMs);
  return events.map((event, i) => ({
    id: itemId(timeline, { activity }, target, events[i - 1]?.fact.ref),
    ...otherIds(timeline, { activity }, target, events[i - 1]),
    activity,
    line: timeline.line.ref,
    target,
    by: event.fact.ref,
    ...(event.twins ? { twins: event.twins } : {}),
    at: timeline.calendar.text(event.ms),
  }));
}
