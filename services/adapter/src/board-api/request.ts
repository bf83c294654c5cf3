import type { Charted } from '@dwellward/core';
import { activityCodes, dressingTypes, findingCodes } from '@dwellward/profiles';
import { z } from 'zod';

const text = z.string().trim().min(1).max(500);
const codes = <Code extends string>(list: readonly Code[]) => z.enum(list as readonly [Code, ...Code[]]);

const charted = z.strictObject({
  id: z.uuid(),
  line: text,
  lumen: text.optional(),
  activity: codes(activityCodes).optional(),
  findings: z
    .array(
      z.strictObject({
        finding: codes(findingCodes),
        value: text.optional(),
        flag: z.boolean().optional(),
        quantity: z
          .string()
          .regex(/^\d{1,4}(\.\d{1,3})?$/)
          .optional(),
      }),
    )
    .max(20)
    .default([]),
  /** Absent: now, by the clock of the service. */
  at: z.iso.datetime({ offset: true }).optional(),
  by: text.optional(),
  putOn: codes(dressingTypes.map(([code]) => code)).optional(),
  note: text.optional(),
  /** The codes of the questions that were answered with yes. */
  confirmed: z.array(text).max(20).default([]),
});

/** What was asked to be charted, and the questions that were answered. */
export interface ChartingRequest {
  readonly charted: Charted;
  readonly confirmed: ReadonlySet<string>;
}

/** Reads a request; a list of what is wrong with it, by path, where it can’t be used. */
export function readCharting(
  body: unknown,
  now: string,
): { readonly request: ChartingRequest } | { readonly problems: readonly string[] } {
  const read = charted.safeParse(body);
  if (!read.success)
    return {
      problems: read.error.issues.map(({ path, message }) => `${path.join('.') || 'body'}: ${message}`),
    };
  const { confirmed, at = now, ...rest } = read.data;
  if (rest.activity === undefined && rest.findings.length === 0)
    return { problems: ['activity, findings: one of the two says what was done or seen.'] };
  // Absent and undefined are the same in a request.
  const given = JSON.parse(JSON.stringify({ ...rest, at })) as Charted;
  return { request: { charted: given, confirmed: new Set(confirmed) } };
}
