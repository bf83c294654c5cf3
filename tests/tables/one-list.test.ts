import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { activityCodes, findingCodes, lineSites } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { nameLists, namesIn } from './name-lists.js';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** Where activities and findings may stand side by side: the tables, and what is a plan or a list of plans. */
const exempt = [
  'packages/profiles/src/activities.ts',
  // The part of that table that is first steps; it is spread into it.
  'packages/profiles/src/first-steps.ts',
  'packages/profiles/src/findings.ts',
  'packages/policy/src/generated/',
  // Each language has words of its own for them.
  'packages/core/src/words/',
  // Two plans have the name of an activity.
  'packages/policy/src/bundled.ts',
  // A language words them one by one: it decides nothing by them.
  'packages/core/src/words/',
];

/**
 * What is still named in `rules` and `due`: a file and a name a row. A row whose name is gone from its file goes, too;
 * none may come.
 */
const notYet: readonly string[] = [
  // What an item counts from, not the act.
  'packages/core/src/rules/starts.ts insertion',
];

// The name of a finding that is also that of a place: where it stands, the place is meant.
const places = new Set<string>(lineSites.map(([code]) => code));
const known = new Set<string>([...activityCodes, ...findingCodes].filter((code) => !places.has(code)));

function sources(folder: string): string[] {
  return readdirSync(root + folder, { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory())
      return ['dist', 'node_modules', 'recorded'].includes(entry.name) ? [] : sources(path);
    const isSource = /\.(ts|tsx|mts|js|mjs)$/.test(entry.name) && !/\.(test|kit|d)\.ts$/.test(entry.name);
    return isSource ? [path] : [];
  });
}

const files = ['packages', 'services']
  .flatMap(sources)
  .filter((path) => !exempt.some((one) => path.startsWith(one)));
const text = (path: string) => readFileSync(root + path, 'utf8');

describe('the tables of activities and findings', () => {
  it('are the only lists of their names in any package or service', () => {
    const found = files.flatMap((path) =>
      nameLists(text(path), known).map(({ line, names }) => `${path}:${line} lists ${names.join(', ')}`),
    );
    expect(found.join('\n')).toBe('');
  });

  it('are named by no rule and by nothing that is due, but for what is listed', () => {
    const engine = files.filter((path) => /^packages\/core\/src\/(rules|due)\//.test(path));
    expect(engine.length).toBeGreaterThan(10);
    const found = engine.flatMap((path) =>
      namesIn(text(path), known).map(({ line, name }) => ({
        row: `${path} ${name}`,
        place: `${path}:${line} names ${name}`,
      })),
    );
    expect(found.filter(({ row }) => !notYet.includes(row)).map(({ place }) => place)).toEqual([]);
    expect(notYet.filter((one) => !found.some(({ row }) => row === one))).toEqual([]);
  });

  it('are looked for in every package and service', () => {
    for (const folder of ['profiles', 'policy', 'core', 'cli', 'calculators'])
      expect(
        files.some((path) => path.startsWith(`packages/${folder}/src/`)),
        folder,
      ).toBe(true);
    expect(files.some((path) => path.startsWith('services/adapter/src/'))).toBe(true);
    expect(nameLists(text('packages/profiles/src/activities.ts'), known).length).toBeGreaterThan(0);
  });
});

describe('a list of names', () => {
  const lists = (source: string) => nameLists(source, known);
  it.each([
    ['an array', "const a = ['flush', 'lock'];"],
    ['an array of types', "const a = ['flush', 'lock'] as const;"],
    ['a set', "const a = new Set<string>(['flush', 'lock']);"],
    ['a map', "const a = new Map([['flush', 1], ['lock', 2]]);"],
    ['an object’s keys', "const a = { flush: 1, 'blood-sampling': 2 };"],
    ['an object’s values', "const a = { '1': 'flush', '2': 'lock' };"],
    ['an array of objects', "const a = [{ code: 'flush' }, { code: 'lock' }];"],
    ['an array of calls', "const a = [last('flush'), ...all('lock')];"],
    ['a union', "type A = 'flush' | 'lock';"],
    ['an interface', 'interface A { flush: number; lock: number }'],
    ['a switch', "switch (a) { case 'flush': case 'lock': b(); }"],
    ['a chain of comparisons', "if (a === 'flush' || (b && a !== 'lock')) c();"],
    ['a chain of choices', "const b = a === 'flush' ? 1 : a === 'lock' ? 2 : 3;"],
  ])('is %s', (_, source) => {
    expect(lists(`\n${source}`)).toEqual([{ line: 2, names: ['flush', expect.any(String)] }]);
  });

  it.each([
    ['one name', "const a = ['flush', 'other'];"],
    ['one name twice', "if (a === 'flush' || b === 'flush') c();"],
    ['two comparisons in two statements', "if (a === 'flush') b(); if (a === 'lock') c();"],
    ['one name within another list', "const a = ['flush', () => b('lock')];"],
    ['words in a sentence', "const a = ['flush it', 'then lock it'];"],
  ])('is not %s', (_, source) => {
    expect(lists(source)).toEqual([]);
  });

  it('is not needed for a name to be found', () => {
    expect(namesIn("\nif (a === 'flush') b(`lock`);", known)).toEqual([
      { line: 2, name: 'flush' },
      { line: 2, name: 'lock' },
    ]);
  });
});
