import type { DueItem, LineCare, RecordIssue } from '@dwellward/core';
import type { Rule } from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { careOf, inMs, keyOf, pairs } from './answers.js';
import { charted, instantText, runs, units, type Resource, type Unit } from './generators.js';
import { bundledPolicy, done, found, hours, ruleOf, triggered, widePolicy } from './policies.js';

const wide = widePolicy();
const bundled = bundledPolicy();

/** An event as a nurse charts it on what an item is about. */
function eventFor(
  { activity, target }: Pick<DueItem, 'activity' | 'target'>,
  at: string,
  more: object = {},
): Resource {
  return {
    resourceType: 'Procedure',
    // After every generated id, so that of two events at one instant this is the last.
    id: 'zz-added',
    status: 'completed',
    code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
    subject: { reference: 'Patient/p0' },
    performedDateTime: at,
    focalDevice: [{ manipulated: { reference: target.device } }],
    ...(target.scope === 'incision'
      ? { bodySite: [{ coding: [{ system: codeSystem.lineSite, code: 'incision' }] }] }
      : {}),
    ...more,
  };
}

/** Whether an event can be charted on the target alone: counted lumens share the Device of their line. */
const canBeCharted = ({ target }: DueItem) => target.scope !== 'lumen' || !target.ref.includes('#');

describe('what is later than the moment', () => {
  it('does not exist: an event, a finding or a result of the future changes nothing, and is said', () => {
    const future = fc.tuple(
      units,
      fc.constantFrom(...charted, 'removal'),
      fc.integer({ min: 1, max: 100_000 }),
      fc.nat(20),
    );
    fc.assert(
      fc.property(future, ([unit, activity, minutes, nth]) => {
        const devices = unit.resources.filter(({ resourceType }) => resourceType === 'Device');
        const on = `Device/${devices[nth % devices.length]?.id ?? ''}`;
        const at = instantText(unit.asOfMs + minutes * 60_000, 60);
        const target = { scope: 'line', ref: on, device: on, name: { code: 'the-line' } } as const;
        const added: Resource[] = [
          eventFor({ activity: activity as DueItem['activity'], target }, at),
          {
            resourceType: 'Observation',
            id: 'zz-count',
            status: 'final',
            code: { coding: [{ system: 'http://loinc.org', code: '751-8' }] },
            subject: { reference: 'Patient/p0' },
            effectiveDateTime: at,
            valueQuantity: { value: 0.01, unit: '10*9/L' },
          },
          {
            resourceType: 'Observation',
            id: 'zz-finding',
            status: 'final',
            code: { coding: [{ system: codeSystem.lineFinding, code: 'dressing-condition' }] },
            subject: { reference: 'Patient/p0' },
            focus: [{ reference: on }],
            effectiveDateTime: at,
            valueCodeableConcept: { coding: [{ system: codeSystem.dressingCondition, code: 'soiled' }] },
          },
        ];
        const toCome = ({ sentence }: RecordIssue) => sentence.code === 'done-still-to-come';
        const said = (cares: readonly LineCare[]) =>
          JSON.stringify(
            cares.map(({ issues, ...care }) => ({ ...care, issues: issues.filter((one) => !toCome(one)) })),
          );
        const before = careOf(unit.resources, wide, unit);
        const after = careOf([...unit.resources, ...added], wide, unit);
        expect(said(after)).toBe(said(before));
        const asks = after.find(({ line, closed }) => line === on && closed === undefined);
        if (asks)
          expect(asks.issues.some(toCome)).toBe(
            minutes > 10 || before.some(({ issues }) => issues.some(toCome)),
          );
      }),
      runs(),
    );
  });
});

describe('doing the care', () => {
  it('meets the item that was open, and makes the next one another', () => {
    fc.assert(
      fc.property(units, fc.nat(40), (unit, nth) => {
        const before = careOf(unit.resources, wide, unit);
        const open = before
          .flatMap(({ items }) => items)
          .filter(canBeCharted)
          // What was done within ten minutes of its like is that one, charted twice.
          .filter(({ countedFrom: { at } }) => at === undefined || unit.asOfMs - inMs(at) > 600_000);
        fc.pre(open.length > 0);
        const item = open[nth % open.length]!;
        const after = careOf([...unit.resources, eventFor(item, instantText(unit.asOfMs))], wide, unit);
        const met = after.flatMap((care) => care.met).find(({ id }) => id === item.id);
        expect(met?.by, keyOf(item)).toBe('Procedure/zz-added');
        expect(inMs(met!.at)).toBe(unit.asOfMs);
        for (const next of after.flatMap(({ items }) => items)) expect(next.id).not.toBe(item.id);
      }),
      runs(),
    );
  });

  it('on two lumens at once meets what the line asked for once, and not what counts from itself', () => {
    const asOfMs = Date.parse('2026-11-25T12:00:00Z');
    const lumens = ['a', 'b'].map((id) => ({
      resourceType: 'Device',
      id,
      type: { coding: [{ system: codeSystem.lineType, code: 'lumen' }] },
      parent: { reference: 'Device/line0' },
    }));
    const target = {
      scope: 'line',
      ref: 'Device/line0',
      device: 'Device/line0',
      name: { code: 'the-line' },
    } as const;
    const unit: Unit = {
      asOfMs,
      zone: 'UTC',
      resources: [
        {
          resourceType: 'Device',
          id: 'line0',
          type: { coding: [{ system: codeSystem.lineType, code: 'picc' }] },
          patient: { reference: 'Patient/p0' },
        },
        ...lumens,
        eventFor({ activity: 'bath', target }, '2026-11-25T08:00:00Z', {
          focalDevice: ['a', 'b'].map((id) => ({ manipulated: { reference: `Device/${id}` } })),
        }),
      ],
    };
    const [care] = careOf(unit.resources, wide, unit);
    const open = care!.items.find(({ activity }) => activity === 'bath')!;
    expect(care!.met.filter(({ activity }) => activity === 'bath')).toHaveLength(1);
    expect(care!.met.map(({ id }) => id)).not.toContain(open.id);
  });

  // What only records that it was done, and is no fact that a rule asks about.
  const plain = new Set<string>([
    'site-assessment',
    'necessity-review',
    'external-length-measurement',
    'needleless-connector-change',
    'administration-set-change',
    'bath',
    'patency-assessment',
    'securement-change',
  ]);

  it('once more, later, never makes its next time earlier', () => {
    fc.assert(
      fc.property(units, fc.nat(40), fc.double({ min: 0, max: 1, noNaN: true }), (unit, nth, share) => {
        const before = careOf(unit.resources, wide, unit);
        const open = before
          .flatMap(({ items }) => items)
          .filter(
            (item) =>
              canBeCharted(item) &&
              plain.has(item.activity) &&
              ['event', 'insertion'].includes(item.countedFrom.basis),
          );
        fc.pre(open.length > 0);
        const item = open[nth % open.length]!;
        const from = inMs(item.countedFrom.at!);
        const at = Math.round(from + (unit.asOfMs - from) * share);
        const after = careOf([...unit.resources, eventFor(item, instantText(at))], wide, unit);
        const next = after.flatMap(({ items }) => items).find((one) => keyOf(one) === keyOf(item));
        if (next) expect(inMs(next.dueBy), keyOf(item)).toBeGreaterThanOrEqual(inMs(item.dueBy));
      }),
      runs(),
    );
  });
});

