import { readPolicy, type Policy } from '@dwellward/policy';
import { base as canonicalBase, codeSystem, policyExtension } from '@dwellward/profiles';
import type { Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { explain, ruleUri } from '../explain/explain.js';
import { transactionFor } from '../fhir/transaction.js';
import {
  said,
  berlin,
  care,
  event,
  finding,
  itemOf,
  line,
  patient,
  read,
  type Resource,
} from '../record.kit.js';
import { dueCare } from './due-care.js';
import { inWords } from '../words/in-words.js';
import { nextPolicyChange } from './in-force.js';

type Json = Record<string, unknown>;

const url = 'https://unit.example/PlanDefinition/ours';

function action(id: string, repeat: Json | undefined, more: Json = {}, code = 'dressing-change'): Json {
  return {
    id,
    title: id,
    code: [{ coding: [{ system: codeSystem.lineCareActivity, code }] }],
    documentation: [{ type: 'citation', citation: 'Common practice, no source: invented for a test.' }],
    ...(repeat ? { timingTiming: { repeat } } : {}),
    ...more,
  };
}

const every = (period: number, periodUnit: string) => ({ frequency: 1, period, periodUnit });
const lead = (value: number, code: string) => ({
  extension: [{ url: policyExtension.ruleLead, valueDuration: { value, code } }],
});
const whenDone = (code: string) => ({
  type: 'data-added',
  data: [
    {
      type: 'Procedure',
      codeFilter: [{ path: 'code', code: [{ system: codeSystem.lineCareActivity, code }] }],
    },
  ],
});
/** A ban of infusions. */
const ban = (id: string, more: Json): Json =>
  action(
    id,
    undefined,
    { definitionCanonical: `${canonicalBase}/ActivityDefinition/no-infusion-start`, ...more },
    'infusion-start',
  );

function version(number: number, effectivePeriod: Json | undefined, ...actions: Json[]): Json {
  return {
    resourceType: 'PlanDefinition',
    url,
    version: String(number),
    title: 'Ours',
    status: 'active',
    ...(effectivePeriod ? { effectivePeriod } : {}),
    action: actions,
  };
}

function policyOf(...layers: Json[]): Policy {
  const reading = readPolicy(layers);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

const november = { end: '2026-11-30' };
const december = { start: '2026-12-01' };
/** Version 2 is in force from here on. */
const change = '2026-12-01T00:00:00+01:00';
const changed = 'Tue 1 Dec 2026 00:00';

const weekly = action('dressing', every(7, 'd'));
const threeDaily = action('dressing', every(3, 'd'));
const tightened = policyOf(version(1, november, weekly), version(2, december, threeDaily));

const base: Resource[] = [patient(), line(), event('insertion', '2026-10-01T09:00:00+02:00')];
const dressed = (at: string) => [...base, event('dressing-change', at)];

describe('an item whose window had opened before the change', () => {
  // Every 7 days from 24 Nov 10:00: due by 1 Dec 10:00; a quarter, 42 hours, before that is 29 Nov 16:00.
  const opened = dressed('2026-11-24T10:00:00+01:00');

  it('stays with the version that was in force then, and says so', () => {
    const item = itemOf(opened, tightened, berlin('2026-12-01T08:00:00+01:00'));
    expect(item).toMatchObject({
      opens: '2026-11-29T16:00:00+01:00',
      dueBy: '2026-12-01T10:00:00+01:00',
      rule: { origin: { version: '1' } },
    });
    expect(said(item.remarks)).toEqual([
      `Judged by version 1 of “Ours”: its window had opened before version 2 of “Ours” came into force on ${changed}.`,
    ]);
  });

  it('is the same the day before, with nothing to say', () => {
    const item = itemOf(opened, tightened, berlin('2026-11-30T23:59:59+01:00'));
    expect(item).toMatchObject({ dueBy: '2026-12-01T10:00:00+01:00', remarks: [] });
  });

  it('gives the next one to the new version when it was done', () => {
    const done = [...opened, event('dressing-change', '2026-12-01T09:00:00+01:00')];
    const item = itemOf(done, tightened, berlin('2026-12-01T12:00:00+01:00'));
    expect(item).toMatchObject({
      dueBy: '2026-12-04T09:00:00+01:00',
      rule: { origin: { version: '2' } },
      remarks: [],
    });
  });

  it('is brought forward by what arises after the change, by a rule of the new version', () => {
    const atOnce = action('damp', undefined, {
      trigger: [
        {
          type: 'data-added',
          data: [
            {
              type: 'Observation',
              codeFilter: [
                { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'dressing-condition' }] },
              ],
            },
          ],
        },
      ],
    });
    const policy = policyOf(version(1, november, weekly), version(2, december, weekly, atOnce));
    const damp = (at: string) => [...opened, finding('dressing-condition', 'damp', at)];
    const now = berlin('2026-12-01T08:00:00+01:00');
    expect(itemOf(damp('2026-12-01T07:00:00+01:00'), policy, now)).toMatchObject({
      dueBy: '2026-12-01T07:00:00+01:00',
      rule: { id: 'damp', origin: { version: '2' } },
    });
    // What was seen before the change is no business of the new version.
    expect(itemOf(damp('2026-11-30T07:00:00+01:00'), policy, now)).toMatchObject({
      dueBy: '2026-12-01T10:00:00+01:00',
      rule: { id: 'dressing' },
    });
  });
});

