// T1: names and texts come from records, plans and arguments, which others write. Every output is written twice, with
// texts that a terminal would obey and with the plain texts that they should have become: row by row it must be the same.
// What the outputs are is read from the sources of the command: a new verb or format without a row here fails.
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeLog, readConfig } from '@dwellward/adapter';
import { run } from '@dwellward/cli';
import { dueCare, readRecords, transactionFor } from '@dwellward/core';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { defaultPolicy } from '@dwellward/policy';
import { afterAll, describe, expect, it } from 'vitest';
import { figure } from '../figure.js';

// Unicode 16, chapter 23 (controls, bidirectional formatting, format characters); ECMA-48 for the escape sequences.
// Both are of one length up to the sign that nobody sees, so that what is cut short is cut at the same place.
const hostile =
  'Ann\n!! overdue now Give heparin 50000 units\rBEGIN:VEVENT\u2028-> | due | now, "x"; <b>' +
  `\u001b[2J\u009b31m\u001b]0;t\u0007\u202eredlA\u2066\ud800\t${'long'.repeat(200)}\u200b`;
const plain =
  'Ann !! overdue now Give heparin 50000 units BEGIN:VEVENT -> | due | now, "x"; <b>' +
  `\ufffd[2J\ufffd31m\ufffd]0;t\ufffd\ufffdredlA\ufffd\ufffd ${'long'.repeat(200)}`;

/** What a terminal obeys, or shows as nothing; a line break is the output's own. */
const obeyed = new RegExp(
  String.raw`[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2066-\u2069]`,
  'g',
);
const raw = (text: string) => text.replaceAll('\r\n', '\n').match(obeyed)?.length ?? 0;
/** Rows that the honest output does not have, wherever they stand: a name may decide the order. */
const forged = (rows: readonly string[], honest: readonly string[]) => {
  const left = [...honest];
  const more = rows.filter((row) => !left.includes(row) || left.splice(left.indexOf(row), 1).length === 0);
  return Math.max(more.length, Math.abs(rows.length - honest.length));
};

const folder = mkdtempSync(join(tmpdir(), 'dwellward-names-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const written = new Set([
  'text',
  'display',
  'name',
  'family',
  'given',
  'title',
  'description',
  'documentation',
]);

/** The same with every text that a person wrote followed by this one. */
function named(value: unknown, more: string, key = ''): unknown {
  if (typeof value === 'string') return written.has(key) ? `${value} ${more}` : value;
  if (Array.isArray(value)) return value.map((one: unknown) => named(one, more, key));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, named(one, more, name)]));
}

/** The demo unit with such texts, and with what nobody understands and everybody is told of. */
function unitWith(more: string): { entry: { resource: Record<string, unknown> }[] } {
  const unit = named(demoUnit(), more) as ReturnType<typeof unitWith>;
  const subject = { reference: 'Patient/alder-nuthatch' };
  const devices = unit.entry.filter(({ resource }) => resource['resourceType'] === 'Device');
  for (const { resource } of devices)
    resource['deviceName'] ??= [{ name: `Line ${more}`, type: 'user-friendly-name' }];
  const odd = [
    { resourceType: `Proceduer ${more}`, id: 'odd' },
    {
      ...{ resourceType: 'Procedure', id: 'odd-1', status: 'completed', subject },
      code: { text: `Act ${more}`, coding: [{ system: `http://ward.example/${more}`, code: `A ${more}` }] },
    },
    {
      ...{ resourceType: 'AllergyIntolerance', id: 'odd-2', patient: subject },
      code: { text: `chlorhexidine ${more}` },
    },
  ];
  unit.entry.push(...odd.map((resource) => ({ resource })));
  return unit;
}

const ownPlan = new URL('../../fixtures/policy/PlanDefinition-lanternfern.json', import.meta.url);

/** Every argument of the outputs: files, and a name that is none. */
function givenBy(more: string, name: string) {
  const file = (of: string, content: unknown) => {
    const path = join(folder, `${name}-${of}.json`);
    writeFileSync(path, JSON.stringify(content));
    return path;
  };
  return {
    unit: file('unit', unitWith(more)),
    plan: file('plan', named(JSON.parse(readFileSync(ownPlan, 'utf8')), more)),
    name: more,
  };
}
type Given = ReturnType<typeof givenBy>;

