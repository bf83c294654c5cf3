import {
  CalculatorError,
  discardVolume,
  flushVolume,
  lockVolume,
  lumenVolume,
  minimumSyringeSize,
  thrombolyticDose,
} from '@dwellward/calculators';
import type { CalculatedName } from '@dwellward/policy';
import type { LineRecord, Lumen } from '../model/record.js';
import type { TubeCode } from '../model/sentences/tubes.js';
import type { Reason, Sentence, StepPart, WorkText } from '../model/sentences.js';
import type { Timeline } from '../timeline/timeline.js';
import { dosesSinceOpen } from '../facts/doses.js';
import { isKnownAdult, lossesUntilNow, safeToday } from '../facts/blood-loss.js';
import { ageDaysAt } from '../facts/patient.js';
import { latestMeasurement } from '../facts/labs.js';
import { aboutWhatRuns, whatRuns } from '../lumens/stopping.js';

/** An amount with its cautions, or why there is none. */
export type Amount =
  | {
      readonly ok: true;
      readonly value: string;
      readonly unit: string;
      /** Of a dose: the volume that it comes in. */
      readonly inMl?: string;
      readonly cautions: readonly WorkText[];
    }
  | { readonly ok: false; readonly reason: Reason };

/** The order of draw, from memory of CLSI GP41: blood culture, citrate, serum, heparin, EDTA, fluoride. */
export const orderOfDraw: readonly TubeCode[] = [
  'blood-culture',
  'citrate',
  'serum',
  'heparin',
  'edta',
  'fluoride',
];

/** No lumen holds more: dialysis catheters up to 2.5 mL (from memory); the bound itself is common practice, no source. */
const mostMl = 10;

/** The internal volume of a lumen: as printed on it, else by its inner diameter and length. */
export function catheterVolume(lumen: Lumen | undefined): Amount {
  if (!lumen) return { ok: false, reason: { code: 'lumen-not-on-record' } };
  const printed = lumen.primingVolume?.high;
  if (printed !== undefined && Number(printed) > mostMl)
    return { ok: false, reason: { code: 'priming-volume-not-believed', ml: printed } };
  if (printed !== undefined && Number(printed) > 0) {
    return { ok: true, value: printed, unit: 'mL', cautions: [{ code: 'add-ons-not-counted' }] };
  }
  const { innerDiameterMm, lengthCm } = lumen;
  if (innerDiameterMm && lengthCm)
    return amount(() => lumenVolume({ innerDiameterMm, lengthCm, rounding: 'up' }));
  return { ok: false, reason: { code: 'priming-volume-not-on-record' } };
}

// A lumen never changes, and every rule that asks for a flush or a lock of it asks for the same amounts.
const flushes = new WeakMap<Lumen, Amount>();
const locks = new WeakMap<Lumen, Amount>();

function once(amounts: WeakMap<Lumen, Amount>, lumen: Lumen | undefined, work: () => Amount): Amount {
  if (lumen === undefined) return work();
  let found = amounts.get(lumen);
  if (found === undefined) amounts.set(lumen, (found = work()));
  return found;
}

/** The least flush of a lumen, to a mark of the syringe. It follows what the lumen holds, at any age. */
export function flushOf(lumen: Lumen | undefined): Amount {
  return once(flushes, lumen, () =>
    ofVolume(lumen, (catheterVolumeMl) => onSyringe(flushVolume({ catheterVolumeMl }))),
  );
}

/** What a calculator gives, as the syringe shows it. */
function onSyringe<R extends { readonly onSyringeMl: string }>(result: R): R & { readonly value: string } {
  return { ...result, value: result.onSyringeMl };
}

/**
 * The lock of a lumen, to a mark of the syringe. Of a dialysis catheter, and of a line of unknown type, it is the fill
 * volume that is printed on it and no more: what is locked in there is too strong to reach the blood (KDOQI 2019, from
 * memory), and an overfill is right only for a lock that does no harm there (Goossens 2015, Table 4).
 */
