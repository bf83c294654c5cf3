import { displayOf, findingRow, type LineCareActivity, type LineFinding } from '@dwellward/profiles';
import type { Condition, Ending } from './condition.js';
import type { Begins, Rule, Span, TimeUnit, Trigger } from './model.js';

const names: Readonly<Record<TimeUnit, string>> = {
  min: 'minute',
  h: 'hour',
  d: 'day',
  wk: 'week',
  mo: 'month',
};
const dayNames = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

/**
 * A span in English: `7 days`, `1 hour`.
 * @example
 * ```ts
 * spanText({ value: 7, unit: 'd' }); // '7 days'
 * ```
 */
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

function intervalText({
  every,
  untilAfterInsertion: until,
  atMost,
}: Extract<Begins, { kind: 'interval' }>): string {
  if (atMost === 1 && until?.value === every.value && until.unit === every.unit)
    return `once, ${spanText(every)} after the insertion`;
  const parts = [everyText(every)];
  if (until !== undefined) parts.push(`until ${spanText(until)} after the insertion`);
  if (atMost !== undefined) parts.push(`at most ${atMost} ${atMost === 1 ? 'time' : 'times'}`);
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

function findingText(finding: LineFinding): string {
  return displayOf('lineFinding', finding).toLowerCase();
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

/** The triggers of what is due at once: acts, findings of any kind, findings with a value. */
function atOnceText(by: readonly Trigger[]): string {
  const acts = by.flatMap((one) => (one.kind === 'event' ? [activityText(one.activity)] : []));
  const found = by.flatMap((one) => (one.kind === 'finding' ? [one] : []));
  const any = found.filter(({ values }) => values.length === 0).map(({ finding }) => findingText(finding));
  const some = found
    .filter(({ values }) => values.length > 0)
    .map(({ finding, values }) => {
      const told = findingRow(finding).toldAs ?? `${findingText(finding)} is`;
      return `${told} ${joined(
        values.map((value) => valueText(finding, value)),
        'or',
      )}`;
    });
  return joined(
    [
      ...(acts.length > 0 ? [`straight after the ${joined(acts, 'or')}`] : []),
      ...(any.length > 0 ? [`at once after any finding of ${joined(any, 'or')}`] : []),
      ...(some.length > 0 ? [`at once when ${some.join(', or ')}`] : []),
    ],
    'or',
  );
}

/** What ends a rule, each kind of it once: findings with their values, acts, that it is put right. */
function endingTexts(ends: readonly Ending[], comes = ''): readonly string[] {
  const values = new Map<LineFinding, string[]>();
  for (const ending of ends) {
    if (!('found' in ending)) continue;
    const known = values.get(ending.found) ?? [];
    const { value } = ending;
    values.set(ending.found, value === undefined ? known : [...known, valueText(ending.found, value)]);
  }
  const nouns = [...values].map(([finding, of]) => `${joined(of, 'or')} ${findingText(finding)}`.trim());
  return [
    ...(nouns.length > 0 ? [`${joined(nouns, 'or')} is found`] : []),
    ...ends.flatMap((one) => ('done' in one ? [`the ${activityText(one.done)}${comes}`] : [])),
    ...(ends.some((one) => 'answered' in one) ? ['it is put right'] : []),
  ];
}

/** Words for a condition that is no plain list and has none of its own. */
type Worded = (condition: Condition) => string;

const asWritten: Worded = ({ text }) => text;

/** What ends a rule. */
function untilText({ stop }: Timed, worded: Worded): string | undefined {
  if (stop === undefined) return undefined;
  if (stop.description !== undefined) return stop.description;
  return stop.ends === undefined ? worded(stop) : joined(endingTexts(stop.ends), 'or');
}

/** The same of what may come before its time. */
function unlessText({ stop }: Timed, worded: Worded): string {
  if (stop === undefined) return '';
  if (stop.description !== undefined) return `, unless ${stop.description} first`;
  if (stop.ends === undefined) return `, unless ${worded(stop)}`;
  return `, unless ${joined(endingTexts(stop.ends, ' comes'), 'or')} first`;
}

/** What of a rule says when it asks or forbids. */
export type Timed = Pick<Rule, 'effect' | 'begins' | 'stop' | 'lasts'>;

/**
 * The same of a rule, without the rest of it.
 * @example
 * ```ts
 * const rule = defaultPolicy().rules.find(({ id }) => id === 'dressing-change-transparent');
 * rule && timedOf(rule).begins.kind; // 'interval'
 * ```
 */
export function timedOf({ effect, begins, stop, lasts }: Rule): Timed {
  return { effect, begins, ...(stop ? { stop } : {}), ...(lasts ? { lasts } : {}) };
}

function askText(
  rule: Timed & { readonly begins: Extract<Begins, { kind: 'triggered' }> },
  worded: Worded,
): string {
  const { by, after } = rule.begins;
  if (after !== undefined && after.value > 0)
    return `${spanText(after)} after ${joined(by.map(triggerText), 'or')}${unlessText(rule, worded)}`;
  const until = untilText(rule, worded);
  return `${atOnceText(by)}${until === undefined ? '' : `, until ${until}`}`;
}

function banText(rule: Timed, worded: Worded): string {
  const { begins, lasts } = rule;
  if (begins.kind !== 'triggered') return 'not while it applies';
  const from = joined(begins.by.map(triggerText), 'or');
  if (lasts !== undefined) return `not within ${spanText(lasts)} after ${from}${unlessText(rule, worded)}`;
  return `not from ${from} until ${untilText(rule, worded) ?? 'further notice'}`;
}

/**
 * When a rule asks for its activity, or forbids it, in short English for people: `every 7 days`, `48 hours after the
 * repair`, `not within 2 hours after the repair`.
 * @param worded words for a stop condition that is no plain list and gives none of its own; without it, as it is written.
 * @example
 * ```ts
 * const rule = defaultPolicy().rules.find(({ id }) => id === 'dressing-change-transparent');
 * rule && scheduleText(timedOf(rule)); // 'every 7 days'
 * ```
 */
export function scheduleText(rule: Timed, worded: Worded = asWritten): string {
  const { begins } = rule;
  if (rule.effect === 'forbid') return banText(rule, worded);
  switch (begins.kind) {
    case 'interval':
      return intervalText(begins);
    case 'fixed-times':
      return fixedText(begins);
    case 'triggered':
      return askText({ ...rule, begins }, worded);
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
