import { dueCare, readRecords, type DueItem, type LineCare } from '@dwellward/core';
import { codeSystem } from '@dwellward/profiles';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { entriesOf, instantText, runs, units, whenOf, type Resource, type Unit } from './generators.js';
import { widePolicy } from './policies.js';

// What is charted late or twice. Ten minutes within which the same care counts as one: common practice, no source.

const wide = widePolicy();
const minute = 60_000;

const careOf = (resources: readonly Resource[], unit: Unit): LineCare[] =>
  readRecords(entriesOf(resources)).lines.map((line) => dueCare(line, wide, whenOf(unit)));

const keyOf = ({ activity, target }: Pick<DueItem, 'activity' | 'target'>) =>
  `${activity} ${target.scope} ${target.ref}`;
const itemsOf = (cares: readonly LineCare[]) =>
  new Map(cares.flatMap(({ items }) => items).map((item) => [keyOf(item), item]));

const ms = (text: string) => Date.parse(text);
/** When it would be due without what holds it: a hold after care that was charted twice lasts from the later. */
const dueMs = (item: DueItem) => ms(item.dueByUnheld ?? item.dueBy);

/** Counted lumens share the Device of their line, so nothing can be charted on one of them; a plan has no Device yet. */
const canBeCharted = ({ target }: DueItem) =>
  target.device.startsWith('Device/') && (target.scope !== 'lumen' || !target.ref.includes('#'));

function eventFor({ activity, target }: DueItem, id: string, at: number, offset: number): Resource {
  return {
    resourceType: 'Procedure',
    id,
    status: 'completed',
    code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
    subject: { reference: 'Patient/p0' },
    performedDateTime: instantText(at, offset),
    focalDevice: [{ manipulated: { reference: target.device } }],
    ...(target.scope === 'incision'
      ? { bodySite: [{ coding: [{ system: codeSystem.lineSite, code: 'incision' }] }] }
      : {}),
  };
}

/** Whether something was done between two moments, or little before or after: then a second event may be another. */
function somethingDone(resources: readonly Resource[], fromMs: number, untilMs: number): boolean {
  return resources
    .filter(({ resourceType }) => ['Procedure', 'MedicationAdministration'].includes(resourceType))
    .flatMap((resource) => JSON.stringify(resource).match(/\d{4}-\d\d-\d\dT[\d:.]+(Z|[+-]\d\d:\d\d)/g) ?? [])
    .some((text) => ms(text) >= fromMs - 20 * minute && ms(text) <= untilMs + 20 * minute);
}

const pair = fc.record({
  nth: fc.nat(60),
  minutesAgo: fc.integer({ min: 0, max: 72 * 60 }),
  apartMs: fc.integer({ min: 1, max: 10 * minute }),
  secondId: fc.constantFrom('aa-second', 'zz-second'),
  offset: fc.constantFrom(0, 60, -300, 345),
});

/** The care of a unit with an event charted once, once but later, and both. */
function readings(
  unit: Unit,
  { nth, minutesAgo, apartMs, secondId, offset }: typeof pair extends fc.Arbitrary<infer P> ? P : never,
) {
  const open = [...itemsOf(careOf(unit.resources, unit)).values()].filter(canBeCharted);
  fc.pre(open.length > 0);
  const item = open[nth % open.length]!;
  const first = unit.asOfMs - apartMs - minutesAgo * minute;
  fc.pre(!somethingDone(unit.resources, first, first + apartMs));
  const early = eventFor(item, 'mm-first', first, 0);
  const late = eventFor(item, secondId, first + apartMs, offset);
  const [once, later, twice] = [[early], [late], [early, late]].map((added) =>
    careOf([...unit.resources, ...added], unit),
  );
  return { item, once: once!, later: later!, twice: twice! };
}

const metBy = (cares: readonly LineCare[], { activity }: DueItem) =>
  cares.flatMap(({ met }) => met).filter((one) => one.activity === activity).length;
const toldTwice = (cares: readonly LineCare[]) =>
  cares.flatMap(({ issues }) => issues).filter(({ code }) => code === 'charted-twice').length;

describe('the same care charted a second time, at most ten minutes later', () => {
  it('moves no due time later, none earlier than the earlier of both readings, and meets nothing twice', () => {
    let compared = 0;
    fc.assert(
      fc.property(units, pair, (unit, which) => {
        const { item, ...cares } = readings(unit, which);
        const [once, later, twice] = [cares.once, cares.later, cares.twice].map(itemsOf);
        expect([...twice!.keys()].sort(), keyOf(item)).toEqual([...once!.keys()].sort());
        expect(metBy(cares.twice, item), keyOf(item)).toBe(metBy(cares.once, item));
        expect(toldTwice(cares.twice), keyOf(item)).toBeGreaterThan(toldTwice(cares.once));
        for (const [key, both] of twice!) {
          const alone = once!.get(key)!;
          const other = later!.get(key);
          expect(dueMs(both), `${key} after a second ${keyOf(item)}`).toBeLessThanOrEqual(dueMs(alone));
          expect(dueMs(both), `${key} after a second ${keyOf(item)}`).toBeGreaterThanOrEqual(
            Math.min(dueMs(alone), other ? dueMs(other) : Infinity),
          );
          compared += 1;
        }
      }),
      runs(),
    );
    expect(compared).toBeGreaterThan(1000);
  });
});

describe('care charted late', () => {
  it('is the same whenever it was recorded', () => {
    const recorded = fc.array(fc.integer({ min: -72 * 60, max: 72 * 60 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(units, recorded, (unit, minutes) => {
        // Without an id a resource is known by its content, the time of recording included; of two with one id the
        // one recorded last is the newer version, and counts.
        const known = unit.resources
          .map((resource, i) => ({ ...resource, id: resource.id ?? `r${i}` }))
          .filter(
            ({ resourceType, id }, i, all) =>
              i === all.findIndex((one) => one.resourceType === resourceType && one.id === id),
          );
        const stamped = known.map((resource, i) => ({
          ...resource,
          meta: { lastUpdated: instantText(unit.asOfMs + minutes[i % minutes.length]! * minute) },
        }));
        expect(JSON.stringify(careOf(stamped, unit))).toBe(JSON.stringify(careOf(known, unit)));
      }),
      runs(0.5),
    );
  });

  it('that was done before the latest of its kind moves nothing of that kind', () => {
    let compared = 0;
    fc.assert(
      fc.property(units, fc.nat(60), fc.integer({ min: 21, max: 72 * 60 }), (unit, nth, before) => {
        const counted = [...itemsOf(careOf(unit.resources, unit)).values()].filter(
          (item) =>
            canBeCharted(item) &&
            item.countedFrom.basis === 'event' &&
            item.countedFrom.imprecise === undefined &&
            // A set that only the start of an infusion tells of gives way to one that was charted.
            item.activity !== 'administration-set-change' &&
            // A rule for so many times is nearer its end with every one of them.
            !('atMost' in item.rule.begins),
        );
        fc.pre(counted.length > 0);
        const item = counted[nth % counted.length]!;
        const at = ms(item.countedFrom.at!) - before * minute;
        fc.pre(!somethingDone(unit.resources, at, at));
        const after = itemsOf(careOf([...unit.resources, eventFor(item, 'zz-late', at, 60)], unit));
        expect(after.get(keyOf(item))?.dueBy, keyOf(item)).toBe(item.dueBy);
        expect(after.get(keyOf(item))?.id, keyOf(item)).toBe(item.id);
        compared += 1;
      }),
      runs(0.5),
    );
    expect(compared).toBeGreaterThan(10);
  });
});
