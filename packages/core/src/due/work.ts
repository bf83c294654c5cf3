import type { CalculatedName, ComputedInput, Rule, Step, StepPart } from '@dwellward/policy';
import type { Lumen } from '../model/record.js';
import { calculatedPart, doseOf, flushOf, lockOf, said, syringeSize, type Amount } from './calculated.js';
import { heparinOfDay } from '../facts/heparin-of-day.js';
import { questionsOf, type Questions } from './questions.js';
import type { Target, WorkInput } from '../model/care.js';
import type { Sentence, StepPart as StepText, WorkText } from '../model/sentences.js';
import type { Timeline } from '../timeline/timeline.js';

/**
 * The work of an item: volumes and doses from the calculators with their cautions; steps, supplies and cautions from
 * the policy. Steps stay in their order, also where two are the same.
 */
export function workOf(
  rule: Pick<Rule, 'activity' | 'work'>,
  timeline: Timeline,
  target: Target,
): WorkInput[] {
  return inOrder([partsOf(rule, timeline, target)]);
}

/**
 * The work of all rules that ask for an activity on a target at once, none of it twice, the winner’s first; what another
 * rule adds says which. Cautions are those of every rule that applies: limits stand in them, whoever has it due. Steps,
 * with what they need, are those of the rules whose window is open by then: what one says for later is not done now.
 */
export function joinedWork(
  winner: Rule,
  others: readonly { readonly rule: Rule; readonly open: boolean }[],
  timeline: Timeline,
  target: Target,
): WorkInput[] {
  const parts = [partsOf(winner, timeline, target)];
  if (others.length === 0) return inOrder(parts);
  const known = new Set(parts.flatMap(inputsOf).map(keyOf));
  for (const { rule, open } of others) {
    const { steps, supplies, cautions } = partsOf(rule, timeline, target);
    const fresh = (inputs: readonly WorkInput[]) =>
      inputs
        .filter((one) => !known.has(keyOf(one)))
        .map((one) => ({ ...one, of: { id: rule.id, title: rule.title } }));
    const added = open ? fresh(steps) : [];
    const part: Parts = {
      computed: [],
      steps: added,
      supplies: added.length > 0 ? fresh(supplies) : [],
      cautions: fresh(cautions),
    };
    for (const one of inputsOf(part)) known.add(keyOf(one));
    parts.push(part);
  }
  return inOrder(parts);
}

interface Parts {
  /** Amounts, each with the cautions of its calculator. */
  readonly computed: readonly WorkInput[];
  readonly steps: readonly WorkInput[];
  readonly supplies: readonly WorkInput[];
  readonly cautions: readonly WorkInput[];
}

function inputsOf({ computed, steps, supplies, cautions }: Parts): readonly WorkInput[] {
  return [...computed, ...steps, ...supplies, ...cautions];
}

function inOrder(parts: readonly Parts[]): WorkInput[] {
  return distinct(
    (['computed', 'steps', 'supplies', 'cautions'] as const).flatMap((part) =>
      parts.flatMap((one) => one[part]),
    ),
  );
}

function partsOf(rule: Pick<Rule, 'activity' | 'work'>, timeline: Timeline, target: Target): Parts {
  const { line } = timeline;
  const withheld = questionsOf(rule, timeline);
  const lumen =
    line.lumens.find(({ ref }) => ref === target.ref) ??
    (line.lumens.length === 1 ? line.lumens[0] : undefined);
  return {
    computed: rule.work.computed.flatMap((kind) =>
      withheld.computed.has(kind) ? notBeforeAnswer(kind) : computedInputs(kind, timeline, lumen),
    ),
    steps: stepsOf(rule.work.steps ?? [], timeline, lumen, withheld),
    supplies:
      withheld.supplies.size === 0
        ? textsOf(rule.work).supplies
        : rule.work.supplies.filter((text) => !withheld.supplies.has(text)).map(supply),
    cautions: [...textsOf(rule.work).cautions, ...heparinCautions(rule, timeline)],
  };
}

type Texts = Pick<Parts, 'supplies' | 'cautions'>;

// What a rule says by itself is the same for every line.
const texts = new WeakMap<Rule['work'], Texts>();

function textsOf(work: Rule['work']): Texts {
  const known = texts.get(work);
  if (known !== undefined) return known;
  const made: Texts = {
    supplies: work.supplies.map(supply),
    cautions: work.cautions.map((text) => ({ kind: 'caution', text: own(text) })),
  };
  texts.set(work, made);
  return made;
}

function supply(text: string): WorkInput {
  return { kind: 'supply', text: own(text) };
}

