import { CalculatorError, bloodLoss, safeDrawToday } from '@dwellward/calculators';
import { instantMs } from '../timeline/calendar.js';
import { chartedTwiceMs } from '../timeline/charted-twice.js';
import { foundOpenAfter } from '../timeline/patency.js';
import { targetsOf } from '../timeline/targets.js';
import type { Timeline } from '../timeline/timeline.js';
import { ageDaysAt } from './patient.js';
import { latestMeasurement } from './labs.js';
import type { RecordedTime } from '../model/record.js';
import type { Sentence } from '../model/sentences.js';
import type { LossSentences } from '../model/sentences/draw.js';

/** 18 years and more are not a child. */
const adultDays = 6575;
const eightWeeksMs = 1_344 * 3_600_000;

/** The strictest ceilings in use: 3, 3.8 and 5 % in 24 h are published, 10 % in a month and in 8 weeks. */
const strictest = { dailyPercent: '3', monthlyPercent: '10', eightWeekPercent: '10' } as const;

export type LossRemarks = Sentence<keyof LossSentences>[];

/** An earlier draw that the record does not hold. */
export interface GivenDraw {
  /** Instant with offset. */
  readonly at: string;
  readonly drawnMl: string;
  readonly returnedMl?: string;
}

/** The unit’s limit, in percent of the blood volume. */
export interface LossLimit {
  readonly dailyPercent: string;
  readonly monthlyPercent: string;
  readonly eightWeekPercent?: string;
}

/** What sampling took, mL as decimal text. */
export interface Losses {
  readonly last24HoursMl: string;
  readonly last30DaysMl: string;
  readonly last8WeeksMl: string;
}

/** The most that may still be drawn today, and whether what is planned keeps within. */
export interface SafeToday {
  readonly safeTodayMl?: string;
  readonly within?: boolean;
}

/**
 * Whether the patient is read as an adult: only where the age is on record. No fixed volume of adults applies to anybody
 * else.
 */
export function isKnownAdult(timeline: Timeline): boolean {
  const ageDays = ageDaysAt(timeline, timeline.asOfMs);
  return ageDays !== undefined && ageDays >= adultDays;
}

/** What sampling took up to now: draws that are given, samples on record, and what was withdrawn after a blockage. */
export function lossesUntilNow(
  timeline: Timeline,
  given: readonly GivenDraw[],
  remarks: LossRemarks,
): Losses {
  const now = timeline.asOfMs;
  const told = given.map(({ at: when, ...draw }) => ({ ...draw, ms: instantMs(when) }));
  const recorded = recordedDraws(timeline, told);
  const withdrawn = withdrawals(timeline);
  const draws = [...told, ...recorded, ...withdrawn].filter(({ ms }) => ms <= now);
  const loss = bloodLoss({
    // Never longer ago than it was, so that a draw at the edge of the 24 hours still counts.
    draws: draws.map(({ ms, ...draw }) => ({
      hoursAgo: String(Math.floor((now - ms) / 3_600) / 1000),
      ...draw,
    })),
  });
  if (recorded.length > 0) remarks.push({ code: 'volumes-without-discards' });
  if (withdrawn.length > 0) remarks.push({ code: 'withdrawals-counted', count: withdrawn.length });
  const events = timeline.events.filter(
    ({ fact, latestMs }) => fact.activity === 'blood-sampling' && now - latestMs <= eightWeeksMs,
  );
  const without = new Set(
    events
      .filter(({ ms, latestMs }) => !draws.some((draw) => near(draw.ms, ms) || near(draw.ms, latestMs)))
      .map(({ fact }) => fact.ref),
  ).size;
  const uncounted =
    without +
    uncountedSamples(
      timeline,
      [...draws, ...events].map(({ ms }) => ms),
    );
  if (uncounted > 0) remarks.push({ code: 'draws-of-unknown-volume', count: uncounted });
  return {
    last24HoursMl: loss.value,
    last30DaysMl: loss.last30DaysMl,
    last8WeeksMl: loss.last8WeeksMl,
  };
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= chartedTwiceMs;
}

