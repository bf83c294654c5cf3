import type { CareSetting } from '@dwellward/policy';
import { codesOf } from './codes.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { PatientRecord, Ref } from './model.js';
import { recordedTime } from './times.js';

const physicalType = 'http://terminology.hl7.org/CodeSystem/location-physical-type';
const actCode = 'http://terminology.hl7.org/CodeSystem/v3-ActCode';
const roleCode = 'http://terminology.hl7.org/CodeSystem/v3-RoleCode';

// HL7 v3 ActEncounterCode and ServiceDeliveryLocationRoleType. Classes that say nothing of where the patient lives
// and is looked after (emergency, virtual, field) leave the setting unknown.
const settingOfClass: Readonly<Record<string, CareSetting>> = {
  IMP: 'inpatient',
  ACUTE: 'inpatient',
  NONAC: 'inpatient',
  AMB: 'ambulatory',
  HH: 'home',
};
const settingOfPlace: Readonly<Record<string, CareSetting>> = {
  ICU: 'intensive-care',
  CCU: 'intensive-care',
  PEDICU: 'intensive-care',
  PEDNICU: 'intensive-care',
  PTRES: 'home',
};

type Place = Pick<PatientRecord, 'unit' | 'bed' | 'setting'>;
type Draft = { -readonly [Key in keyof Place]: Place[Key] };

/** Unit, bed and setting of every patient, from the open Encounter. */
export function readPlaces(index: ResourceIndex): Map<Ref, Place> {
  const places = new Map<Ref, { readonly place: Draft; readonly since: string }>();
  for (const encounter of index.all('Encounter')) {
    const { ref, value } = encounter;
    const patient = index.nameOf(value.subject, ref);
    if (!patient || !isOpen(value.status, value.period?.end)) continue;
    const since = value.period?.start ?? '';
    const rival = places.get(patient);
    if (!rival || rival.since < since) places.set(patient, { place: placeOf(encounter, index), since });
  }
  return new Map([...places].map(([patient, { place }]) => [patient, place]));
}

function placeOf({ ref, value }: Indexed<'Encounter'>, index: ResourceIndex): Draft {
  const place: Draft = {};
  let special: Place['setting'];
  for (const stay of value.location ?? []) {
    if (!isHere(stay.status, stay.period?.end)) continue;
    const located = index.nameOf(stay.location, ref);
    const visited = new Set<Ref>();
    let at = index.get('Location', located);
    if (!at && stay.location?.display) place.unit ??= stay.location.display;
    // From the bed up to the ward; a loop of locations ends where it began.
    while (at && !visited.has(at.ref)) {
      visited.add(at.ref);
      const [kind] = codesOf(physicalType, at.value.physicalType);
      const name = at.value.name ?? at.ref;
      if (kind === 'bd') place.bed ??= name;
      else if (kind === 'wa' || kind === undefined) place.unit ??= name;
      const found = (at.value.type ?? [])
        .flatMap((type) => codesOf(roleCode, type))
        .flatMap((code) => settingOfPlace[code] ?? [])[0];
      if (found) special ??= settingOf(found, at.ref, stay.period?.start ?? value.period?.start);
      at = index.get('Location', index.nameOf(at.value.partOf, at.ref));
    }
  }
  const { system, code } = value.class ?? {};
  const byClass = system === undefined || system === actCode ? settingOfClass[code ?? ''] : undefined;
  const setting = special ?? (byClass ? settingOf(byClass, ref, value.period?.start) : undefined);
  if (setting) place.setting = setting;
  return place;
}

function settingOf(value: CareSetting, ref: Ref, start: string | undefined): NonNullable<Place['setting']> {
  const from = recordedTime(start);
  return { value, ref, ...(from ? { from } : {}) };
}

function isOpen(status: string | undefined, end: string | undefined): boolean {
  return (
    end === undefined &&
    (status === 'in-progress' || status === 'arrived' || status === 'onleave' || status === undefined)
  );
}

function isHere(status: string | undefined, end: string | undefined): boolean {
  return end === undefined && (status === undefined || status === 'active');
}
