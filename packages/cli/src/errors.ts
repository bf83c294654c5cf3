import { CalculatorError } from '@dwellward/calculators';
import { CoreError, type CoreErrorCode } from '@dwellward/core';
import { CliError } from './exit-codes.js';

export { CliError, exitCodes, type CliErrorCode } from './exit-codes.js';

/** How the command ends on each error of core: those that no input of a nurse or an integrator can cause are our own. */
const endings: Readonly<Record<CoreErrorCode, 'usage' | 'internal-error'>> = {
  'no-instant': 'usage',
  'no-zone': 'usage',
  'empty-shift': 'usage',
  'no-sequence': 'usage',
  'no-test-named': 'usage',
  'no-steps-of-a-draw': 'usage',
  'no-steps-of-a-repair': 'usage',
  'say-which-lumen': 'usage',
  'say-which-damaged-lumen': 'usage',
  'no-such-lumen': 'usage',
  'no-draw-from-line': 'usage',
  'no-draw-from-lumen': 'usage',
  'no-policy-in-force': 'internal-error',
  'no-such-fact': 'internal-error',
  'empty-change': 'internal-error',
};

/** The code of an error of core; undefined of any other. */
export function coreCode(cause: unknown): CoreErrorCode | undefined {
  return cause instanceof CoreError ? cause.code : undefined;
}

/** What is to be said to whoever gave the input that core or a calculator refused; undefined of any other error. */
export function refusalOf(cause: unknown): CliError | undefined {
  if (cause instanceof CalculatorError) return new CliError('usage', cause.message, { cause });
  if (!(cause instanceof CoreError) || endings[cause.code] !== 'usage') return undefined;
  return new CliError('usage', cause.message, { cause });
}
