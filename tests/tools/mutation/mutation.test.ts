import { describe, expect, it } from 'vitest';
import { partOf, sampleOf } from './mutants.mjs';
import { mutatedFiles, packages } from './packages.mjs';
import { scoreOf, wilson } from './results.mjs';

const numbers = Array.from({ length: 1003 }, (_, at) => at);

describe('the parts of a mutation run', () => {
  it('hold every mutant once, in order', () => {
    expect(Array.from({ length: 24 }, (_, at) => partOf(numbers, at + 1, 24)).flat()).toEqual(numbers);
  });

  it('have as many mutants each, give or take one', () => {
    const sizes = Array.from({ length: 24 }, (_, at) => partOf(numbers, at + 1, 24).length);
    expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
  });
});

describe('a sample of mutants', () => {
  it('is the same for the same seed, and another for another', () => {
    expect(sampleOf(numbers, 40, 7)).toEqual(sampleOf(numbers, 40, 7));
    expect(sampleOf(numbers, 40, 8)).not.toEqual(sampleOf(numbers, 40, 7));
  });

  it('names none twice, and all of them where as many are asked for', () => {
    expect(new Set(sampleOf(numbers, 500, 3)).size).toBe(500);
    expect(sampleOf(numbers, 5000, 3).sort((a, b) => a - b)).toEqual(numbers);
  });

  it('prefers no part of the package', () => {
    const drawn = Array.from({ length: 400 }, (_, seed) => sampleOf(numbers, 10, seed)).flat();
    const early = drawn.filter((at) => at < 501).length;
    // 4,000 draws, half of them early: five standard deviations are 158.
    expect(Math.abs(early - 2000)).toBeLessThan(158);
  });
});

describe('the score', () => {
  const mutants = ['a', 'b', 'c', 'd', 'e'].map((id) => ({ id }));
  const outcomes = (of: Record<string, string>): Map<string, { status: string }> =>
    new Map(Object.entries(of).map(([id, status]) => [id, { status }]));

  it('counts what no test reached as not found', () => {
    const of = { a: 'Killed', b: 'Timeout', c: 'Survived', d: 'NoCoverage' };
    expect(scoreOf(mutants, outcomes(of))).toEqual({
      killed: 2,
      survived: 2,
      counted: 4,
      invalid: 0,
      score: 50,
    });
  });

  it('counts neither way what could not be judged, and leaves out what has not run', () => {
    const of = { a: 'Killed', b: 'RuntimeError', c: 'Survived' };
    expect(scoreOf(mutants, outcomes(of))).toMatchObject({ counted: 2, invalid: 1, score: 50 });
  });

  it('is never rounded up', () => {
    expect(scoreOf(mutants, outcomes({ a: 'Killed', b: 'Killed', c: 'Survived' })).score).toBe(66.66);
  });

  it('is none where none ran', () => {
    expect(scoreOf(mutants, outcomes({})).score).toBeUndefined();
  });
});

describe('the interval of a sample', () => {
  // Solved by hand from (share - p)^2 = z^2 p (1 - p) / n: for no hit of ten, p = z^2 / (10 + z^2) = 27.75 %.
  it('is Wilson’s', () => {
    expect(wilson(0, 10)[0]).toBeCloseTo(0, 6);
    expect(wilson(0, 10)[1]).toBeCloseTo(27.75, 2);
  });

  it('has the share as one solution of its equation at both ends', () => {
    for (const p of wilson(170, 200).map((each) => each / 100)) {
      expect((0.85 - p) ** 2).toBeCloseTo((1.959964 ** 2 * p * (1 - p)) / 200, 10);
    }
  });
});

describe('what is mutated', () => {
  it('is every source of the three packages, and no test, kit or declaration', () => {
    for (const name of Object.keys(packages) as (keyof typeof packages)[]) {
      const files = mutatedFiles(name);
      expect(files).toContain(`packages/${name}/src/index.ts`);
      expect(files.filter((file) => /\.(test|kit|d)\.ts$|generated/.test(file))).toEqual([]);
    }
  });
});
