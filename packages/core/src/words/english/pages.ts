import type { ExplainPageSentences, Heading } from '../../model/sentences/pages.js';
import type { Wordings } from '../language.js';
import { display, lowerDisplay } from './common.js';
import { closedText } from './outputs.js';

const headings: Readonly<Record<Heading, string>> = {
  'before-first-step': 'BEFORE THE FIRST STEP',
  'ask-first': 'Ask first',
  'not-now': 'NOT NOW',
  steps: 'Steps',
  take: 'Take',
  mind: 'Mind',
  'blood-loss': 'Blood loss by sampling',
  source: 'Source',
  damage: 'Damage on record',
  preconditions: 'Preconditions',
  measures: 'Measures',
  now: 'Now',
  checklist: 'Checklist',
  'repaired-before': 'Repaired before',
  'why-source': 'source',
  'why-notes': 'also published, or why it differs',
  'why-facts': 'facts',
  'why-lumen': 'the lumen',
  'why-others': 'other rules that apply',
  'why-switched-off': 'switched off here',
  'why-mind': 'mind',
  'why-steps': 'steps',
  'why-take': 'take',
  'why-changes': 'what would change it',
};

export const pages: Wordings<keyof ExplainPageSentences> = {
  heading: ({ heading }) => headings[heading],
  'line-at': ({ name, line, patient, at }, { say, instant }) =>
    `${say(name)} (${line}), ${patient}, at ${instant(at)}`,
  'repaired-at': ({ at, lumen, ref }, { say, instant }) =>
    `repaired ${instant(at)}${lumen === undefined ? '' : `, ${say(lumen)}`} [${ref}]`,
  'why-not-in-place': ({ because, plannedFor, stillDue }, { instant }) => {
    const planned = plannedFor === undefined ? '' : ` Planned for ${instant(plannedFor)}.`;
    const rest = !stillDue
      ? 'Nothing is due.'
      : because === 'not-inserted-yet'
        ? 'What prepares the insertion is due.'
        : 'What follows the removal is still due.';
    return `Not in place: ${closedText(because)}.${planned} ${rest}`;
  },
  'nothing-asked-for': ({ activity }) =>
    activity === undefined
      ? 'Nothing is asked for by this policy.'
      : `This policy asks for no ${lowerDisplay('lineCareActivity', activity)}.`,
  'wrong-in-record': ({ resource, path, issue }, { say }) =>
    `In the record: ${say(issue)} (${[...new Set([resource, path])].join(', ')})`,
  'item-is': ({ activity, target, state }, { say }) =>
    `${display('lineCareActivity', activity)}, ${say(target)}: ${say({ code: 'due-state', state })}`,
  'may-be-done-from': ({ opens, dueBy }, { instant }) =>
    `may be done from ${instant(opens)}, due by ${instant(dueBy)}`,
  'by-rule': ({ id, title, schedule }, { say }) => `${title} (${say(schedule)}; rule ${id})`,
  'in-place-of': ({ schedule, layer, plan }, { say }) => `in place of ${say(schedule)} of ${layer}, ${plan}`,
  'applies-while': ({ condition }, { say }) => `applies while ${say(condition)}`,
  'fact-was': ({ fact, value, since, refs, remark }, { say, instant }) =>
    `${say({ code: 'fact-noun', fact })}: ${say({ code: 'fact-value', fact, value })}${since === undefined ? '' : ` since ${instant(since)}`}${refsText(refs)}${remark === undefined ? '' : `: ${say(remark)}`}`,
  'lumen-was': ({ state, since, because, why }, { say, instant }) =>
    `${lowerDisplay('lumenState', state)}${since === undefined ? '' : ` since ${instant(since)}`}${refsText(because)}: ${say(why)}`,
  'other-rule': ({ id, title, dueBy }, { instant }) => `${title}, due by ${instant(dueBy)} (rule ${id})`,
  'rule-switched-off': ({ id, title, schedule, by, notes }, { say }) =>
    `${title} (${say(schedule)}; rule ${id}), by ${by}${notes.length > 0 ? `: ${notes.join(' ')}` : ''}`,
};

function refsText(refs: readonly string[]): string {
  return refs.length > 0 ? ` [${refs.join(', ')}]` : '';
}
