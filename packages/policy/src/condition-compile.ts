import type { Condition, Truth } from './condition.js';
import { checkTree, type Checked, type ConditionFault } from './condition-check.js';
import { closureOf } from './condition-closures.js';
import { onEngine } from './condition-engine.js';
import { knownOf, trials, type Answer, type Decide, type ExactValue } from './condition-values.js';
import type { FactName, Facts } from './facts.js';
import { sentence } from './sentence.js';
import { parse, strip, type Tree } from './tree.js';

/** What is wrong with one of the expressions of a condition. */
export interface ConditionProblem extends ConditionFault {
  /** Which of the expressions, from 0. */
  readonly expression: number;
}

/** A compiled condition, or everything that is wrong with it. */
export type ConditionReading =
  | { readonly ok: true; readonly condition: Condition }
  | { readonly ok: false; readonly problems: readonly ConditionProblem[] };

// No condition that a person can check is longer; the parser’s time grows faster than the text.
const longestExpression = 4_000;
// Values to try when several quantities are only known between limits; beyond it the answer is unknown.
const mostTrials = 2_000;

/** The condition of a rule that states none. */
export const always: Condition = { text: '', uses: [], via: 'closure', evaluate: () => ({ is: 'true' }) };

/**
 * Compiles FHIRPath conditions over the facts, joined by `and`; always true where there are none.
 *
 * Common shapes (comparison of a fact with a literal, `in`, `and`, `or`, `xor`, `implies`, `not()`, `exists()`,
 * `empty()`) become closures; everything else runs on the reference engine. Limits are converted once to the unit of
 * their fact. A fact that is absent is unknown; a quantity between limits decides only where its whole range agrees.
 *
 * Problems: text that is not FHIRPath, facts, values and units that do not exist (with the nearest that does), parts
 * that read a clock or a server. Never throws.
 */
export function compileCondition(expressions: readonly string[]): ConditionReading {
  return compile(expressions, 'fastest');
}

/** `compileCondition`, with the choice to run on the reference engine what a closure could decide. */
export function compile(expressions: readonly string[], way: 'fastest' | 'engine'): ConditionReading {
  if (expressions.length === 0) return { ok: true, condition: always };
  const problems: ConditionProblem[] = [];
  const parts = expressions.flatMap((text, expression) => {
    const read = readExpression(text);
    if (read.ok) return [read];
    problems.push(...read.faults.map(({ message, cure }) => problem(expression, message, cure)));
    return [];
  });
  if (problems.length > 0) return { ok: false, problems };
  const deciders: Decide[] = [];
  let via: 'closure' | 'engine' = 'closure';
  parts.forEach(({ text, tree, checked }, expression) => {
    const closure = way === 'engine' ? undefined : closureOf(tree);
    if (closure !== undefined) {
      deciders.push(closure);
      return;
    }
    via = 'engine';
    const engine = onEngine(text, checked.thresholds, checked.uses);
    if (engine.ok) deciders.push(engine.decide);
    else problems.push(problem(expression, `the condition can’t be evaluated: ${engine.message}`, plainCure));
  });
  if (problems.length > 0) return { ok: false, problems };
  const uses = [...new Set(parts.flatMap(({ checked }) => checked.uses))].sort();
  const text =
    parts.length === 1 ? (parts[0]?.text ?? '') : parts.map((part) => `(${part.text})`).join(' and ');
  const all = parts.map(({ checked }) => checked);
  return { ok: true, condition: { text, uses, via, evaluate: evaluator(deciders, uses, all) } };
}

const plainCure =
  "Write a condition over the facts that is true or false, such as %line.dressing = 'gauze-dressing'.";

function problem(expression: number, message: string, cure: string): ConditionProblem {
  return { expression, message: sentence(message, 'the condition'), cure };
}

type Expression =
  | { readonly ok: true; readonly text: string; readonly tree: Tree; readonly checked: Checked }
  | { readonly ok: false; readonly faults: readonly ConditionFault[] };

function readExpression(given: string): Expression {
  const text = given.trim();
  if (text === '' || text.length > longestExpression) {
    const message =
      text === '' ? 'the condition is empty' : `the condition has more than ${longestExpression} characters`;
    return {
      ok: false,
      faults: [{ message, cure: text === '' ? plainCure : 'Split it over several conditions.' }],
    };
  }
  try {
    const tree = strip(parse(text));
    const checked = checkTree(tree);
    return checked.faults.length > 0
      ? { ok: false, faults: checked.faults }
      : { ok: true, text, tree, checked };
  } catch (error) {
    const reason =
      error instanceof Error
        ? (error.message.split('\n').pop() ?? '').replace(/ expecting \{.*$/s, '').slice(0, 160)
        : '';
    return { ok: false, faults: [{ message: `the condition is not FHIRPath: ${reason}`, cure: plainCure }] };
  }
}

function evaluator(deciders: readonly Decide[], uses: readonly FactName[], parts: readonly Checked[]) {
  const decide: Decide = (values) => {
    let missing: readonly FactName[] | undefined;
    for (const part of deciders) {
      const answer = part(values);
      if (answer === false) return false;
      if (answer !== true) missing = [...(missing ?? []), ...answer];
    }
    return missing ?? true;
  };
  const opaque = new Set(parts.flatMap((part) => part.opaque));
  const thresholdsOf = (fact: FactName) =>
    parts.flatMap((part) =>
      part.thresholds.filter((threshold) => threshold.fact === fact).map(({ value }) => value),
    );
  return (facts: Facts): Truth => {
    const { exact, between } = knownOf(facts, uses);
    if (between.length === 0) return truthOf(decide(exact));
    const ranged = between.map(({ fact }) => fact);
    if (ranged.some((fact) => opaque.has(fact))) return truthOf(ranged);
    let tries: Map<FactName, ExactValue>[] = [exact];
    for (const range of between) {
      const values = trials(range, thresholdsOf(range.fact));
      if (tries.length * values.length > mostTrials) return truthOf(ranged);
      tries = tries.flatMap((known) => values.map((value) => new Map(known).set(range.fact, value)));
    }
    return truthOf(agreed(tries.map(decide), ranged));
  };
}

/** The answer on which all agree; else unknown for want of the exact values and of whatever else was missing. */
function agreed(answers: readonly Answer[], ranged: readonly FactName[]): Answer {
  const [first] = answers;
  if (typeof first === 'boolean' && answers.every((answer) => answer === first)) return first;
  const missing = answers.flatMap((answer) => (typeof answer === 'boolean' ? [] : answer));
  return answers.some((answer) => typeof answer === 'boolean') ? [...ranged, ...missing] : missing;
}

function truthOf(answer: Answer): Truth {
  if (typeof answer === 'boolean') return { is: answer ? 'true' : 'false' };
  return { is: 'unknown', missing: [...new Set(answer)].sort() };
}