/** The samples on record that no given draw holds already; one that may be of anything only where a draw was charted. */
function recordedDraws(
  timeline: Timeline,
  given: readonly { readonly ms: number }[],
): { readonly ms: number; readonly drawnMl: string }[] {
  const drawn = timeline.events.filter(({ fact }) => fact.activity === 'blood-sampling');
  return timeline.line.patient.drawn
    .flatMap(({ at, volumeMl, sure }) =>
      at === undefined || volumeMl === undefined
        ? []
        : [{ ms: latestOf(timeline, at), drawnMl: volumeMl, sure }],
    )
    .filter(({ ms, sure }) => sure || drawn.some((event) => near(event.ms, ms)))
    .filter(({ ms }) => !given.some((draw) => near(draw.ms, ms)))
    .map(({ ms, drawnMl }) => ({ ms, drawnMl }));
}

/** A sample known by its day may have been taken at the end of it. */
function latestOf({ calendar, asOfMs }: Timeline, at: RecordedTime): number {
  return Math.min(calendar.latest(at), Math.max(calendar.earliest(at), asOfMs));
}

/**
 * Samples of blood that may count and are not counted, because they say no volume or no time; one beside a draw that is
 * counted, or told of already, is the same draw.
 */
function uncountedSamples(timeline: Timeline, told: readonly number[]): number {
  return timeline.line.patient.drawn.filter(({ at, volumeMl, sure }) => {
    if (!sure || (at !== undefined && volumeMl !== undefined)) return false;
    if (at === undefined) return true;
    const ms = latestOf(timeline, at);
    const counts = ms <= timeline.asOfMs && timeline.asOfMs - ms <= eightWeeksMs;
    return counts && !told.some((one) => near(one, ms));
  }).length;
}

/**
 * What was withdrawn when a treated lumen was found open: below 10 kg 3 mL, else 5 mL (US dosing card, seen). It is
 * blood, and counts though nobody charts it as a draw.
 */
function withdrawals(timeline: Timeline): { readonly ms: number; readonly drawnMl: string }[] {
  const lumens = targetsOf(timeline.line, 'lumen');
  const kg = exactWeightKg(timeline);
  const drawnMl = kg !== undefined && Number(kg) < 10 ? '3' : '5';
  const opened = timeline.events
    .filter(({ fact }) => fact.activity === 'occlusion-treatment')
    .flatMap(({ fact, ms }) => {
      const target = lumens.find(({ ref }) => ref === fact.lumen) ?? lumens[0];
      const found = target && foundOpenAfter(timeline, target, ms);
      return found ? [[found.fact.ref, found.ms] as const] : [];
    });
  return [...new Map(opened).values()].map((ms) => ({ ms, drawnMl }));
}

function exactWeightKg(timeline: Timeline): string | undefined {
  const weight = latestMeasurement({ timeline, ms: timeline.asOfMs }, 'weight')?.fact.value;
  return weight?.low !== undefined && weight.low === weight.high ? weight.low : undefined;
}

/** The most that may still be drawn from a child today, or from anybody for whom the unit gives a limit. */
export function safeToday(
  timeline: Timeline,
  { last24HoursMl, last30DaysMl, last8WeeksMl }: Losses,
  limit: LossLimit | undefined,
  plannedMl: string | undefined,
  remarks: LossRemarks,
): SafeToday {
  const ageDays = ageDaysAt(timeline, timeline.asOfMs);
  if (limit === undefined && isKnownAdult(timeline)) return {};
  if (ageDays === undefined) {
    remarks.push({ code: 'no-limit-without-age' });
    return {};
  }
  const weightKg = exactWeightKg(timeline);
  if (weightKg === undefined) {
    remarks.push({ code: 'no-limit-without-weight' });
    return {};
  }
  const kept: LossLimit = limit ?? strictest;
  if (limit === undefined) remarks.push({ code: 'strictest-limit-taken' });
  try {
    const result = safeDrawToday({
      weightKg,
      ageDays,
      ...kept,
      lostLast24HoursMl: last24HoursMl,
      lostLast30DaysMl: last30DaysMl,
      ...(kept.eightWeekPercent !== undefined ? { lostLast8WeeksMl: last8WeeksMl } : {}),
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

/** Weight and age, where both are on record: for what is small against the blood volume, or too large. */
export function bloodVolumeOf(
  timeline: Timeline,
): { readonly weightKg: string; readonly ageDays: number } | undefined {
  const ageDays = ageDaysAt(timeline, timeline.asOfMs);
  const weightKg = exactWeightKg(timeline);
  return ageDays === undefined || weightKg === undefined ? undefined : { weightKg, ageDays };
}
