import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import type { HomeLabel } from '../model/sentences/home.js';
import { blank, dayText, intro, plannedTexts, spoken, supplyTexts, type SpokenSheet } from './home-text.js';
import type { HomeLine, HomeSheet } from './home-sheet.js';

// Black on white, no colour; two pages of A4 or letter paper hold the sheet of one line, printed from a browser.
const style = `
  body { font: 12pt/1.35 sans-serif; color: #000; background: #fff; max-width: 46em; margin: 1em auto; padding: 0 1em; }
  h1 { font-size: 1.5em; margin: 0 0 .3em; }
  h2 { font-size: 1.15em; margin: .9em 0 .2em; border-bottom: 2px solid; }
  h3 { font-size: 1em; margin: .7em 0 .2em; }
  p { margin: .3em 0; }
  ul { margin: .2em 0; padding-left: 1.4em; }
  .boxed { border: 3px solid; padding: .2em .8em; margin: .6em 0; }
  .boxed h2 { border: 0; margin-top: .3em; }
  .columns { columns: 2; }
  table { border-collapse: collapse; width: 100%; }
  th, td { border: 1px solid; padding: .15em .5em; text-align: left; vertical-align: top; }
  th { white-space: nowrap; }
  @page { margin: 12mm; }
  @media print { body { margin: 0; padding: 0; max-width: none; font-size: 10.5pt; line-height: 1.25; } section, tr { break-inside: avoid; } h2, h3 { break-after: avoid; } }
`;

/**
 * The sheet as one HTML page that needs nothing else: no script, no picture, nothing fetched; English where no language is given.
 * @example
 * ```ts
 * const sheet = homeSheet(records, cares, policy, when, records.lines[0]!.patient.ref);
 * renderHomeHtml(sheet).startsWith('<!DOCTYPE html>'); // true
 * ```
 */
export function renderHomeHtml(sheet: HomeSheet, language: Language = english): string {
  const words = spoken(sheet, language);
  const { say, advice } = words;
  const label = (of: HomeLabel) => escaped(words.label(of));
  return [
    '<!DOCTYPE html>',
    `<html lang="${language.tag}">`,
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${label('title')}</title>`,
    `<style>${style}</style>`,
    '</head>',
    '<body>',
    '<main>',
    `<h1>${label('title')}</h1>`,
    `<p>${escaped(say({ code: 'sheet-for', patient: sheet.name ?? blank, made: sheet.made }))}</p>`,
    `<p>${intro.map(label).join(' ')}</p>`,
    '<section class="boxed">',
    `<h2>${label('call-title')}</h2>`,
    `<p>${label('unit-phone')} ${blank}</p>`,
    `<p>${label('emergency-phone')} ${blank}</p>`,
    '</section>',
    ...section('h2', label('emergency-title'), advice(sheet.emergencies)),
    ...section('h2', label('broken-title'), advice(sheet.broken)),
    ...section('h2', label('signs-title'), advice(sheet.signs)),
    ...sheet.planned.flatMap((planned) => section('h2', label('planned-title'), plannedTexts(planned, say))),
    ...(sheet.lines.length === 0
      ? sheet.planned.length === 0
        ? [`<p>${label('no-line')}</p>`]
        : []
      : sheet.lines.flatMap((line) => lineHtml(line, words))),
    ...section('h2', label('always-title'), advice(sheet.always)),
    ...section('h2', label('never-title'), advice(sheet.never)),
    ...section('h2', label('bring-title'), advice(sheet.bring)),
    `<p>${label('plan-can-change')} ${label('unsure')}</p>`,
    '</main>',
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function lineHtml(line: HomeLine, words: SpokenSheet): string[] {
  const { say } = words;
  const label = (of: HomeLabel) => escaped(words.label(of));
  const texts = (list: HomeLine['late']) => list.map(({ text }) => say(text));
  return [
    `<h2>${escaped(say({ code: 'your-line', name: line.name }))}</h2>`,
    ...(line.safeSide ? [`<p>${label('safe-side')}</p>`] : []),
    ...section('h3', label('now-title'), line.callNow.map(say)),
    ...section('h3', label('late-title'), texts(line.late)),
    ...section('h3', label('not-now-title'), line.notNow.map(say)),
    ...section('h3', label('daily-title'), texts(line.everyDay)),
    `<h3>${label('days-title')}</h3>`,
    '<table>',
    `<thead><tr><th scope="col">${label('day')}</th><th scope="col">${label('todo')}</th></tr></thead>`,
    '<tbody>',
    ...line.days.map(
      ({ date, at, todo }) =>
        `<tr><th scope="row"><time datetime="${escaped(date)}">${escaped(say({ code: 'home-day', at }))}</time></th><td>${escaped(dayText(todo, line, words))}</td></tr>`,
    ),
    '</tbody>',
    '</table>',
    ...section('h3', label('supplies-title'), supplyTexts(line.supplies, say), 'columns'),
  ];
}

function section(level: 'h2' | 'h3', title: string, texts: readonly string[], list?: string): string[] {
  if (texts.length === 0) return [];
  return [
    '<section>',
    `<${level}>${title}</${level}>`,
    list ? `<ul class="${list}">` : '<ul>',
    ...texts.map((text) => `<li>${escaped(text)}</li>`),
    '</ul>',
    '</section>',
  ];
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text that can stand in HTML, in an attribute too; what no page may hold is shown as a replacement. */
function escaped(text: string): string {
  return (
    text
      // eslint-disable-next-line no-control-regex
      .replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]|\p{Cs}/gu, '\uFFFD')
      .replace(/[&<>"']/g, (sign) => entities[sign] ?? sign)
  );
}
