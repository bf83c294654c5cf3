import type { Policy } from '@dwellward/policy';
import { changesOf } from '../facts/facts.js';
import { dayMs } from '../facts/heparin-of-day.js';
import type { AsOf, InstantText, LineCare } from '../model/care.js';
import type { LineRecord, RecordedTime } from '../model/record.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { applies } from '../rules/applies.js';
import { targetsOfRule } from '../rules/occurrences.js';
import { aheadMs } from '../timeline/still-to-come.js';
import { timelineOf } from '../timeline/timeline.js';
import { policyAt } from './in-force.js';

/**
 * The next moment at which the care of a line may be other than it is, though nothing new is written to its record:
 * an item opens or falls overdue, a hold ends, what is on record for later begins or ends to count, or a rule of the
 * policy comes to apply, or ceases to, as time goes by. Undefined where nothing is in sight.
 *
 * Whoever keeps Tasks in step has to look again just after it, and when the policy itself changes (`nextPolicyChange`).
 * What lies further ahead than `reachDays` is found by the next look.
 *
 * @param care what `dueCare` gives for the same record, policy and moment.
 *
 * Throws a CoreError where `asOf` is not an instant with an offset or `zone` not an IANA zone.
 * @example
 * ```ts
 * const next = nextChange(records.lines[0]!, cares[0]!, policy, when);
 * next !== undefined && instantMs(next) > instantMs(when.asOf); // true
 * ```
 */
export function nextChange(
  line: LineRecord,
  care: LineCare,
  policy: Policy,
  when: AsOf,
): InstantText | undefined {
  const calendar = new Calendar(when.zone);
  const nowMs = instantMs(when.asOf);
  const moments = [
    ...care.items.flatMap(({ opens, dueBy, lapses = dueBy }) => [opens, dueBy, lapses].map(instantMs)),
    ...care.holds.flatMap(({ until }) => (until === undefined ? [] : [instantMs(until)])),
    ...onRecordForLater(line, calendar),
    ...byTimeAlone(line, policyAt(policy, when), calendar, nowMs),
  ].filter((ms) => ms > nowMs && Number.isFinite(ms));
  return moments.length === 0 ? undefined : calendar.text(moments.reduce((a, b) => Math.min(a, b)));
}

// Beyond the time in which every result goes stale.
const reachDays = 2;

function onRecordForLater({ events, findings, infusions, orders, patient }: LineRecord, calendar: Calendar) {
  const begins = (time: RecordedTime | undefined) => (time ? [calendar.earliest(time)] : []);
  const ends = (time: RecordedTime | undefined) => (time ? [calendar.latest(time)] : []);
  return [
    ...[...events, ...findings].flatMap(({ at }) => [...begins(at), ...ends(at)]),
    // From then on it is no longer said that its time is still to come.
    ...[...events, ...findings].flatMap(({ at }) => begins(at).map((ms) => ms - aheadMs)),
    ...[...infusions, ...orders, ...patient.stays].flatMap(({ from, until }) => [
      ...begins(from),
      ...ends(until),
    ]),
    ...patient.measurements.flatMap(({ at }) => begins(at)),
    // A dose is in the sum of 24 hours at their end, and no longer just after it.
    ...patient.heparin.flatMap(({ at, runsSince }) => [
      ...begins(at ?? runsSince),
      ...ends(at).map((ms) => ms + dayMs + 1),
    ]),
  ];
}

/** When a rule comes to apply, or ceases to, with time alone: its facts tell when each of them changes. */
function byTimeAlone(line: LineRecord, { rules, labStaleAfter }: Policy, calendar: Calendar, nowMs: number) {
  const reachMs = calendar.add(calendar.add(nowMs, labStaleAfter), { value: reachDays, unit: 'd' });
  const timeline = timelineOf(line, calendar, reachMs);
  return rules.flatMap((rule) => {
    const targets = targetsOfRule(rule, timeline);
    const appliesAt = (ms: number) =>
      targets.map((target) => applies(rule, { timeline, target, ms, staleAfter: labStaleAfter }).applies);
    return (
      changesOf(rule.applicability.uses, timeline, labStaleAfter)
        .filter(({ ms }) => ms > nowMs && appliesAt(ms - 1).join() !== appliesAt(ms).join())
        // A result is not yet stale at its limit, but just after it.
        .map(({ ms, sinceMs }) => (sinceMs > nowMs ? sinceMs : ms))
    );
  });
}
