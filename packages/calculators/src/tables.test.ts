import { describe, expect, it } from 'vitest';
import {
  catheterToVeinRatio,
  dialysisFlowCheck,
  gaugeToMm,
  heparinPerDay,
  hubColour,
  lineInfection,
  lockVolume,
  lockVolumeByDevice,
  lumensToLock,
  lumenVolume,
  neutropeniaGrade,
  phlebitisGrade,
  poiseuilleFlow,
  safeDrawToday,
  thrombolyticClock,
  thrombolyticDose,
  totalBloodVolume,
  vipScore,
} from './index.js';
import { optional, quantity, readInput } from './lib/input.js';

describe('the tables, row by row', () => {
  it.each([
    [14, '2.108', '1.6'],
    [15, '1.829', '1.372'],
    [16, '1.651', '1.194'],
    [17, '1.473', '1.067'],
    [18, '1.27', '0.838'],
    [19, '1.067', '0.686'],
    [20, '0.9081', '0.603'],
    [21, '0.8192', '0.514'],
    [22, '0.7176', '0.413'],
    [23, '0.6414', '0.337'],
    [24, '0.5652', '0.311'],
    [25, '0.5144', '0.26'],
    [26, '0.4636', '0.26'],
    [27, '0.4128', '0.21'],
    [28, '0.362', '0.184'],
    [30, '0.3112', '0.159'],
  ])('%i gauge: %s mm outside, %s mm inside', (gauge, outer, inner) => {
    const result = gaugeToMm({ gauge });
    expect([result.value, result.innerDiameterMm]).toEqual([outer, inner]);
  });
  it.each([
    ['needle', 14, 'orange (older: pale green)'],
    ['needle', 16, 'white'],
    ['needle', 18, 'pink'],
    ['needle', 20, 'yellow'],
    ['needle', 21, 'deep green'],
    ['needle', 22, 'black'],
    ['needle', 23, 'deep blue'],
    ['needle', 24, 'purple'],
    ['needle', 25, 'orange'],
    ['needle', 26, 'brown'],
    ['needle', 27, 'grey'],
    ['cannula', 14, 'orange'],
    ['cannula', 16, 'grey'],
    ['cannula', 17, 'white'],
    ['cannula', 18, 'green'],
    ['cannula', 20, 'pink'],
    ['cannula', 22, 'blue'],
    ['cannula', 24, 'yellow'],
    ['cannula', 26, 'violet'],
  ] as const)('%s of %i gauge: %s', (kind, gauge, colour) => {
    expect(hubColour({ kind, gauge }).value).toBe(colour);
  });
  it.each([
    ['peripheral', '1', '0.03', '0.006', '0.9'],
    ['midline', '1.5', '0.4', '0.1', '1'],
    ['picc', '1.5', '0.6', '0.1', '0.8'],
    ['nontunneled-cvc', '1.5', '0.6', '0.1', '0.8'],
    ['tunneled-cvc-to-1-mm', '1.5', '0.7', '0.1', '0.7'],
    ['tunneled-cvc-above-1-mm', '2.5', '1.3', '0.3', '0.9'],
    ['implanted-port', '2.5', '1.3', '0.3', '0.9'],
  ] as const)('lock of a %s: %s mL', (device, total, internal, overfill, extra) => {
    const result = lockVolumeByDevice({ device });
    expect([result.value, result.internalMl, result.overfillMl, result.extraMl]).toEqual([
      total,
      internal,
      overfill,
      extra,
    ]);
  });
});

