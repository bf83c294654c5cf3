import type { Config } from '../config.js';
import { recordTypes, writtenTypes } from '../slice.js';

/** Types that are read by reference, beside those that are searched by their patient. */
const referredTypes = ['Patient', 'Location', 'Medication'] as const;

/**
 * The scopes that the adapter asks for where none are set (SMART App Launch 2.0): reading and searching what care is
 * computed from, and writing Tasks and what stands beside them. Not that a board charts.
 */
export function scopesNeeded({ without }: Pick<Config, 'without'>): string {
  const left = (type: string) => !(without as readonly string[]).includes(type);
  return [
    ...[...referredTypes, ...recordTypes].filter(left).map((type) => `system/${type}.rs`),
    ...writtenTypes.filter(left).map((type) => `system/${type}.crus`),
    ...['Provenance'].filter(left).map((type) => `system/${type}.crs`),
  ].join(' ');
}
