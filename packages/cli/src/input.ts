import { createReadStream } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { createInterface } from 'node:readline';
import type { ResourceEntry } from '@dwellward/core';
import { CliError } from './errors.js';
import type { Io } from './io.js';

// V8 holds no string of more than about 536 million characters; past that only line by line.
const largestBundleBytes = 500_000_000;
const progressFromBytes = 20_000_000;
const bundleTypes = ['collection', 'searchset', 'transaction', 'batch'];

/**
 * Reads a Bundle (collection, searchset, transaction or batch) from a file or, for `-`, from the input stream; or a
 * folder of NDJSON files as a FHIR bulk export writes them. Throws a CliError where nothing at all can be read.
 */
export async function readInput(path: string, io: Io): Promise<ResourceEntry[]> {
  if (path === '-') return bundleEntries(await textOf(io.stdin, 'standard input'), 'standard input');
  const info = await stat(path).catch((cause: unknown) => {
    throw new CliError('unreadable-input', `${path}: there is no such file or folder.`, { cause });
  });
  if (info.isDirectory()) return readFolder(path, io);
  if (info.size > largestBundleBytes) {
    throw new CliError(
      'unreadable-input',
      `${path}: ${megabytes(info.size)} are too much for one Bundle (up to ${megabytes(largestBundleBytes)}). Export it as a folder of NDJSON files and give the folder: it is read line by line.`,
    );
  }
  if (path.endsWith('.ndjson')) return readNdjson([path], io);
  return bundleEntries(await textOf(createReadStream(path), path, info.size, io), path);
}

async function textOf(
  stream: AsyncIterable<Uint8Array | string>,
  path: string,
  bytes = 0,
  io?: Io,
): Promise<string> {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let text = '';
  let read = 0;
  let shown = -1;
  try {
    for await (const chunk of stream) {
      text += typeof chunk === 'string' ? chunk : decoder.decode(chunk, { stream: true });
      read += chunk.length;
      const percent = bytes > 0 ? Math.floor((read / bytes) * 100) : 0;
      if (io?.progress && bytes >= progressFromBytes && percent !== shown) {
        shown = percent;
        io.warn(`\rreading ${path}: ${percent} %${percent >= 100 ? '\n' : ''}`);
      }
    }
    return text + decoder.decode();
  } catch (cause) {
    throw new CliError('unreadable-input', `${path}: it is not text in UTF-8 (${messageOf(cause)}).`, {
      cause,
    });
  }
}

function bundleEntries(text: string, path: string): ResourceEntry[] {
  const content = parse(text, path);
  if (!isObject(content) || typeof content['resourceType'] !== 'string') {
    throw new CliError(
      'unreadable-input',
      `${path}: this is JSON but no FHIR resource: there is no resourceType. A Bundle is wanted.`,
    );
  }
  if (content['resourceType'] !== 'Bundle') {
    throw new CliError(
      'unreadable-input',
      `${path}: resourceType is ${content['resourceType']}, and a Bundle is wanted (${bundleTypes.join(', ')}).`,
    );
  }
  const type = content['type'];
  if (typeof type !== 'string' || !bundleTypes.includes(type)) {
    throw new CliError(
      'unreadable-input',
      `${path}: Bundle.type is ${JSON.stringify(type) ?? 'not given'}; one of ${bundleTypes.join(', ')} is wanted.`,
    );
  }
  const list = content['entry'] ?? [];
  if (!Array.isArray(list)) {
    throw new CliError('unreadable-input', `${path}: Bundle.entry is not a list.`);
  }
  return list.flatMap((entry: unknown, i): ResourceEntry[] => {
    const place = `Bundle.entry[${i}].resource`;
    if (!isObject(entry)) return [{ resource: undefined, place: `Bundle.entry[${i}]` }];
    const { fullUrl, resource, request, search } = entry;
    // What a search says about itself, and what a transaction deletes, are no part of the record.
    if (isObject(search) && search['mode'] === 'outcome') return [];
    if (resource === undefined && isObject(request) && request['method'] === 'DELETE') return [];
    return [{ resource, place, ...(typeof fullUrl === 'string' ? { fullUrl } : {}) }];
  });
}

async function readFolder(folder: string, io: Io): Promise<ResourceEntry[]> {
  const files = (await readdir(folder)).filter((name) => name.endsWith('.ndjson')).sort();
  if (files.length === 0) {
    throw new CliError('unreadable-input', `${folder}: there is no .ndjson file in this folder.`);
  }
  return readNdjson(
    files.map((name) => join(folder, name)),
    io,
  );
}

async function readNdjson(files: readonly string[], io: Io): Promise<ResourceEntry[]> {
  const entries: ResourceEntry[] = [];
  for (const [i, file] of files.entries()) {
    if (io.progress && files.length > 1)
      io.warn(`\rreading file ${i + 1} of ${files.length}${i + 1 === files.length ? '\n' : ''}`);
    let number = 0;
    for await (const line of createInterface({
      input: createReadStream(file, 'utf8'),
      crlfDelay: Infinity,
    })) {
      number += 1;
      if (line.trim() === '') continue;
      const place = `${basename(file)}, line ${number}`;
      try {
        entries.push({ resource: JSON.parse(line) as unknown, place });
      } catch (cause) {
        entries.push({ resource: undefined, place, problem: `It is not JSON (${messageOf(cause)}).` });
      }
    }
  }
  if (!entries.some(({ resource }) => isObject(resource))) {
    throw new CliError(
      'unreadable-input',
      `No line of ${files.join(', ')} could be read as a FHIR resource.`,
    );
  }
  return entries;
}

function parse(text: string, path: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (cause) {
    throw new CliError('unreadable-input', `${path}: it is not JSON (${messageOf(cause)}).`, { cause });
  }
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function messageOf(error: unknown): string {
  // The parser quotes what it found: that may be a patient’s data, so only the place is kept.
  const text = error instanceof Error ? error.message : String(error);
  return text.replace(/, ?(\.\.\.)?"[^]*$/, '');
}

function megabytes(bytes: number): string {
  return `${Math.round(bytes / 1_000_000)} MB`;
}
