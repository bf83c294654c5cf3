import { CoreError, bloodDraw, type DrawOptions } from '@dwellward/core';
import type { BundledPlanName } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import {
  at,
  event,
  finding,
  fromSkin,
  infusion,
  lineOf,
  places,
  policyOf,
  recordOf,
  zone,
  careOf,
  itemOf,
  type Resources,
} from './line.js';
import { spoken } from '../../said.js';

// A blood draw against its sources, typed in from there: RNAO node 805 and the Royal Marsden Manual, chapter 13 (seen),
// CLSI GP41 and H21-A5 (from memory), Howie 2011 and a paediatric guidance page (seen), common practice, no source.

const policy = policyOf('blood-sampling');
const when = { asOf: at('12:00:00'), zone };
const planOf = (resources: Resources, options: Partial<DrawOptions> = {}) =>
  spoken(
    bloodDraw(
      recordOf(resources),
      { tests: [{ test: 'chemistry' }], lumen: 'Device/red', ...options },
      policy,
      when,
    ),
  );

describe('steps', () => {
  it('clamps are on before any cap comes off (common practice, no source)', () => {
    const { steps } = planOf(lineOf());
    const [clamps, connector] = places(steps, [/^Clamp every lumen.*before any cap comes off/, /connector/]);
    expect(clamps).toBeGreaterThan(-1);
    expect(connector).toBeGreaterThan(clamps ?? Infinity);
  });

  it('stop, clamp, flush, discard, tubes, flush, other lumen, lock: in this order', () => {
    const found = places(planOf(lineOf()).steps, [
      /^Stop what runs/,
      /^Clamp every lumen/,
      /^Flush the lumen with at least.*runs free/,
      /discard/,
      /^Fill the tubes/,
      /^Flush the lumen with sodium chloride/,
      /^The other idle lumens, to irrigate and clamp/,
      /^Lock the lumen/,
    ]);
    expect(found).not.toContain(-1);
    expect(found).toEqual([...found].sort((a, b) => a - b));
  });

  it('a blood culture through the line: a new connector first (INS, IDSA, from memory)', () => {
    expect(planOf(lineOf()).steps.join('\n')).toContain('for a blood culture put on a new connector first');
  });

  it('no step has a gap, also where no volume is known', () => {
    for (const primingMl of [{}, { red: 0.8 }]) {
      for (const step of planOf(lineOf({ primingMl })).steps) {
        expect(step).not.toMatch(/undefined|null|NaN|%calc|\{|\( *\)| {2}/);
      }
    }
    expect(planOf(lineOf({ primingMl: {} })).steps.join('\n')).toMatch(
      /discard a volume that could not be worked out \(the lumen’s priming volume is not on record/,
    );
  });
});

describe('volumes', () => {
  it.each([
    ['2 × dead space (RNAO, seen)', 'chemistry', '1.6'],
    ['5 mL for coagulation, more than 6 × 0.8 mL (CLSI H21-A5, from memory)', 'coagulation', '5'],
  ] as const)('discard %s', (_, test, discardMl) => {
    const draw = planOf(lineOf({ primingMl: { red: 0.8 } }), { tests: [{ test }] });
    expect(draw.discardMl).toBe(discardMl);
    expect(draw.steps.join('\n')).toContain(`discard ${discardMl} mL`);
  });

  it('6 × dead space for coagulation where that is more (CLSI H21-A5, from memory; RNAO, seen)', () => {
    const draw = planOf(lineOf({ primingMl: { red: 1.2 } }), { tests: [{ test: 'coagulation' }] });
    expect(draw.discardMl).toBe('7.2');
  });

  it('the values of common practice stand beside the published ones', () => {
    const said = planOf(lineOf()).cautions.join('\n');
    expect(said).toMatch(
      /common practice, no source: 6 mL\. Published: 3 to 6 mL.*RNAO.*5 to 10 mL \(Royal Marsden/,
    );
    expect(said).toMatch(/common practice, no source: 3 mL\. Published: 10 to 20 mL/);
  });

  it('C18: a flush and a lock are what a 10 mL syringe shows, by 0.2 mL (common practice, no source)', () => {
    const steps = planOf(lineOf({ primingMl: { red: 0.65 } })).steps.join('\n');
    // 1.3 and 0.78 mL.
    expect(steps).toContain('Flush the lumen with at least 1.4 mL');
    expect(steps).toContain('discard 1.4 mL');
    expect(steps).toContain('Lock the lumen with 0.8 mL');
  });

  it('flush at least twice the volume, lock 1.2 times (INS, from memory; Goossens 2015, seen)', () => {
    const steps = planOf(lineOf({ primingMl: { red: 0.8 } })).steps.join('\n');
    expect(steps).toContain('Flush the lumen with at least 1.6 mL');
    expect(steps).toContain('Lock the lumen with 1 mL');
  });
});

describe('tubes in the order of draw (CLSI GP41, from memory)', () => {
  it('blood culture, citrate, serum, heparin, EDTA, fluoride', () => {
    const tests = [
      'glucose',
      'blood-count',
      'plasma-chemistry',
      'chemistry',
      'coagulation',
      'culture',
    ] as const;
    const draw = planOf(lineOf(), { tests: tests.map((test) => ({ test })) });
    expect(draw.tubes.map(({ tube }) => tube)).toEqual([
      'blood culture bottles',
      'citrate',
      'serum',
      'heparin',
      'EDTA',
      'fluoride',
    ]);
  });

  it('is the same whatever the order of the tests', () => {
    const one = planOf(lineOf(), { tests: [{ test: 'blood-count' }, { test: 'culture' }] });
    const other = planOf(lineOf(), { tests: [{ test: 'culture' }, { test: 'blood-count' }] });
    expect(one).toEqual(other);
  });
});

describe('which lumens (common practice, no source)', () => {
  it('the lumen that is not used is irrigated and clamped too', () => {
    expect(planOf(lineOf()).irrigate.map(({ name }) => name)).toEqual(['white']);
  });

  it('unless it is infusing: then its infusion stops', () => {
    const draw = planOf([...lineOf(), infusion('drip', 'white', at('08:00:00'))]);
    expect(draw.irrigate).toEqual([]);
    expect(draw.stop).toEqual([{ ref: 'Device/white', name: 'white', sure: true }]);
    expect(draw.steps[1]).toContain('white');
  });

  it('an infusion of the lumen itself stops as well', () => {
    const draw = planOf([...lineOf(), infusion('drip', 'red', at('08:00:00'))]);
    expect(draw.stop.map(({ name }) => name)).toEqual(['red']);
  });

  it('an infusion that began later is not known yet', () => {
    expect(planOf([...lineOf(), infusion('drip', 'red', at('12:00:01'))]).stop).toEqual([]);
  });

  it('with several lumens the one to draw from is not guessed', () => {
    const record = recordOf(lineOf());
    expect(() => bloodDraw(record, { tests: [{ test: 'chemistry' }] }, policy, when)).toThrow(
      /several lumens/,
    );
  });
});

describe('a heparin lock (RNAO, US heparin labels; seen)', () => {
  it.each([
    ['coagulation', true],
    ['drug-level', true],
    ['chemistry', false],
  ] as const)('%s: caution %s', (test, warned) => {
    const { cautions } = planOf(lineOf(), { tests: [{ test }] });
    expect(/heparin falsifies/.test(cautions[0] ?? '')).toBe(warned);
  });
});

describe('blood loss', () => {
  // 10 kg and 2 years: 70 mL/kg (paediatric guidance page, seen), the lowest published, gives 700 mL; 3 % of it 21 mL.
  const child = lineOf({ weightKg: 10, birthDate: '2024-05-05', primingMl: { red: 0.8 } });
  const lossOf = (options: Partial<DrawOptions>) => planOf(child, options).loss;

  it('the discard counts (facts of 4.17: discarded volume counts, returned does not)', () => {
    expect(lossOf({ tests: [{ test: 'chemistry', volumeMl: '4' }] }).thisDrawMl).toBe('5.6');
    const draws = [{ at: at('06:00:00'), drawnMl: '8', returnedMl: '3' }];
    expect(lossOf({ draws })).toMatchObject({ last24HoursMl: '5', last30DaysMl: '5' });
  });

  it.each([
    ['3 % in 24 h, the strictest in use, where the unit gives none', undefined, '21'],
    ['3.8 % (PMC4890332, seen)', { dailyPercent: '3.8', monthlyPercent: '10' }, '26.6'],
    ['5 % (paediatric guidance page, seen)', { dailyPercent: '5', monthlyPercent: '10' }, '35'],
  ])('child: %s', (_, limit, safe) => {
    expect(lossOf(limit ? { limit } : {}).safeTodayMl).toBe(safe);
  });

  it('earlier draws leave less, and a draw above the rest is said to be', () => {
    const draws = [{ at: at('06:00:00'), drawnMl: '18.8' }];
    const loss = lossOf({ draws, tests: [{ test: 'chemistry', volumeMl: '4' }] });
    expect(loss).toMatchObject({ safeTodayMl: '2.2', within: false });
    expect(loss.remarks.join(' ')).toMatch(/above what is safe/);
  });

  it('a draw exactly 24 hours ago still counts, a later one does not exist', () => {
    const draws = [
      { at: '2026-11-24T12:00:00+01:00', drawnMl: '1' },
      { at: '2026-11-24T11:59:00+01:00', drawnMl: '2' },
      { at: '2026-11-25T12:00:01+01:00', drawnMl: '4' },
    ];
    expect(lossOf({ draws })).toMatchObject({ last24HoursMl: '1', last30DaysMl: '3' });
  });

  it('samples on record count, each once, and nothing that is not blood', () => {
    const specimen = (id: string, when: string, value: number, more: object = {}) => ({
      resourceType: 'Specimen',
      id,
      status: 'available',
      subject: { reference: 'Patient/maple' },
      type: { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0487', code: 'BLDV' }] },
      collection: { collectedDateTime: when, quantity: { value, unit: 'mL', code: 'mL' } },
      ...more,
    });
    const of = (resources: Resources, options: Partial<DrawOptions> = {}) =>
      planOf([...child, ...resources], options).loss;
    const two = [specimen('a', at('06:00:00'), 2.7), specimen('b', '2026-11-20T06:00:00+01:00', 3)];
    expect(of(two)).toMatchObject({ last24HoursMl: '2.7', last30DaysMl: '5.7' });
    expect(of(two).remarks.join(' ')).toMatch(/without what was discarded: the loss is at least this/);
    // Given by hand with its discard, ten minutes apart or less: the sample is in it.
    expect(of(two, { draws: [{ at: at('06:10:00'), drawnMl: '5' }] }).last24HoursMl).toBe('5');
    expect(of(two, { draws: [{ at: at('06:11:00'), drawnMl: '5' }] }).last24HoursMl).toBe('7.7');
    const urine = {
      type: { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0487', code: 'UR' }] },
    };
    expect(of([specimen('u', at('06:00:00'), 40, urine)]).last24HoursMl).toBe('0');
    const unsaid = specimen('x', at('06:05:00'), 4, { type: undefined });
    expect(of([unsaid]).last24HoursMl).toBe('0');
    const drawn = event('drawn', 'blood-sampling', at('06:00:00'), 'red');
    expect(of([unsaid, drawn])).toMatchObject({ last24HoursMl: '4' });
    expect(of([unsaid, drawn]).remarks.join(' ')).not.toMatch(/not known: 1/);
    expect(of([specimen('later', at('13:00:00'), 4)]).last24HoursMl).toBe('0');
    const litres = {
      collection: { collectedDateTime: at('06:00:00'), quantity: { value: 0.002, unit: 'L', code: 'L' } },
    };
    expect(of([specimen('l', '', 0, litres)]).last24HoursMl).toBe('2');
  });

  // Howie 2011 (seen): up to 10 % of the blood volume in 8 weeks.
  it('what was drawn six weeks ago still leaves less', () => {
    const draws = [{ at: '2026-10-14T12:00:00+02:00', drawnMl: '69' }];
    expect(lossOf({ draws })).toMatchObject({ last24HoursMl: '0', last30DaysMl: '0', last8WeeksMl: '69' });
    expect(lossOf({ draws }).safeTodayMl).toBe('1');
    const longAgo = [{ at: '2026-09-30T11:00:00+02:00', drawnMl: '73' }];
    expect(lossOf({ draws: longAgo }).safeTodayMl).toBe('21');
  });

  it('what is not known is said', () => {
    expect(lossOf({}).remarks.join(' ')).toMatch(/volume of this draw is not known.*chemistry/);
    const drawn = planOf([...child, event('drawn', 'blood-sampling', at('06:00:00'), 'red')]);
    expect(drawn.loss.remarks.join(' ')).toMatch(
      /in the last 8 weeks whose volume or time is not known: 1\. The loss is at least this/,
    );
    const sample = (id: string, collection: object) => ({
      ...{ resourceType: 'Specimen', id, status: 'available', subject: { reference: 'Patient/maple' } },
      type: { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0487', code: 'BLDV' }] },
      collection,
    });
    const said = (...more: Resources) => planOf([...child, ...more]).loss.remarks.join(' ');
    const noVolume = sample('s', { collectedDateTime: at('06:05:00') });
    expect(said(noVolume)).toMatch(/volume or time is not known: 1\./);
    // Beside a draw that is told of it is the same draw.
    expect(said(noVolume, event('drawn', 'blood-sampling', at('06:00:00'), 'red'))).toMatch(/not known: 1\./);
    const noTime = sample('t', { quantity: { value: 4, unit: 'mL', code: 'mL' } });
    expect(said(noVolume, noTime)).toMatch(/volume or time is not known: 2\./);
    const odd = sample('o', { collectedDateTime: at('06:05:00'), quantity: { value: 4, unit: 'drops' } });
    expect(said(odd)).toMatch(/volume or time is not known: 1\./);
    expect(said(sample('old', { collectedDateTime: '2026-09-01T06:00:00+02:00' }))).not.toMatch(
      /or time is not/,
    );
    expect(said(sample('later', { collectedDateTime: at('13:00:00') }))).not.toMatch(/or time is not/);
    const light = planOf(lineOf({ birthDate: '2024-05-05' }));
    expect(light.loss.safeTodayMl).toBeUndefined();
    expect(light.loss.remarks.join(' ')).toMatch(/no recent weight/);
  });

  it('T8: at 17 years the limit of a child is kept to, from 18 years on none', () => {
    const aged = (birthDate: string) =>
      planOf(lineOf({ weightKg: 60, birthDate, primingMl: { red: 0.8 } })).loss;
    // 18 years take 6574 or 6575 days: the longer counts. 65 mL/kg (paediatric guidance page, seen), 3 % of 3,900 mL.
    expect(aged('2008-11-25').safeTodayMl).toBe('117');
    expect(aged('2008-11-24').safeTodayMl).toBeUndefined();
  });

  it('no limit is kept to for an adult unless the unit gives one', () => {
    expect(planOf(lineOf({ weightKg: 70 })).loss.safeTodayMl).toBeUndefined();
    // 65 mL/kg, the lowest of adults (from memory): 4,550 mL, 5 % of it.
    const limit = { dailyPercent: '5', monthlyPercent: '10' };
    expect(planOf(lineOf({ weightKg: 70 }), { limit }).loss.safeTodayMl).toBe('227.5');
  });
});

describe('after the draw', () => {
  const drawn = [
    ...lineOf(),
    ...['red', 'white'].flatMap((lumen) => [
      event(`flushed-${lumen}`, 'flush', at('07:00:00'), lumen),
      event(`locked-${lumen}`, 'lock', at('07:05:00'), lumen),
    ]),
    event('drawn', 'blood-sampling', at('11:50:00'), 'red'),
  ];
  it('that lumen is flushed and locked at once, the other is left (INS, from memory; US heparin labels, seen)', () => {
    const care = careOf(drawn, policy, at('12:00:00'));
    for (const activity of ['flush', 'lock']) {
      expect(itemOf(care, activity, 'red')?.dueBy).toBe(at('11:50:00'));
      expect(itemOf(care, activity, 'white')?.dueBy).not.toBe(at('11:50:00'));
    }
  });
  it('an infusing lumen needs no lock', () => {
    const care = careOf([...drawn, infusion('drip', 'red', at('11:55:00'))], policy, at('12:00:00'));
    expect(itemOf(care, 'lock', 'red')).toBeUndefined();
  });
});

describe('a lumen that can’t be drawn from', () => {
  const refusalOf = (resources: Resources, layers: readonly BundledPlanName[] = ['blood-sampling']) => {
    try {
      bloodDraw(
        recordOf([...lineOf(), ...resources]),
        { tests: [{ test: 'chemistry' }], lumen: 'Device/red' },
        policyOf(...layers),
        when,
      );
      return 'not refused';
    } catch (cause) {
      if (!(cause instanceof CoreError) || !cause.code.startsWith('no-draw-from-')) throw cause;
      return cause.message;
    }
  };
  const blocked = finding('blocked', 'blood-return', at('09:00:00'), 'none', 'red');
  // Well away from the skin: the other lumen is free.
  const leaking = fromSkin(8, finding('leaking', 'damage', at('09:00:00'), 'leak', 'red'));

  it('is refused while the drug for a blockage is in it, with the hold and its end (US label, seen)', () => {
    const given = event('given', 'occlusion-treatment', at('11:00:00'), 'red');
    const refusal = refusalOf([given], ['blood-sampling', 'occlusion']);
    expect(refusal).toContain('No blood is drawn from red (Device/red): it is not to be used since');
    expect(refusal).toContain('until Wed 25 Nov 2026 12:00 UTC');
    expect(refusal).toContain('Draw from white (Device/white) instead, or from a vein.');
  });

  it.each([
    ['blocked', blocked, /red \(Device\/red\): it is blocked since .*There was no blood return/],
    ['damaged', leaking, /red \(Device\/red\): it is damaged since .*leak.*no repair/],
  ] as const)(
    'is refused while it is %s, and the other is offered (common practice, no source)',
    (_, found, why) => {
      expect(refusalOf([found])).toMatch(why);
      expect(refusalOf([found])).toContain('Draw from white (Device/white) instead, or from a vein.');
    },
  );

  it.each([
    ['opened again', [blocked, finding('open', 'blood-return', at('10:00:00'), 'brisk', 'red')]],
    ['repaired', [leaking, event('repaired', 'repair', at('09:30:00'), 'red')]],
    ['the other lumen', [finding('other', 'blood-return', at('09:00:00'), 'none', 'white')]],
    ['only sluggish', [finding('slow', 'blood-return', at('09:00:00'), 'sluggish', 'red')]],
  ])('is drawn from where it was %s', (_, resources) => {
    expect(refusalOf(resources)).toBe('not refused');
  });

  // Home sheet (seen): the damaged part is what is clamped.
  it('with the layer on repair: the damaged one is held by its hold on draws, the other gives blood', () => {
    const layers = ['blood-sampling', 'repair-care'] as const;
    const refusal = refusalOf([leaking], layers);
    expect(refusal).toContain('No blood drawn until the damage is repaired. Damage (leak) was found');
    expect(refusal).not.toContain('No infusion');
    expect(refusal).toContain('Draw from white (Device/white) instead, or from a vein.');
    const other = fromSkin(8, finding('leaking', 'damage', at('09:00:00'), 'leak', 'white'));
    expect(refusalOf([other], layers)).toBe('not refused');
  });

  it('no lumen is offered where damage is on record of the line as a whole', () => {
    const whole = finding('leaking', 'damage', at('09:00:00'), 'leak');
    expect(refusalOf([whole])).toContain('No other lumen of the line can be used: draw from a vein.');
  });

  it('a line that was removed is refused', () => {
    expect(refusalOf([event('out', 'removal', at('10:00:00'))])).toMatch(/not in place \(line removed\)/);
  });

  it('a sluggish one is drawn from with a caution before the others', () => {
    const slow = finding('slow', 'flush-resistance', at('09:00:00'), 'some', 'red');
    expect(planOf([...lineOf(), slow]).cautions[0]).toMatch(/sluggish: do not force it.*met resistance/);
  });
});

describe('the other lumen, where nothing may go into it (common practice, no source)', () => {
  const blocked = finding('blocked', 'flush-resistance', at('09:00:00'), 'blocked', 'white');

  it('is left alone and named in the step, instead of irrigated', () => {
    const draw = planOf([...lineOf(), blocked]);
    expect(draw.irrigate).toEqual([]);
    expect(draw.leave).toMatchObject([{ ref: 'Device/white', name: 'white', state: 'blocked' }]);
    expect(draw.steps).toContain(
      'The other idle lumens, to irrigate and clamp: none; leave white, which is blocked.',
    );
  });

  it('and its infusion stops all the same', () => {
    const draw = planOf([...lineOf(), blocked, infusion('drip', 'white', at('08:00:00'))]);
    expect(draw.stop.map(({ name }) => name)).toEqual(['white']);
    expect(draw.leave).toEqual([]);
  });
});
