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
import type { Timeline } from '../timeline/timeline.js';
import { lengthText } from '../timeline/catheter-length.js';
import { dosesSinceOpen } from '../facts/doses.js';

/** An amount as text with its cautions, or why there is none. */
export type Amount =
  | {
      readonly ok: true;
      /** For people, with its unit. */
      readonly text: string;
      readonly value: string;
      readonly unit: string;
      readonly cautions: readonly string[];
    }
  | { readonly ok: false; readonly reason: string };

/** The order of draw, from memory of CLSI GP41: blood culture, citrate, serum, heparin, EDTA, fluoride. */
export const orderOfDraw = [
  'blood culture bottles',
  'citrate',
  'serum',
  'heparin',
  'EDTA',
  'fluoride',
] as const;

/** The internal volume of a lumen: as printed on it, else by its inner diameter and length. */
export function catheterVolume(lumen: Lumen | undefined): Amount {
  if (!lumen) return { ok: false, reason: 'The lumen is not on record.' };
  const printed = lumen.primingVolume?.high;
  if (printed !== undefined && Number(printed) > 0) {
    const cautions = ['Add-ons are not counted: add their volume.'];
    return { ok: true, text: `${printed} mL`, value: printed, unit: 'mL', cautions };
  }
  const { innerDiameterMm, lengthCm } = lumen;
  if (innerDiameterMm && lengthCm)
    return amount(() => lumenVolume({ innerDiameterMm, lengthCm, rounding: 'up' }));
  return {
    ok: false,
    reason:
      'the lumen’s priming volume is not on record. Read it from the lumen or the device’s instructions.',
  };
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
    return volume.ok ? { ...volume, cautions: [...volume.cautions, noOverfill] } : volume;
  }
  return ofVolume(lumen, (catheterVolumeMl) => lockVolume({ catheterVolumeMl }));
}

const noOverfill =
  'The fill volume that is printed on the limb, and no more: what is put in beyond it reaches the blood.';

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
): (Amount & { readonly ok: false }) | (Amount & { readonly ok: true; readonly withdrawal: string }) {
  const measured = timeline.line.patient.measurements.filter(({ kind }) => kind === 'weight').at(-1);
  const weight = measured?.value;
  if (weight?.low === undefined || weight.low !== weight.high)
    return { ok: false, reason: 'the weight is not on record as one exact value. Weigh the patient.' };
  const volume = catheterVolume(lumen);
  const lumenVolumeMl = volume.ok && Number(volume.value) >= 0.01 ? volume.value : undefined;
  if (lumenVolumeMl === undefined && Number(weight.low) < 30)
    return {
      ok: false,
      reason:
        'below 30 kg the dose follows the lumen’s internal volume, which is not on record. Ask for it: read it from the lumen or the device’s instructions.',
    };
  const given = lumen ? dosesSinceOpen(timeline, { scope: 'lumen', ...lumen }) : [];
  if (given.length > 1)
    return {
      ok: false,
      reason: `${given.length} doses were given since the lumen was last found open, and nothing is known of a third. Ask the responsible clinician.`,
    };
  try {
    const result = thrombolyticDose({
      weightKg: weight.low,
      dosesGiven: given.length,
      ...(lumenVolumeMl === undefined ? {} : { lumenVolumeMl }),
    });
    const { withdrawLeastMl: least, withdrawMostMl: most } = result;
    return {
      ok: true,
      text: `${result.value} mg in ${result.volumeMl} mL`,
      value: result.value,
      unit: result.unit,
      cautions: [
        `Worked out for ${weight.low} kg, measured ${measured?.at.text ?? ''}: weigh again where that is long ago.`,
        ...given.map(
          ({ ms }) => `The second and last dose: the first was given ${timeline.calendar.text(ms)}.`,
        ),
        ...result.cautions.filter((text) => !text.startsWith('Not asked yet')),
      ],
      withdrawal: least === most ? `${least} mL` : `${least} to ${most} mL`,
    };
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    return { ok: false, reason: error.message };
  }
}

/** The least syringe. */
export function syringeSize(): Amount & { readonly ok: true } {
  const { value, unit } = minimumSyringeSize();
  return { ok: true, text: `${value} mL`, value, unit, cautions: [] };
}

/** What a step says where it names a calculated value: an amount with its unit, or words. Never a gap. */
export function calculatedText(name: CalculatedName, timeline: Timeline, lumen: Lumen | undefined): string {
  switch (name) {
    case 'flushVolume':
      return said(flushOf(lumen), 'a volume');
    case 'lockVolume':
      return said(lockOf(lumen, timeline.line.type), 'a volume');
    case 'syringeSize':
      return syringeSize().text;
    case 'thrombolyticDose':
      return said(doseOf(timeline, lumen), 'a dose');
    case 'thrombolyticWithdrawal': {
      const dose = doseOf(timeline, lumen);
      return dose.ok ? dose.withdrawal : '4 to 5 mL, below 10 kg 3 mL';
    }
    case 'discardVolume': {
      const general = discardOf(lumen, 'general');
      const coagulation = discardOf(lumen, 'coagulation');
      return general.ok && coagulation.ok
        ? `${general.text}, ${coagulation.text} where a coagulation sample is drawn`
        : said(general, 'a volume');
    }
    case 'lengthOnRecord':
      return lengthText(timeline.line.length);
    case 'tubes':
      return orderOfDraw.join(', ');
    case 'infusingLumens':
      return 'every lumen of the line that is infusing';
    case 'idleLumens':
      return 'every other lumen of the line that is not infusing';
  }
}

/** An amount in a sentence; in its place the reason, so that nobody takes a gap for a number. */
export function said(found: Amount, noun: 'a volume' | 'a dose'): string {
  return found.ok ? found.text : `${noun} that could not be worked out (${found.reason.replace(/\.$/, '')})`;
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
    return { ok: true, text: `${value} ${unit}`, value, unit, cautions };
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    return { ok: false, reason: error.message };
  }
}
