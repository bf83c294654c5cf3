import { describe, expect, it } from 'vitest';
import * as face from './index.js';
import { type CatalogEntry, type CalculatorName, calculators } from './catalog.js';

type Fields = Readonly<Record<string, unknown>>;
type Edge = readonly [edge: string, calculator: CalculatorName, input: Fields, expected: Fields];
type Refusal = readonly [
  edge: string,
  calculator: CalculatorName,
  input: Fields,
  code: face.CalculatorErrorCode,
  at: string,
  accepted?: RegExp,
];

const draw = {
  weightKg: '10',
  ageDays: 1000,
  mlPerKg: '80',
  dailyPercent: '3',
  monthlyPercent: '10',
  lostLast24HoursMl: '0',
  lostLast30DaysMl: '0',
};
const signs = { pain: false, erythema: false, oedema: false, streak: false, purulence: false };
const vip = { pain: false, erythema: false, swelling: false, palpableCord: false, pyrexia: false };
const infiltration = {
  blanched: false,
  cool: false,
  pain: 'none',
  translucent: false,
  numbness: false,
  tightOrLeaking: false,
  bruised: false,
  deepPitting: false,
  circulationImpaired: false,
  infusate: 'other',
};
const repair = {
  intactExternalLengthCm: '6',
  trimCm: '1',
  newSegmentLengthCm: '8',
  newSegmentInnerDiameterMm: '1.6',
  lumenFrench: '9',
  kitFrench: '9.0',
  kitForThisDevice: true,
  lumenFreeOfClot: true,
  leastIntactCm: '4',
};
const clock = { instilledAt: '2026-11-25T10:00' };
const period = { periodFrom: '2026-04-01', periodTo: '2026-04-30' };
const flow = { innerDiameterMm: 1, lengthCm: 20, pressureUnit: 'kPa', viscosityMPaS: 1 };
const arm = { atInsertionCm: '28', nowCm: '31', oedema: true };
const device = { expectedDays: 5, peripherallyCompatible: true, criticallyIll: false };
const cultures = {
  lineMinutes: 600,
  peripheralMinutes: 720,
  lineVolumeMl: '10',
  peripheralVolumeMl: '10.0',
  minutesApart: 10,
  sameOrganism: true,
};
const colonies = { lineColoniesPerMl: '30', peripheralColoniesPerMl: '10', sameOrganism: true };
const session = (meanFlowMlPerMin: number, rest: Fields = {}): Fields => ({
  meanFlowMlPerMin,
  recurrentPressureAlarms: false,
  ...rest,
});
const dialysis = (reading: string, sessions: readonly Fields[], afterFirstMeasures = true): Fields => ({
  reading,
  sessions,
  afterFirstMeasures,
});
const given = (...doses: readonly (readonly [hoursAgo: string, units: string])[]) =>
  doses.map(([hoursAgo, units]) => ({ hoursAgo, units }));
const heparin = [{ concentrationUnitsPerMl: 10, volumeMl: 2, timesPerDay: 2 }];
const counts = (...values: readonly (readonly [string, string])[]): Fields => ({
  counts: values.map(([date, neutrophilsPerUl]) => ({ date, neutrophilsPerUl })),
});

