import type { CapabilityStatement } from 'fhir/r4.js';

/** What the adapter makes of a server’s own description. */
export interface Capabilities {
  /** As the server names it; undefined where it does not. */
  readonly fhirVersion: string | undefined;
  /** `r4` is spoken, `r4b` is near enough to be read with care, `other` is another language, `unsaid` is not known. */
  readonly speaks: 'r4' | 'r4b' | 'other' | 'unsaid';
  /** Whether it says that it takes transactions; undefined where it lists nothing of the kind. */
  readonly transactions: boolean | undefined;
  /** Whether it can be expected to take batches: it lists them, or transactions, which have the same form. */
  readonly batches: boolean;
  /** Whether it says that its Tasks have versions; undefined where it says nothing of them. */
  readonly versions: boolean | undefined;
  /** Whether it says that what a Task refers to can’t be deleted; undefined where it says nothing of that. */
  readonly enforcesReferences: boolean | undefined;
  /** The resource types that it lists; undefined where it lists none. */
  readonly types: ReadonlySet<string> | undefined;
}

/**
 * Reads a CapabilityStatement. R4 is 4.0.x, R4B 4.1.x and 4.3.x (HL7, FHIR publication history); a later one has the
 * same resources in other shapes, which would be read as “nothing there”.
 */
export function readCapabilities({ fhirVersion, rest }: CapabilityStatement): Capabilities {
  const servers = (Array.isArray(rest) ? rest : []).filter(({ mode }) => mode === 'server');
  const listed = servers.flatMap(({ interaction }) => interaction ?? []);
  const resources = servers.flatMap(({ resource }) => resource ?? []);
  const types = resources.map(({ type }) => type as string);
  const { versioning, referencePolicy } = resources.find(({ type }) => type === 'Task') ?? {};
  return {
    fhirVersion,
    speaks: speaks(fhirVersion),
    transactions: listed.length === 0 ? undefined : listed.some(({ code }) => code === 'transaction'),
    batches: listed.some(({ code }) => code === 'batch' || code === 'transaction'),
    versions: versioning === undefined ? undefined : versioning !== 'no-version',
    enforcesReferences: referencePolicy?.includes('enforced'),
    types: types.length === 0 ? undefined : new Set(types),
  };
}

function speaks(version: string | undefined): Capabilities['speaks'] {
  if (typeof version !== 'string' || version === '') return 'unsaid';
  if (/^4\.0(\.|$)/.test(version)) return 'r4';
  return /^4\.[13](\.|$)/.test(version) ? 'r4b' : 'other';
}
