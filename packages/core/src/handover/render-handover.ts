import { displayOf, type LineCareActivity } from '@dwellward/profiles';
import { scheduleText } from '@dwellward/policy';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { Hold } from '../model/care.js';
import { holdEnds } from '../model/hold-ends.js';
import { againstHoldText, lumenReasons, lumenText } from '../words/lumen.js';
import { clockText, relativeText, styler, wrap, type Styler } from '../words/layout.js';
import type {
  DoneItem,
  Handover,
  HandoverWarning,
  LineHandover,
  PatientHandover,
  ShiftItem,
  Supplies,
} from './model.js';

export interface HandoverTextOptions {
  /** ANSI colours; never the only sign. */
  readonly colour: boolean;
  /** Columns of the terminal or the page; 0 for those of an A4 page. */
  readonly columns: number;
}

/** Columns that an A4 page holds in a readable size. */
const pageColumns = 90;

interface View {
  readonly calendar: Calendar;
  readonly fromMs: number;
  readonly style: Styler;
  readonly columns: number;
}

/** The hand-over for people, to print or to read out: emergencies, then patient by patient, then what to take. */
export function renderHandover(handover: Handover, options: HandoverTextOptions): string {
  const calendar = new Calendar(handover.zone);
  const view: View = {
    calendar,
    fromMs: instantMs(handover.from),
    style: styler(options.colour),
    columns: options.columns > 0 ? options.columns : pageColumns,
  };
  const clock = (text: string) => clockText(instantMs(text), calendar);
  const lines = handover.patients.flatMap(({ lines: own }) => own);
  const count = (list: 'overdue' | 'due' | 'held' | 'missed') =>
    lines.reduce((sum, line) => sum + line[list].length, 0);
  const emergencies = handover.patients.flatMap((patient) =>
    patient.lines.flatMap((line) =>
      [...line.overdue, ...line.due, ...line.held, ...line.early]
        .filter(({ priority, kind }) => priority === 'stat' && kind === 'open')
        .flatMap((item) => [
          `  ${patientName(patient)}, ${line.name}: ${whatText(item)}. ${item.rule.title}.`,
          ...stepsText(item, '    '),
        ]),
    ),
  );
  const text = [
    view.style(
      'strong',
      `Shift hand-over, ${clock(handover.from)} to ${clock(handover.to)} (${handover.zone})`,
    ),
    `The shift before began ${clock(handover.previousFrom)}.`,
    `${plural(handover.patients.length, 'patient')}, ${plural(lines.filter(({ closed }) => closed === undefined).length, 'line')} in place: ${count('overdue')} overdue (${count('missed')} missed in the shift before), ${count('due')} due in the shift, ${count('held')} on hold`,
    ...(emergencies.length > 0
      ? ['', view.style('overdue', 'EMERGENCIES, before all else'), ...emergencies]
      : []),
    ...(handover.withoutUnit.length > 0
      ? ['', `Not on this list, because their unit is not on record: ${handover.withoutUnit.join(', ')}.`]
      : []),
    ...(handover.warnings.length > 0 ? [''] : []),
    ...handover.warnings.map((warning) => `Mind: ${warningText(warning)}`),
    ...handover.patients.flatMap((patient) => patientText(patient, view)),
    '',
    view.style('strong', 'Supplies for everybody on this list'),
    ...suppliesText(handover.supplies, '  '),
    '',
    '[ ] open care. ( ) expected: not open yet, follows if the open care is done on time.',
    'Supplies are for what is overdue, due, expected or on hold, each item by itself: together it needs fewer.',
    'Advice, not an order. Local policy, the instructions of device and drug, and the licensed clinician come first.',
  ];
  return `${text.map((line) => wrap(line, indentOf(line), view.columns)).join('\n')}\n`;
}

/** Later lines of a wrapped one stand a little further in. */
function indentOf(line: string): number {
  const start = /^ */.exec(line)?.[0].length ?? 0;
  return start + (start === 0 ? 0 : 4);
}

function patientName({ name, patient, bed }: PatientHandover): string {
  return [bed, name ?? patient].filter(Boolean).join(', ');
}

