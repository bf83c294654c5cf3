import { readdir, stat } from 'node:fs/promises';
import { basename, join, relative } from 'node:path';
import type { ResourceEntry } from '@dwellward/core';
import { bundleEntries, isObject, isOutcome, outcomeOf } from './bundle.js';
import { CliError } from './errors.js';
import type { Io } from './io.js';
import { bytesOf, decoded, eachLine, linesOf, TextError, wholeLines, wholeText } from './text.js';

// V8 holds no string of more than about 536 million characters; past that only line by line.
const largestBundleBytes = 500_000_000;
const progressFromBytes = 20_000_000;

/**
 * Reads a Bundle (collection, searchset, transaction or batch) or NDJSON from a file or, for `-`, from the input stream;
 * or a folder, with those in it, of NDJSON files as a FHIR bulk export writes them, also packed (`.gz`). UTF-8 or UTF-16.
 * What the input says of itself that is missing stands among the entries. Throws a CliError where nothing at all can be read.
 */
export async function readInput(path: string, io: Io): Promise<ResourceEntry[]> {
  if (path === '-') return bundleOrLines(await strictText(io.stdin, 'standard input'), 'standard input');
  const info = await stat(path).catch((cause: unknown) => {
    throw new CliError('unreadable-input', `${path}: there is no such file or folder.`, { cause });
  });
  if (info.isDirectory()) return readFolder(path, io);
  if (isNdjson(path)) return readNdjson([{ file: path, name: basename(path) }], io);
  if (info.size > largestBundleBytes) {
    throw new CliError(
      'unreadable-input',
      `${path}: ${megabytes(info.size)} are too much for one Bundle (up to ${megabytes(largestBundleBytes)}). Export it as a folder of NDJSON files and give the folder: it is read line by line.`,
    );
  }
  return bundleOrLines(await strictText(bytesOf(path, progressOf(path, info.size, io)), path), path);
}

async function strictText(bytes: AsyncIterable<Uint8Array | string>, path: string): Promise<string> {
  try {
    return await wholeText(decoded(bytes, true));
  } catch (cause) {
    const reason = cause instanceof TextError ? cause.message : `it can’t be read (${messageOf(cause)})`;
    throw new CliError('unreadable-input', `${path}: ${reason}.`, { cause });
  }
}

function progressOf(path: string, bytes: number, io: Io): ((read: number) => void) | undefined {
  if (!io.progress || bytes < progressFromBytes) return undefined;
  let shown = -1;
  return (read) => {
    const percent = Math.floor((read / bytes) * 100);
    if (percent === shown) return;
    shown = percent;
    io.warn(`\rreading ${path}: ${percent} %${percent >= 100 ? '\n' : ''}`);
  };
}

/** A Bundle; or resources line by line, whatever the name of the file, where the first line is one by itself. */
function bundleOrLines(text: string, path: string): ResourceEntry[] {
  const lines = text.split(/\r?\n/);
  const whole = parsed(text);
  if ('value' in whole) return bundleEntries(whole.value, path);
  const first = parsed(lines.find((line) => line.trim() !== '') ?? '');
  if (!('value' in first) || !isObject(first.value) || typeof first.value['resourceType'] !== 'string')
    throw new CliError('unreadable-input', `${path}: it is not JSON (${whole.reason}).`);
  return readable(
    lines.flatMap((line, i) => entriesOfLine(line, path, i + 1)),
    path,
  );
}

function hasEnding(name: string, endings: readonly string[]): boolean {
  return endings.some((ending) => name.toLowerCase().endsWith(ending));
}

function isNdjson(name: string): boolean {
  return hasEnding(name, ['.ndjson', '.ndjson.gz']);
}

interface Source {
  readonly file: string;
  /** As it is named to people. */
  readonly name: string;
}

/** Endings of files that may hold resources in a form that is not read here. */
const otherData = '.json .xml .csv .parquet .zip .gz .bz2 .zst .tar .tgz .txt'.split(' ');

async function readFolder(folder: string, io: Io): Promise<ResourceEntry[]> {
  const { sources, notRead } = await sourcesIn(folder);
  return [...(await readNdjson(sources, io)), ...notRead];
}

