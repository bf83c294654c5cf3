import type { LineCare } from '@dwellward/core';
import type { Begins, Rule } from '@dwellward/policy';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { careOf, inMs, keyOf, pairs } from './answers.js';
import { runs, units } from './generators.js';
import { done, found, hours, ruleOf, triggered, widePolicy, type Texts } from './policies.js';

const wide = widePolicy();

describe('a further rule', () => {
  const activities = [
    'dressing-change',
    'flush',
    'lock',
    'site-assessment',
    'needleless-connector-change',
    'administration-set-change',
    'bath',
    'necessity-review',
  ] as const;
  const begins: fc.Arbitrary<Begins> = fc.oneof(
    fc
      .record({
        value: fc.integer({ min: 1, max: 90 }),
        unit: fc.constantFrom('h' as const, 'd' as const, 'min' as const),
      })
      .map((every): Begins => ({ kind: 'interval', every })),
    fc
      .tuple(
        fc.subarray(
          [
            found('dressing-condition', 'damp', 'loosened'),
            found('blood-return', 'sluggish', 'none'),
            found('damage'),
            found('body-temperature'),
            done('infusion-stop'),
            done('dressing-change'),
            done('tip-confirmation'),
          ],
          { minLength: 1 },
        ),
        fc.option(fc.integer({ min: 1, max: 48 }), { nil: undefined }),
      )
      .map(([by, after]) => triggered(by, after === undefined ? undefined : hours(after))),
    fc.constant<Begins>({ kind: 'while' }),
  );
  const when = fc.constantFrom(
    undefined,
    "%labs.anc < 0.5 '10*9/L'",
    "%line.dressing = 'gauze-dressing'",
    '%line.dwellDays > 3',
    "%lumen.use = 'locked'",
    '%last.tipConfirmation.empty()',
  );
  const startsIf = fc.constantFrom(undefined, '%line.dwellDays > 1', '%began > %last.flush');
  const stopsIf = fc.constantFrom(
    undefined,
    '%found.bloodReturn.brisk > %began or %answered.exists()',
    '%last.bath >= %began + 30 minutes',
  );
  const texts = fc.record({ when, startsIf, stopsIf }, { requiredKeys: [] });
  /** Done to what the policy’s own rules do it to. */
  const ruled = (more: Partial<Rule> & Pick<Rule, 'activity' | 'begins'>, given: Texts): Rule => {
    const { activity } = more;
    const own = wide.rules.find((rule) => rule.activity === activity && rule.effect === 'ask');
    const scopes = own?.scopes ?? (['line'] as const);
    // Start and stop are judged from a trigger on.
    const kept = more.begins.kind === 'triggered' ? given : { when: given.when };
    return ruleOf('further', { scopes, ...more }, kept);
  };
  const extra = fc
    .record({
      activity: fc.constantFrom(...activities),
      begins,
      priority: fc.constantFrom('routine' as const, 'urgent' as const, 'stat' as const),
      lead: fc.option(fc.integer({ min: 0, max: 48 }), { nil: undefined }),
      whenUnknown: fc.constantFrom('protective' as const, 'default' as const),
      texts,
    })
    .map(({ lead, texts: given, ...more }) =>
      ruled({ ...more, ...(lead === undefined ? {} : { lead: hours(lead) }) }, given),
    );
  const ban = fc
    .record({
      activity: fc.constantFrom(...activities),
      begins: begins.filter(({ kind }) => kind !== 'interval'),
      lasts: fc.option(fc.integer({ min: 1, max: 48 }), { nil: undefined }),
      texts,
    })
    .map(({ lasts, texts: given, ...more }) =>
      ruled({ ...more, effect: 'forbid', ...(lasts === undefined ? {} : { lasts: hours(lasts) }) }, given),
    );

  it('never makes anything later, and takes nothing away', () => {
    fc.assert(
      fc.property(units, extra, (unit, rule) => {
        const before = careOf(unit.resources, wide, unit);
        const after = careOf(unit.resources, { ...wide, rules: [...wide.rules, rule] }, unit);
        for (const [item, again] of pairs(before, after)) {
          expect(again, keyOf(item)).toBeDefined();
          expect(
            inMs(again!.dueBy),
            `${keyOf(item)}: ${item.rule.id}, then ${again!.rule.id}`,
          ).toBeLessThanOrEqual(inMs(item.dueBy));
          expect(again!.id).toBe(item.id);
        }
      }),
      runs(),
    );
  });

  it('that forbids never makes anything earlier, and neither asks for anything nor takes it away', () => {
    let held = 0;
    fc.assert(
      fc.property(units, ban, (unit, rule) => {
        const before = careOf(unit.resources, wide, unit);
        const after = careOf(unit.resources, { ...wide, rules: [...wide.rules, rule] }, unit);
        const keys = (cares: readonly LineCare[]) => cares.flatMap(({ items }) => items.map(keyOf));
        expect(keys(after)).toEqual(keys(before));
        for (const [item, again] of pairs(before, after)) {
          expect(again!.id).toBe(item.id);
          expect(inMs(again!.dueBy), keyOf(item)).toBeGreaterThanOrEqual(inMs(item.dueBy));
          expect(again!.rule.id).toBe(item.rule.id);
          if (again!.heldBy?.rule.id === rule.id) {
            expect(item.activity).toBe(rule.activity);
            expect(again!.rule.priority, 'an emergency is never held').not.toBe('stat');
            held += 1;
          }
        }
      }),
      runs(),
    );
    expect(held).toBeGreaterThan(0);
  });
});
