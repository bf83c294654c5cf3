import { CalculatorError, bloodLoss, safeDrawToday, sampleTotal } from '@dwellward/calculators';
import { Decimal } from 'decimal.js';
import { instantMs } from '../timeline/calendar.js';
import { chartedTwiceMs } from '../timeline/charted-twice.js';
import { known } from '../facts/facts.js';
import type { Moment } from '../facts/facts.js';
import type { DrawLoss, DrawOptions, DrawTube } from './model.js';

/** 18 years and more are not a child; the boundary that the table of blood volumes has. */
const adultDays = 6575;
const eightWeeksMs = 1_344 * 3_600_000;

/** The strictest ceilings in use: 3, 3.8 and 5 % in 24 h are published, 10 % in a month and in 8 weeks. */
const strictest = { dailyPercent: '3', monthlyPercent: '10', eightWeekPercent: '10' } as const;

type Remarks = DrawLoss['remarks'][number][];

/** The sum of volumes; undefined where one is not known. */
export function sumMl(volumes: readonly (string | undefined)[]): string | undefined {
  let sum = new Decimal(0);
  for (const volume of volumes) {
    if (volume === undefined) return undefined;
    sum = sum.plus(volume);
  }
  return sum.toFixed();
}

/** What this draw and the earlier ones take, against the limit of the child or of the unit. */
export function lossOf(
  options: DrawOptions,
  tubes: readonly DrawTube[],
  discardMl: string | undefined,
  at: Moment,
): DrawLoss {
  const remarks: Remarks = [];
  const thisDrawMl = thisDraw(options, tubes, discardMl, remarks);
  const now = at.timeline.asOfMs;
  const given = (options.draws ?? []).map(({ at: when, ...draw }) => ({ ...draw, ms: instantMs(when) }));
  const recorded = recordedDraws(at, given);
  const draws = [...given, ...recorded].filter(({ ms }) => ms <= now);
  const loss = bloodLoss({
    // Never longer ago than it was, so that a draw at the edge of the 24 hours still counts.
    draws: draws.map(({ ms, ...draw }) => ({
      hoursAgo: String(Math.floor((now - ms) / 3_600) / 1000),
      ...draw,
    })),
  });
  if (recorded.length > 0) remarks.push({ code: 'volumes-without-discards' });
  const events = at.timeline.events.filter(
    ({ fact, latestMs }) => fact.activity === 'blood-sampling' && now - latestMs <= eightWeeksMs,
  );
  const without = new Set(
    events
      .filter(({ ms, latestMs }) => !draws.some((draw) => near(draw.ms, ms) || near(draw.ms, latestMs)))
      .map(({ fact }) => fact.ref),
  ).size;
  if (without > 0) remarks.push({ code: 'draws-of-unknown-volume', count: without });
  const sums = {
    last24HoursMl: loss.value,
    last30DaysMl: loss.last30DaysMl,
    last8WeeksMl: loss.last8WeeksMl,
  };
  const safe = safeToday(options, sums, thisDrawMl, at, remarks);
  return {
    ...(thisDrawMl === undefined ? {} : { thisDrawMl }),
    ...sums,
    ...safe,
    remarks,
  };
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= chartedTwiceMs;
}

/** The samples on record that no given draw holds already; one that may be of anything only where a draw was charted. */
function recordedDraws(
  { timeline }: Moment,
  given: readonly { readonly ms: number }[],
): { readonly ms: number; readonly drawnMl: string }[] {
  const drawn = timeline.events.filter(({ fact }) => fact.activity === 'blood-sampling');
  return timeline.line.patient.drawn
    .map(({ at, volumeMl, sure }) => ({
      // A sample known by its day may have been taken at the end of it.
      ms: Math.min(timeline.calendar.latest(at), Math.max(timeline.calendar.earliest(at), timeline.asOfMs)),
      drawnMl: volumeMl,
      sure,
    }))
    .filter(({ ms, sure }) => sure || drawn.some((event) => near(event.ms, ms)))
    .filter(({ ms }) => !given.some((draw) => near(draw.ms, ms)))
    .map(({ ms, drawnMl }) => ({ ms, drawnMl }));
}

function thisDraw(
  { tests }: DrawOptions,
  tubes: readonly DrawTube[],
  discardMl: string | undefined,
  remarks: Remarks,
): string | undefined {
  const missing = tests.filter(({ volumeMl }) => volumeMl === undefined).map(({ test }) => test);
  if (missing.length > 0) {
    remarks.push({ code: 'fill-volume-not-given', tests: [...new Set(missing)] });
    return undefined;
  }
  if (discardMl === undefined) {
    remarks.push({ code: 'discard-not-worked-out' });
    return undefined;
  }
  return sampleTotal({
    tubes: tubes.map(({ volumeMl }) => ({ volumeMl: volumeMl ?? '0' })),
    discardMl,
  }).value;
}

type Sums = Pick<DrawLoss, 'last24HoursMl' | 'last30DaysMl' | 'last8WeeksMl'>;

function safeToday(
  { limit }: DrawOptions,
  { last24HoursMl, last30DaysMl, last8WeeksMl }: Sums,
  plannedMl: string | undefined,
  at: Moment,
  remarks: Remarks,
): Pick<DrawLoss, 'safeTodayMl' | 'within'> {
  const ageDays = known('patient.ageDays', at).value;
  if (limit === undefined && ageDays !== undefined && ageDays >= adultDays) return {};
  if (ageDays === undefined) {
    remarks.push({ code: 'no-limit-without-age' });
    return {};
  }
  const weight = known('patient.weight', at).value;
  if (weight?.low === undefined || weight.low !== weight.high) {
    remarks.push({ code: 'no-limit-without-weight' });
    return {};
  }
  const kept = limit ?? strictest;
  if (limit === undefined) remarks.push({ code: 'strictest-limit-taken' });
  try {
    const result = safeDrawToday({
      weightKg: weight.low,
      ageDays,
      ...kept,
      lostLast24HoursMl: last24HoursMl,
      lostLast30DaysMl: last30DaysMl,
      ...('eightWeekPercent' in kept && kept.eightWeekPercent !== undefined
        ? { lostLast8WeeksMl: last8WeeksMl }
        : {}),
      ...(plannedMl === undefined ? {} : { plannedMl }),
    });
    if (result.plannedWithin === false) remarks.push({ code: 'planned-above-safe' });
    if (Number(result.value) === 0) remarks.push({ code: 'nothing-left-today' });
    return {
      safeTodayMl: result.value,
      ...(result.plannedWithin === undefined ? {} : { within: result.plannedWithin }),
    };
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    remarks.push({
      code: 'limit-not-worked-out',
      reason: { code: 'calculator-text', text: error.message },
    });
    return {};
  }
}
