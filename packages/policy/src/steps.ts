import type { LintCode } from './lint-codes.js';
import type { CalculatedName, Step, StepPart } from './model.js';
import { suggestion } from './nearest.js';
import { operandOf, parse, sides, strip, type Tree } from './tree.js';

/** Every `%calculated.NAME` that a step may name, with what stands for it in a policy that is only shown. */
export const calculatedNames: Readonly<Record<CalculatedName, string>> = {
  flushVolume: 'the flush volume',
  lockVolume: 'the lock volume',
  syringeSize: 'the least syringe size',
  thrombolyticDose: 'the dose',
  thrombolyticWithdrawal: 'the volume to withdraw',
  discardVolume: 'the discard volume',
  oldLockVolume: 'the volume of its old lock',
  lengthOnRecord: 'the length of the line',
  tubes: 'the tubes by the order of draw',
  infusingLumens:
    'What keeps up the circulation, or must not stop suddenly, is not stopped for a draw: draw from a vein.',
  idleLumens: 'the other lumens that are not infusing',
  whatRuns:
    'Stop what runs, but for what keeps up the circulation or must not stop suddenly: that is moved to another line first.',
};

/** A step, or why its expression is none. */
export type StepReading =
  | { readonly ok: true; readonly step: Step }
  | { readonly ok: false; readonly code: LintCode; readonly message: string; readonly cure: string };

const cure =
  "Write it as FHIRPath text in single quotes; join a computed value with &, such as 'Flush with ' & %calculated.flushVolume & '.'";

/**
 * Reads a step: a FHIRPath string, or strings and `%calculated.NAME` joined by `&`. A calculated value is text that
 * carries its unit, such as `6.4 mL`, or the words that say why it could not be worked out, so that a step never has a
 * gap; as text it is a string for any FHIRPath engine too.
 * @example
 * ```ts
 * readStep("'Flush with ' & %calculated.flushVolume & '.'").ok; // true
 * readStep("'Flush with ' & %calculated.shoeSize").ok; // false
 * ```
 */
export function readStep(expression: string): StepReading {
  let tree: Tree;
  try {
    tree = parse(expression);
  } catch {
    return { ok: false, code: 'not-fhirpath', message: 'The step is not FHIRPath', cure };
  }
  return partsOf(strip(tree), true);
}

function partsOf(node: Tree, whole: boolean): StepReading {
  const joined = node.type === 'AdditiveExpression' && node.text === '&' ? sides(node) : undefined;
  if (joined !== undefined) {
    const left = partsOf(strip(joined[0]), false);
    const right = partsOf(strip(joined[1]), false);
    if (!left.ok) return left;
    return right.ok ? { ok: true, step: [...left.step, ...right.step] } : right;
  }
  const operand = operandOf(node);
  if (operand.kind === 'string') {
    return whole && operand.value.trim() === ''
      ? { ok: false, code: 'bad-step', message: 'The step is empty', cure }
      : { ok: true, step: [operand.value] };
  }
  if (operand.kind === 'fact' && operand.group === 'calculated') {
    const names = Object.keys(calculatedNames) as CalculatedName[];
    const name = names.find((known) => known === operand.member);
    return name === undefined
      ? {
          ok: false,
          code: 'unknown-calculated',
          message: `%${operand.name} is not a calculated value`,
          cure: suggestion(
            operand.name,
            names.map((known) => `calculated.${known}`),
          ),
        }
      : { ok: true, step: [{ calculated: name }] };
  }
  return {
    ok: false,
    code: 'bad-step',
    message: 'The step is more than texts and calculated values joined by &',
    cure,
  };
}

/**
 * A step as a sentence; `textOf` gives each calculated value as text with its unit, or words in its place.
 * @example
 * ```ts
 * const reading = readStep("'Flush with ' & %calculated.flushVolume & '.'");
 * reading.ok && stepText(reading.step, () => '1.7 mL'); // 'Flush with 1.7 mL.'
 * ```
 */
export function stepText(
  step: Step,
  textOf: (name: CalculatedName) => string = (name) => `(${calculatedNames[name]})`,
): string {
  return step.map((part: StepPart) => (typeof part === 'string' ? part : textOf(part.calculated))).join('');
}
