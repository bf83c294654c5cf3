import { displayOf } from '@dwellward/profiles';
import type { Analyte, AsSent, SentQuantity } from '../../model/basics.js';
import type { ForbiddenBy, Name, Part, Unusable } from '../../model/sentences.js';
import type {
  AgainstHoldSentences,
  DeviceIssueSentences,
  EventIssueSentences,
  InputIssueSentences,
  PlannedIssueSentences,
  ResultIssueSentences,
  TaskIssueSentences,
  TimeIssueSentences,
  UnansweredSentences,
  UnusableSentences,
} from '../../model/sentences/issues.js';
import type { Speech, Wordings } from '../language.js';
import { lowerDisplay, unstopped } from './common.js';
import { elementText } from './understanding.js';
import { amountText, unitText } from './quantities.js';
import { recordedText } from './times.js';

export const unusable: Wordings<keyof UnusableSentences> = {
  'no-value': () => 'there is no value',
  'below-zero': ({ value }) => `${value} is below zero`,
  'no-unit': () => 'there is no unit, and the value alone is ambiguous',
  'comparator-not-known': ({ comparator }) => `the comparator “${comparator}” is not one of <, <=, >=, >`,
  'not-exact': () => 'it is not exact',
  'no-time': () => 'it is no date or time of FHIR',
  'no-such-offset': ({ offset }) => `no clock is ${offset} from UTC`,
  'year-not-plausible': ({ year }) => `the year ${String(year).padStart(4, '0')} can’t be meant`,
  'no-resource-here': () => 'There is no FHIR resource here',
  'no-resource-type': () => 'The resource does not say what type it is',
  'nested-too-deep': () => 'It is nested too deeply to be a resource of FHIR',
  'no-such-resource-type': ({ type }) => `FHIR has no resource of type ${type}`,
};

const untoldText = {
  lumens: 'how many lumens it has and which of them was meant: what is done to one counts for the whole line',
  'dressing-type': 'which dressing is on',
  'what-runs': 'what runs through it',
} as const;

export const deviceIssues: Wordings<keyof DeviceIssueSentences> = {
  'line-type-not-known': ({ given }) =>
    `The type of this line is not known${given === undefined ? '' : ` (“${given}”)`}; rules for every type it might be are applied.`,
  'type-by-insertion': ({ type, own }) =>
    `The Device ${own === undefined ? 'does not say which type of line it is' : `says only “${displayOf('lineType', own)}”`}; the code of its insertion says more, and it is read as: ${displayOf('lineType', type)}. Find out which line it is, and say so on the Device.`,
  'insertion-says-another-type': ({ type, said }) =>
    `The Device says ${displayOf('lineType', type)} and the code of its insertion ${displayOf('lineType', said)}; the Device is believed. Find out which line it is.`,
  'lumen-counts-differ': ({ counted, onRecord }) =>
    `The line says it has ${counted} lumens, and ${onRecord} are on record; those on record are used.`,
  'property-not-used': ({ property, reason }, speech) =>
    notUsed(`The ${lowerDisplay('lineProperty', property)}`, reason, speech),
  'device-not-active': ({ status, reason }) =>
    `The Device is marked “${status}”${reason === undefined ? '' : ` (${reason})`}, and no removal is on record: its care goes on until the removal is charted. If the line is out, chart when.`,
  'use-ended-not-completed': ({ status }) =>
    `The use of this line has an end, and its status is “${status}”, not “completed”: the line counts as in place until its removal is charted.`,
  'use-completed-without-end': () =>
    'The use of this line is completed, and when it ended is not said: the line counts as in place until its removal is charted.',
  'use-time-is-no-start': () =>
    'The use names one time at which the line was in use. Since when it is in place is not known by that; chart the insertion.',
  'body-sites-differ': ({ sites }) =>
    `The record has this line on both sides of the body (${sites.join('; ')}). Find out which line it is: two may be mixed up.`,
  'merged-into': ({ into }) =>
    `This record was merged into ${into}: what names this patient is read as that patient’s.`,
  'merged-not-followed': ({ into }) =>
    `The record says that it was merged (${into.join(', ')}), and where it went can’t be told from the input. It is read by itself: look at both records, care may stand in the other one.`,
  'patient-by-extension': ({ url, patient }) =>
    `The Device names ${patient} only in the extension ${url}; it is read as that patient’s.`,
  'line-of-several-patients': ({ patients, used }) =>
    `The Device names no patient, and what was done with it names several (${patients.join(', ')}); it is read as ${used}’s. Find out whose line it is.`,
  'lumen-of-no-line': ({ line = '(none given)' }) =>
    `The lumen’s line ${line} is not in the record; the lumen is not used.`,
  'lumen-of-lumen': ({ parent }) =>
    `The lumen names ${parent} as its line, which is a lumen itself; the lumen is not used. Name the line as its parent.`,
  'line-without-patient': () => 'The line names no patient, and nothing else says whose it is.',
  'patient-not-in-record': ({ patient }) =>
    `The patient ${patient} is not in the record; age and name are not known.`,
};

