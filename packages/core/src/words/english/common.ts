import { displayOf } from '@dwellward/profiles';
import { scheduleText } from '@dwellward/policy';
import type { Name, When } from '../../model/sentences.js';
import type { NameSentences, WordSentences } from '../../model/sentences/common.js';
import { instantMs } from '../../timeline/calendar.js';
import type { Wordings } from '../language.js';
import { factValueText, factWords } from './facts.js';
import { amountText, rangeText } from './quantities.js';
import { clockText, dayText, momentText, recordedText, relativeText } from './times.js';

export const names: Wordings<keyof NameSentences> = {
  'the-line': () => 'the line',
  'the-exit-site': () => 'the exit site',
  'the-vein-incision': () => 'the vein incision',
  'the-lumen': () => 'the lumen',
  'lumen-number': ({ number }) => numbered(number),
  named: ({ name }) => name,
  'planned-line': () => plannedLine,
};

const plannedLine = 'Planned line';
const numbered = (number: number) => `lumen ${number}`;

/** What a name is without its article. */
export function shortName(name: Name): string {
  switch (name.code) {
    case 'the-line':
      return 'line';
    case 'the-exit-site':
      return 'exit site';
    case 'the-vein-incision':
      return 'vein incision';
    case 'the-lumen':
      return 'lumen';
    case 'lumen-number':
      return numbered(name.number);
    case 'planned-line':
      return plannedLine;
    case 'named':
      return name.name;
  }
}

/** `lumen red`, `lumen 2`, or just `lumen`: the word stands once, also where the record’s own name begins with it. */
export function lumenNamed(name: Name): string {
  const short = shortName(name);
  const [first = ''] = short.split(' ');
  return first.toLowerCase() === 'lumen' ? `lumen${short.slice(first.length)}` : `lumen ${short}`;
}

export const words: Wordings<keyof WordSentences> = {
  'short-name': ({ of }) => shortName(of),
  'policy-text': ({ text }) => text,
  'outside-text': ({ text }) => text,
  'calculator-text': ({ text }) => text,
  'line-as-a-whole': () => 'the line as a whole',
  fact: ({ fact }) => factWords(fact).text,
  'fact-noun': ({ fact }) => factWords(fact).noun,
  activity: ({ activity }) => displayOf('lineCareActivity', activity),
  finding: ({ finding }) => displayOf('lineFinding', finding),
  'lumen-state': ({ state }) => displayOf('lumenState', state),
  'due-state': ({ state }) => state,
  schedule: ({ schedule }, { say }) =>
    scheduleText(schedule, ({ meaning }) => say({ code: 'condition', meaning })),
  clock: ({ at }, { calendar }) => clockText(msOf(at), calendar),
  moment: ({ at }, { calendar }) => momentText(msOf(at), calendar),
  'recorded-time': ({ time }, { calendar }) => recordedText(time, calendar),
  'fact-value': ({ fact, value }, speech) => factValueText(fact, value, speech),
  day: ({ at }, { calendar }) => dayText(msOf(at), calendar),
  relative: ({ ms }) => relativeText(ms),
  amount: ({ value, unit }) => amountText(value, unit),
  range: ({ value }) => rangeText(value),
};

/** A time in milliseconds since 1970 UTC. */
export function msOf(at: When): number {
  return typeof at === 'number' ? at : instantMs(at);
}

/** The display of a code, as its code system has it. */
export const display = displayOf;

/** The same within a sentence. */
export function lowerDisplay(system: Parameters<typeof displayOf>[0], code: string): string {
  return displayOf(system, code).toLowerCase();
}

/** `1 line`, `2 lines`. */
export function plural(count: number, noun: string, many = `${noun}s`): string {
  return `${count} ${count === 1 ? noun : many}`;
}

/** With a capital letter at its start. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** What others wrote, to stand before our own full stop: without its own. */
export function unstopped(text: string): string {
  let end = text.length;
  while (text.charAt(end - 1) === '.') end -= 1;
  return text.slice(0, end);
}
