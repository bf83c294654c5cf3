import { codeSystem, standard } from '@dwellward/profiles';
import { compileCondition, type Policy, type Rule, type Schedule, type Span } from '@dwellward/policy';
import { dueCare } from './due/due-care.js';
import type { AsOf, DueItem, LineCare } from './model/care.js';
import type { LineRecord, Records } from './model/record.js';
import type { Sentence } from './model/sentences.js';
import { readRecords } from './record/read-records.js';
import { Calendar } from './timeline/calendar.js';
import { english } from './words/english.js';
import { speaker } from './words/say.js';

/** Short ways to say a record and a policy in tests. */
export type Resource = { resourceType: string; id: string; [element: string]: unknown };

export const patient = (more: object = {}): Resource => ({
  resourceType: 'Patient',
  id: 'p',
  birthDate: '1980-01-01',
  ...more,
});

export const line = (type = 'tunneled-cvc', more: object = {}): Resource => ({
  resourceType: 'Device',
  id: 'line',
  status: 'active',
  type: { coding: [{ system: codeSystem.lineType, code: type }] },
  patient: { reference: 'Patient/p' },
  ...more,
});

export const lumen = (id: string, more: object = {}): Resource => ({
  resourceType: 'Device',
  id,
  type: { coding: [{ system: codeSystem.lineType, code: 'lumen' }] },
  parent: { reference: 'Device/line' },
  ...more,
});

export const event = (activity: string, at: string | undefined, more: object = {}): Resource => ({
  resourceType: 'Procedure',
  id: `${activity}-${(at ?? 'never').replace(/[^0-9A-Za-z]/g, '')}`,
  status: 'completed',
  code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
  subject: { reference: 'Patient/p' },
  ...(at === undefined ? {} : { performedDateTime: at }),
  focalDevice: [{ manipulated: { reference: 'Device/line' } }],
  ...more,
});

export const on = (id: string) => ({ focalDevice: [{ manipulated: { reference: `Device/${id}` } }] });

export const dressing = (code: string) => ({
  usedCode: [{ coding: [{ system: codeSystem.dressingType, code }] }],
});

export const finding = (code: string, value: string, at: string, more: object = {}): Resource => ({
  resourceType: 'Observation',
  id: `${code}-${at.replace(/[^0-9A-Za-z]/g, '')}`,
  status: 'final',
  code: { coding: [{ system: codeSystem.lineFinding, code }] },
  subject: { reference: 'Patient/p' },
  focus: [{ reference: 'Device/line' }],
  effectiveDateTime: at,
  valueCodeableConcept: { coding: [{ code: value }] },
  ...more,
});

export const lab = (
  loinc: string,
  value: number,
  unit: string | undefined,
  at: string,
  more: object = {},
): Resource => ({
  resourceType: 'Observation',
  id: `lab-${loinc}-${at.replace(/[^0-9A-Za-z]/g, '')}`,
  status: 'final',
  code: { coding: [{ system: standard.loinc, code: loinc }] },
  subject: { reference: 'Patient/p' },
  effectiveDateTime: at,
  valueQuantity: { value, ...(unit === undefined ? {} : { unit }) },
  ...more,
});

export const neutrophils = (value: number, at: string, more: object = {}) =>
  lab('751-8', value, '10*9/L', at, more);

export const read = (...resources: Resource[]): Records =>
  readRecords(resources.map((resource) => ({ resource })));

export function readLine(...resources: Resource[]): LineRecord {
  const [first] = read(...resources).lines;
  if (!first) throw new Error('no line was read');
  return first;
}

export const days = (value: number): Span => ({ value, unit: 'd' });
export const hours = (value: number): Span => ({ value, unit: 'h' });
export const every = (span: Span): Schedule => ({ kind: 'interval', every: span });

/** A rule with everything that is not said at its plainest. */
export function rule(id: string, schedule: Schedule, more: Partial<Rule> & { when?: string } = {}): Rule {
  const { when, ...rest } = more;
  const compiled = compileCondition(when ? [when] : []);
  if (!compiled.ok) throw new Error(JSON.stringify(compiled));
  return {
    id,
    title: id,
    activity: 'dressing-change',
    scope: 'exit-site',
    schedule,
    condition: compiled.condition,
    whenUnknown: 'protective',
    priority: 'routine',
    citations: [{ text: 'invented for a test', unsourced: true }],
    notes: [],
    work: { computed: [], supplies: [], cautions: [] },
    origin: { url: 'https://test.example/PlanDefinition/test', version: '1', title: 'Test', layer: 0 },
    ...rest,
  };
}

export const policyOf = (...rules: Rule[]): Policy => ({
  layers: [{ url: 'https://test.example/PlanDefinition/test', version: '1', title: 'Test', layer: 0 }],
  rules,
  labStaleAfter: days(7),
});

export const berlin = (asOf: string): AsOf => ({ asOf, zone: 'Europe/Berlin' });

export function care(resources: readonly Resource[], policy: Policy, when: AsOf): LineCare {
  return dueCare(readLine(...resources), policy, when);
}

/** The one item of a policy of one activity. */
export function itemOf(resources: readonly Resource[], policy: Policy, when: AsOf): DueItem {
  const { items } = care(resources, policy, when);
  const [item] = items;
  if (!item || items.length > 1) throw new Error(`one item is wanted, there are ${items.length}`);
  return item;
}

/** Sentences in English, by the clock of the tests’ unit. */
export const said = (sentences: readonly Sentence[]): string[] =>
  sentences.map(speaker(english, new Calendar('Europe/Berlin')));
