import { z } from 'zod';

// Only the elements that are read, and only their JSON types: what they mean is checked where they are used.
const text = z.string();
const optionalText = text.optional();

const coding = z.looseObject({ system: optionalText, code: optionalText, display: optionalText });
const concept = z.looseObject({ coding: z.array(coding).optional(), text: optionalText });
const extension = z.looseObject({ url: text });
const expression = z.looseObject({ language: optionalText, expression: optionalText });

const documentation = z.looseObject({
  type: text,
  label: optionalText,
  display: optionalText,
  citation: optionalText,
  url: optionalText,
  extension: z.array(extension).optional(),
});

const condition = z.looseObject({ kind: text, expression: expression.optional() });
const codeFilter = z.looseObject({ path: optionalText, code: z.array(coding).optional() });
const dataRequirement = z.looseObject({ type: text, codeFilter: z.array(codeFilter).optional() });
const trigger = z.looseObject({ type: text, data: z.array(dataRequirement).optional() });
const relatedAction = z.looseObject({ actionId: text, relationship: text });
const participant = z.looseObject({ type: text, role: concept.optional() });

/** PlanDefinition.action of R4, as far as it is read. */
export const actionShape = z.looseObject({
  id: optionalText,
  title: optionalText,
  priority: z.enum(['routine', 'urgent', 'asap', 'stat']).optional(),
  extension: z.array(extension).optional(),
  code: z.array(concept).optional(),
  documentation: z.array(documentation).optional(),
  condition: z.array(condition).optional(),
  trigger: z.array(trigger).optional(),
  relatedAction: z.array(relatedAction).optional(),
  participant: z.array(participant).optional(),
  definitionCanonical: optionalText,
  action: z.array(z.unknown()).optional(),
});
export type Action = z.infer<typeof actionShape>;

/** PlanDefinition of R4, as far as it is read; its actions are read one by one. */
export const planShape = z.looseObject({
  resourceType: z.literal('PlanDefinition'),
  url: optionalText,
  version: optionalText,
  name: optionalText,
  title: optionalText,
  status: optionalText,
  experimental: z.boolean().optional(),
  extension: z.array(extension).optional(),
  contained: z.array(z.unknown()).optional(),
  action: z.array(z.unknown()).optional(),
});
export type Plan = z.infer<typeof planShape>;

/** ActivityDefinition of R4, as far as it is read. */
export const activityShape = z.looseObject({
  resourceType: z.literal('ActivityDefinition'),
  id: optionalText,
  url: optionalText,
  version: optionalText,
  kind: optionalText,
  intent: optionalText,
  doNotPerform: z.boolean().optional(),
  code: concept.optional(),
  extension: z.array(extension).optional(),
});
export type Activity = z.infer<typeof activityShape>;

export type Concept = z.infer<typeof concept>;
export type Extension = z.infer<typeof extension>;
export type ConditionElement = z.infer<typeof condition>;
export type TriggerElement = z.infer<typeof trigger>;
export type DataRequirement = z.infer<typeof dataRequirement>;
export type RelatedAction = z.infer<typeof relatedAction>;
export type Documentation = z.infer<typeof documentation>;
export type ParticipantElement = z.infer<typeof participant>;
