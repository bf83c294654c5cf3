import type { Decimal } from 'decimal.js';
import type { Condition, ConditionKind, Truth } from './condition.js';
import { checkTree, type Checked } from './condition-check.js';
import { closureOf } from './condition-closures.js';
import { endsOf } from './condition-ends.js';
import { onEngine } from './condition-engine.js';
import { timeTrials } from './condition-times.js';
import {
  knownOf,
  trials,
  type Answer,
  type Decide,
  type ExactValue,
  type Known,
} from './condition-values.js';
import {
  expanded,
  noNames,
  notFhirPath,
  parsed,
  plainCure,
  type ConditionFault,
  type NamedTexts,
} from './expression.js';
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

// Values to try when several facts are only known between limits; beyond it the answer is unknown.
const mostTrials = 2_000;

/** The condition of a rule that states none. */
export const always: Condition = {
  text: '',
  meaning: '',
  uses: [],
  via: 'closure',
  evaluate: () => ({ is: 'true' }),
};

/** What a condition is for, and the names that it may use for expressions of its plan. */
export interface ConditionOptions {
  /** `applicability` where absent. `%began` is a fact of start and stop conditions only, `%answered` of stop alone. */
  readonly kind?: ConditionKind;
  /** Expressions by name, each with what it names written out in it. */
  readonly named?: NamedTexts;
}

/**
 * Compiles FHIRPath conditions over the facts, joined by `and`; always true where there are none.
 *
 * Common shapes (comparison of a fact with a literal, of two times, `in`, `and`, `or`, `xor`, `implies`, `not()`,
 * `exists()`, `empty()`) become closures; everything else runs on the reference engine. Limits are converted once to the
 * unit of their fact. A fact that is absent is unknown; a quantity or a time between limits decides only where its whole
 * range agrees.
 *
 * Problems: text that is not FHIRPath, facts, values and units that do not exist (with the nearest that does), parts
 * that read a clock or a server. Never throws.
 * @example
 * ```ts
 * compileCondition(['%patient.ageDays < 28']).ok; // true
 * compileCondition(['%patient.shoeSize < 28']).ok; // false
 * ```
 */
export function compileCondition(
  expressions: readonly string[],
  options: ConditionOptions = {},
): ConditionReading {
  return compile(expressions, 'fastest', options);
}

/** `compileCondition`, with the choice to run on the reference engine what a closure could decide. */
export function compile(
  expressions: readonly string[],
  way: 'fastest' | 'engine',
  { kind = 'applicability', named = noNames }: ConditionOptions = {},
): ConditionReading {
  if (expressions.length === 0) return { ok: true, condition: always };
  const problems: ConditionProblem[] = [];
  const parts = expressions.flatMap((text, expression) => {
    const read = readExpression(text, kind, named);
    if (read.ok) return [read];
    problems.push(...read.faults.map((fault) => problem(expression, fault)));
    return [];
  });
  if (problems.length > 0) return { ok: false, problems };
  const deciders: Decide[] = [];
  let via: 'closure' | 'engine' = 'closure';
  parts.forEach(({ meaning, tree, checked }, expression) => {
    const closure = way === 'engine' ? undefined : closureOf(tree);
    if (closure !== undefined) {
      deciders.push(closure);
      return;
    }
    via = 'engine';
    const engine = onEngine(meaning, checked.thresholds, checked.uses);
    if (engine.ok) deciders.push(engine.decide);
    else {
      const message = `The condition can’t be evaluated: ${engine.message}`;
      problems.push(problem(expression, { code: 'not-evaluable', message, cure: plainCure }));
    }
  });
  if (problems.length > 0) return { ok: false, problems };
  const uses = [...new Set(parts.flatMap(({ checked }) => checked.uses))].sort();
  const ends = kind === 'stop' && parts.length === 1 && parts[0] ? endsOf(parts[0].tree) : undefined;
  const all = parts.map(({ checked }) => checked);
  const condition: Condition = {
    text: joined(parts.map(({ text }) => text)),
    meaning: joined(parts.map(({ meaning }) => meaning)),
    uses,
    via,
    ...(ends === undefined ? {} : { ends }),
    evaluate: evaluator(deciders, uses, all),
  };
  return { ok: true, condition };
}

function joined(texts: readonly string[]): string {
  return texts.length === 1 ? (texts[0] ?? '') : texts.map((text) => `(${text})`).join(' and ');
}

function problem(expression: number, fault: ConditionFault): ConditionProblem {
  return { ...fault, expression, message: sentence(fault.message, 'the condition') };
}

type Expression =
  | {
      readonly ok: true;
      readonly text: string;
      readonly meaning: string;
      readonly tree: Tree;
      readonly checked: Checked;
    }
  | { readonly ok: false; readonly faults: readonly ConditionFault[] };

function readExpression(given: string, kind: ConditionKind, named: NamedTexts): Expression {
  const read = parsed(given);
  if (!read.ok) return read;
  const { text, tree: written } = read;
  const meaning = expanded(text, written, named);
  try {
    const tree = meaning === text ? written : strip(parse(meaning));
    const checked = checkTree(tree, kind, [...named.keys()]);
    return checked.faults.length > 0
      ? { ok: false, faults: checked.faults }
      : { ok: true, text, meaning, tree, checked };
  } catch (error) {
    return { ok: false, faults: [notFhirPath(error)] };
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
  const links = parts.flatMap((part) => part.links);
  const thresholds = new Map<FactName, Decimal[]>();
  for (const { fact, value } of parts.flatMap((part) => part.thresholds)) {
    if (fact !== undefined) thresholds.set(fact, [...(thresholds.get(fact) ?? []), value]);
  }
  return (facts: Facts): Truth => {
    const known = knownOf(facts, uses);
    const { exact, between, timesBetween } = known;
    if (between.length === 0 && timesBetween.length === 0) return truthOf(decide(exact));
    const ranged = [...between, ...timesBetween].map(({ fact }) => fact);
    if (ranged.some((fact) => opaque.has(fact))) return truthOf(ranged);
    const values = valuesToTry(known, thresholds, links);
    if (values === undefined) return truthOf(ranged);
    let tries: Map<FactName, ExactValue>[] = [exact];
    for (const [fact, list] of values) {
      if (tries.length * list.length > mostTrials) return truthOf(ranged);
      tries = tries.flatMap((one) => list.map((value) => new Map(one).set(fact, value)));
    }
    return truthOf(agreed(tries.map(decide), ranged));
  };
}

/** Values to try for each fact that is only known between limits; undefined where they are too many. */
function valuesToTry(
  { exact, between, timesBetween }: Known,
  thresholds: ReadonlyMap<FactName, readonly Decimal[]>,
  links: Checked['links'],
): ReadonlyMap<FactName, readonly ExactValue[]> | undefined {
  const times = new Map(
    [...exact].flatMap(([fact, value]) => (typeof value === 'number' ? [[fact, value]] : [])),
  );
  const ofTimes = timesBetween.length === 0 ? new Map() : timeTrials(timesBetween, times, links, mostTrials);
  if (ofTimes === undefined) return undefined;
  return new Map<FactName, readonly ExactValue[]>([
    ...between.map((range) => [range.fact, trials(range, thresholds.get(range.fact) ?? [])] as const),
    ...ofTimes,
  ]);
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
