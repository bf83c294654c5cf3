import { fhirVersionOf, fhirVersions, readRecords, type Records } from '@dwellward/core';
import { CliError } from './errors.js';
import { readInput } from './input.js';
import type { Io } from './io.js';

/** The options of every command that reads a record, on how it is read. */
export const recordOptions = {
  'fhir-version': { type: 'string' },
} as const;

export interface RecordValues {
  readonly 'fhir-version'?: string | undefined;
}

/** Their help. */
export const recordHelp = `  --fhir-version R4, R4B or R5: what the input is; without it each resource tells by itself`;

/** Reads the input as its options say. */
export async function readRecord(file: string, values: RecordValues, io: Io): Promise<Records> {
  const said = values['fhir-version'];
  const fhirVersion = said === undefined ? undefined : fhirVersionOf(said);
  if (said !== undefined && fhirVersion === undefined)
    throw new CliError('usage', `--fhir-version ${said}: one of ${fhirVersions.join(', ')} is wanted.`);
  return readRecords(await readInput(file, io), fhirVersion === undefined ? {} : { fhirVersion });
}