function patientText(patient: PatientHandover, view: View): string[] {
  const { bed, name, patient: ref, unit } = patient;
  const head = `${bed ? `${bed}: ` : ''}${name ?? 'Name not known'} (${ref})${unit ? `, ${unit}` : ''}`;
  return [
    '',
    '-'.repeat(Math.min(view.columns, pageColumns)),
    view.style('strong', head),
    ...patient.warnings.map((warning) => `  Mind: ${warningText(warning)}`),
    ...patient.lines.flatMap((line) => lineText(line, view)),
    '  Take',
    ...suppliesText(patient.supplies, '    '),
  ];
}

function lineText(line: LineHandover, view: View): string[] {
  const type = line.type ? displayOf('lineType', line.type).toLowerCase() : 'type not known';
  const missed = new Set(line.missed.map(({ id }) => id));
  const section = (title: string, rows: readonly string[]) =>
    rows.length > 0 ? [`    ${title}`, ...rows] : [];
  const nothing =
    line.closed === undefined && [...line.overdue, ...line.due, ...line.held].length === 0
      ? ['    Nothing is due in this shift.']
      : [];
  return [
    `  ${line.name} (${line.line}), ${type}${line.lumens > 1 ? `, ${line.lumens} lumens` : ''}`,
    ...againstHoldText(line.lumenStates).map((text) => view.style('overdue', `    ${text}`)),
    ...closedText(line, view),
    ...line.holds.map((hold) => view.style('held', `    Hold: ${holdText(hold, view)}`)),
    ...section('Lumens', lumensText(line, view)),
    ...section(
      'Overdue',
      rows(line.overdue, view, ({ id }) => (missed.has(id) ? ', missed in the shift before' : '')),
    ),
    ...section('Due in this shift', rows(line.due, view)),
    ...section('Waiting for a hold to end', rows(line.held, view)),
    ...section('Can be done early', line.early.length > 0 ? [`      ${earlyText(line.early, view)}`] : []),
    ...nothing,
    ...section(
      'Done in the shift before',
      line.done.map((item) => `      ${doneText(item, view)}`),
    ),
    ...section(
      'Mind',
      line.warnings.map((warning) => `      ${warningText(warning)}`),
    ),
  ];
}

function closedText({ closed, plannedFor }: LineHandover, { calendar }: View): string[] {
  if (closed === undefined) return [];
  return plannedFor === undefined
    ? [`    Not in place: ${closed.replaceAll('-', ' ')}.`]
    : [`    Not in yet: planned for ${clockText(instantMs(plannedFor), calendar)}.`];
}

/** What each lumen is like; why, where somebody has to mind it. */
function lumensText({ lumenStates }: LineHandover, { calendar }: View): string[] {
  return lumenStates.map((state) =>
    [`      ${lumenText(state, calendar)}.`, ...lumenReasons(state)].join(' '),
  );
}