const edges: readonly Edge[] = [
  ...(
    [
      ['0.30', 'up', '1-ml', '0.3', '1-ml', '0.01'],
      ['0.301', 'up', undefined, '0.31', '1-ml', '0.01'],
      ['0.309', 'down', undefined, '0.3', '1-ml', '0.01'],
      ['1', 'up', undefined, '1', '1-ml', '0.01'],
      ['1.01', 'up', undefined, '1.1', '3-ml', '0.1'],
      ['3.01', 'up', undefined, '3.2', '5-ml', '0.2'],
      ['5.1', 'down', undefined, '5', '10-ml', '0.2'],
      ['0.72', 'up', '10-ml', '0.8', '10-ml', '0.2'],
      ['0.72', 'down', '10-ml', '0.6', '10-ml', '0.2'],
      ['10', 'up', '10-ml', '10', '10-ml', '0.2'],
      ['10.1', 'up', '10-ml', '11', '20-ml', '1'],
      ['20.1', 'down', '10-ml', '20', '50-ml', '1'],
    ] as const
  ).map(([volumeMl, rounding, leastSyringe, value, syringe, stepMl]): Edge => [
    `C18: ${volumeMl} mL ${rounding} on a syringe of ${leastSyringe ?? 'any size'}`,
    'measurable-volume',
    { volumeMl, rounding, leastSyringe },
    { value, syringe, stepMl },
  ]),
  [
    'C18: a lock is filled to a mark of a 10 mL syringe',
    'lock-volume',
    { catheterVolumeMl: '0.6' },
    { value: '0.72', onSyringeMl: '0.8' },
  ],
  [
    'C18: a flush to a mark of it',
    'flush-volume',
    { catheterVolumeMl: '0.61' },
    { value: '1.3', onSyringeMl: '1.4' },
  ],
  [
    'a flush above 10 mL on a larger one',
    'flush-volume',
    { catheterVolumeMl: '5.1' },
    { value: '10.2', onSyringeMl: '11' },
  ],
  [
    'C18: the discard of an adult to a mark of a 10 mL syringe',
    'discard-volume',
    { deadSpaceMl: '0.75', sampleFor: 'general', ageDays: 6575 },
    { value: '1.5', onSyringeMl: '1.6' },
  ],
  [
    'that of a child to a mark of the smallest that holds it',
    'discard-volume',
    { deadSpaceMl: '0.75', sampleFor: 'general', ageDays: 6574 },
    { value: '1.5', onSyringeMl: '1.5' },
  ],
  [
    'of an age that is not known as of a child',
    'discard-volume',
    { deadSpaceMl: '0.75', sampleFor: 'general' },
    { onSyringeMl: '1.5' },
  ],
  [
    'C5: push–pull of 0.6 mL in 850 g',
    'push-pull-cycle',
    { deadSpaceMl: '0.2', weightKg: '0.85', ageDays: 3, premature: true },
    { value: '0.6', mostMl: '0.7', allowed: true },
  ],
  [
    'C5: exactly 1 % of the blood volume',
    'push-pull-cycle',
    { deadSpaceMl: '0.26', weightKg: 1, ageDays: 3 },
    { value: '0.7', mostMl: '0.7', allowed: true },
  ],
  [
    'C5: more than 1 %',
    'push-pull-cycle',
    { deadSpaceMl: '0.261', weightKg: 1, ageDays: 3 },
    { value: '0.7', mostMl: '0.7', allowed: false },
  ],
  [
    'C5: 0.3 mL of dead space in 850 g',
    'push-pull-cycle',
    { deadSpaceMl: '0.3', weightKg: '0.85', ageDays: 3 },
    { value: '0.9', mostMl: '0.6', allowed: false },
  ],
  [
    'a cycle too small to be drawn',
    'push-pull-cycle',
    { deadSpaceMl: '0.03', weightKg: 3, ageDays: 3 },
    { value: '0', allowed: false },
  ],
  [
    'anaemia makes it less',
    'push-pull-cycle',
    { deadSpaceMl: 1, weightKg: 10, ageDays: 700, haemoglobinGPerL: 60, referenceHaemoglobinGPerL: 120 },
    { mostMl: '3.5', allowed: true },
  ],
  ...(
    [
      // Below, at and above each limit of 116 days: between 107 and 122 days by a straight line.
      ['2.61', 116, 'implausible'],
      ['2.62', 116, 'questionable'],
      ['4.34', 116, 'questionable'],
      ['4.35', 116, 'plausible'],
      ['9.61', 116, 'plausible'],
      ['9.62', 116, 'questionable'],
      ['11.59', 116, 'questionable'],
      ['11.6', 116, 'implausible'],
      ['19.99', 7305, 'implausible'],
      ['20', 7305, 'questionable'],
      ['34.99', 7305, 'questionable'],
      ['35', 7305, 'plausible'],
      ['200', 7305, 'plausible'],
      ['200.01', 7305, 'questionable'],
      ['650.01', 7305, 'implausible'],
      ['23.8', 7304, 'questionable'],
      ['40.1', 7304, 'questionable'],
      ['0.19', undefined, 'implausible'],
      ['0.2', undefined, 'questionable'],
      ['0.4', undefined, 'plausible'],
      ['650.1', undefined, 'implausible'],
    ] as const
  ).map(([weightKg, ageDays, value]): Edge => [
    `C10: ${weightKg} kg at ${ageDays ?? 'no known age, in'} days, born at term`,
    'weight-plausibility',
    { weightKg, ageDays, gestationWeeks: 40 },
    { value },
  ]),
  ...(
    [
      ['0.19', 0, undefined, 'implausible'],
      ['0.2', 0, undefined, 'questionable'],
      ['1.49', 0, undefined, 'questionable'],
      ['1.5', 0, undefined, 'plausible'],
      ['1.5', 195, undefined, 'plausible'],
      ['1.5', 196, undefined, 'implausible'],
      ['0.39', 0, 26, 'questionable'],
      ['0.4', 0, 26, 'plausible'],
      ['1.3', 6, 26, 'plausible'],
      ['1.31', 6, 26, 'questionable'],
      ['1.31', 7, 26, 'plausible'],
      ['1.61', 6, 26, 'implausible'],
      ['8', 161, 26, 'questionable'],
      ['8', 168, 26, 'plausible'],
    ] as const
  ).map(([weightKg, ageDays, gestationWeeks, value]): Edge => [
    `C10: ${weightKg} kg at ${ageDays} days, born at ${gestationWeeks ?? 'unknown'} weeks`,
    'weight-plausibility',
    { weightKg, ageDays, gestationWeeks },
    { value },
  ]),
  [
    'C10: grams taken for kilograms',
    'weight-plausibility',
    { weightKg: 850, ageDays: 3 },
    { value: 'implausible', lowestKg: '0.2' },
  ],
  [
    'C10: more than twice the weight before',
    'weight-plausibility',
    { weightKg: '6.1', ageDays: 116, lastWeightKg: '3.04' },
    { value: 'questionable' },
  ],
  [
    'twice the weight before',
    'weight-plausibility',
    { weightKg: '6.1', ageDays: 116, lastWeightKg: '3.05' },
    { value: 'plausible' },
  ],
  [
    'half the weight before',
    'weight-plausibility',
    { weightKg: '6.1', ageDays: 116, lastWeightKg: '12.2' },
    { value: 'plausible' },
  ],
  [
    'C10: less than half the weight before',
    'weight-plausibility',
    { weightKg: '6.1', ageDays: 116, lastWeightKg: '12.3' },
    { value: 'questionable' },
  ],
  [
    'a jump to what nobody weighs',
    'weight-plausibility',
    { weightKg: 52, ageDays: 116, lastWeightKg: 6 },
    { value: 'implausible' },
  ],
  ...(
    [
      ['neutrophils', '50', undefined, 'plausible'],
      ['neutrophils', '50.1', undefined, 'questionable'],
      ['neutrophils', '100', undefined, 'questionable'],
      ['neutrophils', '100.1', undefined, 'implausible'],
      ['neutrophils', '180', '200', 'questionable'],
      ['neutrophils', '180', '180', 'questionable'],
      ['neutrophils', '180', '179', 'implausible'],
      ['neutrophils', '4', '3.9', 'implausible'],
      ['neutrophils', '4', '4', 'plausible'],
      ['platelets', '1000', undefined, 'plausible'],
      ['platelets', '1001', '1', 'questionable'],
      ['platelets', '3000', undefined, 'questionable'],
      ['platelets', '3001', undefined, 'implausible'],
      ['inr', '0.49', undefined, 'implausible'],
      ['inr', '0.5', undefined, 'questionable'],
      ['inr', '0.59', undefined, 'questionable'],
      ['inr', '0.6', undefined, 'plausible'],
      ['inr', '10', undefined, 'plausible'],
      ['inr', '10.1', undefined, 'questionable'],
      ['inr', '20', undefined, 'questionable'],
      ['inr', '20.1', undefined, 'implausible'],
    ] as const
  ).map(([of, amount, leucocytes, value]): Edge => [
    `C10: ${of} of ${amount}${leucocytes ? ` with ${leucocytes} leucocytes` : ''}`,
    'laboratory-plausibility',
    { of, amount, leucocytes },
    { value },
  ]),
  [
    '10 units/kg in one lock are silent',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 10, volumeMl: 3, weightKg: 3 },
    { value: '30' },
  ],
  [
    'C10: just below a treatment dose, with a question',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 10, volumeMl: '14.99', weightKg: 3 },
    { value: '149.9' },
  ],
  [
    'just below it in a child born early',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 10, volumeMl: '2.49', weightKg: 1, premature: true },
    { value: '24.9' },
  ],
  [
    'a dialysis line is locked with more',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 1000, volumeMl: '1.6', weightKg: 20, dialysisLine: true },
    { value: '1600' },
  ],
  [
    '25,000 units in one lock are the most',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 5000, volumeMl: 5, dialysisLine: true },
    { value: '25000' },
  ],
  [
    'a strength above 100 units/mL, said',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 101, volumeMl: 1, weightKg: 70 },
    { value: '101' },
  ],
  ['14.5 Fr rounds to the nearest thousandth', 'french-to-mm', { french: '14.5' }, { value: '4.833' }],
  ['a third of a millimetre more rounds up', 'french-to-mm', { french: '8' }, { value: '2.667' }],
  ['an outer diameter between two gauges', 'mm-to-gauge', { outerDiameterMm: '1.2' }, { value: 18 }],
  [
    'half way between 18 and 19 gauge the thinner one',
    'mm-to-gauge',
    { outerDiameterMm: '1.1685' },
    { value: 19 },
  ],
  ['just above half way the thicker one', 'mm-to-gauge', { outerDiameterMm: '1.1686' }, { value: 18 }],
  [
    'a lumen rounded up',
    'lumen-volume',
    { innerDiameterMm: 0.6, lengthCm: 50, rounding: 'up' },
    { value: '0.142' },
  ],
  [
    'a lumen rounded down',
    'lumen-volume',
    { innerDiameterMm: 1.6, lengthCm: 90, rounding: 'down' },
    { value: '1.809' },
  ],
  ['pressure rounds up', 'pressure-in-kpa', { pressure: 1, pressureUnit: 'mm[Hg]' }, { value: '0.134' }],
  [
    'flow without pressure is none',
    'poiseuille-flow',
    { ...flow, pressure: 0 },
    { value: '0', reynoldsNumber: '0', laminar: true },
  ],
  [
    '45.4 % is 45 and within',
    'catheter-to-vein-ratio',
    { catheterFrench: '5.448', veinDiameterMm: '4' },
    { value: '45', withinLimit: true, percentToOneDecimal: '45.4', limitPercent: '45' },
  ],
  [
    '45.5 % is 46 and above',
    'catheter-to-vein-ratio',
    { catheterFrench: '5.46', veinDiameterMm: '4' },
    { value: '46', withinLimit: false },
  ],
  [
    'a stricter limit given',
    'catheter-to-vein-ratio',
    { catheterFrench: '4', veinDiameterMm: '4', limitPercent: '33' },
    { value: '33', withinLimit: true, limitPercent: '33' },
  ],
  ['twice 0.61 mL rounds up', 'flush-volume', { catheterVolumeMl: '0.61' }, { value: '1.3' }],
  ['twice 0.65 mL is 1.3 mL, not more', 'flush-volume', { catheterVolumeMl: '0.65' }, { value: '1.3' }],
  ['a lock of 1.2 × 0.61 rounds up', 'lock-volume', { catheterVolumeMl: '0.61' }, { value: '0.74' }],
  [
    '0.1 + 0.2 mL of add-ons stay exact',
    'flush-volume',
    { catheterVolumeMl: '0.1', addOnVolumeMl: '0.2' },
    { value: '0.6' },
  ],
  [
    'the limit of pressure itself is within',
    'syringe-pressure',
    { forceN: 0, barrelDiameterMm: 10 },
    { value: '0', withinLimit: true },
  ],
  [
    'a limit given',
    'syringe-pressure',
    { forceN: 13.3, barrelDiameterMm: 14.5, limitKPa: '80.6' },
    { value: '80.6', withinLimit: true },
  ],
  [
    'a limit just exceeded',
    'syringe-pressure',
    { forceN: 13.3, barrelDiameterMm: 14.5, limitKPa: '80.5' },
    { withinLimit: false },
  ],
  [
    'C10: exactly 40 units/kg on record is within, and a dose exactly 24 h ago counts',
    'heparin-given',
    { doses: given(['24', '20'], ['1', '20']), weightKg: 1, ageDays: 60 },
    { value: '40', unitsPerKg: '40', limitUnitsPerKg: '40', limitCheck: 'within' },
  ],
  [
    'C10: a hundredth more is above',
    'heparin-given',
    { doses: given(['24', '20'], ['1', '20.01']), weightKg: 1, ageDays: 60 },
    { value: '40.01', limitCheck: 'above' },
  ],
  [
    'C10: what was given more than 24 h ago is not of the day',
    'heparin-given',
    { doses: given(['24.01', '1000'], ['3', '8']), weightKg: '2.99', ageDays: 61 },
    { value: '8', unitsPerKg: '2.68', limitCheck: 'within' },
  ],
  [
    'C10: from 61 days and 3 kg on there is no published limit of the day',
    'heparin-given',
    { doses: given(['1', '5000']), weightKg: 3, ageDays: 61 },
    { limitUnitsPerKg: undefined, limitCheck: 'not-checked' },
  ],
  [
    'C10: a small infant without a weight is not held against the limit, and that is said',
    'heparin-given',
    { doses: given(['1', '20']), ageDays: 20 },
    { unitsPerKg: undefined, limitUnitsPerKg: '40', limitCheck: 'not-checked' },
  ],
  ['C10: nothing given', 'heparin-given', { doses: [] }, { value: '0', limitCheck: 'not-checked' }],
  [
    '61 days and 3 kg: no published limit',
    'heparin-per-day',
    { lumens: heparin, weightKg: 3, ageDays: 61 },
    { value: '40', unitsPerKgPerDay: '13.34', limitCheck: 'not-checked', limitUnitsPerKgPerDay: undefined },
  ],
  [
    '60 days: the limit applies',
    'heparin-per-day',
    { lumens: heparin, weightKg: 3, ageDays: 60 },
    { limitCheck: 'within', limitUnitsPerKgPerDay: '40' },
  ],
  [
    'nothing known of the patient',
    'heparin-per-day',
    { lumens: heparin },
    { value: '40', unitsPerKgPerDay: undefined, limitCheck: 'not-checked' },
  ],
  [
    'a stricter limit of policy counts',
    'heparin-per-day',
    { lumens: heparin, weightKg: 2, ageDays: 1, limitUnitsPerKgPerDay: 19 },
    { limitUnitsPerKgPerDay: '19', limitCheck: 'above' },
  ],
  [
    'a looser limit of policy does not count in a small infant',
    'heparin-per-day',
    { lumens: heparin, weightKg: '0.99', ageDays: 1, limitUnitsPerKgPerDay: 100 },
    { limitUnitsPerKgPerDay: '40', limitCheck: 'above', unitsPerKgPerDay: '40.41' },
  ],
  [
    'exactly the limit is within',
    'heparin-per-day',
    { lumens: heparin, weightKg: 1, ageDays: 1 },
    { limitCheck: 'within' },
  ],
  [
    'a child with a limit of policy',
    'heparin-per-day',
    { lumens: heparin, weightKg: 20, ageDays: 2000, limitUnitsPerKgPerDay: 2 },
    { limitUnitsPerKgPerDay: '2', limitCheck: 'within' },
  ],
  [
    'two lumens add up',
    'heparin-per-day',
    { lumens: [...heparin, { concentrationUnitsPerMl: 100, volumeMl: '0.5', timesPerDay: '0.5' }] },
    { value: '65' },
  ],
  [
    'blood inside leads, then the longest wait, then the name',
    'lumens-to-lock',
    {
      lumens: [
        { name: 'b', use: 'idle', hoursSinceLock: 5 },
        { name: 'a', use: 'idle', hoursSinceLock: 5 },
        { name: 'c', use: 'idle', hoursSinceLock: 30 },
        { name: 'd', use: 'idle', hoursSinceLock: 1, bloodInside: true },
        { name: 'e', use: 'infusing' },
        { name: 'f', use: 'blocked' },
        { name: 'g', use: 'idle', bloodInside: false },
      ],
    },
    { value: 5, order: ['d', 'g', 'c', 'a', 'b'] },
  ],
  [
    'of two with blood inside the longer wait leads',
    'lumens-to-lock',
    {
      lumens: [
        { name: 'a', use: 'idle', hoursSinceLock: 1, bloodInside: true },
        { name: 'b', use: 'idle', hoursSinceLock: 2, bloodInside: true },
      ],
    },
    { order: ['b', 'a'] },
  ],
  ['nothing idle', 'lumens-to-lock', { lumens: [{ name: 'a', use: 'infusing' }] }, { value: 0, order: [] }],
  ['a discard rounds up', 'discard-volume', { deadSpaceMl: '0.51', sampleFor: 'general' }, { value: '1.1' }],
  [
    'a returned discard is no loss',
    'sample-total',
    { tubes: [{ volumeMl: 3, count: 2 }, { volumeMl: '1.8' }], discardMl: 5, discardReturned: true },
    { value: '7.8', drawnMl: '12.8' },
  ],
  [
    'a discard not returned is a loss',
    'sample-total',
    { tubes: [{ volumeMl: '2.7' }], discardMl: 5 },
    { value: '7.7', drawnMl: '7.7' },
  ],
  ['no discard', 'sample-total', { tubes: [{ volumeMl: '2.7' }], discardReturned: false }, { value: '2.7' }],
  [
    'a draw exactly 24 h, 720 h, and 1344 h, ago still counts',
    'blood-loss',
    {
      draws: [
        { hoursAgo: 24, drawnMl: 1 },
        { hoursAgo: '24.01', drawnMl: 2 },
        { hoursAgo: 720, drawnMl: 4 },
        { hoursAgo: '720.01', drawnMl: 8 },
        { hoursAgo: 1344, drawnMl: 16 },
        { hoursAgo: '1344.01', drawnMl: 32 },
      ],
    },
    { value: '1', last30DaysMl: '7', last8WeeksMl: '31' },
  ],
  [
    'returned blood does not count',
    'blood-loss',
    {
      draws: [
        { hoursAgo: 0, drawnMl: 5, returnedMl: '3.5' },
        { hoursAgo: 0, drawnMl: 2, returnedMl: 2 },
      ],
    },
    { value: '1.5', last30DaysMl: '1.5', last8WeeksMl: '1.5' },
  ],
  ['no draw', 'blood-loss', { draws: [] }, { value: '0', last30DaysMl: '0', last8WeeksMl: '0' }],
  [
    '30 days, premature',
    'total-blood-volume',
    { weightKg: 2, ageDays: 30, premature: true },
    { value: '180' },
  ],
  [
    '31 days, born premature',
    'total-blood-volume',
    { weightKg: 2, ageDays: 31, premature: true },
    { value: '150' },
  ],
  ['365 days', 'total-blood-volume', { weightKg: 10, ageDays: 365 }, { value: '750' }],
  ['366 days', 'total-blood-volume', { weightKg: 10, ageDays: 366 }, { value: '700' }],
  ['three years', 'total-blood-volume', { weightKg: 10, ageDays: 1096 }, { value: '700' }],
  ['a day more', 'total-blood-volume', { weightKg: 10, ageDays: 1097 }, { value: '650' }],
  ['18 years', 'total-blood-volume', { weightKg: 50, ageDays: 6575 }, { value: '3250' }],
  [
    'a lowest weight with a question',
    'total-blood-volume',
    { weightKg: '0.2', ageDays: 0, premature: true },
    { value: '18' },
  ],
  [
    'anaemia, rounded down',
    'total-blood-volume',
    { weightKg: 10, ageDays: 400, haemoglobinGPerL: 70, referenceHaemoglobinGPerL: 120 },
    { value: '408.3' },
  ],
  [
    'more haemoglobin than normal raises nothing',
    'total-blood-volume',
    { weightKg: 10, ageDays: 400, haemoglobinGPerL: 150, referenceHaemoglobinGPerL: 120 },
    { value: '700' },
  ],
  [
    'what is left of the day',
    'safe-draw-today',
    { ...draw, lostLast24HoursMl: '3.45', lostLast30DaysMl: '3.45' },
    { value: '20.5', limitedBy: '24-hours', plannedWithin: undefined },
  ],
  [
    'what is left of the month',
    'safe-draw-today',
    { ...draw, lostLast24HoursMl: '3', lostLast30DaysMl: '70' },
    { value: '10', limitedBy: '30-days' },
  ],
  [
    'both limits alike',
    'safe-draw-today',
    { ...draw, lostLast24HoursMl: '4', lostLast30DaysMl: '60' },
    { value: '20', limitedBy: '24-hours' },
  ],
  [
    'nothing left',
    'safe-draw-today',
    { ...draw, lostLast24HoursMl: '30', lostLast30DaysMl: '90', plannedMl: '0.1' },
    { value: '0', plannedWithin: false, limitedBy: '24-hours' },
  ],
  [
    'the planned volume exactly',
    'safe-draw-today',
    { ...draw, plannedMl: '24' },
    { value: '24', plannedWithin: true },
  ],
  ['a drop more than safe', 'safe-draw-today', { ...draw, plannedMl: '24.1' }, { plannedWithin: false }],
  [
    'lost as much in a day as in a month',
    'safe-draw-today',
    { ...draw, lostLast24HoursMl: '5', lostLast30DaysMl: '5' },
    { value: '19' },
  ],
  [
    'what is left of 8 weeks',
    'safe-draw-today',
    { ...draw, lostLast30DaysMl: '50', eightWeekPercent: '10', lostLast8WeeksMl: '72.35' },
    { value: '7.6', limitedBy: '8-weeks' },
  ],
  [
    '30 days and 8 weeks alike',
    'safe-draw-today',
    { ...draw, lostLast30DaysMl: '70', eightWeekPercent: '10', lostLast8WeeksMl: '70' },
    { value: '10', limitedBy: '30-days' },
  ],
  [
    'nothing left of 8 weeks',
    'safe-draw-today',
    { ...draw, eightWeekPercent: '9', lostLast8WeeksMl: '80', plannedMl: '1' },
    { value: '0', limitedBy: '8-weeks', plannedWithin: false },
  ],
  [
    'anaemia halves it',
    'safe-draw-today',
    { ...draw, haemoglobinGPerL: 60, referenceHaemoglobinGPerL: 120 },
    { value: '12' },
  ],
  [
    'segmented neutrophils alone',
    'absolute-neutrophil-count',
    { leucocytesPerUl: '4500', segmentedPercent: '40' },
    { value: '1800' },
  ],
  [
    'all neutrophils',
    'absolute-neutrophil-count',
    { leucocytes: '0.4', leucocytesUnit: '10*9/L', neutrophilsPercent: '12.5' },
    { value: '50' },
  ],
  [
    'exactly 100 %',
    'absolute-neutrophil-count',
    { leucocytesPerUl: '1', segmentedPercent: '60', bandsPercent: '40' },
    { value: '1' },
  ],
  [
    'without bands',
    'neutrophils-from-absolute-counts',
    { segmented: '0.3', countUnit: '10*9/L' },
    { value: '300' },
  ],
  ['no lower limit of normal: protective', 'neutropenia-grade', { neutrophilsPerUl: 5000 }, { value: 1 }],
  [
    'a lower limit of normal below 1500',
    'neutropenia-grade',
    { neutrophilsPerUl: 1450, lowerLimitOfNormalPerUl: 1400 },
    { value: 2 },
  ],
  [
    'at a lower limit of normal of 1500',
    'neutropenia-grade',
    { neutrophilsPerUl: 1500, lowerLimitOfNormalPerUl: 1500 },
    { value: 0 },
  ],
  [
    'just below the lower limit of normal',
    'neutropenia-grade',
    { neutrophilsPerUl: '1999.9', lowerLimitOfNormalPerUl: 2000 },
    { value: 1 },
  ],
  [
    'falling',
    'neutrophil-trend',
    counts(['2026-01-03', '100'], ['2026-01-01', '900'], ['2026-01-02', '300']),
    { value: '100', lowestOn: '2026-01-03', direction: 'falling', daysSinceLowest: 0 },
  ],
  [
    'rising again',
    'neutrophil-trend',
    counts(['2026-01-01', '900'], ['2026-01-05', '50'], ['2026-01-09', '60']),
    { value: '50', lowestOn: '2026-01-05', direction: 'rising', daysSinceLowest: 4 },
  ],
  [
    'steady: the first day counts',
    'neutrophil-trend',
    counts(['2026-01-01', '50'], ['2026-01-02', '50.0']),
    { lowestOn: '2026-01-01', direction: 'steady', daysSinceLowest: 1 },
  ],
  [
    'the lowest of one day',
    'neutrophil-trend',
    counts(['2026-01-01', '70'], ['2026-01-01', '40'], ['2026-01-01', '60']),
    { value: '40', direction: 'one-day-only', daysSinceLowest: 0 },
  ],
  [
    'the last two days decide',
    'neutrophil-trend',
    counts(['2026-01-01', '10'], ['2026-01-02', '90'], ['2026-01-03', '80']),
    { value: '10', direction: 'falling' },
  ],
  [
    '29.99 kg goes by the lumen',
    'thrombolytic-dose',
    { weightKg: '29.99', lumenVolumeMl: '0.333' },
    { value: '0.36', volumeMl: '0.36' },
  ],
  ['30 kg is 2 mg', 'thrombolytic-dose', { weightKg: '30.0', lumenVolumeMl: '0.333' }, { value: '2' }],
  ['the cap of 2 mg', 'thrombolytic-dose', { weightKg: '20', lumenVolumeMl: '1.819' }, { value: '2' }],
  [
    'just below the cap',
    'thrombolytic-dose',
    { weightKg: '20', lumenVolumeMl: '1.81' },
    { value: '1.9', secondDoseAllowed: true, contraindicated: false, verdict: 'dose', unit: 'mg' },
  ],
  [
    'a dose of exactly 1 mL is measured by hundredths',
    'thrombolytic-dose',
    { weightKg: '20', lumenVolumeMl: '0.909' },
    { value: '0.99' },
  ],
  [
    'C17: hypersensitivity is the result: no dose, no second dose, nothing to withdraw',
    'thrombolytic-dose',
    { weightKg: '40', hypersensitivity: true, riskWeighed: true },
    {
      value: 'contraindicated',
      unit: '',
      verdict: 'contraindicated',
      contraindicated: true,
      secondDoseAllowed: false,
      volumeMl: undefined,
      reassessAfterMinutes: undefined,
      withdrawLeastMl: undefined,
      withdrawMostMl: undefined,
    },
  ],
  [
    'C17: a contraindication comes before everything that is missing',
    'thrombolytic-dose',
    { weightKg: '5', dosesGiven: 2, hypersensitivity: true },
    { value: 'contraindicated' },
  ],
  ...[
    'activeBleeding',
    'procedureWithin48Hours',
    'bleedingTendency',
    'embolicRisk',
    'infectionInCatheter',
  ].flatMap((risk): Edge[] => [
    [
      `C17: ${risk} is for the prescriber to weigh before there is a dose`,
      'thrombolytic-dose',
      { weightKg: '40', [risk]: true },
      {
        value: 'ask-first',
        unit: '',
        verdict: 'ask-first',
        contraindicated: false,
        secondDoseAllowed: false,
        volumeMl: undefined,
      },
    ],
    [
      `${risk} weighed: the dose`,
      'thrombolytic-dose',
      { weightKg: '40', [risk]: true, riskWeighed: true },
      { value: '2', verdict: 'dose', secondDoseAllowed: true },
    ],
    [
      `${risk} not weighed`,
      'thrombolytic-dose',
      { weightKg: '40', [risk]: true, riskWeighed: false },
      { value: 'ask-first' },
    ],
  ]),
  [
    'not hypersensitive',
    'thrombolytic-dose',
    { weightKg: '40', hypersensitivity: false },
    { contraindicated: false },
  ],
  [
    'before 30 min',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T10:29' },
    { value: 'wait', minutesSinceInstillation: 29 },
  ],
  ['at 30 min', 'thrombolytic-clock', { ...clock, asOf: '2026-11-25T10:30' }, { value: 'assess-now' }],
  [
    'works at 30 min',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T10:30', worksAt30Minutes: true },
    { value: 'withdraw-and-flush' },
  ],
  [
    'does not work at 30 min',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T11:59', worksAt30Minutes: false },
    { value: 'wait' },
  ],
  [
    'at 120 min',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T12:00', worksAt30Minutes: false },
    { value: 'assess-now' },
  ],
  [
    'never assessed by 120 min',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T12:00' },
    { value: 'assess-now' },
  ],
  [
    'works at 120 min',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T12:00', worksAt120Minutes: true },
    { value: 'withdraw-and-flush' },
  ],
  [
    'does not work at 120 min',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T12:30', worksAt120Minutes: false },
    { value: 'second-dose-may-follow' },
  ],
  [
    'the second dose does not work',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T12:30', worksAt120Minutes: false, dosesGiven: 2 },
    { value: 'stop-and-call-the-prescriber' },
  ],
  [
    'a dwell over midnight',
    'thrombolytic-clock',
    { instilledAt: '2026-12-31T23:45', asOf: '2027-01-01T00:00' },
    { value: 'wait', firstAssessmentAt: '2027-01-01T00:15', secondAssessmentAt: '2027-01-01T01:45' },
  ],
  [
    'an agent fills no more than the lumen',
    'precipitate-agent',
    { precipitate: 'fat', lumenVolumeMl: '0.619' },
    { volumeMl: '0.61', dwellLeastMinutes: 20, dwellMostMinutes: 60, mostTries: 2, alternative: '' },
  ],
  [
    'acid stays for an hour',
    'precipitate-agent',
    { precipitate: 'acidic-drug', lumenVolumeMl: '1' },
    { dwellLeastMinutes: 60 },
  ],
  ['free both ways', 'occlusion-degree', { flushes: 'freely', bloodReturn: 'brisk' }, { value: 'none' }],
  [
    'sluggish flush, brisk return',
    'occlusion-degree',
    { flushes: 'sluggishly', bloodReturn: 'brisk' },
    { value: 'partial' },
  ],
  [
    'free flush, sluggish return',
    'occlusion-degree',
    { flushes: 'freely', bloodReturn: 'sluggish' },
    { value: 'partial' },
  ],
  [
    'no flush, though blood returns',
    'occlusion-degree',
    { flushes: 'not-at-all', bloodReturn: 'brisk' },
    { value: 'complete' },
  ],
  [
    'sluggish flush, no return',
    'occlusion-degree',
    { flushes: 'sluggishly', bloodReturn: 'none' },
    { value: 'withdrawal' },
  ],
  [
    'C17: four hours after the drug went in the clock still runs',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T14:00' },
    { value: 'assess-now' },
  ],
  [
    'C17: a minute later the dwell is over',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T14:01' },
    { value: 'dwell-over' },
  ],
  [
    'C17: after three days nothing is to be done now that was to be done then',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-28T10:00', worksAt30Minutes: true, worksAt120Minutes: false },
    { value: 'dwell-over' },
  ],
  [
    'a repair that can be done',
    'repair-plan',
    repair,
    {
      value: 'possible',
      clampWithinCm: '5',
      cutAtCm: '5',
      externalLengthAfterCm: '13',
      airToWithdrawMl: '0.17',
    },
  ],
  [
    'exactly 20 cm afterwards',
    'repair-plan',
    { ...repair, newSegmentLengthCm: '15' },
    { value: 'possible', externalLengthAfterCm: '20' },
  ],
  [
    'more than 20 cm afterwards',
    'repair-plan',
    { ...repair, newSegmentLengthCm: '15.01' },
    { value: 'not-possible' },
  ],
  ['a kit of another size', 'repair-plan', { ...repair, kitFrench: '9.1' }, { value: 'not-possible' }],
  [
    'a kit for another device',
    'repair-plan',
    { ...repair, kitForThisDevice: false },
    { value: 'not-possible' },
  ],
  ['a clot in the lumen', 'repair-plan', { ...repair, lumenFreeOfClot: false }, { value: 'not-possible' }],
  [
    'a lumen not checked for a clot',
    'repair-plan',
    { ...repair, lumenFreeOfClot: undefined },
    { value: 'not-possible' },
  ],
  [
    'C6: what the kit needs has to be left after the trim, just so',
    'repair-plan',
    { ...repair, trimCm: '2' },
    { value: 'possible', cutAtCm: '4' },
  ],
  [
    'C6: a millimetre less than the kit needs after the trim',
    'repair-plan',
    { ...repair, trimCm: '2.1' },
    { value: 'not-possible', cutAtCm: '3.9' },
  ],
  [
    'C6: 2.5 cm left are the least for any kit',
    'repair-plan',
    { ...repair, leastIntactCm: '1', trimCm: '3.5' },
    { value: 'possible' },
  ],
  [
    'C6: below 2.5 cm not even where the kit would do with less',
    'repair-plan',
    { ...repair, leastIntactCm: '1', trimCm: '3.51' },
    { value: 'not-possible' },
  ],
  [
    'the kit’s own wait',
    'repair-plan',
    { ...repair, noInfusionHours: '24.0' },
    { noInfusionHours: '24', splintHours: 48 },
  ],
  [
    'C6: no wait is given where the kit’s is not known',
    'repair-plan',
    repair,
    { noInfusionHours: undefined },
  ],
  ['cut off to the skin', 'repair-plan', { ...repair, trimCm: '6' }, { value: 'not-possible', cutAtCm: '0' }],
  [
    'cut beyond the skin',
    'repair-plan',
    { ...repair, trimCm: '7' },
    { value: 'not-possible', cutAtCm: '0', externalLengthAfterCm: '8' },
  ],
  [
    'a maker who asks for more',
    'repair-plan',
    { ...repair, leastIntactCm: '6.1' },
    { value: 'not-possible' },
  ],
  [
    'a maker who allows less length',
    'repair-plan',
    { ...repair, mostExternalCm: '12.9' },
    { value: 'not-possible' },
  ],
  [
    'times of the kit, to the minute',
    'repair-times',
    { repairedAt: '2026-02-28T23:30', noInfusionHours: '0.51', splintHours: 24 },
    { value: '2026-03-01T00:01', splintOffAt: '2026-03-01T23:30' },
  ],
  [
    'no scrub published',
    'antiseptic-contact-time',
    { on: 'skin-povidone-iodine' },
    { value: 120, scrubSeconds: 0, drySeconds: 120 },
  ],
  [
    'scrub and drying add up',
    'antiseptic-contact-time',
    { on: 'connector-chlorhexidine-alcohol' },
    { value: 45, scrubSeconds: 15, drySeconds: 30 },
  ],
  [
    'steps come in order of time, equal ones as given',
    'count-back-times',
    {
      plannedAt: '2026-03-01T00:10',
      steps: [
        { name: 'scrub', minutesBefore: 5 },
        { name: 'bloods', minutesBefore: 1440 },
        { name: 'gown', minutesBefore: 5 },
        { name: 'go', minutesBefore: 0 },
      ],
    },
    {
      value: '2026-02-28T00:10',
      times: [
        { name: 'bloods', at: '2026-02-28T00:10' },
        { name: 'scrub', at: '2026-03-01T00:05' },
        { name: 'gown', at: '2026-03-01T00:05' },
        { name: 'go', at: '2026-03-01T00:10' },
      ],
    },
  ],
  [
    'out by just the limit',
    'external-length-change',
    { atInsertionCm: 5, nowCm: 6, limitCm: 1 },
    { value: '1', direction: 'outwards', moved: true },
  ],
  [
    'in by less than the limit',
    'external-length-change',
    { atInsertionCm: 5, nowCm: '4.1', limitCm: 1 },
    { value: '0.9', direction: 'inwards', moved: false },
  ],
  [
    'not moved',
    'external-length-change',
    { atInsertionCm: 5, nowCm: '5.0', limitCm: 1 },
    { value: '0', direction: 'none', moved: false },
  ],
  ['pain alone', 'phlebitis-grade', { ...signs, pain: true }, { value: 1 }],
  ['oedema alone', 'phlebitis-grade', { ...signs, oedema: true }, { value: 1 }],
  [
    'erythema and oedema without pain',
    'phlebitis-grade',
    { ...signs, erythema: true, oedema: true },
    { value: 1 },
  ],
  ['pain and oedema', 'phlebitis-grade', { ...signs, pain: true, oedema: true }, { value: 2 }],
  ['a streak alone', 'phlebitis-grade', { ...signs, streak: true }, { value: 3 }],
  ['a cord of just 1 inch alone', 'phlebitis-grade', { ...signs, cordLengthCm: '2.54' }, { value: 3 }],
  ['a cord over 1 inch alone', 'phlebitis-grade', { ...signs, cordLengthCm: '2.55' }, { value: 4 }],
  ['purulence alone', 'phlebitis-grade', { ...signs, purulence: true }, { value: 4 }],
  [
    'swelling alone',
    'vip-score',
    { ...vip, swelling: true },
    { value: 1, action: 'it may stay; look again soon' },
  ],
  ['a cord alone', 'vip-score', { ...vip, palpableCord: true }, { value: 4 }],
  ['fever alone', 'vip-score', { ...vip, pyrexia: true }, { value: 0 }],
  [
    'a cord with fever',
    'vip-score',
    { ...vip, palpableCord: true, pyrexia: true },
    { value: 5, action: 'take it out, and have the vein and the fever treated without delay' },
  ],
  ['just below 1 inch', 'infiltration-grade', { ...infiltration, oedemaCm: '2.53' }, { value: 1 }],
  ['just 1 inch', 'infiltration-grade', { ...infiltration, oedemaCm: '2.54' }, { value: 2 }],
  ['just 6 inches', 'infiltration-grade', { ...infiltration, oedemaCm: '15.24' }, { value: 2 }],
  ['over 6 inches', 'infiltration-grade', { ...infiltration, oedemaCm: '15.25' }, { value: 3 }],
  ['blanched alone', 'infiltration-grade', { ...infiltration, blanched: true }, { value: 1 }],
  ['cool alone', 'infiltration-grade', { ...infiltration, cool: true }, { value: 1 }],
  ['mild pain alone', 'infiltration-grade', { ...infiltration, pain: 'mild' }, { value: 1 }],
  ['moderate pain alone', 'infiltration-grade', { ...infiltration, pain: 'moderate' }, { value: 3 }],
  ['severe pain alone', 'infiltration-grade', { ...infiltration, pain: 'severe' }, { value: 4 }],
  ['translucent alone', 'infiltration-grade', { ...infiltration, translucent: true }, { value: 3 }],
  ['numbness alone', 'infiltration-grade', { ...infiltration, numbness: true }, { value: 3 }],
  ['tight or leaking alone', 'infiltration-grade', { ...infiltration, tightOrLeaking: true }, { value: 4 }],
  ['bruised alone', 'infiltration-grade', { ...infiltration, bruised: true }, { value: 4 }],
  ['deep pitting alone', 'infiltration-grade', { ...infiltration, deepPitting: true }, { value: 4 }],
  [
    'circulation impaired alone',
    'infiltration-grade',
    { ...infiltration, circulationImpaired: true },
    { value: 4 },
  ],
  [
    'a vesicant without any sign',
    'infiltration-grade',
    { ...infiltration, infusate: 'vesicant' },
    { value: 0 },
  ],
  [
    'blood with one sign',
    'infiltration-grade',
    { ...infiltration, infusate: 'blood', cool: true },
    { value: 4 },
  ],
  [
    'no sign of infection',
    'line-infection',
    { exudateGrowsOrganism: false, infectedPocketFluid: false },
    { value: 'none', microbiological: false },
  ],
  [
    'signs at the exit itself',
    'line-infection',
    { signsReachCm: 0, exudateGrowsOrganism: false, infectedPocketFluid: false },
    { value: 'exit-site' },
  ],
  [
    'a pocket outranks a tunnel',
    'line-infection',
    { signsReachCm: 9, exudateGrowsOrganism: true, infectedPocketFluid: true },
    { value: 'pocket', microbiological: true },
  ],
  ['the day itself', 'dwell-days', { insertedOn: '2026-05-05', asOfDate: '2026-05-05' }, { value: 0 }],
  ['no line', 'catheter-days', { ...period, lines: [] }, { value: 0 }],
  [
    'a line of one day',
    'catheter-days',
    { ...period, lines: [{ insertedOn: '2026-04-05', removedOn: '2026-04-05' }] },
    { value: 1 },
  ],
  [
    'a line of one day, removal not counted',
    'catheter-days',
    { ...period, countRemovalDay: false, lines: [{ insertedOn: '2026-04-05', removedOn: '2026-04-05' }] },
    { value: 0 },
  ],
  [
    'removal not counted',
    'catheter-days',
    { ...period, countRemovalDay: false, lines: [{ insertedOn: '2026-04-05', removedOn: '2026-04-08' }] },
    { value: 3 },
  ],
  [
    'a line within another',
    'catheter-days',
    {
      ...period,
      lines: [
        { insertedOn: '2026-04-01', removedOn: '2026-04-20' },
        { insertedOn: '2026-04-05', removedOn: '2026-04-08' },
        { insertedOn: '2026-04-19', removedOn: '2026-04-21' },
      ],
    },
    { value: 21 },
  ],
  [
    'two lines that meet',
    'catheter-days',
    {
      ...period,
      lines: [
        { insertedOn: '2026-04-10', removedOn: '2026-04-12' },
        { insertedOn: '2026-04-01', removedOn: '2026-04-10' },
      ],
    },
    { value: 12 },
  ],
  [
    'a gap between lines',
    'catheter-days',
    {
      ...period,
      lines: [
        { insertedOn: '2026-04-01', removedOn: '2026-04-02' },
        { insertedOn: '2026-04-04', removedOn: '2026-04-04' },
      ],
    },
    { value: 3 },
  ],
  [
    'lines beyond the period on both sides',
    'catheter-days',
    {
      ...period,
      lines: [
        { insertedOn: '2026-03-01', removedOn: '2026-04-02' },
        { insertedOn: '2026-04-29', removedOn: '2026-06-02' },
      ],
    },
    { value: 4 },
  ],
  [
    'lines outside the period',
    'catheter-days',
    {
      ...period,
      lines: [{ insertedOn: '2026-03-01', removedOn: '2026-03-31' }, { insertedOn: '2026-05-01' }],
    },
    { value: 0 },
  ],
  [
    'a period of one day',
    'catheter-days',
    { periodFrom: '2026-04-05', periodTo: '2026-04-05', lines: [{ insertedOn: '2026-04-05' }] },
    { value: 1 },
  ],
  [
    '3 cm more just reached, with oedema',
    'arm-circumference-change',
    arm,
    { value: '3', direction: 'larger', suggestsThrombosis: true },
  ],
  [
    '3 cm more not reached',
    'arm-circumference-change',
    { ...arm, nowCm: '30.99' },
    { value: '2.99', direction: 'larger', suggestsThrombosis: false },
  ],
  [
    '3 cm more without oedema',
    'arm-circumference-change',
    { ...arm, oedema: false },
    { value: '3', suggestsThrombosis: false },
  ],
  [
    'oedema not said counts as there',
    'arm-circumference-change',
    { atInsertionCm: '28', nowCm: '31.5' },
    { value: '3.5', suggestsThrombosis: true },
  ],
  [
    '3 cm less is no sign',
    'arm-circumference-change',
    { ...arm, nowCm: '25' },
    { value: '3', direction: 'smaller', suggestsThrombosis: false },
  ],
  [
    'the same circumference',
    'arm-circumference-change',
    { ...arm, nowCm: '28.0' },
    { value: '0', direction: 'none', suggestsThrombosis: false },
  ],
  ['5 d', 'device-by-duration', device, { value: 'no-picc', picc: 'inappropriate' }],
  [
    '6 d',
    'device-by-duration',
    { ...device, expectedDays: 6 },
    { value: 'midline-or-ultrasound-guided-peripheral', picc: 'not-preferred' },
  ],
  [
    '14 d',
    'device-by-duration',
    { ...device, expectedDays: 14 },
    { value: 'midline-or-ultrasound-guided-peripheral', picc: 'not-preferred' },
  ],
  ['15 d', 'device-by-duration', { ...device, expectedDays: 15 }, { value: 'no-rule', picc: 'no-rule' }],
  [
    'not for a peripheral vein',
    'device-by-duration',
    { ...device, peripherallyCompatible: false },
    { value: 'no-rule', picc: 'no-rule' },
  ],
  [
    'critically ill for 14 d',
    'device-by-duration',
    { expectedDays: 14, peripherallyCompatible: false, criticallyIll: true },
    { value: 'nontunneled-cvc', picc: 'not-preferred' },
  ],
  [
    'critically ill for 15 d',
    'device-by-duration',
    { expectedDays: 15, peripherallyCompatible: false, criticallyIll: true },
    { value: 'no-rule', picc: 'no-rule' },
  ],
  [
    'critically ill for 5 d, peripherally compatible',
    'device-by-duration',
    { ...device, criticallyIll: true },
    { value: 'nontunneled-cvc', picc: 'inappropriate' },
  ],
  [
    'critically ill for 6 d, peripherally compatible',
    'device-by-duration',
    { ...device, expectedDays: 6, criticallyIll: true },
    { value: 'nontunneled-cvc', picc: 'not-preferred' },
  ],
  [
    '120 min earlier just reached',
    'differential-time-to-positivity',
    cultures,
    { value: 120, positiveFirst: 'line', supportsLineInfection: 'yes' },
  ],
  [
    '119 min earlier',
    'differential-time-to-positivity',
    { ...cultures, lineMinutes: 601 },
    { value: 119, positiveFirst: 'line', supportsLineInfection: 'no' },
  ],
  [
    'the peripheral culture 120 min earlier',
    'differential-time-to-positivity',
    { ...cultures, lineMinutes: 840 },
    { value: 120, positiveFirst: 'peripheral', supportsLineInfection: 'no' },
  ],
  [
    'both at one time',
    'differential-time-to-positivity',
    { ...cultures, lineMinutes: 720 },
    { value: 0, positiveFirst: 'neither', supportsLineInfection: 'no' },
  ],
  [
    'unequal volumes',
    'differential-time-to-positivity',
    { ...cultures, lineVolumeMl: '10.1' },
    { value: 120, supportsLineInfection: 'not-comparable' },
  ],
  [
    '15 min apart',
    'differential-time-to-positivity',
    { ...cultures, minutesApart: 15 },
    { supportsLineInfection: 'yes' },
  ],
  [
    '16 min apart',
    'differential-time-to-positivity',
    { ...cultures, minutesApart: 16 },
    { supportsLineInfection: 'not-comparable' },
  ],
  [
    '16 min apart and 119 min',
    'differential-time-to-positivity',
    { ...cultures, minutesApart: 16, peripheralMinutes: 719 },
    { value: 119, supportsLineInfection: 'not-comparable' },
  ],
  [
    'two organisms',
    'differential-time-to-positivity',
    { ...cultures, sameOrganism: false },
    { supportsLineInfection: 'not-comparable' },
  ],
  [
    'threefold just reached',
    'paired-culture-ratio',
    colonies,
    { value: '3', reading: 'at-least-3-to-1', supportsLineInfection: 'yes' },
  ],
  [
    'just below threefold prints 2.9',
    'paired-culture-ratio',
    { ...colonies, lineColoniesPerMl: '29.99' },
    { value: '2.9', supportsLineInfection: 'no' },
  ],
  [
    'fivefold has to be exceeded',
    'paired-culture-ratio',
    { ...colonies, lineColoniesPerMl: '50', reading: 'above-5-to-1' },
    { value: '5', reading: 'above-5-to-1', supportsLineInfection: 'no' },
  ],
  [
    'just above fivefold still prints 5',
    'paired-culture-ratio',
    { ...colonies, lineColoniesPerMl: '50.01', reading: 'above-5-to-1' },
    { value: '5', supportsLineInfection: 'yes' },
  ],
  [
    'fewer from the line',
    'paired-culture-ratio',
    { ...colonies, lineColoniesPerMl: '4' },
    { value: '0.4', supportsLineInfection: 'no' },
  ],
  [
    'a ratio of two organisms',
    'paired-culture-ratio',
    { ...colonies, sameOrganism: false },
    { value: '3', supportsLineInfection: 'not-comparable' },
  ],
  [
    '199 mL/min',
    'dialysis-flow-check',
    dialysis('below-200', [session(199)]),
    { value: 'dysfunction', reading: 'below-200', signs: ['flow'] },
  ],
  [
    '200 mL/min is not below 200',
    'dialysis-flow-check',
    dialysis('below-200', [session(200)]),
    {
      value: 'works',
      signs: [],
      otherReadings: [
        { reading: 'below-250', says: 'dysfunction' },
        { reading: 'allon-2018', says: 'cannot-be-judged' },
      ],
    },
  ],
  [
    '249.9 mL/min',
    'dialysis-flow-check',
    dialysis('below-250', [session(249.9)]),
    { value: 'dysfunction', signs: ['flow'] },
  ],
  [
    '250 mL/min is not below 250',
    'dialysis-flow-check',
    dialysis('below-250', [session(250)]),
    { value: 'works', signs: [] },
  ],
  [
    'the latest session counts',
    'dialysis-flow-check',
    dialysis('below-200', [session(150), session(310)]),
    { value: 'works', signs: [] },
  ],
  [
    'the latest session counts against it',
    'dialysis-flow-check',
    dialysis('below-200', [session(310), session(310), session(150)]),
    {
      value: 'dysfunction',
      otherReadings: [
        { reading: 'below-250', says: 'dysfunction' },
        { reading: 'allon-2018', says: 'works' },
      ],
    },
  ],
  [
    'two in a row above 300',
    'dialysis-flow-check',
    dialysis('allon-2018', [session(301), session(300.1)]),
    { value: 'works', signs: [] },
  ],
  [
    '300 has to be exceeded',
    'dialysis-flow-check',
    dialysis('allon-2018', [session(301), session(300)]),
    { value: 'dysfunction', signs: ['flow'] },
  ],
  [
    'two above 300, not in a row',
    'dialysis-flow-check',
    dialysis('allon-2018', [session(320), session(290), session(320)]),
    { value: 'dysfunction', signs: ['flow'] },
  ],
  [
    'before the first measures',
    'dialysis-flow-check',
    dialysis('allon-2018', [session(210), session(220)], false),
    { value: 'first-measures', signs: ['flow'] },
  ],
  [
    'one session above 300',
    'dialysis-flow-check',
    dialysis('allon-2018', [session(350)]),
    { value: 'cannot-be-judged', signs: [] },
  ],
  [
    'alarms in the one session',
    'dialysis-flow-check',
    dialysis('allon-2018', [session(350, { recurrentPressureAlarms: true })]),
    { value: 'dysfunction', signs: ['pressure-alarms'] },
  ],
  [
    'alarms in one of two sessions',
    'dialysis-flow-check',
    dialysis('allon-2018', [session(350, { recurrentPressureAlarms: true }), session(350)]),
    { value: 'works', signs: [] },
  ],
  [
    'Kt/V of 1.2 in 4 h just reached',
    'dialysis-flow-check',
    dialysis('allon-2018', [session(350, { ktV: '1.2', hours: 4 }), session(350, { ktV: '1.1', hours: 4 })]),
    { value: 'works', signs: [] },
  ],
  [
    'Kt/V of 1.2 in more than 4 h',
    'dialysis-flow-check',
    dialysis('allon-2018', [
      session(350, { ktV: '1.3', hours: '4.01' }),
      session(350, { ktV: '1.19', hours: 4 }),
    ]),
    { value: 'dysfunction', signs: ['kt-v'] },
  ],
  [
    'Kt/V of one session not given',
    'dialysis-flow-check',
    dialysis('allon-2018', [session(350, { ktV: '1.1', hours: 4 }), session(350, { ktV: '1.1' })]),
    { value: 'works', signs: [] },
  ],
  [
    'every sign at once',
    'dialysis-flow-check',
    dialysis('allon-2018', [
      session(250, { recurrentPressureAlarms: true, ktV: '1', hours: 4 }),
      session(240, { recurrentPressureAlarms: true, ktV: '1', hours: 5 }),
    ]),
    { value: 'dysfunction', signs: ['flow', 'pressure-alarms', 'kt-v'] },
  ],
];

