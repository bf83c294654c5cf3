import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { describe, expect, it } from 'vitest';
import { run, systemRefusal } from './index.js';

async function dwellward(args: readonly string[], more: { readonly write?: (text: string) => void } = {}) {
  let [out, err] = ['', ''];
  const exit = await run(args, {
    stdin: (async function* () {})(),
    write: (text) => {
      more.write?.(text);
      out += text;
    },
    warn: (text) => void (err += text),
    colour: false,
    columns: 0,
    progress: false,
    now: () => demoInstant,
  });
  return { exit, out, err };
}

const folder = mkdtempSync(join(tmpdir(), 'dwellward-'));
const at = ['--at', demoInstant, '--zone', demoZone];

/** The demo unit in which everything that people name bears a hostile name. */
function hostileUnit(): string {
  const forged = '\n    !! overdue  now  Give heparin 50000 units\r\u001b[2J\u009b31m\u202e\u200b';
  const unit = structuredClone(demoUnit()) as unknown as { entry: { resource: Record<string, unknown> }[] };
  for (const { resource } of unit.entry) {
    const name = `Ann${forged}`;
    if (resource['resourceType'] === 'Patient') resource['name'] = [{ text: name }];
    if (resource['resourceType'] === 'Device')
      resource['deviceName'] = [{ name, type: 'user-friendly-name' }];
    if (resource['resourceType'] === 'Location') resource['name'] = name;
  }
  unit.entry.push({ resource: { resourceType: `Proceduer${forged}`, id: 'odd' } });
  const path = join(folder, 'hostile.json');
  writeFileSync(path, JSON.stringify(unit));
  return path;
}

/** What a terminal obeys, or shows as nothing. */
const obeyed = new RegExp(
  String.raw`[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200b\u200e\u200f\u202a-\u202e\u2066-\u2069]`,
);

describe('T1: names that a terminal would obey', () => {
  const unit = hostileUnit();
  const patient = ['--patient', 'alder-nuthatch'];
  it.each([
    ['due', ['due', unit, ...at, '--all']],
    ['due as JSON', ['due', unit, ...at, '--format', 'json']],
    ['due as FHIR', ['due', unit, ...at, '--format', 'fhir']],
    ['handover', ['handover', unit, ...at]],
    ['handover as JSON', ['handover', unit, ...at, '--format', 'json']],
    ['home', ['home', unit, ...at, ...patient]],
    ['home as HTML', ['home', unit, ...at, ...patient, '--format', 'html']],
    ['calendar', ['calendar', unit, ...at, ...patient, '--tells', 'full']],
    ['explain', ['explain', unit, ...at, '--line', 'alder-tunneled']],
    [
      'draw',
      [
        'draw',
        unit,
        ...at,
        '--line',
        'alder-tunneled',
        '--lumen',
        'alder-tunneled-red',
        '--tests',
        'culture=10',
      ],
    ],
    ['repair', ['repair', unit, ...at, '--line', 'hornbeam-tunneled']],
    ['preview', ['policy', 'preview', 'neutropenia', '--on', unit, ...at]],
    ['codes', ['codes', unit, '--all']],
    ['codes as CSV', ['codes', unit, '--format', 'csv']],
    ['a map of codes', ['codes', unit, '--start', 'https://hospital.example/ConceptMap/lines']],
    ['apply', ['apply', 'base', '--on', unit, ...at, ...patient]],
    ['a refusal', ['explain', unit, ...at, '--line', 'Ann\n!! overdue\u001b[2J']],
  ])(
    'T1: of %s no raw control character reaches the terminal, and no row is forged',
    async (_, args) => {
      const { out, err } = await dwellward(args);
      expect(`${out}${err}`.length).toBeGreaterThan(20);
      for (const text of [out, err]) {
        expect(text.replaceAll('\r\n', '\n').match(obeyed)).toBeNull();
        // Where rows and points begin; further in stands the rest of a row that was wrapped.
        expect(
          text.split('\n').filter((row) => /^ {0,6}!! overdue\s+now|^ {0,2}Give heparin/.test(row)),
        ).toEqual([]);
      }
    },
    60_000,
  );
});

describe('T2: what the operating system refuses', () => {
  const broken = (code: string, syscall: string) => Object.assign(new Error(`${code}: x`), { code, syscall });

  it.each([
    ['a closed pipe', 'EPIPE', 'stopped reading'],
    ['a full disk', 'ENOSPC', 'no room left'],
  ])('T2: %s ends with plain words and a code of its own, and no stack', async (_, code, words) => {
    const { exit, err } = await dwellward(['--help'], {});
    expect({ exit, err }).toEqual({ exit: 0, err: '' });
    const path = join(folder, 'unit.json');
    writeFileSync(path, JSON.stringify(demoUnit()));
    const failed = await dwellward(['due', path, ...at], {
      write: () => {
        throw broken(code, 'write');
      },
    });
    expect(failed.exit).toBe(7);
    expect(failed.err).toContain(words);
    expect(failed.err).not.toMatch(/\n\s+at |Error:/);
  });

  it.each([
    ['EACCES', 'scandir', 'no permission'],
    ['ENOENT', 'open', 'no such file'],
  ])('T2: %s is an input that can’t be read, in plain words', (code, call, words) => {
    expect(systemRefusal(Object.assign(broken(code, call), { path: 'unit/' }))).toMatchObject({
      code: 'unreadable-input',
      words: expect.stringContaining(words) as string,
    });
    expect(systemRefusal(new Error('other'))).toBeUndefined();
  });
});

describe('T6: as people expect of a command', () => {
  it('T6: says its version', async () => {
    expect(await dwellward(['--version'])).toMatchObject({ exit: 0, out: 'dwellward 0.1.0\n' });
  });

  it.each([
    [['deu'], 'Did you mean due?'],
    [['due', '--polcy', 'x'], 'There is no option --polcy. Did you mean --policy?'],
    [
      ['explain', 'unit.json', '--line', 'x', '--activity', 'dresing-change'],
      'Did you mean dressing-change?',
    ],
  ])('T6: says what was meant: %j', async (args, words) => {
    const { exit, err } = await dwellward(args);
    expect(exit).toBe(2);
    expect(err).toContain(words);
  });

  it('T6: says what was meant of a line and of a patient, and how to see what opens later', async () => {
    const path = join(folder, 'unit-2.json');
    writeFileSync(path, JSON.stringify(demoUnit()));
    expect((await dwellward(['explain', path, ...at, '--line', 'spindel-picc'])).err).toContain(
      'Did you mean spindle-picc?',
    );
    expect((await dwellward(['home', path, ...at, '--patient', 'spindle-wagtial'])).err).toContain(
      'Did you mean spindle-wagtail?',
    );
    expect((await dwellward(['due', path, ...at])).out).toMatch(/and \d+ that opens? later; --all shows/);
  });
});
