import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { run } from './index.js';

const unit = fileURLToPath(new URL('../../../fixtures/lanternfern-unit.json', import.meta.url));
const at = ['--at', '2026-11-25T07:30:00+01:00', '--zone', 'Europe/Berlin'];

async function dwellward(...args: string[]) {
  return fed('', ...args);
}

async function fed(input: string, ...args: string[]) {
  let out = '';
  let err = '';
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
  });
  return { exit, out, err };
}
const lumensOf = (text: string) => /Lumens: (.*)\./.exec(text)?.[1]?.split(', ') ?? [];

describe('draw', () => {
  it('asks for the lumen where there are several, then prints numbered steps with their volumes', async () => {
    const asked = await dwellward('draw', unit, '--line', 'hemlock-tunneled', '--tests', 'culture', ...at);
    expect(asked.exit).toBe(2);
    expect(asked.err).toMatch(/several lumens; say which/);
    const wrong = ['--line', 'hemlock-tunneled', '--lumen', 'teal', '--tests', 'culture', ...at];
    const [lumen = ''] = lumensOf((await dwellward('draw', unit, ...wrong)).err);
    const { exit, out, err } = await dwellward(
      ...['draw', unit, '--line', 'hemlock-tunneled', '--lumen', lumen],
      ...['--tests', 'blood-count=2.7,coagulation=2.7,culture=10', ...at],
      ...['--drawn', '2026-11-25T06:00:00+01:00=12'],
    );
    expect([exit, err]).toEqual([0, '']);
    expect(out).toMatch(/Steps\n {2}1\. \S[^]*?\n {2}2\. Stop what runs/);
    expect(out).toMatch(/culture bottles \(culture, 10 mL\); citrate \(coagulation, 2\.7 mL\); EDTA/);
    expect(out).toMatch(/before it, as far as known: 12 mL in 24 hours/);
    expect(out).toMatch(/heparin falsifies coagulation/);
    expect(out).toContain('Advice, not an order.');
    expect(out).not.toMatch(/undefined|%calculated|NaN/);
  });

  it('says once what is to be known of the policy, though it reads it with and without the layer for draws', async () => {
    const line = ['--line', 'hemlock-tunneled', '--tests', 'culture', ...at];
    const { err } = await dwellward('draw', unit, ...line, '--policy', 'infant', '--without', 'trouble');
    const warnings = err.split('\n').filter((text) => text.startsWith('warning: '));
    expect(warnings.length).toBeGreaterThan(1);
    expect(new Set(warnings).size).toBe(warnings.length);
  });

  it('says that a draw is above the limit before its first step, and what else to mind', async () => {
    const wrong = ['--line', 'elderberry-tunneled', '--lumen', 'teal', '--tests', 'culture', ...at];
    const asked = await dwellward('draw', unit, ...wrong);
    const [lumen = ''] = lumensOf(asked.err);
    const args = ['draw', unit, '--line', 'elderberry-tunneled', '--lumen', lumen, ...at];
    const { exit, out } = await dwellward(...args, '--tests', 'culture=20,drug-level=5,coagulation=3');
    expect(exit).toBe(6);
    expect(out).toMatch(
      /^THIS DRAW IS ABOVE WHAT MAY STILL BE DRAWN TODAY: [\d.]+ mL, discard included, and [\d.]+ mL may be/,
    );
    // What to ask stands in the place of the steps.
    expect(out).toMatch(
      /Ask first\n {2}1\. Ask the prescriber which of these can wait: blood culture bottles/,
    );
    expect(out).not.toMatch(/Steps\n|discard [\d.]+ mL\. Clamp|Take\n/);
    // Common practice, no source; CLSI H21-A5 (from memory) for the flush.
    expect(out).toMatch(/level of a drug comes out too high from a lumen that it ran through/);
    const json = await dwellward(...args, '--tests', 'culture=20', '--format', 'json');
    expect(json.exit).toBe(6);
    const little = await dwellward(...args, '--tests', 'culture=1');
    expect(little.exit).toBe(0);
    expect(little.out).toMatch(/^Blood draw, /);
  });

  it('lays its layer under a policy that is named, so that a unit can replace the steps', async () => {
    const args = ['--line', 'alder-tunneled', '--tests', 'chemistry', ...at, '--policy', 'occlusion'];
    const { err } = await dwellward('draw', unit, ...args);
    expect(err).not.toMatch(/no steps of a blood draw/);
  });

  it.each([
    [['--tests', 'culture'], /--line is missing/],
    [['--line', 'alder-tunneled'], /--tests is missing.*culture, coagulation/],
    [['--line', 'alder-tunneled', '--tests', 'sodium'], /--tests sodium: one of culture/],
    [['--line', 'alder-tunneled', '--tests', 'culture=much'], /“much” is not a volume/],
    [['--line', 'alder-tunneled', '--tests', 'culture', '--drawn', '12'], /--drawn 12: an instant and mL/],
    [['--line', 'alder-tunneled', '--tests', 'culture', '--daily-percent', '3'], /go together/],
    [['--line', 'nobody', '--tests', 'culture'], /no such line in the input/],
    [['--line', 'alder-tunneled', '--tests', 'culture', '--format', 'pdf'], /one of text, json/],
  ])('refuses %j', async (args, message) => {
    const { exit, out, err } = await dwellward('draw', unit, ...args, ...at);
    expect([exit, out]).toEqual([2, '']);
    expect(err).toMatch(message);
  });

  it('refuses an earlier draw whose time is none', async () => {
    const wrong = ['--line', 'hemlock-tunneled', '--lumen', 'teal', '--tests', 'culture', ...at];
    const [lumen = ''] = lumensOf((await dwellward('draw', unit, ...wrong)).err);
    const { exit, err } = await dwellward(
      ...['draw', unit, '--line', 'hemlock-tunneled', '--lumen', lumen],
      ...['--tests', 'culture', '--drawn', 'yesterday=12', ...at],
    );
    expect(exit).toBe(2);
    expect(err).toMatch(/yesterday/);
  });
});

