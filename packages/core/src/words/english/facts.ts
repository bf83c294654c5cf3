import { factSubject, type FactName, type StaticFactName, type TriggerFactName } from '@dwellward/policy';
import { displayOf } from '@dwellward/profiles';

/** A fact in words that complete “not known: …”, and as a noun without an article. */
interface FactWords {
  readonly text: string;
  readonly noun: string;
}

const the = (noun: string): FactWords => ({ text: `the ${noun}`, noun });
const asked = (question: string): FactWords => ({ text: question, noun: question });

const texts: Readonly<Record<StaticFactName | TriggerFactName, FactWords>> = {
  'line.type': the('type of the line'),
  'line.cuffed': asked('whether the line has a cuff'),
  'line.lumenCount': asked('how many lumens the line has'),
  'line.dwellDays': asked('how long the line has been in'),
  'line.dressing': asked('which dressing is on'),
  'line.accessed': asked('whether a needle is in the port'),
  'line.used': asked('whether the line was ever used'),
  'line.securement': asked('what holds the line'),
  'line.sutured': asked('whether there are stitches'),
  'line.clamp': asked('whether the line has clamps of its own'),
  'line.removedDays': asked('how long the line has been out'),
  'line.externalLengthChange': asked('how much the length outside has changed'),
  'lumen.use': asked('whether anything runs through the lumen'),
  'lumen.infusate': asked('what runs through the lumen'),
  'lumen.infusionPattern': asked('whether it runs without a break'),
  'lumen.keepsCirculation': asked('whether what runs keeps up the circulation'),
  'lumen.vesicantRuns': asked('whether what runs harms tissue'),
  'line.infusing': asked('whether anything runs through the line'),
  'patient.deceased': asked('whether the patient has died'),
  'lumen.foundOpen': asked('when the lumen was last found open'),
  'lumen.dosesGiven': asked('how many doses the lumen was given'),
  'lumen.primingVolume': the('volume of the lumen'),
  'patient.ageDays': the('age'),
  'patient.setting': asked('where the patient is looked after'),
  'patient.weight': the('weight'),
  'labs.anc': the('neutrophil count'),
  'labs.platelets': the('platelet count'),
  'labs.inr': the('INR'),
  began: asked('when the rule began'),
  answered: asked('whether it was put right'),
};

function isNamed(fact: FactName): fact is StaticFactName | TriggerFactName {
  return Object.hasOwn(texts, fact);
}

/** How people call a fact. */
export function factWords(fact: FactName): FactWords {
  if (isNamed(fact)) return texts[fact];
  const subject = factSubject(fact);
  if (subject === undefined) return asked(fact);
  if (subject.group === 'last')
    return asked(`when the last ${displayOf('lineCareActivity', subject.activity).toLowerCase()} was`);
  const finding = displayOf('lineFinding', subject.finding).toLowerCase();
  if (subject.group === 'latest') return the(`latest ${finding}`);
  return asked(`when ${subject.value === undefined ? '' : `${subject.value} `}${finding} was last found`);
}
