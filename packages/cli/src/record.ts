import {
  fhirVersionOf,
  fhirVersions,
  readCodeMaps,
  readRecords,
  type CodeMaps,
  type MapFinding,
  type ReadOptions,
  type Records,
} from '@dwellward/core';
import { CliError } from './errors.js';
import { readInput } from './input.js';
import type { Io } from './io.js';
import { bytesOf, decoded, TextError, wholeText } from './text.js';

/** The options of every command that reads a record, on how it is read. */
export const recordOptions = {
  'fhir-version': { type: 'string' },
  map: { type: 'string', multiple: true },
} as const;

export interface RecordValues {
  readonly 'fhir-version'?: string | undefined;
  readonly map?: string[] | undefined;
}

/** Their help. */
export const recordHelp = `  --fhir-version R4, R4B or R5: what the input is; without it each resource tells by itself
  --map         a ConceptMap file: what the hospital's own codes mean; may be repeated`;

/** Reads the input as its options say. */
export async function readRecord(file: string, values: RecordValues, io: Io): Promise<Records> {
  const options = await readOptions(values, io);
  return readRecords(await readInput(file, io), options);
}

/** What the options say of how a record is read. */
export async function readOptions(values: RecordValues, io: Io): Promise<ReadOptions> {
  const said = values['fhir-version'];
  const fhirVersion = said === undefined ? undefined : fhirVersionOf(said);
  if (said !== undefined && fhirVersion === undefined)
    throw new CliError('usage', `--fhir-version ${said}: one of ${fhirVersions.join(', ')} is wanted.`);
  const maps = await loadMaps(values.map ?? [], io);
  return {
    ...(fhirVersion === undefined ? {} : { fhirVersion }),
    ...(maps === undefined ? {} : { maps }),
  };
}

/** The maps of the files; undefined where none is named. Throws a CliError where one is refused. */
async function loadMaps(files: readonly string[], io: Io): Promise<CodeMaps | undefined> {
  if (files.length === 0) return undefined;
  const given = [];
  for (const name of files) given.push({ name, resource: await readJson(name) });
  const reading = readCodeMaps(given);
  if (!reading.ok)
    throw new CliError(
      'map-refused',
      ['The map of codes is refused:', ...reading.findings.map(mapFindingText)].join('\n'),
    );
  for (const finding of reading.findings) io.warn(`${mapFindingText(finding)}\n`);
  return reading.maps;
}

async function readJson(name: string): Promise<unknown> {
  let text: string;
  try {
    text = await wholeText(decoded(bytesOf(name), true));
  } catch (cause) {
    const reason = cause instanceof TextError ? cause.message : 'there is no such file, or it can’t be read';
    throw new CliError('map-refused', `${name}: ${reason}.`, { cause });
  }
  try {
    return JSON.parse(text) as unknown;
  } catch (cause) {
    throw new CliError('map-refused', `${name}: it is not JSON.`, { cause });
  }
}

/** One finding for people: how grave, where, what. */
export function mapFindingText({ severity, map, path, message }: MapFinding): string {
  return `${severity}: ${map}, ${path}: ${message}`;
}
