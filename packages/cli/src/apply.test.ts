import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { run } from './index.js';

const unit = fileURLToPath(new URL('../../../fixtures/lanternfern-unit.json', import.meta.url));
const at = ['--on', unit, '--at', '2026-11-25T07:30:00+01:00', '--zone', 'Europe/Berlin'];

async function apply(...args: string[]) {
  let out = '';
  let err = '';
  const exit = await run(['apply', ...args], {
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

interface Plan {
  readonly instantiatesCanonical?: readonly string[];
  readonly encounter?: { readonly reference: string };
  readonly contained: readonly {
    readonly resourceType: string;
    readonly for?: { readonly reference: string };
  }[];
}

describe('apply', () => {
  it('prints the CarePlan of one patient for one plan by itself', async () => {
    const { exit, out, err } = await apply(
      'neutropenia',
      '--patient',
      'larch-lapwing',
      '--encounter',
      'stay',
      ...at,
    );
    expect({ exit, err }).toEqual({ exit: 0, err: '' });
    const plan = JSON.parse(out) as Plan;
    expect(plan.instantiatesCanonical).toHaveLength(1);
    expect(plan.encounter).toEqual({ reference: 'Encounter/stay' });
    const tasks = plan.contained.filter(({ resourceType }) => resourceType === 'Task');
    expect(tasks.length).toBeGreaterThan(0);
    expect(new Set(tasks.map((task) => task.for?.reference))).toEqual(new Set(['Patient/larch-lapwing']));
  });

  it('lays it over another where that is asked for', async () => {
    const { out } = await apply(
      'neutropenia',
      '--policy',
      'base',
      '--patient',
      'Patient/larch-lapwing',
      ...at,
    );
    expect((JSON.parse(out) as Plan).instantiatesCanonical).toHaveLength(2);
  });

  it.each([
    [[], 'one plan'],
    [['base', 'neutropenia'], 'one plan'],
    [['base'], '--on is missing'],
    [['base', ...at], '--patient is missing'],
    [['base', '--patient', 'nobody', ...at], 'Patient/larch-lapwing'],
    [['base', '--patient', 'x', '--setting', 'home', ...at], '--setting'],
  ])('refuses %j with exit code 2', async (args, message) => {
    const { exit, out, err } = await apply(...args);
    expect({ exit, out }).toEqual({ exit: 2, out: '' });
    expect(err).toContain(message);
  });

  it('says what of the operation is supported and what is not', async () => {
    const { out } = await apply('--help');
    expect(out).toContain('Not supported: several subjects');
    expect(out).toContain('userType');
  });
});
