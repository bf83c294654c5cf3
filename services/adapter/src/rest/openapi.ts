// The description of what is served, by OpenAPI 3.1. It is written by hand and held against every answer by a test.

const text = { type: 'string' } as const;
const instant = { type: 'string', format: 'date-time' } as const;
const ref = { type: 'string', pattern: '^[A-Za-z]+/' } as const;
const listOf = (items: object) => ({ type: 'array', items });
const objectOf = (properties: Readonly<Record<string, object>>, optional: readonly string[] = []) => ({
  type: 'object',
  required: Object.keys(properties).filter((name) => !optional.includes(name)),
  properties,
});
const schema = (name: string) => ({ $ref: `#/components/schemas/${name}` });
const json = (name: string, description: string) => ({
  description,
  content: { 'application/json': { schema: schema(name) } },
});
const problems = (description: string) => json('Problems', description);
const doubts = {
  ...listOf(text),
  description: 'Why the answer may lack something; empty where it is whole.',
};
const path = (name: string, description: string) => ({
  name,
  in: 'path',
  required: true,
  description,
  schema: text,
});
const patientId = path('id', 'The id of the Patient on the FHIR server.');
const notReadAnswers = {
  '404': problems('The FHIR server knows of no such patient.'),
  '500': problems('An error of ours.'),
  '502': problems('The FHIR server refuses, or answers with more than one patient.'),
  '503': problems('The FHIR server gives no answer now.'),
};
const window = objectOf({ opens: instant, dueBy: instant, state: text, rule: text });

const schemas = {
  Problems: objectOf({ problems: { ...listOf(text), minItems: 1 } }),
  Item: objectOf({
    id: text,
    activity: text,
    target: objectOf({ scope: text, device: ref, name: text }),
    state: { enum: ['overdue', 'due', 'held', 'upcoming'] },
    priority: { enum: ['stat', 'asap', 'urgent', 'routine'] },
    opens: instant,
    dueBy: instant,
    rule: objectOf({ id: text, title: text, schedule: text, layer: text, plan: text }),
    sources: listOf(text),
    countedFrom: text,
    why: text,
    movedBy: listOf(ref),
    work: listOf({ type: 'object' }),
    facts: listOf({ type: 'object' }),
    remarks: listOf(text),
  }),
  Line: objectOf(
    {
      line: ref,
      patient: ref,
      inPlace: { type: 'boolean' },
      unanswered: listOf({ type: 'object' }),
      closed: text,
      plannedFor: instant,
      items: listOf(schema('Item')),
      holds: listOf(
        objectOf(
          {
            activity: text,
            target: text,
            from: instant,
            until: instant,
            because: ref,
            rule: text,
            title: text,
          },
          ['until', 'because'],
        ),
      ),
      lumens: listOf({ type: 'object' }),
    },
    ['unanswered', 'closed', 'plannedFor'],
  ),
  DueCare: objectOf({
    asOf: instant,
    zone: text,
    loosened: listOf({ type: 'object' }),
    lines: listOf(schema('Line')),
    notUnderstood: listOf({ type: 'object' }),
    otherBusiness: listOf({ type: 'object' }),
    issues: listOf({ type: 'object' }),
    doubts,
  }),
  Bundle: {
    type: 'object',
    required: ['resourceType', 'type'],
    properties: {
      resourceType: { const: 'Bundle' },
      type: { const: 'collection' },
      entry: listOf(objectOf({ resource: objectOf({ resourceType: text }) })),
    },
  },
  Explanation: objectOf({
    asOf: instant,
    zone: text,
    patient: ref,
    line: ref,
    whys: listOf(
      objectOf({
        id: text,
        head: listOf(text),
        sections: listOf(objectOf({ heading: text, lines: listOf(text) })),
      }),
    ),
    issues: listOf(text),
    text,
    doubts,
  }),
  Supplies: objectOf({
    counts: listOf({ type: 'object' }),
    syringes: listOf(objectOf({ sizeMl: text, count: { type: 'integer' } })),
    lumens: listOf({ type: 'object' }),
    flushMl: text,
    lockMl: text,
    notWorkedOut: listOf(text),
  }),
  Handover: objectOf({
    from: instant,
    to: instant,
    zone: text,
    text,
    patients: listOf(
      objectOf(
        {
          patient: ref,
          name: text,
          unit: text,
          bed: text,
          emergency: { type: 'boolean' },
          supplies: schema('Supplies'),
        },
        ['name', 'unit', 'bed'],
      ),
    ),
    supplies: schema('Supplies'),
    doubts,
  }),
  PreviewRequest: {
    ...objectOf({
      plans: {
        ...listOf(objectOf({ resourceType: { const: 'PlanDefinition' }, url: text })),
        minItems: 1,
        maxItems: 50,
      },
    }),
    additionalProperties: false,
  },
  Preview: objectOf({
    asOf: instant,
    zone: text,
    same: { type: 'integer' },
    changedPatients: listOf(ref),
    unchangedPatients: listOf(ref),
    changes: listOf(
      objectOf(
        {
          kind: text,
          patient: ref,
          line: ref,
          activity: text,
          target: text,
          before: window,
          after: window,
          rule: objectOf({ id: text, title: text }),
          notKnown: listOf(text),
        },
        ['before', 'after'],
      ),
    ),
    holds: listOf({ type: 'object' }),
    text,
    doubts,
  }),
  CalendarRequest: {
    type: 'object',
    properties: {
      tells: {
        enum: ['care', 'name'],
        default: 'care',
        description:
          'What others may see who look at the telephone: the care alone, or the patient’s name with it.',
      },
    },
    additionalProperties: false,
  },
  CalendarGiven: objectOf({
    id: { type: 'string', format: 'uuid' },
    path: { type: 'string', pattern: '^/calendar/[A-Za-z0-9_-]{43}\\.ics$' },
    lasting: { const: false, description: 'It ends with the process that gave it out.' },
  }),
} as const;

