import {
  factKind,
  factSubject,
  type FactName,
  type StaticFactName,
  type TriggerFactName,
} from '@dwellward/policy';
import { displayOf, findingRow } from '@dwellward/profiles';
import type { Speech } from '../language.js';
import { amountText } from './quantities.js';

/** A fact in words that complete “not known: …”, and as a noun without an article. */
interface FactWords {
  readonly text: string;
  readonly noun: string;
}

const the = (noun: string): FactWords => ({ text: `the ${noun}`, noun });
const asked = (question: string, noun: string): FactWords => ({ text: question, noun });

const texts: Readonly<Record<StaticFactName | TriggerFactName, FactWords>> = {
  'line.type': the('type of the line'),
  'line.cuffed': asked('whether the line has a cuff', 'cuff on the line'),
  'line.lumenCount': asked('how many lumens the line has', 'number of lumens'),
  'line.dwellDays': asked('how long the line has been in', 'days since the insertion'),
  'line.dressing': asked('which dressing is on', 'dressing'),
  'line.accessed': asked('whether a needle is in the port', 'needle in the port, where it is one'),
  'line.used': asked('whether the line was ever used', 'line used so far'),
  'line.securement': asked('what holds the line', 'securement of the line'),
  'line.sutured': asked('whether there are stitches', 'stitches'),
  'line.clamp': asked('whether the line has clamps of its own', 'clamps of the line’s own'),
  'line.removedDays': asked('how long the line has been out', 'days since the removal'),
  'line.externalLengthChange': asked(
    'how much the length outside has changed',
    'change of the length outside the skin',
  ),
  'lumen.use': asked('whether anything runs through the lumen', 'use of the lumen'),
  'lumen.infusate': asked('what runs through the lumen', 'fluid in the lumen'),
  'lumen.infusionPattern': asked('whether it runs without a break', 'way that it runs'),
  'lumen.foundOpen': asked('when the lumen was last found open', 'lumen last found open'),
  'lumen.dosesGiven': asked(
    'how many doses the lumen was given',
    'doses for the blockage since the lumen was last found open',
  ),
  'lumen.keepsCirculation': asked(
    'whether what runs keeps up the circulation',
    'a drug that keeps up the circulation runs',
  ),
  'lumen.vesicantRuns': asked('whether what runs harms tissue', 'a drug that harms tissue runs'),
  'line.infusing': asked('whether anything runs through the line', 'an infusion through the line'),
  'patient.deceased': asked('whether the patient has died', 'death of the patient'),
  'lumen.primingVolume': the('volume of the lumen'),
  'patient.ageDays': asked('the age', 'age in days'),
  'patient.setting': asked('where the patient is looked after', 'place of care'),
  'patient.weight': the('weight'),
  'labs.anc': the('neutrophil count'),
  'labs.platelets': the('platelet count'),
  'labs.inr': the('INR'),
  began: asked('when the rule began', 'begin of the rule'),
  answered: asked('whether it was put right', 'put right'),
};

/** Code systems whose codes are the values of a fact. */
const systems = {
  'line.type': 'lineType',
  'line.dressing': 'dressingType',
  'line.securement': 'securementType',
  'lumen.infusate': 'infusate',
} as const;

/** Values of facts that are in no code system of ours. */
const values: Readonly<Record<string, string>> = {
  integral: 'yes',
  none: 'none',
  infusing: 'infusing',
  locked: 'locked',
  open: 'neither infusing nor locked',
  continuous: 'without a break',
  intermittent: 'with breaks',
  inpatient: 'hospital ward',
  'intensive-care': 'intensive care',
  ambulatory: 'clinic',
  home: 'home',
  unknown: 'not known',
  true: 'yes',
  false: 'no',
};

function isNamed(fact: FactName): fact is StaticFactName | TriggerFactName {
  return Object.hasOwn(texts, fact);
}

/** A value of a finding, within a sentence: `none`, `blood residue`. */
export function findingValueText(finding: Parameters<typeof findingRow>[0], value: string): string {
  const { valuesFrom, values: own } = findingRow(finding);
  const said = valuesFrom === undefined ? own?.[value]?.display : displayOf(valuesFrom, value);
  return (said ?? value.replaceAll('-', ' ')).toLowerCase();
}

/** How people call a fact. */
export function factWords(fact: FactName): FactWords {
  if (isNamed(fact)) return texts[fact];
  const subject = factSubject(fact);
  if (subject === undefined) return asked(fact, fact);
  if (subject.group === 'last') {
    const activity = displayOf('lineCareActivity', subject.activity).toLowerCase();
    return asked(`when the last ${activity} was`, `last ${activity}`);
  }
  const finding = displayOf('lineFinding', subject.finding).toLowerCase();
  if (subject.group === 'latest') return the(`latest ${finding}`);
  const found =
    subject.value === undefined ? finding : `${finding}, ${findingValueText(subject.finding, subject.value)}`;
  return asked(`when ${found} was last found`, `${found}, last found`);
}

/** A code that is the value of a fact, within a sentence. */
export function codeText(fact: FactName, code: string): string {
  if (Object.hasOwn(systems, fact))
    return displayOf(systems[fact as keyof typeof systems], code).toLowerCase();
  return values[code] ?? code.replaceAll('-', ' ');
}

/** The value of a fact as people write it. */
export function factValueText(fact: FactName, value: string, { instant }: Speech): string {
  const kind = factKind(fact);
  if (value === 'unknown') return 'not known';
  switch (kind?.kind) {
    case 'quantity': {
      const end = ` ${kind.unit}`;
      return value.endsWith(end) ? amountText(value.slice(0, -end.length), kind.unit) : value;
    }
    case 'time':
      return instant(value);
    case 'boolean':
      return values[value] ?? value;
    case 'code':
      return codeText(fact, value);
    default:
      return value;
  }
}
