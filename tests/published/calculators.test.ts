import { readFileSync, readdirSync } from 'node:fs';
import { calculators, type CalculatorName } from '@dwellward/calculators/catalog';
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';

interface Row {
  readonly calculator: CalculatorName;
  readonly input: Readonly<Record<string, unknown>>;
  /** Results by name; amounts as printed, so `2.000` is the same as `2`. */
  readonly expect: Readonly<Record<string, unknown>>;
  /** The decimal places to which the source prints the value, where it prints fewer than the calculator. */
  readonly decimals?: number;
  /** Where the source gives only a bound. */
  readonly compare?: 'above' | 'below';
  /** Words that one of the cautions must hold. */
  readonly caution?: string;
  readonly source: string;
  readonly where: string;
  readonly seen: 'seen' | 'secondary' | 'from memory' | 'computed' | 'common practice, no source';
}

const folder = new URL('../../fixtures/published/', import.meta.url);

const tables = readdirSync(folder)
  .filter((name) => name.startsWith('calculators-'))
  .map((name) => ({
    name,
    ...(JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as { about: string; rows: Row[] }),
  }));

const isAmount = (value: unknown): value is string =>
  typeof value === 'string' && /^\d+(\.\d+)?$/.test(value);

function agree(row: Row, name: string, wanted: unknown, got: unknown): void {
  if (!isAmount(wanted)) return expect(got).toEqual(wanted);
  expect(got, `${name} is an amount`).toSatisfy(isAmount);
  const value = new Decimal(got as string);
  if (row.compare === 'above') return expect(value.greaterThan(wanted), `${got} above ${wanted}`).toBe(true);
  if (row.compare === 'below') return expect(value.lessThan(wanted), `${got} below ${wanted}`).toBe(true);
  const shown = row.decimals === undefined ? value : value.toDecimalPlaces(row.decimals);
  expect(shown.toString()).toBe(new Decimal(wanted).toString());
}

describe.each(tables)('$name', ({ rows }) => {
  it.each(rows.map((row) => [`${row.calculator}: ${row.where}: ${JSON.stringify(row.input)}`, row] as const))(
    '%s',
    (_title, row) => {
      const result = calculators[row.calculator].run(row.input) as unknown as Readonly<
        Record<string, unknown>
      >;
      for (const [name, wanted] of Object.entries(row.expect)) agree(row, name, wanted, result[name]);
      if (row.caution !== undefined) expect((result.cautions as string[]).join('\n')).toContain(row.caution);
      expect(Object.keys(row.expect).length + (row.caution === undefined ? 0 : 1)).toBeGreaterThan(0);
    },
  );
});

describe('the published rows', () => {
  const all = tables.flatMap(({ rows }) => rows);
  it('are at least 40 that were read in a published text', () => {
    expect(all.filter((row) => row.seen === 'seen').length).toBeGreaterThanOrEqual(40);
  });
  it('each name their source, the place in it, and whether the text was seen', () => {
    const marks = ['seen', 'secondary', 'from memory', 'computed', 'common practice, no source'];
    for (const row of all) {
      expect(row.source).not.toBe('');
      expect(row.where).not.toBe('');
      expect(marks).toContain(row.seen);
      if (row.seen === 'common practice, no source') expect(row.source).toBe('common practice, no source');
    }
  });
});
