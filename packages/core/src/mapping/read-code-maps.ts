import {
  codeSystem,
  lineProperties,
  mapConditions,
  mapProducts,
  type MapCondition,
  type MapProduct,
} from '@dwellward/profiles';
import {
  CodeMaps,
  codeKey,
  normalText,
  type CodeMeaning,
  type MapFinding,
  type MapTarget,
} from './code-maps.js';
import { isObject } from './json.js';
import { isTarget, isTargetSystem, targetSystems } from './targets.js';

/** A map as it was given. */
export interface GivenMap {
  /** By which people know it: the name of its file. */
  readonly name: string;
  /** A ConceptMap of FHIR R4. */
  readonly resource: unknown;
}

export type CodeMapReading =
  | { readonly ok: true; readonly maps: CodeMaps; readonly findings: readonly MapFinding[] }
  | { readonly ok: false; readonly findings: readonly MapFinding[] };

// HL7 FHIR R4, concept-map-equivalence: what the target is to the source. Only these let the target stand for the source:
// one that is narrower or overlaps says more than was charted, and care would be ticked off by it.
const standsFor = new Set(['equivalent', 'equal', 'wider', 'subsumes']);
const saysMore = new Set(['relatedto', 'narrower', 'specializes', 'inexact']);
const equivalences = [...standsFor, ...saysMore, 'unmatched', 'disjoint'];

/**
 * Reads a hospital’s maps of codes: ConceptMaps of FHIR R4, whose elements mean what R4 says. Several are one map.
 *
 * A target is used where its `equivalence` lets it stand for the source (equal, equivalent, wider, subsumes); where it says
 * more than the source, or only something alike, it is not, and a warning says so. `unmatched` is no mapping: the code is
 * still listed as not understood. `disjoint` takes a reading away. A map that can’t be read, that leads to an unknown code,
 * or that maps one code twice is refused whole: a map that is half used would hide care.
 *
 * @param given the maps, each with the name of its file; their order does not matter.
 * @example
 * ```ts
 * const group = {
 *   source: 'https://hospital.example/acts',
 *   target: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
 *   element: [{ code: 'DRSG', target: [{ code: 'dressing-change', equivalence: 'equivalent' }] }],
 * };
 * const reading = readCodeMaps([
 *   { name: 'codes.json', resource: { resourceType: 'ConceptMap', status: 'active', group: [group] } },
 * ]);
 * reading.ok; // true
 * ```
 */
export function readCodeMaps(given: readonly GivenMap[]): CodeMapReading {
  const reader = new Reader();
  for (const { name, resource } of given) reader.read(name, resource);
  const { findings } = reader;
  if (findings.some(({ severity }) => severity === 'error')) return { ok: false, findings };
  return { ok: true, maps: new CodeMaps(reader.codes, reader.texts), findings };
}

class Reader {
  readonly findings: MapFinding[] = [];
  readonly codes = new Map<string, CodeMeaning>();
  readonly texts = new Map<string, CodeMeaning>();
  /** Where each code was mapped first, with the conditions that it was mapped under. */
  readonly #first = new Map<string, string>();
  #map = '';

