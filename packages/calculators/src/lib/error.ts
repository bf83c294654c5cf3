/**
 * Why a calculator refused its input.
 *
 * - `missing`: an input that is needed is absent.
 * - `unknown-input`: a name the calculator does not have; a misspelt option must not pass as left out.
 * - `wrong-type`: not text, a number, a list or a truth value where one is needed.
 * - `not-a-number`: text that is no decimal number, `NaN` or an infinity.
 * - `out-of-range`: a number, or a number of list entries, outside what is accepted.
 * - `not-a-choice`: none of the words accepted.
 * - `not-a-date`: no calendar date, or no local date and time, as text.
 * - `inconsistent`: each input is fine, but together they can't be true or can't be computed with.
 */
export type CalculatorErrorCode =
  | 'missing'
  | 'unknown-input'
  | 'wrong-type'
  | 'not-a-number'
  | 'out-of-range'
  | 'not-a-choice'
  | 'not-a-date'
  | 'inconsistent';

/** The only error that a calculator throws: what was wrong, and what would have been accepted. */
export class CalculatorError extends Error {
  override readonly name = 'CalculatorError';
  readonly code: CalculatorErrorCode;
  /** The input's name; of a list entry with its place, `lumens[0].volumeMl`. */
  readonly input: string;
  /** What came, as short text. */
  readonly received: string;
  /** What is accepted, with unit. */
  readonly accepted: string;

  constructor(code: CalculatorErrorCode, input: string, received: unknown, accepted: string) {
    const shown = show(received);
    super(`${input}: ${code}, got ${shown}; accepted: ${accepted}`);
    this.code = code;
    this.input = input;
    this.received = shown;
    this.accepted = accepted;
  }
}

// Never calls into the received value: a hostile `toString` must not turn into an untyped error.
function show(value: unknown): string {
  if (typeof value === 'string') return value.length > 40 ? `'${value.slice(0, 40)}…'` : `'${value}'`;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'an object';
  return typeof value === 'function' ? 'a function' : String(value);
}
