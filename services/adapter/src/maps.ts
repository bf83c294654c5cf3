import { readFile } from 'node:fs/promises';
import { readCodeMaps, type CodeMaps, type GivenMap } from '@dwellward/core';
import { ConfigError } from './config.js';

/** What the maps say that the settings name, and what is to be known of them. */
export interface LoadedMaps {
  readonly maps?: CodeMaps;
  readonly warnings: readonly string[];
}

/**
 * Reads the maps of codes that the settings name.
 * @param files paths of ConceptMap files; none where the hospital’s codes are those that are read without a map.
 * @throws ConfigError with everything that is wrong with any of them: a map that is half used would hide care.
 */
export async function loadMaps(files: readonly string[]): Promise<LoadedMaps> {
  if (files.length === 0) return { warnings: [] };
  const given: GivenMap[] = [];
  const problems: string[] = [];
  for (const name of files) {
    try {
      given.push({ name, resource: JSON.parse(await readFile(name, 'utf8')) as unknown });
    } catch (error) {
      const why = error instanceof SyntaxError ? `is not JSON: ${error.message}` : 'can’t be read';
      problems.push(`DWELLWARD_MAPS: “${name}” ${why}.`);
    }
  }
  if (problems.length > 0) throw new ConfigError(problems);
  const reading = readCodeMaps(given);
  const said = reading.findings.map(
    ({ map, path, message }) => `DWELLWARD_MAPS: “${map}”, ${path}: ${message}`,
  );
  if (!reading.ok) throw new ConfigError(said);
  return { maps: reading.maps, warnings: said };
}
