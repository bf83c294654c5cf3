import { timedOf } from '@dwellward/policy';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { Sentence } from '../model/sentences.js';
import type { HandoverSection } from '../model/sentences/handover.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { lumenIs, lumenReasons } from '../words/lumen.js';
import { questionsInFull, questionsInShort } from '../words/questions.js';
import { styler, wrap, type Styler } from '../words/layout.js';
import { rowsOf } from '../due/visits.js';
import { notUnderstoodSaid } from '../words/not-understood.js';
import { oneLine } from '../words/safe-text.js';
import { holdRows } from '../table/hold-rows.js';
import { speaker, type Say } from '../words/say.js';
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
  /** English where none is given. */
  readonly language?: Language;
}

/** Columns that an A4 page holds in a readable size. */
const pageColumns = 90;

interface View {
  readonly say: Say;
  readonly fromMs: number;
  readonly style: Styler;
  readonly columns: number;
}

/**
 * The hand-over for people, to print or to read out: emergencies, then patient by patient, then what to take.
 * @example
 * ```ts
 * const shift = { from: when.asOf, to: '2026-11-25T19:30:00+01:00', zone: when.zone };
 * renderHandover(handover(records, cares, policy, shift), { colour: false, columns: 80 }).length > 0; // true
 * ```
 */
export function renderHandover(handover: Handover, options: HandoverTextOptions): string {
  const { from, to, zone } = handover;
  const say = speaker(options.language ?? english, new Calendar(handover.zone));
  const view: View = {
    say,
    fromMs: instantMs(handover.from),
    style: styler(options.colour),
    columns: options.columns > 0 ? options.columns : pageColumns,
  };
  const lines = handover.patients.flatMap(({ lines: own }) => own);
  const count = (list: 'overdue' | 'due' | 'held' | 'missed') =>
    lines.reduce((sum, line) => sum + line[list].length, 0);
  const emergencies = handover.patients.flatMap((patient) =>
    patient.lines.flatMap((line) =>
      [...line.overdue, ...line.due, ...line.held, ...line.early]
        .filter(({ priority, kind }) => priority === 'stat' && kind === 'open')
        .flatMap((item) => [
          `  ${say(emergencyOf(patient, line, item))}`,
          ...questionsInShort(item).map((question) => `    ${say(question)}`),
          ...stepsText(item, '    ', view),
        ]),
    ),
  );
  const text = [
    view.style('strong', say({ code: 'handover-head', from, to, zone })),
    say({ code: 'shift-before-began', at: handover.previousFrom }),
    say({
      code: 'handover-counts',
      patients: handover.patients.length,
      lines: lines.filter(({ closed }) => closed === undefined).length,
      overdue: count('overdue'),
      missed: count('missed'),
      due: count('due'),
      held: count('held'),
    }),
    ...(emergencies.length > 0
      ? ['', view.style('overdue', heading('emergencies', view)), ...emergencies]
      : []),
    ...notUnderstoodText(handover, view),
    ...unansweredText(handover, view),
    ...handover.loosened.map((sentence) => say(sentence)),
    ...(handover.withoutUnit.length > 0
      ? ['', say({ code: 'unit-not-on-record', patients: handover.withoutUnit })]
      : []),
    ...(handover.warnings.length > 0 ? [''] : []),
    ...handover.warnings.map((warning) => mindText(warning, view)),
    ...handover.patients.flatMap((patient) => patientText(patient, view)),
    '',
    view.style('strong', heading('take-for-all', view)),
    ...suppliesText(handover.supplies, '  ', view),
    '',
    say({ code: 'open-and-expected' }),
    say({ code: 'together-fewer' }),
    say({ code: 'not-read' }),
    say({ code: 'advice-not-order' }),
  ];
  return `${text.map((line) => wrap(line, indentOf(line), view.columns)).join('\n')}\n`;
}

/** Later lines of a wrapped one stand a little further in. */
function indentOf(line: string): number {
  const start = /^ */.exec(line)?.[0].length ?? 0;
  return start + (start === 0 ? 0 : 4);
}

function emergencyOf(
  { bed, name, patient }: PatientHandover,
  line: LineHandover,
  { activity, target, rule }: ShiftItem,
): Sentence {
  return {
    code: 'emergency-of',
    ...(bed === undefined ? {} : { bed }),
    patient: name ?? patient,
    line: line.name,
    activity,
    target: target.name,
    title: rule.title,
  };
}

