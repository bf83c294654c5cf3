import type { OperationOutcome } from 'fhir/r4.js';

/** What went wrong with a call, in one word that code can decide on. */
export type FhirServerErrorCode =
  /** 409 or 412: somebody else wrote in the meantime, or several resources match one identifier. */
  | 'conflict'
  /** Another 4xx. */
  | 'refused'
  /** 429, or 503: not now. */
  | 'throttled'
  /** Another 5xx. */
  | 'server-failed'
  /** No connection, or it broke. */
  | 'unreachable'
  /** The call's time limit passed. */
  | 'timed-out'
  /** The access token for the call can't be had: it was not made. */
  | 'no-token'
  /** The adapter is shutting down. */
  | 'stopped'
  /** 3xx: redirects are not followed, they could lead the token and the patient’s data elsewhere. */
  | 'redirected'
  /** 2xx, but not the FHIR resource that was asked for. */
  | 'not-fhir'
  /** A 2xx transaction response in which entries failed or are missing. */
  | 'half-done'
  /** A next link leads to another origin or out of the service base. */
  | 'foreign-next-link'
  /** A next link leads back to a page that was read, or to pages that bring nothing new. */
  | 'next-link-loop'
  /** A search has more pages than the cap. */
  | 'too-many-pages'
  /** The server takes no transactions: from here on entries are written one by one. */
  | 'no-transactions'
  /** A search gave resources of another patient: the server ignores the parameter. */
  | 'foreign-patient';

/** How a call is made. */
export type Method = 'GET' | 'POST' | 'PUT' | 'DELETE';

/** Machine fields of a {@link FhirServerError}. */
export interface FhirServerErrorFields {
  readonly method: Method;
  /** `Bundle` for a transaction. */
  readonly resourceType: string;
  readonly url: string;
  readonly status?: number;
  readonly outcome?: OperationOutcome;
  /** How long the server asks to be left alone, milliseconds. */
  readonly retryAfterMs?: number;
  readonly detail?: string;
  readonly cause?: unknown;
}

/** A call to the FHIR server that did not give what was asked for. Never holds the token. */
export class FhirServerError extends Error {
  override readonly name = 'FhirServerError';
  readonly code: FhirServerErrorCode;
  readonly method: Method;
  readonly resourceType: string;
  readonly url: string;
  readonly status: number | undefined;
  readonly outcome: OperationOutcome | undefined;
  readonly retryAfterMs: number | undefined;

  constructor(code: FhirServerErrorCode, fields: FhirServerErrorFields) {
    const what = [
      `${fields.method} ${fields.resourceType} at ${fields.url}: ${code}`,
      fields.status === undefined ? undefined : `status ${fields.status}`,
      fields.detail,
      outcomeText(fields.outcome),
    ];
    super(what.filter(Boolean).join('; '), { cause: fields.cause });
    this.code = code;
    this.method = fields.method;
    this.resourceType = fields.resourceType;
    this.url = fields.url;
    this.status = fields.status;
    this.outcome = fields.outcome;
    this.retryAfterMs = fields.retryAfterMs;
  }

  /** True where a write may or may not have been done: read again before writing again. */
  get writeUnknown(): boolean {
    if (this.method === 'GET') return false;
    return ['timed-out', 'unreachable', 'server-failed', 'half-done', 'not-fhir', 'stopped'].includes(
      this.code,
    );
  }
}

/** The texts of an OperationOutcome in one line, at most 300 characters. */
function outcomeText(outcome: OperationOutcome | undefined): string | undefined {
  const issues = Array.isArray(outcome?.issue) ? outcome.issue : [];
  const texts = issues
    .map((issue) => issue?.diagnostics ?? issue?.details?.text ?? issue?.code)
    .filter(Boolean);
  return texts.length === 0 ? undefined : `“${texts.join(' | ').slice(0, 300)}”`;
}
