import { base, calculator, layer, none, reading, type Choice } from './choice-model.js';

const newest = 'The newest graded guideline.';
const shortest = 'Of blood and fat the shortest of what sources say, unless the policy names another.';
const set = 'administration-set-change';

/** Disagreements 1 to 12: what is scheduled, and what it is done with. */
export const scheduledChoices: readonly Choice[] = [
  {
    number: 1,
    name: 'continuous-set',
    about: 'How long an administration set in continuous use stays, without blood, fat or propofol',
    taken: 'at least every 7 days, not more often than every 96 hours',
    why: newest,
    readings: [
      reading('96 hours to 7 days', 'CDC 2011 (IA)', 'reported', base(set)),
      reading('up to 7 days', 'SHEA/IDSA/APIC 2022', 'reported', base(set)),
      reading(
        'not more often than every 96 hours, no greatest interval',
        'epic3 2014',
        'from memory',
        none(
          'Its spacing is that of the base. Without a greatest interval nothing would ever be due, so the 7 days stay.',
        ),
      ),
      reading(
        'not longer than 96 hours',
        'SHEA/IDSA 2008 (A-II, superseded); French consensus 2020',
        'seen',
        layer('choice-set-96-hours'),
      ),
      reading(
        'not more often than every 72 hours',
        'CDC 2002 (superseded)',
        'seen',
        layer('choice-set-cdc-2002-72-hours'),
      ),
    ],
  },
  {
    number: 2,
    name: 'intermittent-set',
    about: 'How long a set in intermittent use stays',
    taken: '24 hours',
    why: 'The only interval that is published, and the protective one.',
    readings: [
      reading('24 hours', 'INS', 'from memory', base(`${set}-intermittent`)),
      reading('unresolved', 'CDC 2011', 'reported', layer('choice-intermittent-set-cdc-unresolved')),
    ],
  },
  {
    number: 3,
    name: 'fat-emulsion-set',
    about: 'How long a set for fat emulsion stays',
    taken: '12 hours for fat alone, 24 hours in a mixture',
    why: shortest,
    readings: [
      reading(
        '12 hours for fat alone, 24 hours in a mixture',
        'INS',
        'reported',
        base(`${set}-fat-emulsion`, `${set}-nutrition-with-fat`),
        { hours: 12 },
      ),
      reading('24 hours', 'CDC 2011 (IB)', 'reported', layer('choice-fat-emulsion-set-cdc-24-hours'), {
        hours: 24,
      }),
      reading('24 hours', 'epic3 2014', 'from memory', layer('choice-fat-emulsion-set-cdc-24-hours'), {
        hours: 24,
      }),
    ],
  },
  {
    number: 4,
    name: 'blood-set',
    about: 'How long a set for blood stays',
    taken: 'each unit or 4 hours',
    why: shortest,
    readings: [
      reading('each unit or 4 hours', 'INS', 'reported', base(`${set}-blood`), { hours: 4 }),
      reading(
        'end of the episode or 12 hours',
        'Australian Lifeblood; epic3 2014 (from memory)',
        'seen',
        layer('choice-blood-set-epic3-12-hours'),
        { hours: 12 },
      ),
      reading('24 hours', 'CDC 2011 (IB)', 'reported', layer('choice-blood-set-cdc-24-hours'), { hours: 24 }),
    ],
  },
  {
    number: 5,
    name: 'parenteral-nutrition-set',
    about: 'How long a set for parenteral nutrition without fat stays',
    taken: '24 hours',
    why: 'The newer chart, and the protective one.',
    readings: [
      reading('24 hours', 'INS, the newer chart', 'reported', base(`${set}-parenteral-nutrition`)),
      reading(
        '96 hours',
        'INS, an older chart',
        'reported',
        layer('choice-parenteral-nutrition-set-96-hours'),
      ),
      reading(
        'no rule of its own',
        'CDC 2011',
        'reported',
        layer('choice-parenteral-nutrition-set-cdc-none'),
      ),
    ],
  },
  {
    number: 6,
    name: 'transparent-dressing',
    about: 'How long a transparent dressing stays',
    taken: '7 days',
    why: newest,
    readings: [
      reading(
        '7 days',
        'CDC 2011 (IB), SHEA 2022, INS 2021',
        'from memory',
        base('dressing-change-transparent'),
      ),
      reading(
        '5 to 7 days',
        'SHEA/IDSA 2008 (A-I); INS 2016',
        'seen',
        layer('choice-transparent-dressing-5-days'),
      ),
      reading(
        'tunneled or implanted: not more than once a week until healed',
        'CDC 2011 (II)',
        'from memory',
        layer('choice-transparent-dressing-tunneled-weekly'),
      ),
      reading('neonates as clinically needed', 'INS 2021', 'from memory', layer('infant')),
    ],
  },
  {
    number: 7,
    name: 'connector',
    about: 'How often a needleless connector is changed',
    taken: 'every 7 days, not more often than every 96 hours',
    why: 'The newer least spacing; the greatest interval is that of the set.',
    readings: [
      reading(
        'not more often than every 96 hours',
        'INS',
        'from memory',
        base('needleless-connector-change'),
      ),
      reading('weekly', 'NHS Ayrshire & Arran G004', 'seen', base('needleless-connector-change')),
      reading(
        'not more often than every 72 hours',
        'CDC 2011 (II)',
        'from memory',
        layer('choice-connector-cdc-72-hours'),
      ),
    ],
  },
  {
    number: 8,
    name: 'chlorhexidine-dressing',
    about: 'Who gets a chlorhexidine dressing',
    taken: 'whoever puts the dressing on decides; its cautions name what CDC 2017 says',
    why: 'Which dressing is put on is not scheduled; the interval of one that is on is the same in all sources.',
    readings: [
      reading(
        'from 18 years, unresolved below, not in premature neonates',
        'CDC 2017 (IA, unresolved, IC)',
        'seen',
        layer('choice-chlorhexidine-dressing-cdc-18-years'),
      ),
      reading(
        'above 2 months',
        'SHEA/IDSA/APIC 2022',
        'seen',
        layer('choice-chlorhexidine-dressing-shea-2-months'),
      ),
    ],
  },
  {
    number: 9,
    name: 'connector-scrub',
    about: 'How long a connector is scrubbed',
    taken: '15 seconds',
    why: 'The longest least time, and the upper end of INS: it satisfies the others that give a bound.',
    readings: [
      reading('at least 5 seconds', 'SHEA 2014, 2022', 'from memory', none('15 seconds satisfy it.')),
      reading(
        '5 to 15 seconds',
        'INS 2021',
        'from memory',
        calculator('antiseptic-contact-time', ['on', 'connector-alcohol']),
      ),
      reading(
        'at least 15 seconds',
        'epic3 2014',
        'from memory',
        calculator('antiseptic-contact-time', ['on', 'connector-chlorhexidine-alcohol']),
      ),
      reading(
        '5 to 60 seconds across studies, best time not established',
        'Moureau & Flynn 2015',
        'reported',
        none('No one time follows from it; the calculator says so in its cautions.'),
      ),
    ],
  },
  {
    number: 10,
    name: 'lock-solution',
    about: 'Saline or heparin in an idle lumen',
    taken: 'what is prescribed',
    why: 'The device’s own instructions come first, and they differ.',
    readings: [
      reading('saline', 'ESPEN 2020, 2023', 'reported', layer('choice-lock-saline')),
      reading(
        'heparin where the device’s instructions require it',
        'instructions of devices',
        'reported',
        layer('choice-lock-heparin'),
      ),
      reading(
        'a heparin lock acts up to 4 hours',
        'US heparin lock labels',
        'seen',
        none(
          'A statement on the effect of the drug, not an interval of care: no policy that was seen renews an idle lock every 4 hours.',
        ),
      ),
    ],
  },
  {
    number: 11,
    name: 'port-at-rest',
    about: 'How often a port that is not in use is flushed and locked',
    taken: '4 weeks',
    why: 'The label comes before studies.',
    readings: [
      reading(
        '4 weeks',
        'labels, as reported by Diaz 2017',
        'seen',
        base('flush-port-not-accessed', 'lock-port-not-accessed'),
      ),
      reading('8 weeks', 'Wu 2020, meta-analysis', 'reported', layer('choice-port-8-weeks')),
      reading('3 months', 'Diaz 2017; INS 2021 (from memory)', 'seen', layer('choice-port-3-months')),
      reading(
        'occlusion relative risk 1.50 with 2 to 3 months',
        'meta-analysis 2024 (pubmed 39601969)',
        'seen',
        base('flush-port-not-accessed', 'lock-port-not-accessed'),
      ),
    ],
  },
  {
    number: 12,
    name: 'dialysis-lock',
    about: 'What a dialysis catheter is locked with',
    taken: 'what is prescribed',
    why: 'A dose is prescribed; the base only says when.',
    readings: [
      reading(
        'heparin 1000 units/mL',
        'KDOQI 2019',
        'from memory',
        layer('choice-dialysis-lock-heparin-1000'),
      ),
      reading('citrate 4 %, below 5 %', 'KDOQI 2019', 'from memory', layer('choice-dialysis-lock-citrate-4')),
      reading('heparin 5000 units/mL', 'PreCLOT trial', 'seen', layer('choice-dialysis-lock-heparin-5000')),
      reading(
        'a thrombolytic once a week, heparin twice',
        'PreCLOT trial; SHEA 2022, additional',
        'seen',
        layer('choice-dialysis-lock-weekly-enzyme'),
      ),
    ],
  },
];
