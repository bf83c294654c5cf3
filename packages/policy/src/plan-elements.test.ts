import { policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { readPolicy, type LintFinding } from './index.js';
import { action, code, no, options, plan, policyOf, read, span, when, work, type Json } from './plan.kit.js';

// The elements of HL7 FHIR R4: those that tell of a plan or a definition and ask for nothing, and those that would change
// what it asks for had anybody read them.
const shared = {
  id: 'a',
  meta: { profile: [] },
  language: 'en',
  text: { status: 'generated', div: '<div>a</div>' },
  extension: [],
  identifier: [{ value: 'a' }],
  name: 'A',
  title: 'A',
  subtitle: 'a',
  experimental: false,
  subjectCodeableConcept: { coding: [{ code: 'Patient' }] },
  date: '2026-01-01',
  publisher: 'Ward',
  contact: [{ name: 'Ward' }],
  description: 'a',
  jurisdiction: [{ text: 'here' }],
  purpose: 'a',
  usage: 'a',
  copyright: 'a',
  approvalDate: '2026-01-01',
  lastReviewDate: '2026-01-01',
  topic: [{ text: 'a' }],
  author: [{ name: 'Ward' }],
  editor: [{ name: 'Ward' }],
  reviewer: [{ name: 'Ward' }],
  endorser: [{ name: 'Ward' }],
  relatedArtifact: [{ type: 'citation', citation: 'a' }],
} satisfies Json;
const ofPlan: Json = {
  ...shared,
  type: { text: 'protocol' },
  contained: [],
  effectivePeriod: { start: '2026-01-01' },
};
const ofDefinition: Json = {
  ...shared,
  subjectReference: { reference: 'Group/a' },
  useContext: [],
};

const said = (findings: readonly LintFinding[]) =>
  findings.map(({ severity, path, code: of }) => `${severity} ${of} ${path}`);
const ofThePlan = (more: Json) => read(plan('a', [action('x')], more)).findings;
const url = 'https://hospital.example/ActivityDefinition/own';
const ofTheDefinition = (more: Json) =>
  readPolicy([plan('a', [action('x', { definitionCanonical: url })])], {
    activities: [{ ...work('own', 'dressing-change'), ...more }],
  }).findings;

describe('elements of a plan', () => {
  it.each(Object.entries(ofPlan))('%s tells of it and goes by without a word', (element, value) => {
    expect(ofThePlan({ [element]: value })).toEqual([]);
  });

  it.each(['goal', 'library', 'actor', 'asNeededBoolean', 'versionAlgorithmString'])(
    '%s is said not to be used',
    (element) => {
      expect(said(ofThePlan({ [element]: [] }))).toEqual([
        `warning unused-element PlanDefinition.${element}`,
      ]);
    },
  );

  it.each(['modifierExtension', 'implicitRules'])(
    '%s refuses it: it may turn its meaning round',
    (element) => {
      const [first] = ofThePlan({ [element]: 'x' });
      expect(first).toMatchObject({
        severity: 'error',
        code: 'unknown-modifier',
        path: `PlanDefinition.${element}`,
        message: `The meaning of ${element} is not known.`,
      });
    },
  );

  it('says what hides behind an extension of a plain value, however deep', () => {
    const hidden = { _type: { extension: [{ url: 'x' }] } };
    expect(said(ofThePlan({ type: hidden }))).toEqual(['warning unused-element PlanDefinition.type._type']);
    expect(said(ofThePlan({ contact: [{ name: 'Ward' }, { telecom: [hidden] }] }))).toEqual([
      'warning unused-element PlanDefinition.contact[1].telecom[0]._type',
    ]);
    expect(ofThePlan({ text: { _div: {} } })).toEqual([]);
  });

  it('says whom and what it cannot do without, which nobody reads', () => {
    expect(said(ofThePlan({ subjectCodeableConcept: { coding: [{ code: 'Device' }] } }))).toEqual([
      'warning plan-reach PlanDefinition.subjectCodeableConcept',
    ]);
    for (const other of [{ text: 'Patient' }, 'Patient', { coding: 'Patient' }, { coding: [null] }])
      expect(said(ofThePlan({ subjectCodeableConcept: other })).join()).toContain('plan-reach');
    const two = [{ code: 'Device' }, { code: 'Patient' }];
    expect(ofThePlan({ subjectCodeableConcept: { coding: two } })).toEqual([]);
    expect(said(ofThePlan({ subjectReference: { reference: 'Group/a' } }))).toEqual([
      'warning plan-reach PlanDefinition.subjectReference',
    ]);
  });

  it.each<[string, unknown, boolean]>([
    ['depends-on', { type: 'depends-on' }, true],
    ['composed-of', { type: 'composed-of' }, true],
    ['one without a type', {}, true],
    ['what is no artifact', 'x', true],
    ['citation', { type: 'citation' }, false],
    ['predecessor', { type: 'predecessor' }, false],
    ['a type that is no text', { type: 3 }, false],
  ])('of related artifacts says what it is incomplete without: %s', (_, artifact, isSaid) => {
    const found = ofThePlan({ relatedArtifact: [{ type: 'citation' }, artifact] });
    expect(said(found)).toEqual(isSaid ? ['warning needed-artifact PlanDefinition.relatedArtifact[1]'] : []);
  });

  it.each<[string, Json, readonly string[], string | undefined]>([
    ['active', { status: 'active' }, [], undefined],
    ['draft', { status: 'draft' }, ['warning not-approved PlanDefinition.status'], 'draft'],
    ['unknown', { status: 'unknown' }, ['warning not-approved PlanDefinition.status'], 'unknown'],
    ['retired', { status: 'retired' }, ['warning retired PlanDefinition.status'], 'retired'],
    [
      'experimental',
      { experimental: true },
      ['warning not-approved PlanDefinition.experimental'],
      'experimental',
    ],
  ])('%s: whether it may be used is said', (what, more, findings, unapproved) => {
    expect(said(ofThePlan(more))).toEqual(findings);
    expect(policyOf(plan('a', [action('x')], more)).layers[0]?.unapproved).toBe(unapproved);
    for (const { message, code: of } of ofThePlan(more).filter((one) => one.code !== 'retired'))
      expect([of, message]).toEqual(['not-approved', expect.stringContaining(what)]);
  });

  it('takes the url without a version, and says so', () => {
    const withBar = plan('a', [action('x')], { url: 'https://hospital.example/a|7' });
    expect(said(read(withBar).findings)).toEqual(['warning url-with-version PlanDefinition.url']);
    expect(policyOf(withBar).layers[0]).toMatchObject({ url: 'https://hospital.example/a', version: '1' });
  });

  it('is called by its title, else its name, else its url', () => {
    const titleOf = (more: Json) => policyOf(plan('a', [action('x')], more)).layers[0]?.title;
    expect(titleOf({ title: 'T', name: 'N' })).toBe('T');
    expect(titleOf({ title: undefined, name: 'N' })).toBe('N');
    expect(titleOf({ title: undefined })).toBe('https://hospital.example/a');
  });

  it('is too deep to be one beyond a hundred levels', () => {
    const nested = (levels: number): Json => (levels === 0 ? {} : { x: nested(levels - 1) });
    expect(said(ofThePlan({ meta: nested(200) }))).toEqual(['error not-fhir PlanDefinition']);
    expect(ofThePlan({ meta: nested(90) })).toEqual([]);
  });

  it('gives every action an id of its own, those in groups too', () => {
    const group = (id: string, member: string): Json => ({ ...action(id), action: [action(member)] });
    const doubled = (...actions: Json[]) =>
      said(read(plan('a', actions)).findings.filter((one) => one.code === 'doubled-id'));
    expect(doubled(action('x'), action('x'))).toEqual(['error doubled-id PlanDefinition.action[1].id']);
    expect(doubled(action('x'), group('g', 'x'))).toEqual([
      'error doubled-id PlanDefinition.action[1].action[0].id',
    ]);
    const again = read(plan('a', [group('g', 'x'), action('x')])).findings;
    expect(again.find((one) => one.code === 'doubled-id')?.message).toContain('of action[0].action[0]');
  });

  it('has at most one time after which results are stale', () => {
    const stale = (value: number, unit = 'd') => ({
      url: policyExtension.labStaleAfter,
      valueDuration: span(value, unit),
    });
    expect(policyOf(plan('a', [action('x')], { extension: [stale(3)] })).labStaleAfter).toEqual({
      value: 3,
      unit: 'd',
    });
    expect(said(ofThePlan({ extension: [stale(3), stale(2)] }))).toEqual([
      'error doubled-extension PlanDefinition.extension[1].url',
    ]);
    expect(said(ofThePlan({ extension: [stale(0)] }))).toEqual([
      'error bad-extension PlanDefinition.extension[0].valueDuration.value',
    ]);
  });

  it('says of every contained resource that no action points to it, and of a plan that it asks for nothing', () => {
    const contained = [
      { ...work('w', 'dressing-change'), url: undefined },
      { ...work('v', 'flush'), url: undefined },
      'x',
      { resourceType: 'ActivityDefinition', id: 3 },
    ];
    const uses = (actions: Json[]) =>
      said(
        read(plan('a', actions, { contained })).findings.filter((one) => one.code === 'unused-definition'),
      );
    const unused = (...places: number[]) =>
      places.map((place) => `warning unused-definition PlanDefinition.contained[${place}]`);
    expect(uses([action('x', { definitionCanonical: '#w' })])).toEqual(unused(1, 2, 3));
    const inGroup = { id: 'g', action: [action('x', { definitionCanonical: '#v', code: code('flush') })] };
    expect(uses([{ ...inGroup, timingTiming: undefined }])).toEqual(unused(0, 2, 3));
    expect(said(read(plan('a', [])).findings)).toContain('warning no-action PlanDefinition.action');
    expect(said(read(plan('a', [], { action: undefined })).findings)).toContain(
      'warning no-action PlanDefinition.action',
    );
  });
});

describe('elements of a definition', () => {
  const at = (path: string) => `ActivityDefinition.where(url = '${url}')${path === '' ? '' : `.${path}`}`;

  it.each(Object.entries(ofDefinition))('%s tells of it and goes by without a word', (element, value) => {
    expect(ofTheDefinition({ [element]: value })).toEqual([]);
  });

  it.each([
    ['timingTiming', {}],
    ['location', {}],
    ['participant', []],
    ['productReference', {}],
    ['quantity', {}],
    ['dosage', []],
    ['bodySite', []],
    ['profile', 'x'],
    ['library', []],
    ['priority', 'stat'],
  ])('%s is said not to be used', (element, value) => {
    expect(said(ofTheDefinition({ [element]: value }))).toEqual([`warning unused-element ${at(element)}`]);
  });

  it.each<[string, Json, string]>([
    [
      'a modifier',
      { modifierExtension: [{ url: 'x' }] },
      `error unknown-modifier ${at('modifierExtension')}`,
    ],
    ['retired', { status: 'retired' }, `warning retired ${at('status')}`],
    ['a status that is none', { status: 'in force' }, `warning bad-status ${at('status')}`],
    ['another kind', { kind: 'Appointment' }, `warning not-a-task ${at('kind')}`],
    ['no kind', { kind: undefined }, `warning not-a-task ${at('kind')}`],
    ['another intent', { intent: 'order' }, `warning not-a-plan-intent ${at('intent')}`],
    ['no code', { code: undefined }, `warning definition-code ${at('code')}`],
    [
      'a code of others',
      { code: { coding: [{ system: 'x', code: 'flush' }] } },
      `warning definition-code ${at('code')}`,
    ],
    ['the code of another activity', { code: code('flush')[0] }, `error definition-code ${at('code')}`],
    ['a dynamic value', { dynamicValue: [{ path: 'x' }] }, `warning unused-element ${at('dynamicValue[0]')}`],
    ['a dynamic value of none', { dynamicValue: ['x'] }, `warning unused-element ${at('dynamicValue[0]')}`],
    [
      'a dynamic value of the first edition',
      { dynamicValue: [{ path: 'input:x' }] },
      `error input-path ${at('dynamicValue[0].path')}`,
    ],
  ])('%s is said', (_, more, finding) => {
    expect(said(ofTheDefinition(more))).toEqual([finding]);
  });

  it.each<[string, Json]>([
    ['draft', { status: 'draft' }],
    ['of unknown status', { status: 'unknown' }],
    ['without a status', { status: undefined }],
    ['without an intent', { intent: undefined }],
  ])('one that is %s is taken', (_, more) => {
    expect(ofTheDefinition(more)).toEqual([]);
  });

  it('is said to forbid only as a ServiceRequest with an activity', () => {
    const banned = { definitionCanonical: url, timingTiming: undefined, condition: [when('%line.cuffed')] };
    const ban = (more: Json) =>
      readPolicy([plan('a', [action('x', banned)])], {
        activities: [{ ...no('dressing-change'), url, ...more }],
      }).findings;
    expect(said(ban({}))).toEqual([]);
    expect(said(ban({ kind: 'Task' }))).toEqual([`error ban-kind ${at('kind')}`]);
    expect(ban({ kind: undefined })[0]?.message).toContain('missing');
    expect(said(ban({ code: undefined }))).toEqual([`error definition-code ${at('code')}`]);
    const supply = work('s', 'flush', { url: policyExtension.workSupply, valueString: 'Gauze' })['extension'];
    expect(said(ban({ extension: supply }))).toEqual([`error ban-with-work ${at('extension')}`]);
  });

  it('is found by its url and version, in the plan or beside it', () => {
    const named = (definitionCanonical: string, contained: unknown[] = []) =>
      readPolicy([plan('a', [action('x', { definitionCanonical })], { contained })], {
        activities: [
          { ...work('own', 'dressing-change'), version: '2' },
          { ...work('bare', 'dressing-change') },
        ],
      }).findings.filter(({ code: of }) => of === 'unknown-definition');
    expect(named(url)).toEqual([]);
    expect(named(`${url}|2`)).toEqual([]);
    expect(named(`${url}|3`)[0]).toMatchObject({
      message: expect.stringContaining('is version 2') as string,
    });
    expect(named('https://hospital.example/ActivityDefinition/bare|1')[0]?.message).toContain(
      'without a version',
    );
    const near = named('https://hospital.example/ActivityDefinition/onw')[0];
    expect(near?.cure).toContain(`Did you mean ${url}?`);
    expect(named('#w')[0]).toMatchObject({
      path: 'PlanDefinition.action[0].definitionCanonical',
      cure: 'Contain the ActivityDefinition in the plan.',
    });
    expect(named('#w', [{ id: 3 }, 'x'])[0]?.cure).toBe('Contain the ActivityDefinition in the plan.');
    expect(named('#w', [{ id: 'v' }])[0]?.cure).toContain('#v');
  });

  it('beside the layers has a url of its own', () => {
    const given = (...activities: unknown[]) =>
      said(readPolicy([plan('a', [action('x')])], { activities }).findings);
    expect(given('x')).toEqual(['error not-an-activity ActivityDefinition']);
    expect(given({ resourceType: 'Task', url })).toEqual([`error not-an-activity ${at('')}`]);
    expect(given({ ...work('w', 'flush'), url: undefined })).toEqual([
      'error missing-url ActivityDefinition.url',
    ]);
    expect(given({ ...work('w', 'flush'), url: '' })[0]).toMatch(/^error missing-url/);
    expect(given(work('own', 'flush'), work('own', 'lock'))).toEqual([`error same-url ${at('url')}`]);
    expect(options.activities?.length).toBeGreaterThan(0);
  });
});
