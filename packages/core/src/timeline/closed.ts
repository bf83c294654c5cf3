import { activityRow } from '@dwellward/profiles';
import type { LineCare } from '../model/care.js';
import type { CareEvent, LineRecord } from '../model/record.js';
import { plannedState } from './planned-acts.js';
import { removedMs, type Timeline } from './timeline.js';

/** The insertions of a line that are completed, and of which no time can be read. */
export function insertedAtUnknownTime({ events }: LineRecord): readonly CareEvent[] {
  return events.filter(
    ({ activity, status, at }) =>
      activityRow(activity).role === 'begins-line' && status === 'completed' && at === undefined,
  );
}

/** Why a line is not in place at the timeline’s moment; undefined where it is. */
export function closedBecause(timeline: Timeline): LineCare['closed'] {
  if (!timeline.line.valid) return 'entered-in-error';
  if (hasDied(timeline)) return 'patient-deceased';
  if (removedMs(timeline) !== undefined) return 'line-removed';
  const { line, calendar, asOfMs } = timeline;
  if (timeline.insertion) return undefined;
  // It was put in; that nobody can read when does not take it out again.
  if (insertedAtUnknownTime(line).length > 0) return undefined;
  const state = line.planned && plannedState(line.planned, calendar, asOfMs);
  if (line.planned && line.ref === line.planned.ref) {
    // There is no Device yet, so whatever was done was done to prepare.
    return state === 'inserted' ? 'inserted' : state === 'withdrawn' ? 'plan-withdrawn' : 'not-inserted-yet';
  }
  // An insertion that is still to come, and nothing so far but what prepares it.
  const planned =
    state === 'open' ||
    line.events.some(
      ({ activity, status }) =>
        activity === 'insertion' && status !== 'entered-in-error' && status !== 'not-done',
    );
  const used = timeline.events.some(({ fact }) => !activityRow(fact.activity).preparesInsertion);
  return planned && !used && timeline.infusions.length === 0 ? 'not-inserted-yet' : undefined;
}

/** Whether the patient has died by then: also where the record does not say when. */
export function hasDied({ line: { patient }, calendar, asOfMs }: Timeline): boolean {
  const { deceased } = patient;
  return deceased !== undefined && (deceased.at === undefined || calendar.earliest(deceased.at) <= asOfMs);
}
