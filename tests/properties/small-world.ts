import { dueCare, readRecords, type LineCare } from '@dwellward/core';
import type { Policy, Rule } from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import fc from 'fast-check';
import { concept, instantText, type Resource } from './resources.js';
import { hours, ruleOf, type Texts } from './policies.js';

/*
 * A line with two lumens, and what was found and done on it, each at a quarter of an hour: small enough to work out by
 * hand, from the words of the policy language alone, what a rule asks for and forbids.
 */

export const targets = ['line', 'a', 'b'] as const;
export type Place = (typeof targets)[number];

const findings = {
  blocked: ['flush-resistance', 'blocked'],
  flows: ['flush-resistance', 'none'],
  brisk: ['blood-return', 'brisk'],
  bloodless: ['blood-return', 'none'],
  leak: ['damage', 'leak'],
} as const;
const acts = {
  lock: 'lock',
  treated: 'occlusion-treatment',
  drawn: 'blood-sampling',
  repaired: 'repair',
  gauze: 'dressing-change',
  clear: 'dressing-change',
} as const;

export type Found = keyof typeof findings;
export type Act = keyof typeof acts;

/** Something found or done, so many quarters of an hour after the beginning. */
export interface Step {
  readonly slot: number;
  readonly what: Found | Act;
  readonly on: Place;
  /** Charted, and then taken back as an error. */
  readonly withdrawn?: boolean;
}

export const slotMs = 15 * 60_000;
const beganMs = Date.parse('2026-11-25T06:00:00Z');
export const lastSlot = 11;
export const insertedMs = beganMs - 48 * 3_600_000;
export const msOf = (slot: number) => beganMs + slot * slotMs;

const isFound = (what: Step['what']): what is Found => Object.hasOwn(findings, what);
const dresses = ({ what }: Pick<Step, 'what'>) => what === 'gauze' || what === 'clear';

// What is damaged and repaired is a lumen, and a dressing is the line’s: which damage a repair of the line answers, and
// which of two dressings of one moment lies on, have tests of their own.
const placesOf = (what: Step['what']): readonly Place[] =>
  what === 'leak' || what === 'repaired' ? ['a', 'b'] : dresses({ what }) ? ['line'] : targets;

export const step: fc.Arbitrary<Step> = fc
  .record({
    slot: fc.nat(lastSlot),
    what: fc.constantFrom(...(Object.keys({ ...findings, ...acts }) as Step['what'][])),
  })
  .chain(({ slot, what }) =>
    // The more on one of them, the more has to do with each other.
    fc
      .oneof(
        { weight: 2, arbitrary: fc.constantFrom(...placesOf(what)) },
        { weight: 3, arbitrary: fc.constant(dresses({ what }) ? ('line' as const) : ('a' as const)) },
      )
      .map((on) => ({ slot, what, on })),
  );

/** Steps of which no two are the same thing at one moment. */
export const steps = fc.uniqueArray(step, {
  minLength: 5,
  maxLength: 14,
  size: 'large',
  selector: (one) => `${one.slot} ${one.on} ${dresses(one) ? 'dressing' : one.what}`,
});

function charted({ slot, what, on, withdrawn }: Step): Resource {
  const [subject, device] = [{ reference: 'Patient/p' }, { reference: `Device/${on}` }];
  const id = `${what}-${slot}-${on}`;
  const at = instantText(msOf(slot));
  if (isFound(what)) {
    const [finding, value] = findings[what];
    return {
      resourceType: 'Observation',
      id,
      status: withdrawn ? 'entered-in-error' : 'final',
      code: concept(codeSystem.lineFinding, finding),
      subject,
      focus: [device],
      effectiveDateTime: at,
      valueCodeableConcept: concept(codeSystem.lineFinding, value),
    };
  }
  const dressing =
    what === 'gauze' ? 'gauze-dressing' : what === 'clear' ? 'transparent-dressing' : undefined;
  return {
    resourceType: 'Procedure',
    id,
    status: withdrawn ? 'entered-in-error' : 'completed',
    code: concept(codeSystem.lineCareActivity, acts[what]),
    subject,
    performedDateTime: at,
    focalDevice: [{ manipulated: device }],
    ...(dressing ? { usedCode: [concept(codeSystem.dressingType, dressing)] } : {}),
  };
}

