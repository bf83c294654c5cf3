import { displayOf, type DueState, type LineCareActivity } from '@dwellward/profiles';
import { scheduleText, type FactName } from '@dwellward/policy';
import { allIssues } from '../fhir/due-bundle.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { AsOf, DueItem, LineCare } from '../model/care.js';
import { pressing, priorityOf } from '../rules/priority.js';
import { compareText } from '../timeline/timeline.js';
import type { LineRecord, PatientRecord, Records, Ref } from '../model/record.js';
import { keepsFromUse } from '../lumens/use-against-holds.js';
import { againstHoldText, lumenText } from '../words/lumen.js';
import { repairsOn } from '../repair/repair-judgement.js';
import { remarkTexts } from '../words/interim.js';
import { actOfHold } from '../model/hold-ends.js';
import { clockText, dayText, relativeText, styler, wrap, type Styler } from '../words/layout.js';

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

/** A line's care with its items in the order of urgency. */
interface Row {
  readonly care: LineCare;
  readonly line: LineRecord | undefined;
  readonly items: readonly Sorted[];
}

interface Sorted {
  readonly item: DueItem;
  readonly opensMs: number;
  readonly dueMs: number;
}

/** Due care for people: by patient and line, overdue first, with local and relative times and the reason. */
export function renderTable(
  records: Records,
  cares: readonly LineCare[],
  when: AsOf,
  options: TableOptions,
): string {
  const calendar = new Calendar(when.zone);
  const view: View = { calendar, nowMs: instantMs(when.asOf), when, style: styler(options.colour), options };
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
    view.style('strong', patientText(own[0]?.line?.patient)),
    ...own.flatMap((row) => lineText(row, view)),
  ]);
  const foot = cares
    // A plan that was carried out is told by its line.
    .filter((care) => !care.inPlace && care.closed !== 'inserted')
    .filter(({ closed, items }) => closed !== 'not-inserted-yet' || items.length === 0)
    .map(
      (care) =>
        `Not in place: ${lines.get(care.line)?.name ?? care.line} (${care.line}), ${(care.closed ?? '').replaceAll('-', ' ')}.`,
    );
  const issues = allIssues(records, cares).map((issue) =>
    wrap(`  ${issue.resource} ${issue.path}: ${issue.message}`, 4, options.columns),
  );
  return [
    ...headText(rows, byPatient.size, view),
    ...body,
    ...(foot.length > 0 ? ['', ...foot] : []),
    ...(issues.length > 0
      ? ['', view.style('strong', `${plural(issues.length, 'thing')} in the record to put right:`), ...issues]
      : []),
    '',
    'Advice, not an order. Local policy, the instructions of device and drug, and the licensed clinician come first.',
    '',
  ].join('\n');
}

function headText(rows: readonly Row[], patients: number, { calendar, nowMs, style }: View): string[] {
  const counts = new Map<DueState, number>();
  for (const { items } of rows)
    for (const { item } of items) counts.set(item.state, (counts.get(item.state) ?? 0) + 1);
  const count = (state: DueState) => `${counts.get(state) ?? 0} ${state}`;
  const toCome = rows.filter(({ care }) => care.closed === 'not-inserted-yet').length;
  return [
    style('strong', `Line care due at ${clockText(nowMs, calendar)} (${calendar.zone})`),
    `${plural(rows.filter(({ care }) => care.inPlace).length, 'line')} in place, ${toCome === 0 ? '' : `${toCome} planned, `}${plural(patients, 'patient')}: ${count('overdue')}, ${count('due')}, ${count('held')}, ${count('upcoming')}`,
  ];
}

interface View {
  readonly calendar: Calendar;
  readonly nowMs: number;
  readonly when: AsOf;
  readonly style: Styler;
  readonly options: TableOptions;
}

function sorted(item: DueItem): Sorted {
  return { item, opensMs: instantMs(item.opens), dueMs: instantMs(item.dueBy) };
}

function compareRows(a: Row, b: Row): number {
  const [x, y] = [a.items[0], b.items[0]];
  const urgency = x && y ? compareItems(x, y) : Number(!x) - Number(!y);
  return urgency || compareText(a.care.line, b.care.line);
}

/** Emergencies first; of what may be done now the more pressing; the rest by its state and its time. */
function compareItems(a: Sorted, b: Sorted): number {
  const emergency = Number(priorityOf(b.item) === 'stat') - Number(priorityOf(a.item) === 'stat');
  const rank = ({ item }: Sorted) =>
    item.state === 'overdue' || item.state === 'due' ? pressing[priorityOf(item)] : 4;
  return (
    emergency ||
    rank(a) - rank(b) ||
    order[a.item.state] - order[b.item.state] ||
    a.dueMs - b.dueMs ||
    compareText(a.item.activity, b.item.activity) ||
    compareText(a.item.target.name, b.item.target.name) ||
    compareText(a.item.id, b.item.id)
  );
}

function patientText(patient: PatientRecord | undefined): string {
  if (!patient) return 'Patient not given';
  const place = [patient.unit, patient.bed].filter(Boolean).join(', ');
  return `${patient.name ?? 'Name not known'} (${patient.ref})${place ? `, ${place}` : ''}`;
}

