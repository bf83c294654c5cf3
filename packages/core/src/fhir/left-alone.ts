import type { FhirResource } from 'fhir/r4.js';
import type { LineCare } from '../model/care.js';
import type { LineRecord, Ref } from '../model/record.js';

/**
 * What is on the server without what speaks of a line whose care could not be computed: nobody knows whether that is
 * still asked for, so nothing of it is closed or changed.
 * @param isStill whether a resource says what is to be said of such a line.
 */
export function withoutLinesNotComputed(
  existing: readonly FhirResource[],
  cares: readonly LineCare[],
  lines: readonly LineRecord[],
  isStill: (resource: FhirResource) => boolean,
): readonly FhirResource[] {
  const failed = new Set(cares.flatMap(({ line, notComputed }) => (notComputed ? [line] : [])));
  if (failed.size === 0) return existing;
  const devices = new Set(
    lines
      .filter(({ ref }) => failed.has(ref))
      .flatMap(({ ref, lumens }) => [ref, ...lumens.flatMap((lumen) => [lumen.ref, lumen.device])]),
  );
  return existing.filter((one) => isStill(one) || !refersTo(one, devices));
}

function refersTo(value: unknown, devices: ReadonlySet<Ref>): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return Object.entries(value).some(([name, part]: [string, unknown]) =>
    name === 'reference' && typeof part === 'string' ? devices.has(part) : refersTo(part, devices),
  );
}