describe('a lower neutrophil count', () => {
  const counts = fc.record({
    value: fc.double({ min: 0, max: 9, noNaN: true }),
    hoursAgo: fc.integer({ min: 0, max: 400 }),
  });

  it('never makes an item later under the neutropenia layer', () => {
    fc.assert(
      fc.property(
        units,
        fc.array(counts, { minLength: 1, maxLength: 4 }),
        fc.nat(3),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (unit, results, nth, share) => {
          const others = unit.resources.filter(
            ({ resourceType, code }) =>
              resourceType !== 'Observation' || JSON.stringify(code).includes('line-finding'),
          );
          const lab = ({ value, hoursAgo }: { value: number; hoursAgo: number }, i: number): Resource => ({
            resourceType: 'Observation',
            id: `count${i}`,
            status: 'final',
            code: { coding: [{ system: 'http://loinc.org', code: '751-8' }] },
            subject: { reference: 'Patient/p0' },
            effectiveDateTime: instantText(unit.asOfMs - hoursAgo * 3_600_000),
            valueQuantity: { value, unit: '10*9/L' },
          });
          const lowered = results.map((one, i) =>
            i === nth % results.length ? { ...one, value: one.value * share } : one,
          );
          const before = careOf([...others, ...results.map(lab)], bundled, unit);
          const after = careOf([...others, ...lowered.map(lab)], bundled, unit);
          for (const [item, again] of pairs(before, after)) {
            expect(again, keyOf(item)).toBeDefined();
            expect(inMs(again!.dueBy), keyOf(item)).toBeLessThanOrEqual(inMs(item.dueBy));
          }
        },
      ),
      runs(),
    );
  });
});

describe('an emergency', () => {
  const target = {
    scope: 'lumen',
    ref: 'Device/line0',
    device: 'Device/line0',
    name: { code: 'the-line' },
  } as const;
  const unit: Unit = {
    asOfMs: Date.parse('2026-11-25T10:30:00Z'),
    zone: 'UTC',
    resources: [
      {
        resourceType: 'Device',
        id: 'line0',
        status: 'active',
        type: { coding: [{ system: codeSystem.lineType, code: 'picc' }] },
        patient: { reference: 'Patient/p0' },
      },
      eventFor({ activity: 'insertion', target }, '2026-11-01T10:00:00Z', { id: 'in' }),
      eventFor({ activity: 'flush', target }, '2026-11-25T01:00:00Z', { id: 'flush' }),
      eventFor({ activity: 'repair', target }, '2026-11-25T08:00:00Z', { id: 'repair' }),
      {
        resourceType: 'Observation',
        id: 'blood',
        status: 'final',
        code: { coding: [{ system: codeSystem.lineFinding, code: 'connector-condition' }] },
        focus: [{ reference: 'Device/line0' }],
        effectiveDateTime: '2026-11-25T10:00:00Z',
        valueCodeableConcept: { coding: [{ system: codeSystem.connectorCondition, code: 'blood-residue' }] },
      },
    ],
  };
  const flush = { activity: 'flush', scopes: ['lumen'] } as const;
  const hold = ruleOf('hold', {
    ...flush,
    effect: 'forbid',
    begins: triggered([done('repair')]),
    lasts: hours(6),
  });
  const emergency = ruleOf('emergency', {
    ...flush,
    priority: 'stat',
    begins: triggered([found('connector-condition', 'blood-residue')]),
  });
  const routine = ruleOf('routine', {
    ...flush,
    begins: { kind: 'interval', every: hours(8) },
  });

  it('is not held because a routine rule of the same activity is due even earlier', () => {
    const itemOf = (...rules: Rule[]) => careOf(unit.resources, { ...bundled, rules }, unit)[0]!.items[0]!;
    expect(itemOf(hold, emergency)).toMatchObject({ state: 'overdue', dueBy: '2026-11-25T10:00:00+00:00' });
    expect(itemOf(hold, routine).state).toBe('held');
    expect(itemOf(hold, emergency, routine)).toMatchObject({
      state: 'overdue',
      dueBy: '2026-11-25T09:00:00+00:00',
    });
  });
});