export function lockOf(lumen: Lumen | undefined, type: LineRecord['type']): Amount {
  if (mayBeDialysis(type)) {
    const volume = catheterVolume(lumen);
    return volume.ok ? { ...volume, cautions: [...volume.cautions, { code: 'no-overfill' }] } : volume;
  }
  return once(locks, lumen, () =>
    ofVolume(lumen, (catheterVolumeMl) => onSyringe(lockVolume({ catheterVolumeMl }))),
  );
}

/** Lines whose lock is drawn off before any use and never flushed in (instructions of dialysis catheters). */
export function isDialysis(type: LineRecord['type']): boolean {
  return type === 'tunneled-dialysis-catheter' || type === 'nontunneled-dialysis-catheter';
}

/** The same, and lines of which nobody knows that they are none. */
export function mayBeDialysis(type: LineRecord['type']): boolean {
  return type === undefined || isDialysis(type);
}

/** What the old lock of a lumen fills, which is drawn off before anything goes in. */
export function oldLockOf(lumen: Lumen | undefined): StepPart {
  const volume = catheterVolume(lumen);
  const printed = lumen?.primingVolume?.high !== undefined;
  return { code: 'old-lock', printed, ...(volume.ok ? { ml: volume.value } : {}) };
}

/** What to discard before a sample from a lumen, to a mark of the syringe. Add-ons are not in it. */
export function discardOf(
  lumen: Lumen | undefined,
  sampleFor: 'general' | 'coagulation',
  timeline: Timeline,
): Amount {
  const ageDays = ageDaysAt(timeline, timeline.asOfMs);
  return ofVolume(lumen, (deadSpaceMl) =>
    onSyringe(discardVolume({ deadSpaceMl, sampleFor, ...(ageDays === undefined ? {} : { ageDays }) })),
  );
}

/**
 * The dose for a blocked lumen. The latest weight counts where it is known exactly; below 30 kg the lumen’s volume is
 * needed. Doses that were given since the lumen was last found open count: there is a second one and no third. The
 * calculator’s list of unanswered questions is left out: the policy’s cautions ask them in words.
 */
export function doseOf(
  timeline: Timeline,
  lumen: Lumen | undefined,
): (Amount & { readonly ok: false }) | (Amount & { readonly ok: true; readonly withdrawal: StepPart }) {
  const measured = latestMeasurement({ timeline, ms: timeline.asOfMs }, 'weight')?.fact;
  const weight = measured?.value;
  if (measured === undefined || weight?.low === undefined || weight.low !== weight.high)
    return { ok: false, reason: { code: 'weight-not-exact' } };
  const volume = catheterVolume(lumen);
  const lumenVolumeMl = volume.ok && Number(volume.value) >= 0.01 ? volume.value : undefined;
  if (lumenVolumeMl === undefined && Number(weight.low) < 30)
    return { ok: false, reason: { code: 'dose-needs-lumen-volume' } };
  const given = lumen ? dosesSinceOpen(timeline, { scope: 'lumen', ...lumen }) : [];
  const ageDays = ageDaysAt(timeline, timeline.asOfMs);
  if (given.length > 1) return { ok: false, reason: { code: 'doses-already-given', count: given.length } };
  try {
    const result = thrombolyticDose({
      weightKg: weight.low,
      dosesGiven: given.length,
      ...(ageDays === undefined ? {} : { ageDays }),
      ...(lumenVolumeMl === undefined ? {} : { lumenVolumeMl }),
    });
    const { withdrawLeastMl: least, withdrawMostMl: most, volumeMl } = result;
    if (least === undefined || most === undefined || volumeMl === undefined)
      return { ok: false, reason: calculatorText(result.furtherCautions[0] ?? result.value) };
    return {
      ok: true,
      value: result.value,
      unit: result.unit,
      inMl: volumeMl,
      cautions: [
        { code: 'dose-is-for-weight', kg: weight.low, measured: measured.at },
        ...given.map(({ ms }) => ({ code: 'second-and-last-dose', firstAt: ms }) as const),
        ...result.furtherCautions.map(calculatorText),
      ],
      withdrawal: {
        code: 'volume-between',
        leastMl: least,
        mostMl: most,
        ...lossByWithdrawal(timeline, most),
      },
    };
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    return { ok: false, reason: calculatorText(error.message) };
  }
}