export const eventIssues: Wordings<keyof EventIssueSentences> = {
  'infusion-through-no-line': ({ device }) =>
    `It went through a device${device ? `, “${device}”,` : ''} that nothing points to; whether it runs through a line is not known.`,
  'activity-on-no-line': ({ activity }) =>
    `The ${lowerDisplay('lineCareActivity', activity)} does not say on which line it was done; it is not used.`,
  'tip-outcome-not-readable': () =>
    'The outcome of this tip confirmation is none that can be read: the tip counts as not confirmed.',
  'period-without-end': () =>
    'The event is completed but its period has no end; its start is used, the earlier reading.',
  'event-without-time': () => 'The event has no time that can be read; it does not count.',
  'insertion-without-time': () =>
    'The insertion is completed and has no time that can be read: the line counts as in place.',
  'insertion-still-to-come': ({ at }, { say }) =>
    `The insertion is completed, and its time is still to come: ${say({ code: 'moment', at })}. The line is asked nothing of until then. Is the time right?`,
  'done-still-to-come': ({ what, at, more }, { say }) =>
    `The ${'activity' in what ? lowerDisplay('lineCareActivity', what.activity) : `finding ${lowerDisplay('lineFinding', what.finding)}`} is charted, and its time is still to come: ${say({ code: 'moment', at })}${more > 0 ? `; so it is of ${more} more` : ''}. Nothing counts before its time. Is the date right?`,
  'finding-without-time': ({ finding }) =>
    `The finding ${lowerDisplay('lineFinding', finding)} has no time that can be read; it is not used.`,
  'finding-on-no-line': ({ finding }) =>
    `The finding ${lowerDisplay('lineFinding', finding)} does not say on which line; it is not used.`,
  'finding-without-value': ({ finding }) =>
    `The finding ${lowerDisplay('lineFinding', finding)} has no value that can be read; it brings nothing about.`,
  'not-a-value-of-finding': ({ given, finding }) =>
    `“${given}” is not a value of ${lowerDisplay('lineFinding', finding)}; the finding brings nothing about.`,
  'not-a-dressing': ({ given, another }) =>
    `“${given}” is not a type of dressing; ${another ? 'it is left out' : 'which dressing was put on is not known'}.`,
  'length-not-used': ({ reason }, speech) => notUsed('The length', reason, speech),
  'infusion-end-not-given': () =>
    'The infusion is no longer running, but its end is not given; what the lumen is used for is not known.',
  'on-no-line-of-record': ({ what, device }) =>
    `The ${what} is on ${device}, which is no line or lumen of this record; it is not used.`,
  'on-line-of-another-patient': ({ what, subject, owner }) =>
    `The ${what} is for ${subject}, and the line belongs to ${owner}; it is not used.`,
  'lumen-not-said': ({ activity, lumens }) =>
    `The ${lowerDisplay('lineCareActivity', activity)} was charted on a line with ${lumens} lumens without saying which; it counts for none of them.`,
};

