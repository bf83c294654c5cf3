import type { LoosenedRule } from '@dwellward/policy';
import type { DueState } from '@dwellward/profiles';
import { allIssues } from '../fhir/due-bundle.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { AsOf, LineCare } from '../model/care.js';
import type { LineRecord, PatientRecord, Records, Ref } from '../model/record.js';
import { unansweredSaid } from '../due/unanswered.js';
import { unknownsOf } from '../due/unknowns.js';
import { keepsFromUse } from '../lumens/use-against-holds.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { questionsInFull } from '../words/questions.js';
import { lumenIs } from '../words/lumen.js';
import { noLineFound, notUnderstoodSaid } from '../words/not-understood.js';
import { speaker, type Say } from '../words/say.js';
import { styler, wrap, type Styler } from '../words/layout.js';
import { oneLine } from '../words/safe-text.js';
import { holdRows } from './hold-rows.js';
import {
  closedLines,
  compareItems,
  compareRows,
  firstStepsIn,
  isEmergency,
  lineHead,
  nameOf,
  sorted,
  together,
  whatIn,
  whyIn,
  type Group,
  type Row,
  type Sorted,
} from './rows.js';

export interface TableOptions {
  /** ANSI colours; never the only sign. */
  readonly colour: boolean;
  /** Columns of the terminal; 0 for no limit. */
  readonly columns: number;
  /** Upcoming items are shown where they open within so many hours; all where absent. The rest are counted. */
  readonly upcomingWithinHours?: number;
  /** What shows those that are only counted: `--all`. */
  readonly showsAll?: string;
  /** What the policy asks less for than its published source: said on top. */
  readonly loosened?: readonly LoosenedRule[];
  /** English where none is given. */
  readonly language?: Language;
}

/** The sign beside the word, for a quick look down the margin. */
const signs: Readonly<Record<DueState, string>> = { overdue: '!!', due: '->', held: '||', upcoming: '..' };

/**
 * Due care for people: by patient and line, overdue first, with local and relative times and the reason.
 * @example
 * ```ts
 * renderTable(records, cares, when, { colour: false, columns: 100 }).includes('Line care due at'); // true
 * ```
 */
export function renderTable(
  records: Records,
  cares: readonly LineCare[],
  when: AsOf,
  options: TableOptions,
): string {
  const calendar = new Calendar(when.zone);
  const say = speaker(options.language ?? english, calendar);
  const view: View = { say, nowMs: instantMs(when.asOf), when, style: styler(options.colour), options };
  const lines = new Map(records.lines.map((line) => [line.ref, line]));
  const rows = cares
    // A removed line has a place while care that follows its removal is still to be done.
    .filter((care) => care.inPlace || care.items.length > 0)
    .map((care): Row => ({
      care,
      line: lines.get(care.line),
      items: care.items.map(sorted).sort(compareItems),
    }))
    .sort(compareRows);
  const byPatient = new Map<Ref, Row[]>();
  for (const row of rows) byPatient.set(row.care.patient, [...(byPatient.get(row.care.patient) ?? []), row]);
  // A patient stands where the most urgent of their lines stands.
  const body = [...byPatient.values()].flatMap((own) => [
    '',
    view.style('strong', patientText(own[0]?.line?.patient, say)),
    ...own.flatMap((row) => lineText(row, view)),
  ]);
  const foot = closedLines(cares, lines).map(say);
  const issues = allIssues(records, cares)
    // What the policy does not answer stands on top.
    .filter(({ code }) => code !== 'unanswered-finding')
    .map(({ resource, path, sentence }) =>
      wrap(`  ${say(sentence)} (${oneLine([...new Set([resource, path])].join(', '))})`, 4, options.columns),
    );
  return [
    ...headText(rows, byPatient.size, calendar, view),
    ...notUnderstoodText(records, view),
    ...cares.flatMap((care) => unansweredText(care, lines.get(care.line), view)),
    ...(options.loosened ?? []).map((rule) => wrap(say({ code: 'asks-for-less', rule }), 4, options.columns)),
    ...body,
    ...(foot.length > 0 ? ['', ...foot] : []),
    ...(issues.length > 0
      ? ['', view.style('strong', say({ code: 'things-to-put-right', count: issues.length })), ...issues]
      : []),
    ...(records.otherBusiness.length > 0
      ? ['', wrap(say({ code: 'other-business', counts: records.otherBusiness }), 2, options.columns)]
      : []),
    '',
    say({ code: 'not-read' }),
    say({ code: 'advice-not-order' }),
    '',
  ].join('\n');
}

// As many as a nurse reads before the list itself.
const mostKinds = 5;

/** What was not understood, before all care: what was charted in it counts for nothing. */
function notUnderstoodText(records: Records, { say, style, options }: View): string[] {
  const none = noLineFound(records);
  const said = notUnderstoodSaid(records.notUnderstood, mostKinds);
  const heads = [...(none ? [none] : []), ...(said ? [said.head] : [])];
  return [
    ...heads.map((one) => style('overdue', wrap(`!! ${say(one)}`, 4, options.columns))),
    ...(said?.kinds ?? []).map((one) => wrap(`     ${say(one)}`, 7, options.columns)),
  ];
}

