import type { Policy } from '@dwellward/policy';
import { allIssues } from '../fhir/due-bundle.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { LineCare } from '../model/care.js';
import { CoreError } from '../model/error.js';
import type { Remark, Sentence } from '../model/sentences.js';
import { compareText } from '../timeline/timeline.js';
import { sentenceKey } from '../words/keys.js';
import type { LineRecord, RecordIssue, Records, Ref } from '../model/record.js';
import { policyAt } from '../due/in-force.js';
import { unansweredSaid } from '../due/unanswered.js';
import { doneItems } from './done.js';
import type {
  Handover,
  HandoverOf,
  HandoverWarning,
  LineHandover,
  PatientHandover,
  Shift,
  ShiftItem,
} from './model.js';
import { compareShiftItems, heldForNow, projectedItems, shiftItem } from './projection.js';
import { addSupplies, suppliesOf } from './supplies.js';

/**
 * What one shift hands to the next: of every patient and line what is overdue when the shift begins, what falls due in
 * it, what the shift before did and missed, holds, warnings, and what to take.
 *
 * `cares` is due care at `shift.from`, as `dueCare` gives it for the lines of `records`; a line without its care is
 * left out. What is due at the first moment of the shift belongs to it, what is due at its last to the next one.
 * `expected` items are not open care: they follow if the open ones are done on time and nothing else is charted.
 *
 * Pure and deterministic. Throws a CoreError where a time of the shift is not an instant with an offset, where it
 * does not end after it begins, or where the zone is not an IANA zone.
 *
 * It advises and never orders: local policy, the device's and the drug's own instructions and the licensed clinician
 * come first.
 * @example
 * ```ts
 * const shift = { from: when.asOf, to: '2026-11-25T19:30:00+01:00', zone: when.zone };
 * handover(records, cares, policy, shift).patients.length > 0; // true
 * ```
 */
export function handover(
  records: Records,
  cares: readonly LineCare[],
  policy: Policy,
  shift: Shift,
  of: HandoverOf = {},
): Handover {
  const calendar = new Calendar(shift.zone);
  const fromMs = instantMs(shift.from);
  const toMs = instantMs(shift.to);
  if (toMs <= fromMs)
    throw new CoreError('empty-shift', 'The shift must end after it begins.', {
      given: shift.to,
      accepted: `an instant after ${shift.from}`,
    });
  const previousMs =
    shift.previousFrom === undefined ? fromMs - (toMs - fromMs) : instantMs(shift.previousFrom);
  if (previousMs >= fromMs)
    throw new CoreError('empty-shift', 'The shift before must begin before this one.', {
      given: shift.previousFrom,
      accepted: `an instant before ${shift.from}`,
    });
  const span = { previousMs, fromMs, toMs };

  const careOf = new Map(cares.map((care) => [care.line, care]));
  const wanted = records.lines
    .filter(({ patient }) => belongs(patient, of))
    .sort((a, b) => compareText(a.ref, b.ref));
  const issues = allIssues(records, cares);
  const byPatient = new Map<Ref, { record: LineRecord; lines: LineHandover[] }>();
  for (const line of wanted) {
    const care = careOf.get(line.ref);
    if (!care) continue;
    const one = lineHandover(line, care, policy, calendar, span, issues);
    // A line that is out, or not in yet, is news only where something was done or is to be done.
    const told = [one.done, one.overdue, one.due, one.held, one.early];
    // That a patient has died is told: a name that only vanished from the list would be looked for.
    const news = care.closed === 'patient-deceased' || care.unanswered.length > 0;
    if (!care.inPlace && told.every((list) => list.length === 0) && !news) continue;
    const known = byPatient.get(line.patient.ref);
    if (known) known.lines.push(one);
    else byPatient.set(line.patient.ref, { record: line, lines: [one] });
  }
  const patients = [...byPatient.values()]
    .map(({ record: { patient }, lines }): PatientHandover => ({
      patient: patient.ref,
      ...(patient.name === undefined ? {} : { name: patient.name }),
      ...(patient.unit === undefined ? {} : { unit: patient.unit }),
      ...(patient.bed === undefined ? {} : { bed: patient.bed }),
      emergency: lines.some(hasEmergency),
      lines: [...lines].sort(
        (a, b) => Number(hasEmergency(b)) - Number(hasEmergency(a)) || compareText(a.line, b.line),
      ),
      warnings: issues
        .filter((issue) => issue.line === undefined && issue.patient === patient.ref)
        .map(recordWarning),
      supplies: addSupplies(lines.map(({ supplies }) => supplies)),
    }))
    .sort(comparePatients);
  return {
    previousFrom: calendar.text(previousMs),
    from: calendar.text(fromMs),
    to: calendar.text(toMs),
    zone: calendar.zone,
    patients,
    warnings: issues
      .filter(({ line, patient }) => line === undefined && patient === undefined)
      .map(recordWarning),
    notUnderstood: notUnderstoodOf(records, new Set(byPatient.keys())),
    loosened: loosenedSaid(policy, shift),
    withoutUnit:
      of.unit === undefined
        ? []
        : [
            ...new Set(
              records.lines.filter(({ patient }) => !patient.unit).map(({ patient }) => patient.ref),
            ),
          ].sort(compareText),
    supplies: addSupplies(patients.map(({ supplies }) => supplies)),
  };
}

/** What was not understood of these patients, of patients without a line, and of nobody. */
function notUnderstoodOf({ lines, notUnderstood }: Records, told: ReadonlySet<Ref>) {
  const withLines = new Set(lines.map(({ patient }) => patient.ref));
  return notUnderstood.filter(({ patients }) =>
    patients.some(({ patient }) => patient === undefined || told.has(patient) || !withLines.has(patient)),
  );
}

