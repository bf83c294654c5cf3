import { z } from 'zod';

/** A variable of the environment, and the setting that it gives. */
export interface Variable<Key extends string> {
  readonly key: Key;
  readonly schema: z.ZodType<unknown, string>;
  /** What is allowed, in words. */
  readonly allowed: string;
  readonly help: string;
  /** What stands where the variable is absent, as it would be written; a variable with neither is required. */
  readonly preset?: string;
  readonly optional?: true;
  /** Its value is never shown. */
  readonly secret?: true;
}

/** A setting that is a whole number of a range. */
export function wholeNumber<Key extends string>(key: Key, least: number, most: number) {
  return {
    key,
    schema: z
      .string()
      .regex(/^\d{1,9}$/)
      .transform(Number)
      .refine((value) => value >= least && value <= most),
    allowed: `a whole number from ${least} to ${most}`,
  };
}
