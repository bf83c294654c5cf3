import { dueCare, readRecords, type LineCare } from '@dwellward/core';
import type { Rule } from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { careOf, inMs, keyOf } from './answers.js';
import { entriesOf, instantText, runs, units, whenOf, type Resource } from './generators.js';
import { bundledPolicy, done, found, ruleOf, triggered } from './policies.js';
import {
  appliesAt,
  begun,
  careAt,
  drawnRule,
  dueOn,
  holdsOn,
  insertedMs,
  lastSlot,
  msOf,
  ruleFor,
  steps,
  targetsFor,
  type Drawn,
  type Place,
  type Step,
} from './small-world.js';

// What sets a rule going and what ends it, in a world that is small enough to work it out by the words of the language.

const minute = 60_000;

/** The slots at which something happens, and the last. */
const slotsOf = (happened: readonly Step[]) => [...new Set([...happened.map(({ slot }) => slot), lastSlot])];

/** When an ask is due on a target by its words: the first finding, or the last act, that nothing has met or stopped. */
function wantedDue(rule: Drawn, happened: readonly Step[], target: Place, slot: number): number | undefined {
  const { applies, since } = appliesAt(rule, happened, slot);
  if (!applies) return undefined;
  const locks = happened.filter(
    ({ what, on, slot: at }) => what === 'lock' && at <= slot && (target === 'line' || on === target),
  );
  const isFinding = ({ step }: { readonly step: Step }) => !['treated', 'drawn'].includes(step.what);
  const all = begun(rule, happened, target, slot).sort((a, b) => a.step.slot - b.step.slot);
  const lastAct = all.filter((one) => !isFinding(one)).at(-1);
  const open = [...all.filter(isFinding), ...(lastAct ? [lastAct] : [])].filter(
    ({ step, stopped }) => stopped === Infinity && !locks.some((lock) => lock.slot >= step.slot),
  );
  if (open.length === 0) return undefined;
  const first = Math.min(...open.map(({ step }) => msOf(step.slot)));
  const due = first + (rule.afterMinutes ?? 0) * minute;
  return since < 0 ? due : Math.max(due, msOf(since));
}

describe('an ask that something sets going', () => {
  it('is due as its words say, at every moment and on every part of the line', () => {
    let open = 0;
    fc.assert(
      fc.property(steps, drawnRule('ask'), (happened, rule) => {
        for (const slot of slotsOf(happened)) {
          const care = careAt(happened, [ruleFor(rule)], msOf(slot));
          for (const target of targetsFor(rule.scopes)) {
            const wanted = wantedDue(rule, happened, target, slot);
            expect(dueOn(care, target), `${target} at ${slot}`).toBe(wanted);
            if (wanted !== undefined) open += 1;
          }
        }
      }),
      runs(5),
    );
    expect(open).toBeGreaterThan(300);
  });
});

describe('a ban that something sets going', () => {
  it('begins with its trigger, never before, and ends at the first moment at which its stop holds, or when it has lasted', () => {
    let inForce = 0;
    let stopped = 0;
    fc.assert(
      fc.property(steps, drawnRule('forbid'), (happened, rule) => {
        const lastsMs = (rule.lastsMinutes ?? Infinity) * minute;
        for (const ms of slotsOf(happened).flatMap((slot) => [msOf(slot), msOf(slot) + 7 * minute])) {
          const slot = Math.floor((ms - msOf(0)) / (15 * minute));
          const care = careAt(happened, [ruleFor(rule)], ms);
          const { applies } = appliesAt(rule, happened, slot);
          for (const target of targetsFor(rule.scopes)) {
            const all = begun(rule, happened, target, slot);
            const wanted = all.filter(
              (one) => applies && ms < Math.min(msOf(one.stopped), msOf(one.step.slot) + lastsMs),
            );
            const holds = holdsOn(care, target);
            expect(holds.length > 0, `${target} at ${ms}`).toBe(wanted.length > 0);
            const began = all.map(({ step }) => msOf(step.slot));
            for (const { from, until } of holds) {
              expect(began).toContain(Date.parse(from));
              if (rule.lastsMinutes === undefined) expect(until).toBeUndefined();
              else expect(Date.parse(until!)).toBeGreaterThan(ms);
            }
            inForce += wanted.length;
            stopped += all.filter((one) => one.stopped !== Infinity).length;
          }
        }
      }),
      runs(5),
    );
    expect(inForce).toBeGreaterThan(1000);
    expect(stopped).toBeGreaterThan(200);
  });
});

