import { randomUUID } from 'node:crypto';
import { listen, startDemoServer, type RunningServer } from '@dwellward/demo-server';
import { codeSystem, identifierSystem } from '@dwellward/profiles';
import type { Policy } from '@dwellward/policy';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import express, { type RequestHandler } from 'express';
import type { Bundle, FhirResource } from 'fhir/r4.js';
import { pino } from 'pino';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { readConfig } from '../config.js';
import { FhirServer } from '../fhir-server/index.js';
import { realMachine } from '../machine.js';
import { Places } from '../places.js';
import { loadPolicy } from '../policy.js';
import { startService, type Service } from '../service.js';
import { recordTypes } from '../slice.js';
import { discoverySchema, responseSchema } from '../testing/cds-hooks-schema.js';
import { markdownText, type CardJson } from './card-json.js';
import { FeedbackCounts, hooksApi, PatientReader, type HooksApiOptions } from './index.js';

const ajv = new Ajv2020({ allErrors: true, strict: false });
addFormats.default(ajv);
const faultsIn = (schema: object, value: unknown) => {
  const validate = ajv.compile(schema);
  return validate(value) ? [] : (validate.errors ?? []).map((one) => `${one.instancePath} ${one.message}`);
};

const now = '2026-11-25T12:00:00+01:00';
const patient = { reference: 'Patient/ash' };
const coded = (system: string, code: string) => ({ coding: [{ system, code }] });
const procedure = (
  id: string,
  activity: string,
  at: string,
  device = 'ash-picc',
  of = 'ash',
): FhirResource => ({
  resourceType: 'Procedure',
  id,
  status: 'completed',
  code: coded(codeSystem.lineCareActivity, activity),
  subject: { reference: `Patient/${of}` },
  performedDateTime: at,
  focalDevice: [{ manipulated: { reference: `Device/${device}` } }],
});
const device = (id: string, of = 'ash'): FhirResource => ({
  resourceType: 'Device',
  id,
  status: 'active',
  type: coded(codeSystem.lineType, 'picc'),
  patient: { reference: `Patient/${of}` },
});
const ash: readonly FhirResource[] = [
  { resourceType: 'Patient', id: 'ash', name: [{ text: 'Ash Auk' }], birthDate: '1980-05-05' },
  device('ash-picc'),
  procedure('ash-insertion', 'insertion', '2026-11-10T10:00:00+01:00'),
  procedure('ash-repair', 'repair', '2026-11-25T11:00:00+01:00'),
  {
    resourceType: 'Observation',
    id: 'ash-blood',
    status: 'final',
    code: coded(codeSystem.lineFinding, 'bleeding'),
    subject: patient,
    focus: [{ reference: 'Device/ash-picc' }],
    effectiveDateTime: '2026-11-25T11:30:00+01:00',
    valueBoolean: true,
  },
];
const others: readonly FhirResource[] = [
  { resourceType: 'Patient', id: 'bay', name: [{ text: 'Bay Bunting' }] },
  { resourceType: 'Patient', id: 'oak', name: [{ text: 'Oak Owl' }] },
  device('oak-picc', 'oak'),
  {
    ...procedure('oak-odd', 'flush', '2026-11-25T09:00:00+01:00', 'oak-picc', 'oak'),
    code: { text: 'Spülung' },
  } as FhirResource,
];

let demo: Awaited<ReturnType<typeof startDemoServer>>;
let service: Service;
let policy: Policy;
const environment = (more: Record<string, string> = {}) => ({
  DWELLWARD_FHIR_URL: demo.baseUrl,
  DWELLWARD_ZONE: 'Europe/Berlin',
  DWELLWARD_PORT: '0',
  DWELLWARD_INTERFACES: 'cds-hooks',
  ...more,
});
const start = (more: Record<string, string> = {}, rest: object = {}) =>
  startService({
    config: readConfig(environment(more)),
    policy,
    machine: realMachine,
    log: pino({ level: 'silent' }),
    asOf: () => now,
    ...rest,
  });

