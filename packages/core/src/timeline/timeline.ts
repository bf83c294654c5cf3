import { activityRow, findingRow, type LineCareActivity, type LineFinding } from '@dwellward/profiles';
import type { Calendar } from './calendar.js';
import { lengthAt, readRemovedCatheter } from './catheter-length.js';
import { withoutTwins } from './charted-twice.js';
import { hangings } from './hangings.js';
import { impliedSets } from './implied-sets.js';
import { impliedStops } from './implied-stops.js';
import { toldLooks } from './told-looks.js';
import type { Target } from '../model/care.js';
import { readDamage, type DamageReading } from './damage.js';
import { countingFinding } from './still-to-come.js';
import { plannedActs, type PlannedAct } from './planned-acts.js';
import type { Timed } from './timed.js';
import type {
  CareEvent,
  Finding,
  Infusion,
  LineRecord,
  Measurement,
  RecordedTime,
  Ref,
} from '../model/record.js';

/** What is known of a line at a moment: nothing later than `asOfMs` exists. Everything is in the order of time. */
export interface Timeline {
  readonly line: LineRecord;
  readonly calendar: Calendar;
  readonly asOfMs: number;
  /** Completed events only; one that was charted twice stands once. */
  readonly events: readonly Timed<CareEvent>[];
  /** Ends of infusions that no event of their own tells of; the same events to `eventsOn`. */
  readonly impliedStops: readonly Timed<CareEvent>[];
  /** New sets that only the start of an infusion tells of; set changes to `eventsOn`. */
  readonly impliedSets: readonly Timed<CareEvent>[];
  /** When what runs out of a bag with a hang time was hung; bag changes to `eventsOn`. */
  readonly hangings: readonly Timed<CareEvent>[];
  /** Looks that only a finding tells of; the same events to `eventsOn`. */
  readonly toldLooks: readonly Timed<CareEvent>[];
  readonly findings: readonly Timed<Finding>[];
  /** What was found damaged, with the end of each; and the repairs that left some of it standing. */
  readonly damages: DamageReading['damages'];
  readonly unclearRepairs: DamageReading['unclearRepairs'];
  readonly infusions: readonly (Timed<Infusion> & { readonly untilMs?: number })[];
  readonly measurements: readonly Timed<Measurement>[];
  readonly insertions: readonly Timed<CareEvent>[];
  readonly removals: readonly Timed<CareEvent>[];
  /** What is planned and still to come, the earliest first. */
  readonly planned: readonly PlannedAct[];
  /** The first insertion: the earlier reading where there are several. */
  readonly insertion?: Timed<CareEvent>;
  /** Where no insertion is on record: the earliest sign that the line was in. */
  readonly earliest?: { readonly ref: Ref; readonly ms: number; readonly imprecise?: RecordedTime };
}

