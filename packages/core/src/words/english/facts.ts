import type { FactName } from '@dwellward/policy';

/** A fact in words that complete “not known: …”, and as a noun without an article. */
interface FactWords {
  readonly text: string;
  readonly noun: string;
}

const the = (noun: string): FactWords => ({ text: `the ${noun}`, noun });
const asked = (question: string): FactWords => ({ text: question, noun: question });

const texts: Readonly<Record<FactName, FactWords>> = {
  'line.type': the('type of the line'),
  'line.cuffed': asked('whether the line has a cuff'),
  'line.lumenCount': asked('how many lumens the line has'),
  'line.dwellDays': asked('how long the line has been in'),
  'line.dressing': asked('which dressing is on'),
  'line.incisionHealed': asked('whether the incision has healed'),
  'line.tipConfirmed': asked('whether the tip was confirmed'),
  'line.accessed': asked('whether a needle is in the port'),
  'line.used': asked('whether the line was ever used'),
  'line.asepticInsertion': asked('whether full asepsis was kept at the insertion'),
  'line.securement': asked('what holds the line'),
  'line.sutured': asked('whether there are stitches'),
  'line.clamp': asked('whether the line has clamps of its own'),
  'line.removedDays': asked('how long the line has been out'),
  'line.externalLengthChange': asked('how much the length outside has changed'),
  'line.signDwellDays': asked('how long the line had been in when this was found'),
  'lumen.use': asked('whether anything runs through the lumen'),
  'lumen.infusate': asked('what runs through the lumen'),
  'lumen.infusionPattern': asked('whether it runs without a break'),
  'lumen.dosesGiven': asked('how many doses the lumen was given'),
  'lumen.lookMinutesAfterDose': asked('how long after the dose the lumen was looked at'),
  'lumen.primingVolume': the('volume of the lumen'),
  'patient.ageDays': the('age'),
  'patient.setting': asked('where the patient is looked after'),
  'patient.weight': the('weight'),
  'labs.anc': the('neutrophil count'),
  'labs.platelets': the('platelet count'),
  'labs.inr': the('INR'),
};

/** How people call a fact. */
export function factWords(fact: FactName): FactWords {
  return texts[fact];
}
