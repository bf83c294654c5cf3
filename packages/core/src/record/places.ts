import { codesOf } from './codes.js';
import type { ResourceIndex } from './index-resources.js';
import type { Ref } from './model.js';

const physicalType = 'http://terminology.hl7.org/CodeSystem/location-physical-type';

/** Unit and bed of every patient, from the open Encounter. */
export function readPlaces(index: ResourceIndex): Map<Ref, { unit?: string; bed?: string }> {
  const places = new Map<Ref, { unit?: string; bed?: string; since: string }>();
  for (const { ref, value } of index.all('Encounter')) {
    const patient = index.nameOf(value.subject, ref);
    if (!patient || !isOpen(value.status, value.period?.end)) continue;
    const place: { unit?: string; bed?: string; since: string } = { since: value.period?.start ?? '' };
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
        at = index.get('Location', index.nameOf(at.value.partOf, at.ref));
      }
    }
    const rival = places.get(patient);
    if (!rival || rival.since < place.since) places.set(patient, place);
  }
  return new Map(
    [...places].map(([patient, { unit, bed }]) => [
      patient,
      { ...(unit ? { unit } : {}), ...(bed ? { bed } : {}) },
    ]),
  );
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
