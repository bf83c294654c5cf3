/** What a {@link FiguresError} can be about. */
export type FiguresErrorCode = 'out-of-range' | 'inconsistent';

/** An input that no figure can be made from; the message says what was wrong and what is allowed. */
export class FiguresError extends Error {
  override readonly name = 'FiguresError';
  readonly code: FiguresErrorCode;
  readonly input: string;
  constructor(code: FiguresErrorCode, input: string, given: unknown, accepted: string) {
    super(`${input} is ${String(given)}: ${accepted} is wanted.`);
    this.code = code;
    this.input = input;
  }
}

// Sums run over every count; beyond it they would take seconds, and no unit has so many.
const most = 1_000_000;

/** A count of events: a whole number from 0 to 1,000,000. */
export function counted(input: string, value: number): number {
  if (!Number.isInteger(value) || value < 0 || value > most)
    throw new FiguresError('out-of-range', input, value, `a whole number from 0 to ${most}`);
  return value;
}

/** An amount at risk (days, a predicted number): finite and above 0. */
export function positive(input: string, value: number): number {
  if (!Number.isFinite(value) || value <= 0)
    throw new FiguresError('out-of-range', input, value, 'a number above 0');
  return value;
}