/** The OpenAPI 3.1 description of the REST interface and the calendar feed. */
export const openApi = {
  openapi: '3.1.0',
  info: {
    title: 'Dwellward: line care due',
    version: '0.1.0',
    license: { name: 'Apache-2.0', identifier: 'Apache-2.0' },
    description:
      'Advice, not an order. Local policy, the instructions of device and drug, and the licensed clinician come first.',
  },
  paths: {
    '/patients/{id}/due': {
      get: {
        operationId: 'due',
        summary: 'What care every line of a patient needs, when, and why; read anew.',
        parameters: [patientId],
        responses: {
          '200': {
            description: 'Due care: plain JSON, or by Accept a FHIR Bundle.',
            content: {
              'application/json': { schema: schema('DueCare') },
              'application/fhir+json': { schema: schema('Bundle') },
            },
          },
          ...notReadAnswers,
        },
      },
    },
    '/patients/{id}/lines/{line}/explanation': {
      get: {
        operationId: 'explanation',
        summary: 'Why care of a line is due, and what would change it.',
        parameters: [patientId, path('line', 'The id of the line’s Device.')],
        responses: { '200': json('Explanation', 'Item by item, and as text.'), ...notReadAnswers },
      },
    },
    '/handover': {
      get: {
        operationId: 'handover',
        summary: 'What the unit hands over for the next hours, as it was read last.',
        parameters: [
          {
            name: 'hours',
            in: 'query',
            schema: { type: 'number', exclusiveMinimum: 0, maximum: 72, default: 8 },
          },
          { name: 'unit', in: 'query', description: 'Only of this ward.', schema: text },
        ],
        responses: { '200': json('Handover', 'The hand-over.'), '400': problems('Not a number of hours.') },
      },
    },
    '/policy/preview': {
      post: {
        operationId: 'previewPolicy',
        summary: 'What would change for whom with other plans; nothing is written.',
        requestBody: {
          required: true,
          content: { 'application/json': { schema: schema('PreviewRequest') } },
        },
        responses: {
          '200': json('Preview', 'What would change.'),
          '400': problems('The request can’t be read.'),
          '422': problems('The plans are refused: what is wrong with them, and what cures it.'),
        },
      },
    },
    '/patients/{id}/calendars': {
      post: {
        operationId: 'createCalendar',
        summary: 'Gives out a calendar feed of a patient’s open care, behind a token that nobody can guess.',
        parameters: [patientId],
        requestBody: { content: { 'application/json': { schema: schema('CalendarRequest') } } },
        responses: {
          '201': json('CalendarGiven', 'The only time that the token is told.'),
          '400': problems('The request can’t be read.'),
          ...notReadAnswers,
        },
      },
    },
    '/patients/{id}/calendars/{calendar}': {
      delete: {
        operationId: 'revokeCalendar',
        summary: 'Takes a calendar feed back.',
        parameters: [patientId, path('calendar', 'The id that was given with it.')],
        responses: {
          '204': { description: 'Its token lets nobody in any more.' },
          '404': problems('The patient has no such calendar.'),
        },
      },
    },
    '/calendar/{token}': {
      get: {
        operationId: 'calendar',
        summary: 'Open care as iCalendar (RFC 5545), by its token alone.',
        security: [],
        parameters: [path('token', 'The token, with .ics behind it.')],
        responses: {
          '200': { description: 'The calendar.', content: { 'text/calendar': { schema: text } } },
          ...notReadAnswers,
          '404': problems('There is no such calendar, or none any more.'),
        },
      },
    },
  },
  components: { schemas },
} as const;
