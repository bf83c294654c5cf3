import type { CardHook, CardSentences, NotReadBecause } from '../../model/sentences/cards.js';
import type { Wordings } from '../language.js';
import { plural } from './common.js';

const notRead: Readonly<Record<NotReadBecause, string>> = {
  'no-answer': 'the FHIR server gives no answer now',
  refused: 'the FHIR server refuses to give it',
  'no-such-patient': 'the FHIR server knows of no such patient',
  'other-server': 'it is on a FHIR server that is not read here',
  'several-patients': 'what came is about more than one patient',
  error: 'of an error here',
};

const titles: Readonly<Record<CardHook, string>> = {
  'patient-view': 'Line care due',
  'order-select': 'Line care: orders as they are selected',
  'order-sign': 'Line care: orders before they are signed',
};

const descriptions: Readonly<Record<CardHook, string>> = {
  'patient-view':
    'What care each central venous line of the patient needs now, what must not be done to it, and what was not understood of the record.',
  'order-select': 'Whether a selected order goes against what must not be done to a line of the patient.',
  'order-sign': 'Whether an order goes against what must not be done to a line of the patient.',
};

export const cards: Wordings<keyof CardSentences> = {
  'card-of-line': ({ name, emergencies, overdue, due, first }, { say }) => {
    const counts = [
      ...(emergencies === 0 ? [] : [plural(emergencies, 'EMERGENCY', 'EMERGENCIES')]),
      ...(overdue === 0 ? [] : [`${overdue} overdue`]),
      ...(due === 0 ? [] : [`${due} due`]),
    ];
    return `${say(name)}: ${counts.join(', ')}. First: ${say({ code: 'activity-on', ...first })}`;
  },
  'card-not-understood': ({ resources, kinds }) =>
    `Not understood: ${plural(resources, 'resource')} of ${plural(kinds, 'kind')}. Care or signs charted in ${resources === 1 ? 'it' : 'them'} count here for nothing.`,
  'record-not-read': ({ because }) =>
    `The record could not be read, because ${notRead[because]}. Nothing is known here of the lines.`,
  'record-not-whole': () =>
    'The record as it was read may not be whole: care and holds may be missing here, or be out of date.',
  'lumens-not-looked-for': () => 'Lumens that do not say themselves whose they are were not looked for yet.',
  'record-as-done': ({ activity, targets }, { say }) =>
    `Record as done now: ${say({ code: 'activity-on', activity, targets })}`,
  'order-meets-hold': ({ line, named, hold }, { say }) =>
    named ? `${say(line)}: ${say(hold)}` : `If it is to go through ${say(line)}: ${say(hold)}`,
  'order-not-understood': () =>
    'An order names a line, and what it orders is not understood: it was not held against what must not be done.',
  'order-is': ({ ref, activity, text }, { say }) => `${text ?? say({ code: 'activity', activity })} (${ref})`,
  'cards-title': ({ hook }) => titles[hook],
  'cards-description': ({ hook }) => descriptions[hook],
};
