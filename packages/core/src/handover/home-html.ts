import { dayText, plannedTexts, supplyTexts, words } from './home-text.js';
import type { Advice } from './home-advice.js';
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

/** The sheet as one HTML page that needs nothing else: no script, no picture, nothing fetched. */
export function renderHomeHtml(sheet: HomeSheet): string {
  const advice = (list: readonly Advice[]) => list.map(({ text }) => text);
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${words.title}</title>`,
    `<style>${style}</style>`,
    '</head>',
    '<body>',
    '<main>',
    `<h1>${words.title}</h1>`,
    `<p>For ${sheet.name === undefined ? words.blank : escaped(sheet.name)}. Made ${escaped(sheet.made)}.</p>`,
    `<p>${words.intro.join(' ')}</p>`,
    '<section class="boxed">',
    `<h2>${words.callTitle}</h2>`,
    `<p>${words.unitPhone} ${words.blank}</p>`,
    `<p>${words.emergencyPhone} ${words.blank}</p>`,
    '</section>',
    ...section('h2', words.emergencyTitle, advice(sheet.emergencies)),
    ...section('h2', words.brokenTitle, advice(sheet.broken)),
    ...section('h2', words.signsTitle, advice(sheet.signs)),
    ...sheet.planned.flatMap((planned) => section('h2', words.plannedTitle, plannedTexts(planned))),
    ...(sheet.lines.length === 0
      ? sheet.planned.length === 0
        ? [`<p>${words.noLine}</p>`]
        : []
      : sheet.lines.flatMap((line) => lineHtml(line))),
    ...section('h2', words.alwaysTitle, advice(sheet.always)),
    ...section('h2', words.neverTitle, advice(sheet.never)),
    ...section('h2', words.bringTitle, advice(sheet.bring)),
    `<p>${words.plan} ${words.unsure}</p>`,
    '</main>',
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function lineHtml(line: HomeLine): string[] {
  const texts = (list: HomeLine['late']) => list.map(({ text }) => text);
  return [
    `<h2>Your line: ${escaped(line.name)}</h2>`,
    ...(line.safeSide ? [`<p>${words.safeSide}</p>`] : []),
    ...section('h3', words.nowTitle, line.callNow),
    ...section('h3', words.lateTitle, texts(line.late)),
    ...section('h3', words.notNowTitle, line.notNow),
    ...section('h3', words.dailyTitle, texts(line.everyDay)),
    `<h3>${words.daysTitle}</h3>`,
    '<table>',
    `<thead><tr><th scope="col">${words.day}</th><th scope="col">${words.todo}</th></tr></thead>`,
    '<tbody>',
    ...line.days.map(
      ({ date, name, todo }) =>
        `<tr><th scope="row"><time datetime="${escaped(date)}">${escaped(name)}</time></th><td>${escaped(dayText(todo, line))}</td></tr>`,
    ),
    '</tbody>',
    '</table>',
    ...section('h3', words.suppliesTitle, supplyTexts(line.supplies), 'columns'),
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
