import { Decimal } from 'decimal.js';
import { elementsOf, isObject, listOf, shown, type JsonObject } from './json.js';
import type { Begins, Span } from './model.js';
import { lastStep, sentence } from './sentence.js';
import { readSpan, timeUnitOf, wholeSpan } from './spans.js';

/** What can't be kept of a Timing. `path` is relative to it, for example `repeat.when[0]`. */
export interface TimingProblem {
  readonly path: string;
  readonly message: string;
  /** What to do, where it is something else than to give an interval or times of day. */
  readonly cure?: string;
}

/** What a Timing can say of a rule: that it is done at intervals, or at fixed times. */
export type Recurrence = Extract<Begins, { readonly kind: 'interval' | 'fixed-times' }>;

/** A Timing as the recurrence of a rule, or why not. Notes say where the shorter of two readings was taken. */
export type TimingReading =
  | { readonly ok: true; readonly begins: Recurrence; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly TimingProblem[] };

/** How a Timing is read. */
export interface TimingOptions {
  /**
   * True where the caller reads `repeat.boundsPeriod` itself, as of a patient’s own order. A policy knows no
   * calendar dates, so by default it is refused.
   */
  readonly callerReadsBoundsPeriod?: boolean;
}

const kept = new Set([
  'id',
  'extension',
  'count',
  'countMax',
  'frequency',
  'frequencyMax',
  'period',
  'periodMax',
  'periodUnit',
  'dayOfWeek',
  'timeOfDay',
  'boundsDuration',
]);

const days = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];
const week: Span = { value: 1, unit: 'wk' };

function problem(path: string, message: string, cure?: string): TimingProblem {
  return { path, message: sentence(message, lastStep(path)), ...(cure === undefined ? {} : { cure }) };
}

class Reader {
  readonly problems: TimingProblem[] = [];
  readonly notes: string[] = [];

  constructor(readonly repeat: JsonObject) {}

  refuse(path: string, message: string, cure?: string): undefined {
    this.problems.push(problem(`repeat.${path}`, message, cure));
    return undefined;
  }

  /** A positive number; whole where `whole`. Undefined where absent or refused. */
  positive(name: string, whole: boolean): number | undefined {
    const value = this.repeat[name];
    if (value === undefined) return undefined;
    if (
      typeof value !== 'number' ||
      !Number.isFinite(value) ||
      value <= 0 ||
      (whole && !Number.isInteger(value))
    ) {
      return this.refuse(name, `${shown(value)} is not a ${whole ? 'whole ' : ''}number above 0`);
    }
    return value;
  }

  span(name: string, duration: unknown): Span | undefined {
    const reading = readSpan(duration);
    if (!reading.ok)
      return this.refuse(reading.path === '' ? name : `${name}.${reading.path}`, reading.message);
    if (reading.note !== undefined) this.notes.push(reading.note);
    return reading.span;
  }
}

/**
 * Reads a FHIR R4 Timing as the recurrence of a rule: `every` is period / frequency, the shorter reading where a range
 * is given, `boundsDuration` counts from the insertion. What can’t be kept (`when` codes, events, a code with no repeat, durations of the act) is refused
 * with its path, never ignored. Never throws.
 * Source of the elements’ meaning: HL7 FHIR R4, data type Timing.
 * @example
 * ```ts
 * readTiming({ repeat: { frequency: 1, period: 7, periodUnit: 'd' } }).ok; // true
 * ```
 */
export function readTiming(timing: unknown, options: TimingOptions = {}): TimingReading {
  if (!isObject(timing)) return { ok: false, problems: [problem('', `${shown(timing)} is not a Timing`)] };
  const problems: TimingProblem[] = [];
  for (const key of elementsOf(timing)) {
    if (key === 'event') problems.push(problem('event', 'Fixed dates can’t be kept'));
    else if (key === 'modifierExtension')
      problems.push(problem(key, 'The meaning of {element} is not known'));
    else if (!['id', 'extension', 'repeat', 'code'].includes(key)) {
      problems.push(problem(key, '{element} is not an element of Timing that can be kept'));
    }
  }
  if (!isObject(timing['repeat'])) {
    const message =
      timing['code'] === undefined
        ? 'No repeat is given'
        : 'A code alone can’t be kept: give the repeat as well';
    return {
      ok: false,
      problems: [...problems, problem(timing['code'] === undefined ? 'repeat' : 'code', message)],
    };
  }
  const reader = new Reader(timing['repeat']);
  const begins = recurrenceOf(reader, options);
  problems.push(...reader.problems);
  if (problems.length > 0 || begins === undefined) return { ok: false, problems };
  return { ok: true, begins, notes: reader.notes };
}

function recurrenceOf(reader: Reader, options: TimingOptions): Recurrence | undefined {
  const { repeat } = reader;
  for (const key of elementsOf(repeat)) {
    if (kept.has(key) || (key === 'boundsPeriod' && options.callerReadsBoundsPeriod === true)) continue;
    const first = key === 'when' ? 'when[0]' : key;
    const [message, cure] = refusals.get(key) ?? [
      '{element} is not an element of Timing.repeat that can be kept',
    ];
    reader.refuse(first, message, cure);
  }
  if (repeat['dayOfWeek'] !== undefined || repeat['timeOfDay'] !== undefined) return fixedTimes(reader);
  return interval(reader);
}

const counted =
  'For a first time, give the action a trigger of type Procedure for the insertion, and timingDuration: so long after it.';

