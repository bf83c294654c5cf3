import type { CodeMaps, MapTarget } from './code-maps.js';
import { meaningOf } from './concepts.js';
import { codingsOf, isObject, textOf, type Json } from './json.js';
import type { Place } from './targets.js';

/** Something that was read by its text alone. */
export interface ByText {
  readonly text: string;
  readonly target: MapTarget;
}

/** Every concept that is translated, by the type of the resource: the way to it, and what kind of place it is. */
const places: Readonly<Record<string, readonly (readonly [path: string, place: Place])[]>> = {
  Device: [
    ['type', 'device'],
    ['property.type', 'property'],
  ],
  Procedure: [
    ['code', 'act'],
    ['usedCode', 'used'],
    ['bodySite', 'site'],
  ],
  ServiceRequest: [['code', 'act']],
  Observation: [
    ['code', 'charted'],
    ['valueCodeableConcept', 'value'],
    ['bodySite', 'site'],
    ['component.code', 'charted'],
    ['component.valueCodeableConcept', 'value'],
  ],
  MedicationAdministration: [['medicationCodeableConcept', 'drug']],
  Medication: [
    ['code', 'drug'],
    ['ingredient.itemCodeableConcept', 'drug'],
  ],
  Specimen: [['type', 'specimen']],
  AllergyIntolerance: [
    ['code', 'alert'],
    ['reaction.substance', 'alert'],
  ],
};

/** Whether resources of a type hold concepts that maps may speak of. */
export function isTranslated(type: unknown): type is string {
  return typeof type === 'string' && Object.hasOwn(places, type);
}

/**
 * A resource with our codes beside the hospital’s, wherever a map has them; the resource itself where it has none. What it
 * is given is not written to. A value is replaced, because every code of a value would count.
 */
export function translated(resource: Json, maps: CodeMaps, onText: (one: ByText) => void): Json {
  let result = resource;
  for (const [path, place] of places[String(resource['resourceType'])] ?? []) {
    const keys = path.split('.');
    result = changed(result, keys, result, (concept, within) =>
      withOurs(concept, place, within, maps, onText),
    ) as Json;
  }
  return withContained(ofTexts(result, maps, onText), maps, onText);
}

function withContained(resource: Json, maps: CodeMaps, onText: (one: ByText) => void): Json {
  const { contained } = resource;
  if (!Array.isArray(contained)) return resource;
  const list = contained.map((one: unknown) => (isObject(one) ? translated(one, maps, onText) : one));
  return list.some((one, i) => one !== contained[i]) ? { ...resource, contained: list } : resource;
}

/** A value that is a plain text can be mapped, too: it becomes a concept. */
function ofTexts(resource: Json, maps: CodeMaps, onText: (one: ByText) => void): Json {
  if (resource['resourceType'] !== 'Observation') return resource;
  const own = ofText(resource, maps, onText);
  const { component } = own;
  if (!Array.isArray(component)) return own;
  const parts = component.map((one: unknown) => (isObject(one) ? ofText(one, maps, onText) : one));
  return parts.some((one, i) => one !== component[i]) ? { ...own, component: parts } : own;
}

function ofText(cell: Json, maps: CodeMaps, onText: (one: ByText) => void): Json {
  const text = textOf(cell['valueString']);
  if (text === undefined || cell['valueCodeableConcept'] !== undefined) return cell;
  const concept = withOurs({ text }, 'value', cell, maps, onText);
  if (codingsOf(concept).length === 0) return cell;
  const { valueString: _, ...rest } = cell;
  return { ...rest, valueCodeableConcept: concept };
}

type Change = (concept: Json, within: Json) => Json;

/** Copies only what changes on the way to an element. */
function changed(value: unknown, keys: readonly string[], within: Json, change: Change): unknown {
  if (Array.isArray(value)) {
    const list = value.map((one: unknown) =>
      changed(one, keys, isObject(one) && keys.length > 0 ? one : within, change),
    );
    return list.some((one, i) => one !== value[i]) ? list : value;
  }
  if (!isObject(value)) return value;
  const [key, ...rest] = keys;
  if (key === undefined) return change(value, within);
  const before = value[key];
  if (before === undefined) return value;
  const after = changed(before, rest, within, change);
  return after === before ? value : { ...value, [key]: after };
}

function withOurs(
  concept: Json,
  place: Place,
  within: Json,
  maps: CodeMaps,
  onText: (one: ByText) => void,
): Json {
  const meaning = meaningOf(concept, place, within, maps);
  if (meaning === undefined) return concept;
  const before = codingsOf(concept);
  const kept = before.filter(
    ({ system, code }) =>
      !meaning.not.some((no) => no.system === system && no.code === code) &&
      !(maps.ofCode(textOf(system), textOf(code))?.not.length && isOthers(system)),
  );
  const added = meaning.targets.filter(({ system }) => !kept.some((one) => one['system'] === system));
  if (added.length === 0 && kept.length === before.length) return concept;
  for (const target of added) if (meaning.text !== undefined) onText({ text: meaning.text, target });
  const text = textOf(concept['text']) ?? before.flatMap(({ display }) => textOf(display) ?? [])[0];
  const ours = added.map(({ system, code, display }) => ({
    system,
    code,
    ...(display === undefined ? {} : { display }),
  }));
  const coding = [...(place === 'value' && added.length > 0 ? [] : kept), ...ours];
  return { ...concept, coding, ...(text === undefined ? {} : { text }) };
}

// A coding of a published system that is explicitly not what we would read it as must not be read by itself.
function isOthers(system: unknown): boolean {
  return typeof system === 'string' && /^http:\/\/(snomed\.info|loinc\.org|www\.)/.test(system);
}
