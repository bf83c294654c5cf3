import {
  conditionParts,
  factSubject,
  type ComparedTime,
  type Comparison,
  type ConditionPart,
  type FactName,
} from '@dwellward/policy';
import { displayOf } from '@dwellward/profiles';
import type { ConditionSentences } from '../../model/sentences/pages.js';
import type { Wordings } from '../language.js';
import { codeText, factWords, findingValueText } from './facts.js';
import { amountText } from './quantities.js';

type Yes<Kind extends ConditionPart['kind']> = Extract<ConditionPart, { kind: Kind }>;

const withArticle = (noun: string) => `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;

function listed(words: readonly string[], last: string): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

/** A yes and a no of a fact that is either. */
const eitherWay: Readonly<Record<string, readonly [yes: string, no: string]>> = {
  'line.cuffed': ['the line has a cuff', 'the line has no cuff'],
  'line.accessed': ['a needle is in the port', 'no needle is in the port'],
  'line.used': ['the line was used before', 'the line was never used'],
  'line.sutured': ['there are stitches', 'there are no stitches'],
  'line.infusing': ['an infusion runs through the line', 'nothing runs through the line'],
  'lumen.keepsCirculation': [
    'a drug that keeps up the circulation runs',
    'no drug that keeps up the circulation runs',
  ],
  'lumen.vesicantRuns': ['a drug that harms tissue runs', 'no drug that harms tissue runs'],
  'patient.deceased': ['the patient has died', 'the patient is alive'],
};

/** How a fact is said to have one of several codes, and to have none of them. */
const coded: Readonly<
  Record<string, readonly [is: (codes: string) => string, isNot: (codes: string) => string]>
> = {
  'line.type': [(codes) => `the line is ${codes}`, (codes) => `the line is not ${codes}`],
  'line.dressing': [(codes) => `the dressing is ${codes}`, (codes) => `the dressing is not ${codes}`],
  'line.securement': [
    (codes) => `what holds the line is ${codes}`,
    (codes) => `what holds the line is not ${codes}`,
  ],
  'line.clamp': [
    (codes) => `of clamps of its own the line has: ${codes}`,
    (codes) => `of clamps of its own the line has not: ${codes}`,
  ],
  'lumen.use': [(codes) => `the lumen is ${codes}`, (codes) => `the lumen is not ${codes}`],
  'lumen.infusate': [
    (codes) => `${codes} runs through the lumen`,
    (codes) => `something other than ${codes} runs through the lumen`,
  ],
  'lumen.infusionPattern': [(codes) => `it runs ${codes}`, (codes) => `it does not run ${codes}`],
  'patient.setting': [
    (codes) => `the patient is looked after in: ${codes}`,
    (codes) => `the patient is looked after elsewhere than in: ${codes}`,
  ],
};

const articled: ReadonlySet<FactName> = new Set<FactName>(['line.type', 'line.dressing', 'line.securement']);

/** Before and after a number of days or doses, where the fact is said as a sentence. */
const counted: Readonly<Record<string, readonly [before: string, one: string, many: string]>> = {
  'line.dwellDays': ['the line has been in for', 'day', 'days'],
  'line.removedDays': ['the line has been out for', 'day', 'days'],
  'patient.ageDays': ['the patient’s age is', 'day', 'days'],
  'line.lumenCount': ['the line has', 'lumen', 'lumens'],
};

const amounts: Readonly<Record<Comparison, string>> = {
  '<': 'below',
  '<=': 'at most',
  '>': 'above',
  '>=': 'at least',
  '=': 'exactly',
  '!=': 'other than',
};

const counts: Readonly<Record<Comparison, string>> = { ...amounts, '<': 'less than', '>': 'more than' };

const opposite: Readonly<Record<Comparison, Comparison>> = {
  '<': '>=',
  '<=': '>',
  '>': '<=',
  '>=': '<',
  '=': '!=',
  '!=': '=',
};

const orders: Readonly<Record<Comparison, string>> = {
  '<': 'before',
  '<=': 'no later than',
  '>': 'after',
  '>=': 'no earlier than',
  '=': 'at the same time as',
  '!=': 'at another time than',
};

/** A condition in words: a part of a sentence that can follow “when”, “while” or “if”. */
function partText(part: ConditionPart, no = false): string {
  switch (part.kind) {
    case 'always':
    case 'never':
      return (part.kind === 'never') === no ? 'always' : 'never';
    case 'not':
      return partText(part.of, !no);
    case 'all':
    case 'any': {
      const word = (part.kind === 'any') !== no ? 'or' : 'and';
      const within = part.of.map((one) => (asksSeveral(one) ? `(${partText(one, no)})` : partText(one, no)));
      // Of two short ones no comma is needed; more run together without.
      return part.of.length > 2 || part.of.some(asksSeveral)
        ? within.join(`, ${word} `)
        : within.join(` ${word} `);
    }
    case 'yes':
      return yesText(part, no);
    case 'known':
      return knownText(part, no);
    case 'one-of':
      return codesText(part, no);
    case 'compared':
      return comparedText(part, no);
    case 'times':
      return timesText(part, no);
  }
}

function asksSeveral(part: ConditionPart): boolean {
  return part.kind === 'not' ? asksSeveral(part.of) : part.kind === 'all' || part.kind === 'any';
}

function yesText({ fact }: Yes<'yes'>, no: boolean): string {
  const own = eitherWay[fact];
  if (own) return own[no ? 1 : 0];
  const subject = factSubject(fact);
  const asked =
    subject?.group === 'latest'
      ? displayOf('lineFinding', subject.finding).toLowerCase()
      : factWords(fact).noun;
  return `the latest answer to “${asked}” is ${no ? 'no' : 'yes'}`;
}

function knownText({ fact }: Yes<'known'>, no: boolean): string {
  if (fact === 'line.removedDays') return no ? 'the line is in place' : 'the line is out';
  if (fact === 'answered') return no ? 'it was not put right' : 'it was put right';
  const subject = factSubject(fact);
  if (subject?.group === 'last') {
    const activity = displayOf('lineCareActivity', subject.activity).toLowerCase();
    return no ? `no ${activity} is on record` : `${withArticle(activity)} is on record`;
  }
  if (subject?.group === 'found') return `${foundText(subject)} was ${no ? 'never found' : 'found'}`;
  return `the ${factWords(fact).noun} is ${no ? 'not known' : 'known'}`;
}

function foundText({ finding, value }: Extract<ReturnType<typeof factSubject>, { group: 'found' }>): string {
  const name = displayOf('lineFinding', finding).toLowerCase();
  return value === undefined ? name : `${name} (${findingValueText(finding, value)})`;
}

function codesText({ fact, codes }: Yes<'one-of'>, no: boolean): string {
  const [only] = codes;
  if (fact === 'line.dressing' && only === 'no-dressing' && codes.length === 1)
    return no ? 'a dressing is on' : 'no dressing is on';
  const words = codes.map((code) => codeText(fact, code));
  const text = listed(articled.has(fact) ? words.map(withArticle) : words, 'or');
  const own = coded[fact];
  if (own) return own[no ? 1 : 0](text);
  return `the ${factWords(fact).noun} is ${no ? 'not ' : ''}${text}`;
}

function comparedText({ fact, by, value, unit }: Yes<'compared'>, no: boolean): string {
  const how = no ? opposite[by] : by;
  if (fact === 'lumen.dosesGiven')
    return `${dosesText(how, value)} for the blockage since the lumen was last found open`;
  const own = counted[fact];
  if (own) return `${own[0]} ${counts[how]} ${value} ${value === '1' ? own[1] : own[2]}`;
  return `the ${factWords(fact).noun} is ${amounts[how]} ${amountText(value, unit ?? '1')}`;
}

function dosesText(how: Comparison, value: string): string {
  if (how === '<' && value === '1') return 'no dose was given';
  const many = value === '1' && how === '=' ? 'dose was given' : 'doses were given';
  return how === '=' ? `${value} ${many}` : `${counts[how]} ${value} ${many}`;
}

function timesText({ left, by, right }: Yes<'times'>, no: boolean): string {
  const how = no ? opposite[by] : by;
  const since = right.fact === 'began' && right.offsetMs === 0 && !no;
  // What has come since the beginning is the usual question.
  if (since && left.offsetMs === 0 && (how === '>=' || how === '>')) {
    const subject = factSubject(left.fact);
    if (left.fact === 'lumen.foundOpen') return 'the lumen was found open since';
    if (subject?.group === 'last')
      return `${withArticle(displayOf('lineCareActivity', subject.activity).toLowerCase())} was done since`;
    if (subject?.group === 'found') return `${foundText(subject)} was found since`;
  }
  if (left.fact === 'began' && left.offsetMs === 0 && right.offsetMs > 0 && (how === '>=' || how === '>'))
    return `it began ${lengthText(right.offsetMs)} or more after the ${factWords(right.fact).noun}`;
  return `${timeText(left)} is ${orders[how]} ${timeText(right)}`;
}

function timeText({ fact, offsetMs }: ComparedTime): string {
  const name = fact === 'began' ? 'what sets it going' : `the time of: ${factWords(fact).noun}`;
  if (offsetMs === 0) return name;
  return `${lengthText(Math.abs(offsetMs))} ${offsetMs > 0 ? 'after' : 'before'} ${name}`;
}

function lengthText(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  return minutes % 60 === 0 ? `${minutes / 60} hours` : `${minutes} minutes`;
}

/** A condition as a whole. */
function wholeText(meaning: string): string {
  const parts = conditionParts({ meaning });
  return parts === undefined ? 'what its owner wrote as an expression is true' : partText(parts);
}

/**
 * What a condition asks for that another does not, each part in words: parts that are joined by “and” (`all`), or by
 * “or” (`any`).
 */
export function beyond(now: string, before: string, kind: 'all' | 'any'): readonly string[] {
  const partsOf = (meaning: string): readonly (readonly [key: string, words: string])[] => {
    const whole = conditionParts({ meaning });
    if (whole === undefined) return [[meaning, wholeText(meaning)]];
    if (whole.kind === 'always') return [];
    const parts = whole.kind === kind ? whole.of : [whole];
    return parts.map((part) => [JSON.stringify(part), partText(part)]);
  };
  const known = new Set(partsOf(before).map(([key]) => key));
  return partsOf(now).flatMap(([key, words]) => (known.has(key) ? [] : [words]));
}

export const conditions: Wordings<keyof ConditionSentences> = {
  condition: ({ meaning, description }) => {
    if (description !== undefined) return description;
    return wholeText(meaning);
  },
};