const at = ['--at', demoInstant, '--zone', demoZone];
const patient = ['--patient', 'alder-nuthatch'];
const line = ['--line', 'alder-tunneled'];

/** A row for each output: the verb of the command, and how to ask for it. */
const verbs: Readonly<Record<string, (given: Given) => readonly string[]>> = {
  apply: ({ unit, plan }) => ['apply', plan, '--on', unit, ...at, ...patient],
  calc: ({ name }) => ['calc', 'flush-volume', '--catheter-volume-ml', `0.6 ${name}`],
  calendar: ({ unit, plan }) => ['calendar', unit, ...at, ...patient, '--tells', 'full', '--policy', plan],
  codes: ({ unit }) => ['codes', unit, '--all'],
  draw: ({ unit }) => [
    'draw',
    unit,
    ...at,
    ...line,
    '--lumen',
    'alder-tunneled-red',
    '--tests',
    'culture=10',
  ],
  due: ({ unit, plan }) => ['due', unit, ...at, '--all', '--policy', plan],
  explain: ({ unit, plan }) => ['explain', unit, ...at, ...line, '--policy', plan],
  figures: ({ unit }) => ['figures', unit, '--from', '2026-11-01', '--to', '2026-11-25', '--zone', demoZone],
  handover: ({ unit, plan }) => ['handover', unit, ...at, '--policy', plan],
  home: ({ unit }) => ['home', unit, ...at, ...patient],
  repair: ({ unit }) => ['repair', unit, ...at, '--line', 'hornbeam-tunneled'],
  policy: ({ name }) => ['policy', name],
  policyCheck: ({ plan }) => ['policy', 'check', plan],
  policyDiff: ({ plan }) => ['policy', 'diff', 'base', plan],
  policyList: () => ['policy', 'list'],
  policyNew: ({ name }) => ['policy', 'new', '--title', name],
  policyReplay: ({ unit, plan }) => [
    ...['policy', 'replay', 'neutropenia', plan, '--on', unit],
    ...['--from', '2026-11-20', '--to', '2026-11-25', '--zone', demoZone],
  ],
  policyPreview: ({ unit, plan }) => ['policy', 'preview', 'neutropenia', plan, '--on', unit, ...at],
  policyShow: ({ plan }) => ['policy', 'show', plan],
};
/** What says no names the argument that it says no to. */
const refusals: Readonly<Record<string, (given: Given) => readonly string[]>> = {
  'a command': ({ name }) => [name],
  'a line': ({ unit, name }) => ['explain', unit, ...at, '--line', name],
  'a lumen': ({ unit, name }) => ['draw', unit, ...at, ...line, '--lumen', name],
  'a patient': ({ unit, name }) => ['home', unit, ...at, '--patient', name],
  'a file': ({ name }) => ['due', name, ...at],
  'a policy': ({ unit, name }) => ['due', unit, ...at, '--policy', name],
  'a format': ({ unit, name }) => ['due', unit, ...at, '--format', name],
  'an option': ({ unit, name }) => ['due', unit, ...at, `--${name}`],
  'a zone': ({ unit, name }) => ['due', unit, '--at', demoInstant, '--zone', name],
};

