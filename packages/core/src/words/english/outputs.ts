import type { ClosedBecause } from '../../model/sentences/common.js';
import type {
  ApplySentences,
  CountedFromText,
  ExplainSentences,
  FhirSentences,
  OutputSentences,
  TableSentences,
} from '../../model/sentences/outputs.js';
import type { AskedWhen, FactName } from '@dwellward/policy';
import type { LineFinding } from '@dwellward/profiles';
import type { Speech, Wordings } from '../language.js';
import { display, lowerDisplay, plural, unstopped } from './common.js';
import { beyond } from './conditions.js';

export const outputs: Wordings<keyof OutputSentences> = {
  'asks-for-less': ({ rule: { title, published, now, reasons, by } }, { say }) => {
    const how = say({ code: 'how-much-less', published, ...(now === undefined ? {} : { now }) });
    return `The policy asks for less than its published source: ${title}, ${how}. By ${by.title}: ${reasons.join(' ')}`;
  },
  'how-much-less': ({ published, now }, speech) => {
    const were = speech.say({ code: 'schedule', schedule: published });
    return now === undefined ? `switched off (published: ${were})` : lessText(now, published, were, speech);
  },
  'advice-not-order': () =>
    'Advice, not an order. Local policy, the instructions of device and drug, and the licensed clinician come first.',
  'line-with': ({ name, line, type, lumens, plannedFor, repairs = [] }, { say }) => {
    const planned = plannedFor === undefined ? '' : `, planned for ${say({ code: 'clock', at: plannedFor })}`;
    const repaired = repairs.map(
      ({ at, lumen }) =>
        `; repaired ${say({ code: 'day', at })}${lumen === undefined ? '' : `, ${say(lumen)}`}`,
    );
    return `${say(name)} (${line}), ${type === undefined ? 'type not known' : lowerDisplay('lineType', type)}${lumens > 1 ? `, ${lumens} lumens` : ''}${planned}${repaired.join('')}`;
  },
  'name-not-known': () => 'Name not known',
  'activity-on': ({ activity, targets }, { list }) =>
    `${display('lineCareActivity', activity)}: ${list(
      targets.map((of) => ({ code: 'short-name', of })),
      ', ',
    )}`,
  'rule-and-schedule': ({ title, schedule }, { say }) => `${title} (${say({ code: 'schedule', schedule })}).`,
  'closed-because': ({ because }) => closedText(because),
};

/** What is asked for now instead of what was published: what both have in common is left out. */
function lessText(now: AskedWhen, published: AskedWhen, were: string, { say }: Speech): string {
  const are = say({ code: 'schedule', schedule: now });
  const acts = [now, published].map(
    ({ effect, activity }) =>
      `${effect === 'forbid' ? 'no ' : ''}${lowerDisplay('lineCareActivity', activity)}`,
  );
  const places = [now, published].map(({ scopes }) =>
    scopes.map((scope) => scope.replace('-', ' ')).join(' and '),
  );
  const meaningOf = (condition: { readonly meaning: string } | undefined) => condition?.meaning ?? '';
  const narrower = [
    ...beyond(now.applicability.meaning, published.applicability.meaning, 'all'),
    ...beyond(meaningOf(now.start), meaningOf(published.start), 'all').map(
      (words) => `${words} as it begins`,
    ),
  ];
  // Where an end has words of its own the schedule has said it.
  const ends = are === were ? beyond(meaningOf(now.stop), meaningOf(published.stop), 'any') : [];
  const more = [
    ...(narrower.length > 0 ? [`only where ${narrower.join(', and ')}`] : []),
    ...ends.map((words) => `also ended once ${words}`),
    ...(now.whenUnknown === published.whenUnknown || now.whenUnknown === 'protective'
      ? []
      : ['not where a fact is unknown']),
  ];
  const insteadOf = ([is, was]: readonly string[], lead = '') =>
    is === was || is === undefined ? [] : [`${lead}${is} instead of ${was ?? ''}`];
  return [
    ...insteadOf(acts),
    ...(are === were ? [are] : insteadOf([are, were])),
    ...insteadOf(places, 'on the '),
    ...more,
  ].join(', ');
}