describe('a rule without a trigger', () => {
  const whileGauze = { begins: { kind: 'while' }, activity: 'lock', scopes: ['lumen'] } as const;
  const text = { when: "%line.dressing = 'gauze-dressing'" };
  const reading = fc.constantFrom('protective' as const, 'default' as const);

  it('asks since its condition became true, until it is done from then on, and forbids for as long as it is true', () => {
    fc.assert(
      fc.property(steps, reading, (happened, whenUnknown) => {
        const ask = ruleOf('ask', { ...whileGauze, whenUnknown }, text);
        const ban = ruleOf('ban', { ...whileGauze, whenUnknown, effect: 'forbid', activity: 'flush' }, text);
        for (const slot of slotsOf(happened)) {
          const care = careAt(happened, [ask, ban], msOf(slot));
          const { applies, since } = appliesAt({ whileGauze: true, whenUnknown }, happened, slot);
          const sinceMs = since < 0 ? insertedMs : msOf(since);
          for (const target of ['a', 'b'] as const) {
            const done = happened.some(
              ({ what, on, slot: at }) =>
                what === 'lock' && on === target && at <= slot && msOf(at) >= sinceMs,
            );
            expect(dueOn(care, target)).toBe(applies && !done ? sinceMs : undefined);
            expect(holdsOn(care, target).map(({ from, until }) => [Date.parse(from), until])).toEqual(
              applies ? [[sinceMs, undefined]] : [],
            );
          }
        }
      }),
      runs(2),
    );
  });
});

describe('a rule with several triggers', () => {
  /** What a rule asks for and forbids, by target. */
  const answers = (care: LineCare, target: Place) => ({
    due: dueOn(care, target),
    isHeld: holdsOn(care, target).length > 0,
  });

  it('is what as many rules with one trigger each are together', () => {
    // Of several acts the last counts, whichever it is: a rule with two of them is not the same as two.
    const ask = drawnRule('ask').filter(({ by }) => !(by.includes('treated') && by.includes('drawn')));
    fc.assert(
      fc.property(steps, fc.oneof(ask, drawnRule('forbid')), (happened, rule) => {
        const parts = rule.by.map((one) => ruleFor({ ...rule, by: [one] }, `drawn-by-${one}`));
        for (const slot of slotsOf(happened)) {
          const whole = careAt(happened, [ruleFor(rule)], msOf(slot));
          const apart = careAt(happened, parts, msOf(slot));
          for (const target of targetsFor(rule.scopes))
            expect(answers(whole, target)).toEqual(answers(apart, target));
        }
      }),
      runs(2),
    );
  });
});

describe('what has ended', () => {
  const setsGoing = ({ by }: Drawn, { what }: Step) => (by as readonly Step['what'][]).includes(what);

  it('does not come back by what is found, done or withdrawn later, unless it is set going anew', () => {
    let ended = 0;
    fc.assert(
      fc.property(
        steps,
        fc.oneof(drawnRule('ask'), drawnRule('forbid')),
        fc.nat(lastSlot - 1),
        fc.nat(),
        (happened, drawn, slot, bits) => {
          // A condition that it applies under may become true again; how long a ban lasts is no end by itself.
          const rule: Drawn = { ...drawn, whileGauze: false, lastsMinutes: undefined };
          const before = happened.filter((one) => one.slot <= slot);
          const after = happened
            .filter((one) => one.slot > slot && !setsGoing(rule, one))
            .map((one, i) => ({ ...one, withdrawn: ((bits >> i) & 1) === 1 }));
          const then = careAt(before, [ruleFor(rule)], msOf(slot));
          for (const target of targetsFor(rule.scopes)) {
            if (dueOn(then, target) !== undefined || holdsOn(then, target).length > 0) continue;
            if (begun(rule, before, target, slot).length > 0) ended += 1;
            for (const later of slotsOf(happened).filter((one) => one > slot)) {
              const care = careAt([...before, ...after], [ruleFor(rule)], msOf(later));
              expect(dueOn(care, target), `${target} at ${later}`).toBeUndefined();
              expect(holdsOn(care, target), `${target} at ${later}`).toEqual([]);
            }
          }
        },
      ),
      runs(5),
    );
    expect(ended).toBeGreaterThan(10);
  });
});