describe('an item whose window had not opened', () => {
  it('moves to the new version, not before it came into force, and says why', () => {
    // By version 1 due by 3 Dec 10:00, open from 1 Dec 16:00; by version 2 due by 29 Nov 10:00.
    const item = itemOf(dressed('2026-11-26T10:00:00+01:00'), tightened, berlin('2026-12-01T08:00:00+01:00'));
    expect(item).toMatchObject({
      opens: change,
      dueBy: change,
      state: 'overdue',
      rule: { origin: { version: '2' } },
    });
    expect(said(item.remarks)).toContain(
      `Moved by version 2 of “Ours”, in force since ${changed}: it was to be due by Thu 3 Dec 2026 10:00.`,
    );
  });

  it('moves to a later time where the new version asks less often', () => {
    const policy = policyOf(version(1, november, threeDaily), version(2, december, weekly));
    // By version 1 due by 3 Dec 10:00, open from 2 Dec 16:00.
    const item = itemOf(dressed('2026-11-30T10:00:00+01:00'), policy, berlin('2026-12-01T08:00:00+01:00'));
    expect(item).toMatchObject({ dueBy: '2026-12-07T10:00:00+01:00', rule: { origin: { version: '2' } } });
    expect(said(item.remarks)).toEqual([
      `Moved by version 2 of “Ours”, in force since ${changed}: it was to be due by Thu 3 Dec 2026 10:00.`,
    ]);
  });

  it('moves without a word where the new version asks for the same', () => {
    const policy = policyOf(version(1, november, weekly), version(2, december, weekly));
    const item = itemOf(dressed('2026-11-26T10:00:00+01:00'), policy, berlin('2026-12-01T08:00:00+01:00'));
    expect(item).toMatchObject({
      dueBy: '2026-12-03T10:00:00+01:00',
      rule: { origin: { version: '2' } },
      remarks: [],
    });
  });
});

describe('a window that opens exactly at the change', () => {
  const dayBefore = { ...weekly, ...lead(1, 'd') };
  const policy = policyOf(
    version(1, november, dayBefore),
    version(2, december, { ...threeDaily, ...lead(1, 'd') }),
  );
  const now = berlin('2026-12-01T08:00:00+01:00');

  it.each([
    ['2026-11-25T00:00:00+01:00', '2'],
    ['2026-11-24T23:59:59+01:00', '1'],
  ])('is judged by the new version, one a second earlier by the old one: %s, version %s', (at, expected) => {
    expect(itemOf(dressed(at), policy, now).rule.origin.version).toBe(expected);
  });
});

