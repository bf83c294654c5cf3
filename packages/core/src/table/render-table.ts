import { displayOf, type DueState } from '@dwellward/profiles';
import { scheduleText } from '@dwellward/policy';
import { allIssues } from '../fhir/due-bundle.js';
import { Calendar, instantMs } from '../due/calendar.js';
import type { AsOf, DueItem, LineCare } from '../due/model.js';
import { compareText } from '../due/timeline.js';
import type { LineRecord, PatientRecord, Records, Ref } from '../record/model.js';
import { clockText, relativeText, styler, wrap, type Styler } from './words.js';

export interface TableOptions {
  /** ANSI colours; never the only sign. */
  readonly colour: boolean;
  /** Columns of the terminal; 0 for no limit. */
  readonly columns: number;
  /** Upcoming items are shown where they open within so many hours; all where absent. The rest are counted. */
  readonly upcomingWithinHours?: number;
}

const order: Readonly<Record<DueState, number>> = { overdue: 0, due: 1, held: 2, upcoming: 3 };
/** The sign beside the word, for a quick look down the margin. */
const signs: Readonly<Record<DueState, string>> = { overdue: '!!', due: '->', held: '||', upcoming: '..' };

/** Due care for people: by patient and line, overdue first, with local and relative times and the reason. */
export function renderTable(
  records: Records,
  cares: readonly LineCare[],
  when: AsOf,
  options: TableOptions,
): string {
  const calendar = new Calendar(when.zone);
  const nowMs = instantMs(when.asOf);
  const style = styler(options.colour);
  const lines = new Map(records.lines.map((line) => [line.ref, line]));
  const inPlace = cares.filter((care) => care.inPlace);
  const items = inPlace.flatMap((care) => care.items);
  const count = (state: DueState) => items.filter((item) => item.state === state).length;
  const head = [
    style('strong', `Line care due at ${clockText(nowMs, calendar)} (${calendar.zone})`),
    `${plural(inPlace.length, 'line')} in place, ${plural(new Set(inPlace.map(({ patient }) => patient)).size, 'patient')}: ` +
      `${count('overdue')} overdue, ${count('due')} due, ${count('held')} held, ${count('upcoming')} upcoming`,
  ];
  const view: View = { calendar, nowMs, style, options };
  const byPatient = new Map<Ref, LineCare[]>();
  for (const care of inPlace) byPatient.set(care.patient, [...(byPatient.get(care.patient) ?? []), care]);
  const patients = [...byPatient.values()].sort((a, b) => compareUrgency(a, b));
  const body = patients.flatMap((own) => {
    const [first] = own;
    const patient = first && lines.get(first.line)?.patient;
    return [
      '',
      style('strong', patientText(patient)),
      ...own
        .sort((a, b) => compareUrgency([a], [b]))
        .flatMap((care) => lineText(care, lines.get(care.line), view)),
    ];
  });
  const closed = cares.filter((care) => !care.inPlace);
  const foot = closed.map(
    (care) =>
      `Not in place: ${lines.get(care.line)?.name ?? care.line} (${care.line}), ${(care.closed ?? '').replaceAll('-', ' ')}.`,
  );
  const issues = allIssues(records, cares).map((issue) =>
    wrap(`  ${issue.resource} ${issue.path}: ${issue.message}`, 4, options.columns),
  );
  return [
    ...head,
    ...body,
    ...(foot.length > 0 ? ['', ...foot] : []),
    ...(issues.length > 0
      ? ['', style('strong', `${plural(issues.length, 'thing')} in the record to put right:`), ...issues]
      : []),
    '',
    'Advice, not an order. Local policy, the instructions of device and drug, and the licensed clinician come first.',
    '',
  ].join('\n');
}

interface View {
  readonly calendar: Calendar;
  readonly nowMs: number;
  readonly style: Styler;
  readonly options: TableOptions;
}

function compareUrgency(a: readonly LineCare[], b: readonly LineCare[]): number {
  const most = (cares: readonly LineCare[]) => cares.flatMap(({ items }) => items).sort(compareItems)[0];
  const [x, y] = [most(a), most(b)];
  if (!x || !y) return Number(!x) - Number(!y);
  return compareItems(x, y) || (x.patient < y.patient ? -1 : 1);
}

function compareItems(a: DueItem, b: DueItem): number {
  const emergency = Number(b.rule.priority === 'stat') - Number(a.rule.priority === 'stat');
  return (
    emergency ||
    order[a.state] - order[b.state] ||
    instantMs(a.dueBy) - instantMs(b.dueBy) ||
    compareText(a.activity, b.activity) ||
    compareText(a.target.name, b.target.name) ||
    compareText(a.id, b.id)
  );
}

function patientText(patient: PatientRecord | undefined): string {
  if (!patient) return 'Patient not given';
  const place = [patient.unit, patient.bed].filter(Boolean).join(', ');
  return `${patient.name ?? 'Name not known'} (${patient.ref})${place ? `, ${place}` : ''}`;
}

function lineText(care: LineCare, line: LineRecord | undefined, view: View): string[] {
  const lumens = line && line.lumens.length > 1 ? `, ${line.lumens.length} lumens` : '';
  const holds = care.holds.map((hold) =>
    view.style(
      'held',
      `    Hold: no ${displayOf('lineCareActivity', hold.activity).toLowerCase()} ${hold.until ? `until ${clockText(instantMs(hold.until), view.calendar)}` : 'for now'} (${hold.rule.title})`,
    ),
  );
  const limit = view.options.upcomingWithinHours;
  const soon = (item: DueItem) =>
    item.state !== 'upcoming' ||
    limit === undefined ||
    instantMs(item.opens) <= view.nowMs + limit * 3_600_000;
  const shown = care.items.filter(soon).sort(compareItems);
  const later = care.items.length - shown.length;
  return [
    `  ${line?.name ?? care.line} (${care.line})${line?.type ? `, ${displayOf('lineType', line.type).toLowerCase()}` : ', type not known'}${lumens}`,
    ...holds,
    ...together(shown).map((group) => rowText(group, view)),
    ...(later > 0 ? [`    .. and ${later} that open later`] : []),
  ];
}

/** Items of one activity that differ only in their lumen are one row. */
function together(items: readonly DueItem[]): (readonly [DueItem, ...DueItem[]])[] {
  const rows = new Map<string, [DueItem, ...DueItem[]]>();
  for (const item of items) {
    const key = [item.state, item.dueBy, item.activity, item.rule.id, ...item.remarks].join('\u0000');
    const row = rows.get(key);
    if (row) row.push(item);
    else rows.set(key, [item]);
  }
  return [...rows.values()];
}

function rowText(items: readonly [DueItem, ...DueItem[]], { calendar, nowMs, style, options }: View): string {
  const [item] = items;
  const dueMs = instantMs(item.dueBy);
  const state = style(item.state, `${signs[item.state]} ${item.state}`.padEnd(12));
  const when = `${clockText(dueMs, calendar)}  ${relativeText(dueMs - nowMs)}`.padEnd(29);
  const names = items.map(({ target }) => target.name.replace(/^the /, '')).join(', ');
  const what = `${displayOf('lineCareActivity', item.activity)}: ${names}`.padEnd(46);
  const schedule = scheduleText(item.rule.schedule);
  const why = [`${item.rule.title} (${schedule}).`, ...item.remarks].join(' ');
  const margin = 4 + 12 + 29;
  const plain = `${when}${what}  ${why}`;
  const wrapped = wrap(' '.repeat(16) + plain, margin, options.columns).slice(16);
  return `    ${state}${wrapped}`;
}

function plural(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