/** What the policy in force when the shift begins asks less for than its published source. */
function loosenedSaid(policy: Policy, { from, zone }: Shift): Sentence<'asks-for-less'>[] {
  const { loosened = [] } = policyAt(policy, { asOf: from, zone });
  return loosened.map((rule) => ({ code: 'asks-for-less', rule }));
}

function belongs({ ref, unit }: LineRecord['patient'], of: HandoverOf): boolean {
  if (of.patient !== undefined && of.patient !== ref) return false;
  return of.unit === undefined || unit?.trim().toLowerCase() === of.unit.trim().toLowerCase();
}

interface Spans {
  readonly previousMs: number;
  readonly fromMs: number;
  readonly toMs: number;
}

function lineHandover(
  line: LineRecord,
  care: LineCare,
  policy: Policy,
  calendar: Calendar,
  { previousMs, fromMs, toMs }: Spans,
  issues: readonly RecordIssue[],
): LineHandover {
  // What can’t be computed now can’t be at another moment either.
  const items = care.notComputed ? [] : projectedItems(line, care, policy, calendar.zone, { fromMs, toMs });
  const held = items.filter(heldForNow);
  const overdue = items.filter((item) => !heldForNow(item) && instantMs(item.dueBy) < fromMs);
  const due = items.filter((item) => !heldForNow(item) && instantMs(item.dueBy) >= fromMs);
  const early = care.items
    .filter(({ opens, dueBy }) => instantMs(opens) < toMs && instantMs(dueBy) >= toMs)
    .map((item) => shiftItem(item, 'open', item.id, 0))
    .filter((item) => !heldForNow(item))
    .sort(compareShiftItems);
  return {
    line: line.ref,
    name: line.name,
    ...(line.type ? { type: line.type } : {}),
    lumens: line.lumens.length,
    ...(care.closed ? { closed: care.closed } : {}),
    ...(care.plannedFor === undefined ? {} : { plannedFor: care.plannedFor }),
    overdue,
    due,
    held,
    early,
    done: care.notComputed
      ? []
      : doneItems(line, care, policy, calendar, { fromMs: previousMs, toMs: fromMs }),
    missed: overdue.filter(({ dueBy }) => instantMs(dueBy) >= previousMs),
    holds: care.holds,
    lumenStates: care.lumens,
    onTop: care.warnings,
    unanswered: unansweredSaid(care),
    warnings: [
      ...issues
        .filter(({ line: ref, code }) => ref === line.ref && code !== 'unanswered-finding')
        .map(recordWarning),
      ...readingWarnings([...overdue, ...due, ...held, ...early]),
    ],
    supplies: suppliesOf([...overdue, ...due, ...held]),
  };
}

function recordWarning({ code, severity, resource, sentence }: RecordIssue): HandoverWarning {
  return { kind: 'record', code, severity, resource, text: sentence };
}

/** Remarks that only tell how the time came about, which the lists show already. */
const aboutTime: ReadonlySet<Remark['code']> = new Set([
  'held',
  'applies-since',
  'opens-after-spacing',
  'asked-again',
  // It stands with its row.
  'also-asked',
]);

/** What was read comes first, then what moved an item, then what is not known. */
const remarkOrder: Readonly<Record<Remark['code'], number>> = {
  'removed-catheter-read-as': 0,
  'length-on-record': 0,
  'body-temperature': 0,
  emergency: 1,
  'also-asked': 1,
  'counted-from-start-of': 2,
  'counted-from-earliest-event': 2,
  'asked-for-since': 3,
  'moved-by-version': 3,
  'judged-by-version': 3,
  'protective-reading': 4,
  'nothing-to-count-from': 5,
  'of-fact': 6,
  held: 7,
  'applies-since': 7,
  'opens-after-spacing': 7,
  'asked-again': 7,
};

/** Every other remark says that something is not known: a new kind of remark is told rather than left out. */
function readingWarnings(items: readonly ShiftItem[]): HandoverWarning[] {
  const found = new Map<string, { remark: Remark; activities: Set<ShiftItem['activity']> }>();
  for (const { kind, activity, remarks } of items) {
    if (kind === 'expected') continue;
    for (const remark of remarks) {
      if (aboutTime.has(remark.code)) continue;
      const key = sentenceKey(remark);
      const known = found.get(key) ?? { remark, activities: new Set() };
      known.activities.add(activity);
      found.set(key, known);
    }
  }
  return [...found]
    .sort(
      ([a, { remark: one }], [b, { remark: other }]) =>
        remarkOrder[one.code] - remarkOrder[other.code] || compareText(a, b),
    )
    .map(([, { remark, activities }]) => ({
      kind: 'reading',
      text: remark,
      activities: [...activities].sort(compareText),
    }));
}

function hasEmergency({ overdue, due, held, early }: LineHandover): boolean {
  return [...overdue, ...due, ...held, ...early].some(({ priority }) => priority === 'stat');
}

function comparePatients(a: PatientHandover, b: PatientHandover): number {
  return (
    Number(b.emergency) - Number(a.emergency) ||
    compareByNumber(a.unit ?? '', b.unit ?? '') ||
    compareByNumber(a.bed ?? '', b.bed ?? '') ||
    compareText(a.patient, b.patient)
  );
}

/** By code units, but the first number in it as a number: bed 2 stands before bed 10. */
function compareByNumber(a: string, b: string): number {
  const [x, y] = [/^(\D*)(\d+)/.exec(a), /^(\D*)(\d+)/.exec(b)];
  if (x && y && x[1] === y[1]) return Number(x[2]) - Number(y[2]) || compareText(a, b);
  return compareText(a, b);
}
