import { stepText, type ComputedInput, type Rule, type Step } from '@dwellward/policy';
import type { Lumen } from '../model/record.js';
import { calculatedText, doseOf, flushOf, lockOf, syringeSize, type Amount } from './calculated.js';
import type { Target, WorkInput } from '../model/care.js';
import type { Timeline } from '../timeline/timeline.js';

/**
 * The work of an item: volumes and doses from the calculators with their cautions; steps, supplies and cautions from
 * the policy. Steps stay in their order, also where two are the same.
 */
export function workOf(rule: Pick<Rule, 'work'>, timeline: Timeline, target: Target): WorkInput[] {
  const { line } = timeline;
  const lumen =
    line.lumens.find(({ ref }) => ref === target.ref) ??
    (line.lumens.length === 1 ? line.lumens[0] : undefined);
  const computed = rule.work.computed.flatMap((kind) => computedInputs(kind, timeline, lumen));
  const steps = stepsOf(rule.work.steps ?? [], timeline, lumen);
  const supplies = rule.work.supplies.map((text): WorkInput => ({ kind: 'supply', text }));
  const cautions = rule.work.cautions.map((text): WorkInput => ({ kind: 'caution', text }));
  return distinct([...computed, ...steps, ...supplies, ...cautions]);
}

/**
 * The steps with what is worked out for them. With no dose they end where they first name it: how to give what nobody
 * can say how much of is no help, and an invitation to guess.
 */
function stepsOf(steps: readonly Step[], timeline: Timeline, lumen: Lumen | undefined): WorkInput[] {
  const dosed = steps.findIndex((step) =>
    step.some((part) => typeof part !== 'string' && part.calculated === 'thrombolyticDose'),
  );
  const dose = dosed < 0 ? undefined : doseOf(timeline, lumen);
  const possible = dose && !dose.ok ? steps.slice(0, dosed) : steps;
  return [
    ...possible.map((step) => stepText(step, (name) => calculatedText(name, timeline, lumen))),
    ...(dose && !dose.ok ? [`No dose could be worked out: ${dose.reason} Go no further without one.`] : []),
  ].map((text): WorkInput => ({ kind: 'step', text }));
}

const kinds: Readonly<
  Record<
    ComputedInput,
    {
      readonly noun: string;
      readonly text: (amount: Amount & { readonly ok: true }) => string;
      readonly of: (timeline: Timeline, lumen: Lumen | undefined) => Amount;
    }
  >
> = {
  'flush-volume': {
    noun: 'Flush volume',
    text: ({ value }) => `Flush with at least ${value} mL`,
    of: (_, lumen) => flushOf(lumen),
  },
  'lock-volume': {
    noun: 'Lock volume',
    text: ({ value }) => `Lock with ${value} mL`,
    of: ({ line }, lumen) => lockOf(lumen, line.type),
  },
  'syringe-size': {
    noun: 'Syringe size',
    text: ({ value }) => `Barrel no narrower than that of a ${value} mL syringe`,
    of: () => syringeSize(),
  },
  'thrombolytic-dose': {
    noun: 'Dose of alteplase',
    text: ({ text }) => `Alteplase ${text}, if the prescriber orders it`,
    of: doseOf,
  },
};

function computedInputs(kind: ComputedInput, timeline: Timeline, lumen: Lumen | undefined): WorkInput[] {
  const { noun, text, of } = kinds[kind];
  const found = of(timeline, lumen);
  if (!found.ok) return [{ kind: 'caution', text: `${noun} not worked out: ${found.reason}` }];
  return [
    { kind, text: text(found), value: found.value, unit: found.unit },
    ...found.cautions.map((caution): WorkInput => ({ kind: 'caution', text: caution })),
  ];
}

function distinct(inputs: readonly WorkInput[]): WorkInput[] {
  const seen = new Set<string>();
  return inputs.filter(
    ({ kind, text }) =>
      kind === 'step' || (!seen.has(`${kind}\u0000${text}`) && seen.add(`${kind}\u0000${text}`)),
  );
}