describe('a rule of both line and lumen', () => {
  it('concerns the part that was named: one finding is behind one item, and one hold', () => {
    let ofBoth = 0;
    fc.assert(
      fc.property(
        steps,
        fc.oneof(drawnRule('ask'), drawnRule('forbid')).map((rule): Drawn => ({
          ...rule,
          scopes: ['line', 'lumen'],
          start: undefined,
          whileGauze: false,
        })),
        (happened, rule) => {
          const { items, holds } = careAt(happened, [ruleFor(rule)], msOf(lastSlot));
          const refs = items.flatMap(({ movedBy }) => movedBy);
          expect(new Set(refs).size).toBe(refs.length);
          const causes = holds.map(({ because }) => because);
          expect(new Set(causes).size).toBe(causes.length);
          const scopes = new Set([...items, ...holds].map(({ target }) => target.scope));
          if (scopes.size > 1) ofBoth += 1;
        },
      ),
      runs(3),
    );
    expect(ofBoth).toBeGreaterThan(5);
  });

  it('has one item where the line has one lumen only', () => {
    const asked = ruleOf('both', {
      activity: 'clamp-position-change',
      scopes: ['line', 'lumen'],
      begins: triggered([found('damage'), found('blood-return', 'sluggish', 'none'), done('insertion')]),
    });
    const forbidden = { ...asked, id: 'both-forbid', effect: 'forbid' as const, activity: 'flush' as const };
    let single = 0;
    fc.assert(
      fc.property(units, (unit) => {
        const policy = { ...bundledPolicy(), rules: [asked, forbidden] };
        for (const line of readRecords(entriesOf(unit.resources)).lines) {
          if (line.lumens.length !== 1) continue;
          const care = dueCare(line, policy, whenOf(unit));
          const { holds } = care;
          // A patient’s own orders stand beside it.
          const items = care.items.filter((item) => item.rule.id === asked.id);
          expect(items.map(({ target }) => target.scope)).toEqual(items.length > 0 ? ['lumen'] : []);
          expect(new Set(holds.map(({ target }) => target.scope))).toEqual(
            new Set(holds.length > 0 ? ['line'] : []),
          );
          single += items.length;
        }
      }),
      runs(),
    );
    expect(single).toBeGreaterThan(5);
  });
});

describe('what a start condition decided', () => {
  const rule = fc
    .record({
      scopes: fc.constantFrom<Rule['scopes']>(['line'], ['lumen'], ['exit-site'], ['line', 'lumen']),
      by: fc.subarray(
        [
          found('dressing-condition', 'damp', 'loosened', 'soiled'),
          found('connector-condition'),
          found('blood-return', 'sluggish', 'none'),
          found('flush-resistance'),
          done('flush'),
          done('dressing-change'),
          done('insertion'),
        ],
        { minLength: 1 },
      ),
      whenUnknown: fc.constantFrom('protective' as const, 'default' as const),
      startsIf: fc.constantFrom(
        "%labs.anc < 0.5 '10*9/L'",
        "%labs.anc >= 0.5 '10*9/L'",
        "%latest.bodyTemperature >= 38 'Cel'",
        "%latest.bodyTemperature < 38 'Cel'",
        '%last.tipConfirmation.empty()',
        '%last.tipConfirmation.exists()',
        '%found.damage.empty()',
      ),
    })
    .map(({ scopes, by, whenUnknown, startsIf }) =>
      ruleOf('started', { activity: 'teaching', scopes, begins: triggered(by), whenUnknown }, { startsIf }),
    );

  it('stands: no later result, finding or act undoes it, or makes up for it', () => {
    let stood = 0;
    fc.assert(
      fc.property(units, rule, fc.boolean(), (unit, started, high) => {
        const policy = { ...bundledPolicy(), rules: [started] };
        const at = instantText(unit.asOfMs);
        const line = unit.resources.find(({ resourceType }) => resourceType === 'Device')!;
        const subject = { reference: 'Patient/p0' };
        const observed = { resourceType: 'Observation', status: 'final', subject, effectiveDateTime: at };
        const added: Resource[] = [
          {
            ...observed,
            id: 'zz-count',
            code: { coding: [{ system: 'http://loinc.org', code: '751-8' }] },
            valueQuantity: { value: high ? 4 : 0.01, unit: '10*9/L' },
          },
          {
            ...observed,
            id: 'zz-warm',
            code: { coding: [{ system: codeSystem.lineFinding, code: 'body-temperature' }] },
            valueQuantity: { value: high ? 39.5 : 36.5, unit: 'Cel' },
          },
          {
            ...observed,
            id: 'zz-leak',
            code: { coding: [{ system: codeSystem.lineFinding, code: 'damage' }] },
            focus: [{ reference: `Device/${line.id ?? ''}` }],
            valueCodeableConcept: { coding: [{ code: 'leak' }] },
          },
          {
            resourceType: 'Procedure',
            id: 'zz-tip',
            status: 'completed',
            code: { coding: [{ system: codeSystem.lineCareActivity, code: 'tip-confirmation' }] },
            subject,
            performedDateTime: at,
            focalDevice: [{ manipulated: { reference: `Device/${line.id ?? ''}` } }],
          },
        ];
        // What is set going at that very moment is judged with what is known then.
        const earlier = (cares: readonly LineCare[]) =>
          cares
            .flatMap(({ items }) => items)
            .filter((item) => item.rule.id === started.id && inMs(item.countedFrom.at!) < unit.asOfMs)
            .map((item) => [keyOf(item), item.id, item.dueBy, item.countedFrom.ref]);
        const before = earlier(careOf(unit.resources, policy, unit));
        expect(earlier(careOf([...unit.resources, ...added], policy, unit))).toEqual(before);
        stood += before.length;
      }),
      runs(3),
    );
    expect(stood).toBeGreaterThan(50);
  });
});