/** What was found wrong and the policy does not answer, before all care. */
function unansweredText(care: LineCare, line: LineRecord | undefined, view: View): string[] {
  const { say, style, options } = view;
  return unansweredSaid(care).map((sentence) => {
    const where = `${line?.patient.name ?? care.patient}, ${say(nameOf(care.line, line))}`;
    return style('overdue', wrap(`!! ${where}: ${say(sentence)}`, 4, options.columns));
  });
}

function headText(
  rows: readonly Row[],
  patients: number,
  { zone }: Calendar,
  { say, nowMs, style }: View,
): string[] {
  const counts: Record<DueState, number> = { overdue: 0, due: 0, held: 0, upcoming: 0 };
  const items = rows.flatMap((row) => row.items.map(({ item }) => item));
  for (const { state } of items) counts[state] += 1;
  return [
    style('strong', say({ code: 'table-head', at: nowMs, zone })),
    say({
      code: 'table-counts',
      lines: rows.filter(({ care }) => care.inPlace).length,
      planned: rows.filter(({ care }) => care.closed === 'not-inserted-yet').length,
      patients,
      emergencies: items.filter(isEmergency).length,
      ...counts,
    }),
  ];
}

interface View {
  readonly say: Say;
  readonly nowMs: number;
  readonly when: AsOf;
  readonly style: Styler;
  readonly options: TableOptions;
}

function patientText(patient: PatientRecord | undefined, say: Say): string {
  if (!patient) return say({ code: 'patient-not-given' });
  const place = [patient.unit, patient.bed].filter(Boolean).join(', ');
  return oneLine(
    `${patient.name ?? say({ code: 'name-not-known' })} (${patient.ref})${place ? `, ${place}` : ''}`,
  );
}

function lineText({ care, line, items }: Row, view: View): string[] {
  const { say, options } = view;
  const limit = options.upcomingWithinHours;
  const soon = ({ item, opensMs }: Sorted) =>
    item.state !== 'upcoming' || limit === undefined || opensMs <= view.nowMs + limit * 3_600_000;
  const shown = items.filter(soon);
  const later = items.length - shown.length;
  const head = say(lineHead(care, line, view.when));
  return [
    `  ${head}`,
    ...[...care.warnings, ...questionsInFull(shown.map(({ item }) => item))].map((warning) =>
      view.style('overdue', wrap(`    !! ${say(warning)}`, 10, options.columns)),
    ),
    ...holdsText(care, line, view),
    // A lumen that must not be used is told of, also where nothing is to be done.
    ...(shown.length > 0 || care.lumens.some(keepsFromUse) ? lumensText(care, view) : []),
    ...unknownsOf(shown.map(({ item }) => item)).map((unknown) =>
      view.style(
        'upcoming',
        wrap(`    ${say({ code: 'read-protectively', ...unknown })}`, 10, options.columns),
      ),
    ),
    ...together(shown).map((group) => rowText(group, view)),
    ...(later > 0
      ? [
          `    .. ${say({ code: 'open-later', count: later, ...(options.showsAll === undefined ? {} : { how: options.showsAll }) })}`,
        ]
      : []),
  ];
}

function holdsText(
  { holds }: LineCare,
  line: LineRecord | undefined,
  { say, style, options }: View,
): string[] {
  // It says of which lumen: the line under it may have others in use.
  return holdRows(holds, (line?.lumens.length ?? 0) > 1).map((row) =>
    style('held', wrap(`    ${say(row)}`, 10, options.columns)),
  );
}

/** What each lumen is like, quiet where it is nothing to mind. */
function lumensText({ lumens }: LineCare, { say, style, options }: View): string[] {
  return lumens.map((state) =>
    style(keepsFromUse(state) ? 'held' : 'upcoming', wrap(`    ${say(lumenIs(state))}`, 10, options.columns)),
  );
}

/** From here on what is to be done is a column of its own, with the reason beside it. */
const roomForReason = 120;

function rowText(group: Group, view: View): string {
  const { say, nowMs, style, options } = view;
  const [{ item, dueMs }] = group;
  const { state } = item;
  const sign = style(state, `${signs[state]} ${say({ code: 'due-state', state })}`.padEnd(11) + ' ');
  const due = `${say({ code: 'clock', at: dueMs })}  ${say({ code: 'relative', ms: dueMs - nowMs })}`;
  const when = `${due.padEnd(28)} `;
  // A narrow terminal has no room for a column of its own: padding would push the reason beyond its edge.
  const whatColumns = options.columns > 0 && options.columns < roomForReason ? 0 : 46;
  const what = whatIn(group, say).padEnd(whatColumns);
  const why = whyIn(group, say).join(' ');
  const margin = 4 + 12 + 29;
  const plain = `${when}${what}  ${why}`;
  const wrapped = wrap(' '.repeat(16) + plain, margin, options.columns).slice(16);
  return [
    `    ${sign}${wrapped}`,
    ...firstStepsIn(item, say).map((step, i) =>
      wrap(`${' '.repeat(16)}${i + 1}. ${step}`, 19, options.columns),
    ),
  ].join('\n');
}
