import { codeSystem, standard, type LineCareActivity, type LineFinding } from '@dwellward/profiles';
import {
  compileCondition,
  type Begins,
  type Condition,
  type ConditionKind,
  type Policy,
  type Rule,
  type Scope,
  type Span,
} from '@dwellward/policy';
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
export const every = (span: Span): Begins => ({ kind: 'interval', every: span });

/** At once after a finding with one of these values. */
export const onFinding = (finding: LineFinding, values: readonly string[] = []): Begins => ({
  kind: 'triggered',
  by: [{ kind: 'finding', finding, values }],
});

/** So long after an act, at once where no time is given. */
export const afterEvent = (activity: LineCareActivity, after?: Span): Begins => ({
  kind: 'triggered',
  by: [{ kind: 'event', activity }],
  ...(after ? { after } : {}),
});

type Way = Begins | (Partial<Rule> & { readonly begins: Begins; readonly while?: string });

/** Forbidden for so long after an act. */
export const forbidAfter = (activity: LineCareActivity, lasts: Span): Way => ({
  begins: afterEvent(activity),
  effect: 'forbid',
  lasts,
});

/** Forbidden for as long as a condition is true. */
export const forbidWhile = (condition: string): Way => ({
  begins: { kind: 'while' },
  effect: 'forbid',
  while: condition,
});

export function conditionOf(kind: ConditionKind, ...texts: string[]): Condition {
  const compiled = compileCondition(texts, { kind });
  if (!compiled.ok) throw new Error(JSON.stringify(compiled));
  return compiled.condition;
}

/** A rule with everything that is not said at its plainest. */
export function rule(
  id: string,
  way: Way,
  more: Partial<Rule> & {
    readonly when?: string;
    readonly scope?: Scope;
    readonly startsIf?: string;
    readonly stopsIf?: string;
  } = {},
): Rule {
  const { when, scope = 'exit-site', startsIf, stopsIf, ...rest } = more;
  const { while: whileText, ...own } = 'begins' in way ? way : { begins: way, while: undefined };
  const texts = [when, whileText].filter((text) => text !== undefined);
  return {
    id,
    title: id,
    effect: 'ask',
    activity: 'dressing-change',
    scopes: [scope],
    applicability: conditionOf('applicability', ...texts),
    ...(startsIf === undefined ? {} : { start: conditionOf('start', startsIf) }),
    ...(stopsIf === undefined ? {} : { stop: conditionOf('stop', stopsIf) }),
    whenUnknown: 'protective',
    priority: 'routine',
    citations: [{ text: 'invented for a test', certainty: 'common-practice' }],
    notes: [],
    work: { computed: [], supplies: [], cautions: [] },
    origin: { url: 'https://test.example/PlanDefinition/test', version: '1', title: 'Test', layer: 0 },
    ...own,
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