/** Places the record in time and leaves out what lies after `asOfMs` or does not count. */
export function timelineOf(line: LineRecord, calendar: Calendar, asOfMs: number): Timeline {
  const placed = <Fact>(
    facts: readonly Fact[],
    timeOf: (fact: Fact) => RecordedTime | undefined,
    refOf: (fact: Fact) => string,
  ) =>
    facts
      .flatMap((fact) => {
        const time = timeOf(fact);
        return time ? [timed(fact, time, calendar)] : [];
      })
      .filter(({ ms }) => ms <= asOfMs)
      .sort((a, b) => a.ms - b.ms || compareText(refOf(a.fact), refOf(b.fact)));

  const charted = placed(
    line.events.filter(({ status }) => status === 'completed'),
    ({ at }) => at,
    ({ ref, lumen }) => `${ref}\u0000${lumen ?? ''}`,
  );
  const all = placed(
    line.findings.filter(({ status }) => countingFinding.has(status)),
    ({ at }) => at,
    ({ ref, lumen }) => `${ref}\u0000${lumen ?? ''}`,
  );
  const infusions = line.infusions
    .map((fact) => {
      const from = fact.from
        ? timed(fact, fact.from, calendar)
        : { fact, ms: -Infinity, latestMs: -Infinity };
      return { ...from, ...(fact.until ? { untilMs: calendar.latest(fact.until) } : {}) };
    })
    .filter(({ ms }) => ms <= asOfMs)
    .sort((a, b) => a.ms - b.ms || compareText(a.fact.ref, b.fact.ref));
  const charts = withoutTwins(line, charted, infusions);
  const once = charts.filter(({ fact, latestMs }) => !fact.ofPatient || wasIn(charts, latestMs));
  const seen = all.filter(({ fact, latestMs }) => !fact.ofPatient || wasIn(once, latestMs));
  const length = lengthAt(line, seen, once, calendar);
  const findings = seen.map((one) => ({ ...one, fact: readRemovedCatheter(one.fact, length) }));
  const { events, damages, unclearRepairs } = readDamage(line, once, findings);
  const measurements = placed(
    line.patient.measurements,
    ({ at }) => at,
    ({ refs }) => refs.join(),
  );
  const insertions = events.filter(({ fact }) => fact.activity === 'insertion');
  const [insertion] = insertions;
  const earliest = insertion
    ? undefined
    : earliestSign(
        events.filter(({ fact }) => !fact.ofPatient),
        findings.filter(({ fact }) => !fact.ofPatient),
        infusions,
      );
  return {
    // What is worked out from the line’s and the patient’s own values must not see later ones either.
    line: {
      ...line,
      ...(length ? { length } : {}),
      patient: { ...line.patient, measurements: measurements.map(({ fact }) => fact) },
    },
    calendar,
    asOfMs,
    events,
    impliedStops: impliedStops(line, infusions, events, calendar, asOfMs),
    impliedSets: impliedSets(line, infusions, events),
    hangings: hangings(line, infusions, asOfMs),
    toldLooks: toldLooks(findings, events),
    findings,
    damages,
    unclearRepairs,
    infusions,
    measurements,
    insertions,
    removals: events.filter(({ fact }) => fact.activity === 'removal'),
    planned: plannedActs(line, calendar, asOfMs, insertion !== undefined),
    ...(insertion ? { insertion } : {}),
    ...(earliest ? { earliest } : {}),
  };
}

/** When the line was removed; undefined while it is in, also where it is in anew. */
export function removedMs({ removals, insertions }: Timeline): number | undefined {
  const removed = removals.at(-1);
  const inserted = insertions.at(-1);
  return removed && !(inserted && inserted.ms > removed.ms) ? removed.ms : undefined;
}

/** Whether the line was in at a moment; one whose insertion is not on record counts as in until it was removed. */
function wasIn(events: readonly Timed<CareEvent>[], ms: number): boolean {
  const roleOf = ({ fact }: Timed<CareEvent>) => activityRow(fact.activity).role;
  const turns = events.filter((one) => roleOf(one) !== undefined);
  const last = turns.filter((one) => one.ms <= ms).at(-1);
  if (last) return roleOf(last) === 'begins-line';
  const [first] = turns;
  return first === undefined || roleOf(first) !== 'begins-line';
}

function timed<Fact>(fact: Fact, time: RecordedTime, calendar: Calendar): Timed<Fact> {
  return {
    fact,
    ms: calendar.earliest(time),
    latestMs: calendar.latest(time),
    ...(time.precision === 'instant' ? {} : { imprecise: time }),
  };
}

function earliestSign(...lists: readonly (readonly Timed<{ readonly ref: Ref }>[])[]): Timeline['earliest'] {
  const [first] = lists
    .flat()
    .filter(({ ms }) => Number.isFinite(ms))
    .sort((a, b) => a.ms - b.ms || compareText(a.fact.ref, b.fact.ref));
  return (
    first && { ref: first.fact.ref, ms: first.ms, ...(first.imprecise ? { imprecise: first.imprecise } : {}) }
  );
}

