import type { codeSystem } from '@dwellward/profiles';
import type { Concern, ReadAs, Standing } from '../../model/codes.js';
import type { CodeSentences } from '../../model/sentences/codes.js';
import type { Wordings } from '../language.js';
import { display } from './common.js';

const heads: Readonly<Record<Standing, string>> = {
  'not-understood':
    'Not understood; each concerns a line, and counts for nothing until a map says what it is',
  'passed-over': 'Passed over; nothing shows that they concern a line',
  read: 'Read',
};

/** What would change, were it understood. */
const changes: Readonly<Record<Concern, string>> = {
  line: 'which lines there are, and all their care',
  act: 'when care was last done',
  dressing: 'which dressing is on, and so how often it is changed',
  finding: 'what was found, measured, or charted as done',
  'finding-value': 'what was found, and what is to be done about it',
  'line-property': 'what is known of the line',
  drug: 'what runs, and what must not be stopped',
  blood: 'how much blood was drawn',
  alert: 'what the patient does not bear',
};

const systems: Partial<Readonly<Record<ReadAs['kind'], keyof typeof codeSystem>>> = {
  'line-type': 'lineType',
  'line-property': 'lineProperty',
  activity: 'lineCareActivity',
  finding: 'lineFinding',
  'finding-value': 'findingValue',
  dressing: 'dressingType',
  securement: 'securementType',
  'charted-item': 'chartedItem',
  infusate: 'infusate',
  substance: 'substance',
};

const kinds: Partial<Readonly<Record<ReadAs['kind'], string>>> = {
  result: 'the result',
  drug: 'the drug',
  blood: 'blood',
  temperature: 'body temperature',
  'other-business': 'of no line',
};

export const codes: Wordings<keyof CodeSentences> = {
  'codes-head': ({ standing, codes: count }) => `${heads[standing]}: ${count}`,
  'code-seen': ({ seen }) => {
    const { count, patients, path, system, code, text, standing, concern, readAs, onLine } = seen;
    const name = code === undefined ? '(no code)' : system === undefined ? code : `${system}|${code}`;
    const of = patients > 0 ? ` of ${patients} ${patients === 1 ? 'patient' : 'patients'}` : '';
    const end =
      standing === 'read' && readAs !== undefined
        ? `read as ${readText(readAs)}`
        : `would tell ${changes[concern]}${onLine ? '; on a line' : ''}`;
    return `${count} ×${of}, ${path}, ${name}${text === undefined ? '' : ` “${text}”`}: ${end}`;
  },
  'code-values': ({ values }) => `values: ${values.join('; ')}`,
  'codes-left-out': ({ standing, codes: count }) =>
    `and ${count} more ${standing === 'read' ? 'that are read' : 'that nobody needed'}: --all, or --format json, has them.`,
  'codes-next': ({ unclear }) =>
    unclear === 0
      ? 'Every code that concerns a line is understood.'
      : '--start writes a map of them to fill in; --map FILE then reads by it.',
};

function readText({ kind, code }: ReadAs): string {
  const system = systems[kind];
  if (kind === 'line-type' && code === 'unknown') return 'a line whose type is not known';
  if (system !== undefined) return display(system, code);
  const said = kinds[kind];
  return kind === 'result' || kind === 'drug' ? `${said} ${code}` : (said ?? code);
}
