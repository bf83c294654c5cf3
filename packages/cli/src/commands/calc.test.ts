import { calculators, type CatalogEntry } from '@dwellward/calculators/catalog';
import { describe, expect, it } from 'vitest';
import { run } from '../index.js';

async function calc(...args: string[]) {
  let out = '';
  let err = '';
  const exit = await run(['calc', ...args], {
    stdin: (async function* () {})(),
    write: (text) => void (out += text),
    warn: (text) => void (err += text),
    colour: false,
    columns: 0,
    progress: false,
    now: () => '2026-11-25T06:30:00Z',
  });
  return { exit, out, err };
}

const entries: [string, CatalogEntry][] = Object.entries(calculators);

describe('dwellward calc', () => {
  it('lists every calculator', async () => {
    const { exit, out } = await calc();
    expect(exit).toBe(0);
    for (const [name, { title }] of entries)
      expect(out).toMatch(new RegExp(`^  ${name} +${title.replace(/[^A-Za-z ]/g, '.')}`, 'm'));
  });

  it.each(entries)(
    '%s --help gives formula, inputs with ranges, cautions and source',
    async (name, entry) => {
      const { exit, out } = await calc(name, '--help');
      expect(exit).toBe(0);
      for (const text of [entry.formula, entry.source, ...entry.cautions]) expect(out).toContain(text);
      for (const spec of Object.values(entry.inputs)) expect(out).toContain(spec.accepted);
    },
  );

  it('gives value, unit, working, cautions and source', async () => {
    // CDC NHSN Patient Safety Component Manual, January 2026, p. 4-10: 2 k/mm3, 20 %, 20 % -> 800 /mm3.
    const args = [
      'absolute-neutrophil-count',
      '--leucocytes',
      '2',
      '--leucocytes-unit',
      'k/mm3',
      '--segmented-percent',
      '20',
      '--bands-percent',
      '20',
    ];
    const { exit, out } = await calc(...args);
    expect(exit).toBe(0);
    expect(out).toMatch(/: 800 \/uL\n[^]*Working\n[^]*Cautions\n[^]*Source: /);
    expect(JSON.parse((await calc(...args, '--format', 'json')).out)).toMatchObject({
      value: '800',
      unit: '/uL',
    });
  });

  it('takes lists as JSON', async () => {
    const lumens = [{ name: 'red', use: 'idle', bloodInside: true, hoursSinceLock: 2, valved: false }];
    const { exit, out } = await calc('lumens-to-lock', '--lumens', JSON.stringify(lumens));
    expect(exit).toBe(0);
    expect(out).toContain('red');
  });

  it('C17: takes true and false of what is a yes or a no, as its help says', async () => {
    const dose = (...args: string[]) => calc('thrombolytic-dose', '--weight-kg', '40', ...args);
    const { exit, out } = await dose('--hypersensitivity', 'true');
    expect(exit).toBe(0);
    expect(out).toMatch(/: contraindicated\n/);
    expect(out).not.toMatch(/2 mg\n|second dose allowed: true|volume ml/);
    expect((await dose('--hypersensitivity', 'false')).out).toMatch(/: 2 mg\n/);
    expect((await dose('--help')).out).toContain('--hypersensitivity true|false');
    for (const wrong of [['--hypersensitivity', 'yes'], ['--hypersensitivity']]) {
      const refused = await dose(...wrong);
      expect([refused.exit, refused.out]).toEqual([2, '']);
    }
  });

  it.each([
    [['no-such'], 'There is no calculator no-such'],
    [['flush-volume'], '--catheter-volume-ml: missing'],
    [['flush-volume', '--catheter-volume-ml', '90'], 'accepted: 0.001 to 10 mL'],
    [['flush-volume', '--catheter-volume-ml', 'lots'], 'not a number'],
    [['flush-volume', '--volume', '1'], '--volume'],
    [['lumens-to-lock', '--lumens', 'red'], 'a list is written as JSON'],
  ])('refuses %j and says what is accepted', async (args, message) => {
    const { exit, out, err } = await calc(...args);
    expect({ exit, out }).toEqual({ exit: 2, out: '' });
    expect(err).toContain(message);
  });
});
