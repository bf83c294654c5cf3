import {
  device,
  diameter,
  distance,
  done,
  dressed,
  found,
  length,
  lifeOf,
  lumen,
  neutrophils,
  patient,
  picc,
  weight,
  type Scenario,
} from './bed.js';

const newborn = [
  patient('2026-11-10'),
  device('picc', [length(2), diameter(0.3)]),
  lumen('white', 0.1),
  ...lifeOf(['white'], 2),
  weight(0.85, '05:00'),
];

export const lives: readonly Scenario[] = [
  {
    name: 'coagulation sample of a newborn of 850 g',
    nurse: [
      'Ask whether the sample is needed from this line: 3 % of the blood volume is 2.3 mL in 24 hours.',
      'Discard from the dead space, tenths of a millilitre; flush as little as clears the line; never 5 mL.',
    ],
    source:
      'blood volume 90 mL/kg preterm (seen), 3 % in 24 h (seen); discard 2 or 6 times the dead space (secondary)',
    record: newborn,
    due: { says: [/Hazel Ousel|Patient/] },
    draw: {
      args: ['--tests', 'coagulation=1.3'],
      says: [/limit|may still be drawn/i],
      never: [/(?<![.\d])5 mL/, /(?<![.\d])6 mL/, /10 mL of sodium/i],
    },
  },
  {
    name: 'an infant of 97 days with an idle line',
    nurse: [
      'Flush small volumes and at least daily; a heparin lock only as ordered, 10 units/mL at most; adult weekly care is not for an infant.',
    ],
    source: 'no guideline gives own intervals (more than one text seen); common practice, no source',
    record: [
      patient('2026-08-20'),
      device('tunneled-cvc', [length(6), diameter(0.5)]),
      lumen('white', 0.3),
      ...lifeOf(['white'], 6),
      weight(6, '11-24 08:00'),
    ],
    due: {
      says: [/Flush an idle lumen of an infant \(every 24 hours\)/],
      never: [/100 units/i, /Flush an idle lumen of a PICC or tunneled catheter/, /\bLock/],
    },
  },
  {
    name: 'a weight that can’t be right, and a blocked lumen',
    nurse: ['52 kg at 116 days is impossible: weigh again. No dose is worked out from it.'],
    source: 'WHO growth standards (computed from the table: z 45.7)',
    record: [
      patient('2026-08-01'),
      device('tunneled-cvc', [length(6), diameter(0.5)]),
      lumen('white', 0.3),
      ...lifeOf(['white'], 6),
      weight(52, '05:00'),
      found('flush-resistance', 'blocked', '07:30', 'white'),
    ],
    due: { says: [/52 kg can’t be right/], never: [/\b2 mg\b/] },
  },
  {
    name: 'the patient has died',
    nurse: ['No care of the line is due any more.'],
    source: 'common practice, no source',
    record: [
      ...picc().map((one) =>
        one.resourceType === 'Patient' ? { ...one, deceasedDateTime: '2026-11-25T03:10:00+01:00' } : one,
      ),
    ],
    due: { says: [/died|deceased/i], never: [/!! overdue/i] },
    handover: { says: [/died|deceased|[Nn]othing is due/] },
  },
  {
    name: 'put in without asepsis',
    nurse: ['Have it replaced as soon as possible, within 48 hours: ask today.'],
    source: 'CDC 2011, from memory; AHRQ table (seen): as soon as possible',
    record: [...picc(), found('aseptic-insertion', false, '07:00')].map((one) =>
      one.id === 'insertion-11-151000' ||
      (one.resourceType === 'Procedure' && one.code?.coding?.[0]?.code === 'insertion')
        ? { ...one, performedDateTime: '2026-11-25T05:00:00+01:00' }
        : one,
    ),
    due: { says: [/asep/i, /48 hours/i, /\bdue\b/] },
  },
  {
    name: 'put in, at no readable time',
    nurse: ['The line is in: look after it, and find out when it was put in.'],
    source: 'protective reading',
    record: picc().map((one) =>
      one.resourceType === 'Procedure' && one.code?.coding?.[0]?.code === 'insertion'
        ? (({ performedDateTime, ...rest }) => ({
            ...rest,
            performedString: `last week, ${performedDateTime}`,
          }))(one)
        : one,
    ),
    due: {
      says: [/insert/i, /Site assessment|Dressing change|Flush/i],
      never: [/not inserted yet/i],
    },
  },
  {
    name: 'care charted in words that nobody knows',
    nurse: ['Ask what was done: it may have been the dressing. What is due stays due.'],
    source: 'protective reading',
    record: [
      ...picc(),
      {
        ...done('flush', '07:00', {}, 'red'),
        code: { coding: [{ system: 'http://hospital.example/acts', code: 'K17', display: 'line care' }] },
      },
    ],
    due: { says: [/K17/, /not understood/i], exit: 5 },
    handover: { says: [/K17|not understood/i], exit: 5 },
  },
  {
    name: 'a gauze dressing and a count that is ten days old',
    nurse: ['Take the count as low until a new one is there; change the gauze daily; ask for a new count.'],
    source: 'stale low stays low: protective reading; gauze daily at low counts: common practice, no source',
    record: [...picc(), dressed('gauze-dressing', '11-23 08:00'), neutrophils(0.15, '11-15 06:00')],
    policies: ['neutropenia'],
    due: { says: [/Dressing change/i, /overdue/i, /0\.15|stale|old/i] },
  },
  {
    name: 'no dressing at all at 0.1 neutrophils',
    nurse: ['Cover the site now, sterile; look at it while it is open; tell the clinician.'],
    source:
      'CDC 2011: a sterile dressing covers the site (secondary); urgency at so low a count: common practice, no source',
    record: [
      patient('1980-03-02'),
      device('picc', [length(3), diameter(0.9)]),
      lumen('red', 0.6),
      done('insertion', '11-15 10:00'),
      done('tip-confirmation', '11-15 11:00'),
      done('flush', '11-24 20:00', {}, 'red'),
      neutrophils(0.1, '05:00'),
    ],
    policies: ['neutropenia'],
    due: { says: [/Dressing change/i, /overdue|due/i, /0\.1/] },
  },
  {
    name: 'a port at home, its needle out',
    nurse: [
      'Nothing to do at home but to watch: the nurse comes for the flush every four weeks. Bath and shower are fine.',
    ],
    source: 'port labels: every 4 weeks (secondary)',
    record: [
      patient('1975-03-02'),
      device('implanted-port', [diameter(1)]),
      done('insertion', '2026-01-20T10:00:00+01:00'),
      done('tip-confirmation', '2026-01-20T11:00:00+01:00'),
      done('flush', '11-10 10:00'),
      done('lock', '11-10 10:05'),
      done('access-needle-removal', '11-10 10:10'),
      found('incision-healed', true, '2026-02-10T10:00:00+01:00'),
    ],
    due: { says: [/port/i], never: [/incision[^\n]*\d+ d ago/i] },
    home: {
      says: [/nurse/i, /38\.0 °C/, /call/i],
      never: [/[Ff]lush the line/, /[Ss]crub/, /100\.5/, /every day: .*dressing/i],
    },
  },
  {
    name: 'a tunnelled line at home comes apart',
    nurse: ['The sheet tells the family: clamp, lie down, call, whatever comes off or open.'],
    source: 'Starship NZ, CVC care (seen): clamps at hand, also at home',
    record: [
      patient('1975-03-02'),
      device('tunneled-cvc', [length(12), diameter(1.3)]),
      lumen('red', 1.2),
      ...lifeOf(['red'], 12),
    ],
    due: { says: [/Lumen red/i] },
    home: { says: [/clamp/i, /lie/i, /call/i, /cap|open/i, /38\.0 °C/], never: [/100\.5/] },
  },
  {
    name: 'two millimetres would be left for the clamp after trimming',
    nurse: ['Not to be repaired: too little intact catheter is left. Clamp, call, another line.'],
    source:
      'home-care procedure manual (seen): 6.4 cm between cut and clamp; below 2.5 cm common practice, no source',
    record: [
      patient('1975-03-02'),
      device('tunneled-cvc', [length(12), diameter(1.6)]),
      lumen('red', 1.2),
      ...lifeOf(['red'], 12),
      found('damage', 'cut', '07:40', 'red', distance(2)),
    ],
    due: { says: [/EMERGENCY/, /clamp/i] },
    repair: {
      args: [
        ...[
          '--lumen',
          'red',
          '--intact',
          '2',
          '--trim',
          '1.8',
          '--segment',
          '10',
          '--segment-diameter',
          '1.6',
        ],
        ...['--lumen-size', '9.6', '--kit-size', '9.6', '--kit-for-device', 'yes', '--free-of-clot', 'yes'],
        ...['--may-repair', 'yes', '--least-intact', '2.5'],
      ],
      says: [/not/i, /0\.2 cm|2 mm/],
      never: [/^[^\n]*: possible/im],
    },
  },
  {
    name: 'repaired an hour ago with a kit that says nothing of the wait',
    nurse: ['Give nothing through it until the kit’s own time is known: two to 48 hours circulate.'],
    source: 'not found in a text that was seen; protective reading',
    record: [
      patient('1975-03-02'),
      device('tunneled-cvc', [length(12), diameter(1.6)]),
      lumen('red', 1.2),
      ...lifeOf(['red'], 12),
      found('damage', 'cut', '11-24 22:00', 'red', distance(8)),
      done('repair', '07:00', {}, 'red'),
    ],
    due: { says: [/repair/i, /no infusion|not .*infus|nothing/i, /kit|maker/i] },
  },
];