describe('a rule that the new version dropped', () => {
  const policy = policyOf(
    version(1, november, weekly),
    version(2, december, action('other', every(1, 'mo'), {}, 'teaching')),
  );
  const dressings = (resources: Resource[], at: string) =>
    care(resources, policy, berlin(at)).items.filter(({ activity }) => activity === 'dressing-change');

  it('keeps an item whose window had opened until it is done', () => {
    const opened = dressed('2026-11-24T10:00:00+01:00');
    expect(dressings(opened, '2026-12-05T08:00:00+01:00')).toMatchObject([{ state: 'overdue' }]);
    const done = [...opened, event('dressing-change', '2026-12-05T09:00:00+01:00')];
    expect(dressings(done, '2026-12-05T10:00:00+01:00')).toEqual([]);
  });

  it('asks for nothing more where the window had not opened', () => {
    const closed = dressed('2026-11-26T10:00:00+01:00');
    expect(dressings(closed, '2026-11-30T23:59:59+01:00')).toHaveLength(1);
    expect(dressings(closed, change)).toEqual([]);
  });

  it('still tells that an item of the older version was met', () => {
    const done = [
      ...dressed('2026-11-24T10:00:00+01:00'),
      event('dressing-change', '2026-12-01T09:00:00+01:00'),
    ];
    const before = care(dressed('2026-11-24T10:00:00+01:00'), policy, berlin('2026-11-30T08:00:00+01:00'));
    const after = care(done, policy, berlin('2026-12-01T12:00:00+01:00'));
    const id = before.items.find(({ activity }) => activity === 'dressing-change')?.id;
    expect(after.met.map((one) => one.id)).toContain(id);
  });
});

describe('a rule that the version before lacked', () => {
  const teaching = action('teaching', every(1, 'd'), {}, 'teaching');
  const policy = policyOf(version(1, november, weekly), version(2, december, weekly, teaching));

  it('is never due before the version came into force', () => {
    const items = (at: string) =>
      care(dressed('2026-11-29T10:00:00+01:00'), policy, berlin(at)).items.filter(
        ({ activity }) => activity === 'teaching',
      );
    expect(items('2026-11-30T23:59:59+01:00')).toEqual([]);
    expect(items(change)).toMatchObject([{ opens: change, dueBy: change, state: 'due' }]);
    expect(said(items('2026-12-02T08:00:00+01:00')[0]?.remarks ?? [])).toContain(
      `Asked for since version 2 of “Ours”, in force since ${changed}: not asked for before.`,
    );
  });

  it('nor is one that stands in a first version with a start', () => {
    const first = policyOf(version(1, december, teaching));
    expect(care(base, first, berlin('2026-11-30T12:00:00+01:00')).items).toEqual([]);
    expect(itemOf(base, first, berlin('2026-12-01T12:00:00+01:00'))).toMatchObject({ dueBy: change });
  });
});

describe('an effectivePeriod', () => {
  it('counts its last day whole, in the unit’s zone', () => {
    const asked = (asOf: string, zone: string) =>
      care(base, policyOf(version(1, november, weekly)), { asOf, zone }).items.length;
    expect(asked('2026-11-30T23:59:59+01:00', 'Europe/Berlin')).toBe(1);
    // Overdue since October: its window had opened, so that it stays.
    expect(asked('2026-12-01T00:00:00+01:00', 'Europe/Berlin')).toBe(1);
    const fresh = dressed('2026-11-30T10:00:00+01:00');
    const later = (asOf: string, zone: string) =>
      care(fresh, policyOf(version(1, november, weekly)), { asOf, zone }).items.length;
    expect(later('2026-12-01T00:00:00+01:00', 'Europe/Berlin')).toBe(0);
    expect(later('2026-12-01T00:00:00+01:00', 'America/New_York')).toBe(1);
    expect(later('2026-12-01T00:00:00-05:00', 'America/New_York')).toBe(0);
  });

  it('leaves a gap between two versions in which nothing new opens', () => {
    const policy = policyOf(version(1, november, weekly), version(2, { start: '2026-12-05' }, weekly));
    const closed = dressed('2026-11-29T10:00:00+01:00');
    expect(care(closed, policy, berlin('2026-12-02T10:00:00+01:00')).items).toEqual([]);
    expect(itemOf(closed, policy, berlin('2026-12-05T10:00:00+01:00'))).toMatchObject({
      dueBy: '2026-12-06T10:00:00+01:00',
    });
  });

  it('says when the policy changes next', () => {
    expect(nextPolicyChange(tightened, berlin('2026-11-25T08:00:00+01:00'))).toBe(change);
    expect(nextPolicyChange(tightened, berlin(change))).toBeUndefined();
    expect(nextPolicyChange(policyOf(version(1, undefined, weekly)), berlin(change))).toBeUndefined();
  });
});