const device = (id: string, type: string, more: object): Resource => ({
  resourceType: 'Device',
  id,
  status: 'active',
  type: concept(codeSystem.lineType, type),
  ...more,
});
const world: readonly Resource[] = [
  device('line', 'picc', { patient: { reference: 'Patient/p' } }),
  ...['a', 'b'].map((id) => device(id, 'lumen', { parent: { reference: 'Device/line' } })),
  {
    resourceType: 'Procedure',
    id: 'inserted',
    status: 'completed',
    code: concept(codeSystem.lineCareActivity, 'insertion'),
    subject: { reference: 'Patient/p' },
    performedDateTime: instantText(insertedMs),
    focalDevice: [{ manipulated: { reference: 'Device/line' } }],
  },
];

/** What the product makes of it at a moment. */
export function careAt(happened: readonly Step[], rules: readonly Rule[], ms: number): LineCare {
  const records = readRecords([...world, ...happened.map(charted)].map((resource) => ({ resource })));
  const policy: Policy = { layers: [], rules, labStaleAfter: { value: 7, unit: 'd' } };
  return dueCare(records.lines[0]!, policy, { asOf: instantText(ms), zone: 'UTC' });
}

/** When what is asked for on a target is due; undefined where nothing is. */
export function dueOn({ items }: LineCare, target: Place): number | undefined {
  const item = items.find((one) => one.target.ref === `Device/${target}`);
  return item && Date.parse(item.dueBy);
}

export const holdsOn = ({ holds }: LineCare, target: Place) =>
  holds.filter((one) => one.target.ref === `Device/${target}`);

/** What a stop condition asks for: something found or done since the rule began, from it on or only later. */
type Atom =
  | { readonly since: 'brisk' | 'flows' | 'treated' | 'drawn'; readonly strictly: boolean }
  | 'answered'
  | 'clear';

/** A rule by the parts of the language; every combination means something. */
export interface Drawn {
  readonly effect: Rule['effect'];
  readonly scopes: Rule['scopes'];
  readonly by: readonly ('blocked' | 'bloodless' | 'leak' | 'treated' | 'drawn')[];
  readonly afterMinutes?: number | undefined;
  readonly start?: 'treated' | 'long-after' | undefined;
  readonly stop?: { readonly join: 'or' | 'and'; readonly atoms: readonly Atom[] } | undefined;
  readonly lastsMinutes?: number | undefined;
  readonly whileGauze: boolean;
  readonly whenUnknown: Rule['whenUnknown'];
}

const names = {
  brisk: '%found.bloodReturn.brisk',
  flows: '%found.flushResistance.none',
  treated: '%last.occlusionTreatment',
  drawn: '%last.bloodSampling',
} as const;

function textOf(atom: Atom): string {
  if (atom === 'answered') return '%answered.exists()';
  if (atom === 'clear') return "%line.dressing = 'transparent-dressing'";
  return `${names[atom.since]} ${atom.strictly ? '>' : '>='} %began`;
}

/** How long after the last treatment `long-after` is. */
const longMinutes = 60;

/** The same rule for the product. What is asked for is a lock, what is forbidden an infusion. */
export function ruleFor(
  { by, stop, start, afterMinutes, lastsMinutes, ...drawn }: Drawn,
  id = 'drawn',
): Rule {
  const { effect, scopes, whileGauze, whenUnknown } = drawn;
  const texts: Texts = {
    when: whileGauze ? "%line.dressing = 'gauze-dressing'" : undefined,
    startsIf:
      start === 'treated'
        ? '%last.occlusionTreatment.exists()'
        : start === 'long-after'
          ? `%began >= %last.occlusionTreatment + ${longMinutes} minutes`
          : undefined,
    stopsIf: stop?.atoms.map(textOf).join(` ${stop.join} `),
  };
  const after = afterMinutes === undefined ? {} : { after: { value: afterMinutes, unit: 'min' as const } };
  return ruleOf(
    id,
    {
      effect,
      scopes,
      whenUnknown,
      activity: effect === 'ask' ? 'lock' : 'infusion-start',
      lead: hours(0),
      ...(lastsMinutes === undefined ? {} : { lasts: { value: lastsMinutes, unit: 'min' } }),
      begins: {
        kind: 'triggered',
        by: by.map((what) =>
          isFound(what)
            ? { kind: 'finding', finding: findings[what][0], values: [findings[what][1]] }
            : { kind: 'event', activity: acts[what] },
        ),
        ...after,
      },
    },
    texts,
  );
}

const atom: fc.Arbitrary<Atom> = fc.oneof(
  fc.record({
    since: fc.constantFrom('brisk' as const, 'flows' as const, 'treated' as const, 'drawn' as const),
    strictly: fc.boolean(),
  }),
  fc.constantFrom('answered' as const, 'clear' as const),
);
const scopes = fc.constantFrom<Rule['scopes']>(['lumen'], ['line'], ['line', 'lumen']);
const optional = <Value>(arbitrary: fc.Arbitrary<Value>) => fc.option(arbitrary, { nil: undefined, freq: 2 });