function lineText({ care, line, items }: Row, view: View): string[] {
  const lumens = line && line.lumens.length > 1 ? `, ${line.lumens.length} lumens` : '';
  const limit = view.options.upcomingWithinHours;
  const soon = ({ item, opensMs }: Sorted) =>
    item.state !== 'upcoming' || limit === undefined || opensMs <= view.nowMs + limit * 3_600_000;
  const shown = items.filter(soon);
  const later = items.length - shown.length;
  const type = line?.type ? displayOf('lineType', line.type).toLowerCase() : 'type not known';
  const planned =
    care.plannedFor === undefined
      ? ''
      : `, planned for ${clockText(instantMs(care.plannedFor), view.calendar)}`;
  return [
    `  ${line?.name ?? care.line} (${care.line}), ${type}${lumens}${planned}${repairedText(line, view)}`,
    ...againstHoldText(care.lumens).map((text) =>
      view.style('overdue', wrap(`    !! ${text}`, 10, view.options.columns)),
    ),
    ...holdsText(care, line, view),
    // A lumen that must not be used is told of, also where nothing is to be done.
    ...(shown.length > 0 || care.lumens.some(keepsFromUse) ? lumensText(care, view) : []),
    ...together(shown).map((group) => rowText(group, view)),
    ...(later > 0 ? [`    .. and ${later} that open later`] : []),
  ];
}

/** Holds of one target and one end are one row, and say of which lumen: the line under them may have others in use. */
function holdsText({ holds }: LineCare, line: LineRecord | undefined, view: View): string[] {
  const several = (line?.lumens.length ?? 0) > 1;
  const rows = new Map<
    string,
    { head: string; after: string; activities: Set<string>; titles: Set<string> }
  >();
  for (const { activity, until, rule, target } of holds) {
    const follows = actOfHold(rule);
    const after = follows ? said(follows) : '';
    const end = until
      ? `until ${clockText(instantMs(until), view.calendar)}`
      : after
        ? `until the ${after} is done`
        : 'for now';
    const head = `${several || target.scope !== 'lumen' ? ` on ${target.name}` : ''} ${end}`;
    const key = `${head}\u0000${after}`;
    const row = rows.get(key) ?? { head, after, activities: new Set(), titles: new Set() };
    row.activities.add(said(activity));
    row.titles.add(rule.title);
    rows.set(key, row);
  }
  return [...rows.values()]
    .map(({ head, after, activities, titles }) => {
      const list = (of: ReadonlySet<string>, between: string) => [...of].sort(compareText).join(between);
      // Many titles say one thing of each activity: what they all follow says it shorter.
      const why = titles.size > 2 && after ? `because of the ${after}` : list(titles, '; ');
      const bracket = titles.size > 2 && head.endsWith(' is done') ? '' : ` (${why})`;
      return `    Hold: no ${list(activities, ', ')}${head}${bracket}`;
    })
    .sort(compareText)
    .map((text) => view.style('held', wrap(text, 10, view.options.columns)));
}

function said(activity: LineCareActivity): string {
  return displayOf('lineCareActivity', activity).toLowerCase();
}

/** What each lumen is like, quiet where it is nothing to mind. */
function lumensText({ lumens }: LineCare, { calendar, style, options }: View): string[] {
  return lumens.map((state) =>
    style(
      keepsFromUse(state) ? 'held' : 'upcoming',
      wrap(`    ${lumenText(state, calendar)}`, 10, options.columns),
    ),
  );
}

/** A repaired segment stays in the line, and does not stand what the maker's catheter stands. */
function repairedText(line: LineRecord | undefined, { calendar, when }: View): string {
  if (!line) return '';
  const repairs = repairsOn(line, when).map(({ at, lumen }) => {
    const name = line.lumens.find(({ ref }) => ref === lumen)?.name;
    return `; repaired ${dayText(instantMs(at), calendar)}${name === undefined ? '' : `, ${name}`}`;
  });
  return repairs.join('');
}

type Group = readonly [Sorted, ...Sorted[]];

/** Items of one activity that differ only in their lumen are one row. */
function together(items: readonly Sorted[]): Group[] {
  const rows = new Map<string, [Sorted, ...Sorted[]]>();
  for (const one of items) {
    const { item } = one;
    const key = [item.state, item.dueBy, item.activity, item.rule.id, ...remarkTexts(item.remarks)].join(
      '\u0000',
    );
    const row = rows.get(key);
    if (row) row.push(one);
    else rows.set(key, [one]);
  }
  return [...rows.values()];
}

/** From here on what is to be done is a column of its own, with the reason beside it. */
const roomForReason = 120;

function rowText(group: Group, { calendar, nowMs, style, options }: View): string {
  const [{ item, dueMs }] = group;
  const state = style(item.state, `${signs[item.state]} ${item.state}`.padEnd(12));
  const when = `${clockText(dueMs, calendar)}  ${relativeText(dueMs - nowMs)}`.padEnd(29);
  const names = group.map(({ item: { target } }) => target.name.replace(/^the /, '')).join(', ');
  // A narrow terminal has no room for a column of its own: padding would push the reason beyond its edge.
  const whatColumns = options.columns > 0 && options.columns < roomForReason ? 0 : 46;
  const what = `${displayOf('lineCareActivity', item.activity)}: ${names}`.padEnd(whatColumns);
  const schedule = scheduleText(item.rule);
  const labs = item.facts.filter(
    ({ fact, value }) =>
      fact.startsWith('labs.') && value !== 'unknown' && item.rule.applicability.uses.includes(fact),
  );
  const counts = labs.map(({ fact, value }) => `${labNames[fact] ?? fact} ${value}.`);
  const why = [`${item.rule.title} (${schedule}).`, ...counts, ...remarkTexts(item.remarks)].join(' ');
  const margin = 4 + 12 + 29;
  const plain = `${when}${what}  ${why}`;
  const wrapped = wrap(' '.repeat(16) + plain, margin, options.columns).slice(16);
  return `    ${state}${wrapped}`;
}

const labNames: Partial<Record<FactName, string>> = {
  'labs.anc': 'Neutrophils',
  'labs.platelets': 'Platelets',
  'labs.inr': 'INR',
};

function plural(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
