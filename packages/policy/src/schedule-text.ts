import { displayOf, findingRow, type LineCareActivity } from '@dwellward/profiles';
import type { Schedule, Sign, Span, TimeUnit } from './model.js';

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

function findingText(schedule: Extract<Schedule, { kind: 'at-once' }>): string {
  const { finding, values } = schedule;
  const { valuesFrom: system, toldAs } = findingRow(finding);
  const words = values.map((value) =>
    (system === undefined ? value : displayOf(system, value)).toLowerCase(),
  );
  const noun = displayOf('lineFinding', finding).toLowerCase();
  const ends = schedule.until === undefined ? '' : `, until ${signsText(schedule.until)} is found`;
  if (words.length === 0) return `at once after any finding of ${noun}${ends}`;
  return `at once when ${toldAs ?? `${noun} is`} ${joined(words, 'or')}${ends}`;
}

function clockText(time: string): string {
  return time.endsWith(':00') && time.length === 8 ? time.slice(0, 5) : time;
}

function fixedText(schedule: Extract<Schedule, { kind: 'fixed-times' }>): string {
  const times = joined(schedule.timesOfDay.map(clockText), 'and');
  const days = schedule.daysOfWeek.map((day) => dayNames[day - 1] ?? `day ${day}`);
  return days.length === 0 ? `every day at ${times}` : `every ${joined(days, 'and')} at ${times}`;
}

function intervalText(schedule: Extract<Schedule, { kind: 'interval' }>): string {
  if (schedule.atMost === 1 && schedule.firstAfterInsertion !== undefined) {
    return `once, ${spanText(schedule.firstAfterInsertion)} after the insertion`;
  }
  const parts = [everyText(schedule.every)];
  if (schedule.firstAfterInsertion !== undefined) {
    parts.push(`the first ${spanText(schedule.firstAfterInsertion)} after the insertion`);
  }
  if (schedule.untilAfterInsertion !== undefined) {
    parts.push(`until ${spanText(schedule.untilAfterInsertion)} after the insertion`);
  }
  if (schedule.atMost !== undefined)
    parts.push(`at most ${schedule.atMost} ${schedule.atMost === 1 ? 'time' : 'times'}`);
  return parts.join(', ');
}

function signText({ finding, values }: Sign): string {
  const noun = displayOf('lineFinding', finding).toLowerCase();
  return values.length > 0 ? `${joined(values, 'or')} ${noun}` : noun;
}

function signsText(signs: readonly Sign[]): string {
  return joined(signs.map(signText), 'or');
}

function untilText({ until }: { readonly until?: readonly Sign[] }): string {
  return until === undefined ? '' : `, unless ${signsText(until)} is found first`;
}

function beforeText({ of, offset, timesOfDay }: Extract<Schedule, { kind: 'before' }>): string {
  const planned = `the planned ${activityText(of)}`;
  if (timesOfDay !== undefined) {
    const times = joined(timesOfDay.map(clockText), 'or');
    return `once, at the last ${times} that is ${spanText(offset)} or more before ${planned}`;
  }
  return offset.value === 0 ? `once, by ${planned}` : `once, ${spanText(offset)} before ${planned}`;
}

function holdText(schedule: Extract<Schedule, { kind: 'hold' }>): string {
  if (schedule.after === undefined) {
    const from = schedule.from === undefined ? 'now on' : `a finding of ${signText(schedule.from)}`;
    return `not from ${from} until ${signsText(schedule.until ?? [])} is found`;
  }
  const after = `the ${activityText(schedule.after)}`;
  if (schedule.from !== undefined)
    return `not from a finding of ${signText(schedule.from)} until ${after}${untilText(schedule)}`;
  return schedule.offset === undefined
    ? `not before ${after}${untilText(schedule)}`
    : `not within ${spanText(schedule.offset)} after ${after}${untilText(schedule)}`;
}

/** A schedule in short English for people, for example `every 7 days` or `48 hours after the repair`. */
export function scheduleText(schedule: Schedule): string {
  switch (schedule.kind) {
    case 'interval':
      return intervalText(schedule);
    case 'fixed-times':
      return fixedText(schedule);
    case 'at-once':
      return findingText(schedule);
    case 'chain':
      return schedule.offset.value === 0
        ? `straight after the ${activityText(schedule.after)}${untilText(schedule)}`
        : `${spanText(schedule.offset)} after the ${activityText(schedule.after)}${untilText(schedule)}`;
    case 'before':
      return beforeText(schedule);
    case 'hold':
      return holdText(schedule);
    case 'once':
      return 'once';
    case 'anchor':
      return 'when it is needed';
  }
}
