import assert from 'node:assert/strict';
import { calculators, type CalculatorName } from '@dwellward/calculators/catalog';

/** That a calculator gives the published values; of its result only what is named here is compared. */
export function calculates(
  name: CalculatorName,
  input: object,
  expected: Readonly<Record<string, unknown>>,
): void {
  const result = calculators[name].run(input) as unknown as Readonly<Record<string, unknown>>;
  for (const [key, value] of Object.entries(expected)) {
    const given = result[key];
    // Amounts are decimal text: 2 and 2.0 are the same amount.
    const same =
      typeof value === 'string' && /^[\d.]+$/.test(value) ? Number(given) === Number(value) : given === value;
    assert.ok(same, `${name}: ${key} is ${JSON.stringify(given)}, published is ${JSON.stringify(value)}`);
  }
}

/** That the result of a calculator carries this caution. */
export function warns(name: CalculatorName, input: object, words: RegExp): void {
  const { cautions } = calculators[name].run(input);
  assert.ok(
    cautions.some((text) => words.test(text)),
    `${name} warns: ${cautions.join(' | ')}`,
  );
}

/** That the result of a calculator does not carry this caution. */
export function doesNotWarn(name: CalculatorName, input: object, words: RegExp): void {
  const { cautions } = calculators[name].run(input);
  assert.ok(!cautions.some((text) => words.test(text)), `${name} warns: ${cautions.join(' | ')}`);
}

/** That a calculator refuses the input. */
export function refuses(name: CalculatorName, input: object): void {
  assert.throws(() => calculators[name].run(input), { name: 'CalculatorError' });
}