describe('repair', () => {
  const known = [
    ...['--intact', '6', '--trim', '0.5', '--segment', '10', '--segment-diameter', '1.6'],
    ...['--lumen-size', '9.6', '--kit-size', '9.6', '--least-intact', '4'],
    ...['--kit-for-device', 'yes', '--free-of-clot', 'yes', '--may-repair', 'yes'],
  ];
  const line = ['--line', 'hemlock-tunneled'];
  const leak = (device: string) => ({
    resource: {
      resourceType: 'Observation',
      id: `leak-${device}`,
      status: 'final',
      code: {
        coding: [{ system: 'https://dwellward.example/fhir/CodeSystem/line-finding', code: 'damage' }],
      },
      subject: { reference: 'Patient/hemlock-heron' },
      focus: [{ reference: `Device/${device}` }],
      effectiveDateTime: '2026-11-25T07:00:00+01:00',
      valueString: 'leak',
    },
  });
  const withDamage = (...devices: string[]) => {
    const bundle = JSON.parse(readFileSync(unit, 'utf8')) as { entry: object[] };
    return JSON.stringify({ ...bundle, entry: [...bundle.entry, ...devices.map(leak)] });
  };
  const ofRed = withDamage('hemlock-tunneled-red');
  const repair = (...args: string[]) => fed(ofRed, 'repair', '-', ...line, ...args, ...at);

  it('prints the judgement, each precondition with its reason, and the numbered checklist', async () => {
    const { exit, out, err } = await repair(...known);
    expect([exit, err]).toEqual([0, '']);
    expect(out).toMatch(/^Repair, .*, lumen red, /);
    expect(out).toContain('A repair is possible.');
    expect(out).toMatch(
      /intact length: yes \(5\.5 cm intact outside the skin after the trim, 4 cm needed by the kit/,
    );
    expect(out).toMatch(/Checklist\n {2}1\. Keep the clamp/);
    expect(out).toContain('cut at 5.5 cm from the skin');
  });

  it('says what has to be found out first, and what speaks against it', async () => {
    const open = await repair();
    expect(open.out).toMatch(/^NOT YET/m);
    expect(open.out).toMatch(/no clot: not known \(check the lumen for a clot\)/);
    const no = await repair(...known, '--kit-size', '6.6');
    expect(no.out).toMatch(/^NOT TO BE REPAIRED/m);
    expect(no.out).toMatch(/kit size: NO \(/);
    expect(no.out).toMatch(/Now\n {2}1\. Keep the clamp/);
    expect(no.out).not.toMatch(/Checklist|Take\n|cut at|Cut the damaged part|Join the new/);
  });

  it('asks for the lumen where the damage does not name just one', async () => {
    const both = withDamage('hemlock-tunneled-red', 'hemlock-tunneled-white');
    for (const input of [both, withDamage('hemlock-tunneled')]) {
      const { exit, out, err } = await fed(input, 'repair', '-', ...line, ...known, ...at);
      expect([exit, out]).toEqual([2, '']);
      expect(err).toMatch(/several lumens.*say which: /);
    }
    const named = await fed(both, 'repair', '-', ...line, '--lumen', 'white', ...known, ...at);
    expect(named.exit).toBe(0);
  });

  it('says that no damage is on record, and no more than what to do where some is seen', async () => {
    for (const [input, lumen] of [
      [withDamage(), []],
      [ofRed, ['--lumen', 'white']],
    ] as const) {
      const { exit, out } = await fed(input, 'repair', '-', ...line, ...lumen, ...known, ...at);
      expect(exit).toBe(0);
      expect(out).toMatch(/^No damage is on record\. Where you see some: clamp/m);
      expect(out).not.toMatch(/NOT YET|Keep it clamped|Checklist|Preconditions/);
    }
  });

  it.each([
    [['--free-of-clot', 'maybe'], /yes or no; leave it out where it is not known/],
    [['--intact', 'long'], /intactExternalLengthCm/],
    [['--lumen', 'teal'], /the line has none of that name/],
  ])('refuses %j', async (args, message) => {
    const { exit, out, err } = await repair(...args);
    expect([exit, out]).toEqual([2, '']);
    expect(err).toMatch(message);
  });

  it('gives the same as JSON', async () => {
    const { out } = await repair(...known, '--format', 'json');
    expect(JSON.parse(out)).toMatchObject({ verdict: 'possible', measures: { cutAtCm: '5.5' } });
  });
});

describe('explain', () => {
  it('numbers the steps, in their order, apart from what to take', async () => {
    const base = 'https://dwellward.example/fhir/CodeSystem';
    const coded = (system: string, code: string) => ({ coding: [{ system: `${base}/${system}`, code }] });
    const bundle = {
      resourceType: 'Bundle',
      type: 'collection',
      entry: [
        { resource: { resourceType: 'Patient', id: 'maple' } },
        {
          resource: {
            resourceType: 'Device',
            id: 'picc',
            status: 'active',
            type: coded('line-type', 'picc'),
            patient: { reference: 'Patient/maple' },
          },
        },
        {
          resource: {
            resourceType: 'Observation',
            id: 'air',
            status: 'final',
            code: coded('line-finding', 'air-entry'),
            subject: { reference: 'Patient/maple' },
            focus: [{ reference: 'Device/picc' }],
            effectiveDateTime: '2026-11-25T07:25:00+01:00',
            valueBoolean: true,
          },
        },
      ],
    };
    const args = [
      'explain',
      '-',
      '--line',
      'picc',
      '--activity',
      'air-entry-response',
      '--policy',
      'trouble',
    ];
    const { exit, out } = await fed(JSON.stringify(bundle), ...args, ...at);
    expect(exit).toBe(0);
    expect(out).toMatch(
      / {2}steps\n {4}1\. Clamp [^]*?\n {4}2\. Call [^]*?\n {4}3\. Lay [^]*?\n {4}4\. Give oxygen/,
    );
    expect(out).toMatch(/ {2}take\n {4}- clamp without teeth/);
  });
});
