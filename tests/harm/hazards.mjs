// The hazards as data: what is read from hazards/*.json, what must hold of it, and the page that is made from it.
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** From the most to the least likely, and from the worst to the least bad; ISO 14971 leaves the scale to its user. */
export const likelihoods = ['frequent', 'probable', 'occasional', 'remote', 'improbable'];
export const severities = ['catastrophic', 'critical', 'serious', 'minor', 'negligible'];

const numbered = (letter, numbers) => numbers.map((number) => `${letter}${number}`);
const upTo = (last) => Array.from({ length: last }, (_, index) => index + 1);

/** What was once found to hurt, stay silent or mislead, by table. Each has a test that begins with its id. */
export const rowsByTable = {
  'C clinical': numbered('C', upTo(21)),
  'I input': numbered('I', upTo(11)),
  'P policy owner': numbered('P', upTo(4)),
  'A adapter': numbered('A', upTo(24)),
  'T terminal and texts': numbered('T', [1, 2, 6, 7, 8]),
};

/** All hazards, in the order of their risk: the worst and likeliest first, then by id. */
export function readHazards() {
  const folder = fileURLToPath(new URL('hazards/', import.meta.url));
  const hazards = readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .flatMap((name) => JSON.parse(readFileSync(`${folder}${name}`, 'utf8')));
  const risk = ({ severity, likelihood }) =>
    severities.indexOf(severity) * 10 + likelihoods.indexOf(likelihood);
  return hazards.sort((one, other) => risk(one) - risk(other) || (one.id < other.id ? -1 : 1));
}

const textOf = (file) => {
  try {
    return readFileSync(`${root}${file}`, 'utf8');
  } catch {
    return undefined;
  }
};

const escaped = (text) => text.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);

/** The texts in quotes of a source, as patterns of what a table or a template makes of them. */
function patternsIn(text) {
  const quoted = text.matchAll(/'((?:[^'\\\n]|\\.)+)'|"((?:[^"\\\n]|\\.)+)"|`((?:[^`\\]|\\.)+)`/g);
  return [...quoted].map(([, single, double, template]) => {
    const title = (single ?? double ?? template).replaceAll(/\\(.)/g, '$1');
    const parts = title.split(/%[sdifjo]|\$\{[^}]*\}|\$[a-zA-Z][\w.]*/).map(escaped);
    return parts.join('').length < 8 ? undefined : new RegExp(`^${parts.join('.*')}$`);
  });
}

/** Whether a test of this title stands in a file; of the cases, whether there is a folder. */
function namesTest(file, text, name) {
  const [first = ''] = name.split(' ');
  if (file === 'tests/cases/cases.test.ts') return textOf(`tests/cases/${first}/expected.json`) !== undefined;
  // A title that a table of calculators makes ends with the calculator’s name.
  return [name, name.replace(/ \([a-z-]+\)$/, '')].some(
    (title) => text.includes(title) || patternsIn(text).some((pattern) => pattern?.test(title)),
  );
}

/** What is wrong with one hazard, without running anything. */
export function faultsOf(hazard) {
  const { id, rows = [], severity, likelihood, test, without } = hazard;
  const faults = ['id', 'hazard', 'harm', 'control'].filter((key) => !(hazard[key]?.length > 0));
  const said = [faults.map((key) => `has no ${key}`)].flat();
  if (!severities.includes(severity)) said.push(`severity ${severity}`);
  if (!likelihoods.includes(likelihood)) said.push(`likelihood ${likelihood}`);
  const all = Object.values(rowsByTable).flat();
  for (const row of rows) if (!all.includes(row)) said.push(`no row ${row}`);
  const text = textOf(test?.file ?? '');
  if (text === undefined) said.push(`no file ${test?.file}`);
  else if (!namesTest(test.file, text, test.name)) said.push(`${test.file} has no test "${test.name}"`);
  if (!(without?.length > 0)) said.push('has no switch');
  for (const each of without ?? []) {
    if ('rule' in each) continue;
    if (!textOf(each.file)?.includes(each.find)) said.push(`${each.file} does not contain ${each.find}`);
  }
  return said.map((fault) => `${id}: ${fault}`);
}

const cell = (text) => text.replaceAll('|', '\\|').replaceAll('<', '&lt;');

/** `docs/hazards.md`. */
export function hazardsPage(hazards) {
  const rows = hazards.map(({ id, rows: found = [], hazard, harm, likelihood, severity, control, test }) =>
    [
      `${id}${found.length === 0 ? '' : ` (${found.join(', ')})`}`,
      ...[hazard, harm, likelihood, severity, control],
      `${test.name} (\`${test.file}\`)`,
    ].map(cell),
  );
  return [
    '# Hazards',
    '',
    'What can go wrong where Dwellward is used, how it hurts, how likely it would be without a control and how bad, what in',
    'the software keeps it from happening, and the test that proves it. It thinks as ISO 14971 does; it is no risk file of a',
    'medical device, for Dwellward is none. What it leaves to people stands under the table.',
    '',
    'Every control has a switch in the tests that takes it out: `npm run show:harm` runs each test, and again without its',
    'control, where it must fail. This page is made from `tests/harm/hazards` by `npm run hazards`.',
    '',
    `${hazards.length} hazards, the worst and likeliest first.`,
    '',
    '<!-- prettier-ignore-start -->',
    '',
    '| hazard | what goes wrong | how it hurts | likelihood without control | severity | control | test |',
    '| --- | --- | --- | --- | --- | --- | --- |',
    ...rows.map((cells) => `| ${cells.join(' | ')} |`),
    '',
    '<!-- prettier-ignore-end -->',
    '',
    '## What stays with people',
    '',
    '- What was never charted can’t be known. The record is taken at its word where nothing in it speaks against it.',
    '- Values marked `from memory` or `common practice, no source` are to be checked by the owner of the policy before use.',
    '- Orders for drugs, pregnancy and the plan of treatment are not read.',
    '- Advice is no order: who acts on it is a licensed clinician or works under one, and local policy comes first.',
    '',
  ].join('\n');
}
