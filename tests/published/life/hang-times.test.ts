import { defaultPolicy, type Policy } from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { at, careOf, event, infusion, itemOf, lineOf, stepsOf, type Resources } from './line.js';

// Red cells: finished within 4 hours from leaving controlled storage (NZ Blood Service 3.11, UK JPAC table 4.2; seen).
// Fat alone within 12 hours of hanging, in a 3-in-1 bag 24 (CDC 2002, MMWR 51 RR-10, Appendix B; seen).

const policy: Policy = defaultPolicy();

const hung = (what: string | undefined, from: string, until?: string, lumen = 'red', id = what ?? 'bag') => ({
  ...infusion(id, lumen, from, until),
  medicationCodeableConcept:
    what === undefined
      ? { text: 'an infusion' }
      : { coding: [{ system: codeSystem.infusate, code: what }], text: what },
});
const bag = (now: string, ...more: Resources) =>
  itemOf(careOf([...lineOf(), ...more], policy, at(now)), 'bag-change', 'red');
const said = (now: string, ...more: Resources) => {
  const item = bag(now, ...more);
  return item && [item.rule.id, item.state, item.dueBy];
};

describe('how long a bag hangs', () => {
  it('C9: red cells that have hung five hours are overdue to come down', () => {
    const cells = hung('blood', at('07:00:00'));
    expect(said('08:00:00', cells)).toEqual(['bag-change-blood', 'upcoming', at('11:00:00')]);
    expect(said('10:30:00', cells)?.[1]).toBe('due');
    expect(said('12:00:00', cells)).toEqual(['bag-change-blood', 'overdue', at('11:00:00')]);
    expect(bag('12:00:00', cells)?.rule.priority).toBe('urgent');
    expect(stepsOf(bag('12:00:00', cells))[0]).toMatch(/^Stop the infusion/);
  });

  it('C9: blood that is known by its code in ATC comes down likewise', () => {
    const cells = {
      ...infusion('cells', 'red', at('07:00:00')),
      medicationCodeableConcept: { coding: [{ system: 'http://www.whocc.no/atc', code: 'B05AX01' }] },
    };
    expect(said('12:00:00', cells)?.slice(0, 2)).toEqual(['bag-change-blood', 'overdue']);
  });

  it('C9: fat emulsion alone past 12 hours is overdue, in a mixture past 24', () => {
    expect(said('19:30:00', hung('fat-emulsion', at('07:00:00')))).toEqual([
      'bag-change-fat-emulsion',
      'overdue',
      at('19:00:00'),
    ]);
    expect(said('19:30:00', hung('nutrition-with-fat', at('07:00:00')))).toEqual([
      'bag-change-nutrition-with-fat',
      'upcoming',
      '2026-11-26T07:00:00+01:00',
    ]);
  });

  it('C9: what has ended hangs no longer, and a bag that follows has its own time', () => {
    const first = hung('blood', at('07:00:00'), at('09:30:00'), 'red', 'first');
    expect(said('12:00:00', first)).toBeUndefined();
    expect(said('12:00:00', first, hung('blood', at('09:30:00')))?.[2]).toBe(at('13:30:00'));
    expect(
      said('12:00:00', hung('blood', at('07:00:00')), event('b', 'bag-change', at('10:00:00'), 'red')),
    ).toEqual(['bag-change-blood', 'upcoming', at('14:00:00')]);
  });

  it('C9: neither a second unit beside the first nor another infusion gives the first more time', () => {
    const first = hung('blood', at('07:00:00'), undefined, 'red', 'first');
    const second = hung('blood', at('10:00:00'), undefined, 'red', 'second');
    const saline = hung('other', at('10:30:00'));
    const before = hung('other', '2026-11-24T10:30:00+01:00', undefined, 'red', 'before');
    for (const more of [[second], [saline], [second, saline], [before]])
      expect(said('12:00:00', first, ...more)).toEqual(['bag-change-blood', 'overdue', at('11:00:00')]);
  });

  it('C9: what is not known to be blood or fat is not read as it', () => {
    expect(said('12:00:00', hung(undefined, at('07:00:00')))).toBeUndefined();
    expect(said('12:00:00', hung('other', at('07:00:00')))).toBeUndefined();
  });

  it.each([
    ['blood', '11:00:00', 'administration-set-change-blood'],
    ['fat-emulsion', '19:00:00', 'administration-set-change-fat-emulsion'],
  ])(
    'C9: the set of %s is an item of its own, by the shortest life that a source gives',
    (what, due, rule) => {
      const care = careOf([...lineOf(), hung(what, at('07:00:00'))], policy, at('20:00:00'));
      const item = itemOf(care, 'administration-set-change', 'red');
      expect([item?.rule.id, item?.state, item?.dueBy]).toEqual([rule, 'overdue', at(due)]);
    },
  );
});
