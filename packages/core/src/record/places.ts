import type { CareSetting } from '@dwellward/policy';
import { codesOf } from './codes.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { PatientRecord, Ref, Stay } from '../model/record.js';
import { recordedTime } from './times.js';
import { addTo } from '../model/gather.js';

export const physicalType = 'http://terminology.hl7.org/CodeSystem/location-physical-type';
const actCode = 'http://terminology.hl7.org/CodeSystem/v3-ActCode';
const roleCode = 'http://terminology.hl7.org/CodeSystem/v3-RoleCode';

// HL7 v3 ActEncounterCode and ServiceDeliveryLocationRoleType. Classes that say nothing of where the patient lives
// and is looked after (emergency, virtual, field) leave the setting unknown.
const settingOfClass: ReadonlyMap<string, CareSetting> = new Map(
  Object.entries<CareSetting>({
    IMP: 'inpatient',
    ACUTE: 'inpatient',
    NONAC: 'inpatient',
    AMB: 'ambulatory',
    HH: 'home',
  }),
);
const settingOfPlace: ReadonlyMap<string, CareSetting> = new Map(
  Object.entries<CareSetting>({
    ICU: 'intensive-care',
    CCU: 'intensive-care',
    PEDICU: 'intensive-care',
    PEDNICU: 'intensive-care',
    PTRES: 'home',
  }),
);

type Place = Pick<PatientRecord, 'unit' | 'bed' | 'at'> & { readonly stays: readonly Stay[] };
type Draft = { unit?: string; bed?: string; at?: Ref };

/** Unit and bed of every patient from the open Encounter, and the settings of all their Encounters in time. */
export function readPlaces(index: ResourceIndex): Map<Ref, Place> {
  const here = new Map<Ref, { readonly place: Draft; readonly since: string }>();
  const stays = new Map<Ref, Stay[]>();
  for (const encounter of index.all('Encounter')) {
    const { ref, value } = encounter;
    const patient = index.nameOf(value.subject, ref);
    if (!patient) continue;
    addTo(stays, patient, ...staysOf(encounter, index));
    if (!isOpen(value.status, value.period?.end)) continue;
    const since = value.period?.start ?? '';
    const rival = here.get(patient);
    if (!rival || rival.since < since) here.set(patient, { place: placeOf(encounter, index), since });
  }
  return new Map([...stays].map(([patient, own]) => [patient, { ...here.get(patient)?.place, stays: own }]));
}

function placeOf({ ref, value }: Indexed<'Encounter'>, index: ResourceIndex): Draft {
  const place: Draft = {};
  for (const stay of value.location ?? []) {
    if (!isHere(stay.status, stay.period?.end)) continue;
    const located = index.nameOf(stay.location, ref);
    if (!index.get('Location', located) && stay.location?.display) place.unit ??= stay.location.display;
    for (const at of withParents(located, index)) {
      const [kind] = codesOf(physicalType, at.value.physicalType);
      const name = at.value.name ?? at.ref;
      place.at ??= at.ref;
      if (kind === 'bd') place.bed ??= name;
      else if (kind === 'wa' || kind === undefined) place.unit ??= name;
    }
  }
  return place;
}

/** From the bed up to the ward; a loop of locations ends where it began. */
export function withParents(located: Ref | undefined, index: ResourceIndex): Indexed<'Location'>[] {
  const visited = new Map<Ref, Indexed<'Location'>>();
  let at = index.get('Location', located);
  while (at && !visited.has(at.ref)) {
    visited.set(at.ref, at);
    at = index.get('Location', index.nameOf(at.value.partOf, at.ref));
  }
  return [...visited.values()];
}

/** The settings of an Encounter: of its class for all of it, of its places for as long as the patient was there. */
function staysOf({ ref, value }: Indexed<'Encounter'>, index: ResourceIndex): Stay[] {
  const open = isOpen(value.status, value.period?.end);
  // One that is over without an end covers no time that could be known.
  if (!open && (notStays.has(value.status ?? '') || value.period?.end === undefined)) return [];
  const { system, code } = value.class ?? {};
  const byClass = system === undefined || system === actCode ? settingOfClass.get(code ?? '') : undefined;
  const whole = byClass ? [stay(byClass, ref, false, value.period, undefined)] : [];
  const places = (value.location ?? []).flatMap((place) => {
    const over = !isHere(place.status, place.period?.end);
    if (over && place.period?.end === undefined) return [];
    const [found] = withParents(index.nameOf(place.location, ref), index).flatMap((at) =>
      (at.value.type ?? [])
        .flatMap((type) => codesOf(roleCode, type))
        .flatMap((role) => settingOfPlace.get(role) ?? [])
        .map((setting) => ({ setting, ref: at.ref })),
    );
    return found ? [stay(found.setting, found.ref, true, place.period, value.period)] : [];
  });
  return [...whole, ...places];
}

type Period = { readonly start?: string | undefined; readonly end?: string | undefined };

function stay(
  value: CareSetting,
  ref: Ref,
  byPlace: boolean,
  own: Period | undefined,
  around: Period | undefined,
): Stay {
  const from = recordedTime(own?.start ?? around?.start);
  const until = recordedTime(own?.end ?? around?.end);
  return { value, ref, byPlace, ...(from ? { from } : {}), ...(until ? { until } : {}) };
}

/** Encounters that did not, or not yet, take place. */
export const notStays = new Set(['planned', 'cancelled', 'entered-in-error', 'triaged', 'unknown']);

export function isOpen(status: string | undefined, end: string | undefined): boolean {
  return (
    end === undefined &&
    (status === 'in-progress' || status === 'arrived' || status === 'onleave' || status === undefined)
  );
}

function isHere(status: string | undefined, end: string | undefined): boolean {
  return end === undefined && (status === undefined || status === 'active');
}
