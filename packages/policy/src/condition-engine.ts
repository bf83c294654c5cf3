import fhirpath from 'fhirpath';
import r4 from 'fhirpath/fhir-context/r4';
import { Decimal } from 'decimal.js';
import { factKinds, type FactName } from './facts.js';
import type { Threshold } from './condition-check.js';
import type { Decide, ExactValue, Values } from './condition-values.js';

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
 * Quantity literals in the unit of the fact they meet, so that the engine never converts: its binary conversion of
 * 200 {cells}/uL is a little less than 0.2 10*9/L.
 */
export function inFactUnits(text: string, thresholds: readonly Threshold[]): string {
  const lineStarts = [0];
  for (let at = 0; at < text.length; at += 1) if (text[at] === '\n') lineStarts.push(at + 1);
  const edits = thresholds.flatMap(({ node, value, unit }) => {
    const start = node.start;
    if (start === undefined) return [];
    const from = (lineStarts[start.line - 1] ?? 0) + start.column - 1;
    const literal = /^[0-9.]+\s*('(?:[^'\\]|\\.)*'|[a-z]+)/.exec(text.slice(from));
    return literal === null
      ? []
      : [{ from, to: from + literal[0].length, by: `${value.toFixed()} '${unit}'` }];
  });
  edits.sort((a, b) => b.from - a.from);
  return edits.reduce((done, edit) => done.slice(0, edit.from) + edit.by + done.slice(edit.to), text);
}

function engineValue(name: FactName, value: ExactValue): unknown {
  const kind = factKinds[name];
  if (!(value instanceof Decimal) || kind.kind !== 'quantity') return value;
  const literal = `${value.abs().toFixed()} '${kind.unit}'`;
  return fhirpath.evaluate({}, value.isNegative() ? `-(${literal})` : literal, {}, r4, {
    resolveInternalTypes: false,
  })[0];
}

function environment(values: Values): Record<string, Record<string, unknown>> {
  const variables: Record<string, Record<string, unknown>> = { line: {}, lumen: {}, patient: {}, labs: {} };
  for (const [name, value] of values) {
    const [group, member] = name.split('.') as [string, string];
    const facts = variables[group];
    if (facts !== undefined) facts[member] = engineValue(name, value);
  }
  return variables;
}

function sampleOf(name: FactName): ExactValue {
  const kind = factKinds[name];
  if (kind.kind === 'code') return kind.codes[0] ?? '';
  if (kind.kind === 'boolean') return true;
  return kind.kind === 'integer' ? 1 : new Decimal(1);
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
    const compiled = fhirpath.compile(inFactUnits(text, thresholds), r4, { async: false });
    run = (values) => {
      try {
        const result = compiled({}, environment(values)) as readonly unknown[];
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
