import type { Care } from './care.js';
import { FhirServerError, type FhirServer } from './fhir-server/index.js';
import type { Machine } from './machine.js';
import { readSlice, type DispensableType } from './slice.js';
import { nothingWritten, plus, type DifferenceWriter, type Written } from './write.js';

/** What reconciling needs beside the patient. */
export interface Reconciling {
  readonly server: FhirServer;
  readonly writer: DifferenceWriter;
  readonly care: Care;
  /** Types that the server does not have. */
  readonly without: readonly DispensableType[];
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
  for (let tries = 1; ; tries++) {
    const slice = await readSlice(server, patientId, reconciling.without, lumens);
    const { bundle, nextChangeMs } = care.difference(slice, reconciling.asOf());
    if (bundle === undefined || (bundle.entry ?? []).length === 0) return { written, nextChangeMs, tries };
    try {
      await writer.write(bundle, (part) => {
        written = plus(written, part);
        onWritten(part);
      });
      return { written, nextChangeMs, tries };
    } catch (error) {
      if (!mayReadAgain(error) || tries >= maxTries || stop?.aborted) throw error;
      // Two adapters that met once must not meet again in step.
      await machine.sleep(waitBetweenTriesMs * 2 ** (tries - 1) * (0.5 + machine.random()), stop);
    }
  }
}

function mayReadAgain(error: unknown): boolean {
  return (
    error instanceof FhirServerError &&
    error.code !== 'stopped' &&
    (error.code === 'conflict' || error.writeUnknown)
  );
}
