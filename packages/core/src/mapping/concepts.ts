import { wordsForNo } from '@dwellward/profiles';
import type { CodeMaps, Condition, MapTarget } from './code-maps.js';
import { codingsOf, isObject, textOf, type Json } from './json.js';
import { fits, type Place } from './targets.js';

/** What a concept was found to stand for. */
export interface Meaning {
  readonly targets: readonly MapTarget[];
  readonly not: readonly { readonly system: string; readonly code: string }[];
  /** The text by which it was found, where it has no code. */
  readonly text?: string;
}

/**
 * What the maps say of a concept at a place of a resource: of each target system the one target whose conditions hold. Where
 * two of one system are left it is none: which is meant can’t be told.
 */
export function meaningOf(concept: Json, place: Place, within: Json, maps: CodeMaps): Meaning | undefined {
  const codings = codingsOf(concept);
  const found = codings.flatMap(({ system, code }) => maps.ofCode(textOf(system), textOf(code)) ?? []);
  const coded = codings.some(
    ({ system, code }) => textOf(system) !== undefined && textOf(code) !== undefined,
  );
  const text = coded ? undefined : textsOf(concept).find((one) => maps.ofText(one) !== undefined);
  const byText = text === undefined ? undefined : maps.ofText(text);
  const all = [...found, ...(byText ? [byText] : [])];
  if (all.length === 0) return undefined;
  const not = all.flatMap((one) => one.not);
  const holding = all
    .flatMap(({ targets }) => chosen(targets, within))
    .filter(
      ({ system, code }) =>
        fits(system, place) && !not.some((no) => no.system === system && no.code === code),
    );
  const targets = [...new Map(holding.map((one) => [one.system, one])).values()].filter(
    (one) => !holding.some((other) => other.system === one.system && other.code !== one.code),
  );
  return { targets, not, ...(byText && text !== undefined ? { text } : {}) };
}

/** What a concept without a code of any system goes by: its text, else a display, else a code that stands by itself. */
function textsOf(concept: Json): readonly string[] {
  const codings = codingsOf(concept);
  const own = textOf(concept['text']) ?? codings.flatMap(({ display }) => textOf(display) ?? [])[0];
  return [...(own === undefined ? [] : [own]), ...codings.flatMap(({ code }) => textOf(code) ?? [])];
}

/** The targets whose conditions hold; those without a condition only where no other holds. */
function chosen(targets: readonly MapTarget[], within: Json): readonly MapTarget[] {
  const holding = targets.filter(
    ({ conditions }) => conditions.length > 0 && conditions.every((one) => holds(one, within)),
  );
  return holding.length > 0 ? holding : targets.filter(({ conditions }) => conditions.length === 0);
}

function holds({ property, system, value }: Condition, within: Json): boolean {
  const wanted = value.trim().toLowerCase();
  const same = (text: unknown) => typeof text === 'string' && text.trim().toLowerCase() === wanted;
  switch (property) {
    case 'Observation.valueQuantity.unit': {
      const quantity = within['valueQuantity'];
      return isObject(quantity) && (same(quantity['unit']) || same(quantity['code']));
    }
    case 'Observation.code':
      return hasCode(within['code'], system, value, same);
    case 'Observation.value':
      return valuesOf(within).some(same) || hasCode(within['valueCodeableConcept'], system, value, same);
  }
}

function hasCode(
  concept: unknown,
  system: string | undefined,
  value: string,
  same: (text: unknown) => boolean,
): boolean {
  const coded = codingsOf(concept).some(
    (one) => one['code'] === value && (system === undefined || one['system'] === system),
  );
  if (coded || system !== undefined || !isObject(concept)) return coded;
  return same(concept['text']) || codingsOf(concept).some(({ display }) => same(display));
}

/** What a cell holds that is no concept, as text. */
export function valuesOf(cell: Json): readonly string[] {
  const { valueString, valueBoolean, valueInteger, valueQuantity } = cell;
  const amount = isObject(valueQuantity) ? valueQuantity['value'] : undefined;
  return [valueString, valueBoolean, valueInteger, amount].flatMap((one) =>
    typeof one === 'string' || typeof one === 'boolean' || typeof one === 'number' ? [String(one)] : [],
  );
}

/** Whether a cell says by itself that something is so, that it is not, or neither. */
export function answerOf(cell: Json): 'yes' | 'no' | undefined {
  if (cell['dataAbsentReason'] !== undefined) return 'no';
  const concept = cell['valueCodeableConcept'];
  const said = [
    ...valuesOf(cell),
    ...(isObject(concept)
      ? [concept['text'], ...codingsOf(concept).flatMap(({ code, display }) => [code, display])]
      : []),
  ].flatMap((one) => (typeof one === 'string' ? [one.trim().toLowerCase()] : []));
  if (said.some((one) => wordsForNo.has(one) || one === 'false' || one === '0' || one === 'n')) return 'no';
  return said.some((one) => one === 'yes' || one === 'true' || one === '1' || one === 'y')
    ? 'yes'
    : undefined;
}
