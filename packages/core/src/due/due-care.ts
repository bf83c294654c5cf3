import type { Policy, Rule } from '@dwellward/policy';
import { digest } from '../digest.js';
import { Calendar, instantMs } from './calendar.js';
import { compareProtection, dueByRule, opensMs, startOf, type DueByRule } from './candidates.js';
import { factUse } from './fact-use.js';
import { afterHolds, holdsOf, isHeld, type TimedHold } from './holds.js';
import type { Moment } from './known.js';
import type { AsOf, Candidate, DueItem, LineCare, MetItem, Target } from './model.js';
import { orderRules } from './orders.js';
import { isEmergency } from './priority.js';
import { remarksOf } from './remarks.js';
import { targetsOf } from './targets.js';
import { compareText, eventsOn, timelineOf, type Timeline } from './timeline.js';
import { timelineIssues } from './timeline-issues.js';
import { workOf } from './work.js';
import type { LineRecord } from '../record/model.js';

/**
 * What care a line needs at a moment: every open item with its window, what has been met, what is held.
 *
 * Pure: the same record, policy, moment and zone give the same answer. Throws a RangeError where `asOf` is not an
 * instant with an offset or `zone` not an IANA zone; nothing else throws.
 *
 * It advises and never orders: local policy, the device's and the drug's own instructions and the licensed
 * clinician come first.
 */
export function dueCare(line: LineRecord, policy: Policy, when: AsOf): LineCare {
  const calendar = new Calendar(when.zone);
  const timeline = timelineOf(line, calendar, instantMs(when.asOf));
  const orders = orderRules(timeline, policy);
  const closed = closedBecause(timeline);
  const all = [...policy.rules, ...orders.map(({ rule }) => rule)];
  // What follows a removal is all that is left to do for a line that is out.
  const counts = closed === undefined ? () => true : closed === 'line-removed' ? followsRemoval : () => false;
  const sinceByRule = new Map(orders.map(({ rule, sinceMs }) => [rule.id, sinceMs]));
  const allHolds = holdsOf(timeline, policy.rules.filter(counts), policy.labStaleAfter);
  const items: DueItem[] = [];
  const met: MetItem[] = [];
  for (const { activityRules, target } of groups(all, line)) {
    const [first] = activityRules;
    if (!first) continue;
    met.push(...metItems(timeline, first, target));
    const open = activityRules.filter(counts);
    if (open.length === 0) continue;
    const item = openItem(
      { timeline, target, ms: timeline.asOfMs, staleAfter: policy.labStaleAfter },
      open,
      sinceByRule,
      allHolds,
    );
    if (item) items.push(item);
  }
  return {
    line: line.ref,
    patient: line.patient.ref,
    inPlace: closed === undefined,
    ...(closed ? { closed } : {}),
    items: items.sort(
      (a, b) =>
        compareText(a.activity, b.activity) ||
        compareText(a.target.ref, b.target.ref) ||
        compareText(a.target.scope, b.target.scope),
    ),
    met: met.sort((a, b) => compareText(a.id, b.id)),
    holds: allHolds.filter(({ untilMs }) => untilMs > timeline.asOfMs).map(({ hold }) => hold),
    issues: timelineIssues(timeline, new Set(all.filter(followsRemoval).map(({ activity }) => activity))),
  };
}

function closedBecause(timeline: Timeline): LineCare['closed'] {
  if (!timeline.line.valid) return 'entered-in-error';
  const removed = timeline.removals.at(-1);
  const inserted = timeline.insertions.at(-1);
  if (removed && !(inserted && inserted.ms > removed.ms)) return 'line-removed';
  // An insertion that is still to come, and nothing else so far.
  const planned = timeline.line.events.some(
    ({ activity, status }) =>
      activity === 'insertion' && status !== 'entered-in-error' && status !== 'not-done',
  );
  if (planned && !timeline.insertion && timeline.events.length === 0 && timeline.infusions.length === 0)
    return 'not-inserted-yet';
  return undefined;
}

/** Whether a rule counts from the removal: a chain of care after it, or a hold that it begins. */
function followsRemoval({ schedule }: Rule): boolean {
  return (schedule.kind === 'chain' || schedule.kind === 'hold') && schedule.after === 'removal';
}

