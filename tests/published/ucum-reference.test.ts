import { dueCare, readRecords, type Measurement } from '@dwellward/core';
import { bundledPlan, compileCondition, convertUnit, readPolicy, type Facts } from '@dwellward/policy';
import { codeSystem, standard } from '@dwellward/profiles';
// @ts-expect-error The library ships no types; what is used of it is described below.
import ucumPackage from '@lhncbc/ucum-lhc';
import { describe, expect, it } from 'vitest';

interface UcumUtilities {
  convertUnitTo(from: string, value: number, to: string): { status: string; toVal: number | null };
}
const ucum: UcumUtilities = ucumPackage.UcumLhcUtils.getInstance();

/** The UCUM reference library itself. */
function reference(value: number, from: string, to: string): number | undefined {
  const answer = ucum.convertUnitTo(from, value, to);
  return answer.status === 'succeeded' && answer.toVal !== null ? answer.toVal : undefined;
}

function ours(value: string, from: string, to: string): string | undefined {
  const conversion = convertUnit(value, from, to);
  return conversion.ok ? conversion.value : undefined;
}

const values = [
  '0',
  '0.001',
  '0.1',
  '0.15',
  '0.199',
  '0.2',
  '0.201',
  '0.5',
  '1',
  '1.234567',
  '3.5',
  '37',
  '200',
  '999',
  '12345.678',
];
const groups: readonly (readonly string[])[] = [
  [
    '10*9/L',
    '10*3/uL',
    '10^3/uL',
    '/uL',
    '{cells}/uL',
    '/mm3',
    '10*6/L',
    '/nL',
    '10*3/mm3',
    '10*12/L',
    '10*3/mL',
    '/L',
  ],
  ['kg', 'g', 'mg', '[lb_av]', '[oz_av]'],
  ['mL', 'uL', 'L', 'cm3', 'mm3', 'dL'],
  ['cm', 'mm', 'm', '[in_i]', '[ft_i]'],
  ['%', '1'],
  ['min', 'h', 'd', 'wk', 's'],
  ['kPa', 'mm[Hg]', '[psi]'],
  ['Cel', 'K', '[degF]'],
];
const pairs = groups.flatMap((group) =>
  group.flatMap((from) => group.filter((to) => to !== from).map((to) => [from, to] as const)),
);

describe('unit conversion against the UCUM reference library', () => {
  it.each(pairs)('%s to %s', (from, to) => {
    for (const value of values) {
      const theirs = reference(Number(value), from, to);
      const mine = ours(value, from, to);
      expect(theirs, `${value} ${from}`).toBeDefined();
      expect(mine, `${value} ${from}`).toBeDefined();
      // Ours is rounded to 8 places; the factor keeps 12 digits.
      expect(Math.abs(Number(mine) - theirs!), `${value} ${from} to ${to}`).toBeLessThanOrEqual(
        0.5e-8 + Math.abs(theirs!) * 1e-11,
      );
      expect(mine).toMatch(/^-?\d+(\.\d+)?$/);
    }
  });

  it.each([
    ['mg/dL', '10*9/L'],
    ['kg', 'mL'],
    ['%', '10*9/L'],
    ['K/uL', '10*9/L'],
    ['cells/uL', '10*9/L'],
    ['[Ch]', 'kg'],
    ['', '10*9/L'],
    ['bananas', 'kg'],
  ])('from “%s” to %s is refused by both', (from, to) => {
    expect(reference(1, from, to)).toBeUndefined();
    const conversion = convertUnit('1', from, to);
    expect(conversion.ok).toBe(false);
    expect(conversion.ok ? '' : conversion.reason).not.toBe('');
  });

  it('is exact where the library’s binary arithmetic falls just short: every count from 1 to 2000 cells', () => {
    expect(reference(200, '{cells}/uL', '10*9/L')).toBeLessThan(0.2);
    for (let count = 1; count <= 2000; count += 1) {
      const exact = (count / 1000).toFixed(3).replace(/\.?0+$/, '');
      expect(ours(String(count), '{cells}/uL', '10*9/L')).toBe(exact);
      expect(ours(String(count), '/mm3', '10*9/L')).toBe(exact);
      expect(ours(String(count), '10*6/L', '10*9/L')).toBe(exact);
      expect(ours(exact, '10*3/uL', '10*9/L')).toBe(exact);
    }
  });
});