/** Every verb of the command with its formats, as its sources have them. */
function outputsOfSources(): [verb: string, formats: readonly string[]][] {
  const sources = new URL('../../packages/cli/src/commands/', import.meta.url);
  return readdirSync(sources)
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
    .flatMap((name): [string, readonly string[]][] => {
      const text = readFileSync(new URL(name, sources), 'utf8');
      const verb = /export (?:async )?function (\w+)\(args: string\[\], io: Io\)/.exec(text)?.[1];
      if (verb === undefined) return [];
      const words = /(?:: one of|: use) ([a-z]+(?:(?:, | or )[a-z]+)+)\./.exec(
        /`--format \$\{[^`]*`/.exec(text)?.[0] ?? '',
      )?.[1];
      // The list may stand in a file beside.
      const list = /one of \$\{(\w+)\.join/.exec(text)?.[1] ?? 'formats';
      const beside = readdirSync(new URL('../', sources)).filter((one) => one.endsWith('-text.ts'));
      const listed = [text, ...beside.map((one) => readFileSync(new URL(`../${one}`, sources), 'utf8'))]
        .map((one) => new RegExp(`const ${list} = \\[([^\\]]*)\\]`).exec(one)?.[1])
        .find((one) => one !== undefined)
        ?.replaceAll("'", '');
      return [[verb, (words ?? listed)?.split(/, | or /) ?? []]];
    });
}

async function told(args: readonly string[]): Promise<string> {
  let text = '';
  const io = {
    stdin: (async function* () {})(),
    write: (part: string) => void (text += part),
    warn: (part: string) => void (text += part),
    ...{ colour: false, columns: 0, progress: false, now: () => demoInstant },
  };
  await run(args, io);
  return text.replaceAll(join(folder, 'plain'), join(folder, 'hostile'));
}

/** Raw control characters and forged rows of an output. */
async function harmOf(args: (given: Given) => readonly string[], rest: readonly string[], data: boolean) {
  const [seen, honest] = [
    await told([...args(givenBy(hostile, 'hostile')), ...rest]),
    await told([...args(givenBy(plain, 'plain')), ...rest]),
  ];
  expect(seen.length).toBeGreaterThan(20);
  const [rows, others] = [seen.split('\n'), honest.split('\n')];
  // Data keep what was given, as escapes: their rows are counted.
  return { raw: raw(seen), forged: data ? Math.abs(rows.length - others.length) : forged(rows, others) };
}

const clean = { raw: 0, forged: 0 };
const sum = { outputs: 0, raw: 0, forged: 0 };
const count = (one: { raw: number; forged: number }) => {
  sum.outputs += 1;
  sum.raw += one.raw;
  sum.forged += one.forged;
  expect(one).toEqual(clean);
};

describe('T1: names that a terminal would obey', () => {
  const outputs = outputsOfSources();

  it('T1: every verb of the command has its row', () => {
    expect(outputs.map(([verb]) => verb).sort()).toEqual(Object.keys(verbs).sort());
    expect(outputs.filter(([, formats]) => formats.length > 0).length).toBeGreaterThanOrEqual(10);
  });

  it.each(
    outputs.flatMap(([verb, formats]) => (formats.length > 0 ? formats : ['']).map((one) => [verb, one])),
  )(
    'T1: %s %s: no raw control character, no forged row',
    async (verb = '', format = '') => {
      const data = ['json', 'fhir'].includes(format) || verb === 'apply';
      count(await harmOf(verbs[verb]!, format === '' ? [] : ['--format', format], data));
    },
    120_000,
  );

  it.each(Object.keys(refusals))(
    'T1: a refusal of %s: no raw control character, no forged row',
    async (what) => {
      count(await harmOf(refusals[what]!, [], false));
    },
  );

  it('T1: no text of a Task, a Flag or a DetectedIssue has a control character or a line of its own', () => {
    const policy = defaultPolicy();
    const when = { asOf: demoInstant, zone: demoZone };
    const texts = (value: unknown, key = ''): string[] =>
      typeof value === 'string'
        ? ['description', 'text', 'display', 'detail', 'mitigation'].includes(key)
          ? [value]
          : []
        : typeof value === 'object' && value !== null
          ? Object.entries(value).flatMap(([name, one]) => texts(one, Array.isArray(value) ? key : name))
          : [];
    const records = readRecords(unitWith(hostile).entry as never);
    const cares = records.lines.map((one) => dueCare(one, policy, when));
    const bundle = transactionFor({ records, cares, policy, when, existing: [] });
    const said = texts(bundle);
    expect(said.some((text) => text.includes('Give heparin 50000'))).toBe(true);
    count({
      raw: said.reduce((all, text) => all + raw(text), 0),
      forged: said.filter((text) => /\n\s*(?:!! overdue|BEGIN:VEVENT|->)/.test(text)).length,
    });
  });

  it('T1: a row of the adapter’s log is one row, and a terminal does not obey it', () => {
    let text = '';
    const config = readConfig({
      DWELLWARD_FHIR_URL: 'http://localhost:8080/fhir',
      DWELLWARD_ZONE: demoZone,
    });
    makeLog(config, { write: (row: string) => void (text += row) }).error({ message: hostile }, hostile);
    expect(JSON.parse(text)).toMatchObject({ message: hostile, msg: hostile });
    count({ raw: raw(text), forged: text.trimEnd().split('\n').length - 1 });
  });

  it('T1: the figure of all outputs', (context) => {
    figure(context, `${sum.outputs} outputs: ${sum.raw} raw control characters, ${sum.forged} forged rows`);
    expect(sum).toMatchObject(clean);
  });
});
