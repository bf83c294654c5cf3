import { activityOfRole, codeSystem, coding, displayOf, type LineCareActivity } from '@dwellward/profiles';
import type { Ref } from '../model/basics.js';
import type { ResourceEntry } from '../model/resource-entry.js';
import { product, type Cell } from './cells.js';
import { codingsOf, isObject, textOf, type Json } from './json.js';

// HL7 FHIR R4: what becomes of an Observation’s status where it stands for an act. One that is not verified may not have
// been done: its state is unknown, and is listed.
const states: Readonly<Record<string, string>> = {
  final: 'completed',
  amended: 'completed',
  corrected: 'completed',
  registered: 'preparation',
  cancelled: 'not-done',
  'entered-in-error': 'entered-in-error',
};

/** What is needed to work out a resource from a cell. */
export interface Source {
  readonly entry: ResourceEntry;
  readonly observation: Json;
  readonly ref: Ref;
}

/** The Procedure that a cell tells of. It goes by the Observation, so that every fact points to what the hospital has. */
export function actOf(
  source: Source,
  cell: Cell,
  activity: LineCareActivity,
  devices: readonly string[],
  used: string | undefined,
): ResourceEntry {
  const { id, meta, subject, identifier, basedOn, status, code } = source.observation;
  const { effectiveDateTime, effectiveInstant, effectivePeriod } = cell.time;
  const performed = effectiveDateTime ?? effectiveInstant;
  const done = cell.answer === 'no' ? 'not-done' : 'completed';
  const state = states[String(status)] ?? 'unknown';
  const own = cell.target.products.find(({ property }) => property === 'Procedure.usedCode');
  const site = product(cell.target, 'Procedure.bodySite');
  const usedCode = own
    ? [{ coding: [{ system: own.system, code: own.value }] }]
    : used === undefined
      ? undefined
      : [{ coding: [coding('dressingType', used)] }];
  return {
    ...source.entry,
    source: source.ref,
    resource: {
      resourceType: 'Procedure',
      ...defined({ id, meta, identifier, basedOn, subject, usedCode }),
      status: state === 'completed' ? done : state,
      code: {
        coding: [coding('lineCareActivity', activity)],
        text: nameOf(code) ?? displayOf('lineCareActivity', activity),
      },
      ...(performed === undefined ? {} : { performedDateTime: performed }),
      ...(performed === undefined && effectivePeriod !== undefined
        ? { performedPeriod: effectivePeriod }
        : {}),
      ...(devices.length === 0
        ? {}
        : { focalDevice: devices.map((reference) => ({ manipulated: { reference } })) }),
      ...(site === undefined
        ? {}
        : { bodySite: [{ coding: [{ system: codeSystem.lineSite, code: site }] }] }),
    },
  };
}

/** The two acts of an exchange: the old line out, the new one in. */
export const exchange = { out: activityOfRole('ends-line'), in: activityOfRole('begins-line') } as const;

/** The Observation that a cell tells of, on its line. */
export function findingOf(
  source: Source,
  cell: Cell,
  translated: Json,
  device: Ref | undefined,
): ResourceEntry {
  const own = cell.target.products.find(({ property }) => property === 'Observation.value');
  const part = cell.component === undefined ? translated : partOf(translated, cell.component);
  const value = own
    ? { valueCodeableConcept: { coding: [{ system: own.system, code: own.value }] } }
    : valueIn(part);
  const whole = cell.component === undefined;
  const { component, ...rest } = translated;
  const site = product(cell.target, 'Procedure.bodySite');
  return {
    ...source.entry,
    source: source.ref,
    resource: {
      ...withoutValue(rest),
      ...(whole ? defined({ component }) : { code: part['code'] }),
      ...value,
      ...(site === undefined ? {} : { bodySite: { coding: [{ system: codeSystem.lineSite, code: site }] } }),
      ...(device === undefined ? {} : { focus: [{ reference: device }] }),
    },
  };
}

function partOf(observation: Json, i: number): Json {
  const list = observation['component'];
  const part: unknown = Array.isArray(list) ? list.filter(isObject)[i] : undefined;
  return isObject(part) ? part : {};
}

function valueIn(cell: Json): Json {
  return Object.fromEntries(Object.entries(cell).filter(([key]) => key.startsWith('value')));
}

function withoutValue(cell: Json): Json {
  return Object.fromEntries(Object.entries(cell).filter(([key]) => !key.startsWith('value')));
}

/** The dressing that a cell names: by its map, or by its value. */
export function dressingIn(cell: Cell, translated: Json): string | undefined {
  const own = cell.target.products.find(
    ({ property, system }) => property === 'Procedure.usedCode' && system === codeSystem.dressingType,
  );
  if (own) return own.value;
  const part = cell.component === undefined ? translated : partOf(translated, cell.component);
  return codingsOf(part['valueCodeableConcept'])
    .filter(({ system }) => system === codeSystem.dressingType)
    .flatMap(({ code }) => textOf(code) ?? [])[0];
}

function nameOf(concept: unknown): string | undefined {
  if (!isObject(concept)) return undefined;
  return textOf(concept['text']) ?? codingsOf(concept).flatMap(({ display }) => textOf(display) ?? [])[0];
}

function defined(elements: Json): Json {
  return Object.fromEntries(Object.entries(elements).filter(([, value]) => value !== undefined));
}
