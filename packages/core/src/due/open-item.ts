import type { FactName, Rule } from '@dwellward/policy';
import { digest } from '../model/digest.js';
import { compareProtection, dueByRule, opensMs, type DueByRule } from '../rules/candidates.js';
import { startOf } from '../rules/starts.js';
import { factUse } from '../facts/fact-use.js';
import { activityRow } from '@dwellward/profiles';
import { afterHolds, isHeld, type HeldWindow, type TimedHold } from '../rules/bans.js';
import { targetsOf } from '../timeline/targets.js';
import type { Candidate, DueItem, Target } from '../model/care.js';
import type { Moment } from '../facts/facts.js';
import { isEmergency } from '../rules/priority.js';
import type { Reading, Remark } from '../model/sentences.js';
import { remarksOf } from './remarks.js';
import { compareText, type Timeline } from '../timeline/timeline.js';
import { joinedQuestions } from './questions.js';
import { joinedWork } from './work.js';

/**
 * The same for the same patient, activity, line, target and last time it was done, so that the next time is another
 * item, and a line that was charted for the wrong patient asks anew once it is the right one’s.
 */
export function itemId(
  timeline: { readonly line: { readonly ref: string; readonly patient: { readonly ref: string } } },
  rule: Pick<Rule, 'activity'>,
  target: Target,
  last: string | undefined,
): string {
  const { ref, patient } = timeline.line;
  return digest(patient.ref, rule.activity, ref, target.scope, target.ref, last ?? 'start');
}

/**
 * The other ids that the item has had or would have: by the other records of the last time, where that was charted
 * twice; and, of a line that was planned before it had a Device, by the reference of what planned it.
 */
export function otherIds(
  timeline: Timeline,
  rule: Pick<Rule, 'activity'>,
  target: Target,
  last: { readonly fact: { readonly ref: string }; readonly twins?: readonly string[] } | undefined,
): { readonly otherIds?: readonly string[] } {
  const twins = last?.twins ?? [];
  const { line } = timeline;
  const planned =
    line.planned !== undefined && line.planned.ref !== line.ref && target.ref === line.ref && line.planned;
  const asPlanned = planned
    ? [last?.fact.ref, ...twins].map((ref) =>
        itemId({ line: { ...line, ref: planned.ref } }, rule, { ...target, ref: planned.ref }, ref),
      )
    : [];
  const ids = [...twins.map((ref) => itemId(timeline, rule, target, ref)), ...asPlanned];
  return ids.length > 0 ? { otherIds: ids } : {};
}

/**
 * What rules ask for at a moment, each by itself.
 * @param sinceMs when a rule itself began to count, by its id: as a patient’s order does, or a version of a policy.
 */
export function demandsOf(
  rules: readonly Rule[],
  at: Moment,
  sinceMs: ReadonlyMap<string, number>,
): DueByRule[] {
  return rules.map((rule) => dueByRule(rule, at, sinceMs.get(rule.id))).filter((one) => one !== undefined);
}

/**
 * The one item that all demands of an activity on a target make; undefined where there is none.
 * @param inForceMs since when a rule has been in force: nothing opens before that.
 */
export function openItem(
  at: Moment,
  demands: readonly DueByRule[],
  allHolds: readonly TimedHold[],
  inForceMs: (rule: Rule) => number,
): DueItem | undefined {
  const { timeline, target } = at;
  const { standing: found, lapsesMs } = standingLooks(demands, at);
  const [winner, ...others] = found;
  if (!winner) return undefined;
  const { rule } = winner;
  const start = startOf(timeline, rule, target);
  const urgent = found.find((one) => isEmergency([one.rule]));
  const emergency = urgent !== undefined;
  const unheld = {
    opensMs: Math.max(opensMs(winner, start, at), inForceMs(rule)),
    dueByMs: winner.dueByMs,
  };
  const window = windowAfterHolds(unheld, rule, at, emergency ? [] : allHolds);
  const { calendar } = timeline;
  const heldBy = window.by?.hold;
  const facts = [...new Set(found.flatMap(({ rule: one }) => askedBy(one)))]
    .sort(compareText)
    .map((name) => factUse(name, at));
  const open = (one: DueByRule) => opensMs(one, start, at) <= Math.max(timeline.asOfMs, winner.dueByMs);
  const item: DueItem = {
    id: itemId(timeline, rule, target, start.last?.fact.ref),
    ...otherIds(timeline, rule, target, start.last),
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
    movedBy: movedBy(winner, urgent, facts),
    ...(rule.origin.order ? { basedOn: rule.origin.order } : {}),
    others: others.map((one) => candidate(one, timeline)),
    facts,
    work: joinedWork(
      rule,
      others.map((one) => ({ rule: one.rule, open: open(one) })),
      timeline,
      target,
    ),
    ...(lapsesMs === undefined ? {} : { lapses: calendar.text(lapsesMs) }),
    questions: joinedQuestions(
      found.map((one) => one.rule),
      timeline,
    ),
    ...(winner.byUnknown.length > 0 ? { byUnknown: winner.byUnknown } : {}),
    remarks: [],
  };
  return {
    ...item,
    remarks: [
      ...remarksOf(item, candidate(winner, timeline), winner.byUnknown, start, calendar),
      ...(urgent ? emergencyRemarks(urgent, winner, facts) : []),
      ...alsoAsked(item, others.filter(open), urgent),
      ...readings(winner, timeline),
    ],
  };
}

