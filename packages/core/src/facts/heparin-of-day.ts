import { CalculatorError, heparinGiven } from '@dwellward/calculators';
import { chartedTwiceMs } from '../timeline/charted-twice.js';
import type { Timeline } from '../timeline/timeline.js';
import { isKnownAdult } from './blood-loss.js';
import { latestMeasurement } from './labs.js';
import { ageDaysAt } from './patient.js';

/** The 24 hours to which the limit applies. */
export const dayMs = 24 * 3_600_000;

/** Heparin on record of the last 24 hours. */
export interface HeparinOfDay {
  /** How many doses make the sum. */
  readonly doses: number;
  /** Decimal text. */
  readonly units: string;
  /** By the lowest weight that is known; absent without one. */
  readonly unitsPerKg?: string;
  /** Absent where no published limit applies. */
  readonly limitUnitsPerKg?: string;
  readonly limitCheck: 'within' | 'above' | 'not-checked';
  /** Doses without an amount, and locks of this line of which nothing says with what: they are not in the sum. */
  readonly unknown: number;
}

/**
 * What the record holds of heparin in the last 24 hours, from every line and every other way of giving it, against the
 * limit of small infants: 40 units/kg up to 60 days of age or below 3 kg (caregiver sheet of a children’s hospital, seen).
 * Nothing of a patient who is known to be an adult, for whom there is no such limit, and nothing where nothing is on
 * record. A date counts as long as its end is within the 24 hours.
 */
export function heparinOfDay(timeline: Timeline): HeparinOfDay | undefined {
  if (isKnownAdult(timeline)) return undefined;
  const { calendar, asOfMs, line } = timeline;
  const given = line.patient.heparin.flatMap((dose) =>
    dose.at === undefined
      ? []
      : [{ ...dose, ms: calendar.earliest(dose.at), latestMs: Math.min(calendar.latest(dose.at), asOfMs) }],
  );
  const today = given.filter(({ ms, latestMs }) => ms <= asOfMs && asOfMs - latestMs <= dayMs);
  const near = (ms: number) => today.some((dose) => Math.abs(dose.ms - ms) <= chartedTwiceMs);
  const locks = timeline.events.filter(
    ({ fact, ms, latestMs }) =>
      fact.activity === 'lock' && asOfMs - latestMs <= dayMs && !near(ms) && !near(latestMs),
  );
  const counted = today.flatMap(({ units, ...dose }) => (units === undefined ? [] : [{ units, ...dose }]));
  const undated = line.patient.heparin.filter(
    ({ at, runsSince }) =>
      at === undefined && (runsSince === undefined || calendar.earliest(runsSince) <= asOfMs),
  );
  const withoutAmount = today.length - counted.length + undated.length;
  const weightKg = latestMeasurement({ timeline, ms: asOfMs }, 'weight')?.fact.value.low;
  const ageDays = ageDaysAt(timeline, asOfMs);
  const sum = (weight: string | undefined) =>
    heparinGiven({
      // Never longer ago than it was, so that a dose at the edge of the 24 hours still counts.
      doses: counted.map(({ units, latestMs }) => ({
        units,
        hoursAgo: String(Math.floor((asOfMs - latestMs) / 3_600) / 1000),
      })),
      ...(weight === undefined ? {} : { weightKg: weight }),
      ...(ageDays === undefined ? {} : { ageDays }),
    });
  const { value, unitsPerKg, limitUnitsPerKg, limitCheck } = attempt(sum, weightKg);
  // Where there is no limit nobody has to know what each lock was.
  const unknown = withoutAmount + (limitUnitsPerKg === undefined ? 0 : locks.length);
  if (counted.length === 0 && unknown === 0) return undefined;
  return {
    doses: counted.length,
    units: value,
    unknown,
    limitCheck,
    ...(unitsPerKg === undefined ? {} : { unitsPerKg }),
    ...(limitUnitsPerKg === undefined ? {} : { limitUnitsPerKg }),
  };
}

/** A weight that the calculator does not take is none. */
function attempt<R>(sum: (weight: string | undefined) => R, weight: string | undefined): R {
  try {
    return sum(weight);
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    return sum(undefined);
  }
}