/** The files of a folder that are read, in the order of their names, and what stands for the others. */
async function sourcesIn(folder: string): Promise<{ sources: Source[]; notRead: ResourceEntry[] }> {
  const found = await filesIn(folder);
  const sources = found
    .filter(isNdjson)
    .map((file) => ({ file, name: relative(folder, file) }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
  if (sources.length === 0) {
    throw new CliError(
      'unreadable-input',
      `${folder}: there is no .ndjson or .ndjson.gz file in this folder.${found.some((file) => hasEnding(file, ['.json'])) ? ' Give a Bundle by the name of its file.' : ''}`,
    );
  }
  const left = found.filter((file) => !isNdjson(file) && hasEnding(file, otherData)).sort();
  const notRead = left.map((file): ResourceEntry => ({
    resource: undefined,
    place: relative(folder, file),
    missing: 'The file stands in the folder and is not read: .ndjson and .ndjson.gz are',
  }));
  return { sources, notRead };
}

/** Lines of NDJSON that follow each other, in UTF-8, with their file and the number of the first. */
export interface InputLines {
  readonly bytes: Buffer;
  readonly name: string;
  readonly first: number;
}

/**
 * NDJSON some lines at a time, never as a whole: of a folder, a file, or for `-` the input stream; and what is known to be
 * missing.
 * @throws CliError `unreadable-input` where there is no such file, or no file of NDJSON.
 */
export async function* inputLines(path: string, io: Io): AsyncGenerator<InputLines | ResourceEntry> {
  if (path === '-') {
    yield* numbered(wholeLines(io.stdin), 'standard input');
    return;
  }
  const info = await stat(path).catch((cause: unknown) => {
    throw new CliError('unreadable-input', `${path}: there is no such file or folder.`, { cause });
  });
  const file = { file: path, name: basename(path) };
  const { sources, notRead } = info.isDirectory() ? await sourcesIn(path) : { sources: [file], notRead: [] };
  for (const { file: source, name } of sources) yield* numbered(wholeLines(bytesOf(source)), name);
  yield* notRead;
}

async function* numbered(
  parts: AsyncIterable<Buffer>,
  name: string,
): AsyncGenerator<InputLines | ResourceEntry> {
  let number = 0;
  try {
    for await (const bytes of parts) {
      const first = number + 1;
      number += countOf(bytes);
      yield { bytes, name, first };
    }
  } catch (cause) {
    yield brokenOff(name, number, cause);
  }
}

function countOf(bytes: Buffer): number {
  let count = 0;
  eachLine(bytes, () => void (count += 1));
  return count;
}

/** A packed file that breaks off: what came before it counts. */
function brokenOff(name: string, number: number, cause: unknown): ResourceEntry {
  return {
    resource: undefined,
    place: `${name}, after line ${number}`,
    missing: `The rest of the file can’t be read (${messageOf(cause)})`,
  };
}

async function filesIn(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const found = await Promise.all(
    entries
      .filter(({ name }) => !name.startsWith('.'))
      .map((entry) => {
        const path = join(folder, entry.name);
        return entry.isDirectory() ? filesIn(path) : [path];
      }),
  );
  return found.flat();
}

async function readNdjson(sources: readonly Source[], io: Io): Promise<ResourceEntry[]> {
  const entries: ResourceEntry[] = [];
  for (const [i, { file, name }] of sources.entries()) {
    if (io.progress && sources.length > 1)
      io.warn(`\rreading file ${i + 1} of ${sources.length}${i + 1 === sources.length ? '\n' : ''}`);
    let number = 0;
    try {
      for await (const line of linesOf(decoded(bytesOf(file), false))) {
        number += 1;
        for (const entry of entriesOfLine(line, name, number)) entries.push(entry);
      }
    } catch (cause) {
      entries.push(brokenOff(name, number, cause));
    }
  }
  return readable(entries, sources.map(({ file }) => file).join(', '));
}

/** The resource of a line, or why there is none. */
export function entriesOfLine(line: string, name: string, number: number): ResourceEntry[] {
  if (line.trim() === '') return [];
  const place = `${name}, line ${number}`;
  const reading = parsed(line);
  if (!('value' in reading))
    return [{ resource: undefined, place, problem: `It is not JSON (${reading.reason}).` }];
  if (isOutcome(reading.value)) return outcomeOf(reading.value, place);
  const spoiled: ResourceEntry[] = line.includes('\uFFFD')
    ? [
        {
          resource: undefined,
          place,
          missing:
            'Signs in it can’t be read: it was not written in UTF-8, or was spoiled before. Export it as UTF-8',
        },
      ]
    : [];
  return [{ resource: reading.value, place }, ...spoiled];
}

function readable(entries: ResourceEntry[], names: string): ResourceEntry[] {
  if (entries.some(({ resource }) => isObject(resource))) return entries;
  throw new CliError('unreadable-input', `No line of ${names} could be read as a FHIR resource.`);
}

function parsed(text: string): { readonly value: unknown } | { readonly reason: string } {
  try {
    return { value: JSON.parse(text) as unknown };
  } catch (cause) {
    return { reason: messageOf(cause) };
  }
}

function messageOf(error: unknown): string {
  // The parser quotes what it found: that may be a patient’s data, so only the place is kept.
  const text = error instanceof Error ? error.message : String(error);
  return text.replace(/, ?(\.\.\.)?"[^]*$/, '');
}

function megabytes(bytes: number): string {
  return `${Math.round(bytes / 1_000_000)} MB`;
}