/** What is withdrawn from a child is held against what may still be drawn today. */
function lossByWithdrawal(
  timeline: Timeline,
  plannedMl: string,
): { readonly loss?: { readonly safeTodayMl?: string; readonly within?: boolean } } {
  if (isKnownAdult(timeline)) return {};
  return { loss: safeToday(timeline, lossesUntilNow(timeline, [], []), undefined, plannedMl, []) };
}

/** The least syringe. */
export function syringeSize(): Amount & { readonly ok: true } {
  const { value, unit } = minimumSyringeSize();
  return { ok: true, value, unit, cautions: [] };
}

/** What a step says where it names a calculated value: an amount with its unit, or words. Never a gap. */
export function calculatedPart(name: CalculatedName, timeline: Timeline, lumen: Lumen | undefined): StepPart {
  switch (name) {
    case 'flushVolume':
      return said(flushOf(lumen), 'volume');
    case 'lockVolume':
      return lockPart(lumen, timeline.line.type);
    case 'oldLockVolume':
      return oldLockOf(lumen);
    case 'syringeSize':
      return said(syringeSize(), 'volume');
    case 'thrombolyticDose':
      return said(doseOf(timeline, lumen), 'dose');
    case 'thrombolyticWithdrawal': {
      const dose = doseOf(timeline, lumen);
      return dose.ok ? dose.withdrawal : { code: 'withdrawal-by-weight' };
    }
    case 'discardVolume': {
      const general = discardOf(lumen, 'general', timeline);
      const coagulation = discardOf(lumen, 'coagulation', timeline);
      return general.ok && coagulation.ok
        ? { code: 'discard-volumes', generalMl: general.value, coagulationMl: coagulation.value }
        : said(general, 'volume');
    }
    case 'lengthOnRecord':
      return lengthOnRecord(timeline.line.length);
    case 'tubes':
      return { code: 'order-of-draw', tubes: orderOfDraw };
    case 'infusingLumens':
      return aboutWhatRuns(whatRuns(timeline), 'for-draw');
    case 'idleLumens':
      return { code: 'every-idle-lumen' };
    case 'whatRuns':
      return aboutWhatRuns(whatRuns(timeline), 'now');
  }
}

/** What is printed on a limb is what its lock is filled to; no syringe’s marks change that. */
function lockPart(lumen: Lumen | undefined, type: LineRecord['type']): StepPart {
  const found = lockOf(lumen, type);
  return found.ok && mayBeDialysis(type) && lumen?.primingVolume?.high !== undefined
    ? { code: 'printed-volume', ml: found.value }
    : said(found, 'volume');
}

/** An amount in a sentence; in its place the reason, so that nobody takes a gap for a number. */
export function said(found: Amount, what: 'volume' | 'dose'): StepPart {
  if (!found.ok) return { code: 'cannot-be-worked-out', what, reason: found.reason };
  const { value, unit, inMl } = found;
  return inMl === undefined
    ? { code: 'amount', value, unit }
    : { code: 'dose-in-volume', mg: value, ml: inMl };
}

function lengthOnRecord(length: LineRecord['length']): StepPart {
  return { code: 'length-on-record', ...(length ? { length } : {}) };
}

function calculatorText(text: string): Sentence<'calculator-text'> {
  return { code: 'calculator-text', text };
}

function ofVolume(
  lumen: Lumen | undefined,
  calculate: (volumeMl: string) => {
    readonly value: string;
    readonly unit: string;
    readonly cautions: readonly string[];
  },
): Amount {
  const volume = catheterVolume(lumen);
  if (!volume.ok) return volume;
  const found = amount(() => calculate(volume.value));
  return found.ok ? { ...found, cautions: [...volume.cautions, ...found.cautions] } : found;
}

function amount(
  calculate: () => {
    readonly value: string;
    readonly unit: string;
    readonly cautions: readonly string[];
  },
): Amount {
  try {
    const { value, unit, cautions } = calculate();
    return { ok: true, value, unit, cautions: cautions.map(calculatorText) };
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    return { ok: false, reason: calculatorText(error.message) };
  }
}