/**
 * The events of an activity that count for a target, in the order of time; to the infusion stops belong those that only
 * the end of an infusion tells of, to the set changes the new sets that only its start tells of, to the looks those that
 * only what was found tells of.
 */
export function eventsOn(
  timeline: Timeline,
  activity: LineCareActivity,
  target: Target,
): readonly Timed<CareEvent>[] {
  return remembered(timeline, `done ${activity} ${target.scope} ${target.ref}`, () =>
    eventsOf(timeline, activity)
      // That the line was put in, or taken out, concerns every part of it.
      .filter(({ fact }) => activityRow(activity).role !== undefined || isOn(timeline, fact, target))
      // One event on several lumens is on their line once: it can't have met what counts from itself.
      .filter(({ fact }, i, all) => all[i - 1]?.fact.ref !== fact.ref),
  );
}

// Rules ask the same of a target again and again, and a timeline never changes.
const memories = new WeakMap<Timeline, Map<string, readonly Timed<never>[]>>();

function remembered<Fact>(
  timeline: Timeline,
  key: string,
  found: () => readonly Timed<Fact>[],
): readonly Timed<Fact>[] {
  const memory = memories.get(timeline) ?? new Map<string, readonly Timed<never>[]>();
  memories.set(timeline, memory);
  const known = memory.get(key) as readonly Timed<Fact>[] | undefined;
  if (known) return known;
  const fresh = found();
  memory.set(key, fresh as readonly Timed<never>[]);
  return fresh;
}

function eventsOf(
  { events, impliedStops, impliedSets, hangings: hung, toldLooks: told }: Timeline,
  activity: LineCareActivity,
) {
  const own = events.filter(({ fact }) => fact.activity === activity);
  const { impliedBy } = activityRow(activity);
  const of = { 'start-of-infusion': impliedSets, 'end-of-infusion': impliedStops, 'what-hangs': hung };
  const implied = [
    ...(impliedBy ? of[impliedBy] : []),
    ...told.filter(({ fact }) => fact.activity === activity),
  ];
  if (implied.length === 0) return own;
  return [...own, ...implied].sort((a, b) => a.ms - b.ms || compareText(a.fact.ref, b.fact.ref));
}

export { shows } from './shows.js';

/** The findings that count for a target, in the order of time. */
export function findingsOn(
  timeline: Timeline,
  finding: LineFinding,
  target: Target,
): readonly Timed<Finding>[] {
  return remembered(timeline, `found ${finding} ${target.scope} ${target.ref}`, () =>
    timeline.findings.filter(
      (one) =>
        one.fact.finding === finding &&
        isOn(timeline, one.fact, target) &&
        (target.scope !== 'line' || !saysNothingOfLine(timeline, one)),
    ),
  );
}

/** Whether a finding that is about the whole line was charted on one of several lumens, and not on all at that time. */
export function saysNothingOfLine({ findings, line }: Timeline, { fact, ms }: Timed<Finding>): boolean {
  if (!findingRow(fact.finding).wholeLine || fact.lumen === undefined || line.lumens.length < 2) return false;
  const says = ({ finding, values, flag }: Finding) => JSON.stringify([finding, values, flag]);
  const same = findings.filter((one) => one.ms === ms && says(one.fact) === says(fact));
  return !line.lumens.every(({ ref }) => same.some((one) => one.fact.lumen === ref));
}

/**
 * Whether something that was done or seen counts for a target. What was done to a lumen counts for its line; what was
 * done to a line counts for its lumen only where there is no other.
 */
export function isOn(
  timeline: Timeline,
  fact: { readonly lumen?: Ref; readonly site?: 'exit-site' | 'incision' },
  target: Target,
): boolean {
  switch (target.scope) {
    case 'line':
      return true;
    case 'lumen':
      return fact.lumen === target.ref || (fact.lumen === undefined && timeline.line.lumens.length === 1);
    case 'exit-site':
    case 'incision':
      return fact.site === target.scope;
  }
}

/** By code units: the order of no language. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
