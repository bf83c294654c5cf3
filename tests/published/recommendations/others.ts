import assert from 'node:assert/strict';
import { calculates } from './calculates.js';
import { kept, later, recommendationsOf } from './model.js';
import { isDueAfter, isNotAskedFor, itemOf, policyOf, says } from './situation.js';
import { said } from '../../said.js';

const set = 'administration-set-change';
const transparent = { dressing: 'transparent-dressing' };
const surveillance = later('surveillance: the unit’s figures');
const device = (
  expectedDays: number,
  peripherallyCompatible: boolean,
  criticallyIll: boolean,
  expected: Readonly<Record<string, string>>,
) => calculates('device-by-duration', { expectedDays, peripherallyCompatible, criticallyIll }, expected);
const draw = { weightKg: '10', ageDays: 300, mlPerKg: '80', lostLast24HoursMl: '0', lostLast30DaysMl: '0' };

export const others = [
  ...recommendationsOf('epic3 2014', 'from memory', [
    [
      'Transparent dressing every 7 days',
      kept('dressing-change-transparent', () =>
        isDueAfter(168, 'dressing-change', 'dressing-change-transparent', transparent),
      ),
    ],
    [
      'Gauze only for a time',
      kept('dressing-change-gauze, its work', () =>
        says(/until it has stopped, then a transparent dressing again/, 'dressing-change', {
          dressing: 'gauze-dressing',
        }),
      ),
    ],
    [
      '2 % chlorhexidine in 70 % alcohol, left to dry',
      kept('calculator antiseptic-contact-time', () =>
        calculates('antiseptic-contact-time', { on: 'skin-chlorhexidine-alcohol' }, { drySeconds: 30 }),
      ),
    ],
    [
      'Scrub of 15 seconds',
      kept('calculator antiseptic-contact-time', () =>
        calculates(
          'antiseptic-contact-time',
          { on: 'connector-chlorhexidine-alcohol' },
          { scrubSeconds: 15 },
        ),
      ),
    ],
    [
      'Continuous set not more often than every 96 hours',
      kept(set, () =>
        assert.deepEqual(itemOf(set, { done: set, infusate: 'other' })?.rule.minimumSpacing, {
          value: 96,
          unit: 'h',
        }),
      ),
    ],
    [
      'Set for blood: end of the episode or 12 hours',
      kept('layer choice-blood-set-epic3-12-hours', () =>
        isDueAfter(12, set, `${set}-blood`, {
          infusate: 'blood',
          layers: ['choice-blood-set-epic3-12-hours'],
        }),
      ),
    ],
    [
      'Set for fat emulsion 24 hours',
      kept('layer choice-fat-emulsion-set-cdc-24-hours', () =>
        isDueAfter(24, set, `${set}-fat-emulsion`, {
          infusate: 'fat-emulsion',
          layers: ['choice-fat-emulsion-set-cdc-24-hours'],
        }),
      ),
    ],
    [
      'Flush with saline',
      kept('flush-picc-tunneled, its work', () => says(/^sodium chloride 0\.9 % for flushing$/, 'flush')),
    ],
    [
      'No routine replacement',
      kept('no rule of the base asks for a removal by the calendar', () => {
        const found = policyOf().rules.filter(
          ({ activity, begins }) => activity === 'removal' && begins.kind === 'interval',
        );
        assert.deepEqual(found, []);
        isNotAskedFor('removal');
      }),
    ],
  ]),
  ...recommendationsOf('Howie 2011 and tables of blood volume', 'seen', [
    [
      'Blood volume by age and weight',
      kept('calculator total-blood-volume', () => {
        calculates('total-blood-volume', { weightKg: '1', ageDays: 5, premature: true }, { value: '90' });
        calculates('total-blood-volume', { weightKg: '10', ageDays: 300, mlPerKg: '80' }, { value: '800' });
      }),
    ],
    [
      'Share in 24 h',
      kept('calculator safe-draw-today', () => {
        calculates('safe-draw-today', { ...draw, dailyPercent: '3', monthlyPercent: '10' }, { value: '24' });
        calculates('safe-draw-today', { ...draw, dailyPercent: '5', monthlyPercent: '10' }, { value: '40' });
      }),
    ],
    [
      '10 % in 8 weeks',
      kept(['calculator blood-loss', 'calculator safe-draw-today'], () => {
        const draws = [
          { hoursAgo: 56 * 24, drawnMl: '50' },
          { hoursAgo: 56 * 24 + 1, drawnMl: '50' },
          { hoursAgo: 1, drawnMl: '25', returnedMl: '5' },
        ];
        calculates('blood-loss', { draws }, { last8WeeksMl: '70' });
        const limits = { ...draw, dailyPercent: '5', monthlyPercent: '10', eightWeekPercent: '10' };
        calculates(
          'safe-draw-today',
          { ...limits, lostLast8WeeksMl: '70' },
          { value: '10', limitedBy: '8-weeks' },
        );
        calculates('safe-draw-today', { ...limits, lostLast8WeeksMl: '80' }, { value: '0' });
      }),
    ],
    [
      'Corrected for anaemia',
      kept('calculator total-blood-volume', () =>
        calculates(
          'total-blood-volume',
          {
            weightKg: '10',
            ageDays: 300,
            mlPerKg: '80',
            haemoglobinGPerL: '60',
            referenceHaemoglobinGPerL: '120',
          },
          { value: '400' },
        ),
      ),
    ],
  ]),
  ...recommendationsOf('Goossens 2015', 'seen', [
    [
      'Lock volumes by device, table 4',
      kept('calculator lock-volume-by-device', () => {
        calculates('lock-volume-by-device', { device: 'picc' }, { value: '1.5', internalMl: '0.6' });
        calculates(
          'lock-volume-by-device',
          { device: 'implanted-port' },
          { value: '2.5', internalMl: '1.3' },
        );
      }),
    ],
    [
      'Internal volume and 20 %, add-ons extra',
      kept('calculator lock-volume', () =>
        calculates(
          'lock-volume',
          { catheterVolumeMl: '1', addOnVolumeMl: '0.5', overfill: 'catheter' },
          { value: '1.7' },
        ),
      ),
    ],
  ]),
  ...recommendationsOf('Paediatric and neonatal heparin sheets', 'seen', [
    [
      'Up to 60 days or below 3 kg: 2 units/mL, 2 mL, 4 units',
      kept('calculator heparin-per-lock, layer infant', () => {
        calculates(
          'heparin-per-lock',
          { concentrationUnitsPerMl: '2', volumeMl: '2', ageDays: 60 },
          { value: '4' },
        );
        says(/Heparin up to an age of 60 days or below 3 kg: 2 units\/mL, 2 mL for each lumen/, 'lock', {
          born: '2026-11-01',
          layers: ['infant'],
        });
      }),
    ],
    [
      'At most 40 units/kg in 24 h',
      kept('calculator heparin-per-day', () => {
        const lumens = (timesPerDay: string) => [
          { concentrationUnitsPerMl: '2', volumeMl: '2', timesPerDay },
        ];
        const child = { weightKg: '1', ageDays: 20 };
        calculates('heparin-per-day', { ...child, lumens: lumens('10') }, { limitCheck: 'within' });
        calculates('heparin-per-day', { ...child, lumens: lumens('11') }, { limitCheck: 'above' });
      }),
    ],
    [
      'Neonate: idle lumen every 72 hours',
      kept('layer infant', () =>
        isDueAfter(72, 'lock', 'lock-neonate', { born: '2026-11-01', layers: ['infant'] }),
      ),
    ],
  ]),
  ...recommendationsOf('CTCAE v5.0', 'from memory', [
    [
      'Grades of a low neutrophil count',
      kept('calculator neutropenia-grade', () => {
        for (const [count, grade] of [
          ['499', 4],
          ['500', 3],
          ['999', 3],
          ['1000', 2],
          ['1499', 2],
          ['1500', 1],
        ] as const)
          calculates('neutropenia-grade', { neutrophilsPerUl: count }, { value: grade });
      }),
    ],
  ]),
  ...recommendationsOf('MAGIC 2015', 'seen', [
    [
      'Up to 5 days: no PICC for peripherally compatible infusions',
      kept('calculator device-by-duration', () => {
        device(5, true, false, { value: 'no-picc', picc: 'inappropriate' });
        device(5, false, false, { value: 'no-rule', picc: 'no-rule' });
      }),
    ],
    [
      '6 to 14 days: rather a midline',
      kept('calculator device-by-duration', () => {
        for (const days of [6, 14])
          device(days, true, false, {
            value: 'midline-or-ultrasound-guided-peripheral',
            picc: 'not-preferred',
          });
        device(15, true, false, { value: 'no-rule' });
      }),
    ],
    [
      'Critical illness up to 14 days: rather a non-tunneled catheter',
      kept('calculator device-by-duration', () => {
        device(14, false, true, { value: 'nontunneled-cvc' });
        device(15, false, true, { value: 'no-rule' });
      }),
    ],
  ]),
  ...recommendationsOf('ISO, French and gauge sizes, Poiseuille', 'seen', [
    [
      'French = 3 × mm',
      kept('calculator french-to-mm', () =>
        calculates('french-to-mm', { french: '14.5' }, { value: '4.833' }),
      ),
    ],
    [
      'Gauge to mm',
      kept('calculator gauge-to-mm', () =>
        calculates('gauge-to-mm', { gauge: '18' }, { value: '1.270', innerDiameterMm: '0.838' }),
      ),
    ],
    [
      'Colours of hubs',
      kept('calculator hub-colour', () => {
        calculates('hub-colour', { kind: 'needle', gauge: 20 }, { value: 'yellow' });
        calculates('hub-colour', { kind: 'cannula', gauge: 20 }, { value: 'pink' });
      }),
      'from memory',
    ],
    [
      'Volume of a lumen',
      kept('calculator lumen-volume', () =>
        calculates('lumen-volume', { innerDiameterMm: '1.0', lengthCm: '90' }, { value: '0.707' }),
      ),
    ],
    [
      'Poiseuille flow: 1 m of water at 20 °C through 0.6 mm × 50 cm, 1.0 mm and 1.5 mm × 20 cm',
      kept('calculator poiseuille-flow', () => {
        const water = {
          pressure: '9.789',
          pressureUnit: 'kPa',
          viscosityMPaS: '1.002',
          densityKgPerL: '0.9982',
        };
        calculates(
          'poiseuille-flow',
          { ...water, innerDiameterMm: '0.6', lengthCm: '50' },
          { value: '3.7', laminar: true },
        );
        calculates(
          'poiseuille-flow',
          { ...water, innerDiameterMm: '1.0', lengthCm: '20' },
          { value: '71.9', laminar: true },
        );
        calculates(
          'poiseuille-flow',
          { ...water, innerDiameterMm: '1.5', lengthCm: '20' },
          { laminar: false },
        );
      }),
    ],
  ]),
  ...recommendationsOf('ESPEN and European guidance on locks', 'reported', [
    [
      'Long-term lines: saline rather than heparin',
      kept('layer choice-lock-saline', () =>
        says(/^sodium chloride 0\.9 %, unless/, 'lock', { layers: ['choice-lock-saline'] }),
      ),
    ],
    [
      'Heparin only if the maker says so',
      kept('lock-picc-tunneled, its work', () =>
        says(/^Heparin lock only if the device’s instructions ask for it/, 'lock'),
      ),
    ],
  ]),
  ...recommendationsOf('Control charts', 'reported', [
    ['u-chart', surveillance],
    ['g-chart', surveillance],
  ]),
  ...recommendationsOf(
    'Home care sheets: when to call',
    'seen',
    (
      [
        ['Fever', /^Call for: fever of 38\.0 °C \(100\.4 °F\) or more\.$/],
        ['Chills after a flush', /^Call for: chills after a flush\.$/],
        ['Redness or drainage', /^Call for: redness or drainage/],
        ['Rash', /^Call for: a rash\.$/],
        ['Swelling of arm or neck', /^Call for: swelling of the arm or the neck\.$/],
        ['Cuff seen', /^Call for: a cuff that shows\.$/],
        ['Hard flush: do not force', /^Call for: a flush that goes hard \(do not force it\)\.$/],
        ['Break: clamp', /^Call for: a break or a leak \(clamp/],
        ['Wet dressing', /^Call for: a wet dressing\.$/],
      ] as const
    ).map(([text, words]) => [
      text,
      kept('layer home-care', () => {
        const item = itemOf('teaching', { setting: 'home', layers: ['home-care'] });
        assert.ok(
          said((item?.work ?? []).map(({ text: line }) => line)).some((line) => words.test(line)),
          'the sign is not taught',
        );
        isNotAskedFor('teaching', { setting: 'inpatient', layers: ['home-care'] });
      }),
    ]),
  ),
];
