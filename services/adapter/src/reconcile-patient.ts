import type { Resource } from 'fhir/r4.js';
import { audited } from './audit.js';
import { rebound, unbound } from './bindings.js';
import type { Care, Slice } from './care.js';
import { FhirServerError, type FhirServer } from './fhir-server/index.js';
import type { Machine } from './machine.js';
import type { PolicyWatch } from './policy-watch.js';
import type { Places } from './places.js';
import { stillAsRead } from './unversioned.js';
import { readSlice, type DispensableType } from './slice.js';
import { nothingWritten, plus, type Writer, type Written } from './write.js';

/** What reconciling needs beside the patient. */
export interface Reconciling {
  readonly server: FhirServer;
  readonly writer: Writer;
  readonly care: Care;
  /** True where what is written must bind none of the hospital’s own resources. */
  readonly logicalReferences: boolean;
  /** Whether every write is told by an AuditEvent. */
  readonly audit: boolean;
  /** Finds out whether another policy keeps the same Tasks. */
  readonly watch: PolicyWatch;
  /** Types that the server does not have. */
  readonly without: readonly DispensableType[];
  /** The places that were read for others. */
  readonly places: Places;
  /** The instant to compute for, ISO 8601; asked anew for every try. */
  readonly asOf: () => string;
  readonly machine: Machine;
  readonly stop?: AbortSignal;
}

/** What came of a patient. */
export interface Reconciled {
  readonly written: Written;
  readonly nextChangeMs: number | undefined;
  /** 1 where nobody else wrote in the meantime. */
  readonly tries: number;
}

/** How often a patient is read again after a conflict or a write of open outcome, before the next round has to do. */
const maxTries = 4;
const waitBetweenTriesMs = 200;

/**
 * Brings one patient’s Tasks, Flags and DetectedIssues in step with due care: reads, computes, writes the difference.
 * Where somebody else wrote in the meantime, or it is open whether a write was done, it reads and computes again.
 * A second run writes nothing; a run that is killed anywhere leaves the rest to the next.
 * @param onWritten told after every transaction, also where the patient fails later.
 * @throws FhirServerError where the server refuses, or the tries are used up.
 */
export async function reconcilePatient(
  reconciling: Reconciling,
  patientId: string,
  lumens: readonly string[],
  onWritten: (written: Written) => void,
): Promise<Reconciled> {
  const { server, writer, care, machine, stop } = reconciling;
  let written = nothingWritten;
  const matches = new Map<string, Resource>();
  for (let tries = 1; ; tries++) {
    const slice = withMatches(await readSlice(server, patientId, { ...reconciling, lumens }), matches);
    const asOf = reconciling.asOf();
    const contested = reconciling.watch.look(slice.existing, care.policies?.(asOf) ?? [], machine.now());
    const { bundle: worked, nextChangeMs } = care.difference({ ...slice, contested }, asOf);
    if (worked === undefined || (worked.entry ?? []).length === 0) return { written, nextChangeMs, tries };
    const told = reconciling.audit ? audited(worked, slice.patient, nowText(machine)) : worked;
    const bundle = reconciling.logicalReferences ? unbound(told, server.baseUrl) : told;
    try {
      await stillAsRead(server, bundle, slice.existing);
      const found: string[] = [];
      await writer.write(bundle, (part) => {
        written = plus(written, part);
        found.push(...part.matches);
        onWritten(part);
      });
      reconciling.watch.wrote(bundle);
      const unread = found.filter((name) => name.startsWith('Task/') && !matches.has(name));
      if (unread.length === 0 || tries >= maxTries || stop?.aborted) return { written, nextChangeMs, tries };
      await readMatches(server, unread, matches);
    } catch (error) {
      if (!mayReadAgain(error) || tries >= maxTries || stop?.aborted) throw error;
      // Two adapters that met once must not meet again in step.
      await machine.sleep(waitBetweenTriesMs * 2 ** (tries - 1) * (0.5 + machine.random()), stop);
    }
  }
}

/**
 * Tasks that a conditional create found though the patient’s slice did not hold them: another wrote them in the meantime,
 * or they name another patient. Unread they would stand for care of which nobody knows what became.
 */
async function readMatches(
  server: FhirServer,
  names: readonly string[],
  matches: Map<string, Resource>,
): Promise<void> {
  for (const name of names) {
    const task = await server.read('Task', name.slice('Task/'.length));
    if (task !== undefined) matches.set(name, rebound(task, server.baseUrl));
  }
}

function withMatches(slice: Slice, matches: ReadonlyMap<string, Resource>): Slice {
  const known = new Set(slice.existing.map(({ resourceType, id }) => `${resourceType}/${id}`));
  const more = [...matches].filter(([name]) => !known.has(name)).map(([, task]) => task);
  return more.length === 0 ? slice : { ...slice, existing: [...slice.existing, ...more] };
}

function mayReadAgain(error: unknown): boolean {
  return (
    error instanceof FhirServerError &&
    error.code !== 'stopped' &&
    (error.code === 'conflict' || error.writeUnknown)
  );
}

function nowText(machine: Machine): string {
  return new Date(machine.now()).toISOString();
}