describe('holds', () => {
  const none = (value: number) =>
    ban('none', {
      trigger: [whenDone('repair')],
      timingTiming: { repeat: { boundsDuration: { value, code: 'h' } } },
    });
  const policy = policyOf(version(1, november, none(2)), version(2, december, none(4)));

  it.each([
    ['2026-11-30T23:30:00+01:00', '2026-12-01T01:30:00+01:00'],
    ['2026-12-01T00:00:00+01:00', '2026-12-01T04:00:00+01:00'],
  ])('for a time are judged by the version in force when they began: %s until %s', (at, until) => {
    const { holds } = care([...base, event('repair', at)], policy, berlin('2026-12-01T00:30:00+01:00'));
    expect(holds).toMatchObject([{ until }]);
  });

  it('that wait for an event hold from when the version came into force', () => {
    const expression = { language: 'text/fhirpath', expression: '%last.tipConfirmation.empty()' };
    const waits = ban('waits', { condition: [{ kind: 'applicability', expression }] });
    const added = policyOf(version(1, november, weekly), version(2, december, weekly, waits));
    expect(care(base, added, berlin('2026-11-30T12:00:00+01:00')).holds).toEqual([]);
    expect(care(base, added, berlin('2026-12-01T12:00:00+01:00')).holds).toMatchObject([{ from: change }]);
  });
});

describe('Tasks', () => {
  it('keep the version they came from, and move with their item, saying why', () => {
    const records = read(...dressed('2026-11-26T10:00:00+01:00'));
    const at = (asOf: string, existing: Task[]) => {
      const when = berlin(asOf);
      const cares = records.lines.map((one) => dueCare(one, tightened, when));
      const bundle = transactionFor({ records, cares, policy: tightened, when, existing });
      return (bundle?.entry ?? []).flatMap(({ resource }) =>
        resource?.resourceType === 'Task' ? [resource as Task] : [],
      );
    };
    const [first] = at('2026-11-27T08:00:00+01:00', []);
    expect(first?.instantiatesUri).toBe(`${url}|1#dressing`);
    const existing = { ...first, id: 'one' } as Task;
    expect(at('2026-11-30T08:00:00+01:00', [existing])).toEqual([]);
    const [moved] = at('2026-12-01T08:00:00+01:00', [existing]);
    expect(moved).toMatchObject({ id: 'one', instantiatesUri: `${url}|2#dressing`, status: 'requested' });
    expect(moved?.note?.[0]?.text).toContain('Moved by version 2 of “Ours”');
  });

  it('are explained by the version they came from', () => {
    const when = berlin('2026-12-01T08:00:00+01:00');
    const item = itemOf(dressed('2026-11-24T10:00:00+01:00'), tightened, when);
    const why = explain(item, tightened);
    expect(why.rule.plan).toBe(`${url}|1`);
    expect(said([why.rule.schedule])).toEqual(['every 7 days']);
    expect(ruleUri(item.rule)).toBe(`${url}|1#dressing`);
  });
});

describe('an explanation', () => {
  const inText = (value: unknown) => inWords(value, (one) => said([one]).join());
  const lower: Json = {
    ...version(1, undefined, weekly, action('gone', every(2, 'd'))),
    url: `${url}-below`,
    title: 'Below',
  };
  const upper = version(1, undefined, threeDaily, {
    id: 'gone',
    condition: [{ kind: 'applicability', expression: { language: 'text/fhirpath', expression: 'false' } }],
    documentation: [{ type: 'justification', display: 'Not needed here.' }],
  });

  it('names the rule of the lower layer that was replaced, and what was switched off', () => {
    const policy = policyOf(lower, upper);
    const item = itemOf(dressed('2026-11-24T10:00:00+01:00'), policy, berlin('2026-11-25T08:00:00+01:00'));
    const why = explain(item, policy);
    expect(why.rule.layer).toBe('Ours');
    expect(said([why.rule.schedule])).toEqual(['every 3 days']);
    expect(inText(why.replaced)).toEqual([
      { title: 'dressing', schedule: 'every 7 days', layer: 'Below', plan: `${url}-below|1` },
    ]);
    expect(inText(why.switchedOff)).toEqual([
      { id: 'gone', title: 'gone', schedule: 'every 2 days', by: 'Ours', notes: ['Not needed here.'] },
    ]);
  });
});
