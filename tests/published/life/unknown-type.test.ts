import { bundledPlan, defaultPlans, readPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { at, careOf, event, infusion, itemOf, lineOf, places, stepsOf, type Resources } from './line.js';

// A line of no type, or a “central venous catheter” and no more, may be one for dialysis, with thousands of units of
// heparin in it. Dialysis catheter leaflet (seen): the lock is taken out of each lumen before use.

const reading = readPolicy([
  ...defaultPlans(),
  ...(['common-practice', 'infant', 'dialysis', 'post-insertion'] as const).map((name) => bundledPlan(name)),
]);
if (!reading.ok) throw new Error('The bundled plans are refused.');
const { policy } = reading;

const centralLine = (birthDate = '1980-05-05'): Resources =>
  lineOf({ birthDate }).map((one) =>
    one['id'] === 'line'
      ? { ...one, type: { coding: [{ system: 'http://snomed.info/sct', code: '52124006' }] } }
      : one,
  );
const now = at('12:00:00');
const careIn = (...more: Resources) => careOf([...centralLine(), ...more], policy, now);

describe('a line of which it is not known what it is', () => {
  it('C3: first of all it is to be found out which line it is', () => {
    const item = itemOf(careIn(), 'line-identification');
    expect([item?.rule.priority, item?.state]).toEqual(['urgent', 'overdue']);
    expect(stepsOf(item)[0]).toMatch(/printed on the line/);
    const known = careOf(lineOf(), policy, now);
    expect(itemOf(known, 'line-identification')).toBeUndefined();
  });

  it('C3: it may be done an hour after the insertion, and is due within the day', () => {
    const item = itemOf(careOf(centralLine(), policy, '2026-11-10T11:05:00+01:00'), 'line-identification');
    expect([item?.state, item?.opens]).toEqual(['due', '2026-11-10T11:00:00+01:00']);
  });

  it.each([
    ['idle', []],
    ['after an infusion', [infusion('ran', 'red', at('08:00:00'), at('10:00:00'))]],
    ['after a blood draw', [event('drawn', 'blood-sampling', at('10:00:00'), 'red')]],
    ['after an irrigation', [event('flushed', 'flush', at('10:00:00'), 'red')]],
  ])('C3: %s: what is in the lumen is drawn back and discarded before a flush or a lock', (_, more) => {
    const items = careIn(...more).items.filter(
      ({ activity, countedFrom }) =>
        activity === 'lock' || (activity === 'flush' && countedFrom.basis !== 'chain-event'),
    );
    expect(items.length).toBeGreaterThan(0);
    for (const item of items) {
      expect(item.rule.id).toMatch(/type-unknown/);
      const found = places(stepsOf(item), [
        /which line it is/,
        /^Draw back what is in the lumen.*throw it away/,
        /^(Then flush|Lock it with)/,
      ]);
      expect(found).toEqual([0, 1, 2]);
    }
  });

  it('C3: rules of types that contradict each other never meet on it', () => {
    const ofOneType =
      /picc|midline|nontunneled|port|dialysis|child|neonate|irrigat|idle-daily|access-needle|access-review/;
    const care = careIn();
    expect(care.items.map(({ rule }) => rule.id).filter((id) => ofOneType.test(id))).toEqual([]);
  });

  it('C3: the lock is exactly the printed volume: none is computed for it', () => {
    const lock = itemOf(careIn(), 'lock', 'red');
    expect(lock?.work.some(({ kind }) => String(kind) === 'lock-volume')).toBe(false);
    expect(stepsOf(lock).join(' ')).toMatch(/exactly the volume that is printed/);
  });
});

describe('what is silent otherwise', () => {
  const noTip = (days: number) =>
    lineOf().flatMap((one) =>
      one['id'] === 'confirmed'
        ? []
        : one['id'] === 'inserted'
          ? [event('inserted', 'insertion', `2026-11-${25 - days}T08:00:00+01:00`)]
          : [one],
    );
  const drug = infusion('drug', 'red', at('09:00:00'));
  const asked = (days: number, ...more: Resources) =>
    itemOf(careOf([...noTip(days), ...more], policy, now), 'tip-confirmation')?.rule.id;
  it('C15: a tip never confirmed by the third day, with a drug running, is asked about', () => {
    expect(asked(2, drug)).toBe('tip-never-confirmed');
    expect(asked(9, drug)).toBe('tip-never-confirmed');
    expect(asked(9, drug, event('late', 'tip-confirmation', at('10:00:00')))).toBeUndefined();
    expect(asked(9, infusion('ran', 'red', at('07:00:00'), at('09:00:00')))).toBeUndefined();
  });

  const bare = {
    ...event('bare', 'dressing-change', at('11:30:00')),
    usedCode: [
      {
        coding: [{ system: 'https://dwellward.example/fhir/CodeSystem/dressing-type', code: 'no-dressing' }],
      },
    ],
  };
  const count = (value: number) => ({
    resourceType: 'Observation',
    id: 'count',
    status: 'final',
    code: { coding: [{ system: 'http://loinc.org', code: '751-8' }] },
    subject: { reference: 'Patient/maple' },
    effectiveDateTime: at('06:00:00'),
    valueQuantity: { value, unit: '10*9/L', system: 'http://unitsofmeasure.org', code: '10*9/L' },
  });
  const dressing = (resources: Resources) => {
    const item = itemOf(careOf([...resources, bare], policy, now), 'dressing-change');
    return [item?.rule.id, item?.state, item?.rule.priority];
  };
  it('C15: no dressing at all on a site that has not healed is due now, and urgent with 0.1 10*9/L neutrophils', () => {
    expect(dressing(lineOf({ type: 'picc' }))).toEqual(['dressing-missing', 'due', 'routine']);
    expect(dressing([...lineOf({ type: 'picc' }), count(0.1)])[2]).toBe('urgent');
    expect(dressing([...lineOf(), count(0.1)])[2]).toBe('urgent');
  });
});
