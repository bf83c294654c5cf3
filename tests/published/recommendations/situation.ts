import assert from 'node:assert/strict';
import { dueCare, readRecords, type DueItem, type LineCare } from '@dwellward/core';
import {
  bundledPlan,
  readPolicy,
  type BundledPlanName,
  type CareSetting,
  type Policy,
  type Rule,
} from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import { said } from '../../said.js';

// A smallest record for each recommendation, and what due care makes of it.

type Layers = readonly BundledPlanName[];
const policies = new Map<string, Policy>();
let spoil: ((rule: Rule) => Rule) | undefined;

/** Runs something under policies whose every rule is spoiled, to see that a check would notice. */
export function withSpoiledRules(spoiler: (rule: Rule) => Rule, run: () => void): void {
  policies.clear();
  spoil = spoiler;
  try {
    run();
  } finally {
    policies.clear();
    spoil = undefined;
  }
}

/** The base with these layers over it. */
export function policyOf(layers: Layers = []): Policy {
  const key = layers.join();
  const known = policies.get(key);
  if (known) return known;
  const reading = readPolicy((['base', ...layers] as const).map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  const policy = spoil ? { ...reading.policy, rules: reading.policy.rules.map(spoil) } : reading.policy;
  policies.set(key, policy);
  return policy;
}

export interface Situation {
  readonly type?: string;
  readonly layers?: Layers;
  readonly dressing?: string;
  /** Put on together with it. */
  readonly alsoDressing?: string;
  readonly securement?: string;
  readonly infusate?: string;
  /** The lumen was locked between two infusions of the last hours. */
  readonly intermittent?: true;
  readonly setting?: CareSetting;
  readonly born?: string;
  /** What was done last: an hour before the moment asked for, nineteen days after the insertion. */
  readonly done?: string;
  /** It was locked two hours before what was done last. */
  readonly lockedBefore?: true;
  /** A finding half an hour before the moment asked for. */
  readonly found?: readonly [code: string, value: string | boolean];
  /** Nothing but the insertion is on record, an hour before the moment asked for. */
  readonly new?: true;
  readonly needleOut?: true;
  readonly primingVolumeMl?: number;
}

const inserted = '2026-11-01T10:00:00Z';
const last = '2026-11-20T10:00:00Z';
const foundAt = '2026-11-20T10:30:00Z';
const asOf = '2026-11-20T11:00:00Z';

const coded = (system: keyof typeof codeSystem, code: string) => ({
  coding: [{ system: codeSystem[system], code }],
});

function resourcesOf(situation: Situation): object[] {
  const { type = 'picc', dressing, securement, infusate, setting } = situation;
  const used = [
    ...[dressing, situation.alsoDressing].flatMap((one) => (one ? [coded('dressingType', one)] : [])),
    ...(securement ? [coded('securementType', securement)] : []),
  ];
  const event = (activity: string, at: string, usedCode: object[] = []) => ({
    resourceType: 'Procedure',
    id: `${activity}-${at.slice(8, 13)}`,
    status: 'completed',
    code: coded('lineCareActivity', activity),
    subject: { reference: 'Patient/p' },
    performedDateTime: at,
    focalDevice: [{ manipulated: { reference: 'Device/line' } }],
    ...(usedCode.length > 0 ? { usedCode } : {}),
  });
  const infusion = (id: string, code: string, start: string, end?: string) => ({
    resourceType: 'MedicationAdministration',
    id,
    status: end ? 'completed' : 'in-progress',
    subject: { reference: 'Patient/p' },
    device: [{ reference: 'Device/line' }],
    effectivePeriod: { start, ...(end ? { end } : {}) },
    medicationCodeableConcept: coded('infusate', code),
  });
  const classes = { inpatient: 'IMP', 'intensive-care': 'IMP', ambulatory: 'AMB', home: 'HH' };
  const where =
    setting === undefined
      ? []
      : [
          {
            resourceType: 'Encounter',
            id: 'stay',
            status: 'in-progress',
            class: { system: 'http://terminology.hl7.org/CodeSystem/v3-ActCode', code: classes[setting] },
            subject: { reference: 'Patient/p' },
            period: { start: '2026-10-01T10:00:00Z' },
            ...(setting === 'intensive-care'
              ? { location: [{ location: { reference: 'Location/icu' } }] }
              : {}),
          },
          {
            resourceType: 'Location',
            id: 'icu',
            type: [
              { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v3-RoleCode', code: 'ICU' }] },
            ],
          },
        ];
  const found = situation.found && {
    resourceType: 'Observation',
    id: 'found',
    status: 'final',
    code: coded('lineFinding', situation.found[0]),
    subject: { reference: 'Patient/p' },
    focus: [{ reference: 'Device/line' }],
    effectiveDateTime: situation.new ? last : foundAt,
    ...(typeof situation.found[1] === 'boolean'
      ? { valueBoolean: situation.found[1] }
      : { valueCodeableConcept: { coding: [{ code: situation.found[1] }] } }),
  };
  const priming = situation.primingVolumeMl;
  return [
    { resourceType: 'Patient', id: 'p', birthDate: situation.born ?? '1980-01-01' },
    {
      resourceType: 'Device',
      id: 'line',
      status: 'active',
      type: coded('lineType', type),
      patient: { reference: 'Patient/p' },
      ...(priming === undefined
        ? {}
        : {
            property: [
              {
                type: coded('lineProperty', 'priming-volume'),
                valueQuantity: [{ value: priming, system: 'http://unitsofmeasure.org', code: 'mL' }],
              },
            ],
          }),
    },
    ...where,
    ...(situation.new
      ? [event('insertion', last, used)]
      : [event('insertion', inserted, used), event('tip-confirmation', '2026-11-01T11:00:00Z')]),
    ...(situation.needleOut ? [event('access-needle-removal', last)] : []),
    ...(situation.lockedBefore ? [event('lock', '2026-11-20T08:00:00Z')] : []),
    ...(situation.done ? [event(situation.done, last, used)] : []),
    ...(situation.intermittent
      ? [
          infusion('first', infusate ?? 'other', '2026-11-20T01:00:00Z', '2026-11-20T02:00:00Z'),
          event('lock', '2026-11-20T02:05:00Z'),
          infusion('second', infusate ?? 'other', '2026-11-20T09:00:00Z'),
        ]
      : infusate
        ? [infusion('running', infusate, '2026-11-20T09:00:00Z')]
        : []),
    ...(found ? [found] : []),
  ];
}

/** Due care of the situation. */
export function careOf(situation: Situation): LineCare {
  const [line] = readRecords(resourcesOf(situation).map((resource) => ({ resource }))).lines;
  if (!line) throw new Error('no line was read');
  return dueCare(line, policyOf(situation.layers), { asOf, zone: 'UTC' });
}

/** The open item of an activity; undefined where nothing asks for it. */
export function itemOf(activity: string, situation: Situation): DueItem | undefined {
  return careOf(situation).items.find((item) => item.activity === activity);
}

const hoursFrom = (from: string, to: string) => (Date.parse(to) - Date.parse(from)) / 3_600_000;

/** That the activity, done just now, is due again after so many hours, by this rule. */
export function isDueAfter(hours: number, activity: string, rule: string, situation: Situation = {}): void {
  const item = itemOf(activity, { done: activity, ...situation });
  assert.ok(item, `nothing asks for ${activity}`);
  assert.equal(hoursFrom(last, item.dueBy), hours, `${activity} by ${item.rule.id}`);
  assert.equal(item.rule.id, rule);
}

/** That the activity, done just now, may be done again only after so many hours. */
export function opensAfter(hours: number, activity: string, situation: Situation = {}): void {
  const item = itemOf(activity, { done: activity, ...situation });
  assert.ok(item, `nothing asks for ${activity}`);
  assert.ok(item.rule.minimumSpacing, `${item.rule.id} has no least spacing`);
  assert.equal(hoursFrom(last, item.opens), hours);
}

/** That a finding makes the activity due at once. */
export function isDueAtOnce(
  activity: string,
  found: readonly [string, string],
  situation: Situation = {},
): void {
  const item = itemOf(activity, { done: activity, found, ...situation });
  assert.ok(item, `nothing asks for ${activity}`);
  assert.equal(Date.parse(item.dueBy), Date.parse(foundAt), `${activity} by ${item.rule.id}`);
}

/** That nothing asks for the activity. */
export function isNotAskedFor(activity: string, situation: Situation = {}): void {
  assert.equal(itemOf(activity, situation)?.rule.id, undefined);
}

/** That what is to be done says this, among its cautions and supplies. */
export function says(words: RegExp, activity: string, situation: Situation = {}): void {
  const item = itemOf(activity, { done: activity, ...situation });
  assert.ok(item, `nothing asks for ${activity}`);
  const lines = said(item.work.map(({ text }) => text));
  assert.ok(
    lines.some((text) => words.test(text)),
    `${item.rule.id} says: ${lines.join(' | ')}`,
  );
}
