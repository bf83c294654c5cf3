import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unitFigures } from '@dwellward/figures';
import { afterAll, describe, expect, it } from 'vitest';
import { ConfigError } from '../config.js';
import { readFigures, readMinutes } from './settings.js';

const folder = mkdtempSync(join(tmpdir(), 'dwellward-board-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = (name: string, content: unknown) => {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
};
const nothing = { lines: [], issues: [], notUnderstood: [], otherBusiness: [], unitStays: [] };
const figures = unitFigures(nothing, [], { from: '2026-04-01', to: '2026-04-30', zone: 'Europe/Berlin' });

describe('the minutes that a unit sets', () => {
  it('are read by activity', async () => {
    expect(await readMinutes(file('minutes.json', { flush: 4, 'dressing-change': 20 }))).toEqual({
      flush: 4,
      'dressing-change': 20,
    });
  });

  it.each([
    ['another activity', { tea: 4 }, /tea/],
    ['no number', { flush: 'long' }, /flush/],
    ['more than a day', { flush: 2000 }, /flush/],
    ['no JSON', '{', /is not JSON/],
  ])('are refused for %s, with where it stands', async (_, content, saying) => {
    const error: unknown = await readMinutes(file('odd.json', content)).catch((cause: unknown) => cause);
    expect(error).toBeInstanceOf(ConfigError);
    expect((error as ConfigError).message).toMatch(saying);
    expect((error as ConfigError).message).toMatch(/DWELLWARD_BOARD_MINUTES: “.*odd\.json”/);
  });
});

describe('the figures that a unit gives', () => {
  it('are read in words, as the command writes them', async () => {
    const view = await readFigures(file('figures.json', figures));
    expect(view.title).toBe('Figures from 2026-04-01 to 2026-04-30');
    expect(view.cautions).toEqual(figures.cautions);
  });

  it.each([
    ['another file', { resourceType: 'Bundle' }, /is not what dwellward figures/],
    ['units that are none', { ...figures, units: [{}] }, /is not what dwellward figures/],
    ['no JSON', 'unit;days', /is not JSON/],
  ])('are refused for %s', async (_, content, saying) => {
    await expect(readFigures(file('odd.json', content))).rejects.toThrow(saying);
  });

  it('are refused where there are none', async () => {
    await expect(readFigures(join(folder, 'none.json'))).rejects.toThrow(/can’t be read/);
  });
});
