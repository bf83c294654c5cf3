import type { Sentence } from '../model/sentences.js';
import type { HomeLabel } from '../model/sentences/home.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { wrap } from '../words/layout.js';
import { speaker, type Say } from '../words/say.js';
import type { Advice } from './home-advice.js';
import type { HomeLine, HomeSheet } from './home-sheet.js';
import type { Supplies } from './model.js';

/** Lines of a sheet that is printed large. */
const columns = 66;

/** A line to write on. */
export const blank = '______________________________';
const blankName = '______________________';

/** The sentences that the sheet begins with. */
export const intro: readonly HomeLabel[] = ['intro-help', 'intro-shown', 'intro-unit-first'];

/** A sheet in words of one language, for both layouts. */
export interface SpokenSheet {
  readonly say: Say;
  readonly label: (label: HomeLabel) => string;
  readonly advice: (list: readonly Advice[]) => string[];
}

export function spoken({ zone }: HomeSheet, language: Language): SpokenSheet {
  const say = speaker(language, new Calendar(zone));
  return {
    say,
    label: (label) => say({ code: 'home-label', label }),
    advice: (list) => list.map(({ advice }) => say({ code: 'home-advice', advice })),
  };
}

/** When a line goes in, and what to do before. */
export function plannedTexts({ when, todo }: HomeSheet['planned'][number], say: Say): string[] {
  return [
    say({ code: 'line-goes-in', ...(when === undefined ? {} : { at: when }) }),
    ...todo.map(({ text }) => say(text)),
  ];
}

/**
 * The sheet as plain text, in short lines; English where no language is given.
 * @example
 * ```ts
 * const sheet = homeSheet(records, cares, policy, when, records.lines[0]!.patient.ref);
 * renderHomeText(sheet).length > 0; // true
 * ```
 */
export function renderHomeText(sheet: HomeSheet, language: Language = english): string {
  const words = spoken(sheet, language);
  const { say, label, advice } = words;
  const adviceTexts = (list: readonly Advice[]) => bullets(advice(list));
  const section = (title: HomeLabel, rows: readonly string[]) => titled(label(title), rows);
  return [
    label('title').toUpperCase(),
    '',
    say({ code: 'sheet-for', patient: sheet.name ?? blankName, made: sheet.made }),
    '',
    ...intro.map((one) => wrap(label(one), 0, columns)),
    ...section('call-title', [
      `  ${label('unit-phone')} ${blank}`,
      '',
      `  ${label('emergency-phone')} ${blank}`,
    ]),
    ...section('emergency-title', adviceTexts(sheet.emergencies)),
    ...section('broken-title', adviceTexts(sheet.broken)),
    ...section('signs-title', adviceTexts(sheet.signs)),
    ...sheet.planned.flatMap((planned) => section('planned-title', bullets(plannedTexts(planned, say)))),
    ...(sheet.lines.length === 0
      ? sheet.planned.length === 0
        ? ['', label('no-line')]
        : []
      : sheet.lines.flatMap((line) => lineText(line, words))),
    ...section('always-title', adviceTexts(sheet.always)),
    ...section('never-title', adviceTexts(sheet.never)),
    ...section('bring-title', adviceTexts(sheet.bring)),
    '',
    wrap(label('plan-can-change'), 0, columns),
    label('unsure'),
    '',
  ].join('\n');
}

function bullets(texts: readonly string[]): string[] {
  return texts.map((text) => wrap(`  * ${text}`, 4, columns));
}

function titled(title: string, rows: readonly string[]): string[] {
  return rows.length > 0 ? ['', title.toUpperCase(), '', ...rows] : [];
}

function lineText(line: HomeLine, words: SpokenSheet): string[] {
  const { say, label } = words;
  const section = (title: HomeLabel, rows: readonly string[]) => titled(label(title), rows);
  const all = (list: readonly Sentence[]) => bullets(list.map(say));
  const todo = (list: HomeLine['late']) => all(list.map(({ text }) => text));
  return [
    '',
    '='.repeat(columns),
    say({ code: 'your-line', name: line.name }),
    ...(line.safeSide ? ['', wrap(label('safe-side'), 0, columns)] : []),
    ...section('now-title', all(line.callNow)),
    ...section('late-title', todo(line.late)),
    ...section('not-now-title', all(line.notNow)),
    ...section('daily-title', todo(line.everyDay)),
    ...section(
      'days-title',
      line.days.map(({ at, todo: tasks }) =>
        wrap(`  ${say({ code: 'home-day', at }).padEnd(11)} ${dayText(tasks, line, words)}`, 14, columns),
      ),
    ),
    ...section('supplies-title', bullets(supplyTexts(line.supplies, say))),
    '='.repeat(columns),
  ];
}

/** What stands beside a day. */
export function dayText(
  tasks: HomeLine['late'],
  { everyDay }: Pick<HomeLine, 'everyDay'>,
  { say, label }: SpokenSheet,
): string {
  if (tasks.length > 0) return tasks.map(({ text }) => say(text)).join(' ');
  return label(everyDay.length > 0 ? 'only-daily' : 'nothing');
}

/** Supplies for people at home: each with its number. */
export function supplyTexts({ counts, syringes }: Supplies, say: Say): string[] {
  return [
    ...counts.map(({ text: what, count }) => say({ code: 'home-supply', count, what })),
    ...syringes.map(({ sizeMl, count }) => say({ code: 'count-of-syringes', count, sizeMl, where: 'home' })),
  ];
}
