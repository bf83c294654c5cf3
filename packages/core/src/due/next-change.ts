import type { Policy } from '@dwellward/policy';
import { changesOf } from '../facts/facts.js';
import type { AsOf, InstantText, LineCare } from '../model/care.js';
import type { LineRecord, RecordedTime } from '../model/record.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { timelineOf } from '../timeline/timeline.js';
import { nextPolicyChange, policyAt } from './in-force.js';

/**
 * The next moment at which the care of a line may be other than it is, though nothing new is written to its record:
 * an item opens or falls overdue, a hold ends, the policy changes, what is on record for later begins or ends to count,
 * or a fact that a rule of the policy asks for changes with time alone. Undefined where nothing is in sight.
 *
 * Whoever keeps Tasks in step has to look again just after it. What lies further ahead than `reachDays` is found by the
 * next look.
 *
 * @param care what `dueCare` gives for the same record, policy and moment.
 *
 * Throws a RangeError where `asOf` is not an instant with an offset or `zone` not an IANA zone.
 */
export function nextChange(
  line: LineRecord,
  care: LineCare,
  policy: Policy,
  when: AsOf,
): InstantText | undefined {
  const calendar = new Calendar(when.zone);
  const nowMs = instantMs(when.asOf);
  const policyChange = nextPolicyChange(policy, when);
  const moments = [
    ...care.items.flatMap(({ opens, dueBy }) => [opens, dueBy].map(instantMs)),
    ...care.holds.flatMap(({ until }) => (until === undefined ? [] : [instantMs(until)])),
    ...(policyChange === undefined ? [] : [instantMs(policyChange)]),
    ...onRecordForLater(line, calendar),
    ...byTimeAlone(line, policyAt(policy, when), calendar, nowMs),
  ].filter((ms) => ms > nowMs && Number.isFinite(ms));
  return moments.length === 0 ? undefined : calendar.text(moments.reduce((a, b) => Math.min(a, b)));
}

// A result goes stale within the policy’s limit; what turns at midnight turns tomorrow.
const reachDays = 2;

function onRecordForLater({ events, findings, infusions, orders, patient }: LineRecord, calendar: Calendar) {
  const begins = (time: RecordedTime | undefined) => (time ? [calendar.earliest(time)] : []);
  const ends = (time: RecordedTime | undefined) => (time ? [calendar.latest(time)] : []);
  return [
    ...[...events, ...findings].flatMap(({ at }) => [...begins(at), ...ends(at)]),
    ...[...infusions, ...orders, ...patient.stays].flatMap(({ from, until }) => [
      ...begins(from),
      ...ends(until),
    ]),
    ...patient.measurements.flatMap(({ at }) => begins(at)),
  ];
}

/** When a fact that some rule asks for changes: each tells of itself when it does. */
function byTimeAlone(line: LineRecord, { rules, labStaleAfter }: Policy, calendar: Calendar, nowMs: number) {
  const uses = new Set(
    rules.flatMap(({ applicability, start, stop }) =>
      [applicability, start, stop].flatMap((condition) => condition?.uses ?? []),
    ),
  );
  const reachMs = calendar.add(calendar.add(nowMs, labStaleAfter), { value: reachDays, unit: 'd' });
  return changesOf([...uses], timelineOf(line, calendar, reachMs), labStaleAfter).map(({ ms }) => ms);
}
