import { CoreError } from '@dwellward/core';
import { FhirServerError } from './fhir-server/index.js';
import type { Held } from './brake.js';
import { UnfitServer, type Fit } from './fit.js';
import { UnreadableList } from './listed.js';

/** A patient who could not be brought in step, for whoever looks after the service. No names. */
export interface Failing {
  /** `Patient/12`. */
  readonly patient: string;
  readonly since: string;
  readonly times: number;
  readonly code: string;
  readonly message: string;
  /** When it is tried again, at the earliest. */
  readonly nextTry?: string;
}

/** What the service has done since it started. */
export interface Counters {
  rounds: number;
  fullRounds: number;
  roundsFailed: number;
  patientsDone: number;
  patientsFailed: number;
  /** Patients to whom a write was refused. */
  writesRefused: number;
  /** Closings that the brake held back. */
  closingsHeld: number;
  /** Looks at a patient whose reading may have left something out. */
  incompleteReadings: number;
  conflicts: number;
  created: number;
  updated: number;
  deleted: number;
  /** Other policies found to keep the same Tasks. */
  policyFights: number;
}

export function newCounters(): Counters {
  return {
    rounds: 0,
    fullRounds: 0,
    roundsFailed: 0,
    patientsDone: 0,
    patientsFailed: 0,
    writesRefused: 0,
    closingsHeld: 0,
    incompleteReadings: 0,
    conflicts: 0,
    created: 0,
    updated: 0,
    deleted: 0,
    policyFights: 0,
  };
}

/** How the last round ended. */
export interface LastRound {
  readonly at: string;
  /** Whether the server could be asked. */
  readonly ok: boolean;
  readonly failed: number;
  /** Transactions that went through, and patients to whom a write was refused. */
  readonly writes: { readonly done: number; readonly refused: number };
  readonly code?: string;
  readonly message?: string;
}

/** Everything that tells how the adapter is doing; no names. */
export interface Status {
  readonly nowMs: number;
  readonly lastRound: LastRound | undefined;
  /** When the last round that got to its end did so, milliseconds since 1970. */
  readonly completedMs: number | undefined;
  readonly patients: number;
  /** Open Tasks of ours, as far as they were read. */
  readonly openTasks: number;
  readonly failing: readonly Failing[];
  readonly held: readonly Held[];
  /** What the last look for patients with lines may have left out. */
  readonly gaps: readonly string[];
  readonly fit: Fit | undefined;
  readonly clockSkewMs: number;
  /** For how long the server has asked to be left alone. */
  readonly closedForMs: number;
  readonly writesOneByOne: boolean;
  readonly callsTimedOut: number;
  readonly counters: Counters;
}

/** An error in the words of a log line: a code and one sentence. */
export function described(error: unknown): { readonly code: string; readonly message: string } {
  if (
    error instanceof FhirServerError ||
    error instanceof CoreError ||
    error instanceof UnfitServer ||
    error instanceof UnreadableList
  )
    return { code: error.code, message: error.message };
  if (error instanceof Error) return { code: error.name, message: error.message };
  return { code: 'unknown', message: String(error) };
}
