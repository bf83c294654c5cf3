import assert from 'node:assert/strict';
import { calculates } from './calculates.js';
import { kept, notComputable, recommendationsOf } from './model.js';
import { isDueAfter, isDueAtOnce, isNotAskedFor, itemOf, opensAfter, policyOf, says } from './situation.js';

const gauze = { dressing: 'gauze-dressing' };
const transparent = { dressing: 'transparent-dressing' };
const chlorhexidine = { dressing: 'chlorhexidine-dressing' };
const set = 'administration-set-change';
const day = 24;

/** That no rule of the base asks to take a line out or put one in by the calendar. */
function noRoutineReplacement(): void {
  const found = policyOf().rules.filter(
    ({ activity, begins }) =>
      (activity === 'insertion' || activity === 'removal') &&
      ['interval', 'fixed-times'].includes(begins.kind),
  );
  assert.deepEqual(
    found.map(({ id }) => id),
    [],
  );
  for (const type of ['nontunneled-cvc', 'tunneled-cvc', 'picc', 'midline', 'tunneled-dialysis-catheter'])
    isNotAskedFor('removal', { type });
}
const routine = () => kept('no rule of the base asks for a removal by the calendar', noRoutineReplacement);

export const cdcAndShea = [
  ...recommendationsOf('CDC-HICPAC 2011 and the update of 2017', 'from memory', [
    [
      'Gauze every 2 days (II)',
      kept('dressing-change-gauze', () =>
        isDueAfter(2 * day, 'dressing-change', 'dressing-change-gauze', {
          ...gauze,
          type: 'nontunneled-cvc',
        }),
      ),
      'reported',
    ],
    [
      'Transparent dressing at least every 7 days (IB)',
      kept('dressing-change-transparent', () =>
        isDueAfter(7 * day, 'dressing-change', 'dressing-change-transparent', {
          ...transparent,
          type: 'nontunneled-cvc',
        }),
      ),
      'reported',
    ],
    [
      'Tunneled or implanted: not more than once a week until healed (II)',
      kept('layer choice-transparent-dressing-tunneled-weekly', () =>
        opensAfter(7 * day, 'dressing-change', {
          ...transparent,
          type: 'tunneled-cvc',
          layers: ['choice-transparent-dressing-tunneled-weekly'],
        }),
      ),
    ],
    [
      'Healed tunneled site: whether a dressing is needed is unresolved, left to policy',
      kept('no rule of the base asks for a dressing of a site that is left open', () =>
        isNotAskedFor('dressing-change', {
          done: 'dressing-change',
          dressing: 'no-dressing',
          type: 'tunneled-cvc',
        }),
      ),
      'reported',
    ],
    [
      'Damp, loosened or soiled: replace (IB)',
      kept('dressing-change-at-once', () => {
        for (const value of ['damp', 'loosened', 'soiled'])
          isDueAtOnce('dressing-change', ['dressing-condition', value], transparent);
      }),
      'seen',
    ],
    [
      'Sweating, bleeding, oozing: gauze until resolved (II)',
      kept('dressing-change-gauze, its work', () =>
        says(/sweating, bleeding or oozing: gauze/, 'dressing-change', gauze),
      ),
    ],
    [
      'Chlorhexidine dressing from 18 years, short-term non-tunneled (IA)',
      kept('layer choice-chlorhexidine-dressing-cdc-18-years', () =>
        says(/from 18 years, on short-term non-tunneled/, 'dressing-change', {
          ...chlorhexidine,
          layers: ['choice-chlorhexidine-dressing-cdc-18-years'],
        }),
      ),
      'seen',
    ],
    [
      'Chlorhexidine dressing not in premature neonates (IC)',
      kept('dressing-change-chlorhexidine, its work', () =>
        says(/not recommended in premature neonates/, 'dressing-change', chlorhexidine),
      ),
      'seen',
    ],
    [
      'Chlorhexidine dressing below 18 years: unresolved',
      kept('dressing-change-chlorhexidine, its work', () =>
        says(/below 18 years the 2017 CDC update gives no recommendation/, 'dressing-change', chlorhexidine),
      ),
      'seen',
    ],
    [
      'Continuous set: not more often than every 96 hours, at least every 7 days (IA)',
      kept(set, () => {
        isDueAfter(7 * day, set, set, { infusate: 'other' });
        assert.deepEqual(itemOf(set, { infusate: 'other', done: set })?.rule.minimumSpacing, {
          value: 96,
          unit: 'h',
        });
      }),
      'reported',
    ],
    [
      'Set for blood or fat emulsion within 24 hours (IB)',
      kept(['layer choice-blood-set-cdc-24-hours', 'layer choice-fat-emulsion-set-cdc-24-hours'], () => {
        isDueAfter(24, set, `${set}-blood`, { infusate: 'blood', layers: ['choice-blood-set-cdc-24-hours'] });
        isDueAfter(24, set, `${set}-fat-emulsion`, {
          infusate: 'fat-emulsion',
          layers: ['choice-fat-emulsion-set-cdc-24-hours'],
        });
      }),
      'reported',
    ],
    [
      'Set for propofol every 6 or 12 hours (IA)',
      kept(`${set}-propofol`, () => isDueAfter(12, set, `${set}-propofol`, { infusate: 'propofol' })),
      'reported',
    ],
    [
      'Set in intermittent use: unresolved',
      kept('layer choice-intermittent-set-cdc-unresolved', () =>
        isDueAfter(7 * day, set, set, {
          intermittent: true,
          layers: ['choice-intermittent-set-cdc-unresolved'],
        }),
      ),
      'reported',
    ],
    [
      'Needleless parts at least as often as the set (II)',
      kept('needleless-connector-change', () =>
        isDueAfter(7 * day, 'needleless-connector-change', 'needleless-connector-change'),
      ),
    ],
    [
      'Connector not more often than every 72 hours (II)',
      kept('layer choice-connector-cdc-72-hours', () => {
        const item = itemOf('needleless-connector-change', {
          done: 'needleless-connector-change',
          layers: ['choice-connector-cdc-72-hours'],
        });
        assert.deepEqual(item?.rule.minimumSpacing, { value: 72, unit: 'h' });
      }),
    ],
    [
      'Scrub the access port before access',
      kept(['flush-picc-tunneled, its work', 'calculator antiseptic-contact-time'], () => {
        says(/Scrub the connector and let it dry before access/, 'flush');
        calculates('antiseptic-contact-time', { on: 'connector-alcohol' }, { scrubSeconds: 15 });
      }),
    ],
    [
      'Dialysis exit site: ointment after insertion and at each session, if the material allows it (IB)',
      kept(['dressing-change-dialysis, its work', 'layer dialysis'], () => {
        const line = { ...transparent, type: 'tunneled-dialysis-catheter' };
        says(
          /ointment at the exit site after insertion and at the end of each dialysis session/,
          'dressing-change',
          line,
        );
        assert.equal(
          itemOf('dressing-change', { ...line, done: 'dressing-change', layers: ['dialysis'] })?.rule.id,
          'dressing-change-dialysis-session',
        );
      }),
      'seen',
    ],
    [
      'Look at and feel the site regularly; dressing off where it is tender',
      kept('site-assessment', () => {
        isDueAfter(day, 'site-assessment', 'site-assessment');
        says(/take it off where the site is tender/, 'site-assessment');
      }),
    ],
    [
      'Line put in without asepsis replaced within 48 hours (IB)',
      kept('removal-after-insertion-without-asepsis', () => {
        const item = itemOf('removal', { new: true, found: ['aseptic-insertion', false] });
        assert.equal(item?.dueBy.slice(0, 16), '2026-11-22T10:00');
        isNotAskedFor('removal', { new: true, found: ['aseptic-insertion', true] });
      }),
    ],
    ['No routine replacement of central lines', routine(), 'reported'],
    ['Midline replaced only where indicated', routine(), 'seen'],
    [
      'Remove promptly what is no longer needed (IA)',
      kept('necessity-review', () =>
        isDueAfter(day, 'necessity-review', 'necessity-review', { setting: 'inpatient' }),
      ),
    ],
    [
      'Antimicrobial lock: long-term line with several infections despite good technique (II)',
      notComputable('asks whether technique was good all along, which no record says'),
      'seen',
    ],
    [
      'Impregnated catheter: more than 5 days expected and the rate not falling despite the bundle (IA)',
      notComputable(
        'asks how long a line is expected to be needed and whether the whole strategy has failed: a judgement before the insertion',
      ),
      'seen',
    ],
  ]),
  ...recommendationsOf('SHEA/IDSA/APIC 2022', 'from memory', [
    [
      'Transparent dressing every 7 days, gauze every 2',
      kept(['dressing-change-transparent', 'dressing-change-gauze'], () => {
        isDueAfter(7 * day, 'dressing-change', 'dressing-change-transparent', transparent);
        isDueAfter(2 * day, 'dressing-change', 'dressing-change-gauze', gauze);
      }),
    ],
    [
      'Neonatal intensive care: less often where dislodging is the greater risk',
      kept('layer infant', () => {
        const neonate = { ...transparent, layers: ['infant'] as const, done: 'dressing-change' };
        isNotAskedFor('dressing-change', { ...neonate, born: '2026-11-01' });
        isDueAfter(7 * day, 'dressing-change', 'dressing-change-transparent', {
          ...neonate,
          born: '2026-10-01',
        });
      }),
    ],
    [
      'Chlorhexidine dressing above 2 months',
      kept('layer choice-chlorhexidine-dressing-shea-2-months', () =>
        says(/above 2 months of age/, 'dressing-change', {
          ...chlorhexidine,
          layers: ['choice-chlorhexidine-dressing-shea-2-months'],
        }),
      ),
      'reported',
    ],
    [
      'Chlorhexidine bath in intensive care above 2 months',
      kept('antiseptic-bath', () => {
        isDueAfter(day, 'bath', 'antiseptic-bath', { setting: 'intensive-care' });
        isNotAskedFor('bath', { setting: 'inpatient' });
        isNotAskedFor('bath', { setting: 'intensive-care', born: '2026-10-01' });
      }),
      'reported',
    ],
    ['Sets up to 7 days', kept(set, () => isDueAfter(7 * day, set, set, { infusate: 'other' })), 'reported'],
    [
      'Disinfect hubs before access',
      kept('connector-work, flush-work', () => {
        says(/Scrub the connector and let it dry before access/, 'flush');
        says(/Scrub the hub and let it dry/, 'needleless-connector-change');
      }),
    ],
    [
      'Remove what is not needed, asked daily',
      kept('necessity-review', () =>
        isDueAfter(day, 'necessity-review', 'necessity-review', { setting: 'inpatient' }),
      ),
      'seen',
    ],
    [
      'Thrombolytic lock of dialysis catheters once a week (additional)',
      kept('layer choice-dialysis-lock-weekly-enzyme', () => {
        const item = itemOf('lock', {
          type: 'tunneled-dialysis-catheter',
          done: 'lock',
          layers: ['choice-dialysis-lock-weekly-enzyme'],
        });
        // Locked on Friday the 20th: the lock of Monday is the one with the thrombolytic.
        assert.equal(item?.rule.id, 'lock-dialysis-weekly-enzyme');
        assert.equal(item?.dueBy.slice(0, 16), '2026-11-23T08:00');
      }),
      'seen',
    ],
    [
      'Antimicrobial lock (additional)',
      notComputable(
        'for patients with recurrent infections despite everything else: a judgement of the clinician',
      ),
      'seen',
    ],
    [
      'Antiseptic caps on connectors (additional)',
      notComputable('a choice of product, with no value or interval'),
      'seen',
    ],
    ['No routine replacement', routine(), 'seen'],
  ]),
];
