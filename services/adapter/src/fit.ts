import type { Logger } from 'pino';
import { FhirServerError, type FhirServer } from './fhir-server/index.js';

/** A server that the adapter must not work with. */
export class UnfitServer extends Error {
  override readonly name = 'UnfitServer';
  readonly code: 'other-fhir-version' | 'clocks-apart';

  constructor(code: UnfitServer['code'], message: string) {
    super(message);
    this.code = code;
  }
}

/** What is worth saying of the server as long as the adapter runs. */
export interface Fit {
  readonly fhirVersion: string | undefined;
  /** Whether the server says that what is referred to can’t be deleted. */
  readonly enforcesReferences: boolean;
  readonly warnings: readonly string[];
}

/** Clocks that differ by more are said to. common practice, no source. */
export const skewSaidMs = 60_000;
/**
 * Clocks that differ by more are refused: what is due would be early or late by so much, and what the one writes the
 * other takes for the future. common practice, no source.
 */
export const skewRefusedMs = 600_000;

/** How the two clocks differ, in a sentence; undefined where it does not matter. */
export function skewText(skewMs: number): string | undefined {
  if (Math.abs(skewMs) <= skewSaidMs) return undefined;
  const side = skewMs > 0 ? 'ahead of' : 'behind';
  return `The FHIR server’s clock is ${Math.round(Math.abs(skewMs) / 1000)} s ${side} this machine’s. Set both by the same time service.`;
}

/**
 * Asks the server what it is, before anything is read or written.
 * @throws UnfitServer where it speaks another FHIR, or the clocks are too far apart.
 * @throws FhirServerError where it can’t be asked now.
 */
export async function checkFit(server: FhirServer, log: Logger): Promise<Fit> {
  const capabilities = await server.capabilities().catch((error: unknown) => {
    // Whoever forbids its description may still allow the rest.
    if (error instanceof FhirServerError && (error.code === 'refused' || error.code === 'not-fhir'))
      return undefined;
    throw error;
  });
  const { fhirVersion, speaks = 'unsaid', versions, enforcesReferences = false } = capabilities ?? {};
  if (speaks === 'other') {
    throw new UnfitServer(
      'other-fhir-version',
      `The server at ${server.baseUrl} speaks FHIR ${fhirVersion}. This adapter speaks FHIR R4 (4.0.x); another version keeps the same facts in other places, and what is written here would not be understood there. Name the server’s R4 service base; an export of it is read by “dwellward due”.`,
    );
  }
  if (Math.abs(server.clockSkewMs) > skewRefusedMs) {
    throw new UnfitServer(
      'clocks-apart',
      `${skewText(server.clockSkewMs)} More than ${skewRefusedMs / 60_000} minutes are refused: care would be due early or late by as much.`,
    );
  }
  const warnings = [
    speaks === 'r4b'
      ? `The server speaks FHIR R4B (${fhirVersion}), whose resources of a record are those of R4.`
      : undefined,
    speaks === 'unsaid'
      ? 'The server does not say which FHIR version it speaks; it is taken for R4.'
      : undefined,
    versions === false
      ? 'The server keeps no versions of Tasks: each is read once more just before it is written, and what a person writes between the two is lost.'
      : undefined,
    skewText(server.clockSkewMs),
  ].filter((text) => text !== undefined);
  for (const warning of warnings) log.warn({ fhirVersion }, warning);
  return { fhirVersion, enforcesReferences, warnings };
}