const refusals: ReadonlyMap<string, readonly [message: string, cure?: string]> = new Map(
  Object.entries<readonly [message: string, cure?: string]>({
    when: ['Times by meals or sleep can’t be kept: give timeOfDay or a period'],
    offset: ['Minutes from a meal or from sleep can’t be kept', counted],
    boundsRange: [
      'A range of possible lengths can’t be kept',
      `Give boundsDuration for the end, counted from the insertion. ${counted}`,
    ],
    boundsPeriod: [
      'Calendar dates can’t be kept in a policy: give boundsDuration, counted from the insertion',
    ],
    duration: ['The length of the act itself can’t be kept'],
    durationMax: ['The length of the act itself can’t be kept'],
    durationUnit: ['The length of the act itself can’t be kept'],
  }),
);

function interval(reader: Reader): Recurrence | undefined {
  const { repeat } = reader;
  const until =
    repeat['boundsDuration'] === undefined
      ? undefined
      : reader.span('boundsDuration', repeat['boundsDuration']);
  const atMost = atMostOf(reader);
  if (repeat['period'] === undefined) return reader.refuse('period', 'No period is given');
  const every = everyOf(reader);
  if (every === undefined) return undefined;
  return {
    kind: 'interval',
    every,
    ...(until === undefined ? {} : { untilAfterInsertion: until }),
    ...(atMost === undefined ? {} : { atMost }),
  };
}

function everyOf(reader: Reader): Span | undefined {
  const period = reader.positive('period', false);
  const periodMax = reader.positive('periodMax', false);
  const frequency = reader.positive('frequency', true) ?? 1;
  const frequencyMax = reader.positive('frequencyMax', true);
  const named = reader.repeat['periodUnit'];
  const unit = typeof named === 'string' ? timeUnitOf(named) : undefined;
  if (unit === undefined || unit !== named) {
    return reader.refuse('periodUnit', `${shown(named)} is not one of s, min, h, d, wk, mo, a`);
  }
  if (period === undefined) return undefined;
  const shortest = Math.min(period, periodMax ?? period);
  const most = Math.max(frequency, frequencyMax ?? frequency);
  if (periodMax !== undefined && periodMax !== period) {
    reader.notes.push(
      `a period from ${period} to ${periodMax} ${unit} is read as ${shortest} ${unit}, the shorter`,
    );
  }
  if (frequencyMax !== undefined && frequencyMax !== frequency) {
    reader.notes.push(`${frequency} to ${frequencyMax} times is read as ${most} times, the shorter interval`);
  }
  const reading = wholeSpan(new Decimal(shortest).dividedBy(most), unit);
  if (reading === undefined) {
    return reader.refuse('period', `${shortest} ${unit} / ${most} is not an interval of a minute or more`);
  }
  if (reading.note !== undefined) reader.notes.push(reading.note);
  return reading.span;
}

function atMostOf(reader: Reader): number | undefined {
  const count = reader.positive('count', true);
  const countMax = reader.positive('countMax', true);
  if (count === undefined || countMax === undefined) return countMax ?? count;
  if (count !== countMax)
    reader.notes.push(`a count of ${count} to ${countMax} is read as ${Math.max(count, countMax)}`);
  return Math.max(count, countMax);
}

function fixedTimes(reader: Reader): Recurrence | undefined {
  const { repeat } = reader;
  const before = reader.problems.length;
  const daysOfWeek = listOf(repeat['dayOfWeek']).map((day, index) => {
    const at = typeof day === 'string' ? days.indexOf(day) : -1;
    if (at < 0) reader.refuse(`dayOfWeek[${index}]`, `${shown(day)} is not one of ${days.join(', ')}`);
    return at + 1;
  });
  const timesOfDay = listOf(repeat['timeOfDay']).map((time, index) => {
    const match =
      typeof time === 'string' ? /^([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d)(?:\.0+)?)?$/.exec(time) : null;
    if (match === null)
      reader.refuse(`timeOfDay[${index}]`, `${shown(time)} is not a time of day such as 08:00:00`);
    return match === null ? '' : `${match[1]}:${match[2]}:${match[3] ?? '00'}`;
  });
  if (timesOfDay.length === 0)
    reader.refuse('timeOfDay', 'Days without times of day can’t be kept: give timeOfDay');
  for (const name of ['count', 'countMax', 'boundsDuration', 'periodMax', 'frequencyMax']) {
    if (repeat[name] !== undefined)
      reader.refuse(name, '{element} can’t be kept together with dayOfWeek or timeOfDay');
  }
  checkCycle(reader, daysOfWeek.length, timesOfDay.length);
  if (reader.problems.length > before) return undefined;
  return {
    kind: 'fixed-times',
    daysOfWeek: [...new Set(daysOfWeek)].sort((a, b) => a - b),
    timesOfDay: [...new Set(timesOfDay)].sort(),
  };
}

/** With fixed times a period may only repeat what they say: once a day, or once a week on the named days. */
function checkCycle(reader: Reader, dayCount: number, timeCount: number): void {
  const { repeat } = reader;
  const frequency = repeat['frequency'];
  const { period, periodUnit } = repeat;
  if (period === undefined && periodUnit === undefined && frequency === undefined) return;
  const daily = period === 1 && periodUnit === 'd';
  const weekly = period === week.value && periodUnit === week.unit && dayCount > 0;
  if (!daily && !weekly) {
    reader.refuse(
      'period',
      'Together with dayOfWeek or timeOfDay only 1 d, or with dayOfWeek 1 wk, can be kept',
    );
    return;
  }
  const perCycle = daily ? timeCount : timeCount * dayCount;
  if (frequency !== undefined && frequency !== 1 && frequency !== perCycle) {
    reader.refuse('frequency', `${shown(frequency)} times do not go with the ${perCycle} that are named`);
  }
}
