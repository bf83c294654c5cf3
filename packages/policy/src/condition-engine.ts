import { fhirPath } from '#outside';
import { Decimal } from 'decimal.js';
import { factKind, isFactName, type FactName } from './facts.js';
import type { Threshold } from './condition-literals.js';
import type { Decide, ExactValue, Values } from './condition-values.js';
import { edited, parse, Places, variablesIn } from './tree.js';
import { utcText } from './utc-text.js';

/** What the engine makes of a condition for one set of values. */
type Outcome =
  | { readonly kind: 'answer'; readonly value: boolean }
  | { readonly kind: 'empty' }
  | { readonly kind: 'not-boolean' }
  | { readonly kind: 'error'; readonly message: string };

/** The condition on the engine, or why the engine refuses it. */
export type EngineReading =
  { readonly ok: true; readonly decide: Decide } | { readonly ok: false; readonly message: string };

/**
 * A condition as the engine is given it. Every fact is one variable of the engine’s, by its full name. Quantity literals
 * are in the unit of the fact they meet, so that the engine never converts: its binary conversion of 200 {cells}/uL is a
 * little less than 0.2 10*9/L.
 */
export function forEngine(text: string, thresholds: readonly Threshold[]): string {
  const places = new Places(text);
  const literals = thresholds.flatMap(({ node, value, unit }) => {
    const from = places.startOf(node);
    if (from === undefined) return [];
    const literal = /^[0-9.]+\s*('(?:[^'\\]|\\.)*'|[a-z]+)/.exec(text.slice(from));
    return literal === null
      ? []
      : [{ from, to: from + literal[0].length, by: `${value.toFixed()} '${unit}'` }];
  });
  const facts = variablesIn(parse(text)).flatMap(({ name, node }) => {
    const stretch = isFactName(name) ? places.ofVariable(node) : undefined;
    return stretch === undefined ? [] : [{ ...stretch, by: `%\`${name}\`` }];
  });
  return edited(text, [...literals, ...facts]);
}

function engineValue(name: FactName, value: ExactValue): unknown {
  const kind = factKind(name);
  let literal: string | undefined;
  if (kind?.kind === 'time' && typeof value === 'number') literal = `@${utcText(value)}`;
  if (kind?.kind === 'quantity' && value instanceof Decimal) {
    const amount = `${value.abs().toFixed()} '${kind.unit}'`;
    literal = value.isNegative() ? `-(${amount})` : amount;
  }
  if (literal === undefined) return value;
  const { engine, r4 } = fhirPath();
  return engine.evaluate({}, literal, {}, r4, { resolveInternalTypes: false })[0];
}

/** The engine’s variables: a fact that is not known is empty. */
function environment(values: Values, uses: readonly FactName[]): Record<string, unknown> {
  return Object.fromEntries(
    uses.map((name) => {
      const value = values.get(name);
      return [name, value === undefined ? [] : engineValue(name, value)];
    }),
  );
}

function sampleOf(name: FactName): ExactValue {
  const kind = factKind(name);
  if (kind?.kind === 'code') return kind.codes[0] ?? '';
  if (kind?.kind === 'boolean') return true;
  return kind?.kind === 'quantity' ? new Decimal(1) : 1;
}

/**
 * A condition on the reference FHIRPath engine. An empty answer, an answer that is not a boolean and an error of the
 * engine are all unknown. The condition is tried once on invented values, so that what can’t work is refused early.
 */
export function onEngine(
  text: string,
  thresholds: readonly Threshold[],
  uses: readonly FactName[],
): EngineReading {
  let run: (values: Values) => Outcome;
  try {
    const { engine, r4 } = fhirPath();
    const compiled = engine.compile(forEngine(text, thresholds), r4, { async: false });
    run = (values) => {
      try {
        const result = compiled({}, environment(values, uses)) as readonly unknown[];
        if (result.length === 0) return { kind: 'empty' };
        const [value] = result;
        return result.length === 1 && typeof value === 'boolean'
          ? { kind: 'answer', value }
          : { kind: 'not-boolean' };
      } catch (error) {
        return { kind: 'error', message: error instanceof Error ? error.message : String(error) };
      }
    };
  } catch (error) {
    return { ok: false, message: error instanceof Error ? error.message : String(error) };
  }
  const trial = run(new Map(uses.map((name) => [name, sampleOf(name)])));
  if (trial.kind === 'error') return { ok: false, message: trial.message };
  if (trial.kind === 'not-boolean') return { ok: false, message: 'its answer is not true or false' };
  return {
    ok: true,
    decide: (values) => {
      const outcome = run(values);
      if (outcome.kind === 'answer') return outcome.value;
      const absent = uses.filter((name) => !values.has(name));
      return absent.length > 0 ? absent : uses;
    },
  };
}
