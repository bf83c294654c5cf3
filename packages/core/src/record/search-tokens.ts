import { activityOfRole, codeSystem, deviceCodes, standard } from '@dwellward/profiles';
import type { CodeMaps, MapTarget } from '../mapping/code-maps.js';
import { insertionTokens, lineDeviceTokens } from './codes.js';

/** By what a FHIR server is asked for the patients who have a line, or are to have one. */
export interface LineTokens {
  /** Search tokens for Device.type of everything that is read as a line or a lumen. */
  readonly devices: readonly string[];
  /** Search tokens for the code of a ServiceRequest or an Appointment that plans an insertion. */
  readonly insertions: readonly string[];
  /** Texts that the maps read as a line or as its insertion: no search finds them. */
  readonly texts: readonly string[];
}

/**
 * The search tokens of our codes and of the published ones that are read without a map, and of the hospital’s own that its
 * maps lead to them.
 * @example
 * ```ts
 * lineTokens().devices.includes('picc'); // true
 * ```
 */
export function lineTokens(maps?: CodeMaps): LineTokens {
  if (maps === undefined) return { devices: lineDeviceTokens, insertions: insertionTokens, texts: [] };
  return {
    devices: [...lineDeviceTokens, ...maps.tokensTo(isLine)],
    insertions: [...insertionTokens, ...maps.tokensTo(isInsertion)],
    texts: maps.textsTo((target) => isLine(target) || isInsertion(target)),
  };
}

function isLine({ system, code }: MapTarget): boolean {
  return system === codeSystem.lineType || (system === standard.snomed && deviceCodes.has(code));
}

function isInsertion({ system, code }: MapTarget): boolean {
  return system === codeSystem.lineCareActivity && code === activityOfRole('begins-line');
}
