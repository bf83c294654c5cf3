import { wrap } from '../words/layout.js';
import type { Advice } from './home-advice.js';
import type { HomeLine, HomeSheet } from './home-sheet.js';
import type { Supplies } from './model.js';

/** Lines of a sheet that is printed large. */
const columns = 66;

/** The words that both layouts share. */
export const words = {
  title: 'Your line at home',
  intro: [
    'This sheet helps you to look after your line.',
    'Do only what your nurse has shown you.',
    'If the unit tells you something else, do what the unit says.',
  ],
  callTitle: 'Whom to call',
  unitPhone: 'Your unit, day and night:',
  emergencyPhone: 'Emergency number:',
  blank: '______________________________',
  emergencyTitle: 'Call the emergency number at once if',
  brokenTitle: 'If the line breaks',
  signsTitle: 'Call the unit at once, day or night, if',
  lateTitle: 'Late: do this today, or call the unit',
  nowTitle: 'Call the unit now',
  notNowTitle: 'Not now',
  dailyTitle: 'Every day',
  daysTitle: 'The next 14 days',
  day: 'Day',
  todo: 'What to do',
  onlyDaily: 'The same as every day.',
  nothing: 'Nothing is planned.',
  alwaysTitle: 'Always',
  neverTitle: 'Never',
  bringTitle: 'Bring to each visit',
  suppliesTitle: 'Have these at home for the next 14 days',
  safeSide:
    'Some things about your line are not on record. So this plan is on the safe side. Ask your nurse.',
  plan: 'The plan can change. A new blood test or a wet dressing can move a day.',
  plannedTitle: 'Before your line goes in',
  plannedFor: 'Your line goes in on',
  plannedSomeTime: 'Your line goes in soon. Ask the unit when.',
  noLine: 'We have no line on record for you. Ask the unit.',
  unsure: 'If you are not sure, call the unit.',
} as const;

/** When a line goes in, and what to do before. */
export function plannedTexts({ when, todo }: HomeSheet['planned'][number]): string[] {
  const first = when === undefined ? words.plannedSomeTime : `${words.plannedFor} ${when}.`;
  return [first, ...todo.map(({ text }) => text)];
}

/** The sheet as plain text, in short lines. */
export function renderHomeText(sheet: HomeSheet): string {
  const bullets = (texts: readonly string[]) => texts.map((text) => wrap(`  * ${text}`, 4, columns));
  const section = (title: string, rows: readonly string[]) =>
    rows.length > 0 ? ['', title.toUpperCase(), '', ...rows] : [];
  const adviceTexts = (list: readonly Advice[]) => bullets(list.map(({ text }) => text));
  return [
    words.title.toUpperCase(),
    '',
    `For ${sheet.name ?? '______________________'}. Made ${sheet.made}.`,
    '',
    ...words.intro.map((text) => wrap(text, 0, columns)),
    ...section(words.callTitle, [
      `  ${words.unitPhone} ${words.blank}`,
      '',
      `  ${words.emergencyPhone} ${words.blank}`,
    ]),
    ...section(words.emergencyTitle, adviceTexts(sheet.emergencies)),
    ...section(words.brokenTitle, adviceTexts(sheet.broken)),
    ...section(words.signsTitle, adviceTexts(sheet.signs)),
    ...sheet.planned.flatMap((planned) => section(words.plannedTitle, bullets(plannedTexts(planned)))),
    ...(sheet.lines.length === 0
      ? sheet.planned.length === 0
        ? ['', words.noLine]
        : []
      : sheet.lines.flatMap((line) => lineText(line, section, bullets))),
    ...section(words.alwaysTitle, adviceTexts(sheet.always)),
    ...section(words.neverTitle, adviceTexts(sheet.never)),
    ...section(words.bringTitle, adviceTexts(sheet.bring)),
    '',
    wrap(words.plan, 0, columns),
    words.unsure,
    '',
  ].join('\n');
}

function lineText(
  line: HomeLine,
  section: (title: string, rows: readonly string[]) => string[],
  bullets: (texts: readonly string[]) => string[],
): string[] {
  const todo = (list: HomeLine['late']) => bullets(list.map(({ text }) => text));
  return [
    '',
    '='.repeat(columns),
    `Your line: ${line.name}`,
    ...(line.safeSide ? ['', wrap(words.safeSide, 0, columns)] : []),
    ...section(words.nowTitle, bullets(line.callNow)),
    ...section(words.lateTitle, todo(line.late)),
    ...section(words.notNowTitle, bullets(line.notNow)),
    ...section(words.dailyTitle, todo(line.everyDay)),
    ...section(
      words.daysTitle,
      line.days.map(({ name, todo: tasks }) =>
        wrap(`  ${name.padEnd(12)}${dayText(tasks, line)}`, 14, columns),
      ),
    ),
    ...section(words.suppliesTitle, bullets(supplyTexts(line.supplies))),
    '='.repeat(columns),
  ];
}

/** What stands beside a day. */
export function dayText(tasks: HomeLine['late'], { everyDay }: Pick<HomeLine, 'everyDay'>): string {
  if (tasks.length > 0) return tasks.map(({ text }) => text).join(' ');
  return everyDay.length > 0 ? words.onlyDaily : words.nothing;
}

/** Supplies for people at home: each with its number. */
export function supplyTexts({ counts, syringes }: Supplies): string[] {
  return [
    ...counts.map(({ text, count }) => `${count} x ${text}`),
    ...syringes.map(({ sizeMl, count }) => `${count} x syringe, ${sizeMl} mL or wider`),
  ];
}

/** Every sentence that the sheet says, without titles, names and numbers of supplies: what is measured for reading. */
export function homeSentences(sheet: HomeSheet): string[] {
  const advice = [
    sheet.emergencies,
    sheet.broken,
    sheet.signs,
    sheet.always,
    sheet.never,
    sheet.bring,
  ].flatMap((list) => list.map(({ text }) => text));
  const lines = sheet.lines.flatMap((line) => [
    ...line.late.map(({ text }) => text),
    ...line.notNow,
    ...line.everyDay.map(({ text }) => text),
    ...line.days.flatMap(({ todo }) => todo.map(({ text }) => text)),
    ...(line.safeSide ? [words.safeSide] : []),
  ]);
  return [...words.intro, ...advice, ...lines, words.plan, words.unsure];
}
