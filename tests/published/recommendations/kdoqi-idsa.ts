import assert from 'node:assert/strict';
import { calculates, refuses } from './calculates.js';
import { kept, recommendationsOf } from './model.js';
import { isDueAfter, itemOf, says } from './situation.js';
import { said } from '../../said.js';

const dialysis = { type: 'tunneled-dialysis-catheter' };
const transparent = { dressing: 'transparent-dressing' };
const signs = (reach: string) => ({
  signsReachCm: reach,
  exudateGrowsOrganism: false,
  infectedPocketFluid: false,
});
const exit = () => calculates('line-infection', signs('2'), { value: 'exit-site' });
const tunnel = () => calculates('line-infection', signs('2.1'), { value: 'tunnel' });
const timeDifference = () => {
  const pair = {
    lineMinutes: 480,
    lineVolumeMl: '10',
    peripheralVolumeMl: '10',
    minutesApart: 5,
    sameOrganism: true,
  };
  const name = 'differential-time-to-positivity';
  calculates(name, { ...pair, peripheralMinutes: 600 }, { value: 120, supportsLineInfection: 'yes' });
  calculates(name, { ...pair, peripheralMinutes: 599 }, { value: 119, supportsLineInfection: 'no' });
};
const threefold = () => {
  const pair = { peripheralColoniesPerMl: '10', sameOrganism: true };
  const name = 'paired-culture-ratio';
  calculates(name, { ...pair, lineColoniesPerMl: '30' }, { value: '3', supportsLineInfection: 'yes' });
  calculates(name, { ...pair, lineColoniesPerMl: '29' }, { supportsLineInfection: 'no' });
};

export const kdoqiAndIdsa = [
  ...recommendationsOf('KDOQI 2019 and papers on dialysis catheters', 'from memory', [
    [
      'Dressing at least weekly',
      kept('dressing-change-dialysis', () =>
        isDueAfter(168, 'dressing-change', 'dressing-change-dialysis', { ...dialysis, ...transparent }),
      ),
    ],
    ['Exit-site infection within 2 cm', kept('calculator line-infection', exit), 'seen'],
    ['Tunnel infection beyond 2 cm', kept('calculator line-infection', tunnel), 'seen'],
    [
      'Paired cultures: 2 h, threefold',
      kept(['calculator differential-time-to-positivity', 'calculator paired-culture-ratio'], () => {
        timeDifference();
        threefold();
      }),
      'reported',
    ],
    [
      'Dysfunction by blood flow',
      kept('calculator dialysis-flow-check', () => {
        const name = 'dialysis-flow-check';
        const sessions = (...flows: string[]) =>
          flows.map((meanFlowMlPerMin) => ({ meanFlowMlPerMin, recurrentPressureAlarms: false }));
        const jasn = { reading: 'below-200', afterFirstMeasures: true };
        calculates(
          name,
          { ...jasn, sessions: sessions('199') },
          { value: 'dysfunction', reading: 'below-200' },
        );
        calculates(name, { ...jasn, sessions: sessions('200') }, { value: 'works', reading: 'below-200' });
        const trial = { reading: 'allon-2018', afterFirstMeasures: true };
        calculates(
          name,
          { ...trial, sessions: sessions('301', '301') },
          { value: 'works', reading: 'allon-2018' },
        );
        calculates(
          name,
          { ...trial, sessions: sessions('301', '300') },
          { value: 'dysfunction', reading: 'allon-2018' },
        );
        // The sources disagree: which one was taken is never left to a default.
        refuses(name, { sessions: sessions('199'), afterFirstMeasures: true });
      }),
      'seen',
    ],
    [
      'Lock with heparin 1000 units/mL or citrate below 5 %',
      kept(['layer choice-dialysis-lock-heparin-1000', 'layer choice-dialysis-lock-citrate-4'], () => {
        says(/^heparin 1000 units\/mL/, 'lock', {
          ...dialysis,
          layers: ['choice-dialysis-lock-heparin-1000'],
        });
        says(/^citrate 4 %/, 'lock', { ...dialysis, layers: ['choice-dialysis-lock-citrate-4'] });
      }),
    ],
    [
      'Fill volume as printed on the limb',
      kept('lock-dialysis, its work', () =>
        says(/volume printed on the limb comes before any computed one/, 'lock', dialysis),
      ),
    ],
    [
      'A thrombolytic once a week may be used',
      kept('layer choice-dialysis-lock-weekly-enzyme', () => {
        const item = itemOf('lock', {
          ...dialysis,
          done: 'lock',
          layers: ['choice-dialysis-lock-weekly-enzyme'],
        });
        assert.equal(item?.rule.id, 'lock-dialysis-weekly-enzyme');
        assert.ok(said(item.work.map(({ text }) => text)).includes('thrombolytic lock as prescribed'));
      }),
      'seen',
    ],
    [
      'Dwell of a thrombolytic: 30 min, then longer',
      kept('calculator thrombolytic-clock', () =>
        calculates(
          'thrombolytic-clock',
          { instilledAt: '2026-11-25T10:00', asOf: '2026-11-25T10:05' },
          { firstAssessmentAt: '2026-11-25T10:30', secondAssessmentAt: '2026-11-25T12:00' },
        ),
      ),
      'reported',
    ],
    [
      'Access reviewed at least quarterly',
      kept('access-review-dialysis', () => {
        const item = itemOf('necessity-review', {
          ...dialysis,
          done: 'necessity-review',
          setting: 'ambulatory',
        });
        assert.equal(item?.rule.id, 'access-review-dialysis');
        assert.equal(item?.dueBy.slice(0, 10), '2027-02-20');
      }),
      'seen',
    ],
  ]),
  ...recommendationsOf('IDSA 2009', 'seen', [
    ['Exit-site infection: within 2 cm', kept('calculator line-infection', exit)],
    ['Tunnel infection: more than 2 cm along the tract', kept('calculator line-infection', tunnel)],
    [
      'Pocket infection: infected fluid in the pocket',
      kept('calculator line-infection', () =>
        calculates(
          'line-infection',
          { exudateGrowsOrganism: false, infectedPocketFluid: true },
          { value: 'pocket' },
        ),
      ),
    ],
    [
      'Differential time to positivity of 120 min',
      kept('calculator differential-time-to-positivity', timeDifference),
      'reported',
    ],
    ['Quantitative ratio of 3 : 1', kept('calculator paired-culture-ratio', threefold), 'reported'],
    [
      'Tip culture only where infection is suspected (A-II)',
      kept('removal-after-insertion-without-asepsis, its work', () =>
        assert.ok(
          said(
            itemOf('removal', { new: true, found: ['aseptic-insertion', false] })?.work.map(
              ({ text }) => text,
            ) ?? [],
          ).some((text) => /tip for culture only where a line infection is suspected/.test(text)),
        ),
      ),
    ],
  ]),
];
