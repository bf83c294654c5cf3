import { isResourceType, readResourceTypes } from '@dwellward/core';
import { isObject } from '../bundle.js';
import { Owners } from './owners.js';
import type { Skim } from './skim.js';
import type { Kept, Spool } from './spool.js';

const read = new Set(readResourceTypes);
const later = 'later';
/** The partition of what is of nobody and has no name: lines that are no resource, and what an export says of itself. */
export const loose = 'loose';

/** Puts every line where all that belongs to one patient is, and counts what nothing here reads. */
export class Router {
  readonly owners = new Owners();
  /** What is of no patient and others point to, such as a Location: by its name. */
  readonly shared = new Map<string, Kept[]>();
  /** How many resources there are of each type that is not read, and Observations that nothing reads. */
  readonly passedOver = new Map<string, number>();
  resources = 0;

  constructor(
    readonly spool: Spool,
    readonly partitions: number,
    readonly skim: Skim,
  ) {}

  /** @param from where the line begins. @param to where it ends. */
  route(bytes: Buffer, from: number, to: number, name: string, number: number): void {
    if (this.skim.passesOver(bytes, from, to)) {
      this.resources += 1;
      this.#passOver('Observation');
      return;
    }
    const line = bytes.toString('utf8', from, to);
    if (line.trim() === '') return;
    const put = (partition: string, key: string) => this.spool.add(partition, { key, name, number, line });
    const resource = parsed(line);
    const type = isObject(resource) ? resource['resourceType'] : undefined;
    if (isObject(resource)) this.resources += 1;
    if (!isObject(resource) || typeof type !== 'string' || type === 'OperationOutcome') return put(loose, '');
    if (!isResourceType(type)) return put(loose, '');
    // Contained in another a Device may be a line.
    if (!read.has(type) && resource['contained'] === undefined) {
      this.#passOver(type);
      return;
    }
    const own = typeof resource['id'] === 'string' ? `${type}/${resource['id']}` : undefined;
    const names = [...(own === undefined ? [] : [own]), ...referencesIn(resource)];
    const patients = names.filter((one) => one.startsWith('Patient/'));
    const devices = names.filter((one) => one.startsWith('Device/'));
    const [patient, ...others] = patients;
    if (type === 'Device' && own !== undefined) this.owners.device(own, patients, devices);
    else if (patient !== undefined) for (const device of devices) this.owners.uses(patient, device);
    else for (const device of devices.slice(1)) this.owners.join(device, devices[0] as string);
    if (patient !== undefined) {
      for (const other of others) this.owners.join(patient, other);
      put(this.partitionOf(patient), patient);
    } else if (devices[0] !== undefined) put(later, devices[0]);
    else if (own === undefined) put(loose, '');
    else this.shared.set(own, [...(this.shared.get(own) ?? []), { key: own, name, number, line }]);
  }

  #passOver(type: string): void {
    this.passedOver.set(type, (this.passedOver.get(type) ?? 0) + 1);
  }

  /** Once all is read: what is known only now goes to the others of its group. */
  settle(): void {
    const ofWard = this.owners.settle();
    const moved = new Set<string>();
    for (const name of this.owners.joined()) {
      const from = this.partitionOf(name);
      if (name.startsWith('Patient/') && from !== this.partitionOf(this.owners.groupOf(name)))
        moved.add(from);
    }
    const taken = [...moved].flatMap((partition) => this.spool.take(partition));
    for (const kept of [...taken, ...this.spool.take(later)]) {
      if (ofWard.has(kept.key)) this.shared.set(kept.key, [...(this.shared.get(kept.key) ?? []), kept]);
      else this.spool.add(this.partitionOf(this.owners.groupOf(kept.key)), kept);
    }
  }

  partitionOf(name: string): string {
    let hash = 2166136261;
    for (let i = 0; i < name.length; i++) hash = Math.imul(hash ^ name.charCodeAt(i), 16777619);
    return String((hash >>> 0) % this.partitions);
  }
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line) as unknown;
  } catch {
    // Who reads the loose lines says why.
    return undefined;
  }
}

/** `Type/id` of every reference in a resource, also of an absolute or versioned one. */
export function referencesIn(resource: object): string[] {
  const found: string[] = [];
  const open: object[] = [resource];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    for (const [key, value] of Object.entries(at) as [string, unknown][]) {
      if (typeof value === 'object' && value !== null) open.push(value);
      else if (key === 'reference' && typeof value === 'string') {
        const short = /(?:^|\/)([A-Z][A-Za-z]+\/[^/#\s]+)(?:\/_history\/[^/]+)?\s*$/.exec(value)?.[1];
        if (short !== undefined) found.push(short);
      }
    }
  }
  return found;
}