/** What was found wrong and the policy does not answer: bed and patient first, as of an emergency. */
function unansweredText({ patients }: Handover, { say, style }: View): string[] {
  const found = patients.flatMap(({ bed, name, patient, lines }) =>
    lines.flatMap((line) =>
      line.unanswered.map(
        (one) => `  ${bed === undefined ? '' : `${bed}, `}${name ?? patient}, ${say(line.name)}: ${say(one)}`,
      ),
    ),
  );
  return found.length > 0 ? ['', ...found.map((row) => style('overdue', row))] : [];
}

// As many as are read aloud before the patients.
const mostKinds = 5;

function notUnderstoodText({ notUnderstood }: Handover, { say, style }: View): string[] {
  const said = notUnderstoodSaid(notUnderstood, mostKinds);
  if (said === undefined) return [];
  return ['', style('overdue', say(said.head)), ...said.kinds.map((one) => `  ${say(one)}`)];
}

function heading(section: HandoverSection, { say }: View): string {
  return say({ code: 'handover-section', section });
}

function patientText(patient: PatientHandover, view: View): string[] {
  const { bed, name, patient: ref, unit } = patient;
  const head = oneLine(
    `${bed ? `${bed}: ` : ''}${name ?? view.say({ code: 'name-not-known' })} (${ref})${unit ? `, ${unit}` : ''}`,
  );
  return [
    '',
    '-'.repeat(Math.min(view.columns, pageColumns)),
    view.style('strong', head),
    ...patient.warnings.map((warning) => `  ${mindText(warning, view)}`),
    ...patient.lines.flatMap((line) => lineText(line, view)),
    `  ${heading('take', view)}`,
    ...suppliesText(patient.supplies, '    ', view),
  ];
}

function lineText(line: LineHandover, view: View): string[] {
  const { say } = view;
  const missed = new Set(line.missed.map(({ id }) => id));
  const section = (name: HandoverSection, rows: readonly string[]) =>
    rows.length > 0 ? [`    ${heading(name, view)}`, ...rows] : [];
  const nothing =
    line.closed === undefined && [...line.overdue, ...line.due, ...line.held].length === 0
      ? [`    ${say({ code: 'nothing-due-in-shift' })}`]
      : [];
  return [
    `  ${say({
      code: 'line-with',
      name: line.name,
      line: line.line,
      ...(line.type ? { type: line.type } : {}),
      lumens: line.lumens,
    })}`,
    ...[...line.onTop, ...questionsInFull([...line.overdue, ...line.due, ...line.held, ...line.early])].map(
      (warning) => view.style('overdue', `    ${say(warning)}`),
    ),
    ...closedText(line, view),
    ...holdRows(line.holds, line.lumens > 1).map((row) => view.style('held', `    ${say(row)}`)),
    ...section('lumens', lumensText(line, view)),
    ...section(
      'overdue',
      rows(line.overdue, view, ({ id }) => missed.has(id)),
    ),
    ...section('due', rows(line.due, view)),
    ...section('held', rows(line.held, view)),
    ...section('early', line.early.length > 0 ? [`      ${say(earlyOf(line.early))}`] : []),
    ...nothing,
    ...section(
      'done',
      line.done.map((item) => `      ${say(doneOf(item))}`),
    ),
    ...section(
      'mind',
      line.warnings.map((warning) => `      ${say(warningOf(warning))}`),
    ),
  ];
}

function closedText({ closed, plannedFor }: LineHandover, { say }: View): string[] {
  if (closed === undefined) return [];
  const told: Sentence =
    plannedFor === undefined ? { code: 'not-in-place', because: closed } : { code: 'not-in-yet', plannedFor };
  return [`    ${say(told)}`];
}

/** What each lumen is like; why, where somebody has to mind it. */
function lumensText({ lumenStates }: LineHandover, { say }: View): string[] {
  return lumenStates.map((state) =>
    [`      ${say(lumenIs(state))}.`, ...lumenReasons(state).map(say)].join(' '),
  );
}

/** Items that differ only in their lumen are one row; what is done in the same visit stands under the first of it. */
function rows(
  items: readonly ShiftItem[],
  view: View,
  isMissed: (item: ShiftItem) => boolean = () => false,
): string[] {
  const key = (item: ShiftItem) => alikeKey(item, isMissed(item));
  return rowsOf(items, key).flatMap((visit) => {
    const [first, ...others] = alike(visit, isMissed);
    if (first === undefined) return [];
    return [...rowText(first, view, isMissed), ...others.flatMap((group) => withItText(group, view))];
  });
}

type Alike = readonly [ShiftItem, ...ShiftItem[]];

function alikeKey({ kind, nth, dueBy, activity, rule }: ShiftItem, missed: boolean): string {
  return [kind, nth, dueBy, activity, rule.id, missed].join('\u0000');
}