export const inputIssues: Wordings<keyof InputIssueSentences> = {
  'one-of-several-elements': ({ elements }) =>
    `There may be one of ${elements.join(' and ')}, and there are ${elements.length}: none of them is used.`,
  'element-left-out': ({ reason }, { say }) =>
    `The element can’t be read (${say(reason)}) and was left out; the rest of the resource is used.`,
  'time-not-used': ({ given, reason }, { say }) =>
    `The time “${given}” can’t be used: ${unstopped(say(reason))}. It counts as not known.`,
  'input-not-whole': ({ reason }, { say }) =>
    `${unstopped(say(reason))}. What is missing counts as not done.`,
  'not-understood': (element) =>
    `${elementText(element)} is not understood: what is charted with it counts for nothing. Add a code that is known, or have it mapped.`,
  'read-by-text': ({ text, as, resources }) =>
    `The text “${text}” has no code and is read as ${as}, as the map of codes says (${resources === 1 ? 'one entry' : `${resources} entries`}). Make sure that nothing else is meant by it.`,
  'on-only-line': ({ resources }) =>
    `${resources === 1 ? 'One entry names' : `${resources} entries name`} no line; they are taken for this one, the only line that could be meant.`,
  'line-by-chart': ({ type, resources, untold }) =>
    `No Device stands for this line: it was worked out from ${resources} rows of the chart of one stay, as ${displayOf('lineType', type)}. ${untold.length === 0 ? '' : `The chart does not tell ${untold.map((one) => untoldText[one]).join('; ')}.`}`.trim(),
  'another-version': ({ said, found, elements, resources }) =>
    `${said} is said to be the version of FHIR, and ${resources === 1 ? 'it has' : `${resources} resources have`} ${elements.join(', ')} as ${found} does: read as ${found}. Say which version it is, or have it put right.`,
  'several-of-one-id': ({ resources, elements }) =>
    `There are ${resources} of this type and id, and they differ in ${elements.join(', ')}. None of them counts as the right one: what they disagree on is not known. Put right which one holds.`,
  'nothing-of-it-used': ({ reason }, { say }) => `${unstopped(say(reason))}. Nothing of it was used.`,
};

const analytes: Readonly<Record<Analyte, string>> = {
  neutrophils: 'neutrophil count',
  leucocytes: 'leucocyte count',
  neutrophilsPercent: 'share of neutrophils',
  segmentedPercent: 'share of segmented neutrophils',
  bandsPercent: 'share of bands',
  segmented: 'count of segmented neutrophils',
  bands: 'count of bands',
  platelets: 'platelet count',
  weight: 'weight',
  inr: 'INR',
};

function withinText({
  lowest,
  highest,
  unit,
  ageDays,
}: {
  readonly lowest: string;
  readonly highest: string;
  readonly unit: string;
  readonly ageDays?: number;
}): string {
  const age = ageDays === undefined ? '' : ` at an age of ${ageDays} days`;
  return `accepted: ${lowest} to ${amountText(highest, unit)}${age}`;
}

export const resultIssues: Wordings<keyof ResultIssueSentences> = {
  'as-sent': ({ sent }) => sentText(sent),
  'part-of-no-count': ({ sent }) =>
    `${productText(sent)} makes no neutrophil count: what belongs to it is not on record of the same collection.`,
  'result-without-patient': () => 'The result names no patient; it is not used.',
  'result-without-time': () => 'The result has no time that can be read; it is not used.',
  'result-without-quantity': ({ analyte }) => `The ${analytes[analyte]} has no quantity; it is not used.`,
  'result-charted-as-text': ({ analyte, text }) =>
    `The ${analytes[analyte]} is charted as text, “${text}”, not as a quantity; it is not used.`,
  'result-not-used': ({ sent, reason }, speech) => notUsed(`The value ${sentText(sent)}`, reason, speech),
  'result-too-high': ({ sent }) => `The value ${sentText(sent)} is more than there can be; it is not used.`,
  'value-not-believed': ({ sent, ...within }) =>
    `The value ${productText(sent)} can’t be right (${withinText(within)}): it is read as not known, and no older one takes its place. Measure or ask again, and chart it anew; unit and date of birth may be wrong.`,
  'value-to-be-asked-about': ({ sent, ...within }) =>
    `The value ${productText(sent)} is unusual (${withinText(within)}): it is used. Ask whether value, unit and date of birth are right.`,
  'weight-jumped': ({ sent, before, beforeAt }, { say }) =>
    `The weight ${productText(sent)} is less than half, or more than twice the ${productText(before)} of ${say({ code: 'recorded-time', time: beforeAt })}: one of the two can’t be right, pounds and kilograms may be mixed up. Weigh again. Until then it is read as anything between them, the lower for every limit, and no dose is worked out from it.`,
  'results-disagree': ({ sent, used }) =>
    `Results of one collection disagree (${sent.map(productText).join('; ')}); the ${used} is used.`,
  'shares-above-hundred': () =>
    'The percentages of this differential count add up to more than 100; no neutrophil count was worked out.',
  'volume-not-used': ({ sent, reason }, speech) => notUsed(`The volume ${sentText(sent)}`, reason, speech),
  'temperature-without-patient': () => 'The temperature names no patient; it is not used.',
  'temperature-without-quantity': () => 'The temperature has no quantity; it is not used.',
  'temperature-without-time': () => 'The temperature has no time that can be read; it is not used.',
  'temperature-in-unknown-unit': ({ sent }) =>
    `The temperature ${sentText(sent)} can’t be used: it is neither in °C nor in °F.`,
  'temperature-impossible': ({ sent }) =>
    `The temperature ${sentText(sent)} is none that a patient can have; it is not used.`,
};

