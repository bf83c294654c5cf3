import { anything, list, object, oneOf, optional, text, yesNo, type Shaped } from './shape.js';

// Only the elements that are read, and only their JSON types: what they mean is checked where they are used.
const optionalText = optional(text);

const coding = object({ system: optionalText, code: optionalText, display: optionalText });
const concept = object({ coding: optional(list(coding)), text: optionalText });
const extension = object({ url: text });
const expression = object({ language: optionalText, expression: optionalText });

const documentation = object({
  type: text,
  label: optionalText,
  display: optionalText,
  citation: optionalText,
  url: optionalText,
  extension: optional(list(extension)),
});

const condition = object({ kind: text, expression: optional(expression) });
const codeFilter = object({ path: optionalText, code: optional(list(coding)) });
const dataRequirement = object({ type: text, codeFilter: optional(list(codeFilter)) });
const trigger = object({ type: text, data: optional(list(dataRequirement)) });
const relatedAction = object({ actionId: text, relationship: text });
const participant = object({ type: text, role: optional(concept) });

/** PlanDefinition.action of R4, as far as it is read. */
export const actionShape = object({
  id: optionalText,
  title: optionalText,
  priority: optional(oneOf('routine', 'urgent', 'asap', 'stat')),
  extension: optional(list(extension)),
  code: optional(list(concept)),
  documentation: optional(list(documentation)),
  condition: optional(list(condition)),
  trigger: optional(list(trigger)),
  relatedAction: optional(list(relatedAction)),
  participant: optional(list(participant)),
  definitionCanonical: optionalText,
  action: optional(list(anything)),
});
export type Action = Shaped<typeof actionShape>;

/** PlanDefinition of R4, as far as it is read; its actions are read one by one. */
export const planShape = object({
  resourceType: oneOf('PlanDefinition'),
  url: optionalText,
  version: optionalText,
  name: optionalText,
  title: optionalText,
  status: optionalText,
  experimental: optional(yesNo),
  extension: optional(list(extension)),
  contained: optional(list(anything)),
  action: optional(list(anything)),
});
export type Plan = Shaped<typeof planShape>;

/** ActivityDefinition of R4, as far as it is read. */
export const activityShape = object({
  resourceType: oneOf('ActivityDefinition'),
  id: optionalText,
  url: optionalText,
  version: optionalText,
  kind: optionalText,
  intent: optionalText,
  doNotPerform: optional(yesNo),
  code: optional(concept),
  extension: optional(list(extension)),
});
export type Activity = Shaped<typeof activityShape>;

export type Concept = Shaped<typeof concept>;
export type Extension = Shaped<typeof extension>;
export type ConditionElement = Shaped<typeof condition>;
export type TriggerElement = Shaped<typeof trigger>;
export type DataRequirement = Shaped<typeof dataRequirement>;
export type RelatedAction = Shaped<typeof relatedAction>;
export type Documentation = Shaped<typeof documentation>;
export type ParticipantElement = Shaped<typeof participant>;
