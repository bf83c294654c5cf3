import { calculator, later, layer, none, reading, type Choice } from './choice-model.js';

const surveillance = 'surveillance of infections and rates of the unit';
const trouble = 'first steps in trouble with a line';

/** Disagreements 13 to 23: what is worked out or counted. */
export const computedChoices: readonly Choice[] = [
  {
    number: 13,
    name: 'discard',
    about: 'How much is discarded before a blood sample',
    taken: 'none: the sample has to be named',
    why: 'It depends on the test.',
    readings: [
      reading('2 × dead space', 'RNAO', 'seen', calculator('discard-volume', ['sampleFor', 'general'])),
      reading(
        '6 × dead space for coagulation',
        'RNAO; CLSI H21-A5 (from memory)',
        'seen',
        calculator('discard-volume', ['sampleFor', 'coagulation']),
      ),
      reading(
        '3 or 5 mL',
        'RNAO; JIPMER 2021',
        'seen',
        none('A fixed volume says nothing of the line’s own; the calculator names it in its cautions.'),
      ),
      reading('5 to 10 mL', 'Royal Marsden Manual', 'seen', none('The same; it is named in the cautions.')),
      reading(
        'push and pull, nothing discarded',
        'Royal Marsden Manual',
        'seen',
        none('Nothing is to be worked out.'),
      ),
    ],
  },
  {
    number: 14,
    name: 'child-draw',
    about: 'How much blood of a child may be drawn',
    taken: 'none: the share has to be given',
    why: 'A default would change a clinical answer.',
    readings: [
      reading(
        '3 % in 24 h',
        'a paediatric guidance page, ideally',
        'seen',
        calculator('safe-draw-today', ['dailyPercent', '3']),
      ),
      reading('3.8 % in 24 h', 'PMC4890332', 'seen', calculator('safe-draw-today', ['dailyPercent', '3.8'])),
      reading(
        '5 % in 24 h',
        'Howie 2011, upper end',
        'seen',
        calculator('safe-draw-today', ['dailyPercent', '5']),
      ),
      reading(
        '10 % in a month',
        'a paediatric guidance page',
        'seen',
        calculator('safe-draw-today', ['monthlyPercent', '10']),
      ),
      reading(
        '10 % in 8 weeks',
        'Howie 2011',
        'seen',
        calculator('safe-draw-today', ['eightWeekPercent', '10']),
      ),
    ],
  },
  {
    number: 15,
    name: 'dialysis-dysfunction',
    about: 'The flow below which a dialysis catheter does not work',
    taken: 'none: the reading has to be named, and the answer names it',
    why: 'A default would change a clinical answer. The flow of a session is not read from the record.',
    readings: [
      reading(
        'below 200 mL/min',
        'JASN review, table 3',
        'seen',
        calculator('dialysis-flow-check', ['reading', 'below-200']),
      ),
      reading(
        'below 250 mL/min',
        'in use',
        'reported',
        calculator('dialysis-flow-check', ['reading', 'below-250']),
      ),
      reading(
        'not above 300 mL/min on 2 sessions',
        'Allon 2018',
        'seen',
        calculator('dialysis-flow-check', ['reading', 'allon-2018']),
      ),
    ],
  },
  {
    number: 16,
    name: 'paired-cultures',
    about: 'The ratio of paired quantitative cultures that points to the line',
    taken: '3 : 1, unless the other is named; the answer names it',
    why: 'The figure of the guidelines, and the more protective one. Cultures are not read from the record.',
    readings: [
      reading(
        '3 : 1 and more',
        'IDSA 2009; KDOQI 2019',
        'reported',
        calculator('paired-culture-ratio', ['reading', 'at-least-3-to-1']),
      ),
      reading(
        'above 5 : 1',
        'an older figure on a secondary page',
        'reported',
        calculator('paired-culture-ratio', ['reading', 'above-5-to-1']),
      ),
    ],
  },
  {
    number: 17,
    name: 'catheter-to-vein-ratio',
    about: 'The highest share of the vein’s diameter',
    taken: '45 %',
    why: 'The largest study, and INS.',
    readings: [
      reading(
        '45 %',
        'Sharp 2021; INS (from memory)',
        'seen',
        calculator('catheter-to-vein-ratio', ['limitPercent', '45']),
      ),
      reading(
        '36.5 %',
        'a study of 164 patients',
        'seen',
        calculator('catheter-to-vein-ratio', ['limitPercent', '36.5']),
      ),
      reading(
        '33 %',
        'Sharp 2021, not significant',
        'seen',
        calculator('catheter-to-vein-ratio', ['limitPercent', '33']),
      ),
    ],
  },
  {
    number: 18,
    name: 'repair-infection-risk',
    about: 'Whether a repair raises the risk of infection',
    taken: 'nothing is computed from it',
    why: 'The studies contradict each other; repair or exchange is the clinician’s decision.',
    readings: [
      reading(
        '2 to 4 times in 30 days',
        'Lundgren 2012',
        'seen',
        none('A risk to weigh, not a value to compute with.'),
      ),
      reading(
        'no association',
        'Zens 2019; JAVA 27(3)',
        'seen',
        none('A risk to weigh, not a value to compute with.'),
      ),
    ],
  },
  {
    number: 19,
    name: 'neutropenia-grade',
    about: 'To which grade 1500, 1000 and 500 belong',
    taken: 'to the milder one',
    why: 'It is the wording of CTCAE itself.',
    readings: [
      reading('below 1500, 1000, 500', 'CTCAE v5.0', 'from memory', calculator('neutropenia-grade')),
      reading('1500 and below', 'a secondary page', 'reported', none('Not the text of CTCAE.')),
    ],
  },
  {
    number: 20,
    name: 'confidence-interval',
    about: 'The interval of a standardised infection ratio',
    taken: 'nothing',
    why: 'Ratios are not computed yet; the year of the report will decide.',
    readings: [
      reading('exact below 15, Byar from 15', 'CDC, June 2011', 'seen', later(surveillance)),
      reading('mid-P up to 100, Byar above', 'CDC, since February 2014', 'seen', later(surveillance)),
    ],
  },
  {
    number: 21,
    name: 'line-days',
    about: 'What a line-day is',
    taken: 'a calendar day with any line, counted once',
    why: 'The manual by which rates are reported.',
    readings: [
      reading('one a patient and day', 'CDC NHSN, January 2026', 'seen', calculator('catheter-days')),
      reading('hours from insertion to removal / 24', 'INDICATE indicator 06', 'seen', later(surveillance)),
    ],
  },
  {
    number: 22,
    name: 'fever',
    about: 'From what temperature it is fever',
    taken: 'at home 38.0 °C; else nothing',
    why: 'The earlier call of the two home sheets; definitions for counting infections come with their part.',
    readings: [
      reading('above 38.0 °C', 'CDC NHSN, January 2026', 'seen', later(surveillance)),
      reading(
        '100.5 °F, which is 38.0 °C in one sheet and 38.06 °C by sum',
        'home care sheets',
        'seen',
        layer('home-care'),
      ),
      reading(
        '38.3 °C once, 38.0 °C for an hour in neutropenia',
        'oncology rules',
        'from memory',
        later(trouble),
      ),
    ],
  },
  {
    number: 23,
    name: 'age-of-infection-criteria',
    about: 'Whether a criterion for infants counts up to or below one year',
    taken: 'nothing',
    why: 'Criteria of infection are not computed yet; each is to be kept as it is printed.',
    readings: [
      reading('LCBI-3: 1 year and below', 'CDC NHSN, January 2026', 'seen', later(surveillance)),
      reading('MBI-LCBI-3: below 1 year', 'CDC NHSN, January 2026', 'seen', later(surveillance)),
    ],
  },
];
