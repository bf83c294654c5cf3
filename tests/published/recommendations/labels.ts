import { calculates, doesNotWarn, refuses, warns } from './calculates.js';
import { kept, recommendationsOf } from './model.js';
import { isDueAfter, says } from './situation.js';

const dose = 'calculator thrombolytic-dose';
const clock = 'calculator thrombolytic-clock';
const at = (asOf: string, more: object = {}) => ({ instilledAt: '2026-11-25T10:00', asOf, ...more });
const heparin = (concentrationUnitsPerMl: string, ageDays: number) => ({
  concentrationUnitsPerMl,
  volumeMl: '2',
  ageDays,
});

export const labels = [
  ...recommendationsOf('Alteplase for blocked catheters: US label, UK SmPC', 'seen', [
    [
      '30 kg and more: 2 mg in 2 mL',
      kept(dose, () => calculates('thrombolytic-dose', { weightKg: '30' }, { value: '2', volumeMl: '2' })),
    ],
    [
      'Below 30 kg: 110 % of the lumen’s volume; 1.0 mL gives 1.1 mg',
      kept(dose, () =>
        calculates(
          'thrombolytic-dose',
          { weightKg: '29.9', lumenVolumeMl: '1.0' },
          { value: '1.1', volumeMl: '1.1' },
        ),
      ),
    ],
    [
      'At most 2 mg',
      kept(dose, () =>
        calculates('thrombolytic-dose', { weightKg: '20', lumenVolumeMl: '2.5' }, { value: '2' }),
      ),
    ],
    [
      'Assess after 30 min',
      kept(clock, () => {
        calculates('thrombolytic-clock', at('2026-11-25T10:29'), { value: 'wait' });
        calculates('thrombolytic-clock', at('2026-11-25T10:30'), {
          value: 'assess-now',
          firstAssessmentAt: '2026-11-25T10:30',
        });
      }),
    ],
    [
      'Assess again after 120 min',
      kept(clock, () => {
        const failed = { worksAt30Minutes: false };
        calculates('thrombolytic-clock', at('2026-11-25T11:59', failed), { value: 'wait' });
        calculates('thrombolytic-clock', at('2026-11-25T12:00', failed), {
          value: 'assess-now',
          secondAssessmentAt: '2026-11-25T12:00',
        });
      }),
    ],
    [
      'A second, equal dose may follow',
      kept(clock, () =>
        calculates(
          'thrombolytic-clock',
          at('2026-11-25T12:00', { worksAt30Minutes: false, worksAt120Minutes: false }),
          {
            value: 'second-dose-may-follow',
          },
        ),
      ),
    ],
    [
      'At most 4 mg, two doses',
      kept([dose, clock], () => {
        calculates(
          'thrombolytic-dose',
          { weightKg: '70', dosesGiven: 1 },
          { value: '2', secondDoseAllowed: false },
        );
        refuses('thrombolytic-dose', { weightKg: '70', dosesGiven: 2 });
      }),
    ],
    [
      'Once open, withdraw 4 to 5 mL from 10 kg, 3 mL below',
      kept(dose, () => {
        calculates(
          'thrombolytic-dose',
          { weightKg: '10', lumenVolumeMl: '1' },
          { withdrawLeastMl: '4', withdrawMostMl: '5' },
        );
        calculates(
          'thrombolytic-dose',
          { weightKg: '9.9', lumenVolumeMl: '1' },
          { withdrawLeastMl: '3', withdrawMostMl: '3' },
        );
      }),
    ],
    [
      'Reconstituted, used within 8 h',
      kept(dose, () => warns('thrombolytic-dose', { weightKg: '70' }, /within 8 h/)),
    ],
    [
      'Contraindication and cautions, surgery and puncture within 48 h',
      kept(dose, () => {
        calculates(
          'thrombolytic-dose',
          { weightKg: '70', hypersensitivity: true },
          { contraindicated: true },
        );
        calculates('thrombolytic-dose', { weightKg: '70' }, { contraindicated: false });
        warns('thrombolytic-dose', { weightKg: '70', procedureWithin48Hours: true }, /within 48 h/);
        doesNotWarn('thrombolytic-dose', { weightKg: '70', procedureWithin48Hours: false }, /within 48 h/);
      }),
    ],
  ]),
  ...recommendationsOf('Heparin lock flush: US labels', 'seen', [
    [
      'Fill the entire device',
      kept('calculator lock-volume, rule lock-picc-tunneled', () => {
        calculates('lock-volume', { catheterVolumeMl: '1' }, { value: '1.2' });
        says(/^Lock with 1\.2 mL$/, 'lock', { primingVolumeMl: 1 });
      }),
    ],
    [
      'Lock again after every use',
      kept('lock-after-infusion, lock-after-blood-sampling', () => {
        const used = (done: string) => ({ done, lockedBefore: true }) as const;
        isDueAfter(0, 'lock', 'lock-after-infusion', used('infusion-stop'));
        isDueAfter(0, 'lock', 'lock-after-blood-sampling', used('blood-sampling'));
      }),
    ],
    [
      '100 units/mL not in neonates and infants',
      kept('calculator heparin-per-lock', () => {
        warns('heparin-per-lock', heparin('100', 364), /NOT FOR THIS AGE/);
        doesNotWarn('heparin-per-lock', heparin('100', 365), /NOT FOR THIS AGE/);
        doesNotWarn('heparin-per-lock', heparin('10', 100), /NOT FOR THIS AGE/);
      }),
    ],
    [
      'aPTT before the first lock',
      kept('layer choice-lock-heparin', () =>
        says(/aPTT before the first/, 'lock', { layers: ['choice-lock-heparin'] }),
      ),
    ],
    [
      'Clear and discard before a sample that heparin would affect',
      kept('calculator heparin-per-lock', () =>
        warns('heparin-per-lock', heparin('10', 9000), /[Dd]iscard heparin before a sample/),
      ),
    ],
    [
      'Saline before and after an incompatible drug',
      kept('calculator heparin-per-lock', () =>
        warns('heparin-per-lock', heparin('10', 9000), /saline before and after an incompatible drug/),
      ),
    ],
  ]),
];
