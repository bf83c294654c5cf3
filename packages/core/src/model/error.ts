import type { RefusalSentences } from './sentences/draw.js';

/**
 * Why an answer was refused before it was worked out.
 *
 * - `no-instant`: a moment that is no instant with an offset.
 * - `no-zone`: a zone that is not an IANA zone.
 * - `empty-shift`: a shift that does not end after it begins, or not after the shift before it began.
 * - `no-sequence`: a number that no calendar object can be numbered with.
 * - `no-policy-in-force`: a policy over time without a stretch that is in force from the beginning.
 * - `no-such-fact`: a rule that reads what is not a fact.
 * - `empty-change`: a change between two policies that is about no item.
 */
export type InputErrorCode =
  | 'no-instant'
  | 'no-zone'
  | 'empty-shift'
  | 'no-sequence'
  | 'no-policy-in-force'
  | 'no-such-fact'
  | 'empty-change';

/** Every code of an error of this package. */
export type CoreErrorCode = InputErrorCode | keyof RefusalSentences;

/** What an error tells a program, beside its code. */
export interface CoreErrorFields extends ErrorOptions {
  /** What was given; absent where nothing was. */
  readonly given?: unknown;
  /** What is accepted in its place: a description, or each of the choices there are. */
  readonly accepted?: string | readonly string[];
}

/** The only errors that this package throws by itself: tell them apart by their code. The message is for logs. */
export class CoreError extends Error {
  override readonly name: string = 'CoreError';
  readonly code: CoreErrorCode;
  readonly given: unknown;
  readonly accepted: string | readonly string[];

  constructor(
    code: CoreErrorCode,
    message: string,
    { given, accepted = [], ...options }: CoreErrorFields = {},
  ) {
    super(message, options);
    this.code = code;
    this.given = given;
    this.accepted = accepted;
  }
}
