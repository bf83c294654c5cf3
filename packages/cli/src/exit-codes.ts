/** What the exit code of `dwellward` means. Overdue care is no error: the command did what it was asked. */
export const exitCodes = {
  done: 0,
  'internal-error': 1,
  usage: 2,
  'unreadable-input': 3,
  'policy-refused': 4,
  /** A map of codes can’t be read, or would be read wrongly. */
  'map-refused': 4,
  /** Everything that could be read was computed and printed, but parts of the input could not be read. */
  'partly-unreadable': 5,
  /** The draw was worked out and printed, and takes more than may still be drawn today. */
  'above-limit': 6,
  /** Not all of the answer could be written: who read it has stopped, or there is no room. */
  'not-written': 7,
} as const;

export type CliErrorCode = Exclude<keyof typeof exitCodes, 'done' | 'partly-unreadable' | 'above-limit'>;

/** A refusal with what was wrong and what to do. */
export class CliError extends Error {
  readonly code: CliErrorCode;

  constructor(code: CliErrorCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'CliError';
    this.code = code;
  }
}