describe('at the edges', () => {
  it.each(edges)('%s (%s)', (_edge, name, input, expected) => {
    const result = (calculators[name] as CatalogEntry).run(input) as unknown as Fields;
    for (const [field, value] of Object.entries(expected))
      expect([field, result[field]]).toEqual([field, value]);
  });
});

const refusals: readonly Refusal[] = [
  [
    'C10: 52 kg at 116 days',
    'thrombolytic-dose',
    { weightKg: 52, ageDays: 116 },
    'inconsistent',
    'weightKg',
    /^0\.2 to 11\.59 kg at an age of 116 days/,
  ],
  [
    'C10: the same for blood volume',
    'total-blood-volume',
    { weightKg: 52, ageDays: 116 },
    'inconsistent',
    'weightKg',
    /^0\.2 to 11\.59 kg/,
  ],
  [
    'C10: and for heparin',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 10, volumeMl: 1, weightKg: 52, ageDays: 116 },
    'inconsistent',
    'weightKg',
  ],
  [
    'C10: and for heparin a day',
    'heparin-per-day',
    { lumens: heparin, weightKg: 52, ageDays: 116 },
    'inconsistent',
    'weightKg',
  ],
  [
    'C10: 180 · 10⁹/L of neutrophils',
    'neutropenia-grade',
    { neutrophilsPerUl: '180e3' },
    'out-of-range',
    'neutrophilsPerUl',
    /^0 to 100000 \/uL$/,
  ],
  [
    'C10: 180 · 10⁹/L of neutrophils in a trend',
    'neutrophil-trend',
    counts(['2026-11-25', '180e3']),
    'out-of-range',
    'counts[0].neutrophilsPerUl',
  ],
  [
    'C10: segmented and bands above 100 · 10⁹/L',
    'neutrophils-from-absolute-counts',
    { segmented: 99, bands: '1.1', countUnit: '10*9/L' },
    'inconsistent',
    'segmented',
    /^0 to 100000 \/uL together/,
  ],
  [
    'C10: 100,000 units of heparin in a lock',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 5000, volumeMl: 20, dialysisLine: true },
    'inconsistent',
    'volumeMl',
    /^at most 25000 units/,
  ],
  [
    'C10: a drop more than 25,000 units',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 5000, volumeMl: '5.001' },
    'inconsistent',
    'volumeMl',
  ],
  [
    'C10: a treatment dose in a lock',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 100, volumeMl: '1.5', weightKg: 3 },
    'inconsistent',
    'concentrationUnitsPerMl',
    /^less than 50 units\/kg.*treatment dose$/,
  ],
  [
    'C10: a treatment dose for a child born early',
    'heparin-per-lock',
    { concentrationUnitsPerMl: 10, volumeMl: '2.5', weightKg: 1, premature: true },
    'inconsistent',
    'concentrationUnitsPerMl',
    /^less than 25 units\/kg/,
  ],
  [
    'C10: a treatment dose among the locks of a day',
    'heparin-per-day',
    { lumens: [{ concentrationUnitsPerMl: 100, volumeMl: 2, timesPerDay: 1 }], weightKg: 3, ageDays: 30 },
    'inconsistent',
    'concentrationUnitsPerMl',
  ],
  [
    'C10: a lumen of 30 mL',
    'flush-volume',
    { catheterVolumeMl: 30, addOnVolumeMl: 30 },
    'out-of-range',
    'catheterVolumeMl',
    /^0\.001 to 10 mL$/,
  ],
  [
    'C6: a kit whose length is not known',
    'repair-plan',
    { ...repair, leastIntactCm: undefined },
    'missing',
    'leastIntactCm',
    /cm$/,
  ],
  [
    'the kit’s wait not known',
    'repair-times',
    { repairedAt: '2026-11-25T10:00' },
    'missing',
    'noInfusionHours',
  ],
  ['29 gauge', 'gauge-to-mm', { gauge: 29 }, 'not-a-choice', 'gauge', /^one of 14, .*, 28, 30$/],
  [
    'a needle colour of 15 gauge',
    'hub-colour',
    { kind: 'needle', gauge: 15 },
    'not-a-choice',
    'gauge',
    /^one of 14, 16, 18/,
  ],
  [
    'a cannula colour of 21 gauge',
    'hub-colour',
    { kind: 'cannula', gauge: 21 },
    'not-a-choice',
    'gauge',
    /^one of 14, 16, 17/,
  ],
  [
    'an infant without a weight',
    'heparin-per-day',
    { lumens: heparin, ageDays: 60 },
    'missing',
    'weightKg',
    /^the weight/,
  ],
  [
    'a limit without a weight',
    'heparin-per-day',
    { lumens: heparin, limitUnitsPerKgPerDay: 5 },
    'missing',
    'weightKg',
  ],
  [
    'two lumens of one name',
    'lumens-to-lock',
    {
      lumens: [
        { name: 'a', use: 'idle' },
        { name: 'a', use: 'idle' },
      ],
    },
    'inconsistent',
    'lumens',
    /^every lumen with a name of its own$/,
  ],
  [
    'more returned than drawn',
    'blood-loss',
    {
      draws: [
        { hoursAgo: 1, drawnMl: 1 },
        { hoursAgo: 1, drawnMl: 1, returnedMl: 2 },
      ],
    },
    'inconsistent',
    'draws[1].returnedMl',
    /^at most drawnMl, 1 mL$/,
  ],
  [
    'haemoglobin without its reference',
    'total-blood-volume',
    { weightKg: 3, ageDays: 1, haemoglobinGPerL: 100 },
    'inconsistent',
    'haemoglobinGPerL',
    /together$/,
  ],
  [
    'a reference without haemoglobin',
    'safe-draw-today',
    { ...draw, referenceHaemoglobinGPerL: 100 },
    'inconsistent',
    'haemoglobinGPerL',
  ],
  [
    'more lost in a day than in a month',
    'safe-draw-today',
    { ...draw, lostLast24HoursMl: 2, lostLast30DaysMl: 1 },
    'inconsistent',
    'lostLast30DaysMl',
    /^at least lostLast24HoursMl, 2 mL$/,
  ],
  [
    'no leucocytes',
    'absolute-neutrophil-count',
    { segmentedPercent: 1 },
    'inconsistent',
    'leucocytes',
    /^either leucocytesPerUl, or leucocytes together with leucocytesUnit$/,
  ],
  [
    'leucocytes without a unit',
    'absolute-neutrophil-count',
    { leucocytes: '0.8', segmentedPercent: 1 },
    'inconsistent',
    'leucocytes',
  ],
  [
    'a unit without leucocytes',
    'absolute-neutrophil-count',
    { leucocytesUnit: '/uL', segmentedPercent: 1 },
    'inconsistent',
    'leucocytes',
  ],
  [
    'leucocytes twice',
    'absolute-neutrophil-count',
    { leucocytesPerUl: 1, leucocytes: 1, leucocytesUnit: '/uL', segmentedPercent: 1 },
    'inconsistent',
    'leucocytes',
  ],
  [
    'a unit too many',
    'absolute-neutrophil-count',
    { leucocytesPerUl: 1, leucocytesUnit: '/uL', segmentedPercent: 1 },
    'inconsistent',
    'leucocytes',
  ],
  [
    'a count too many',
    'absolute-neutrophil-count',
    { leucocytesPerUl: 1, leucocytes: 1, segmentedPercent: 1 },
    'inconsistent',
    'leucocytes',
  ],
  [
    'no neutrophils',
    'absolute-neutrophil-count',
    { leucocytesPerUl: 1 },
    'inconsistent',
    'segmentedPercent',
    /^either segmentedPercent/,
  ],
  [
    'bands alone',
    'absolute-neutrophil-count',
    { leucocytesPerUl: 1, bandsPercent: 1 },
    'inconsistent',
    'segmentedPercent',
  ],
  [
    'bands on top of all neutrophils',
    'absolute-neutrophil-count',
    { leucocytesPerUl: 1, neutrophilsPercent: 1, bandsPercent: 1 },
    'inconsistent',
    'segmentedPercent',
  ],
  [
    'segmented on top of all neutrophils',
    'absolute-neutrophil-count',
    { leucocytesPerUl: 1, neutrophilsPercent: 1, segmentedPercent: 1 },
    'inconsistent',
    'segmentedPercent',
  ],
  [
    'more than 100 %',
    'absolute-neutrophil-count',
    { leucocytesPerUl: 1, segmentedPercent: 60, bandsPercent: '40.1' },
    'inconsistent',
    'bandsPercent',
    /at most 100 %$/,
  ],
  ['no count at all', 'neutrophil-trend', { counts: [] }, 'out-of-range', 'counts'],
  [
    'below 30 kg without the lumen',
    'thrombolytic-dose',
    { weightKg: '29.9' },
    'missing',
    'lumenVolumeMl',
    /needed below 30 kg$/,
  ],
  [
    'a third dose',
    'thrombolytic-dose',
    { weightKg: 30, dosesGiven: 2 },
    'inconsistent',
    'dosesGiven',
    /no data beyond two$/,
  ],
  [
    'a time before the instillation',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T09:59' },
    'inconsistent',
    'asOf',
    /10:00$/,
  ],
  [
    'an assessment too early',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T10:29', worksAt30Minutes: true },
    'inconsistent',
    'worksAt30Minutes',
    /^left out until 30 min have passed; now it is 29 min$/,
  ],
  [
    'a second assessment too early',
    'thrombolytic-clock',
    { ...clock, asOf: '2026-11-25T11:59', worksAt120Minutes: false },
    'inconsistent',
    'worksAt120Minutes',
  ],
  [
    'a date before the insertion',
    'dwell-days',
    { insertedOn: '2026-01-02', asOfDate: '2026-01-01' },
    'inconsistent',
    'asOfDate',
    /2026-01-02$/,
  ],
  [
    'a period that ends before it begins',
    'catheter-days',
    { lines: [], periodFrom: '2026-01-02', periodTo: '2026-01-01' },
    'inconsistent',
    'periodTo',
    /2026-01-02$/,
  ],
  [
    'a removal before the insertion',
    'catheter-days',
    { ...period, lines: [{ insertedOn: '2026-01-02', removedOn: '2026-01-01' }] },
    'inconsistent',
    'lines[0].removedOn',
    /^on or after 2026-01-02$/,
  ],
  [
    'more lost in 30 days than in 8 weeks',
    'safe-draw-today',
    { ...draw, lostLast30DaysMl: '5', eightWeekPercent: '10', lostLast8WeeksMl: '4.9' },
    'inconsistent',
    'lostLast8WeeksMl',
    /^at least lostLast30DaysMl, 5 mL$/,
  ],
  [
    'the share of 8 weeks without their loss',
    'safe-draw-today',
    { ...draw, eightWeekPercent: '10' },
    'inconsistent',
    'lostLast8WeeksMl',
    /together$/,
  ],
  [
    'the loss of 8 weeks without a share',
    'safe-draw-today',
    { ...draw, lostLast8WeeksMl: '10' },
    'inconsistent',
    'eightWeekPercent',
  ],
  [
    'an arm of 2.9 cm',
    'arm-circumference-change',
    { ...arm, nowCm: '2.9' },
    'out-of-range',
    'nowCm',
    /^3 to 90 cm$/,
  ],
  ['no day at all', 'device-by-duration', { ...device, expectedDays: 0 }, 'out-of-range', 'expectedDays'],
  [
    'a device by half days',
    'device-by-duration',
    { ...device, expectedDays: '5.5' },
    'not-a-number',
    'expectedDays',
  ],
  [
    'illness not said',
    'device-by-duration',
    { expectedDays: 5, peripherallyCompatible: true },
    'missing',
    'criticallyIll',
  ],
  [
    'no volume',
    'differential-time-to-positivity',
    { ...cultures, lineVolumeMl: undefined },
    'missing',
    'lineVolumeMl',
  ],
  [
    'half minutes',
    'differential-time-to-positivity',
    { ...cultures, minutesApart: '1.5' },
    'not-a-number',
    'minutesApart',
  ],
  [
    'no colony in the peripheral culture',
    'paired-culture-ratio',
    { ...colonies, peripheralColoniesPerMl: 0 },
    'out-of-range',
    'peripheralColoniesPerMl',
  ],
  [
    'a ratio that is not published',
    'paired-culture-ratio',
    { ...colonies, reading: '4' },
    'not-a-choice',
    'reading',
  ],
  [
    'no reading of the flow',
    'dialysis-flow-check',
    { sessions: [session(200)], afterFirstMeasures: true },
    'missing',
    'reading',
    /^one of below-200, below-250, allon-2018$/,
  ],
  ['no session', 'dialysis-flow-check', dialysis('below-200', []), 'out-of-range', 'sessions'],
  [
    'a flow above 800',
    'dialysis-flow-check',
    dialysis('below-200', [session(800.1)]),
    'out-of-range',
    'sessions[0].meanFlowMlPerMin',
  ],
];