/** The rules of one activity on one target belong together: they make one item. */
function groups(rules: readonly Rule[], line: LineRecord): { activityRules: Rule[]; target: Target }[] {
  const found = new Map<string, { activityRules: Rule[]; target: Target }>();
  for (const rule of rules) {
    if (rule.schedule.kind === 'hold' || rule.schedule.kind === 'anchor') continue;
    for (const target of targetsOf(line, rule.scope)) {
      const key = [rule.activity, target.scope, target.ref].join('\u0000');
      const group = found.get(key) ?? { activityRules: [], target };
      group.activityRules.push(rule);
      found.set(key, group);
    }
  }
  return [...found].sort(([a], [b]) => compareText(a, b)).map(([, group]) => group);
}

/** The same for the same activity, line, target and last time it was done, so that the next time is another item. */
function itemId(timeline: Timeline, rule: Rule, target: Target, last: string | undefined): string {
  return digest(rule.activity, timeline.line.ref, target.scope, target.ref, last ?? 'start');
}

function metItems(timeline: Timeline, rule: Rule, target: Target): MetItem[] {
  const events = eventsOn(timeline, rule.activity, target);
  return events.map((event, i) => ({
    id: itemId(timeline, rule, target, events[i - 1]?.fact.ref),
    activity: rule.activity,
    line: timeline.line.ref,
    target,
    by: event.fact.ref,
    at: timeline.calendar.text(event.ms),
  }));
}

function openItem(
  at: Moment,
  rules: readonly Rule[],
  sinceByRule: ReadonlyMap<string, number>,
  allHolds: readonly TimedHold[],
): DueItem | undefined {
  const { timeline, target } = at;
  const found = rules
    .map((rule) => dueByRule(rule, at, sinceByRule.get(rule.id)))
    .filter((one) => one !== undefined)
    .sort(compareProtection);
  const [winner, ...others] = found;
  if (!winner) return undefined;
  const { rule } = winner;
  const start = startOf(timeline, rule, target);
  const emergency = isEmergency(found.map((one) => one.rule));
  const inTheWay = emergency ? [] : allHolds.filter((hold) => isHeld(hold, rule, target));
  const unheld = { opensMs: opensMs(winner, start, at), dueByMs: winner.dueByMs };
  const window = afterHolds(unheld, inTheWay, timeline.asOfMs);
  const { calendar } = timeline;
  const heldBy = window.by?.hold;
  const facts = [...new Set(found.flatMap((one) => one.rule.condition.uses))]
    .sort(compareText)
    .map((name) => factUse(name, at));
  const item: DueItem = {
    id: itemId(timeline, rule, target, start.last?.fact.ref),
    activity: rule.activity,
    line: timeline.line.ref,
    patient: timeline.line.patient.ref,
    target,
    rule,
    countedFrom: winner.countedFrom,
    opens: calendar.text(window.opensMs),
    dueBy: calendar.text(window.dueByMs),
    state: stateOf(window.opensMs, window.dueByMs, timeline.asOfMs, unheld.opensMs, window.by),
    ...(heldBy ? { heldBy } : {}),
    ...(window.dueByMs === unheld.dueByMs ? {} : { dueByUnheld: calendar.text(unheld.dueByMs) }),
    movedBy: movedBy(winner, facts),
    ...(rule.origin.order ? { basedOn: rule.origin.order } : {}),
    others: others.map((one) => candidate(one, timeline)),
    facts,
    work: workOf(rule, timeline.line, target),
    ...(winner.byUnknown.length > 0 ? { byUnknown: winner.byUnknown } : {}),
    remarks: [],
  };
  return {
    ...item,
    remarks: remarksOf(item, candidate(winner, timeline), winner.byUnknown, start, calendar),
  };
}

function stateOf(
  opens: number,
  dueBy: number,
  asOf: number,
  unheldOpens: number,
  by: TimedHold | undefined,
): DueItem['state'] {
  if (by && by.fromMs <= asOf && asOf < by.untilMs && unheldOpens <= asOf) return 'held';
  if (asOf < opens) return 'upcoming';
  return asOf <= dueBy ? 'due' : 'overdue';
}

/** The laboratory results, findings and events behind the winner, beyond the last time the care was done. */
function movedBy(winner: DueByRule, facts: DueItem['facts']): string[] {
  const labs = facts
    .filter(({ fact }) => fact.startsWith('labs.') && winner.rule.condition.uses.includes(fact))
    .flatMap(({ refs }) => refs);
  return [...new Set([...winner.because, ...labs])].sort(compareText);
}

function candidate(found: DueByRule, { calendar }: Timeline): Candidate {
  return {
    rule: found.rule,
    dueBy: calendar.text(found.dueByMs),
    countedFrom: found.countedFrom,
    ...(found.heldSinceMs === undefined ? {} : { heldSince: calendar.text(found.heldSinceMs) }),
    byUnknown: found.byUnknown.length > 0,
  };
}
