import { displayOf, findingRow, type LineCareActivity, type LineFinding } from '@dwellward/profiles';
import type { Ending } from './condition.js';
import type { Begins, Rule, Span, TimeUnit, Trigger } from './model.js';

const names: Readonly<Record<TimeUnit, string>> = {
  min: 'minute',
  h: 'hour',
  d: 'day',
  wk: 'week',
  mo: 'month',
};
const dayNames = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

/** A span in English: `7 days`, `1 hour`. */
export function spanText(span: Span): string {
  return `${span.value} ${names[span.unit]}${span.value === 1 ? '' : 's'}`;
}

function everyText(span: Span): string {
  return span.value === 1 ? `every ${names[span.unit]}` : `every ${spanText(span)}`;
}

function joined(words: readonly string[], last: 'and' | 'or'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${last} ${words[words.length - 1]}`;
}

function activityText(activity: LineCareActivity): string {
  return displayOf('lineCareActivity', activity).toLowerCase();
}

function clockText(time: string): string {
  return time.endsWith(':00') && time.length === 8 ? time.slice(0, 5) : time;
}

function fixedText(begins: Extract<Begins, { kind: 'fixed-times' }>): string {
  const times = joined(begins.timesOfDay.map(clockText), 'and');
  const days = begins.daysOfWeek.map((day) => dayNames[day - 1] ?? `day ${day}`);
  return days.length === 0 ? `every day at ${times}` : `every ${joined(days, 'and')} at ${times}`;
}

function intervalText(begins: Extract<Begins, { kind: 'interval' }>): string {
  const parts = [everyText(begins.every)];
  if (begins.untilAfterInsertion !== undefined)
    parts.push(`until ${spanText(begins.untilAfterInsertion)} after the insertion`);
  if (begins.atMost !== undefined)
    parts.push(`at most ${begins.atMost} ${begins.atMost === 1 ? 'time' : 'times'}`);
  return parts.join(', ');
}

function beforeText({ of, offset, timesOfDay }: Extract<Begins, { kind: 'before' }>): string {
  const planned = `the planned ${activityText(of)}`;
  if (timesOfDay !== undefined) {
    const times = joined(timesOfDay.map(clockText), 'or');
    return `once, at the last ${times} that is ${spanText(offset)} or more before ${planned}`;
  }
  return offset.value === 0 ? `once, by ${planned}` : `once, ${spanText(offset)} before ${planned}`;
}

function findingText(finding: LineFinding, value?: string): string {
  const noun = displayOf('lineFinding', finding).toLowerCase();
  return value === undefined ? noun : `${valueText(finding, value)} ${noun}`;
}

function valueText(finding: LineFinding, value: string): string {
  const { valuesFrom } = findingRow(finding);
  return (valuesFrom === undefined ? value : displayOf(valuesFrom, value)).toLowerCase();
}

/** A trigger as the event that something is counted from. */
function triggerText(trigger: Trigger): string {
  if (trigger.kind === 'event') return `the ${activityText(trigger.activity)}`;
  const { finding, values } = trigger;
  if (values.length === 0) return `a finding of ${findingText(finding)}`;
  const words = values.map((value) => valueText(finding, value));
  return `a finding of ${joined(words, 'or')} ${findingText(finding)}`;
}

/** A trigger of what is due at once. */
function atOnceText(trigger: Trigger): string {
  if (trigger.kind === 'event') return `straight after the ${activityText(trigger.activity)}`;
  const { finding, values } = trigger;
  if (values.length === 0) return `at once after any finding of ${findingText(finding)}`;
  const words = values.map((value) => valueText(finding, value));
  const told = findingRow(finding).toldAs ?? `${findingText(finding)} is`;
  return `at once when ${told} ${joined(words, 'or')}`;
}

function endingText(ending: Ending): string {
  if ('done' in ending) return `the ${activityText(ending.done)}`;
  return 'found' in ending ? `${findingText(ending.found, ending.value)} is found` : 'it is put right';
}

/** What ends a rule; a stop condition that is no plain list is shown as it is written. */
function untilText({ stop }: Timed): string | undefined {
  if (stop === undefined) return undefined;
  return stop.ends === undefined ? stop.text : joined(stop.ends.map(endingText), 'or');
}

/** The same of what may come before its time. */
function unlessText({ stop }: Timed): string {
  if (stop === undefined) return '';
  if (stop.ends === undefined) return `, unless ${stop.text}`;
  const first = stop.ends.map((one) => ('done' in one ? `${endingText(one)} comes` : endingText(one)));
  return `, unless ${joined(first, 'or')} first`;
}

/** What of a rule says when it asks or forbids. */
export type Timed = Pick<Rule, 'effect' | 'begins' | 'stop' | 'lasts'>;

/** The same of a rule, without the rest of it. */
export function timedOf({ effect, begins, stop, lasts }: Rule): Timed {
  return { effect, begins, ...(stop ? { stop } : {}), ...(lasts ? { lasts } : {}) };
}

function askText(rule: Timed & { readonly begins: Extract<Begins, { kind: 'triggered' }> }): string {
  const { by, after } = rule.begins;
  if (after !== undefined && after.value > 0)
    return `${spanText(after)} after ${joined(by.map(triggerText), 'or')}${unlessText(rule)}`;
  const until = untilText(rule);
  return `${joined(by.map(atOnceText), 'or')}${until === undefined ? '' : `, until ${until}`}`;
}

function banText(rule: Timed): string {
  const { begins, lasts } = rule;
  if (begins.kind !== 'triggered') return 'not while it applies';
  const from = joined(begins.by.map(triggerText), 'or');
  if (lasts !== undefined) return `not within ${spanText(lasts)} after ${from}${unlessText(rule)}`;
  return `not from ${from} until ${untilText(rule) ?? 'further notice'}`;
}

/**
 * When a rule asks for its activity, or forbids it, in short English for people: `every 7 days`, `48 hours after the
 * repair`, `not within 2 hours after the repair`.
 */
export function scheduleText(rule: Timed): string {
  const { begins } = rule;
  if (rule.effect === 'forbid') return banText(rule);
  switch (begins.kind) {
    case 'interval':
      return intervalText(begins);
    case 'fixed-times':
      return fixedText(begins);
    case 'triggered':
      return askText({ ...rule, begins });
    case 'before':
      return beforeText(begins);
    case 'while':
      return 'as soon as it applies';
    case 'once':
      return 'once';
    case 'planned':
      return 'when it is ordered';
  }
}
