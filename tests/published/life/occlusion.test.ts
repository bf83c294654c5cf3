import { describe, expect, it } from 'vitest';
import type { DueItem } from '@dwellward/core';
import {
  at,
  careOf,
  cautionsOf,
  event,
  finding,
  itemOf,
  lineOf,
  places,
  policyOf,
  stepsOf,
  type Resources,
} from './line.js';

// Treatment of a blocked lumen against the US label of alteplase for catheter occlusion and the UK SmPC (emc 4617),
// typed in from there; what is not in them is marked.

const policy = policyOf('trouble', 'occlusion');

const blocked = [
  finding('none', 'blood-return', at('08:00:00'), 'none', 'red'),
  event('looked', 'blockage-response', at('08:20:00'), 'red'),
];

describe('dose (US label and UK SmPC, seen)', () => {
  const doseOf = (given: Parameters<typeof lineOf>[0]) =>
    itemOf(careOf([...lineOf(given), ...blocked], policy, at('08:25:00')), 'occlusion-treatment', 'red');
  const amount = (given: Parameters<typeof lineOf>[0]) => {
    const input = doseOf(given)?.work.find(({ kind }) => kind === 'thrombolytic-dose');
    return input && [input.value, input.unit];
  };

  it.each([
    ['30 kg and more: 2 mg', 30, 0.8, '2'],
    ['an adult: 2 mg, whatever the lumen holds', 70, undefined, '2'],
    ['below 30 kg: 110 % of the lumen volume; the UK example, 1.0 mL', 12, 1.0, '1.1'],
    ['below 30 kg: at most 2 mg', 29.9, 2.5, '2'],
    ['below 30 kg: 110 % of 0.8 mL, down to 0.01 mg', 10, 0.8, '0.88'],
  ])('%s', (_, weightKg, red, dose) => {
    const birthDate = weightKg < 20 ? '2023-11-05' : '1980-05-05';
    const given = { weightKg, birthDate, primingMl: red === undefined ? {} : { red } };
    expect(amount(given)).toEqual([dose, 'mg']);
    const steps = stepsOf(doseOf(given));
    expect(places(steps, [new RegExp(`Instil ${dose} mg in ${dose} mL`)])).not.toContain(-1);
  });

  it('below 30 kg with no lumen volume there is no number: it has to be asked for', () => {
    const item = doseOf({ weightKg: 12, birthDate: '2023-11-05', primingMl: {} });
    expect(item?.work.some(({ kind }) => kind === 'thrombolytic-dose')).toBe(false);
    expect(cautionsOf(item).join(' ')).toMatch(/not worked out: below 30 kg.*Ask for it/);
    stopsThere(stepsOf(item), /below 30 kg.*Ask for it/);
  });

  it('with no weight there is no number either', () => {
    const item = doseOf({});
    expect(item?.work.some(({ kind }) => kind === 'thrombolytic-dose')).toBe(false);
    expect(cautionsOf(item).join(' ')).toMatch(/not worked out: the weight is not on record/);
    stopsThere(stepsOf(item), /weight is not on record.*Weigh the patient/);
  });

  /** Nothing of how to give what nobody can say how much of. */
  function stopsThere(steps: readonly string[], reason: RegExp) {
    expect(steps).toHaveLength(3);
    expect(steps[2]).toMatch(/^No dose could be worked out: .*Go no further without one\.$/);
    expect(steps[2]).toMatch(reason);
    expect(steps.join('\n')).not.toMatch(/Instil|Reconstitute/);
  }

  it('a weight that was measured later does not exist yet', () => {
    const early = careOf(
      [
        ...lineOf({ weightKg: 70 }),
        finding('none', 'blood-return', '2026-11-23T08:00:00+01:00', 'none', 'red'),
        event('looked', 'blockage-response', '2026-11-23T08:20:00+01:00', 'red'),
      ],
      policy,
      '2026-11-23T08:25:00+01:00',
    );
    expect(
      itemOf(early, 'occlusion-treatment', 'red')?.work.some(({ kind }) => kind === 'thrombolytic-dose'),
    ).toBe(false);
  });

  it('asks for the contraindication and every caution of the label (seen, reported)', () => {
    const item = doseOf({ weightKg: 70 });
    const said = [...stepsOf(item), ...cautionsOf(item)].join('\n');
    for (const word of [
      /allergy to the drug/i,
      /internal bleeding/,
      /48 hours surgery, delivery, biopsy/,
      /can’t be pressed on/,
      /low platelets/,
      /liver or kidney/,
      /embolism/,
      /infection in the line/,
      /No vigorous suction/,
      /withdraw the drug/,
    ]) {
      expect(said).toMatch(word);
    }
  });

  it('says how it is made up: 2.2 mL sterile water, 3 minutes, 8 hours, nothing added (reported)', () => {
    expect(stepsOf(doseOf({ weightKg: 70 })).join('\n')).toMatch(
      /2\.2 mL sterile water without preservative, swirl for at most 3 minutes, use within 8 hours; add nothing/,
    );
  });

  it('comes after the mechanical causes were looked for (US label, reported)', () => {
    const before = [...lineOf({ weightKg: 70 }), ...blocked.slice(0, 1)];
    expect(itemOf(careOf(before, policy, at('08:25:00')), 'occlusion-treatment')).toBeUndefined();
  });

  it('is not asked for where the first steps made blood return', () => {
    const helped = [
      ...lineOf({ weightKg: 70 }),
      ...blocked,
      finding('brisk', 'blood-return', at('08:21:00'), 'brisk', 'red'),
    ];
    expect(itemOf(careOf(helped, policy, at('08:25:00')), 'occlusion-treatment')).toBeUndefined();
  });
});

