import { codesOf } from './codes.js';
import type { ResourceIndex } from './index-resources.js';
import type { Ref, UnitStay } from '../model/record.js';
import { isOpen, notStays, physicalType, withParents } from './places.js';
import type { Reference } from './shapes.js';
import { recordedTime } from './times.js';

/** Where every patient of the record was, unit by unit, whether they have a line or not. */
export function readUnitStays(index: ResourceIndex): UnitStay[] {
  return index.all('Encounter').flatMap(({ ref, value }): UnitStay[] => {
    const patient = index.nameOf(value.subject, ref);
    if (patient === undefined || notStays.has(value.status ?? '')) return [];
    const open = isOpen(value.status, value.period?.end);
    const places =
      value.location?.filter(({ status }) => status !== 'planned' && status !== 'reserved') ?? [];
    const parts = places.length > 0 ? places : [undefined];
    return parts.map((part) => {
      const from = recordedTime(part?.period?.start ?? value.period?.start);
      const until = recordedTime(part?.period?.end ?? value.period?.end);
      const left = part?.status === 'completed' || !open;
      const unit = part && unitOf(part.location, ref, index);
      return {
        patient,
        encounter: ref,
        ...(unit === undefined ? {} : { unit }),
        ...(from ? { from } : {}),
        ...(until ? { until } : {}),
        ...(left && until === undefined ? { endUnknown: true as const } : {}),
      };
    });
  });
}

/** The ward among a place and what it is part of; the name on the Encounter where the Location is not there. */
function unitOf(
  location: (Reference & { readonly display?: string | undefined }) | undefined,
  from: Ref,
  index: ResourceIndex,
): string | undefined {
  const located = index.nameOf(location, from);
  const places = withParents(located, index);
  const ward = places.find(({ value }) => {
    const [kind] = codesOf(physicalType, value.physicalType);
    return kind === 'wa' || kind === undefined;
  });
  return ward ? (ward.value.name ?? ward.ref) : places.length === 0 ? location?.display : undefined;
}
