import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { faultsOf, hazardsPage, readHazards, rowsByTable } from './hazards.mjs';

const hazards = readHazards();

describe('hazards', () => {
  it('are at least sixty, each with its own id', () => {
    expect(hazards.length).toBeGreaterThanOrEqual(60);
    expect(new Set(hazards.map(({ id }) => id)).size).toBe(hazards.length);
  });

  it('each name a living test, and a switch that finds what it takes out', () => {
    expect(hazards.flatMap(faultsOf)).toEqual([]);
  });

  it('stand for every finding that hurt', () => {
    const covered = new Set(hazards.flatMap(({ rows }) => rows ?? []));
    const missing = Object.values(rowsByTable)
      .flat()
      .filter((row) => !covered.has(row));
    expect(missing).toEqual([]);
  });

  it('are the page that people read', () => {
    expect(readFileSync(new URL('../../docs/hazards.md', import.meta.url), 'utf8')).toBe(
      hazardsPage(hazards),
    );
  });
});
