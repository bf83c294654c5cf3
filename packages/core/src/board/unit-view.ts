import type { Policy } from '@dwellward/policy';
import type { DueState, LineCareActivity } from '@dwellward/profiles';
import { policyAt } from '../due/in-force.js';
import { allIssues } from '../fhir/due-bundle.js';
import type { AsOf, LineCare } from '../model/care.js';
import type { Records, Ref } from '../model/record.js';
import { closedLines, compareItems, compareRows, isEmergency, sorted, type Row } from '../table/rows.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { noLineFound, notUnderstoodSaid } from '../words/not-understood.js';
import { speaker, type Say } from '../words/say.js';
import { groupsOf, laneOf } from './lane.js';
import { loadOf } from './load.js';
import { shiftsOf, usualShifts } from './shifts.js';
import type { BoardNotice, BoardPatient, UnitView } from './model.js';

export interface UnitViewOptions {
  /** Minutes that the unit takes each activity to need; the load counts items alone of the others. */
  readonly minutes?: Readonly<Partial<Record<LineCareActivity, number>>>;
  /** Hours of the day at which shifts begin, from 0 to 23; 7 and 19 where absent: common practice, no source. */
  readonly shifts?: readonly number[];
  /** English where none is given. */
  readonly language?: Language;
}

// As many as a nurse reads before the list itself.
const mostKinds = 5;

/**
 * The unit at a moment, in words, for whoever draws it: what stands on top, the load of the next 24 hours, and every line
 * with its holds and its care, the most pressing first. It decides nothing: all of it is in the care already.
 * @param records what the care was computed from. @param cares the care of each line, at `when`.
 * @example
 * ```ts
 * unitView(records, cares, policy, when).load.length; // 24
 * ```
 */
export function unitView(
  records: Records,
  cares: readonly LineCare[],
  policy: Policy,
  when: AsOf,
  { minutes = {}, shifts = usualShifts, language = english }: UnitViewOptions = {},
): UnitView {
  const calendar = new Calendar(when.zone);
  const say = speaker(language, calendar);
  const nowMs = instantMs(when.asOf);
  const lines = new Map(records.lines.map((line) => [line.ref, line]));
  const rows = cares
    .filter((care) => care.inPlace || care.items.length > 0 || care.notComputed === true)
    .map((care): Row => ({
      care,
      line: lines.get(care.line),
      items: care.items.map(sorted).sort(compareItems),
    }))
    .sort(compareRows);
  const groups = rows.flatMap(({ care }) => groupsOf(care));
  const patients = patientsOf(rows, when, say);
  const issues = allIssues(records, cares).filter(({ code }) => code !== 'unanswered-finding');
  const counts = countsOf(rows, patients.length);
  return {
    at: calendar.text(nowMs),
    zone: when.zone,
    language: language.tag,
    headText: say({ code: 'table-head', at: nowMs, zone: when.zone }),
    countsText: say({ code: 'table-counts', planned: plannedIn(rows), ...counts }),
    counts,
    notices: noticesOf(records, rows, patients, say),
    load: loadOf(groups, calendar, nowMs, minutes),
    shifts: shiftsOf(groups, calendar, nowMs, shifts, say),
    patients,
    notInPlace: closedLines(cares, lines).map(say),
    issues: issues.map(
      ({ resource, path, sentence }) => `${say(sentence)} (${[...new Set([resource, path])].join(', ')})`,
    ),
    issuesText: say({ code: 'things-to-put-right', count: issues.length }),
    loosened: (policyAt(policy, when).loosened ?? []).map((rule) => say({ code: 'asks-for-less', rule })),
    cautions: [
      ...(records.otherBusiness.length > 0
        ? [say({ code: 'other-business', counts: records.otherBusiness })]
        : []),
      say({ code: 'not-read' }),
      say({ code: 'advice-not-order' }),
    ],
  };
}

function plannedIn(rows: readonly Row[]): number {
  return rows.filter(({ care }) => care.closed === 'not-inserted-yet').length;
}

function countsOf(rows: readonly Row[], patients: number): UnitView['counts'] {
  const states: Record<DueState, number> = { overdue: 0, due: 0, held: 0, upcoming: 0 };
  const items = rows.flatMap((row) => row.items.map(({ item }) => item));
  for (const { state } of items) states[state] += 1;
  return {
    lines: rows.filter(({ care }) => care.inPlace).length,
    patients,
    emergencies: items.filter(isEmergency).length,
    ...states,
  };
}

/** In the order of the rows: a patient stands where the most urgent of their lines stands. */
function patientsOf(rows: readonly Row[], when: AsOf, say: Say): BoardPatient[] {
  const byPatient = new Map<Ref, Row[]>();
  for (const row of rows) byPatient.set(row.care.patient, [...(byPatient.get(row.care.patient) ?? []), row]);
  return [...byPatient].map(([patient, own]) => {
    const known = own.find(({ line }) => line !== undefined)?.line?.patient;
    return {
      patient,
      name: known?.name ?? say({ code: 'name-not-known' }),
      ...(known?.unit === undefined ? {} : { unit: known.unit }),
      ...(known?.bed === undefined ? {} : { bed: known.bed }),
      lines: own.map(({ care, line }) => laneOf({ care, line, when, say })),
    };
  });
}

/** What stands on top: emergencies with what is done first, what no rule answers, what was not understood. */
function noticesOf(
  records: Records,
  rows: readonly Row[],
  patients: readonly BoardPatient[],
  say: Say,
): BoardNotice[] {
  const ofLines = patients.flatMap(({ name, bed, lines }) =>
    lines.flatMap((lane): BoardNotice[] => {
      const where = [bed, name, lane.name].filter(Boolean).join(', ');
      return [
        ...lane.rows
          .filter(({ emergency, state }) => emergency && state !== 'upcoming')
          .map(({ text, relativeText, why, firstSteps }) => ({
            kind: 'emergency' as const,
            text: `${where}: ${text} (${relativeText}). ${why[0] ?? ''}`.trim(),
            more: firstSteps,
            line: lane.line,
          })),
        ...(lane.notComputed
          ? [{ kind: 'not-computed' as const, text: where, more: lane.warnings, line: lane.line }]
          : []),
        ...lane.unanswered.map((text) => ({
          kind: 'unanswered' as const,
          text: `${where}: ${text}`,
          more: [],
          line: lane.line,
        })),
      ];
    }),
  );
  const none = noLineFound(records);
  const not = notUnderstoodSaid(records.notUnderstood, mostKinds);
  const order: readonly BoardNotice['kind'][] = ['emergency', 'not-computed', 'unanswered', 'not-understood'];
  return [
    ...ofLines,
    ...(none && rows.length === 0 ? [{ kind: 'not-understood' as const, text: say(none), more: [] }] : []),
    ...(not ? [{ kind: 'not-understood' as const, text: say(not.head), more: not.kinds.map(say) }] : []),
  ].sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
}