const at = '2026-11-25T06:00:00+01:00';
const patient = { resourceType: 'Patient', id: 'p', birthDate: '1980-01-01' };
const device = {
  resourceType: 'Device',
  id: 'line',
  status: 'active',
  type: { coding: [{ system: codeSystem.lineType, code: 'tunneled-cvc' }] },
  patient: { reference: 'Patient/p' },
};
const procedure = (activity: string, when: string, more: object = {}) => ({
  resourceType: 'Procedure',
  id: activity,
  status: 'completed',
  code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
  subject: { reference: 'Patient/p' },
  performedDateTime: when,
  focalDevice: [{ manipulated: { reference: 'Device/line' } }],
  ...more,
});
const observation = (loinc: string, valueQuantity: object) => ({
  resourceType: 'Observation',
  id: `lab-${loinc}`,
  status: 'final',
  code: { coding: [{ system: standard.loinc, code: loinc }] },
  subject: { reference: 'Patient/p' },
  effectiveDateTime: at,
  valueQuantity,
});
const records = (...resources: object[]) =>
  readRecords([patient, device, ...resources].map((resource) => ({ resource })));

function countOf(...results: object[]): { count: Measurement | undefined; issues: readonly string[] } {
  const { lines, issues } = records(...results);
  return {
    count: lines[0]?.patient.measurements.find(({ kind }) => kind === 'anc'),
    issues: issues.map(({ code }) => code),
  };
}

// How laboratories spell units of a count, and how many cells per microlitre one of it is. The first group is UCUM and is
// checked by the reference library too. The others it refuses or reads as something else. Sources: the public messages and
// code lists in which the spelling was seen; those marked (m) are from memory.
const spellings: readonly (readonly [unit: string, perMicrolitre: number, isUcum: boolean])[] = [
  ['10*3/uL', 1000, true],
  ['10*9/L', 1000, true],
  ['10^3/uL', 1000, true],
  ['10^9/L', 1000, true],
  ['10*6/L', 1, true],
  ['/uL', 1, true],
  ['{cells}/uL', 1, true],
  ['/mm3', 1, true],
  ['K/uL', 1000, false],
  ['k/mm3', 1000, false],
  ['x10*3/uL', 1000, false],
  ['x10^9/L', 1000, false],
  ['thou/mcL', 1000, false],
  ['cells/uL', 1, false],
  ['/cmm', 1, false],
  ['lakhs/cu.mm', 100_000, false],
  ['G/l', 1000, false],
  ['×10³/µL', 1000, false], // (m)
  ['10⁹/L', 1000, false], // (m)
  ['10⁶/L', 1, false], // (m)
  ['x 10^9 / L', 1000, false], // (m)
  ['cells/mm3', 1, false], // (m)
];

/** `cells` per microlitre in a unit of so many, as a JSON number. */
const sent = (cells: number, perMicrolitre: number) => Number((cells / perMicrolitre).toPrecision(12));

const low = compileCondition(["%labs.anc < 0.2 '10*9/L'"]);
if (!low.ok) throw new Error(JSON.stringify(low.problems));
const isLow = (anc: Measurement['value']) => low.condition.evaluate({ 'labs.anc': anc } satisfies Facts).is;