describe('refused', () => {
  const cases = refusals.map((refusal) => [refusal[0], refusal[1], refusal] as const);
  it.each(cases)('%s (%s)', (_edge, name, [, , input, code, at, accepted]) => {
    const attempt = (): unknown => (calculators[name] as CatalogEntry).run(input);
    expect(attempt).toThrow(face.CalculatorError);
    try {
      attempt();
    } catch (error) {
      const { code: got, input: where, accepted: range } = error as face.CalculatorError;
      expect([got, where]).toEqual([code, at]);
      expect(range).toMatch(accepted ?? /./);
    }
  });
});

// Inputs that bring up every caution and line of working that the edges above leave out.
const wording: readonly (readonly [CalculatorName, Fields])[] = [
  ['flush-volume', { catheterVolumeMl: 10, addOnVolumeMl: '0.1', ageDays: 6575 }],
  ['flush-volume', { catheterVolumeMl: 10, ageDays: 6574 }],
  ['lock-volume', { catheterVolumeMl: '4.2' }],
  ['lock-volume', { catheterVolumeMl: '4.16' }],
  ['discard-volume', { deadSpaceMl: '5.01', sampleFor: 'general' }],
  ['discard-volume', { deadSpaceMl: '5', sampleFor: 'general' }],
  ['neutropenia-grade', { neutrophilsPerUl: 50000 }],
  ['neutropenia-grade', { neutrophilsPerUl: 50001 }],
  ['neutrophil-trend', counts(['2026-11-25', '50001'], ['2026-11-26', '60000'])],
  ['neutrophils-from-absolute-counts', { segmented: 90, bands: 10, countUnit: '10*9/L' }],
  ['absolute-neutrophil-count', { leucocytesPerUl: 99999, neutrophilsPercent: 95 }],
  ['heparin-per-lock', { concentrationUnitsPerMl: 101, volumeMl: 1, dialysisLine: true }],
  ['heparin-per-lock', { concentrationUnitsPerMl: 10, volumeMl: '3.1', weightKg: 3, ageDays: 3 }],
  ['heparin-per-day', { lumens: [...heparin, ...heparin], weightKg: '1.9', ageDays: 3 }],
  [
    'push-pull-cycle',
    {
      deadSpaceMl: '0.2',
      weightKg: '1.2',
      ageDays: 16,
      mlPerKg: 90,
      haemoglobinGPerL: 60,
      referenceHaemoglobinGPerL: 120,
    },
  ],
  ['heparin-per-day', { lumens: heparin, weightKg: 20, limitUnitsPerKgPerDay: 2 }],
  ['heparin-per-day', { lumens: heparin, ageDays: 400 }],
  ['heparin-per-day', { lumens: heparin, weightKg: '2.9' }],
  ['hub-colour', { kind: 'cannula', gauge: 18 }],
  ['gauge-to-mm', { gauge: 20 }],
  ['mm-to-gauge', { outerDiameterMm: '0.3112' }],
  ['mm-to-gauge', { outerDiameterMm: '0.3' }],
  ['mm-to-french', { outerDiameterMm: '1.35' }],
  ['poiseuille-flow', { ...flow, pressure: 5 }],
  ['poiseuille-flow', { ...flow, pressure: 50, densityKgPerL: '1.05' }],
  ['lock-volume', { catheterVolumeMl: '0.6', addOnVolumeMl: '0.3' }],
  ['lock-volume', { catheterVolumeMl: '0.6', addOnVolumeMl: '0.3', overfill: 'catheter' }],
  ['lock-volume-by-device', { device: 'picc' }],
  ['minimum-syringe-size', {}],
  ['heparin-per-lock', { concentrationUnitsPerMl: 10, volumeMl: 3 }],
  ['heparin-per-lock', { concentrationUnitsPerMl: '99.9', volumeMl: 3, ageDays: 29 }],
  ['heparin-per-lock', { concentrationUnitsPerMl: 100, volumeMl: 3 }],
  ['heparin-per-lock', { concentrationUnitsPerMl: 100, volumeMl: 3, ageDays: 28 }],
  ['heparin-per-lock', { concentrationUnitsPerMl: 100, volumeMl: 3, ageDays: 364 }],
  ['heparin-per-lock', { concentrationUnitsPerMl: 100, volumeMl: 3, ageDays: 365 }],
  ['heparin-per-lock', { concentrationUnitsPerMl: 1000, volumeMl: '1.8', ageDays: 20000 }],
  [
    'heparin-per-day',
    {
      lumens: [
        { name: 'white', concentrationUnitsPerMl: 10, volumeMl: 3, timesPerDay: 1 },
        { concentrationUnitsPerMl: 100, volumeMl: 3, timesPerDay: 1 },
        { name: 'red', concentrationUnitsPerMl: 50, volumeMl: 3, timesPerDay: 1 },
      ],
      weightKg: 8,
      ageDays: 300,
    },
  ],
  [
    'lumens-to-lock',
    {
      lumens: [
        { name: 'a', use: 'idle', valved: true },
        { name: 'b', use: 'idle', valved: true, hoursSinceLock: 3, bloodInside: true },
        { name: 'c', use: 'blocked', valved: true },
        { name: 'd', use: 'blocked' },
      ],
    },
  ],
  ['discard-volume', { deadSpaceMl: '0.51', sampleFor: 'coagulation' }],
  ['thrombolytic-dose', { weightKg: '9.9', lumenVolumeMl: '2.01' }],
  ['thrombolytic-dose', { weightKg: '10', lumenVolumeMl: '2' }],
  ['thrombolytic-dose', { weightKg: '40', dosesGiven: 1, hypersensitivity: true }],
  ['thrombolytic-dose', { weightKg: '6', ageDays: 116, lumenVolumeMl: '0.3' }],
  ['thrombolytic-dose', { weightKg: '9.9', ageDays: 116, lumenVolumeMl: '0.3' }],
  [
    'thrombolytic-dose',
    {
      weightKg: '40',
      dosesGiven: 1,
      riskWeighed: true,
      hypersensitivity: false,
      activeBleeding: true,
      procedureWithin48Hours: true,
      bleedingTendency: true,
      embolicRisk: true,
      infectionInCatheter: true,
    },
  ],
  [
    'thrombolytic-dose',
    {
      weightKg: '40',
      hypersensitivity: false,
      activeBleeding: false,
      procedureWithin48Hours: false,
      bleedingTendency: false,
      embolicRisk: false,
      infectionInCatheter: false,
    },
  ],
  ['precipitate-agent', { precipitate: 'calcium-phosphate', lumenVolumeMl: '1.01' }],
  ['precipitate-agent', { precipitate: 'basic-drug', lumenVolumeMl: '1.01', polyurethane: true }],
  ['precipitate-agent', { precipitate: 'fat', lumenVolumeMl: '1.01', polyurethane: true }],
  ['precipitate-agent', { precipitate: 'fat', lumenVolumeMl: '1.01', polyurethane: false }],
  ['occlusion-degree', { flushes: 'not-at-all', bloodReturn: 'none' }],
  ['repair-plan', { ...repair, newSegmentLengthCm: '10' }],
  ['repair-times', { repairedAt: '2026-11-25T10:00', noInfusionHours: 2 }],
  ['segment-air-volume', { innerDiameterMm: '1.3', lengthCm: '9.5' }],
  ...[
    'skin-chlorhexidine-alcohol',
    'skin-alcohol',
    'skin-before-insertion-chlorhexidine-alcohol',
    'skin-before-insertion-povidone-iodine',
    'connector-alcohol',
    'connector-povidone-iodine',
  ].map((on) => ['antiseptic-contact-time', { on }] as const),
  ['phlebitis-grade', { ...signs, erythema: true }],
  ['phlebitis-grade', { ...signs, pain: true, erythema: true }],
  ['phlebitis-grade', { ...signs, pain: true, erythema: true, streak: true }],
  ['phlebitis-grade', { ...signs, pain: true, erythema: true, streak: true, cordLengthCm: '2' }],
  ['phlebitis-grade', { ...signs, pain: true, oedema: true, streak: true, cordLengthCm: '3' }],
  [
    'phlebitis-grade',
    { ...signs, pain: true, oedema: true, streak: true, cordLengthCm: '2', purulence: true },
  ],
  [
    'phlebitis-grade',
    { pain: true, erythema: true, oedema: true, streak: true, cordLengthCm: '3', purulence: true },
  ],
  ['vip-score', { ...vip, pain: true, erythema: true, swelling: true, palpableCord: true }],
  ['vip-score', { ...vip, pain: true, erythema: true, palpableCord: true }],
  ['line-infection', { signsReachCm: '3', exudateGrowsOrganism: true, infectedPocketFluid: false }],
  ...[
    'adult-tunneled-lock-volume',
    'clamp-during-last',
    'discard-before-sample',
    'saline-after-sample',
    'cap-needle-longest',
    'granulocytes-for-daily-dressing',
    'skin-scrub-before-insertion',
    'repair-least-intact-length',
    'repair-cleansing',
    'repair-adhesive',
    'repair-external-length-wanted',
    'repair-external-length-most',
    'repair-no-infusion',
    'repair-splint',
  ].map((of) => ['practice-value', { of }] as const),
  ...[
    '/uL',
    '{cells}/uL',
    'cells/uL',
    '/mm3',
    '/cmm',
    '10*6/L',
    '10^6/L',
    'x10^6/L',
    '10*3/uL',
    '10^3/uL',
    'x10*3/uL',
    'x10^3/uL',
    '10*9/L',
    '10^9/L',
    'x10^9/L',
    'K/uL',
    'k/mm3',
    'thou/mcL',
    'G/L',
    'G/l',
    'lakhs/cu.mm',
  ].map((countUnit) => ['cell-count-per-ul', { count: '1.5', countUnit }] as const),
  ['arm-circumference-change', { ...arm, nowCm: '29' }],
  ['arm-circumference-change', { ...arm, nowCm: '29', oedema: false }],
  ['dialysis-flow-check', dialysis('allon-2018', [session(350, { hours: 4 }), session(350, { hours: 4 })])],
  [
    'dialysis-flow-check',
    dialysis('allon-2018', [session(350, { ktV: '1.2' }), session(350, { ktV: '1.2' })]),
  ],
  ['differential-time-to-positivity', { ...cultures, minutesApart: 11 }],
  ['paired-culture-ratio', { ...colonies, lineColoniesPerMl: '40' }],
  ['dialysis-flow-check', dialysis('below-200', [session(260)], false)],
  ['dialysis-flow-check', dialysis('below-250', [session(260), session(200)], false)],
  ['dialysis-flow-check', dialysis('allon-2018', [session(360)], false)],
];

