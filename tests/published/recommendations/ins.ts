import assert from 'node:assert/strict';
import { calculates, warns } from './calculates.js';
import { kept, notComputable, recommendationsOf } from './model.js';
import { isDueAfter, isDueAtOnce, isNotAskedFor, itemOf, says } from './situation.js';

const set = 'administration-set-change';
const connector = 'needleless-connector-change';
const day = 24;
const scales = { pain: false, erythema: false, oedema: false, streak: false, purulence: false };
const leak = {
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

export const ins = recommendationsOf('INS Standards 2016, 2021, 2024', 'from memory', [
  [
    'Central line and midline looked at at least daily',
    kept('site-assessment', () => {
      isDueAfter(day, 'site-assessment', 'site-assessment');
      isDueAfter(day, 'site-assessment', 'site-assessment', { type: 'midline' });
    }),
  ],
  [
    'Short peripheral cannula every 4 hours',
    notComputable('short peripheral cannulas are none of the seven line types'),
  ],
  [
    'Critical illness: every 1 to 2 hours',
    kept('layer intensive-care', () =>
      isDueAfter(2, 'site-assessment', 'site-assessment-intensive-care', {
        setting: 'intensive-care',
        layers: ['intensive-care'],
      }),
    ),
  ],
  [
    'Neonates: every hour',
    kept('layer infant', () =>
      isDueAfter(1, 'site-assessment', 'site-assessment-neonate', { born: '2026-11-01', layers: ['infant'] }),
    ),
  ],
  [
    'Transparent dressing at least every 7 days',
    kept('dressing-change-transparent', () =>
      isDueAfter(7 * day, 'dressing-change', 'dressing-change-transparent', {
        dressing: 'transparent-dressing',
      }),
    ),
  ],
  [
    'Gauze at least every 2 days',
    kept('dressing-change-gauze', () =>
      isDueAfter(2 * day, 'dressing-change', 'dressing-change-gauze', {
        dressing: 'gauze-dressing',
        type: 'midline',
      }),
    ),
  ],
  [
    'Gauze under a transparent dressing counts as gauze',
    kept('code of the reader: record/events.ts dressingOf', () => {
      const both = { dressing: 'transparent-dressing', alsoDressing: 'gauze-dressing' };
      isDueAfter(2 * day, 'dressing-change', 'dressing-change-gauze', both);
    }),
  ],
  [
    'Neonates: dressings as clinically needed',
    kept('layer infant', () => {
      const neonate = { born: '2026-11-01', layers: ['infant'] as const };
      for (const dressing of ['gauze-dressing', 'transparent-dressing'])
        isNotAskedFor('dressing-change', { ...neonate, dressing, done: 'dressing-change' });
      isDueAtOnce('dressing-change', ['dressing-condition', 'soiled'], {
        ...neonate,
        dressing: 'gauze-dressing',
      });
    }),
  ],
  [
    'Securement device changed with the dressing',
    kept('securement-change', () =>
      isDueAfter(7 * day, 'securement-change', 'securement-change', { securement: 'adhesive-device' }),
    ),
  ],
  [
    'External length measured at each dressing change',
    kept('external-length-measurement', () =>
      isDueAfter(7 * day, 'external-length-measurement', 'external-length-measurement'),
    ),
  ],
  [
    'Arm circumference, 3 cm more suggests thrombosis',
    kept('calculator arm-circumference-change', () => {
      const arm = { atInsertionCm: '28', oedema: true };
      const name = 'arm-circumference-change';
      calculates(name, { ...arm, nowCm: '31' }, { value: '3', suggestsThrombosis: true });
      calculates(name, { ...arm, nowCm: '30.9' }, { suggestsThrombosis: false });
      warns(name, { ...arm, nowCm: '28' }, /10 cm above the antecubital fossa/);
    }),
  ],
  [
    'Connector not more often than every 96 hours',
    kept('needleless-connector-change', () =>
      assert.deepEqual(itemOf(connector, { done: connector })?.rule.minimumSpacing, { value: 96, unit: 'h' }),
    ),
  ],
  [
    'Connector at once with blood, debris or contamination',
    kept('needleless-connector-change-at-once', () => {
      for (const value of ['blood-residue', 'debris', 'contaminated'])
        isDueAtOnce(connector, ['connector-condition', value]);
    }),
  ],
  [
    'Scrub 5 to 15 seconds',
    kept('calculator antiseptic-contact-time', () =>
      calculates('antiseptic-contact-time', { on: 'connector-alcohol' }, { scrubSeconds: 15, drySeconds: 5 }),
    ),
  ],
  [
    'Continuous set not more often than every 96 hours, at least every 7 days',
    kept(set, () => {
      isDueAfter(7 * day, set, set, { infusate: 'other' });
      assert.deepEqual(itemOf(set, { done: set, infusate: 'other' })?.rule.minimumSpacing, {
        value: 96,
        unit: 'h',
      });
    }),
    'reported',
  ],
  [
    'Set in intermittent use every 24 hours',
    kept(`${set}-intermittent`, () => isDueAfter(24, set, `${set}-intermittent`, { intermittent: true })),
    'reported',
  ],
  [
    'Set for parenteral nutrition every 24 hours',
    kept(`${set}-parenteral-nutrition`, () =>
      isDueAfter(24, set, `${set}-parenteral-nutrition`, { infusate: 'parenteral-nutrition' }),
    ),
    'reported',
  ],
  [
    'Set for fat emulsion alone every 12 hours',
    kept(`${set}-fat-emulsion`, () =>
      isDueAfter(12, set, `${set}-fat-emulsion`, { infusate: 'fat-emulsion' }),
    ),
    'reported',
  ],
  [
    'Set for blood with each unit or every 4 hours',
    kept(`${set}-blood`, () => isDueAfter(4, set, `${set}-blood`, { infusate: 'blood' })),
    'reported',
  ],
  [
    'Set for propofol every 6 to 12 hours',
    kept(`${set}-propofol`, () => isDueAfter(12, set, `${set}-propofol`, { infusate: 'propofol' })),
    'reported',
  ],
  [
    'Transducer and its set every 96 hours',
    kept(`${set}-pressure-monitoring`, () =>
      isDueAfter(96, set, `${set}-pressure-monitoring`, { infusate: 'pressure-monitoring' }),
    ),
  ],
  [
    'Flush at least twice the volume of catheter and add-ons',
    kept(['calculator flush-volume', 'flush-picc-tunneled, its work'], () => {
      calculates('flush-volume', { catheterVolumeMl: '0.6', addOnVolumeMl: '0.2' }, { value: '1.6' });
      says(/^Flush with at least 2 mL$|^Flush with at least 2\.0 mL$/, 'flush', { primingVolumeMl: 1 });
    }),
  ],
  [
    'Lock: volume of the lumen and 20 %',
    kept('calculator lock-volume', () =>
      calculates('lock-volume', { catheterVolumeMl: '0.6', addOnVolumeMl: '0.2' }, { value: '0.96' }),
    ),
    'seen',
  ],
  [
    'Barrel of 10 mL or more to test patency',
    kept('calculator minimum-syringe-size', () => calculates('minimum-syringe-size', {}, { value: '10' })),
  ],
  [
    'Saline with a preservative: at most 30 mL in 24 h, none in neonates',
    kept('calculator flush-volume', () =>
      warns('flush-volume', { catheterVolumeMl: '1' }, /at most 30 mL in 24 h in adults, none in neonates/),
    ),
  ],
  [
    'Port at rest up to every 3 months',
    // From 20 November to 20 February.
    kept('layer choice-port-3-months', () => {
      for (const activity of ['flush', 'lock'])
        isDueAfter(92 * day, activity, `${activity}-port-not-accessed`, {
          type: 'implanted-port',
          needleOut: true,
          layers: ['choice-port-3-months'],
        });
    }),
  ],
  [
    'Port needle at least every 7 days',
    kept('access-needle-change', () =>
      isDueAfter(7 * day, 'access-needle-change', 'access-needle-change', { type: 'implanted-port' }),
    ),
  ],
  [
    'Phlebitis scale 0 to 4, and VIP score',
    kept(['calculator phlebitis-grade', 'calculator vip-score'], () => {
      calculates('phlebitis-grade', scales, { value: 0 });
      calculates('phlebitis-grade', { ...scales, erythema: true }, { value: 1 });
      calculates('phlebitis-grade', { ...scales, pain: true, erythema: true }, { value: 2 });
      const palpable = { ...scales, pain: true, erythema: true, streak: true, cordLengthCm: '2.54' };
      calculates('phlebitis-grade', palpable, { value: 3 });
      calculates('phlebitis-grade', { ...palpable, cordLengthCm: '2.6' }, { value: 4 });
      const vip = { pain: true, erythema: true, swelling: true, palpableCord: true, pyrexia: true };
      calculates('vip-score', vip, { value: 5 });
      calculates('vip-score', { ...vip, pyrexia: false }, { value: 4 });
    }),
    'seen',
  ],
  [
    'Infiltration scale 0 to 4',
    kept('calculator infiltration-grade', () => {
      calculates('infiltration-grade', leak, { value: 0 });
      calculates(
        'infiltration-grade',
        { ...leak, oedemaCm: '2.5', blanched: true, cool: true },
        { value: 1 },
      );
      calculates(
        'infiltration-grade',
        { ...leak, oedemaCm: '2.54', blanched: true, cool: true },
        { value: 2 },
      );
      calculates(
        'infiltration-grade',
        { ...leak, oedemaCm: '15.3', blanched: true, cool: true },
        { value: 3 },
      );
      calculates('infiltration-grade', { ...leak, oedemaCm: '1', infusate: 'vesicant' }, { value: 4 });
    }),
  ],
  [
    'Catheter takes up at most 45 % of the vein',
    kept('calculator catheter-to-vein-ratio', () => {
      calculates(
        'catheter-to-vein-ratio',
        { catheterFrench: '4', veinDiameterMm: '3.0' },
        { value: '44', withinLimit: true },
      );
      calculates(
        'catheter-to-vein-ratio',
        { catheterFrench: '4', veinDiameterMm: '2.9' },
        { withinLimit: false },
      );
    }),
    'seen',
  ],
]);