function alike(items: readonly ShiftItem[], isMissed: (item: ShiftItem) => boolean): Alike[] {
  const alone = items.map(({ visit: _, ...item }): ShiftItem => item);
  return [...rowsOf(alone, (item) => alikeKey(item, isMissed(item)))];
}

/** What is done with the first of a visit: a box of its own, its time where it is another, and its rule. */
function withItText(group: Alike, { say, style }: View): string[] {
  const [item] = group;
  const { activity, rule } = item;
  const what = say({ code: 'activity-on', activity, targets: group.map(({ target }) => target.name) });
  const when = say({ code: 'by-time', at: item.dueBy });
  return [
    `          + ${style('due', '[ ]')} ${style('strong', what)}  ${when}`,
    ...questionsInShort(item).map((question) => style('overdue', `              ${say(question)}`)),
    `              ${say({ code: 'rule-and-schedule', title: rule.title, schedule: timedOf(rule) })}`,
  ];
}

function rowText(group: Alike, view: View, isMissed: (item: ShiftItem) => boolean): string[] {
  const { say, fromMs, style } = view;
  const [item] = group;
  const { kind, priority, activity, rule } = item;
  const dueMs = instantMs(item.dueBy);
  const late = dueMs < fromMs;
  const box = kind === 'open' ? '[ ]' : '( )';
  const since = late ? say({ code: 'relative', ms: dueMs - fromMs }) : '';
  const when = `${say({ code: 'clock', at: dueMs })}  ${since}`.trimEnd();
  const what = say({
    code: 'shift-item',
    priority,
    activity,
    targets: group.map(({ target }) => target.name),
    expected: kind === 'expected',
    missed: isMissed(item),
  });
  return [
    `      ${style(late ? 'overdue' : 'due', box)} ${when}  ${style('strong', what)}`,
    ...questionsInShort(item).map((question) => style('overdue', `          ${say(question)}`)),
    `          ${say({ code: 'rule-and-schedule', title: rule.title, schedule: timedOf(rule) })}`,
    ...item.remarks.filter(({ code }) => code === 'also-asked').map((remark) => `          ${say(remark)}`),
    // Those of emergencies stand at the top of the list.
    ...(priority === 'asap' || priority === 'urgent' ? stepsText(item, ' '.repeat(10), view) : []),
  ];
}

/** The first steps of trouble, in their order. */
function stepsText({ work }: ShiftItem, margin: string, { say }: View): string[] {
  return work.filter(({ kind }) => kind === 'step').map(({ text }, i) => `${margin}${i + 1}. ${say(text)}`);
}

function earlyOf(items: readonly ShiftItem[]): Sentence {
  return {
    code: 'can-be-early',
    items: items.map(({ activity, target, dueBy }) => ({ activity, target: target.name, dueBy })),
  };
}

function doneOf({ activity, target, at, imprecise, timing }: DoneItem): Sentence {
  return {
    code: 'was-done',
    activity,
    target: target.name,
    at,
    ...(imprecise === undefined ? {} : { imprecise }),
    timing,
  };
}

function warningOf(warning: HandoverWarning): Sentence<'in-the-record' | 'read-protectively'> {
  return warning.kind === 'record'
    ? { code: 'in-the-record', issue: warning.text, resource: warning.resource }
    : { code: 'read-protectively', activities: warning.activities, remark: warning.text };
}

function mindText(warning: HandoverWarning, { say }: View): string {
  return say({ code: 'mind-that', warning: warningOf(warning) });
}

function suppliesText(supplies: Supplies, margin: string, { say }: View): string[] {
  const { counts, syringes, lumens, flushMl, lockMl, notWorkedOut } = supplies;
  // The numbers stand one under the other.
  const counted = (count: number, sentence: Sentence) =>
    `${margin}${' '.repeat(Math.max(0, 3 - String(count).length))}${say(sentence)}`;
  const text = [
    ...counts.map(({ text: what, count }) => counted(count, { code: 'count-of', count, what })),
    ...syringes.map(({ sizeMl, count }) =>
      counted(count, { code: 'count-of-syringes', count, sizeMl, where: 'unit' }),
    ),
    ...lumens.map(
      ({ line, name, flushMl: flush, flushes, lockMl: lock, locks }) =>
        `${margin}${say({ code: 'volumes-for-lumen', name, line, flushMl: flush, flushes, lockMl: lock, locks })}`,
    ),
    ...(lumens.length > 1 ? [`${margin}${say({ code: 'volumes-in-all', flushMl, lockMl })}`] : []),
    ...notWorkedOut.map((missing) => `${margin}${say(missing)}`),
  ];
  return text.length > 0 ? text : [`${margin}${say({ code: 'nothing-to-take' })}`];
}
