import type { Bundle, BundleEntry, OperationOutcome } from 'fhir/r4.js';
import { FhirServerError } from './errors.js';

/**
 * True where sending the bundle twice leaves what sending it once leaves: creates are conditional on an identifier,
 * updates on a version or on an id of our own choice.
 */
export function isRepeatable(bundle: Bundle): boolean {
  return (bundle.entry ?? []).every(({ request }) => {
    if (request === undefined) return false;
    return request.method === 'POST' ? request.ifNoneExist !== undefined : request.method !== 'PATCH';
  });
}

/**
 * The response where every entry has a 2xx answer.
 * @throws FhirServerError `not-fhir` where it is no Bundle; `conflict` where an entry lost against another writer;
 *   `half-done` where another entry failed or answers are missing.
 */
export function checkTransactionResponse(sent: Bundle, body: unknown, url: string): Bundle {
  const at = { method: 'POST', resourceType: 'Bundle', url } as const;
  if (typeof body !== 'object' || body === null || (body as Bundle).resourceType !== 'Bundle') {
    throw new FhirServerError('not-fhir', { ...at, detail: 'the answer to a transaction is not a Bundle' });
  }
  const response = body as Bundle;
  const answers = response.entry ?? [];
  const failed = answers.filter((entry) => !/^2\d\d/.test(entry.response?.status ?? ''));
  const first = failed[0];
  if (first !== undefined) {
    const outcome = outcomeOf(first);
    const lost = failed.every((entry) => /^(409|412)/.test(entry.response?.status ?? ''));
    throw new FhirServerError(lost ? 'conflict' : 'half-done', {
      ...at,
      detail: `${failed.length} of ${answers.length} entries failed, the first with ${first.response?.status ?? 'no status'}`,
      ...(outcome === undefined ? {} : { outcome }),
    });
  }
  const expected = sent.entry?.length ?? 0;
  if (answers.length !== expected) {
    throw new FhirServerError('half-done', {
      ...at,
      detail: `${answers.length} answers to ${expected} entries`,
    });
  }
  return response;
}

function outcomeOf(entry: BundleEntry): OperationOutcome | undefined {
  const outcome = entry.response?.outcome;
  return outcome?.resourceType === 'OperationOutcome' ? (outcome as OperationOutcome) : undefined;
}

/**
 * Whether a refusal is meant for transactions as such, not for this one: there is no such operation at the service base
 * (404, 405, 501), or the server refuses it and does not list transactions among what it can do.
 */
export function refusesTransactions(error: unknown, notStated: boolean): error is FhirServerError {
  if (!(error instanceof FhirServerError)) return false;
  if ([404, 405, 501].includes(error.status ?? 0)) return true;
  return notStated && [400, 403, 415, 422].includes(error.status ?? 0);
}
