import { defaultPlans } from './bundled.js';
import type { Policy } from './model.js';
import { readPolicy } from './read-policy.js';

/**
 * The policy of who chooses none: the bundled base with the care of lines in the first year of life, the first steps in
 * trouble, the treatment of a blocked lumen, and damage with its repair. To lay layers over it read `[...defaultPlans(), ...layers]`.
 *
 * It advises: local policy, the instructions of device and drug, and licensed clinicians decide. Values marked
 * `from memory` are to be checked before use.
 * @example
 * ```ts
 * defaultPolicy().rules.some(({ id }) => id === 'dressing-change-transparent'); // true
 * ```
 */
export function defaultPolicy(): Policy {
  const reading = readPolicy(defaultPlans());
  // The bundled plans are held to lint clean by a test.
  if (!reading.ok) throw new RangeError('The bundled policy cannot be read.');
  return reading.policy;
}
