import { bundledPlan, defaultPlans, defaultPolicy, readPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { at, careOf, cautionsOf, event, infusion, itemOf, lineOf, policyOf, stepsOf } from './line.js';

// Lines in the first year of life. No guideline that was seen gives infants intervals of their own: flushed after use
// and at least daily while idle, locked only where it is ordered, at most 10 units/mL. Common practice, no source. That
// 100 units/mL is not for neonates and infants is on the US label, and 40 units/kg in 24 hours up to 60 days of age in the
// caregiver sheet of a children’s hospital (both seen).

const policy = defaultPolicy();
const noon = at('12:00:00');
/** Flushed and locked yesterday at nine. */
const idle = [
  event('flushed', 'flush', '2026-11-24T09:00:00+01:00', 'white'),
  event('locked', 'lock', '2026-11-24T09:00:00+01:00', 'white'),
];
const weekly = /picc-tunneled/;

const born = (birthDate: string | undefined, type?: string) =>
  lineOf(type === undefined ? {} : { type }).map((one) => {
    const { birthDate: _, ...rest } = one;
    return one.resourceType === 'Patient' ? { ...rest, ...(birthDate ? { birthDate } : {}) } : one;
  });

/** Every rule that asks for something of the white lumen. */
const asked = (
  birthDate: string | undefined,
  type?: string,
  more: readonly Record<string, unknown>[] = [],
) => {
  const care = careOf([...born(birthDate, type), ...idle, ...more], policy, noon);
  const items = care.items.filter(({ target }) => target.ref === 'Device/white');
  return { care, rules: items.flatMap(({ rule, others }) => [rule, ...others.map((one) => one.rule)]) };
};

describe('lines in the first year of life', () => {
  it.each(['picc', 'tunneled-cvc', 'nontunneled-cvc', 'midline'])(
    'C13: the idle %s of an infant of 97 days is flushed daily and locked only where it is ordered',
    (type) => {
      const { care, rules } = asked('2026-08-20', type);
      const flush = itemOf(care, 'flush', 'white');
      expect(flush).toMatchObject({ rule: { id: 'flush-first-year-idle' }, dueBy: at('09:00:00') });
      expect(flush?.rule.citations.map(({ certainty }) => certainty)).toEqual(['common-practice']);
      expect(rules.map(({ id }) => id).join()).not.toMatch(weekly);
      expect(itemOf(care, 'lock', 'white')).toBeUndefined();
      expect(stepsOf(flush).join(' ')).toMatch(/only where a lock is ordered, with heparin of 10 units\/mL/);
      expect(cautionsOf(flush).join(' ')).toMatch(/40 units\/kg in 24 h.*Never 100 units\/mL/);
    },
  );

  it('C13: the weekly care of adults begins when the first year is over, not a day before', () => {
    // 366 days before 25 November 2026, and 365.
    const grown = asked('2025-11-24');
    expect(itemOf(grown.care, 'flush', 'white')?.rule.id).toBe('flush-picc-tunneled');
    expect(itemOf(grown.care, 'lock', 'white')?.rule.id).toBe('lock-picc-tunneled');
    const infant = asked('2025-11-25');
    expect(itemOf(infant.care, 'flush', 'white')?.rule.id).toBe('flush-first-year-idle');
    expect(infant.rules.map(({ id }) => id).join()).not.toMatch(weekly);
  });

  it('C13: an age that is not on record is read as an infant’s, and the item says so', () => {
    const { care } = asked(undefined);
    const flush = itemOf(care, 'flush', 'white');
    expect(flush?.rule.id).toBe('flush-first-year-idle');
    expect(flush?.byUnknown).toEqual(['patient.ageDays']);
  });

  it.each([
    ['infusion', [infusion('ran', 'white', at('07:00:00'), at('10:00:00'))]],
    ['blood-sampling', [event('drawn', 'blood-sampling', at('10:00:00'), 'white')]],
  ])('C13: after %s an infant’s lumen is flushed at once, and no lock is asked for', (kind, use) => {
    const { care, rules } = asked('2026-08-20', 'picc', use);
    const flush = itemOf(care, 'flush', 'white');
    expect(flush?.state).toBe('overdue');
    expect(rules.map(({ id }) => id)).toContain(`flush-first-year-after-${kind}`);
    expect(stepsOf(flush).join(' ')).toMatch(/only where a lock is ordered/);
    expect(rules.filter(({ activity }) => activity === 'lock')).toEqual([]);
    const adult = asked('1980-05-05', 'picc', use);
    expect(itemOf(adult.care, 'lock', 'white')).toBeDefined();
    expect(stepsOf(itemOf(adult.care, 'flush', 'white')).join(' ')).not.toMatch(/first year/);
  });

  it.each([
    ['the default', []],
    ['locks with heparin', ['choice-lock-heparin']],
    ['ports at rest every 8 weeks', ['choice-port-8-weeks']],
    ['ports at rest every 3 months', ['choice-port-3-months']],
  ] as const)(
    'C13: the port of an infant at rest is flushed, and nobody asks for its lock (%s)',
    (_, layers) => {
      const reading = readPolicy([...defaultPlans(), ...layers.map((name) => bundledPlan(name))]);
      if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
      const portOf = (birthDate: string | undefined) =>
        careOf(
          [
            ...born(birthDate, 'implanted-port'),
            event('needle-out', 'access-needle-removal', at('08:00:00')),
            ...idle,
          ],
          reading.policy,
          noon,
        );
      const infant = portOf('2026-08-20');
      const flush = itemOf(infant, 'flush', 'white');
      expect(flush).toMatchObject({ rule: { id: 'flush-first-year-port-at-rest' } });
      expect(stepsOf(flush).join(' ')).toMatch(/only where a lock is ordered, with heparin of 10 units\/mL/);
      expect(itemOf(infant, 'lock', 'white')).toBeUndefined();
      expect(itemOf(portOf('1980-05-05'), 'lock', 'white')?.rule.id).toBe('lock-port-not-accessed');
      // Nobody locks an infant because its age is not on record; the flush waits for nothing.
      expect(itemOf(portOf(undefined), 'flush', 'white')).toBeDefined();
    },
  );

  it('C13: the lock of a neonate keeps each protocol whole, and nothing pushes it in between', () => {
    const reading = readPolicy([...defaultPlans(), bundledPlan('infant')]);
    if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
    const care = careOf([...born('2026-11-09', 'picc'), ...idle], reading.policy, noon);
    const lock = itemOf(care, 'lock', 'white');
    expect(lock).toMatchObject({ rule: { id: 'lock-neonate' }, dueBy: '2026-11-27T09:00:00+01:00' });
    expect(itemOf(care, 'flush', 'white')).toBeUndefined();
    // One newborn service: 10 units/mL, 0.5 to 1 mL, every 72 hours. One hospital’s sheet: 2 units/mL, 2 mL.
    const cautions = cautionsOf(lock);
    const [service, sheet] = ['10 units/mL', '2 units/mL'].map((strength) =>
      cautions.filter((caution) => new RegExp(`\\b${strength}`).test(caution)),
    );
    expect(service).toEqual([expect.stringMatching(/72 hours.*10 units\/mL, 0\.5 to 1 mL/)]);
    expect(sheet).toEqual([expect.stringMatching(/2 units\/mL, 2 mL.*Never take the strength of the one/)]);
    for (const one of [...service!, ...sheet!])
      expect(one).not.toMatch(/10 units.*\b2 units|\b2 units.*10 units/);
  });

  it('C13: no layer of the default but the base speaks of the weekly care', () => {
    expect(
      policyOf()
        .rules.filter(({ id }) => weekly.test(id))
        .map(({ id }) => id),
    ).toEqual(['flush-picc-tunneled', 'lock-picc-tunneled']);
  });
});
