import type { LintCode } from './lint-codes.js';
import { edited, parse, Places, strip, variablesIn, type Tree } from './tree.js';

/** What is wrong with a condition, and what to do. */
export interface ConditionFault {
  readonly code: LintCode;
  readonly message: string;
  readonly cure: string;
}

/** Named expressions of a plan: the text of each, with what it names itself written out. */
export type NamedTexts = ReadonlyMap<string, string>;

/** Of a plan that names none. */
export const noNames: NamedTexts = new Map();

// No condition that a person can check is longer; the parser’s time grows faster than the text.
const longestExpression = 4_000;

/** Nor is one nested deeper; each level costs the parser more than the last. */
const deepestExpression = 50;

/** How a condition is to be written. */
export const plainCure =
  "Write a condition over the facts that is true or false, such as %line.dressing = 'gauze-dressing'.";

/** Text as FHIRPath, with its tree; or what is wrong with it. */
export function parsed(
  given: string,
):
  | { readonly ok: true; readonly text: string; readonly tree: Tree }
  | { readonly ok: false; readonly faults: readonly ConditionFault[] } {
  const text = given.trim();
  if (text === '') {
    const fault: ConditionFault = {
      code: 'empty-condition',
      message: 'The condition is empty',
      cure: plainCure,
    };
    return { ok: false, faults: [fault] };
  }
  if (text.length > longestExpression) {
    const message = `The condition has more than ${longestExpression} characters`;
    const cure = 'Split it over several conditions.';
    return { ok: false, faults: [{ code: 'long-condition', message, cure }] };
  }
  if (depthOf(text) > deepestExpression) {
    const message = `The condition has more than ${deepestExpression} parentheses within each other`;
    const cure = 'Split it over several conditions, or give its parts names.';
    return { ok: false, faults: [{ code: 'deep-condition', message, cure }] };
  }
  try {
    return { ok: true, text, tree: strip(parse(text)) };
  } catch (error) {
    return { ok: false, faults: [notFhirPath(error)] };
  }
}

/** How many parentheses, brackets and braces stand within each other at most; those in quotes are text. */
function depthOf(text: string): number {
  let depth = 0;
  let most = 0;
  for (const [sign] of text.replaceAll(/'(?:[^'\\]|\\.)*'|`(?:[^`\\]|\\.)*`/gs, '').matchAll(/[()[\]{}]/g)) {
    depth += '([{'.includes(sign) ? 1 : -1;
    most = Math.max(most, depth);
  }
  return most;
}

/** That a text is not FHIRPath, with the parser’s reason. */
export function notFhirPath(error: unknown): ConditionFault {
  const reason =
    error instanceof Error
      ? (error.message.split('\n').pop() ?? '').replace(/ expecting \{.*$/s, '').slice(0, 160)
      : '';
  return { code: 'not-fhirpath', message: `The condition is not FHIRPath: ${reason}`, cure: plainCure };
}

/** The text with every named expression written out, in parentheses. */
export function expanded(text: string, tree: Tree, named: NamedTexts): string {
  if (named.size === 0) return text;
  const places = new Places(text);
  const edits = variablesIn(tree).flatMap(({ name, node }) => {
    const by = named.get(name);
    const stretch = by === undefined ? undefined : places.ofVariable(node);
    return by === undefined || stretch === undefined ? [] : [{ ...stretch, by: `(${by})` }];
  });
  return edited(text, edits);
}

/** The parts of a condition that are joined by `and`, each as text that is the same for the same part; sorted. */
export function conjuncts(text: string): readonly string[] {
  return partsOf(text, 'AndExpression', 'and');
}

/** The parts of a condition that are joined by `or`, each as text that is the same for the same part; sorted. */
export function disjuncts(text: string): readonly string[] {
  return partsOf(text, 'OrExpression', 'or');
}

// Every rule is held against every other, and the same conditions stand in many.
const partsByText = new Map<string, readonly string[]>();
const mostTexts = 1_000;

function partsOf(text: string, type: string, word: string): readonly string[] {
  if (text === '') return [];
  const key = `${word} ${text}`;
  const known = partsByText.get(key);
  if (known !== undefined) return known;
  const flat = (tree: Tree): readonly string[] => {
    const node = strip(tree);
    return node.type === type && node.text === word ? (node.children ?? []).flatMap(flat) : [sameText(node)];
  };
  const parts = [...flat(parse(text))].sort();
  if (partsByText.size >= mostTexts) partsByText.clear();
  partsByText.set(key, parts);
  return parts;
}

/** A tree as text without its places, blanks and parentheses. */
function sameText(tree: Tree): string {
  const { type, text, delimitedText, value, unit, children } = strip(tree);
  return JSON.stringify([type, text, delimitedText, value, unit, (children ?? []).map(sameText)]);
}
