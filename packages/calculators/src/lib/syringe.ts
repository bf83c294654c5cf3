import { type Decimal, type Rounding, compare, decimal, divide, times } from './decimal.js';

/** Syringes by their size, with what they hold and what lies between two marks, in mL. Common practice, no source. */
const scales = [
  ['1-ml', '1', '0.01'],
  ['3-ml', '3', '0.1'],
  ['5-ml', '5', '0.2'],
  ['10-ml', '10', '0.2'],
  ['20-ml', '20', '1'],
  ['50-ml', '50', '1'],
] as const;

export type Syringe = (typeof scales)[number][0];

export const syringeSizes = scales.map(([name]) => name);

export const sizeText = (syringe: Syringe): string => syringe.replace('-ml', ' mL');

/** A volume as a syringe shows it. */
export interface Measured {
  readonly syringe: Syringe;
  readonly stepMl: string;
  readonly volumeMl: Decimal;
}

/** The volume to the nearest mark, up or down, of the smallest syringe that holds it and is not below `least`. */
export function measured(volumeMl: Decimal, least: Syringe, rounding: Rounding): Measured {
  const allowed = scales.slice(scales.findIndex(([name]) => name === least));
  // The largest holds whatever a calculator accepts.
  const [syringe, , stepMl] = (allowed.find(([, holds]) => compare(volumeMl, decimal(holds)) <= 0) ??
    allowed.at(-1)) as (typeof scales)[number];
  const step = decimal(stepMl);
  return { syringe, stepMl, volumeMl: times(divide(volumeMl, step, 0, rounding), step) };
}
