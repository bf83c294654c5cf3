import { loadBundle } from '@dwellward/demo-server';
import {
  dueCareBy,
  FhirServer,
  loadPolicy,
  Poller,
  realMachine,
  type Machine,
  type Lacking,
  type PollerOptions,
} from '@dwellward/adapter';
import {
  demoInstant,
  demoPolicyLayers,
  demoUnit,
  demoUpdate,
  demoUpdateInstant,
  demoZone,
} from '@dwellward/fixtures';
import { pino } from 'pino';
import type { Bundle, FhirResource, Resource } from 'fhir/r4.js';

export { demoInstant, demoUpdateInstant, demoZone, loadBundle };
export const base = 'https://dwellward.example/fhir';

/** A machine with a clock of its own, from now on: sleeping moves it and takes no time. */
export function clockwork(): Machine & { readonly slept: number[]; pass(milliseconds: number): void } {
  let aheadMs = 0;
  const slept: number[] = [];
  return {
    ...realMachine,
    slept,
    now: () => Date.now() + aheadMs,
    pass: (milliseconds) => void (aheadMs += milliseconds),
    sleep: async (milliseconds) => {
      slept.push(milliseconds);
      aheadMs += milliseconds;
    },
  };
}

/** The machine, but nobody waits. */
export const hurried: Machine = { ...realMachine, sleep: async () => undefined };

/** An adapter over a server, with the policy of the demo unit where none is named. */
export async function adapterOver(
  baseUrl: string,
  {
    asOf = demoInstant,
    machine = hurried,
    stop,
    policy = demoPolicyLayers,
    maxPages,
    lacking,
    batches,
    pageSize,
    ...more
  }: Partial<Omit<PollerOptions, 'asOf'>> & {
    asOf?: string;
    stop?: AbortSignal;
    policy?: readonly string[];
    maxPages?: number;
    lacking?: Lacking;
    /** False for a test whose faults or counts name the single reads. */
    batches?: boolean;
    pageSize?: number;
  } = {},
): Promise<Poller> {
  return new Poller({
    server: new FhirServer({
      baseUrl,
      machine,
      ...(stop ? { stop } : {}),
      ...(maxPages ? { maxPages } : {}),
      ...(lacking ? { lacking } : {}),
      ...(pageSize ? { pageSize } : {}),
      ...(batches === undefined ? {} : { batches }),
    }),
    care: dueCareBy(await loadPolicy(policy), demoZone),
    machine,
    log: pino({ level: 'silent' }),
    asOf: () => asOf,
    fullEvery: 1,
    overlapMs: 60_000,
    patientsAtOnce: 2,
    maxEntries: 500,
    ...more,
  });
}

/** The demo unit, or only what belongs to some of its patients. */
export function unitOf(...patients: string[]): Bundle {
  return only(demoUnit(), patients);
}

/** What arrives later. */
export function updateOf(...patients: string[]): Bundle {
  return only(demoUpdate(), patients);
}

function only(bundle: Bundle<FhirResource>, patients: string[]): Bundle {
  if (patients.length === 0) return bundle;
  const isTheirs = (resource: Resource) => {
    const { subject, patient } = resource as {
      subject?: { reference?: string };
      patient?: { reference?: string };
    };
    const about = subject?.reference ?? patient?.reference;
    if (resource.resourceType === 'Patient') return patients.includes(resource.id!);
    return about === undefined || patients.some((id) => about.endsWith(`Patient/${id}`));
  };
  return { ...bundle, entry: bundle.entry!.filter(({ resource }) => isTheirs(resource!)) };
}

/** A search as any client would make it, without a module of ours. */
export async function search<Kind extends Resource>(baseUrl: string, query: string): Promise<Kind[]> {
  const found: Kind[] = [];
  let url: string | undefined = `${baseUrl}/${query}`;
  while (url !== undefined) {
    const response = await fetch(url);
    if (response.status !== 200) throw new Error(`${response.status} ${await response.text()}`);
    const { entry, link } = (await response.json()) as Bundle;
    found.push(...(entry ?? []).map(({ resource }) => resource as Kind));
    url = link?.find(({ relation }) => relation === 'next')?.url;
  }
  return found;
}

/** A write as any client would make it. */
export async function send(baseUrl: string, method: string, path: string, resource: object): Promise<number> {
  const response = await fetch(`${baseUrl}/${path}`, {
    method,
    headers: { 'content-type': 'application/fhir+json' },
    body: JSON.stringify(resource),
  });
  await response.text();
  return response.status;
}

/** What a round wrote, in numbers. */
export function wrote({ written }: Awaited<ReturnType<Poller['round']>>): number {
  return written.created + written.updated + written.deleted;
}

/** Values of one identifier system that more than one resource has. */
export function doubled(resources: readonly Resource[], system: string): string[] {
  const values = resources.flatMap((resource) =>
    ((resource as { identifier?: { system?: string; value?: string }[] }).identifier ?? [])
      .filter((identifier) => identifier.system === system)
      .map(({ value }) => value!),
  );
  return values.filter((value, index) => values.indexOf(value) !== index);
}
