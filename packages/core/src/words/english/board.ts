import { displayOf, findingRow, type LineCareActivity, type LineFinding } from '@dwellward/profiles';
import type { When } from '../../model/sentences/common.js';
import type { BoardSentences, ChartingSentences } from '../../model/sentences/board.js';
import type { Wordings } from '../language.js';
import { msOf } from './common.js';
import { timeOfDay } from './times.js';

const name = (activity: LineCareActivity) => displayOf('lineCareActivity', activity).toLowerCase();

export const charting: Wordings<keyof ChartingSentences> = {
  'charts-against-hold': ({ activity, on, title, until }, { say }) =>
    `No ${name(activity)} on ${say(on)} ${
      until === undefined ? 'for now' : `until ${say({ code: 'clock', at: until })}`
    }: ${title}. Was it done all the same?`,
  'charts-of-closed-line': ({ because, at }, { say }) =>
    `The line is not in place (${say({ code: 'closed-because', because })}${
      at === undefined ? '' : `, ${say({ code: 'clock', at })}`
    }). Was it done on this line?`,
  'charts-before-insertion': ({ at, insertedAt }, { say }) =>
    `${say({ code: 'moment', at })} is before the line was put in (${say({ code: 'moment', at: insertedAt })}). Is the time right?`,
  'charts-in-future': ({ at, now }, { say }) =>
    `${say({ code: 'moment', at })} is still to come: it is ${say({ code: 'moment', at: now })}. Only what was done can be recorded.`,
  'charts-twice': ({ activity, on, at }, { say }) =>
    `${displayOf('lineCareActivity', activity)} on ${say(on)} is on record at ${say({ code: 'clock', at })} already. Was it done twice?`,
  'charts-on-no-lumen': ({ activity }) =>
    `${displayOf('lineCareActivity', activity)} is done on one lumen: say on which.`,
  'charts-on-unknown': () => 'This line or lumen is not among those that are looked after here.',
  'charts-against-unknown': () =>
    'What must not be done to this line could not be worked out, because of an error of the software. Was it done all the same?',
  'charts-on-counted-lumen': ({ on }, { say }) =>
    `The record has no Device for ${say(on)}: recorded on the line it would count for no lumen, or for every one. It can be recorded here once the record system has a Device for each lumen.`,
  'charts-of-others': () => 'Only what was recorded here can be taken back here.',
};

export const board: Wordings<keyof BoardSentences> = {
  'dressing-is': ({ dressing }) => displayOf('dressingType', dressing),
  'finding-with': ({ finding, values, flag, quantity }, { say }) => {
    const told = [
      ...values.map((value) => valueText(finding, value).toLowerCase()),
      ...(flag === undefined ? [] : [flag ? 'yes' : 'no']),
      ...(quantity === undefined ? [] : [say({ code: 'range', value: quantity })]),
    ];
    return [displayOf('lineFinding', finding), told.join(', ')].filter(Boolean).join(': ');
  },
  'shift-band': ({ runs, from, until, items }, { calendar }) => {
    const clock = (at: When) => timeOfDay(msOf(at), calendar);
    const which = runs ? `This shift, until ${clock(until)}` : `${clock(from)} to ${clock(until)}`;
    return `${which}: ${items} due`;
  },
  'window-ended': ({ activity, outcome, dueBy, at }, { say }) => {
    const due = `due by ${say({ code: 'clock', at: dueBy })}`;
    const ended = {
      'on-time': 'on time',
      late: at === undefined ? 'late' : `late, ${say({ code: 'clock', at })}`,
      missed: 'not done',
      held: 'held when it was due',
    }[outcome];
    return `${displayOf('lineCareActivity', activity)}: ${due}; ${ended}`;
  },
  'finding-value': ({ finding, value }) => valueText(finding, value),
};

/** A value as the table of findings has it; a hospital’s own grade as it was sent. */
function valueText(finding: LineFinding, value: string): string {
  const { kind, values, valuesFrom } = findingRow(finding);
  if (valuesFrom !== undefined) return displayOf(valuesFrom, value);
  if (kind === 'components') return displayOf('lineFinding', value);
  return values?.[value]?.display ?? value.replaceAll('-', ' ');
}