describe('the spellings of laboratories', () => {
  it.each(spellings)('%s is %d per microlitre', (unit, perMicrolitre, isUcum) => {
    // The library writes to the console where it meets a blank; UCUM allows none.
    const theirs = unit.includes(' ') ? undefined : reference(1, unit, '/uL');
    if (isUcum) expect(theirs).toBeCloseTo(perMicrolitre, 6);
    else expect(theirs).not.toBe(perMicrolitre);
    for (const [cells, in109] of [
      [200, '0.2'],
      [199, '0.199'],
      [1500, '1.5'],
      [800, '0.8'],
    ] as const) {
      for (const quantity of [{ unit }, { code: unit, system: standard.ucum, unit }]) {
        const { count, issues } = countOf(
          observation('751-8', { value: sent(cells, perMicrolitre), ...quantity }),
        );
        expect(issues, unit).toEqual([]);
        expect(count?.value).toEqual({
          low: in109,
          lowIncluded: true,
          high: in109,
          highIncluded: true,
          unit: '10*9/L',
        });
      }
    }
  });

  it.each(spellings)('%s: 200 cells are not below 200, 199 are', (unit, perMicrolitre) => {
    const value = (cells: number) =>
      countOf(observation('751-8', { value: sent(cells, perMicrolitre), unit })).count!.value;
    expect(isLow(value(200))).toBe('false');
    expect(isLow(value(199))).toBe('true');
    expect(isLow(value(201))).toBe('false');
  });

  it.each([
    ['no unit', {}],
    ['a mass', { unit: 'g/L' }],
    ['a mass as UCUM', { unit: 'g/l', code: 'g/L', system: standard.ucum }],
    ['a concentration', { unit: 'mg/dL' }],
    ['a percentage', { unit: '%' }],
    ['nothing known', { unit: 'platypus' }],
  ])('a count with %s is refused and reported', (_, unit) => {
    const { count, issues } = countOf(observation('751-8', { value: 0.8, ...unit }));
    expect(count).toBeUndefined();
    expect(issues).toEqual(['unknown-unit']);
  });
});

// CDC NHSN, Patient Safety Component Manual, chapter 4, January 2026, page 4-10 (seen): leucocytes 2 k/mm3, segmented 20 %,
// bands 20 %: 2000 x 40/100 = 800 /mm3.
describe('the worked example of NHSN', () => {
  const leucocytes = observation('6690-2', { value: 2, unit: 'k/mm3' });
  const segmented = observation('769-0', { value: 20, unit: '%' });
  const bands = observation('764-1', { value: 20, unit: '%' });

  it('is 800 per cubic millimetre, from record to fact', () => {
    const { count, issues } = countOf(leucocytes, segmented, bands);
    expect(issues).toEqual([]);
    expect(count?.derived).toBe(true);
    expect(count?.refs).toEqual(['Observation/lab-6690-2', 'Observation/lab-764-1', 'Observation/lab-769-0']);
    expect(ours(count?.value.low ?? '', '10*9/L', '/mm3')).toBe('800');
    expect(count?.value.high).toBe(count?.value.low);
  });

  it('is not low for the neutropenia layer, and is with a tenth of the leucocytes', () => {
    const reading = readPolicy([bundledPlan('base'), bundledPlan('neutropenia')]);
    if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
    const dueBy = (...labs: object[]) => {
      const { lines } = records(
        procedure('insertion', '2026-11-01T10:00:00+01:00'),
        procedure('dressing-change', '2026-11-24T18:00:00+01:00', {
          usedCode: [{ coding: [{ system: codeSystem.dressingType, code: 'gauze-dressing' }] }],
        }),
        ...labs,
      );
      const { items } = dueCare(lines[0]!, reading.policy, {
        asOf: '2026-11-25T08:00:00+01:00',
        zone: 'Europe/Berlin',
      });
      return items.find(({ activity }) => activity === 'dressing-change')?.dueBy;
    };
    expect(dueBy(leucocytes, segmented, bands)).toBe('2026-11-26T18:00:00+01:00');
    const few = observation('6690-2', { value: 0.2, unit: 'k/mm3' });
    expect(dueBy(few, segmented, bands)).toBe('2026-11-25T18:00:00+01:00');
    // 0.5 k/mm3 x 40 % is 200 /mm3: exactly at the limit, and so not below it.
    const limit = observation('6690-2', { value: 0.5, unit: 'k/mm3' });
    expect(dueBy(limit, segmented, bands)).toBe('2026-11-26T18:00:00+01:00');
  });
});
