import { valuesOf } from '@dwellward/profiles';
import type { Calendar } from './calendar.js';
import type { Timed } from './timed.js';
import type { CareEvent, Finding, LineLength, LineRecord } from '../model/record.js';

/** A line that comes out shorter than this is not whole, cm: common practice, no source. */
const missingCm = 1;

/**
 * How long the line is at a moment: as last measured while it was in, else as its Device says; with a repair since
 * then, which may have changed it. Both lists are in the order of time and know nothing of what comes later.
 */
export function lengthAt(
  line: LineRecord,
  findings: readonly Timed<Finding>[],
  events: readonly Timed<CareEvent>[],
  calendar: Calendar,
): LineLength | undefined {
  const removedMs = events.filter(({ fact }) => fact.activity === 'removal').at(-1)?.ms ?? Infinity;
  const measured = findings
    .filter(
      ({ fact, ms }) => fact.finding === 'catheter-length' && exactCm(fact) !== undefined && ms < removedMs,
    )
    .at(-1);
  const wholeCm = measured ? exactCm(measured.fact) : line.length?.wholeCm;
  const externalCm = line.length?.externalCm;
  if (wholeCm === undefined && externalCm === undefined) return undefined;
  const repair = events
    .filter(({ fact, ms }) => fact.activity === 'repair' && ms > (measured?.latestMs ?? -Infinity))
    .at(-1);
  return {
    ref: measured?.fact.ref ?? line.length?.ref ?? line.ref,
    ...(wholeCm === undefined ? {} : { wholeCm }),
    ...(measured ? { at: calendar.text(measured.ms) } : {}),
    ...(externalCm === undefined ? {} : { externalCm }),
    ...(repair ? { repairedAt: calendar.text(repair.ms) } : {}),
  };
}

/**
 * A removed line whose finding gives its length and says neither whole nor incomplete, read against the length on
 * record: more than 1 cm shorter (common practice, no source) is incomplete, the protective reading also where a
 * repair may have shortened it; else it is whole. With no length on record it stays as it is: it is not known.
 */
export function readRemovedCatheter(fact: Finding, length: LineLength | undefined): Finding {
  if (fact.finding !== 'removed-catheter' || fact.quantity === undefined) return fact;
  if (fact.values.some((value) => valuesOf(fact.finding)?.includes(value))) return fact;
  if (length?.wholeCm === undefined) return fact;
  const cm = fact.quantity.low ?? '0';
  // In hundredths of a millimetre, so that 41.0 of 42 cm is not a hair more than 1 cm short.
  const short = Math.round((Number(length.wholeCm) - Number(cm)) * 1000) > missingCm * 1000;
  const value = short ? 'incomplete' : 'whole';
  return {
    ...fact,
    values: [...fact.values, value],
    reading: { code: 'removed-catheter-read-as', cm, length, read: value },
  };
}

function exactCm({ quantity }: Finding): string | undefined {
  return quantity?.low !== undefined && quantity.low === quantity.high ? quantity.low : undefined;
}