/** A sentence is kept as the numbers in it: its words are recorded in wordings/, which no mutant meets. */
function numbersOf(value: unknown): unknown {
  if (typeof value === 'string')
    return value.includes(' ') ? [...value.matchAll(/\d+(?:\.\d+)?/g)].join(' ') : value;
  if (Array.isArray(value)) return value.map(numbersOf);
  if (typeof value !== 'object' || value === null) return value;
  const kept = Object.entries(value).filter(([key]) => !['about', 'accepted', 'source'].includes(key));
  return Object.fromEntries(kept.map(([key, each]) => [key, key === 'unit' ? each : numbersOf(each)]));
}

describe('the whole answer, every number as recorded', () => {
  const names = Object.keys(calculators) as CalculatorName[];
  const inputsOf = (name: CalculatorName): Fields[] => [
    ...edges.filter(([, each]) => each === name).map(([, , input]) => input),
    ...wording.filter(([each]) => each === name).map(([, input]) => input),
  ];
  // A line for the card and one for each answer, without the cautions that the card has already.
  const recorded = (name: CalculatorName): string => {
    const { run, group, unit, cautions, refuses, inputs } = calculators[name] as CatalogEntry;
    const answers = inputsOf(name).map((input) => {
      const result = run(input);
      return { input, result: { ...result, cautions: result.cautions.slice(0, -cautions.length) } };
    });
    return [{ group, unit, cautions, refuses, inputs }, ...answers]
      .map((line) => `${JSON.stringify(numbersOf(line))}\n`)
      .join('');
  };

  it.each(names)('%s', async (name) => {
    await expect(recorded(name)).toMatchFileSnapshot(`recorded/${name}.ndjson`);
  });
  it.each(names)('%s names a source, and its standing cautions last', (name) => {
    const { run, cautions } = calculators[name] as CatalogEntry;
    for (const input of inputsOf(name)) {
      const result = run(input);
      expect(result.source).not.toBe('');
      expect(result.cautions.slice(-cautions.length)).toEqual(cautions);
    }
  });
  it('stands in at least one answer of each calculator', () => {
    for (const name of names) expect(inputsOf(name), name).not.toEqual([]);
  });
});

describe('the catalog', () => {
  const camel = (name: string): string =>
    name.replace(/-([a-z0-9])/g, (_, letter: string) => letter.toUpperCase());

  it.each(Object.entries(calculators))('has %s as the public face has it', (name, entry) => {
    expect(entry.name).toBe(name);
    expect(entry.run).toBe((face as Fields)[camel(name)]);
    for (const text of [entry.title, entry.formula, entry.source]) expect(text).toMatch(/./);
    expect(entry.cautions.length).toBeGreaterThan(0);
    expect(entry.refuses).toBeInstanceOf(Array);
    expect(typeof entry.unit).toBe('string');
    for (const { about } of Object.values(entry.inputs)) expect(about).toMatch(/./);
  });
  it('leaves no public calculator out', () => {
    const functions = Object.entries(face).filter(([name]) => /^[a-z]/.test(name));
    expect(functions.map(([name]) => name).sort()).toEqual(Object.keys(calculators).map(camel).sort());
  });
});