export const plannedIssues: Wordings<keyof PlannedIssueSentences> = {
  'order-without-line': ({ activity }) =>
    `${displayOf('lineCareActivity', activity)} is ordered, and no line of the patient is on record.`,
  'order-of-no-line': ({ activity, device }) =>
    `${displayOf('lineCareActivity', activity)} is ordered for ${device}, which is not known as a line of this patient; the order is not used. Find out which line it is for.`,
  'order-without-patient': () => 'The order names no patient; it is not used.',
  'order-without-time': () =>
    'The order has no time that can be read; it is not used. The policy’s own rules still apply.',
  'order-timing-not-kept': ({ reason }, { say }) =>
    `The order’s timing can’t be kept: ${unstopped(say(reason))}. The policy’s own rules still apply.`,
  'another-insertion-planned': ({ others }) =>
    `Another insertion is planned for this patient (${others.join(', ')}): where it is the same line, withdraw one.`,
  'planned-with-anothers-device': ({ patient, device, owner }) =>
    `The insertion is planned for ${patient}, and ${device}, which it names, belongs to ${owner}: it is read as a line to come of ${patient}. Find out whose line it is.`,
  'planned-without-patient': () => 'The planned insertion names no patient; nothing is prepared for it.',
  'planned-without-time': () =>
    'The planned insertion has no time that can be read; what takes a day or more is due at once, the rest waits for the time.',
  'booking-cancelled': ({ orderedFor }, { calendar }) =>
    `Its appointment was cancelled and no new one is on record; ${orderedFor ? `the time of the order, ${recordedText(orderedFor, calendar)}, counts` : 'no other time is on record'}.`,
};

export const timeIssues: Wordings<keyof TimeIssueSentences> = {
  'planned-insertion-passed': ({ plannedFor }, { instant }) =>
    `The insertion was planned for ${instant(plannedFor)}, and none is on record: chart it, or move or withdraw the plan. Its preparation stays due.`,
  'insertion-not-on-record': ({ countsFrom }) =>
    `No insertion of this line is on record: ${countsFrom === 'earliest-event' ? 'its earliest event is counted from' : 'and nothing else to count from'}.`,
  'time-of-insertion-not-known': ({ countsFrom }) =>
    `The line was put in, and when can’t be read: ${countsFrom === 'earliest-event' ? 'its earliest event is counted from' : 'and nothing else to count from'}.`,
  'more-than-one-insertion': () =>
    'More than one insertion of this line is on record; the first is counted from.',
  'more-than-one-removal': () =>
    'More than one removal of this line is on record; what follows a removal counts from the last.',
  'finding-must-name-line': ({ finding }) =>
    `The finding ${lowerDisplay('lineFinding', finding)} names one of several lumens: it says nothing of the line, and the hold on the line goes on. Chart it on the line, or on every lumen at one time.`,
  'two-count-as-one': ({ activity, minutesApart }) =>
    `The ${lowerDisplay('lineCareActivity', activity)} is on record twice, up to ${minutesApart} min apart; the two count as one, done at the earlier time.`,
  'dated-before-insertion': ({ activity }) =>
    `The ${lowerDisplay('lineCareActivity', activity)} is dated before the line was inserted.`,
  'dated-after-removal': ({ activity }) =>
    `The ${lowerDisplay('lineCareActivity', activity)} is dated after the line was removed.`,
  'repair-of-unsaid-lumen': ({ damaged }, speech) =>
    `The repair does not say of which lumen: damage of ${partsText(damaged, speech)} was on record. It stands until a repair names its lumen.`,
  'repair-of-another-lumen': ({ repaired, damaged }, speech) =>
    `The repair names ${speech.say(repaired)}, the damage ${partsText(damaged, speech)}: it stands until the line, or each of its lumens, was repaired.`,
};

