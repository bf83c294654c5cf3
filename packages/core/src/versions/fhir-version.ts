/** A version of FHIR whose records are read. */
export type FhirVersion = 'R4' | 'R4B' | 'R5';

export const fhirVersions: readonly FhirVersion[] = ['R4', 'R4B', 'R5'];

/**
 * The version that is meant by a name or a number, as options, CapabilityStatements and canonical addresses give it:
 * `R5`, `r4b`, `4.0.1`, `5.0`; undefined for one that is not read. R4 is 4.0.x, R4B 4.1.x and 4.3.x, R5 5.0.x (HL7,
 * FHIR publication history).
 * @example
 * ```ts
 * fhirVersionOf('5.0.0'); // 'R5'
 * fhirVersionOf('3.0.2'); // undefined
 * ```
 */
export function fhirVersionOf(text: string): FhirVersion | undefined {
  const said = text.trim();
  const named = fhirVersions.find((one) => one === said.toUpperCase());
  if (named !== undefined) return named;
  if (/^4(\.0(\.|$)|$)/.test(said)) return 'R4';
  if (/^4\.[13](\.|$)/.test(said)) return 'R4B';
  return /^5(\.0(\.|$)|$)/.test(said) ? 'R5' : undefined;
}

// `http://hl7.org/fhir/5.0/StructureDefinition/Device`, or `http://hl7.org/fhir/StructureDefinition/Device|5.0.0`.
const inPath = /^https?:\/\/hl7\.org\/fhir\/(\d\.\d|R4B?|R5)\/StructureDefinition\//;
const behind = /^https?:\/\/hl7\.org\/fhir\/StructureDefinition\/[A-Za-z]+\|(\d\.\d(?:\.\d)?)/;

/**
 * The version that the profiles of a resource or a Bundle name. Only those of the standard itself count its versions.
 * @example
 * ```ts
 * versionOfProfiles({ meta: { profile: ['http://hl7.org/fhir/5.0/StructureDefinition/Device'] } }); // 'R5'
 * ```
 */
export function versionOfProfiles(resource: unknown): FhirVersion | undefined {
  const { meta } = (resource ?? {}) as { meta?: { profile?: unknown } | null };
  const profiles: readonly unknown[] = Array.isArray(meta?.profile) ? meta.profile : [];
  for (const profile of profiles) {
    if (typeof profile !== 'string') continue;
    const said = inPath.exec(profile)?.[1] ?? behind.exec(profile)?.[1];
    const version = said === undefined ? undefined : fhirVersionOf(said);
    if (version !== undefined) return version;
  }
  return undefined;
}
