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

/** The internal volume of a lumen: as printed on it, else by its inner diameter and length. */
export function catheterVolume(lumen: Lumen | undefined): Amount {
  if (!lumen) return { ok: false, reason: { code: 'lumen-not-on-record' } };
  const printed = lumen.primingVolume?.high;
  if (printed !== undefined && Number(printed) > 0) {
    return { ok: true, value: printed, unit: 'mL', cautions: [{ code: 'add-ons-not-counted' }] };
  }
  const { innerDiameterMm, lengthCm } = lumen;
  if (innerDiameterMm && lengthCm)
    return amount(() => lumenVolume({ innerDiameterMm, lengthCm, rounding: 'up' }));
  return { ok: false, reason: { code: 'priming-volume-not-on-record' } };
}

/** The least flush of a lumen. */
export function flushOf(lumen: Lumen | undefined): Amount {
  return ofVolume(lumen, (catheterVolumeMl) => flushVolume({ catheterVolumeMl }));
}

/**
 * The lock of a lumen. Of a dialysis catheter it is the fill volume and no more: what is locked in there is too strong
 * to reach the blood (KDOQI 2019, from memory), and an overfill is right only for a lock that does no harm there
 * (Goossens 2015, Table 4).
 */
export function lockOf(lumen: Lumen | undefined, type: LineRecord['type']): Amount {
  if (isDialysis(type)) {
    const volume = catheterVolume(lumen);
    return volume.ok ? { ...volume, cautions: [...volume.cautions, { code: 'no-overfill' }] } : volume;
  }
  return ofVolume(lumen, (catheterVolumeMl) => lockVolume({ catheterVolumeMl }));
}

/** Lines whose lock is drawn off before any use and never flushed in (instructions of dialysis catheters). */
export function isDialysis(type: LineRecord['type']): boolean {
  return type === 'tunneled-dialysis-catheter' || type === 'nontunneled-dialysis-catheter';
}

/** What to discard before a sample from a lumen. Add-ons are not in it. */
export function discardOf(lumen: Lumen | undefined, sampleFor: 'general' | 'coagulation'): Amount {
  return ofVolume(lumen, (deadSpaceMl) => discardVolume({ deadSpaceMl, sampleFor }));
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
  const measured = timeline.line.patient.measurements.filter(({ kind }) => kind === 'weight').at(-1);
  const weight = measured?.value;
  if (measured === undefined || weight?.low === undefined || weight.low !== weight.high)
    return { ok: false, reason: { code: 'weight-not-exact' } };
  const volume = catheterVolume(lumen);
  const lumenVolumeMl = volume.ok && Number(volume.value) >= 0.01 ? volume.value : undefined;
  if (lumenVolumeMl === undefined && Number(weight.low) < 30)
    return { ok: false, reason: { code: 'dose-needs-lumen-volume' } };
  const given = lumen ? dosesSinceOpen(timeline, { scope: 'lumen', ...lumen }) : [];
  if (given.length > 1) return { ok: false, reason: { code: 'doses-already-given', count: given.length } };
  try {
    const result = thrombolyticDose({
      weightKg: weight.low,
      dosesGiven: given.length,
      ...(lumenVolumeMl === undefined ? {} : { lumenVolumeMl }),
    });
    const { withdrawLeastMl: least, withdrawMostMl: most } = result;
    return {
      ok: true,
      value: result.value,
      unit: result.unit,
      inMl: result.volumeMl,
      cautions: [
        { code: 'dose-is-for-weight', kg: weight.low, measured: measured.at },
        ...given.map(({ ms }) => ({ code: 'second-and-last-dose', firstAt: ms }) as const),
        ...result.furtherCautions.map(calculatorText),
      ],
      withdrawal: { code: 'volume-between', leastMl: least, mostMl: most },
    };
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    return { ok: false, reason: calculatorText(error.message) };
  }
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
      return said(lockOf(lumen, timeline.line.type), 'volume');
    case 'syringeSize':
      return said(syringeSize(), 'volume');
    case 'thrombolyticDose':
      return said(doseOf(timeline, lumen), 'dose');
    case 'thrombolyticWithdrawal': {
      const dose = doseOf(timeline, lumen);
      return dose.ok ? dose.withdrawal : { code: 'withdrawal-by-weight' };
    }
    case 'discardVolume': {
      const general = discardOf(lumen, 'general');
      const coagulation = discardOf(lumen, 'coagulation');
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
