import { activityRow, type LineCareActivity, type RecordIssueCode } from '@dwellward/profiles';
import type { LineRecord, RecordIssue, Ref } from '../model/record.js';
import { chartedTwiceMs } from './charted-twice.js';
import type { LineCare } from '../model/care.js';
import { plannedAct } from './planned-acts.js';
import type { Timeline } from './timeline.js';

// Common practice, no source: an insertion that began late is over, and charted, four hours after its time.
const passedMs = 4 * 3_600_000;

/**
 * Contradictions in time that are known at the moment asked for. `afterRemoval` are the activities that the policy
 * itself asks for once the line is out: they are no contradiction.
 */
export function timelineIssues(
  timeline: Timeline,
  closed: LineCare['closed'],
  afterRemoval: ReadonlySet<LineCareActivity>,
): RecordIssue[] {
  const { line, insertions, insertion, earliest, removals } = timeline;
  const issues: RecordIssue[] = [];
  const add = (
    code: RecordIssueCode,
    resource: Ref,
    path: string,
    severity: RecordIssue['severity'],
    message: string,
    related: readonly Ref[] = [],
  ) =>
    issues.push({
      code,
      severity,
      resource,
      path,
      message,
      patient: line.patient.ref,
      line: line.ref,
      related,
    });

  if (!line.valid) return issues;
  if (closed === 'not-inserted-yet') {
    const plan = plannedAct(timeline, 'insertion');
    // Of a day without an hour, when the day is over.
    const overMs =
      plan?.ms === undefined
        ? Infinity
        : plan.imprecise
          ? timeline.calendar.latest(plan.imprecise)
          : plan.ms + passedMs;
    if (plan?.ms !== undefined && timeline.asOfMs >= overMs) {
      add(
        'planned-time-passed',
        plan.ref,
        `${plan.ref.split('/')[0]}.status`,
        'moderate',
        `The insertion was planned for ${timeline.calendar.text(plan.ms)}, and none is on record: chart it, or move or withdraw the plan. Its preparation stays due.`,
      );
    }
    return issues;
  }
  if (closed === 'inserted' || closed === 'plan-withdrawn') return issues;
  if (!insertion) {
    const from = earliest ? 'its earliest event is counted from' : 'and nothing else to count from';
    add(
      'no-insertion',
      line.ref,
      'Device',
      'moderate',
      `No insertion of this line is on record: ${from}.`,
      earliest ? [earliest.ref] : [],
    );
  }
  const places = new Set(insertions.map(({ ms }) => ms));
  if (places.size > 1 && insertion) {
    add(
      'several-insertions',
      line.ref,
      'Device',
      'high',
      'More than one insertion of this line is on record; the first is counted from.',
      insertions.map(({ fact }) => fact.ref),
    );
  }
  const lastInsertion = insertions.at(-1);
  const removal = removals.find(({ ms }) => !lastInsertion || ms >= lastInsertion.ms);
  const outs = removals.filter(({ ms }) => !lastInsertion || ms >= lastInsertion.ms);
  if (new Set(outs.map(({ ms }) => ms)).size > 1) {
    add(
      'several-removals',
      line.ref,
      'Device',
      'high',
      'More than one removal of this line is on record; what follows a removal counts from the last.',
      outs.map(({ fact }) => fact.ref),
    );
  }
  const doubled = new Set<Ref>();
  for (const { fact, ms, latestMs, twins = [] } of timeline.events) {
    for (const twin of twins.filter((ref) => !doubled.has(ref))) {
      doubled.add(twin);
      const apart = (latestMs - ms) / 60_000;
      add(
        'charted-twice',
        twin,
        'Procedure',
        ms + chartedTwiceMs < latestMs ? 'moderate' : 'low',
        `The ${fact.activity} is on record twice, up to ${Math.ceil(apart)} min apart; the two count as one, done at the earlier time.`,
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
        `The ${fact.activity} is dated before the line was inserted.`,
        [insertion.fact.ref],
      );
    }
    if (removal && ms > removal.latestMs && !afterRemoval.has(fact.activity)) {
      add(
        'event-after-removal',
        fact.ref,
        'Procedure.performed',
        'high',
        `The ${fact.activity} is dated after the line was removed.`,
        [removal.fact.ref],
      );
    }
  }
  for (const { repair, left } of timeline.unclearRepairs) {
    const what = [...new Set(left.map(({ lumen }) => nameOf(line, lumen)))].join(' and ');
    add(
      'unknown-lumen',
      repair.fact.ref,
      'Procedure.focalDevice',
      'high',
      repair.fact.lumen === undefined
        ? `The repair does not say of which lumen: damage of ${what} was on record. It stands until a repair names its lumen.`
        : `The repair names ${nameOf(line, repair.fact.lumen)}, the damage ${what}: it stands until the line, or each of its lumens, was repaired.`,
      left.map(({ found }) => found.fact.ref),
    );
  }
  return issues;
}

function nameOf({ lumens }: LineRecord, lumen: Ref | undefined): string {
  if (lumen === undefined) return 'the line as a whole';
  return lumens.find(({ ref }) => ref === lumen)?.name ?? lumen;
}
