import { addTo } from '../model/gather.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { Ref } from '../model/record.js';

// A record is asked for these again and again: by every line, and by everything that is read of it.
const devices = new WeakMap<Indexed<'Procedure'>, readonly Ref[]>();
const procedures = new WeakMap<ResourceIndex, ReadonlyMap<Ref, readonly Indexed<'Procedure'>[]>>();

/** The Devices that a Procedure was done to. */
export function deviceRefsOf(procedure: Indexed<'Procedure'>, index: ResourceIndex): readonly Ref[] {
  let refs = devices.get(procedure);
  if (refs === undefined) devices.set(procedure, (refs = readDevices(procedure, index)));
  return refs;
}

/** The Procedures that were done to a Device, in the order of their names. */
export function proceduresOn(device: Ref, index: ResourceIndex): readonly Indexed<'Procedure'>[] {
  let byDevice = procedures.get(index);
  if (byDevice === undefined) {
    const lists = new Map<Ref, Indexed<'Procedure'>[]>();
    for (const procedure of index.all('Procedure'))
      for (const ref of deviceRefsOf(procedure, index)) addTo(lists, ref, procedure);
    procedures.set(index, (byDevice = lists));
  }
  return byDevice.get(device) ?? [];
}

function readDevices(procedure: Indexed<'Procedure'>, index: ResourceIndex): Ref[] {
  const { value, ref } = procedure;
  const focal = (value.focalDevice ?? []).map(({ manipulated }) => index.nameOf(manipulated, ref));
  const named = focal.some((one) => one !== undefined)
    ? focal
    : (value.usedReference ?? []).map((one) => index.nameOf(one, ref));
  return [...new Set(named.filter((one) => one !== undefined))];
}
