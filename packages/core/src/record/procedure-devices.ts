import type { Indexed, ResourceIndex } from './index-resources.js';
import type { Ref } from '../model/record.js';

/** The Devices that a Procedure was done to. */
export function deviceRefsOf(procedure: Indexed<'Procedure'>, index: ResourceIndex): Ref[] {
  const { value, ref } = procedure;
  const focal = (value.focalDevice ?? []).map(({ manipulated }) => index.nameOf(manipulated, ref));
  const named = focal.some((one) => one !== undefined)
    ? focal
    : (value.usedReference ?? []).map((one) => index.nameOf(one, ref));
  return [...new Set(named.filter((one) => one !== undefined))];
}