/** Items that differ only in their lumen are one row. */
function rows(
  items: readonly ShiftItem[],
  { calendar, fromMs, style }: View,
  mark: (item: ShiftItem) => string = () => '',
): string[] {
  const groups = new Map<string, ShiftItem[]>();
  for (const item of items) {
    const key = [item.kind, item.nth, item.dueBy, item.activity, item.rule.id, mark(item)].join('\u0000');
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return [...groups.values()].flatMap((group) => {
    const [item] = group;
    if (!item) return [];
    const dueMs = instantMs(item.dueBy);
    const late = dueMs < fromMs;
    const box = item.kind === 'open' ? '[ ]' : '( )';
    const when = `${clockText(dueMs, calendar)}  ${late ? relativeText(dueMs - fromMs) : ''}`.trimEnd();
    const urgent = priorityWords[item.priority];
    const names = group.map(({ target }) => shortName(target.name)).join(', ');
    const expected = item.kind === 'expected' ? ', expected' : '';
    const what = `${urgent}${displayOf('lineCareActivity', item.activity)}: ${names}${expected}${mark(item)}`;
    return [
      `      ${style(late ? 'overdue' : 'due', box)} ${when}  ${style('strong', what)}`,
      `          ${item.rule.title} (${scheduleText(item.rule)}).`,
      // Those of emergencies stand at the top of the list.
      ...(item.priority === 'asap' || item.priority === 'urgent' ? stepsText(item, ' '.repeat(10)) : []),
    ];
  });
}

const priorityWords = {
  stat: 'EMERGENCY: ',
  asap: 'As soon as possible: ',
  urgent: 'Urgent: ',
  routine: '',
} as const;

/** The first steps of trouble, in their order. */
function stepsText({ work }: ShiftItem, margin: string): string[] {
  return work.filter(({ kind }) => kind === 'step').map(({ text }, i) => `${margin}${i + 1}. ${text}`);
}

function whatText({ activity, target }: Pick<ShiftItem, 'activity' | 'target'>): string {
  return `${displayOf('lineCareActivity', activity)}: ${shortName(target.name)}`;
}

function shortName(name: string): string {
  return name.replace(/^the /, '');
}

function earlyText(items: readonly ShiftItem[], { calendar }: View): string {
  return `${items
    .map((item) => `${whatText(item)} (by ${clockText(instantMs(item.dueBy), calendar)})`)
    .join('; ')}.`;
}

function doneText(item: DoneItem, { calendar }: View): string {
  const when = item.imprecise ?? clockText(instantMs(item.at), calendar);
  return `${when}  ${whatText(item)}${timingText(item, calendar)}`;
}

function timingText({ timing, imprecise }: DoneItem, calendar: Calendar): string {
  const vague = imprecise ? '; the record gives no exact time' : '';
  switch (timing.is) {
    case 'on-time':
      return `, on time${vague}`;
    case 'late': {
      const by = relativeText(timing.byMinutes * 60_000).replace(/^in /, '');
      return `, late${by === 'now' ? ' by less than a minute' : ` by ${imprecise ? 'at least ' : ''}${by}`}, was due ${clockText(instantMs(timing.dueBy), calendar)}${vague}`;
    }
    case 'not-known':
      return timing.because === 'no-exact-time'
        ? `; due ${clockText(instantMs(timing.dueBy), calendar)}, whether in time is not known: the record gives no exact time`
        : '; first on record: on time or late is not known';
    case 'not-asked-for':
      return vague;
  }
}

function holdText({ activity, until, rule, target }: Hold, { calendar }: View): string {
  const end = until ? `until ${clockText(instantMs(until), calendar)}` : `until ${endOf(rule)}`;
  return `no ${lower(activity)} on ${target.name} ${end} (${rule.title})`;
}

function endOf(rule: Hold['rule']): string {
  const { acts, findings } = holdEnds(rule);
  const found = findings.map((finding) => displayOf('lineFinding', finding).toLowerCase());
  const seen = found.length > 0 ? `${found.join(' or ')} shows that it may end` : '';
  if (acts.length === 0) return seen === '' ? 'it ends' : seen;
  return `${acts.map(lower).join(' or ')} is done${seen === '' ? '' : `, or until ${seen}`}`;
}

function lower(activity: LineCareActivity): string {
  return displayOf('lineCareActivity', activity).toLowerCase();
}

function warningText(warning: HandoverWarning): string {
  if (warning.kind === 'record') return `In the record: ${warning.text} (${warning.resource})`;
  return `${warning.activities.map((one) => displayOf('lineCareActivity', one)).join(', ')}: ${warning.text}`;
}

function suppliesText({ counts, syringes, lumens, flushMl, lockMl, notWorkedOut }: Supplies, margin: string) {
  const several = lumens.length > 1;
  const text = [
    ...counts.map(({ text: what, count }) => `${margin}${String(count).padStart(3)} x ${what}`),
    ...syringes.map(
      ({ sizeMl, count }) =>
        `${margin}${String(count).padStart(3)} x syringe, barrel of a ${sizeMl} mL or wider`,
    ),
    ...lumens.map(
      ({ line, name, flushMl: flush, flushes, lockMl: lock, locks }) =>
        `${margin}${shortName(name)} (${line}): ${[
          ...(flushes > 0 ? [`${plural(flushes, 'flush', 'flushes')}, at least ${flush} mL`] : []),
          ...(locks > 0 ? [`${plural(locks, 'lock')}, ${lock} mL`] : []),
        ].join('; ')}`,
    ),
    ...(several ? [`${margin}in all: flush at least ${flushMl} mL, lock ${lockMl} mL`] : []),
    ...notWorkedOut.map((what) => `${margin}${what}`),
  ];
  return text.length > 0 ? text : [`${margin}nothing`];
}

function plural(count: number, noun: string, many = `${noun}s`): string {
  return `${count} ${count === 1 ? noun : many}`;
}