describe('on the line between two answers', () => {
  it('no sign at all is grade 0, says so and fits its row', () => {
    const none = phlebitisGrade({
      pain: false,
      erythema: false,
      oedema: false,
      streak: false,
      purulence: false,
    });
    expect(none.value).toBe(0);
    expect(none.steps).toEqual(['no sign: grade 0']);
    expect(none.cautions.join()).not.toContain('fit no row as printed');
  });
  it('below 500 /uL the risk of infection is named, at 500 not', () => {
    const low = neutropeniaGrade({ neutrophilsPerUl: '499' });
    expect(low.cautions[0]).toBe(
      'Below 500 /uL: high risk of infection; watch exit site and temperature closely.',
    );
    expect(neutropeniaGrade({ neutrophilsPerUl: '500' }).cautions.join()).not.toContain('Below 500');
  });
  it('lumens that wait alike come by name however they are given', () => {
    const lumens = ['a', 'b', 'c'].map((name) => ({ name, use: 'idle' as const, hoursSinceLock: 1 }));
    expect(lumensToLock({ lumens }).order).toEqual(['a', 'b', 'c']);
    expect(lumensToLock({ lumens: lumens.toReversed() }).order).toEqual(['a', 'b', 'c']);
  });
  it('41.67 % shows as 41.7 %', () => {
    expect(catheterToVeinRatio({ catheterFrench: 5, veinDiameterMm: 4 }).percentToOneDecimal).toBe('41.7');
  });
  it('the working of a volume shows the nearest millionth', () => {
    expect(lumenVolume({ innerDiameterMm: 1, lengthCm: 90 }).steps[0]).toContain('= 0.706858 mL');
    expect(lumenVolume({ innerDiameterMm: 1, lengthCm: 10 }).steps[0]).toContain('= 0.07854 mL');
  });
  it('a volume is rounded to the nearest thousandth where no direction is given', () => {
    expect(lumenVolume({ innerDiameterMm: 1, lengthCm: 10 }).value).toBe('0.079');
    expect(lumenVolume({ innerDiameterMm: '0.6', lengthCm: 50 }).value).toBe('0.141');
  });
  it('a Reynolds number of 2000 is still laminar', () => {
    const flow = { innerDiameterMm: 1, lengthCm: 20, pressureUnit: 'kPa', viscosityMPaS: 1 } as const;
    const at = poiseuilleFlow({ ...flow, pressure: '12.8' });
    expect([at.reynoldsNumber, at.laminar]).toEqual(['2000', true]);
    const above = poiseuilleFlow({ ...flow, pressure: '12.80001' });
    expect([above.reynoldsNumber, above.laminar]).toEqual(['2001', false]);
  });
  it('a newborn at term has less blood by weight than a premature one', () => {
    expect(totalBloodVolume({ weightKg: 3, ageDays: 5 }).value).toBe('234');
    expect(totalBloodVolume({ weightKg: 3, ageDays: 5, premature: false }).value).toBe('234');
    expect(totalBloodVolume({ weightKg: 3, ageDays: 5, premature: true }).value).toBe('270');
  });
  it('haemoglobin at its reference is no anaemia', () => {
    const normal = { weightKg: 10, ageDays: 400, haemoglobinGPerL: 120, referenceHaemoglobinGPerL: '120.0' };
    expect(totalBloodVolume(normal).steps).toContain('haemoglobin not below normal: no correction');
  });
  it('a thrombolytic is at its beginning in the minute it goes in', () => {
    const clock = thrombolyticClock({ instilledAt: '2026-11-25T10:00', asOf: '2026-11-25T10:00' });
    expect([clock.value, clock.minutesSinceInstillation]).toEqual(['wait', 0]);
  });
  it('signs up to exactly 2 cm belong to the exit site', () => {
    const signs = { exudateGrowsOrganism: false, infectedPocketFluid: false };
    expect(lineInfection({ ...signs, signsReachCm: '2.0' }).value).toBe('exit-site');
    expect(lineInfection({ ...signs, signsReachCm: '2.01' }).value).toBe('tunnel');
  });
});

