import { CoreError } from '@dwellward/core';
import { FhirServerError } from './fhir-server/index.js';

/** A patient who could not be brought in step, for whoever looks after the service. No names. */
export interface Failing {
  /** `Patient/12`. */
  readonly patient: string;
  readonly since: string;
  readonly times: number;
  readonly code: string;
  readonly message: string;
}

/** What the service has done since it started. */
export interface Counters {
  rounds: number;
  fullRounds: number;
  roundsFailed: number;
  patientsDone: number;
  patientsFailed: number;
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
    conflicts: 0,
    created: 0,
    updated: 0,
    deleted: 0,
    policyFights: 0,
  };
}

/** An error in the words of a log line: a code and one sentence. */
export function described(error: unknown): { readonly code: string; readonly message: string } {
  if (error instanceof FhirServerError || error instanceof CoreError)
    return { code: error.code, message: error.message };
  if (error instanceof Error) return { code: error.name, message: error.message };
  return { code: 'unknown', message: String(error) };
}
