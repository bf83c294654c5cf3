// The mutants of a package, without running one: their list is what parts and samples are cut from.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { strykerPlugins } from '../ignore-wordings.mjs';
import { mutatedFiles, root } from './packages.mjs';

const quiet = () => undefined;
const logger = { debug: quiet, info: quiet, warn: quiet, isDebugEnabled: () => false };

/** What names a mutant, to this list and to the tester alike. Lines and columns count from 0. */
export const idOf = ({ file, mutator, replacement, location: { start, end } }) =>
  [file, `${start.line}:${start.column}-${end.line}:${end.column}`, mutator, replacement].join('|');

/** The same from what the tester hands to its plugins; reporters get lines and columns that count from `first` = 1. */
export function idOfTested({ fileName, mutatorName, replacement, location }, first = 0) {
  const { start, end } = location;
  const from0 = ({ line, column }) => ({ line: line - first, column: column - first });
  return idOf({
    file: fromRoot(fileName),
    mutator: mutatorName,
    replacement,
    location: { start: from0(start), end: from0(end) },
  });
}

const fromRoot = (path) => path.slice(path.lastIndexOf('packages/'));

function spanOf(source, { start, end }) {
  const lines = source.split('\n').slice(start.line, end.line + 1);
  lines[lines.length - 1] = lines[lines.length - 1].slice(0, end.column);
  lines[0] = lines[0].slice(start.column);
  return lines.map((line) => line.trim()).join(' ');
}

/** Every mutant of the package: `{ id, file, line, mutator, original, replacement, location, digest }`. */
export async function mutantsOf(name) {
  const { Instrumenter } = await import('@stryker-mutator/instrumenter');
  const files = mutatedFiles(name).map((file) => ({
    name: file,
    mutate: true,
    content: readFileSync(join(root, file), 'utf8'),
  }));
  const options = {
    plugins: null,
    excludedMutations: [],
    ignorers: strykerPlugins.map(({ value }) => value),
    noHeader: true,
  };
  const { mutants } = await new Instrumenter(logger).instrument(files, options);
  const sources = new Map(files.map(({ name: file, content }) => [file, content]));
  const digests = new Map(
    files.map(({ name: file, content }) => [
      file,
      createHash('sha256').update(content).digest('hex').slice(0, 16),
    ]),
  );
  return mutants
    .filter(({ status }) => status === undefined)
    .map(({ fileName: file, mutatorName: mutator, replacement, location }) => ({
      id: idOf({ file, mutator, replacement, location }),
      file,
      line: location.start.line + 1,
      mutator,
      original: spanOf(sources.get(file), location),
      replacement,
      location,
      digest: digests.get(file),
    }));
}

/** Part `part` of `parts`: neighbours stay together, and every part has as many mutants, give or take one. */
export function partOf(mutants, part, parts) {
  const edge = (count) => Math.round((mutants.length * count) / parts);
  return mutants.slice(edge(part - 1), edge(part));
}

function random(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A random sample without repeats, the same for the same seed; each mutant is as likely as any other. */
export function sampleOf(mutants, count, seed) {
  const next = random(seed);
  const left = [...mutants];
  const wanted = Math.min(count, left.length);
  for (let at = 0; at < wanted; at += 1) {
    const taken = at + Math.floor(next() * (left.length - at));
    [left[at], left[taken]] = [left[taken], left[at]];
  }
  return left.slice(0, wanted);
}