const closedTexts: Readonly<Record<ClosedBecause, string>> = {
  'line-removed': 'line removed',
  'not-inserted-yet': 'not inserted yet',
  inserted: 'inserted',
  'plan-withdrawn': 'plan withdrawn',
  'entered-in-error': 'entered in error',
  'patient-deceased':
    'the patient has died: no care of the line is asked for, and last offices are not part of this',
};

/** Why a line is not in place, within a sentence. */
export function closedText(because: ClosedBecause): string {
  return closedTexts[because];
}

const resultNames: Partial<Record<FactName, string>> = {
  'labs.anc': 'Neutrophils',
  'labs.platelets': 'Platelets',
  'labs.inr': 'INR',
};

export const table: Wordings<keyof TableSentences> = {
  'table-head': ({ at, zone }, { say }) => `Line care due at ${say({ code: 'clock', at })} (${zone})`,
  'table-counts': ({ lines, planned, patients, emergencies, overdue, due, held, upcoming }) =>
    `${plural(lines, 'line')} in place, ${planned === 0 ? '' : `${planned} planned, `}${plural(patients, 'patient')}: ${emergencies === 0 ? '' : `${plural(emergencies, 'EMERGENCY', 'EMERGENCIES')}, `}${overdue} overdue, ${due} due, ${held} held, ${upcoming} upcoming`,
  'line-not-in-place': ({ name, line, because }, { say }) =>
    `Not in place: ${say(name)} (${line}), ${closedText(because)}.`,
  'things-to-put-right': ({ count }) => `${plural(count, 'thing')} in the record to put right:`,
  'patient-not-given': () => 'Patient not given',
  'by-time': ({ at }, { say }) => `By ${say({ code: 'clock', at })}.`,
  'open-later': ({ count, how }) =>
    `and ${count} that ${count === 1 ? 'opens' : 'open'} later${how === undefined ? '' : `; ${how} shows ${count === 1 ? 'it' : 'them'}`}`,
  'holds-together': ({ activities, on, until, after, findings, titles }, { say }) => {
    const where = on === undefined ? '' : ` on ${say(on)}`;
    const followed = after === undefined ? undefined : lowerDisplay('lineCareActivity', after);
    const end =
      until !== undefined ? `until ${say({ code: 'clock', at: until })}` : untilText(followed, findings);
    // Many titles say one thing of each activity: what they all follow says it shorter.
    const many = titles.length > 2 && followed !== undefined;
    const why = many ? `because of the ${followed}` : titles.join('; ');
    const said = many && until === undefined ? '' : ` (${why})`;
    return `Hold: no ${orText(activities.map((one) => lowerDisplay('lineCareActivity', one)))}${where} ${end}${said}`;
  },
  'result-is': ({ fact, value }, { say }) =>
    `${resultNames[fact] ?? say({ code: 'fact-noun', fact })} ${say({ code: 'fact-value', fact, value })}.`,
};

