import type { NotUnderstood, RecordIssue } from '../model/record.js';
import { elementOf } from '../words/not-understood.js';

// A DetectedIssue points to a few; how many there are is told by the lists.
const mostRelated = 5;

/**
 * What was not understood as issues: one for each patient and kind, whose identity is the same however many there are. A kind
 * without a patient is one by itself.
 */
export function issuesNotUnderstood(notUnderstood: readonly NotUnderstood[]): RecordIssue[] {
  return notUnderstood.flatMap((one) =>
    one.patients.map(({ patient, resources }): RecordIssue => ({
      code: 'unknown-code',
      severity: one.onLine ? 'high' : 'moderate',
      resource: patient ?? one.resourceType,
      path: one.path,
      sentence: { code: 'not-understood', ...elementOf(one) },
      ...(patient === undefined ? {} : { patient }),
      related: resources.slice(0, mostRelated),
    })),
  );
}