export const taskIssues: Wordings<keyof TaskIssueSentences> = {
  'done-by-task-alone': ({ activity, at, times }, { instant }) =>
    `The Task of this ${activity} was marked as done on ${instant(at)}, and nothing was charted${times > 1 ? `, nor for ${times - 1} before it` : ''}. Chart it, or say that it was not done: until then it is not known to be done.`,
  'kept-by-two-policies': ({ policies }) =>
    `Two policies keep these Tasks and ask for different care: ${policies.join('; and ')}. Until one of them is switched off the earlier time stands, and nothing that either asks for is closed.`,
};

function partsText(parts: readonly Part[], { list }: Speech): string {
  return list(parts, ' and ');
}

function notUsed(what: string, reason: Unusable | undefined, { say }: Speech): string {
  return `${what} can’t be used${reason === undefined ? '' : `: ${unstopped(say(reason))}`}.`;
}

/** What was sent, for people; of what was worked out, its factors. */
export function productText(sent: AsSent): string {
  return sent.map(sentText).join(' × ');
}

export function sentText({ comparator = '', value, unit }: SentQuantity): string {
  const number = value === undefined ? '?' : String(value);
  const amount = unit === undefined ? `${number} (no unit)` : amountText(number, unit);
  return `${comparator}${amount}`;
}

export const againstHolds: Wordings<keyof AgainstHoldSentences> = {
  'started-against-hold': ({ lumen, at, by, since, rest }, speech) =>
    `The infusion${onText(lumen, speech)} was started${at === undefined ? '' : ` at ${speech.instant(at)}`} against the hold ${byText(by)} of ${speech.instant(since)}.${rest ? ` It runs. ${speech.say(rest)}` : ''}`,
  'runs-against-hold': ({ lumen, by, since, rest }, speech) =>
    `The infusion${onText(lumen, speech)} runs on while the hold ${byText(by)} of ${speech.instant(since)} forbids it. ${speech.say(rest)}`,
  'done-against-hold': ({ activity, on, at, by, since }, speech) =>
    `${displayOf('lineCareActivity', activity)} on ${speech.say(on)} was charted for ${speech.instant(at)} against the hold ${byText(by)} of ${speech.instant(since)}: find out whether it did harm, and tell the responsible clinician.`,
};

function onText(lumen: Name | undefined, { say }: Speech): string {
  return lumen === undefined ? '' : ` on ${say(lumen)}`;
}

function byText(by: readonly ForbiddenBy[]): string {
  return by.map(({ title }) => `“${title}”`).join(', ');
}

export const unanswered: Wordings<keyof UnansweredSentences> = {
  'finding-unanswered': (found, speech) =>
    `No rule of the policy in force answers this: ${unansweredText(found, speech)}. Tell the responsible clinician; nothing else here will ask for anything because of it.`,
};

/** A finding with its values, its place and its time, within a sentence. */
export function unansweredText(
  { finding, values, quantity, at, on }: UnansweredSentences['finding-unanswered'],
  speech: Speech,
): string {
  const { unit, low, high } = quantity ?? {};
  const amount = quantity
    ? [
        `${low === high ? low : `${low ?? '?'} to ${high ?? '?'}`} ${unit === undefined ? '' : unitText(unit)}`,
      ]
    : [];
  const said = [...values.filter((value) => value !== 'present').map(valueText), ...amount];
  return `${lowerDisplay('lineFinding', finding)}${said.length > 0 ? ` (${said.join(', ')})` : ''}${onText(on, speech)}, found ${speech.say({ code: 'clock', at })}`;
}

function valueText(value: string): string {
  return value.replaceAll('-', ' ');
}