/** With every lock: what a child had of heparin in the last 24 hours. */
function heparinCautions({ work }: Pick<Rule, 'work'>, timeline: Timeline): WorkInput[] {
  const heparin = work.computed.includes('lock-volume') ? heparinOfDay(timeline) : undefined;
  return heparin === undefined ? [] : [{ kind: 'caution', text: { code: 'heparin-of-day', ...heparin } }];
}

/** What the policy says itself. */
function own(text: string): WorkText {
  return { code: 'policy-text', text };
}

/** A step as a sentence; `partOf` says what stands in the place of each calculated value. */
export function stepOf(step: Step, partOf: (name: CalculatedName) => StepText | string): Sentence<'step'> {
  return {
    code: 'step',
    parts: step.map((part: StepPart) => (typeof part === 'string' ? part : partOf(part.calculated))),
  };
}

/**
 * The steps with what is worked out for them. With no dose they end where they first name it: how to give what nobody
 * can say how much of is no help, and an invitation to guess.
 */
function stepsOf(
  steps: readonly Step[],
  timeline: Timeline,
  lumen: Lumen | undefined,
  withheld: Questions,
): WorkInput[] {
  const dosed = steps.findIndex((step) =>
    step.some((part) => typeof part !== 'string' && part.calculated === 'thrombolyticDose'),
  );
  const dose =
    dosed < 0 ? undefined : withheld.computed.has('thrombolytic-dose') ? askFirst : doseOf(timeline, lumen);
  const possible = dose && !dose.ok ? steps.slice(0, dosed) : steps;
  return [
    ...possible.map((step) => stepOf(step, partFor(timeline, lumen, withheld))),
    ...(dose && !dose.ok ? [{ code: 'no-dose-no-further', reason: dose.reason } as const] : []),
  ].map((text): WorkInput => ({ kind: 'step', text }));
}

/** Stands for what is withheld until a question is answered. */
const askFirst = { ok: false, reason: { code: 'ask-first' } } as const;

/** What is worked out for the steps, but for what is withheld. */
export function partFor(
  timeline: Timeline,
  lumen: Lumen | undefined,
  withheld: Questions,
): (name: CalculatedName) => StepText {
  return (name) =>
    (name === 'lockVolume' && withheld.computed.has('lock-volume')) ||
    (name === 'thrombolyticDose' && withheld.computed.has('thrombolytic-dose'))
      ? said(askFirst, name === 'lockVolume' ? 'volume' : 'dose')
      : calculatedPart(name, timeline, lumen);
}

function notBeforeAnswer(kind: ComputedInput): WorkInput[] {
  return [{ kind: 'caution', text: { code: 'not-worked-out', what: kind, reason: askFirst.reason } }];
}

const kinds: Readonly<
  Record<
    ComputedInput,
    {
      readonly text: (amount: Amount & { readonly ok: true }) => WorkText;
      readonly of: (timeline: Timeline, lumen: Lumen | undefined) => Amount;
    }
  >
> = {
  'flush-volume': {
    text: ({ value }) => ({ code: 'flush-with', ml: value }),
    of: (_, lumen) => flushOf(lumen),
  },
  'lock-volume': {
    text: ({ value }) => ({ code: 'lock-with', ml: value }),
    of: ({ line }, lumen) => lockOf(lumen, line.type),
  },
  'syringe-size': {
    text: ({ value }) => ({ code: 'syringe-no-narrower-than', ml: value }),
    of: () => syringeSize(),
  },
  'thrombolytic-dose': {
    text: ({ value, inMl = '' }) => ({ code: 'alteplase-if-ordered', mg: value, ml: inMl }),
    of: doseOf,
  },
};

function computedInputs(kind: ComputedInput, timeline: Timeline, lumen: Lumen | undefined): WorkInput[] {
  const { text, of } = kinds[kind];
  const found = of(timeline, lumen);
  if (!found.ok)
    return [{ kind: 'caution', text: { code: 'not-worked-out', what: kind, reason: found.reason } }];
  return [
    { kind, text: text(found), value: found.value, unit: found.unit },
    ...found.cautions.map((caution): WorkInput => ({ kind: 'caution', text: caution })),
  ];
}

function distinct(inputs: readonly WorkInput[]): WorkInput[] {
  const seen = new Set<string>();
  return inputs.filter((one) => {
    if (one.kind === 'step') return true;
    const key = keyOf(one);
    return !seen.has(key) && seen.add(key);
  });
}

function keyOf({ kind, text }: Pick<WorkInput, 'kind' | 'text'>): string {
  // Most are the policy’s own texts, which need no writing out. No JSON begins as these do.
  return text.code === 'policy-text' ? `${kind} ${text.text}` : JSON.stringify([kind, text]);
}