/** A rule that something sets going. */
export const drawnRule = (effect: Rule['effect']): fc.Arbitrary<Drawn> =>
  fc.record({
    effect: fc.constant(effect),
    scopes,
    by: fc.subarray(['blocked', 'bloodless', 'leak', 'treated', 'drawn'] as const, { minLength: 1 }),
    afterMinutes: effect === 'ask' ? optional(fc.constantFrom(20, 50)) : fc.constant(undefined),
    start: optional(fc.constantFrom('treated' as const, 'long-after' as const)),
    stop: optional(
      fc.record({
        join: fc.constantFrom('or' as const, 'and' as const),
        atoms: fc.array(atom, { minLength: 1, maxLength: 2 }),
      }),
    ),
    lastsMinutes: effect === 'ask' ? fc.constant(undefined) : optional(fc.constantFrom(20, 100)),
    whileGauze: fc.boolean(),
    whenUnknown: fc.constantFrom('protective' as const, 'default' as const),
  });

// From here on: what a rule means, worked out anew.

/** What was done to a lumen was done to its line; what names no lumen was done to none of the two. */
const isOn = ({ on }: Step, target: Place) => target === 'line' || on === target;

const upTo = (happened: readonly Step[], slot: number) => happened.filter((one) => one.slot <= slot);

function isTrue(of: Atom, happened: readonly Step[], begun: Step, target: Place, slot: number): boolean {
  const known = upTo(happened, slot);
  if (of === 'answered')
    return (
      begun.what === 'leak' &&
      known.some(({ what, on, slot: at }) => what === 'repaired' && on === begun.on && at >= begun.slot)
    );
  if (of === 'clear') return dressingAt(known, slot) === 'clear';
  return known.some(
    (one) =>
      one.what === of.since &&
      isOn(one, target) &&
      (of.strictly ? one.slot > begun.slot : one.slot >= begun.slot),
  );
}

function dressingAt(happened: readonly Step[], slot: number): Step['what'] | undefined {
  const [last] = upTo(happened, slot)
    .filter(dresses)
    .sort((a, b) => b.slot - a.slot);
  return last?.what;
}

/** Whether a rule applies at a moment, and the slot since which it has without a break; -1 where it always has. */
export function appliesAt(
  { whileGauze, whenUnknown }: Pick<Drawn, 'whileGauze' | 'whenUnknown'>,
  happened: readonly Step[],
  slot: number,
): { readonly applies: boolean; readonly since: number } {
  if (!whileGauze) return { applies: true, since: -1 };
  const at = (when: number) => {
    const dressing = dressingAt(happened, when);
    return dressing === undefined ? whenUnknown === 'protective' : dressing === 'gauze';
  };
  let since = slot;
  // Slot -1 is before anything.
  while (since >= -1 && at(since)) since -= 1;
  return { applies: at(slot), since: since < -1 ? -1 : since + 1 };
}

/** What set the rule going on a target, each with the slot at which it was stopped; Infinity while it is not. */
export function begun(rule: Drawn, happened: readonly Step[], target: Place, slot: number) {
  const known = upTo(happened, slot);
  const ofBoth = rule.scopes.length > 1;
  return known
    .filter((one) => (rule.by as readonly Step['what'][]).includes(one.what) && isOn(one, target))
    .filter((one) => !ofBoth || target !== 'line' || one.on === 'line')
    .filter((one) => {
      const treatments = known.filter(
        ({ what, slot: at, ...rest }) =>
          what === 'treated' && at <= one.slot && isOn({ what, slot: at, ...rest }, target),
      );
      if (rule.start === undefined) return true;
      if (rule.start === 'treated') return treatments.length > 0;
      if (treatments.length === 0) return rule.whenUnknown === 'protective';
      const last = Math.max(...treatments.map((treatment) => treatment.slot));
      return msOf(one.slot) - msOf(last) >= longMinutes * 60_000;
    })
    .map((one) => {
      const { stop } = rule;
      const moments = [one, ...known].map((other) => other.slot).filter((at) => at >= one.slot);
      const stopped = moments
        .sort((a, b) => a - b)
        .find((at) => {
          const truths = stop?.atoms.map((of) => isTrue(of, known, one, target, at)) ?? [false];
          return stop?.join === 'and' ? truths.every(Boolean) : truths.some(Boolean);
        });
      return { step: one, stopped: stopped ?? Infinity };
    });
}

/** The targets of a rule of these scopes. */
export const targetsFor = (of: Rule['scopes']): readonly Place[] =>
  targets.filter((target) => of.includes(target === 'line' ? 'line' : 'lumen'));