describe('the dwell (US label: 30 minutes, then 120 minutes; seen)', () => {
  const given = [
    ...lineOf({ weightKg: 70 }),
    ...blocked,
    event('instilled', 'occlusion-treatment', at('09:00:00'), 'red'),
  ];
  const look = (id: string, time: string, value: string) => [
    event(id, 'patency-assessment', at(time), 'red'),
    finding(`${id}-return`, 'blood-return', at(time), value, 'red'),
  ];
  const due = (resources: typeof given, time: string) =>
    itemOf(careOf(resources, policy, at(time)), 'patency-assessment', 'red');

  it('a look is due at 30 minutes, and not before', () => {
    expect(due(given, '09:29:59')).toMatchObject({ state: 'upcoming', dueBy: at('09:30:00') });
    expect(due(given, '09:30:00')).toMatchObject({ state: 'due', opens: at('09:30:00') });
  });

  it('with no blood return then, the next is due at 120 minutes, and not before', () => {
    const again = [...given, ...look('first', '09:31:00', 'none')];
    expect(due(again, '09:32:00')).toMatchObject({
      state: 'upcoming',
      opens: at('11:00:00'),
      dueBy: at('11:00:00'),
    });
    expect(due([...again, ...look('early', '10:59:00', 'none')], '10:59:30')?.dueBy).toBe(at('11:00:00'));
    expect(due([...again, ...look('second', '11:00:00', 'none')], '11:01:00')).toBeUndefined();
  });

  it('with a blood return then, no other look is due', () => {
    expect(due([...given, ...look('first', '09:31:00', 'brisk')], '09:32:00')).toBeUndefined();
  });

  it('a sluggish return does not end the clock', () => {
    expect(due([...given, ...look('first', '09:31:00', 'sluggish')], '09:32:00')?.dueBy).toBe(at('11:00:00'));
  });

  it('on success withdraw 4 to 5 mL from 10 kg on, 3 mL below (US dosing card, seen)', () => {
    expect(stepsOf(due(given, '09:30:00'))[1]).toContain('withdraw and discard 4 to 5 mL');
    const of = (weightKg: number, birthDate: string) =>
      stepsOf(
        due(
          [...lineOf({ weightKg, birthDate }), ...given.slice(lineOf({ weightKg: 70 }).length)],
          '09:30:00',
        ),
      )[1];
    expect(of(9.9, '2024-11-05')).toContain('withdraw and discard 3 mL');
    expect(of(10, '2024-11-05')).toContain('withdraw and discard 4 to 5 mL');
  });

  it('C5: what is withdrawn from a child is said to be blood loss, and held against the limit of the day', () => {
    const of = (weightKg: number, birthDate: string) =>
      stepsOf(
        due(
          [...lineOf({ weightKg, birthDate }), ...given.slice(lineOf({ weightKg: 70 }).length)],
          '09:30:00',
        ),
      )[1];
    // 850 g, 20 days old: 3 % of 78 mL/kg (laboratory table, seen) is 1.9 mL.
    expect(of(0.85, '2026-11-05')).toMatch(
      /3 mL \(blood loss, MORE THAN THE 1\.9 mL that may still be drawn today: ask the prescriber first/,
    );
    // 6 kg, 4 months: 3 % of 75 mL/kg (paediatric guidance page, seen) is 13.5 mL.
    expect(of(6, '2026-07-25')).toMatch(
      /3 mL \(it counts as blood loss; 13\.5 mL may still be drawn today\)/,
    );
    expect(of(70, '1980-05-05')).not.toMatch(/blood loss/);
  });

  it('at 120 minutes one second, equal dose may follow; two doses and 4 mg are the most', () => {
    const steps = stepsOf(due([...given, ...look('first', '09:31:00', 'none')], '11:00:00'));
    expect(steps.join('\n')).toMatch(/one second, equal dose may follow if the prescriber orders it/);
    expect(steps.join('\n')).toMatch(/no further dose\. Two doses and 4 mg in all are the most/);
  });

  it('a second dose starts the clock again', () => {
    const second = [
      ...given,
      ...look('first', '09:31:00', 'none'),
      ...look('second', '11:00:00', 'none'),
      event('again', 'occlusion-treatment', at('11:05:00'), 'red'),
    ];
    expect(due(second, '11:06:00')?.dueBy).toBe(at('11:35:00'));
  });

  // US label (seen): a second equal dose after 120 minutes, 4 mg in all, nothing known beyond.
  describe('without success', () => {
    const asked = (resources: Resources, when: string) => {
      const care = careOf(resources, policy, at(when));
      return {
        treatment: itemOf(care, 'occlusion-treatment', 'red'),
        response: itemOf(care, 'blockage-response', 'red'),
        look: itemOf(care, 'patency-assessment', 'red'),
      };
    };
    const doseIn = (item: DueItem | undefined) =>
      item?.work.filter(({ kind }) => kind === 'thrombolytic-dose').map(({ value }) => value);
    const first = [...given, ...look('first', '09:31:00', 'none')];
    const failed = [...first, ...look('second', '11:02:00', 'none')];
    const twice = [...failed, event('again', 'occlusion-treatment', at('11:10:00'), 'red')];
    const exhausted = [...twice, ...look('third', '11:41:00', 'none'), ...look('fourth', '13:10:00', 'none')];

    it('no second dose is asked for before the look after 120 minutes', () => {
      for (const [resources, when] of [
        [given, '09:30:00'],
        [first, '09:32:00'],
        [first, '11:01:00'],
        [[...first, ...look('early', '10:59:59', 'none')], '11:01:00'],
      ] as const) {
        expect([asked(resources, when).treatment, asked(resources, when).response]).toEqual([
          undefined,
          undefined,
        ]);
      }
      expect(asked(first, '11:01:00').look?.state).toBe('overdue');
    });

    it.each(['none', 'sluggish'])(
      'after it, blood return %s: the second and last dose at once, equal',
      (value) => {
        const { treatment, response } = asked([...first, ...look('second', '11:00:00', value)], '11:03:00');
        expect(response).toBeUndefined();
        expect([treatment?.rule.id, treatment?.dueBy]).toEqual([
          'occlusion-treatment-second',
          at('11:00:00'),
        ]);
        expect(treatment?.rule.title).toMatch(/second and last dose/);
        expect(doseIn(treatment)).toEqual(['2']);
        expect(cautionsOf(treatment).join('\n')).toMatch(
          /second and last dose: the first was given Wed 25 Nov 2026 09:00/,
        );
        const steps = stepsOf(treatment);
        expect(
          places(steps, [/second, equal dose.*It is the last one/, /allergy/, /Instil 2 mg in 2 mL/]),
        ).toEqual([0, 1, 4]);
      },
    );

    it('after it, a flush that does not go in: the same', () => {
      const seen = [...given, finding('still', 'flush-resistance', at('11:00:00'), 'blocked', 'red')];
      expect(asked(seen, '11:03:00').treatment?.rule.id).toBe('occlusion-treatment-second');
    });

    it('a flush that goes in is no success where no blood returns', () => {
      const seen = [...failed, finding('goes', 'flush-resistance', at('11:02:00'), 'none', 'red')];
      expect(asked(seen, '11:03:00').treatment?.rule.id).toBe('occlusion-treatment-second');
    });

    it('after two doses no third, and no steps of giving one', () => {
      expect([asked(twice, '12:00:00').treatment, asked(twice, '12:00:00').response]).toEqual([
        undefined,
        undefined,
      ]);
      const { treatment, response } = asked(exhausted, '13:11:00');
      expect(treatment).toBeUndefined();
      expect([response?.rule.id, response?.dueBy]).toEqual([
        'blockage-response-after-two-doses',
        at('13:10:00'),
      ]);
      expect(response?.rule.title).toBe(
        'Two doses were given: no third by the label (4 mg in all). Ask the responsible clinician for imaging or another line',
      );
      expect(doseIn(response)).toEqual([]);
      expect(stepsOf(response)[0]).toMatch(/^Two doses were given: no third by the label \(4 mg in all\)/);
      expect(stepsOf(response).join('\n')).not.toMatch(/Instil|Reconstitute/);
    });

    it('and once the clinician was told nothing more is asked for', () => {
      const told = [...exhausted, event('told', 'blockage-response', at('13:20:00'), 'red')];
      expect([asked(told, '14:00:00').treatment, asked(told, '14:00:00').response]).toEqual([
        undefined,
        undefined,
      ]);
    });

    it('open again in between: the next blockage is another one, from the first steps on', () => {
      const anew = [...exhausted, ...look('open', '14:00:00', 'brisk'), ...look('anew', '18:00:00', 'none')];
      expect(asked(anew.slice(0, -2), '14:01:00')).toEqual({
        treatment: undefined,
        response: undefined,
        look: undefined,
      });
      expect(asked(anew, '18:01:00').response?.rule.id).toBe('blockage-response');
      const responded = [...anew, event('r4', 'blockage-response', at('18:01:00'), 'red')];
      const { treatment } = asked(responded, '18:02:00');
      expect([treatment?.rule.id, doseIn(treatment)]).toEqual(['occlusion-treatment', ['2']]);
      expect(cautionsOf(treatment).join('\n')).not.toMatch(/last dose/);
    });
  });

  it('nothing else goes into the lumen meanwhile, and the other lumen is free (common practice, no source)', () => {
    const holds = careOf(given, policy, at('09:10:00')).holds.filter(
      ({ rule }) => rule.origin.layer > 0 && rule.effect === 'forbid',
    );
    expect([...new Set(holds.map(({ target }) => target.ref))]).toEqual(['Device/red']);
    const dwell = holds.filter(({ rule }) => rule.id.endsWith('-during-dwell'));
    expect(dwell.map(({ activity }) => activity)).toEqual(
      expect.arrayContaining(['flush', 'lock', 'infusion-start', 'blood-sampling']),
    );
    expect([...new Set(dwell.map(({ until }) => until))]).toEqual([at('11:00:00')]);
  });

  it('blood return ends what is held', () => {
    const open = [...given, ...look('first', '09:31:00', 'brisk')];
    expect(careOf(open, policy, at('09:32:00')).holds.filter(({ rule }) => rule.origin.layer > 0)).toEqual(
      [],
    );
  });

  it('that no blood returns does not call for the first steps again, within the dwell or after it', () => {
    const again = [...given, ...look('first', '09:31:00', 'none')];
    for (const when of ['09:32:00', '11:00:01'])
      expect(itemOf(careOf(again, policy, at(when)), 'blockage-response', 'red')).toBeUndefined();
  });
});