beforeAll(async () => {
  demo = await startDemoServer();
  policy = await loadPolicy([]);
  for (const resource of [...ash, ...others])
    await fetch(`${demo.baseUrl}/${resource.resourceType}/${resource.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify(resource),
    });
  service = await start();
  while (service.poller.lastRound === undefined) await new Promise((done) => setTimeout(done, 20));
});
afterAll(async () => {
  await service.stop();
  await demo.close();
});

interface Answer {
  readonly status: number;
  readonly body: { readonly cards: CardJson[]; readonly problems?: string[] };
}
const post = async (path: string, body: unknown, base = service.url): Promise<Answer> => {
  const response = await fetch(`${base}/cds-services/${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: typeof body === 'string' ? body : JSON.stringify(body),
  });
  return { status: response.status, body: (await response.json()) as Answer['body'] };
};
const call = (hook: string, context: object, more: object = {}) => ({
  hook,
  hookInstance: randomUUID(),
  context: { userId: 'Practitioner/p', ...context },
  ...more,
});
const view = (patientId: string, more: object = {}, base?: string) =>
  post('patient-view', call('patient-view', { patientId }, more), base);
const summaries = ({ body }: Answer) => body.cards.map(({ summary }) => summary);

describe('the schema of the specification', () => {
  const own = { summary: 'Example Card', indicator: 'info', source: { label: 'Example' } };
  it('takes the examples of the specification', () => {
    const reasons = [{ code: '12354', system: 'http://example.org/reasons', display: 'Contraindicated' }];
    expect(faultsIn(responseSchema, { cards: [] })).toEqual([]);
    expect(faultsIn(responseSchema, { cards: [own, { ...own, overrideReasons: reasons }] })).toEqual([]);
    expect(
      faultsIn(discoverySchema, {
        services: [
          {
            hook: 'order-select',
            title: 'Order Echo CDS Service',
            description: 'An example of a CDS Service that simply echoes the order(s) being placed',
            id: 'order-echo',
            prefetch: {
              patient: 'Patient/{{context.patientId}}',
              medications: 'MedicationRequest?patient={{context.patientId}}',
            },
          },
        ],
      }),
    ).toEqual([]);
  });
  it.each<[string, object]>([
    ['a summary of 140 characters', { ...own, summary: 'x'.repeat(140) }],
    ['no source', { summary: 'x', indicator: 'info' }],
    ['another indicator', { ...own, indicator: 'high' }],
    ['an empty detail', { ...own, detail: '' }],
    ['suggestions without selectionBehavior', { ...own, suggestions: [{ label: 'x' }] }],
    [
      'a create without a resource',
      {
        ...own,
        selectionBehavior: 'any',
        suggestions: [{ label: 'x', actions: [{ type: 'create', description: 'x' }] }],
      },
    ],
    ['an element of its own', { ...own, urgency: 'x' }],
  ])('refuses %s', (_, card) => {
    expect(faultsIn(responseSchema, { cards: [card] })).not.toEqual([]);
  });
});

describe('discovery', () => {
  it('is as the specification has it, with a template for the patient and every type that care is read from', async () => {
    const response = await fetch(`${service.url}/cds-services`);
    const body = (await response.json()) as { services: { hook: string; prefetch: object }[] };
    expect(faultsIn(discoverySchema, body)).toEqual([]);
    expect(body.services.map(({ hook }) => hook)).toEqual(['patient-view', 'order-select', 'order-sign']);
    const keys = [
      'patient',
      ...recordTypes.map((type) => type.charAt(0).toLowerCase() + type.slice(1)),
      'flag',
    ];
    for (const { prefetch } of body.services) expect(Object.keys(prefetch)).toEqual(keys);
  });
});

describe('patient-view', () => {
  it('gives cards as the specification has them: an emergency, what is due, holds with their source', async () => {
    const answer = await view('ash');
    expect(answer.status).toBe(200);
    expect(faultsIn(responseSchema, answer.body)).toEqual([]);
    expect(answer.body.cards.map(({ indicator }) => indicator)).toContain('critical');
    const [first] = answer.body.cards.filter(({ indicator }) => indicator === 'critical');
    expect(first?.summary).toMatch(/EMERGENCY/);
    const holds = answer.body.cards.filter(({ summary }) => /Hold: no/.test(summary));
    expect(holds.length).toBeGreaterThan(0);
    for (const { source } of holds) expect(source.label).not.toMatch(/worked out/);
    expect(new Set(answer.body.cards.map(({ uuid }) => uuid)).size).toBe(answer.body.cards.length);
  });

  it('suggests Procedures that the FHIR server takes, and that meet the care', async () => {
    const before = await view('ash');
    const suggestion = before.body.cards
      .flatMap(({ suggestions }) => suggestions ?? [])
      .find(({ label }) => /Site assessment/.test(label));
    const [action] = suggestion?.actions ?? [];
    expect(action?.resource.identifier?.[0]?.system).toBe(identifierSystem.charted);
    const created = await fetch(`${demo.baseUrl}/Procedure`, {
      method: 'POST',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify(action?.resource),
    });
    expect(created.status).toBe(201);
    const { id } = (await created.json()) as { id: string };
    try {
      const labels = (await view('ash')).body.cards.flatMap(({ suggestions }) =>
        (suggestions ?? []).map(({ label }) => label),
      );
      expect(labels.filter((label) => /Site assessment/.test(label))).toEqual([]);
    } finally {
      await fetch(`${demo.baseUrl}/Procedure/${id}`, { method: 'DELETE' });
    }
  });

  it('puts what was not understood on top, and says nothing of a patient without a line', async () => {
    expect(summaries(await view('oak'))[0]).toMatch(/^Not understood: 1 resource of 1 kind/);
    expect((await view('bay')).body).toEqual({ cards: [] });
  });

  it.each<[string, string, object, RegExp]>([
    ['a patient whom the server does not know', 'nobody', {}, /no such patient/],
    ['an id that is none', '../Device', {}, /no such patient/],
    [
      'a patient of another FHIR server',
      'ash',
      { fhirServer: 'https://other.example/r4' },
      /server that is not read here/,
    ],
    ['a server that is no URL', 'ash', { fhirServer: 'here' }, /server that is not read here/],
  ])('never answers with nothing for %s', async (_, id, more, saying) => {
    const { status, body } = await view(id, more);
    expect(status).toBe(200);
    expect(body.cards).toMatchObject([{ indicator: 'warning', summary: expect.stringMatching(saying) }]);
    expect(faultsIn(responseSchema, body)).toEqual([]);
  });

  it('takes another name of the same server where the settings name it', async () => {
    const named = await start({ DWELLWARD_CDS_SERVERS: 'https://ehr.example/fhir/' });
    try {
      const answer = await view('ash', { fhirServer: 'https://ehr.example/fhir' }, named.url);
      expect(summaries(answer).join()).toMatch(/EMERGENCY/);
    } finally {
      await named.stop();
    }
  });

  it.each<[unknown, RegExp]>([
    ['{', /body: entity\.parse\.failed/],
    [{}, /hook/],
    [call('order-sign', { patientId: 'ash' }), /hook: this service is for patient-view/],
    [call('patient-view', {}), /context\.patientId/],
  ])('refuses %j with what is wrong with it', async (body, saying) => {
    const answer = await post('patient-view', body);
    expect(answer.status).toBe(400);
    expect(answer.body.problems?.join()).toMatch(saying);
  });
});

const bundleOf = (resources: readonly FhirResource[]): Bundle => ({
  resourceType: 'Bundle',
  type: 'searchset',
  total: resources.length,
  entry: resources.map((resource) => ({ resource })),
});
const prefetchOf = (resources: readonly FhirResource[]): Record<string, unknown> => ({
  patient: resources.find(({ resourceType }) => resourceType === 'Patient'),
  ...Object.fromEntries(
    [...recordTypes, 'Flag'].map((type) => [
      type.charAt(0).toLowerCase() + type.slice(1),
      bundleOf(resources.filter(({ resourceType }) => resourceType === type)),
    ]),
  ),
});

describe('prefetched data', () => {
  let running: RunningServer;
  afterEach(() => running.close());
  const readerOf = (
    retry: object,
    lumensOf: () => readonly string[] | undefined = () => [],
    baseUrl = 'http://127.0.0.1:9/fhir',
  ) => {
    const server = new FhirServer({ baseUrl, retry });
    return new PatientReader({
      server,
      places: new Places(server, () => 0),
      policy,
      zone: 'Europe/Berlin',
      asOf: () => now,
      without: [],
      acceptedGaps: [],
      lumensOf,
      fhirVersion: () => '4.0.1',
    });
  };
  /** The services over a FHIR server that can’t be reached: whatever is read of it fails. */
  const alone = async (more: Partial<HooksApiOptions> = {}) => {
    const api = hooksApi({
      reader: readerOf({ maxAttempts: 1 }),
      feedback: new FeedbackCounts(),
      machine: realMachine,
      log: pino({ level: 'silent' }),
      without: [],
      servers: [],
      waitMs: 5000,
      ...more,
    });
    running = await listen(express().use('/cds-services', api), 0);
    return new URL(running.baseUrl).origin;
  };

  it('that is whole needs no call: the same cards as when the server is read', async () => {
    const base = await alone();
    const given = await view('ash', { prefetch: prefetchOf(ash) }, base);
    expect(summaries(given)).toEqual(summaries(await view('ash')));
  });

  it.each<[string, (all: Record<string, unknown>) => Record<string, unknown>]>([
    ['lacks a key', ({ procedure: _, ...rest }) => rest],
    [
      'is one page of several',
      (all) => ({
        ...all,
        procedure: {
          ...(all['procedure'] as Bundle),
          link: [{ relation: 'next', url: 'https://elsewhere.example/fhir?page=2' }],
        },
      }),
    ],
    [
      'has fewer than its total',
      (all) => ({ ...all, procedure: { ...(all['procedure'] as Bundle), total: 99 } }),
    ],
    [
      'holds a message of the server',
      (all) => ({
        ...all,
        procedure: {
          ...(all['procedure'] as Bundle),
          entry: [{ resource: { resourceType: 'OperationOutcome' } }],
        },
      }),
    ],
    [
      'is no answer to a search',
      (all) => ({ ...all, procedure: { resourceType: 'Bundle', type: 'collection' } }),
    ],
    ['is of another type', (all) => ({ ...all, procedure: all['device'] })],
    ['has another patient', (all) => ({ ...all, patient: { resourceType: 'Patient', id: 'oak' } })],
    ['is no object', (all) => ({ ...all, procedure: 'x' })],
  ])('that %s is not taken for the whole: it is read', async (_, change) => {
    const base = await alone();
    const answer = await view('ash', { prefetch: change(prefetchOf(ash)) }, base);
    expect(summaries(answer)).toEqual([expect.stringMatching(/could not be read.* no answer/)]);
  });

  it('null stands for a search without a match', async () => {
    const base = await alone();
    const prefetch = { ...prefetchOf(ash), observation: null, procedure: null };
    expect(summaries(await view('ash', { prefetch }, base)).join()).not.toMatch(/could not be read/);
  });

  it('of two patients is not read as one', async () => {
    const base = await alone();
    const mixed = { ...prefetchOf(ash), device: bundleOf([device('ash-picc'), device('oak-picc', 'oak')]) };
    expect(summaries(await view('ash', { prefetch: mixed }, base))).toEqual([
      expect.stringMatching(/about more than one patient/),
    ]);
  });

  it('lumens that were not looked for yet may be missing, and that is said, of orders too', async () => {
    const base = await alone({ reader: readerOf({ maxAttempts: 1 }, () => undefined) });
    const prefetch = prefetchOf(ash);
    const [first] = (await view('ash', { prefetch }, base)).body.cards;
    expect([first?.summary, first?.detail].join()).toMatch(/may not be whole.*were not looked for yet/);
    const order = { resourceType: 'MedicationRequest', id: 'm', status: 'draft', subject: patient };
    const context = {
      patientId: 'ash',
      draftOrders: { resourceType: 'Bundle', entry: [{ resource: order }] },
    };
    const signed = await post('order-sign', call('order-sign', context, { prefetch }), base);
    expect(summaries(signed)[0]).toMatch(/may not be whole/);
  });

  it('orders that concern no line, and ids that are none, need no reading', async () => {
    const base = await alone();
    const food = { resourceType: 'NutritionOrder', id: 'n', status: 'draft' };
    const context = {
      patientId: 'ash',
      draftOrders: { resourceType: 'Bundle', entry: [{ resource: food }] },
    };
    expect((await post('order-sign', call('order-sign', context), base)).body).toEqual({ cards: [] });
    expect(summaries(await view('a/b', {}, base))).toEqual([expect.stringMatching(/no such patient/)]);
  });

  it('what the server leaves out of its answers is said', async () => {
    const fhir = express();
    fhir.get(
      '/Patient/:id',
      ({ params }, response) => void response.json({ resourceType: 'Patient', id: params.id }),
    );
    fhir.get(
      '/:type',
      (_request, response) => void response.json({ resourceType: 'Bundle', type: 'searchset', total: 5 }),
    );
    const lacking = await listen(fhir, 0);
    try {
      const base = await alone({
        reader: readerOf({ maxAttempts: 1 }, () => [], new URL(lacking.baseUrl).origin),
      });
      const [card] = (await view('ash', {}, base)).body.cards;
      expect([card?.summary, card?.detail].join()).toMatch(
        /may not be whole.*Device names 5 matches and gave 0/,
      );
    } finally {
      await lacking.close();
    }
  });

  it('whoever waits longer than allowed is told so', async () => {
    const base = await alone({ reader: readerOf({ firstWaitMs: 60_000 }), waitMs: 50 });
    const askedMs = Date.now();
    expect(summaries(await view('ash', {}, base))).toEqual([expect.stringMatching(/gives no answer now/)]);
    expect(Date.now() - askedMs).toBeLessThan(3000);
  });

  it('a guard comes first, before the discovery too', async () => {
    const guard: RequestHandler = (_request, response) =>
      void response.status(401).json({ problems: ['who?'] });
    const base = await alone({ guard });
    expect((await fetch(`${base}/cds-services`)).status).toBe(401);
    expect((await view('ash', {}, base)).status).toBe(401);
  });
});

describe('orders', () => {
  const order = (activity: string, more: object = {}): FhirResource => ({
    resourceType: 'ServiceRequest',
    id: 'draft',
    status: 'draft',
    intent: 'order',
    subject: patient,
    code: coded(codeSystem.lineCareActivity, activity),
    supportingInfo: [{ reference: 'Device/ash-picc' }],
    ...more,
  });
  const signing = (resources: readonly FhirResource[], more: object = {}, hook = 'order-sign') =>
    post(
      hook,
      call(hook, {
        patientId: 'ash',
        draftOrders: { resourceType: 'Bundle', entry: resources.map((resource) => ({ resource })) },
        ...more,
      }),
    );

  it('that go against a hold get its card; others none', async () => {
    const held = await signing([order('infusion-start')]);
    expect(summaries(held)).toEqual([
      expect.stringMatching(/Hold: no infusion start on the line until the tip confirmation is done/),
      expect.stringMatching(/Hold: no infusion start on the line until cleared for use shows/),
    ]);
    expect(held.body.cards.map(({ source }) => source.label)).toEqual([
      expect.stringMatching(/verify the position of the tip/),
      expect.stringMatching(/no infusion after a repair/),
    ]);
    expect(faultsIn(responseSchema, held.body)).toEqual([]);
    expect((await signing([order('dressing-change')])).body).toEqual({ cards: [] });
    expect((await signing([])).body).toEqual({ cards: [] });
  });

  it('without an id or a patient are read all the same', async () => {
    const { id: _, subject: __, ...bare } = order('infusion-start') as unknown as Record<string, unknown>;
    expect((await signing([bare as unknown as FhirResource])).body.cards).toHaveLength(2);
  });

  it('of order-select count where they were selected', async () => {
    const two = [order('infusion-start'), order('dressing-change', { id: 'other' })];
    const select = (selections: string[]) => signing(two, { selections }, 'order-select');
    expect((await select(['ServiceRequest/draft'])).body.cards).toHaveLength(2);
    expect((await select(['ServiceRequest/other'])).body.cards).toEqual([]);
  });

  it('of another patient, or of one who can’t be read, say so', async () => {
    const foreign = await signing([order('infusion-start', { subject: { reference: 'Patient/oak' } })]);
    expect(summaries(foreign)).toEqual([expect.stringMatching(/more than one patient/)]);
    const unread = await signing([order('infusion-start', { subject: { reference: 'Patient/x' } })], {
      patientId: 'x',
    });
    expect(summaries(unread)).toEqual([expect.stringMatching(/no such patient/)]);
  });

  it('are asked for where they are missing', async () => {
    const answer = await post('order-sign', call('order-sign', { patientId: 'ash' }));
    expect(answer).toMatchObject({ status: 400, body: { problems: [expect.stringMatching(/draftOrders/)] } });
  });
});

describe('feedback', () => {
  const given = (more: object) => ({
    feedback: [{ card: randomUUID(), outcomeTimestamp: '2026-11-25T11:00:00Z', ...more }],
  });
  it('is counted by service and outcome, and nothing else of it is kept', async () => {
    const accepted = given({ outcome: 'accepted', acceptedSuggestions: [{ id: randomUUID() }] });
    const secret = { reason: { code: 'x' }, userComment: 'Ash Auk refused' };
    expect((await post('patient-view/feedback', accepted)).status).toBe(200);
    await post('patient-view/feedback', accepted);
    await post('order-sign/feedback', given({ outcome: 'overridden' }));
    await post('order-sign/feedback', given({ outcome: 'overridden', overrideReason: secret }));
    const metrics = await (await fetch(`${service.url}/metrics`)).text();
    const rows = metrics.split('\n').filter((line) => line.startsWith('dwellward_cds_cards_total'));
    expect(rows).toEqual([
      'dwellward_cds_cards_total{service="order-sign",outcome="overridden"} 1',
      'dwellward_cds_cards_total{service="order-sign",outcome="overridden-with-reason"} 1',
      'dwellward_cds_cards_total{service="patient-view",outcome="accepted"} 2',
    ]);
    expect(metrics).not.toMatch(/Auk|ash/i);
  });
  it.each<[string, object]>([
    ['no card', { card: undefined, outcome: 'overridden' }],
    ['another outcome', { outcome: 'ignored' }],
    ['an acceptance of nothing', { outcome: 'accepted', acceptedSuggestions: [] }],
  ])('with %s is refused', async (_, more) => {
    expect((await post('patient-view/feedback', given(more))).status).toBe(400);
  });
});

describe('who may ask', () => {
  it('nobody beyond a loopback address without a guard, and nobody where it is not asked for', async () => {
    const guard: RequestHandler = (_request, response) => void response.status(418).json({});
    for (const [more, rest, status] of [
      [{ DWELLWARD_HOST: '0.0.0.0' }, {}, 404],
      [{ DWELLWARD_HOST: '0.0.0.0' }, { guards: { hooks: guard } }, 418],
      [{ DWELLWARD_INTERFACES: 'none' }, {}, 404],
    ] as const) {
      const open = await start(more, rest);
      try {
        const url = open.url.replace('0.0.0.0', '127.0.0.1');
        expect((await fetch(`${url}/cds-services`)).status).toBe(status);
      } finally {
        await open.stop();
      }
    }
  });
});

describe('what a record says in Markdown', () => {
  it.each([
    ['<img src=x onerror=y>', '\\<img src=x onerror=y\\>'],
    ['[call](http://a.example)', '\\[call\\](http\\://a.example)'],
    ['www.a.example', 'www\\.a.example'],
    ['# big *bold* `code`', '\\# big \\*bold\\* \\`code\\`'],
    ['1. first', '1\\. first'],
  ])('%s is shown as it is', (text, escaped) => {
    expect(markdownText(text)).toBe(escaped);
  });
});