// By a few words of each: the whole of it is recorded in wordings/.
describe('the sentence that fits what was given', () => {
  it('of the first dose of a thrombolytic promises a second, and of the second none', () => {
    const stepsAfter = (dosesGiven: number) => thrombolyticDose({ weightKg: 40, dosesGiven }).steps.join();
    expect(stepsAfter(0)).toContain('a second, equal dose may follow');
    expect(stepsAfter(0)).not.toContain('last dose');
    expect(stepsAfter(1)).toContain('second and last dose');
    expect(stepsAfter(1)).not.toContain('may follow');
  });
  it('of a phlebitis grade names the signs that are there and no other', () => {
    const none = { pain: false, erythema: false, oedema: false, streak: false, purulence: false };
    for (const sign of ['pain', 'erythema', 'oedema', 'streak', 'purulence'] as const)
      expect(phlebitisGrade({ ...none, [sign]: true }).steps[0]).toMatch(new RegExp(`^${sign}: grade`));
    expect(phlebitisGrade({ ...none, pain: true, erythema: true }).steps[0]).toMatch(/^pain, erythema: /);
  });
  it('of a phlebitis score tells a cord from fever', () => {
    const none = { pain: false, erythema: false, swelling: false, palpableCord: false, pyrexia: false };
    expect(vipScore({ ...none, palpableCord: true }).steps[0]).toMatch(/cord yes; pyrexia no/);
    expect(vipScore({ ...none, pyrexia: true }).steps[0]).toMatch(/cord no; pyrexia yes/);
  });
  it('of a lock shows what is multiplied', () => {
    const volumes = { catheterVolumeMl: '0.6', addOnVolumeMl: '0.3' };
    expect(lockVolume(volumes).steps[0]).toContain('1.2 × (0.6 mL + 0.3 mL)');
    expect(lockVolume({ ...volumes, overfill: 'catheter' }).steps[0]).toContain('1.2 × 0.6 mL + 0.3 mL');
  });
  it('of lumens names the blocked, the infusing, those with a valve and those with blood inside', () => {
    const { steps, cautions } = lumensToLock({
      lumens: [
        { name: 'a', use: 'idle', valved: true },
        { name: 'b', use: 'idle', bloodInside: true },
        { name: 'c', use: 'blocked', valved: true },
        { name: 'd', use: 'infusing', valved: true },
      ],
    });
    const named = (said: readonly string[], words: string) => said.filter((each) => each.includes(words));
    expect(named(steps, 'blood inside')).toEqual([expect.stringContaining(' b: ')]);
    expect(named(steps, 'infusing')).toEqual([expect.stringMatching(/^d: /)]);
    expect(named(steps, 'blocked')).toEqual([expect.stringMatching(/^c: /)]);
    expect(cautions.slice(0, 2)).toEqual([
      expect.stringMatching(/^Blocked: c\. /),
      expect.stringMatching(/^With a valve: a\. /),
    ]);
  });
  it('of a dialysis line says whether its Kt/V was reached', () => {
    const adequacy = (ktV: string) =>
      dialysisFlowCheck({
        reading: 'allon-2018',
        afterFirstMeasures: true,
        sessions: [{ meanFlowMlPerMin: 350, recurrentPressureAlarms: false, ktV, hours: 4 }],
      }).steps.join();
    expect(adequacy('1.2')).toContain('Kt/V reached');
    expect(adequacy('1.19')).toContain('Kt/V not reached');
  });
});

describe('what is not known', () => {
  it('is not in the result at all', () => {
    const draw = safeDrawToday({
      weightKg: 10,
      ageDays: 400,
      dailyPercent: 3,
      monthlyPercent: 10,
      lostLast24HoursMl: 0,
      lostLast30DaysMl: 0,
    });
    expect(Object.keys(draw)).not.toContain('plannedWithin');
    const heparin = heparinPerDay({ lumens: [{ concentrationUnitsPerMl: 10, volumeMl: 1, timesPerDay: 1 }] });
    expect(Object.keys(heparin)).not.toContain('unitsPerKgPerDay');
  });
  it('and no object at all is refused with every name it may have', () => {
    const specs = { a: quantity('mL', '0', '1', 'a'), b: optional(quantity('mL', '0', '1', 'b')) };
    expect(() => readInput(specs, 5)).toThrow('an object with a, b');
  });
});
