import {
  CalculatorError,
  flushVolume,
  lockVolume,
  lumenVolume,
  minimumSyringeSize,
} from '@dwellward/calculators';
import type { ComputedInput, Rule } from '@dwellward/policy';
import type { LineRecord, Lumen } from '../record/model.js';
import type { Target, WorkInput } from './model.js';

/** The work of an item: volumes from the calculators with their cautions, supplies and cautions from the policy. */
export function workOf(rule: Rule, line: LineRecord, target: Target): WorkInput[] {
  const lumen =
    line.lumens.find(({ ref }) => ref === target.ref) ??
    (line.lumens.length === 1 ? line.lumens[0] : undefined);
  const computed = rule.work.computed.flatMap((kind) => computedInputs(kind, lumen));
  const supplies = rule.work.supplies.map((text): WorkInput => ({ kind: 'supply', text }));
  const cautions = rule.work.cautions.map((text): WorkInput => ({ kind: 'caution', text }));
  return distinct([...computed, ...supplies, ...cautions]);
}

const texts: Readonly<Record<ComputedInput, (value: string) => string>> = {
  'flush-volume': (value) => `Flush with at least ${value} mL`,
  'lock-volume': (value) => `Lock with ${value} mL`,
  'syringe-size': (value) => `Barrel no narrower than that of a ${value} mL syringe`,
};

function computedInputs(kind: ComputedInput, lumen: Lumen | undefined): WorkInput[] {
  if (kind === 'syringe-size') {
    const { value, unit } = minimumSyringeSize();
    return [{ kind, text: texts[kind](value), value, unit }];
  }
  const volume = lumen ? catheterVolume(lumen) : { missing: 'The lumen is not on record.' };
  if ('missing' in volume) {
    return [
      {
        kind: 'caution',
        text: `${kind === 'flush-volume' ? 'Flush volume' : 'Lock volume'} not worked out: ${volume.missing}`,
      },
    ];
  }
  try {
    const result = (kind === 'flush-volume' ? flushVolume : lockVolume)({ catheterVolumeMl: volume.ml });
    return [
      { kind, text: texts[kind](result.value), value: result.value, unit: result.unit },
      ...[...volume.cautions, ...result.cautions].map((text): WorkInput => ({ kind: 'caution', text })),
    ];
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    return [{ kind: 'caution', text: `${kind} not worked out: ${error.message}` }];
  }
}

function catheterVolume(
  lumen: Lumen,
): { readonly ml: string; readonly cautions: readonly string[] } | { readonly missing: string } {
  const printed = lumen.primingVolume?.high;
  if (printed !== undefined && Number(printed) > 0)
    return { ml: printed, cautions: ['Add-ons are not counted: add their volume.'] };
  if (lumen.innerDiameterMm && lumen.lengthCm) {
    try {
      const { value, cautions } = lumenVolume({
        innerDiameterMm: lumen.innerDiameterMm,
        lengthCm: lumen.lengthCm,
        rounding: 'up',
      });
      return { ml: value, cautions };
    } catch (error) {
      if (!(error instanceof CalculatorError)) throw error;
      return { missing: error.message };
    }
  }
  return {
    missing:
      'the lumen’s priming volume is not on record. Read it from the lumen or the device’s instructions.',
  };
}

function distinct(inputs: readonly WorkInput[]): WorkInput[] {
  const seen = new Set<string>();
  return inputs.filter(
    ({ kind, text }) => !seen.has(`${kind}\u0000${text}`) && seen.add(`${kind}\u0000${text}`),
  );
}
