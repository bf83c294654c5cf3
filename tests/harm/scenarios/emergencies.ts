import {
  device,
  diameter,
  distance,
  done,
  drug,
  found,
  length,
  lifeOf,
  lumen,
  neutrophils,
  patient,
  picc,
  signs,
  temperature,
  type Scenario,
} from './bed.js';

export const emergencies: readonly Scenario[] = [
  {
    name: 'arm swelling while noradrenaline runs',
    nurse: [
      'Call the clinician at once: the arm swells on the line’s side, a clot in the vein is likely.',
      'Do not just stop the noradrenaline: have it moved to another line first.',
      'Use the line for nothing more, and leave it in until the clinician decides.',
    ],
    source: 'common practice, no source, for the drug; swelling of the arm: INS 2021, from memory',
    record: [
      ...picc(),
      drug('C01CA03', 'norepinephrine', 'red', '06:00'),
      found('arm-neck-swelling', 'present', '07:40'),
    ],
    due: {
      says: [
        /As soon as possible|EMERGENCY/,
        /Swelling response/i,
        /norepinephrine|keeps? up the circulation/i,
        /another line/i,
        /call/i,
      ],
      never: [/stop it and clamp/i, /[Ss]top what runs(?!.*(circulation|another))/],
    },
    draw: {
      args: ['--lumen', 'white', '--tests', 'chemistry=2'],
      says: [/[Nn]o blood is drawn/, /swollen/],
      never: [/discard .* mL/i],
      exit: 2,
    },
    handover: { says: [/EMERGENCY|emergenc/i, /Swelling/i] },
  },
  {
    name: 'air has entered the line',
    nurse: [
      'Clamp at once as near to the body as possible, close what is open.',
      'Lay the patient on the left side and call; oxygen as ordered.',
      'Draw no blood and give nothing through this line now.',
    ],
    source: 'left side: emedicine and others, secondary; in an arrest flat on the back (AHA 2010, as cited)',
    record: [...picc(), found('air-entry', 'present', '07:50')],
    due: {
      says: [/EMERGENCY/, /Air entry response/i, /clamp/i, /left side/i, /call/i],
      never: [/get up|sit up/i],
    },
    draw: {
      args: ['--lumen', 'red', '--tests', 'chemistry=2'],
      says: [/air/i],
      never: [/discard .* mL/i],
      exit: 2,
    },
    handover: { says: [/Air entry/i] },
  },
  {
    name: 'fever at 0.1 neutrophils',
    nurse: [
      'Call the clinician now: a fever at so low a count is an emergency; the first antibiotic within the hour.',
      'Blood cultures from the line and from a vein before it, without delay for it.',
      'Look at exit site and tunnel.',
    ],
    source:
      'IDSA 2011, as quoted by Cochrane CD012184: 38.3 once or 38.0 for an hour with neutrophils below 500/µL; one hour: IDSA/ASCO 2018, from memory',
    record: [...picc(), neutrophils(0.1, '05:00'), temperature(38.6, '07:45')],
    due: { says: [/EMERGENCY/, /Fever response/i, /0\.1/, /culture/i, /call/i, /38\.6/] },
    handover: { says: [/Fever/i] },
  },
  {
    name: 'tunnel infection',
    nurse: [
      'Call the clinician today, at once if there is fever: the tunnel is infected, the line will likely have to come out.',
      'Do not use it where another access exists; look for fever; cultures as ordered.',
    ],
    source: 'IDSA 2009: tunnel infection, removal of the catheter (seen, PMC4039170)',
    record: [
      patient('1980-03-02'),
      device('tunneled-cvc', [length(12), diameter(1.3)]),
      lumen('red', 1.2),
      ...lifeOf(['red'], 12),
      signs(['redness'], '07:30'),
      found('tunnel-signs', 'present', '07:30'),
    ],
    due: { says: [/As soon as possible|EMERGENCY/, /tunnel/i, /call|tell|clinician/i] },
    handover: { says: [/tunnel/i] },
  },
  {
    name: 'pulled out by three centimetres',
    nurse: [
      'Do not push it back. Fix it where it is.',
      'Nothing is infused until the position of the tip is confirmed again; tell the clinician.',
    ],
    source: 'INS 2021, from memory; local rules use 1 to 3 cm',
    record: [...picc(), found('external-length', 6, '07:30')],
    due: {
      says: [/(push|advance)/i, /tip/i, /length/i, /not .*infus|no infusion|nothing .*(in|through)/i],
    },
    handover: { says: [/tip|moved|length/i] },
  },
  {
    name: 'one of three lumens blocked',
    nurse: [
      'Never force the blocked lumen, and give nothing through it; look for a kink and the outside causes first.',
      'Tell the clinician: drug for unblocking as ordered.',
      'Flush and lock the two other lumens as usual.',
    ],
    source: 'alteplase label and INS 2021 as in the table of occlusions; not forcing: device labels',
    record: [
      patient('1980-03-02'),
      device('nontunneled-cvc', [length(5), diameter(0.9)]),
      lumen('red', 0.6),
      lumen('white', 0.6),
      lumen('blue', 0.6),
      ...lifeOf(['red', 'white', 'blue'], 5),
      found('flush-resistance', 'blocked', '07:30', 'white'),
    ],
    asOf: '2026-11-25T20:30:00+01:00',
    due: {
      says: [/blocked/i, /nothing in or out/i, /Lumen red/i, /Lumen blue/i],
      never: [/Flush[^\n]*lumen white[^\n]*(due|overdue)/i],
    },
    draw: {
      args: ['--lumen', 'white', '--tests', 'chemistry=2'],
      says: [/could not be flushed|blocked/i, /blue/, /red/],
      never: [/discard .* mL/i],
      exit: 2,
    },
    handover: { says: [/white/i, /blocked/i, /force/i] },
  },
  {
    name: 'a leak at the skin while the other lumen runs',
    nurse: [
      'Clamp between the leak and the patient; where that is not possible hold it closed at the skin, and call.',
      'Stop what runs through any lumen of this catheter, for the leak may be of all; nothing more through it.',
    ],
    source:
      'manufacturers’ repair instructions, as in the table of repairs; common practice, no source, for the other lumen',
    record: [
      ...picc(),
      drug('B05BB01', 'electrolytes', 'white', '06:00'),
      found('damage', 'leak', '07:45', 'red', distance(0.5)),
    ],
    due: { says: [/EMERGENCY/, /clamp/i, /white/i, /runs|infus/i, /stop/i] },
    repair: {
      args: ['--lumen', 'red'],
      says: [/not|cannot|can’t|unknown/i],
      never: [/^.*repair(ed)? is possible/im],
    },
    handover: { says: [/damage|leak|break/i] },
  },
  {
    name: 'doxorubicin has run into the tissue',
    nurse: [
      'Stop the infusion at once and leave the catheter where it is.',
      'Draw back what can be drawn back; do not flush.',
      'Call the clinician; antidote and cooling or warming as the drug asks for; mark the skin.',
    ],
    source: 'ESMO-EONS 2012 (seen as far as readable): stop, leave, aspirate',
    record: [
      ...picc(),
      drug('L01DB01', 'doxorubicin', 'red', '07:00'),
      found('extravasation', 'present', '07:55'),
    ],
    due: {
      says: [/EMERGENCY/, /Extravasation response/i, /stop/i, /aspirate|draw back/i, /call/i],
      never: [/another line first/i],
    },
    draw: {
      args: ['--lumen', 'white', '--tests', 'chemistry=2'],
      says: [/extravasation|tissue|left the vein/i],
      never: [/discard .* mL/i],
      exit: 2,
    },
    handover: { says: [/Extravasation/i] },
  },
  {
    name: 'noradrenaline has run into the tissue',
    nurse: [
      'Call at once: the drug has to go on by another line, and out of this one.',
      'Not simply stopped: blood pressure falls within minutes.',
      'Leave the catheter, draw back, antidote (phentolamine) as ordered.',
    ],
    source: 'common practice, no source, for moving first; vesicant: list from memory',
    record: [
      ...picc(),
      drug('C01CA03', 'norepinephrine', 'red', '06:00'),
      found('extravasation', 'present', '07:55'),
    ],
    due: { says: [/EMERGENCY/, /another line/i, /call/i], never: [/stop it and clamp/i] },
  },
  {
    name: 'a piece of the catheter is left inside',
    nurse: [
      'Call at once, keep the patient and the arm still.',
      'Keep what came out, with its length; imaging as ordered.',
    ],
    source: 'common practice, no source; no posture is advised for a piece (secondary)',
    record: [
      ...picc(),
      done('removal', '07:30'),
      found('removed-catheter', 'incomplete', '07:35', undefined, {}),
    ],
    due: {
      says: [/EMERGENCY/, /still/i, /call/i, /keep|length/i],
      never: [/get up|may (sit|stand|walk)|let the patient up/i],
    },
    handover: { says: [/Retained|piece|incomplete/i] },
  },
  {
    name: 'bleeding after the line is out',
    nurse: [
      'Press firmly with the fingers at least five minutes and until dry, patient flat.',
      'Still bleeding at 15 minutes: call.',
    ],
    source:
      'Royal Marsden Manual ch. 17 (seen): at least 5 minutes; JVIR 2007 (seen): dry within 5, rarely beyond 15 minutes',
    record: [
      ...picc(),
      done('removal', '07:30'),
      found('removed-catheter', 'whole', '07:35'),
      found('bleeding', 'present', '07:50'),
    ],
    due: { says: [/EMERGENCY/, /press/i, /flat|lying/i, /call/i], never: [/get up/i] },
  },
  {
    name: 'exit site red, warm and with pus',
    nurse: ['Tell the clinician today; swab as ordered; change the dressing; look for fever.'],
    source: 'IDSA 2009, exit-site infection (seen)',
    record: [...picc(), signs(['redness', 'pus', 'tenderness'], '07:30')],
    due: { says: [/infection sign/i, /clinician|tell|call/i, /dressing/i] },
    home: { says: [/red/i, /call/i] },
  },
];
