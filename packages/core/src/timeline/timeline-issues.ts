import { activityRow, type LineCareActivity, type RecordIssueCode } from '@dwellward/profiles';
import type { LineRecord, RecordIssue, Ref } from '../model/record.js';
import { chartedTwiceMs } from './charted-twice.js';
import { insertedAtUnknownTime } from './closed.js';
import type { LineCare } from '../model/care.js';
import type { Part } from '../model/sentences.js';
import { plannedAct } from './planned-acts.js';
import { stillToCome } from './still-to-come.js';
import type { Timeline } from './timeline.js';

// Common practice, no source: an insertion that began late is over, and charted, four hours after its time.
const passedMs = 4 * 3_600_000;

type Add = (
  code: RecordIssueCode,
  resource: Ref,
  path: string,
  severity: RecordIssue['severity'],
  sentence: RecordIssue['sentence'],
  related?: readonly Ref[],
) => void;

/**
 * Contradictions in time that are known at the moment asked for. `afterRemoval` are the activities that the policy
 * itself asks for once the line is out: they are no contradiction.
 */
export function timelineIssues(
  timeline: Timeline,
  closed: LineCare['closed'],
  afterRemoval: ReadonlySet<LineCareActivity>,
): RecordIssue[] {
  const { line } = timeline;
  const issues: RecordIssue[] = [];
  const add: Add = (code, resource, path, severity, sentence, related = []) =>
    issues.push({
      code,
      severity,
      resource,
      path,
      sentence,
      patient: line.patient.ref,
      line: line.ref,
      related,
    });

  if (!line.valid || closed === 'patient-deceased') return issues;
  if (closed === 'inserted' || closed === 'plan-withdrawn') return issues;
  if (closed === 'not-inserted-yet') {
    insertionPassed(timeline, add);
    insertionStillToCome(timeline, add);
    return issues;
  }
  insertionIssues(timeline, add);
  actsStillToCome(timeline, add);
  const last = timeline.insertions.at(-1);
  const removals = timeline.removals.filter(({ ms }) => !last || ms >= last.ms);
  if (new Set(removals.map(({ ms }) => ms)).size > 1) {
    add(
      'several-removals',
      line.ref,
      'Device',
      'high',
      { code: 'more-than-one-removal' },
      removals.map(({ fact }) => fact.ref),
    );
  }
  eventIssues(timeline, removals[0], afterRemoval, add);
  repairIssues(timeline, add);
  return issues;
}

function insertionPassed(timeline: Timeline, add: Add): void {
  const planned = plannedAct(timeline, 'insertion');
  if (planned?.ms === undefined) return;
  // Of a day without an hour, when the day is over.
  const overMs = planned.imprecise ? timeline.calendar.latest(planned.imprecise) : planned.ms + passedMs;
  if (timeline.asOfMs < overMs) return;
  add('planned-time-passed', planned.ref, `${planned.ref.split('/')[0]}.status`, 'moderate', {
    code: 'planned-insertion-passed',
    plannedFor: planned.ms,
  });
}

/**
 * An insertion that is on record as done at a time still to come: a slip of a date has no care asked for until then. Asked
 * about an earlier moment it is as it should be, and said all the same: which of the two it is, the record can’t tell.
 */
function insertionStillToCome({ line, calendar, asOfMs }: Timeline, add: Add): void {
  for (const { ref, activity, status, at } of line.events) {
    if (activityRow(activity).role !== 'begins-line' || status !== 'completed' || at === undefined) continue;
    const ms = calendar.earliest(at);
    if (ms > asOfMs)
      add('conflicting-values', ref, 'Procedure.performed', 'high', {
        code: 'insertion-still-to-come',
        at: ms,
      });
  }
}

/** One sentence for all of a line: a date that slipped is mostly that of a whole round. */
function actsStillToCome({ line, calendar, asOfMs }: Timeline, add: Add): void {
  const all = stillToCome(line, calendar, asOfMs);
  const [first] = all;
  if (first === undefined) return;
  const refs = [...new Set(all.map(({ fact }) => fact.ref))];
  add(
    'conflicting-values',
    first.fact.ref,
    'activity' in first.what ? 'Procedure.performed' : 'Observation.effective',
    'high',
    { code: 'done-still-to-come', what: first.what, at: first.ms, more: refs.length - 1 },
    refs.slice(1),
  );
}

function insertionIssues({ line, insertions, insertion, earliest }: Timeline, add: Add): void {
  if (!insertion) {
    const untimed = insertedAtUnknownTime(line).map(({ ref }) => ref);
    const countsFrom = earliest ? 'earliest-event' : 'nothing';
    add(
      'no-insertion',
      line.ref,
      'Device',
      'moderate',
      { code: untimed.length > 0 ? 'time-of-insertion-not-known' : 'insertion-not-on-record', countsFrom },
      [...untimed, ...(earliest ? [earliest.ref] : [])],
    );
  }
  const places = new Set(insertions.map(({ ms }) => ms));
  if (places.size > 1 && insertion) {
    add(
      'several-insertions',
      line.ref,
      'Device',
      'high',
      { code: 'more-than-one-insertion' },
      insertions.map(({ fact }) => fact.ref),
    );
  }
}

/** Charted twice, or dated before the line was in or after it was out. */
function eventIssues(
  { events, insertion }: Timeline,
  removal: Timeline['removals'][number] | undefined,
  afterRemoval: ReadonlySet<LineCareActivity>,
  add: Add,
): void {
  const doubled = new Set<Ref>();
  for (const { fact, ms, latestMs, twins = [] } of events) {
    for (const twin of twins.filter((ref) => !doubled.has(ref))) {
      doubled.add(twin);
      const apart = (latestMs - ms) / 60_000;
      add(
        'charted-twice',
        twin,
        'Procedure',
        ms + chartedTwiceMs < latestMs ? 'moderate' : 'low',
        { code: 'two-count-as-one', activity: fact.activity, minutesApart: Math.ceil(apart) },
        [fact.ref],
      );
    }
    if (activityRow(fact.activity).role !== undefined) continue;
    if (insertion && latestMs < insertion.ms) {
      add(
        'event-before-insertion',
        fact.ref,
        'Procedure.performed',
        'moderate',
        { code: 'dated-before-insertion', activity: fact.activity },
        [insertion.fact.ref],
      );
    }
    if (removal && ms > removal.latestMs && !afterRemoval.has(fact.activity)) {
      add(
        'event-after-removal',
        fact.ref,
        'Procedure.performed',
        'high',
        { code: 'dated-after-removal', activity: fact.activity },
        [removal.fact.ref],
      );
    }
  }
}

function repairIssues({ line, unclearRepairs }: Timeline, add: Add): void {
  for (const { repair, left } of unclearRepairs) {
    const damaged = [...new Set(left.map(({ lumen }) => lumen))].map((lumen) => partOf(line, lumen));
    add(
      'unknown-lumen',
      repair.fact.ref,
      'Procedure.focalDevice',
      'high',
      repair.fact.lumen === undefined
        ? { code: 'repair-of-unsaid-lumen', damaged }
        : { code: 'repair-of-another-lumen', repaired: partOf(line, repair.fact.lumen), damaged },
      left.map(({ found }) => found.fact.ref),
    );
  }
}

function partOf({ lumens }: LineRecord, lumen: Ref | undefined): Part {
  if (lumen === undefined) return { code: 'line-as-a-whole' };
  return lumens.find(({ ref }) => ref === lumen)?.name ?? { code: 'named', name: lumen };
}
