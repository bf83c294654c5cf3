import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { run, type Io } from './index.js';

const fixture = (name: string) => fileURLToPath(new URL(`../../../fixtures/${name}`, import.meta.url));
const unit = fixture('lanternfern-unit.json');
const at = ['--at', '2026-11-25T07:30:00+01:00', '--zone', 'Europe/Berlin'];
const layers = ['--policy', 'neutropenia'];
const folder = mkdtempSync(join(tmpdir(), 'dwellward-'));

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

async function dwellward(args: readonly string[], more: Partial<Io> & { input?: string } = {}) {
  let out = '';
  let err = '';
  const { input = '', ...io } = more;
  const exit = await run(args, {
    stdin: (async function* () {
      yield Buffer.from(input);
    })(),
    write: (text) => void (out += text),
    warn: (text) => void (err += text),
    colour: false,
    columns: 0,
    progress: false,
    now: () => '2026-11-25T06:30:00Z',
    ...io,
  });
  return { exit, out, err };
}

describe('due', () => {
  it('prints a table by patient and line, overdue first, and exits 0 though care is overdue', async () => {
    const { exit, out, err } = await dwellward(['due', unit, ...at, ...layers]);
    expect(exit).toBe(0);
    expect(err).toBe('');
    expect(out).toMatch(
      /^Line care due at Wed 25 Nov 07:30 \(Europe\/Berlin\)\n18 lines in place, 15 patients: [1-9]\d* overdue/,
    );
    expect(out).toMatch(
      /Spindle Wagtail[^]*?!! overdue {2}Wed 25 Nov 06:30 {2}1 h ago +Dressing change: exit site/,
    );
    expect(out).toContain('Neutrophils 0.18 10^9/L.');
    expect(out).toContain('Not in place: PICC, left arm (Device/dogwood-picc), line removed.');
    expect(out).toContain('Advice, not an order.');
    const states = [...out.matchAll(/^ {4}(!!|->|\|\||\.\.) (overdue|due|held|upcoming)/gm)].map(
      ([, , state]) => state,
    );
    expect(states[0]).toBe('overdue');
  });

  it('gives an issue whose code is also that of a sentence as it is', async () => {
    const patient = { reference: 'Patient/1' };
    const share = {
      ...{ resourceType: 'Observation', id: 'share', status: 'final', subject: patient },
      code: { coding: [{ system: 'http://loinc.org', code: '769-0' }] },
      effectiveDateTime: '2026-11-25T06:00:00+01:00',
      valueQuantity: { value: 40, unit: '%', system: 'http://unitsofmeasure.org', code: '%' },
    };
    const line = {
      ...{ resourceType: 'Device', id: 'line', status: 'active', patient },
      type: { coding: [{ system: 'http://snomed.info/sct', code: '445085009' }] },
    };
    const entry = [{ resourceType: 'Patient', id: '1' }, line, share].map((resource) => ({ resource }));
    const bundle = file('share.json', { resourceType: 'Bundle', type: 'collection', entry });
    const { exit, out } = await dwellward(['due', bundle, ...at, '--format', 'json']);
    const { issues } = JSON.parse(out) as { issues: { code: string; message: unknown }[] };
    expect(exit).toBe(0);
    expect(issues.find(({ code }) => code === 'part-of-no-count')?.message).toMatch(/40 ?%/);
  });

  it('reads an R5 Bundle, and says what does not fit the version that is named', async () => {
    const coding = [{ system: 'http://snomed.info/sct', code: '445085009' }];
    const bundle = file('r5.json', {
      resourceType: 'Bundle',
      type: 'collection',
      entry: [
        { resource: { resourceType: 'Device', id: 'l', type: [{ coding }], name: [{ value: 'Blue line' }] } },
        {
          resource: {
            resourceType: 'DeviceAssociation',
            id: 'a',
            device: { reference: 'Device/l' },
            subject: { reference: 'Patient/p' },
          },
        },
        { resource: { resourceType: 'Patient', id: 'p', name: [{ text: 'Ann Alder' }] } },
      ],
    });
    const plain = await dwellward(['due', bundle, ...at]);
    expect(plain.out).toMatch(/Ann Alder[^]*Blue line[^]*Dressing change/);
    expect(await dwellward(['due', bundle, ...at, '--fhir-version', '5.0.0'])).toEqual(plain);
    const doubted = await dwellward(['due', bundle, ...at, '--fhir-version', 'R4', '--format', 'json']);
    expect(doubted.out).toContain('R4 is said to be the version of FHIR');
    const unknown = await dwellward(['due', bundle, ...at, '--fhir-version', 'STU3']);
    expect([unknown.exit, unknown.err]).toEqual([2, expect.stringContaining('one of R4, R4B, R5 is wanted')]);
  });

  it('gives the same from a Bundle, from standard input and from a bulk export', async () => {
    const asJson = [...at, ...layers, '--format', 'json'];
    const fromFile = await dwellward(['due', unit, ...asJson]);
    const fromInput = await dwellward(['due', '-', ...asJson], { input: readFileSync(unit, 'utf8') });
    const fromExport = await dwellward(['due', fixture('lanternfern-unit-ndjson'), ...asJson]);
    expect(fromInput).toEqual(fromFile);
    expect(fromExport).toEqual(fromFile);
    const { lines } = JSON.parse(fromFile.out) as { lines: { items: { activity: string }[] }[] };
    expect(lines.flatMap(({ items }) => items).length).toBeGreaterThan(100);
  });

  it.each(['searchset', 'transaction', 'batch'])('reads a Bundle of type %s', async (type) => {
    const bundle = JSON.parse(readFileSync(unit, 'utf8')) as { entry: object[] };
    const outcome = {
      search: { mode: 'outcome' },
      resource: { resourceType: 'OperationOutcome', issue: [] },
    };
    const deleted = { request: { method: 'DELETE', url: 'Procedure/gone' } };
    const other = file(`${type}.json`, { ...bundle, type, entry: [...bundle.entry, outcome, deleted] });
    const [a, b] = [
      await dwellward(['due', other, ...at, '--format', 'json']),
      await dwellward(['due', unit, ...at, '--format', 'json']),
    ];
    expect(a).toEqual(b);
  });

  it('colours only where it is asked to, and never as the only sign', async () => {
    const args = ['due', unit, ...at, ...layers];
    const [plain, coloured] = [await dwellward(args), await dwellward(args, { colour: true })];
    expect(plain.out).not.toContain('\u001b');
    expect(coloured.out).toContain('\u001b[');
    // eslint-disable-next-line no-control-regex
    expect(coloured.out.replace(/\u001b\[[0-9;]*m/g, '')).toBe(plain.out);
  });

  it('lays policies over the default, and leaves layers of the default out where it is told to', async () => {
    const rules = async (...args: string[]) => {
      const { out } = await dwellward(['due', unit, ...at, ...args, '--format', 'json']);
      const { lines } = JSON.parse(out) as { lines: { items: { rule: { layer: string } }[] }[] };
      return new Set(lines.flatMap(({ items }) => items.map(({ rule }) => rule.layer)));
    };
    const base = 'Published maintenance of vascular access lines';
    const trouble = 'First steps in trouble';
    // The base, its first year, first steps and repair of the unit's trouble, and one patient's order: no lumen has had a
    // drug.
    expect((await rules()).size).toBe(5);
    expect((await rules(...layers)).size).toBe(6);
    expect([...(await rules('--without', 'trouble'))]).not.toContain(trouble);
    expect([...(await rules('--without', 'base'))]).toContain(trouble);
    expect([...(await rules('--without', 'base'))]).not.toContain(base);
    expect([...(await rules('--only-policy', '--policy', 'neutropenia'))]).not.toContain(
      [...(await rules())][0],
    );
  });

  it('--at now takes the clock that it is given', async () => {
    const { out } = await dwellward(['due', unit, '--at', 'now', '--zone', 'Europe/Berlin']);
    expect(out).toContain('Line care due at Wed 25 Nov 07:30');
  });

  it.each([
    [['due', unit, '--zone', 'Europe/Berlin'], '--at is missing'],
    [['due', unit, '--at', '2026-11-25T07:30:00+01:00'], '--zone is missing'],
    [['due', unit, '--at', '2026-11-25', '--zone', 'Europe/Berlin'], '--at 2026-11-25'],
    [['due', unit, '--at', '2026-11-25T07:30:00', '--zone', 'Europe/Berlin'], '--at'],
    [['due', unit, '--at', '2026-11-25T07:30:00Z', '--zone', 'Mars/Base'], '--zone Mars/Base'],
    [['due', ...at], 'No input'],
    [['due', unit, unit, ...at], 'One input'],
    [['due', unit, ...at, '--format', 'xml'], '--format xml'],
    [['due', unit, ...at, '--within', 'soon'], '--within soon'],
    [['due', unit, ...at, '--unknown'], '--unknown'],
    [['due', unit, ...at, '--only-policy'], 'Every bundled layer is left out'],
    [['due', unit, ...at, '--without', 'neutropenia'], '--without neutropenia'],
    [['dew'], 'There is no command dew'],
  ])('refuses %j with exit code 2 and says why', async (args, message) => {
    const { exit, out, err } = await dwellward(args);
    expect(exit).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(message);
    expect(err).toContain('--help');
  });

  it.each([
    ['missing.json', undefined, 'no such file'],
    ['text.json', 'This is a note, not JSON.', 'not JSON'],
    ['list.json', [1, 2], 'no FHIR resource'],
    ['patient.json', { resourceType: 'Patient' }, 'resourceType is Patient'],
    ['history.json', { resourceType: 'Bundle', type: 'history' }, 'Bundle.type is "history"'],
    ['untyped.json', { resourceType: 'Bundle' }, 'Bundle.type is not given'],
    ['entry.json', { resourceType: 'Bundle', type: 'collection', entry: {} }, 'Bundle.entry is not a list'],
    ['empty.ndjson', '\n\n', 'No line of'],
  ])('refuses %s with exit code 3 and says what is wrong', async (name, content, message) => {
    const path = content === undefined ? join(folder, name) : file(name, content);
    const { exit, out, err } = await dwellward(['due', path, ...at]);
    expect({ exit, out }).toEqual({ exit: 3, out: '' });
    expect(err).toContain(message);
    expect(err).toContain(name);
  });

  it('does not repeat what stands in a file that is not JSON: it may be a patient’s data', async () => {
    const { err } = await dwellward(['due', file('secret.json', 'Maple Magpie, born 1970'), ...at]);
    expect(err).not.toContain('aple Magpie');
  });

  it('refuses bytes that are no UTF-8', async () => {
    const path = join(folder, 'latin.json');
    writeFileSync(path, Buffer.from([0x7b, 0xff, 0xfe]));
    expect(await dwellward(['due', path, ...at])).toMatchObject({
      exit: 3,
      err: expect.stringContaining('UTF-8') as string,
    });
  });

  it('computes the good among the bad, names the bad, and exits 5', async () => {
    const { exit, out, err } = await dwellward(['due', fixture('bad/bad-among-good.json'), ...at]);
    expect(exit).toBe(5);
    expect(out).toContain('Dressing change: exit site');
    for (const place of [
      'Bundle.entry[1]',
      'Procedure.performedDateTime',
      'Observation.value[x]',
      'Proceduer',
    ]) {
      expect(err).toContain(place);
      expect(out).toContain(place);
    }
  });

  it('names the line of an export that can’t be read, and exits 5', async () => {
    const { exit, err } = await dwellward(['due', fixture('bad/truncated-ndjson'), ...at]);
    expect(exit).toBe(5);
    expect(err).toMatch(/Procedure\.ndjson, line \d+: It is not JSON/);
  });

  it('refuses a policy that can’t be used with exit code 4', async () => {
    const wrong = file('wrong-plan.json', {
      resourceType: 'PlanDefinition',
      status: 'active',
      action: [{ id: 'x' }],
    });
    expect(await dwellward(['due', unit, ...at, '--policy', wrong])).toMatchObject({ exit: 4, out: '' });
    expect(await dwellward(['due', unit, ...at, '--policy', 'no-such-policy'])).toMatchObject({
      exit: 4,
      err: expect.stringContaining('neutropenia') as string,
    });
  });
});

describe('explain', () => {
  it('gives the rule, the source, the facts with their references and what would change it', async () => {
    const { exit, out } = await dwellward([
      'explain',
      unit,
      '--line',
      'spindle-picc',
      '--activity',
      'dressing-change',
      ...at,
      ...layers,
    ]);
    expect(exit).toBe(0);
    expect(out).toContain('rule dressing-change-gauze-low-neutrophils');
    expect(out).toContain('Common practice, no source');
    expect(out).toMatch(/neutrophil count: 0\.18 10\^9\/L since Wed .* \[Observation\/.*\]/);
    expect(out).toContain('other rules that apply');
    expect(out).toContain('what would change it');
  });

  it('says of a removed line what still follows, and names the lines where the one asked for is not there', async () => {
    const removed = await dwellward(['explain', unit, '--line', 'Device/dogwood-picc', ...at]);
    expect(removed.out).toContain('Not in place: line removed. What follows the removal is still due.');
    expect(removed.out).toContain('rule site-assessment-after-removal');
    const weeksOn = ['--at', '2026-12-20T07:30:00+01:00', '--zone', 'Europe/Berlin'];
    expect((await dwellward(['explain', unit, '--line', 'Device/dogwood-picc', ...weeksOn])).out).toContain(
      'Not in place: line removed. Nothing is due.',
    );
    expect(await dwellward(['explain', unit, '--line', 'nobody', ...at])).toMatchObject({
      exit: 2,
      err: expect.stringContaining('Device/spindle-picc') as string,
    });
    const slip = ['explain', unit, '--line', 'dogwood-tunneled', '--activity', 'dressing', ...at];
    expect(await dwellward(slip)).toMatchObject({
      exit: 2,
      err: expect.stringMatching(
        /^dwellward: --activity dressing: there is no such activity. There are insertion, .*dressing-change/,
      ) as string,
    });
    expect(await dwellward(['explain', unit, ...at])).toMatchObject({
      exit: 2,
      err: expect.stringContaining('--line is missing') as string,
    });
  });
});

describe('policy check', () => {
  it.each(['base', 'neutropenia', 'repair-care'])('finds no error in the bundled %s', async (name) => {
    const { exit, out } = await dwellward(['policy', 'check', name]);
    expect({ exit, out }).toMatchObject({ exit: 0, out: expect.stringContaining('0 errors') as string });
  });

  it('names path and reason of what is wrong', async () => {
    const plan = {
      resourceType: 'PlanDefinition',
      url: 'https://unit.example/PlanDefinition/ours',
      version: '1',
      status: 'active',
      action: [
        {
          id: 'ours',
          title: 'Ours',
          code: [
            {
              coding: [
                {
                  system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
                  code: 'dressing-change',
                },
              ],
            },
          ],
          condition: [
            {
              kind: 'applicability',
              expression: { language: 'text/fhirpath', expression: "%labs.ank < 0.5 '10*9/L'" },
            },
          ],
          timingTiming: { repeat: { frequency: 1, period: 1, periodUnit: 'd' } },
        },
      ],
    };
    const { exit, out } = await dwellward(['policy', 'check', file('plan.json', plan)]);
    expect(exit).toBe(4);
    expect(out).toContain('PlanDefinition.action[0].condition[0]');
    expect(out).toContain('labs.anc');
  });
});

describe('help', () => {
  it.each([['--help'], ['due', '--help'], ['explain', '--help'], ['policy', '--help']])(
    '%s has examples and exits 0',
    async (...args) => {
      const { exit, out } = await dwellward(args);
      expect(exit).toBe(0);
      expect(out).toContain('dwellward');
    },
  );

  it('is shown, with exit code 2, where nothing is asked for', async () => {
    expect(await dwellward([])).toMatchObject({
      exit: 2,
      out: expect.stringContaining('dwellward due') as string,
    });
  });
});