function orText(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

/** Until an act is done, or what is found shows that it may end. */
function untilText(followed: string | undefined, findings: readonly LineFinding[]): string {
  const found = [...new Set(findings.map((finding) => lowerDisplay('lineFinding', finding)))];
  const ends = [
    ...(followed === undefined ? [] : [`the ${followed} is done`]),
    ...(found.length === 0 ? [] : [`${found.join(' or ')} shows that it may end`]),
  ];
  return ends.length === 0 ? 'for now' : `until ${ends.join(', or until ')}`;
}

const basisTexts: Readonly<Record<CountedFromText['basis'], string>> = {
  event: 'counted from the last time',
  insertion: 'counted from the insertion',
  'earliest-event': 'counted from the earliest event on record',
  finding: 'since the finding',
  'chain-event': 'counted from the event before it',
  condition: 'since the rule has applied',
  plan: 'counted back from the planned time',
  nothing: 'with nothing on record to count from',
};

export const explaining: Wordings<keyof ExplainSentences> = {
  'item-is-due': ({ title, schedule, countedFrom, movedBy, dueBy, remarks, source }, speech) => {
    const moved = movedBy.length > 0 ? `, moved by ${movedBy.join(', ')}` : '';
    const said = remarks.map((remark) => ` ${speech.say(remark)}`).join('');
    const cited = source === undefined ? '' : ` Source: ${unstopped(source)}.`;
    // With nothing to count from it is due whenever it is looked at; a time here would change at every look.
    const due = countedFrom.basis === 'nothing' ? 'due now' : `due by ${speech.instant(dueBy)}`;
    return `${title} (${speech.say({ code: 'schedule', schedule })}), ${countedFromText(countedFrom, speech)}${moved}: ${due}.${said}${cited}`;
  },
  'counted-from': (from, speech) => countedFromText(from, speech),
  'done-it-is-met': ({ activity, target }, { say }) =>
    `${display('lineCareActivity', activity)} charted as completed on ${say(target)}: this item is met and the next one counts from there.`,
  'without-the-rule': ({ title, condition, next }, { say, instant }) =>
    `Without “${title}”${condition === undefined ? '' : `, which applies while ${say(condition)}`}: ${
      next === undefined
        ? 'no other rule would ask for it now'
        : `“${next.title}” would have it due by ${instant(next.dueBy)}`
    }.`,
  'would-come-in': ({ title, condition, schedule }, { say }) =>
    `“${title}” would come in ${condition === undefined ? '' : `if ${say(condition)}: `}${say({ code: 'schedule', schedule })}.`,
  'when-the-hold-ends': ({ title }) => `When the hold “${title}” ends, it may be done.`,
};

function countedFromText({ basis, ref, at, imprecise }: CountedFromText, { say, instant }: Speech): string {
  const when = imprecise
    ? `${say({ code: 'recorded-time', time: imprecise })}, no exact time`
    : at === undefined
      ? undefined
      : instant(at);
  return `${basisTexts[basis]}${when === undefined ? '' : ` on ${when}`}${ref === undefined ? '' : ` (${ref})`}`;
}

export const fhir: Wordings<keyof FhirSentences> = {
  'held-by': ({ title }) => `Held: ${title}`,
  'activity-at': ({ activity, target }, { say }) =>
    `${display('lineCareActivity', activity)}, ${say(target)}`,
  'flag-of-hold': ({ activity, target, title }, { say }) =>
    `${display('hold', activity)}, ${say(target)}: ${title}`,
  'flag-of-lumen': ({ state, name, why }, { say }) =>
    `${display('lumenState', state)}, ${say(name)}: ${say(why)}`,
  'issue-at': ({ resource, path, issue }, { say }) => `${resource}, ${path}: ${say(issue)}`,
  'nobody-asks': () =>
    'No longer asked for by the policy as the record now stands. Whoever has taken it finishes or closes it.',
  'worked-out': () => 'Due care worked out from the record and the policy',
};

export const applying: Wordings<keyof ApplySentences> = {
  'line-care': () => 'Line care',
  'proposals-not-orders': () =>
    'Advice, not an order: proposals for a clinician to take up, worked out from the record and the policy.',
  proposed: ({ activity, target, others }, { say, instant }) => {
    const also = others.map(({ title, dueBy }) => `${title}, due by ${instant(dueBy)}`);
    return `${display('lineCareActivity', activity)}, ${say(target)}.${also.length > 0 ? ` Also applicable: ${also.join('; ')}.` : ''}`;
  },
  'no-line-of-subject': () => 'No line of the subject is on record: there is nothing to propose.',
  'held-back': ({ activity, target, until, title }, { say, instant }) =>
    `Hold: no ${lowerDisplay('lineCareActivity', activity)} on ${say(target)} ${until === undefined ? 'for now' : `until ${instant(until)}`} (${title}).`,
  'line-is-not-in-place': ({ line, because }) => `${line} is not in place: ${closedText(because)}.`,
  'lines-to-put-right': ({ count }) => `${count} things in the record of the lines are to be put right.`,
};
