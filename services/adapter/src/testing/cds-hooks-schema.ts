/**
 * What CDS Hooks 2.0 says of the JSON of discovery and response, as JSON Schema: its tables of attributes
 * (https://cds-hooks.hl7.org/2.0/: Discovery, CDS Service Response, Card Attributes, Source, Suggestion, Action, Null and
 * empty JSON elements) and the invariants of HL7's logical models of them
 * (http://cds-hooks.hl7.org/StructureDefinition/CDSHooksResponse, cds-resp-1 to cds-resp-6). No JSON Schema of it is
 * published. `extension` is the one name that implementations may add.
 */
const text = { type: 'string', minLength: 1 } as const;
const uuid = { type: 'string', format: 'uuid' } as const;
const url = { type: 'string', format: 'uri', pattern: '^https?://' } as const;
const extension = { type: 'object' } as const;
const coding = {
  type: 'object',
  required: ['code'],
  properties: { system: text, code: text, display: text, extension },
  additionalProperties: false,
} as const;

const action = {
  type: 'object',
  required: ['type', 'description'],
  properties: {
    type: { enum: ['create', 'update', 'delete'] },
    description: text,
    resource: { type: 'object', required: ['resourceType'] },
    resourceId: text,
    extension,
  },
  additionalProperties: false,
  allOf: [
    {
      if: { properties: { type: { enum: ['create', 'update'] } } },
      then: { required: ['resource'] },
    },
    {
      if: { properties: { type: { const: 'create' } } },
      // A new resource: whoever creates it gives it its id.
      then: { properties: { resource: { not: { required: ['id'] } } } },
    },
    {
      if: { properties: { type: { const: 'delete' } } },
      then: { required: ['resourceId'], not: { required: ['resource'] } },
    },
  ],
} as const;

const suggestion = {
  type: 'object',
  required: ['label'],
  properties: {
    label: text,
    uuid,
    isRecommended: { type: 'boolean' },
    actions: { type: 'array', minItems: 1, items: action },
    extension,
  },
  additionalProperties: false,
} as const;

const link = {
  type: 'object',
  required: ['label', 'url', 'type'],
  properties: {
    label: text,
    url,
    type: { enum: ['absolute', 'smart'] },
    appContext: text,
    extension,
  },
  additionalProperties: false,
  if: { properties: { type: { const: 'absolute' } } },
  then: { not: { required: ['appContext'] } },
} as const;

const card = {
  type: 'object',
  required: ['summary', 'indicator', 'source'],
  properties: {
    uuid,
    summary: { type: 'string', minLength: 1, maxLength: 139 },
    detail: text,
    indicator: { enum: ['info', 'warning', 'critical'] },
    source: {
      type: 'object',
      required: ['label'],
      properties: { label: text, url, icon: url, topic: coding, extension },
      additionalProperties: false,
    },
    suggestions: { type: 'array', minItems: 1, items: suggestion },
    selectionBehavior: { enum: ['at-most-one', 'any'] },
    overrideReasons: {
      type: 'array',
      minItems: 1,
      items: { ...coding, required: ['code', 'display'] },
    },
    links: { type: 'array', minItems: 1, items: link },
    extension,
  },
  additionalProperties: false,
  dependentRequired: { suggestions: ['selectionBehavior'] },
  if: {
    properties: { selectionBehavior: { const: 'at-most-one' } },
    required: ['selectionBehavior', 'suggestions'],
  },
  then: {
    properties: {
      suggestions: {
        contains: { properties: { isRecommended: { const: true } }, required: ['isRecommended'] },
        minContains: 0,
        maxContains: 1,
      },
    },
  },
} as const;

export const responseSchema = {
  type: 'object',
  required: ['cards'],
  properties: {
    cards: { type: 'array', items: card },
    systemActions: { type: 'array', minItems: 1, items: action },
    extension,
  },
  additionalProperties: false,
} as const;

/**
 * Prefetch templates in the subset that the specification recommends (“Prefetch query restrictions”): a read, or a
 * search by reference, token, date, count and order.
 */
const template = {
  type: 'string',
  pattern: '^[A-Z][A-Za-z]+(/\\{\\{[A-Za-z.]+\\}\\}|\\?[a-z_-]+(:in)?=[^&#]+(&[a-z_-]+(:in)?=[^&#]+)*)$',
} as const;

export const discoverySchema = {
  type: 'object',
  required: ['services'],
  properties: {
    services: {
      type: 'array',
      items: {
        type: 'object',
        required: ['hook', 'description', 'id'],
        properties: {
          hook: { type: 'string', pattern: '^[a-z]+(-[a-z]+)+$' },
          title: text,
          description: text,
          id: { type: 'string', pattern: '^[A-Za-z0-9-]+$' },
          prefetch: {
            type: 'object',
            minProperties: 1,
            additionalProperties: template,
            propertyNames: { pattern: '^[A-Za-z0-9-]+$' },
          },
          usageRequirements: text,
          extension,
        },
        additionalProperties: false,
      },
    },
    extension,
  },
  additionalProperties: false,
} as const;
