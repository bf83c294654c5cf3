import type { Priority } from '@dwellward/policy';
import type {
  DoneInTime,
  FeedSentences,
  HandoverSection,
  HandoverSentences,
} from '../../model/sentences/handover.js';
import type { Speech, Wordings } from '../language.js';
import { display, plural } from './common.js';
import { closedText } from './outputs.js';
import { lengthOfTime } from './times.js';

const sections: Readonly<Record<HandoverSection, string>> = {
  emergencies: 'EMERGENCIES, before all else',
  lumens: 'Lumens',
  overdue: 'Overdue',
  due: 'Due in this shift',
  held: 'Waiting for a hold to end',
  early: 'Can be done early',
  done: 'Done in the shift before',
  mind: 'Mind',
  take: 'Take',
  'take-for-all': 'Supplies for everybody on this list',
};

const priorities: Readonly<Record<Priority, string>> = {
  stat: 'EMERGENCY: ',
  asap: 'As soon as possible: ',
  urgent: 'Urgent: ',
  routine: '',
};

export const handovers: Wordings<keyof HandoverSentences> = {
  'in-the-record': ({ issue, resource }, { say }) => `In the record: ${say(issue)} (${resource})`,
  'read-protectively': ({ activities, remark }, { say }) =>
    `${activities.map((one) => display('lineCareActivity', one)).join(', ')}: ${say(remark)}`,
  'count-of': ({ count, what }, { say }) => `${count} x ${say(what)}`,
  'count-of-syringes': ({ count, sizeMl, where }) =>
    `${count} x syringe, ${where === 'unit' ? `barrel of a ${sizeMl} mL or wider` : `${sizeMl} mL or wider`}`,
  'volumes-for-lumen': ({ name, line, flushMl, flushes, lockMl, locks }, { say }) =>
    `${say({ code: 'short-name', of: name })} (${line}): ${[
      ...(flushes > 0 ? [`${plural(flushes, 'flush', 'flushes')}, at least ${flushMl} mL`] : []),
      ...(locks > 0 ? [`${plural(locks, 'lock')}, ${lockMl} mL`] : []),
    ].join('; ')}`,
  'volumes-in-all': ({ flushMl, lockMl }) => `in all: flush at least ${flushMl} mL, lock ${lockMl} mL`,
  'missing-for': ({ target, caution }, { say }) => `${say(target)}: ${say(caution)}`,
  'nothing-to-take': () => 'nothing',
  'together-fewer': () =>
    'Supplies are for what is overdue, due, expected or on hold, each item by itself: together it needs fewer.',
  'handover-head': ({ from, to, zone }, { say }) =>
    `Shift hand-over, ${say({ code: 'clock', at: from })} to ${say({ code: 'clock', at: to })} (${zone})`,
  'shift-before-began': ({ at }, { say }) => `The shift before began ${say({ code: 'clock', at })}.`,
  'handover-counts': ({ patients, lines, overdue, missed, due, held }) =>
    `${plural(patients, 'patient')}, ${plural(lines, 'line')} in place: ${overdue} overdue (${missed} missed in the shift before), ${due} due in the shift, ${held} on hold`,
  'handover-section': ({ section }) => sections[section],
  'emergency-of': ({ bed, patient, line, activity, target, title }, { say }) =>
    `${[...(bed ? [bed] : []), patient].join(', ')}, ${say(line)}: ${say({ code: 'activity-on', activity, targets: [target] })}. ${title}.`,
  'unit-not-on-record': ({ patients }) =>
    `Not on this list, because their unit is not on record: ${patients.join(', ')}.`,
  'mind-that': ({ warning }, { say }) => `Mind: ${say(warning)}`,
  'open-and-expected': () =>
    '[ ] open care. ( ) expected: not open yet, follows if the open care is done on time.',
  'nothing-due-in-shift': () => 'Nothing is due in this shift.',
  'not-in-place': ({ because }) => `Not in place: ${closedText(because)}.`,
  'not-in-yet': ({ plannedFor }, { say }) =>
    `Not in yet: planned for ${say({ code: 'clock', at: plannedFor })}.`,
  'shift-item': ({ priority, activity, targets, expected, missed }, { say }) =>
    `${priorities[priority]}${say({ code: 'activity-on', activity, targets })}${expected ? ', expected' : ''}${missed ? ', missed in the shift before' : ''}`,
  'can-be-early': ({ items }, { say }) =>
    `${items
      .map(
        ({ activity, target, dueBy }) =>
          `${say({ code: 'activity-on', activity, targets: [target] })} (by ${say({ code: 'clock', at: dueBy })})`,
      )
      .join('; ')}.`,
  'was-done': ({ activity, target, at, imprecise, timing }, speech) =>
    `${imprecise === undefined ? speech.say({ code: 'clock', at }) : speech.say({ code: 'recorded-time', time: imprecise })}  ${speech.say({ code: 'activity-on', activity, targets: [target] })}${timingText(timing, imprecise !== undefined, speech)}`,
};

function timingText(timing: DoneInTime, imprecise: boolean, { say }: Speech): string {
  const vague = imprecise ? '; the record gives no exact time' : '';
  switch (timing.is) {
    case 'on-time':
      return `, on time${vague}`;
    case 'late': {
      const by =
        timing.byMinutes < 1
          ? 'by less than a minute'
          : `by ${imprecise ? 'at least ' : ''}${lengthOfTime(timing.byMinutes * 60_000)}`;
      return `, late ${by}, was due ${say({ code: 'clock', at: timing.dueBy })}${vague}`;
    }
    case 'not-known':
      return timing.because === 'no-exact-time'
        ? `; due ${say({ code: 'clock', at: timing.dueBy })}, whether in time is not known: the record gives no exact time`
        : '; first on record: on time or late is not known';
    case 'not-asked-for':
      return vague;
  }
}

export const feeds: Wordings<keyof FeedSentences> = {
  'feed-summary': ({ urgency, held, patient, activity, target, line }, { say }) =>
    [
      urgency === 'emergency' ? 'EMERGENCY: ' : urgency === 'overdue' ? 'Overdue: ' : '',
      held ? 'On hold: ' : '',
      patient === undefined ? '' : `${patient}: `,
      say({ code: 'activity-on', activity, targets: [target] }),
      line === undefined ? '' : ` (${say(line)})`,
    ].join(''),
  'feed-description': ({ title, schedule, dueBy, zone, held }, { say }) =>
    `${title} (${say({ code: 'schedule', schedule })}): due by ${say({ code: 'clock', at: dueBy })} (${zone})${held === undefined ? '' : `, not before the hold ends (${held})`}.`,
  'may-be-done-from-now': ({ summary }) => `May be done from now: ${summary}`,
  'alarms-at': ({ from, to }) =>
    `Rings between ${from} and ${to}; what is pressing rings at any hour. What is done in one visit rings once.`,
  'due-soon': ({ summary }) => `Due soon: ${summary}`,
  'no-longer-open': () => 'No longer open: it was done, or is no longer asked for.',
};