  read(name: string, resource: unknown): void {
    this.#map = name;
    if (!isObject(resource) || resource['resourceType'] !== 'ConceptMap') {
      const type = isObject(resource) ? resource['resourceType'] : undefined;
      this.#error(
        'ConceptMap',
        `A ConceptMap of FHIR R4 is wanted${typeof type === 'string' ? `, and this is a ${type}` : ''}.`,
      );
      return;
    }
    if (resource['status'] === 'retired')
      this.#warn('ConceptMap.status', 'The map is retired; it is used all the same.');
    if (resource['modifierExtension'] !== undefined)
      this.#error(
        'ConceptMap.modifierExtension',
        'An extension that changes what the map means can’t be honoured.',
      );
    const groups = listOf(resource['group']);
    if (groups.length === 0) this.#error('ConceptMap.group', 'There is no group: nothing is mapped.');
    for (const [i, group] of groups.entries()) this.#group(group, `ConceptMap.group[${i}]`);
  }

  #group(group: unknown, path: string): void {
    if (!isObject(group)) return this.#error(path, 'It is no object.');
    const { source, target, unmapped } = group;
    if (typeof source !== 'string' || source === '')
      this.#error(
        `${path}.source`,
        `The system of the source codes is wanted; of texts without a code it is ${codeSystem.chartedText}.`,
      );
    if (target !== undefined && (typeof target !== 'string' || !isTargetSystem(target)))
      this.#error(
        `${path}.target`,
        `${String(target)} is no system that is read. One of: ${targetSystems.join(', ')}.`,
      );
    if (isObject(unmapped) && unmapped['mode'] !== 'provided')
      this.#error(
        `${path}.unmapped.mode`,
        'Only “provided” is kept: a code that is not mapped stays as it is, and is listed.',
      );
    const elements = listOf(group['element']);
    if (elements.length === 0) this.#warn(`${path}.element`, 'There is none.');
    if (typeof source !== 'string') return;
    for (const [i, element] of elements.entries())
      this.#element(
        element,
        `${path}.element[${i}]`,
        source,
        typeof target === 'string' ? target : undefined,
      );
  }

  #element(element: unknown, path: string, source: string, system: string | undefined): void {
    const code = isObject(element) ? element['code'] : undefined;
    if (!isObject(element) || typeof code !== 'string' || code.trim() === '')
      return this.#error(`${path}.code`, 'A code is wanted.');
    const targets = listOf(element['target']);
    if (targets.length === 0) this.#warn(`${path}.target`, `${code} has no target; it stays not understood.`);
    for (const [i, target] of targets.entries())
      this.#target(target, `${path}.target[${i}]`, { source, code }, system);
  }

  #target(given: unknown, path: string, from: From, system: string | undefined): void {
    if (!isObject(given)) return this.#error(path, 'It is no object.');
    const { equivalence, code, comment, display } = given;
    if (typeof equivalence !== 'string' || !equivalences.includes(equivalence))
      return this.#error(`${path}.equivalence`, `One of ${equivalences.join(', ')} is wanted.`);
    if (equivalence === 'unmatched') {
      if (code !== undefined)
        this.#error(
          `${path}.code`,
          `${from.code} is “unmatched” and has a target: an equivalence such as “equivalent” is wanted.`,
        );
      return;
    }
    if (typeof code !== 'string' || code === '')
      return this.#error(`${path}.code`, 'A code is wanted, or the equivalence “unmatched”.');
    if (system === undefined)
      return this.#error(
        `${path.replace(/\.element.*/, '')}.target`,
        `The system of the target ${code} is wanted.`,
      );
    if (!isTargetSystem(system)) return;
    if (!isTarget(system, code))
      return this.#error(`${path}.code`, `${code} is no code of ${system} that is read.`);
    // R4, cmd-1.
    if (
      (equivalence === 'narrower' || equivalence === 'inexact') &&
      (typeof comment !== 'string' || comment === '')
    )
      this.#error(
        `${path}.comment`,
        `“${equivalence}” needs a comment that says in which sense (R4, cmd-1).`,
      );
    if (equivalence === 'disjoint') return this.#add(from, { targets: [], not: [{ system, code }] });
    if (saysMore.has(equivalence)) {
      this.#warn(
        `${path}.equivalence`,
        `${code} is “${equivalence}” to ${from.code} and would say more than was charted: it is not used, and ${from.code} stays not understood. Narrow the source by dependsOn, or choose a target that is equivalent or wider.`,
      );
      return;
    }
    const conditions = this.#conditions(given['dependsOn'], `${path}.dependsOn`);
    const products = this.#products(given['product'], `${path}.product`);
    this.#once(from, conditions, path);
    this.#add(from, {
      targets: [{ system, code, ...(typeof display === 'string' ? { display } : {}), conditions, products }],
      not: [],
    });
  }

  #once({ source, code }: From, conditions: MapTarget['conditions'], path: string): void {
    const own = isText(source) ? normalText(code) : code;
    const key = [
      codeKey(source, own),
      ...conditions.map((one) => JSON.stringify([one.property, one.system, one.value.toLowerCase()])).sort(),
    ].join('\u0001');
    const first = this.#first.get(key);
    const here = `${this.#map}, ${path}`;
    if (first !== undefined)
      this.#error(
        path,
        `${code} is mapped twice${conditions.length === 0 ? '' : ' for the same value'}; first at ${first}. Tell the targets apart by dependsOn.`,
      );
    else this.#first.set(key, here);
  }

  #conditions(given: unknown, path: string): MapTarget['conditions'] {
    return listOf(given).flatMap((one, i) => {
      const read = this.#dependency(one, `${path}[${i}]`);
      if (read === undefined) return [];
      if (!(mapConditions as readonly string[]).includes(read.property)) {
        this.#error(
          `${path}[${i}].property`,
          `${read.property} can’t be asked of a record. One of: ${mapConditions.join(', ')}.`,
        );
        return [];
      }
      return [{ ...read, property: read.property as MapCondition }];
    });
  }

  #products(given: unknown, path: string): MapTarget['products'] {
    return listOf(given).flatMap((one, i) => {
      const at = `${path}[${i}]`;
      const read = this.#dependency(one, at);
      if (read === undefined) return [];
      const property = read.property as MapProduct;
      if (!mapProducts.includes(property)) {
        this.#error(
          `${at}.property`,
          `${read.property} is no element that a code can fill. One of: ${mapProducts.join(', ')}.`,
        );
        return [];
      }
      const wrong = wrongProduct({ ...read, property });
      if (wrong !== undefined) this.#error(`${at}.value`, wrong);
      return [{ ...read, property }];
    });
  }

  #dependency(given: unknown, path: string) {
    const { property, system, value } = isObject(given) ? given : {};
    if (typeof property !== 'string' || typeof value !== 'string' || value === '') {
      this.#error(path, 'A property and a value are wanted.');
      return undefined;
    }
    return { property, value, ...(typeof system === 'string' ? { system } : {}) };
  }

  #add({ source, code }: From, meaning: CodeMeaning): void {
    const texts = isText(source);
    const where = texts ? this.texts : this.codes;
    const key = texts ? normalText(code) : codeKey(source, code);
    const before = where.get(key) ?? { targets: [], not: [] };
    where.set(key, {
      targets: [...before.targets, ...meaning.targets],
      not: [...before.not, ...meaning.not],
    });
  }

  #error(path: string, message: string): void {
    this.findings.push({ severity: 'error', map: this.#map, path, message });
  }

  #warn(path: string, message: string): void {
    this.findings.push({ severity: 'warning', map: this.#map, path, message });
  }
}

interface From {
  readonly source: string;
  readonly code: string;
}

function isText(source: string): boolean {
  return source === codeSystem.chartedText;
}

const codedProducts: Readonly<Partial<Record<MapProduct, readonly string[]>>> = {
  'Device.type': [codeSystem.lineType],
  'Procedure.usedCode': [codeSystem.dressingType, codeSystem.securementType],
  'Procedure.bodySite': [codeSystem.lineSite],
  'Observation.value': [
    codeSystem.dressingCondition,
    codeSystem.connectorCondition,
    codeSystem.findingValue,
    codeSystem.lineFinding,
  ],
};

/** What is wrong with the value of a product. */
function wrongProduct({ property, system, value }: MapTarget['products'][number]): string | undefined {
  const allowed = codedProducts[property];
  if (allowed !== undefined)
    return system !== undefined && allowed.includes(system) && isTarget(system, value)
      ? undefined
      : `${value} of ${system ?? 'no system'} is no code for it. A code of ${allowed.join(' or ')} is wanted.`;
  if (property === 'Procedure.performed')
    return value === 'Observation.value' || value === 'Observation.effective'
      ? undefined
      : 'The path of the element that holds the time is wanted: Observation.value or Observation.effective.';
  if (property !== 'Device.property') return undefined;
  const [name = '', amount = ''] = value.split('=');
  return system === codeSystem.lineProperty &&
    lineProperties.some(([code]) => code === name) &&
    /^\d+$/.test(amount)
    ? undefined
    : `A property of ${codeSystem.lineProperty} and a whole number are wanted: lumen-count=3.`;
}

function listOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}
