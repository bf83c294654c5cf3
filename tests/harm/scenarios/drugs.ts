import {
  allergy,
  device,
  diameter,
  done,
  dressed,
  drug,
  found,
  length,
  lifeOf,
  lumen,
  patient,
  picc,
  platelets,
  problem,
  weight,
  type Scenario,
} from './bed.js';

const dialysis = (...more: readonly Scenario['record'][number][]) => [
  patient('1960-03-02'),
  device('tunneled-dialysis-catheter', [length(12), diameter(2)]),
  lumen('red', 1.6),
  lumen('blue', 1.7),
  ...lifeOf(['red', 'blue'], 12),
  weight(70, '11-20 08:00'),
  ...more,
];

export const drugs: readonly Scenario[] = [
  {
    name: 'red cells hang for five hours',
    nurse: [
      'Take the unit down: it has to be finished within four hours. Note what was given; change the set; flush.',
    ],
    source:
      'NZ Blood Service handbook 3.11 and UK JPAC table 4.2 (seen): finished within 4 hours of leaving storage',
    record: [...picc(), drug('B05AX01', 'red cells', 'red', '03:00')],
    due: { says: [/overdue/i, /4 h(ours)?|four hours/i, /blood|red cells/i] },
    handover: { says: [/4 h(ours)?|four hours|blood/i] },
  },
  {
    name: 'fat emulsion alone hangs for thirteen hours',
    nurse: ['Take the bag down: fat alone is finished within 12 hours; new set with the next bag.'],
    source: 'CDC 2002, MMWR 51 RR-10 appendix B (seen): fat alone at most 12 h',
    record: [...picc(), drug('B05BA02', 'fat emulsion', 'red', '11-24 19:00')],
    due: { says: [/overdue/i, /12 h(ours)?/i, /fat/i] },
  },
  {
    name: 'a line that nobody knows the type of',
    nurse: [
      'Find out which line it is before anything goes in: its card, the notes, a call to who put it in.',
      'A dialysis line holds a strong lock: until it is known, draw back and discard before any flush.',
    ],
    source: 'a dialysis catheter leaflet (seen): the lock comes out of each lumen before use',
    record: [
      patient('1970-03-02'),
      device({ text: 'central venous catheter' }),
      lumen('red'),
      lumen('blue'),
      done('insertion', '11-15 10:00'),
      done('tip-confirmation', '11-15 11:00'),
      dressed('transparent-dressing', '11-22 09:00'),
    ],
    due: {
      says: [
        /which (kind of |type of )?line|type of (the )?line|kind of line/i,
        /draw(n)? (it )?(back|off)|discard/i,
      ],
      never: [/[Pp]ort needle|needle (change|removal)/i, /idle lumen of a midline/i, /20 %/],
    },
  },
  {
    name: 'blood from a known dialysis line',
    nurse: [
      'Only who is trained for dialysis lines opens it, and only where there is no other way.',
      'Draw off and discard the old lock first, the printed volume of the lumen; then the sample; then flush; then a new lock.',
    ],
    source: 'hospital anaesthesia page (seen): a competency is required, lock off before other use',
    record: dialysis(),
    due: { says: [/dialysis/i] },
    draw: {
      args: ['--lumen', 'red', '--tests', 'chemistry=2'],
      says: [/1\.6 mL/, /discard/i, /train(ed|ing)/i],
    },
  },
  {
    name: 'heparin-induced thrombocytopenia and a heparin lock due',
    nurse: ['No heparin in any form. Ask the clinician what the line is locked with: saline or citrate.'],
    source: 'FDA notice as reported; SNOMED CT 73397007 (seen)',
    record: dialysis(problem('73397007', 'Heparin-induced thrombocytopenia'), platelets(60, '05:00')),
    asOf: '2026-11-28T08:00:00+01:00',
    due: { says: [/[Hh]eparin-induced thrombocytopenia/, /clinician/i, /Lock/], never: [/\d[\d,.]* units/i] },
    draw: {
      args: ['--lumen', 'red', '--tests', 'chemistry=2'],
      says: [/[Hh]eparin-induced/],
      never: [/lock with heparin \d/i],
    },
  },
  {
    name: 'anaphylaxis to chlorhexidine',
    nurse: [
      'No chlorhexidine on skin, hub, cap or in the dressing. Another antiseptic as the clinician says.',
    ],
    source: 'emc 30158 (seen): anaphylaxis, also fatal',
    record: [
      ...picc(),
      allergy('294431008', 'Allergy to chlorhexidine'),
      found('dressing-condition', 'loosened', '07:30'),
    ],
    due: {
      says: [/Dressing change/i, /[Aa]llergy to chlorhexidine/, /clinician/i],
      never: [/clean(se)? .*with chlorhexidine(?!.*(allerg|not))/i],
    },
    handover: { says: [/chlorhexidine/i] },
    home: { says: [/./], never: [/wash .*chlorhexidine/i] },
  },
  {
    name: 'allergy to the drug that would unblock the lumen',
    nurse: ['No thrombolytic. Tell the clinician: other ways, or another line.'],
    source: 'alteplase label (seen): hypersensitivity is a contraindication',
    record: [
      ...picc(),
      weight(70, '11-20 08:00'),
      allergy('295110005', 'Allergy to alteplase'),
      found('flush-resistance', 'blocked', '07:30', 'red'),
    ],
    due: { says: [/[Aa]llergy to alteplase/, /clinician/i], never: [/\b2 mg\b/] },
  },
  {
    name: 'a vesicant runs through a midline',
    nurse: [
      'A midline ends in the arm: no vesicant belongs there. Stop it, look at the arm, call; a central line is needed.',
    ],
    source:
      'vascularaccess.com.au 2017 (seen): many of these must not go through midlines; ESMO-EONS 2012 (seen): doxorubicin',
    record: [
      patient('1980-03-02'),
      device('midline', [length(2), diameter(0.9)]),
      lumen('red', 0.4),
      ...lifeOf(['red'], 2),
      drug('L01DB01', 'doxorubicin', 'red', '07:00'),
    ],
    due: { says: [/doxorubicin|vesicant/i, /midline/i] },
    handover: { says: [/vesicant|doxorubicin/i] },
  },
  {
    name: 'a drug runs and the tip was never confirmed',
    nurse: [
      'Ask at once whether the tip was ever confirmed; until it is, nothing goes in that needs a central vein.',
    ],
    source: 'INS 2021, from memory: tip confirmed before use',
    record: [
      patient('1980-03-02'),
      device('picc', [length(3), diameter(0.9)]),
      lumen('red', 0.6),
      done('insertion', '11-22 10:00'),
      dressed('transparent-dressing', '11-22 10:30'),
      drug('B05BB01', 'electrolytes', 'red', '06:00'),
    ],
    due: { says: [/tip/i, /confirm/i, /infus|runs/i] },
    handover: { says: [/tip/i] },
  },
];
