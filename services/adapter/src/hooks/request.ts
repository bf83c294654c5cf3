import type { CardHook } from '@dwellward/core';
import { z } from 'zod';

// CDS Hooks 2.0, “Calling a CDS Service” and “Feedback”: https://cds-hooks.hl7.org/2.0/

const text = z.string().min(1).max(2000);

const call = z.looseObject({
  hook: text,
  hookInstance: text,
  fhirServer: text.optional(),
  context: z.looseObject({
    patientId: text,
    selections: z.array(text).optional(),
    draftOrders: z
      .looseObject({
        entry: z.array(z.looseObject({ resource: z.looseObject({ resourceType: text }) })).optional(),
      })
      .optional(),
  }),
  prefetch: z.record(z.string(), z.unknown()).optional(),
});

/** A call of a service, as far as it is read; what else stands in it is passed over. */
export type HookCall = z.infer<typeof call>;

const feedback = z.looseObject({
  feedback: z
    .array(
      z.discriminatedUnion('outcome', [
        z.looseObject({
          card: text,
          outcome: z.literal('accepted'),
          acceptedSuggestions: z.array(z.looseObject({ id: text })).min(1),
          outcomeTimestamp: text,
        }),
        z.looseObject({
          card: text,
          outcome: z.literal('overridden'),
          overrideReason: z.looseObject({ reason: z.unknown().optional() }).optional(),
          outcomeTimestamp: text,
        }),
      ]),
    )
    .min(1)
    .max(1000),
});

export type Feedback = z.infer<typeof feedback>['feedback'];

export type Read<Value> = { readonly value: Value } | { readonly problems: readonly string[] };

/** Reads a call of a service; a list of what is wrong with it, by path, where it can’t be used. */
export function readCall(body: unknown, hook: CardHook): Read<HookCall> {
  const read = call.safeParse(body);
  if (!read.success) return { problems: problemsOf(read.error) };
  if (read.data.hook !== hook) return { problems: [`hook: this service is for ${hook}`] };
  if (hook !== 'patient-view' && read.data.context.draftOrders === undefined)
    return { problems: ['context.draftOrders: required for this hook'] };
  return { value: read.data };
}

/** Reads what users did with cards. */
export function readFeedback(body: unknown): Read<Feedback> {
  const read = feedback.safeParse(body);
  return read.success ? { value: read.data.feedback } : { problems: problemsOf(read.error) };
}

/** What is wrong with a request, by path; none of its values are in it. */
export function problemsOf({ issues }: z.ZodError): string[] {
  return issues.map(({ path, message }) => `${path.join('.') || 'body'}: ${message}`);
}