/**
 * A window after the holds of its target. What is asked of a line and goes through a lumen, whichever, as an order for an
 * infusion does, waits for the first lumen that it may go through: with every lumen held nothing of it can be done.
 */
function windowAfterHolds(
  unheld: { readonly opensMs: number; readonly dueByMs: number },
  rule: Rule,
  { timeline, target }: Moment,
  holds: readonly TimedHold[],
): HeldWindow {
  const ways =
    target.scope === 'line' && activityRow(rule.activity).throughLumen === true
      ? targetsOf(timeline.line, 'lumen')
      : [];
  const windows = (ways.length > 0 ? ways : [target]).map((way) =>
    afterHolds(
      unheld,
      holds.filter((hold) => isHeld(hold, rule, way)),
      timeline.asOfMs,
    ),
  );
  const untilMs = ({ by }: HeldWindow) => by?.untilMs ?? -Infinity;
  return windows.reduce((first, other) => (untilMs(other) < untilMs(first) ? other : first));
}

/**
 * The demands without the looks that lapsed: the last of a series stands until the next look of its kind may be done,
 * by whichever rule. And when the first of those that stand will lapse.
 */
function standingLooks(
  demands: readonly DueByRule[],
  at: Moment,
): { readonly standing: DueByRule[]; readonly lapsesMs?: number } {
  const { timeline, target } = at;
  const sorted = [...demands].sort(compareProtection);
  const nextMs = (look: DueByRule) =>
    Math.min(
      ...sorted
        .filter((one) => one !== look && one.dueByMs > look.dueByMs)
        .map((one) => opensMs(one, startOf(timeline, one.rule, target), at)),
    );
  const lapseMs = (one: DueByRule) =>
    one.lapses === 'with-the-next' ? Math.max(nextMs(one), one.dueByMs) : (one.lapses ?? Infinity);
  const standing = sorted.filter((one) => one.lapses !== 'with-the-next' || lapseMs(one) > timeline.asOfMs);
  const [first] = standing
    .map(lapseMs)
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  return { standing, ...(first === undefined ? {} : { lapsesMs: first }) };
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

/** The results that make an item an emergency, and the rule where another one, which is none, has it due. */
function emergencyRemarks(urgent: DueByRule, winner: DueByRule, facts: DueItem['facts']): Remark[] {
  const results = labsOf(urgent.rule, facts)
    .filter(({ refs }) => refs.length > 0)
    .map(({ fact, value }) => ({ fact, value }));
  const title = urgent === winner ? {} : { title: urgent.rule.title };
  return urgent !== winner || results.length > 0 ? [{ code: 'emergency', ...title, results }] : [];
}

/** The other rules that ask for it at once for a reason of their own: none stands hidden behind the winner’s title. */
function alsoAsked(
  { work }: Pick<DueItem, 'work'>,
  open: readonly DueByRule[],
  urgent: DueByRule | undefined,
): Remark[] {
  const withSteps = new Set(work.flatMap(({ kind, of }) => (kind === 'step' && of ? [of.id] : [])));
  const titles = open
    .filter((one) => one !== urgent && (one.rule.begins.kind === 'triggered' || withSteps.has(one.rule.id)))
    .map(({ rule }) => rule.title);
  return titles.length > 0 ? [{ code: 'also-asked', titles: [...new Set(titles)] }] : [];
}

function labsOf({ applicability }: Rule, facts: DueItem['facts']): DueItem['facts'] {
  return facts.filter(({ fact }) => fact.startsWith('labs.') && applicability.uses.includes(fact));
}

/** The facts that a rule looks at; when it began is told by what it counts from. */
function askedBy({ applicability, start }: Rule): readonly FactName[] {
  return [...applicability.uses, ...(start?.uses ?? [])].filter((name) => name !== 'began');
}

/**
 * The laboratory results, findings and events behind the winner, beyond the last time the care was done; and the
 * results that make it an emergency.
 */
function movedBy(winner: DueByRule, urgent: DueByRule | undefined, facts: DueItem['facts']): string[] {
  const rules = [winner.rule, ...(urgent ? [urgent.rule] : [])];
  const labs = rules.flatMap((rule) => labsOf(rule, facts)).flatMap(({ refs }) => refs);
  return [...new Set([...winner.because, ...labs])].sort(compareText);
}

/** What was read out of the findings behind the winner beyond what they say. */
function readings({ because }: DueByRule, { findings }: Timeline): Reading[] {
  return findings.flatMap(({ fact }) =>
    fact.reading !== undefined && because.includes(fact.ref) ? [fact.reading] : [],
  );
}

function candidate(found: DueByRule, { calendar }: Timeline): Candidate {
  return {
    rule: found.rule,
    dueBy: calendar.text(found.dueByMs),
    countedFrom: found.countedFrom,
    ...(found.appliesSinceMs === undefined ? {} : { appliesSince: calendar.text(found.appliesSinceMs) }),
    byUnknown: found.byUnknown.length > 0,
  };
}
