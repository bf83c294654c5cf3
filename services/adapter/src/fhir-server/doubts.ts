import type { Bundle, OperationOutcome, OperationOutcomeIssue } from 'fhir/r4.js';

/** Something that the server says of its own answer, or that its answer leaves open. */
export interface Doubt {
  readonly code:
    /** `total` names more matches than came over all pages. */
    | 'fewer-than-total'
    /** An OperationOutcome among the entries: something was held back, went wrong or was not finished. */
    | 'outcome'
    /** A resource is there when it is read by its id, and the search left it out. */
    | 'left-out'
    /** Something worth knowing that takes nothing from the answer. */
    | 'hint';
  readonly resourceType: string;
  /** One sentence, for a log. */
  readonly detail: string;
}

/**
 * Issue types (R4 value set issue-type) of an answer from which something may be missing. Others that come as warnings
 * ("no matches", "parameter ignored") tell of the question; some servers send one with every answer.
 */
const holdsBack: ReadonlySet<string> = new Set([
  ...['security', 'login', 'unknown', 'expired', 'forbidden', 'suppressed'],
  ...['transient', 'lock-error', 'no-store', 'exception', 'timeout', 'incomplete', 'throttled'],
  'too-costly',
]);

/** What the OperationOutcomes among the entries of a page say. */
export function outcomesIn(bundle: Bundle, resourceType: string): Doubt[] {
  return (bundle.entry ?? []).flatMap((entry) => {
    const resource = entry?.resource;
    if (resource?.resourceType !== 'OperationOutcome') return [];
    const issues = (resource as OperationOutcome).issue;
    return (Array.isArray(issues) ? issues : []).map((issue) => ({
      code: leavesSomethingOut(issue) ? ('outcome' as const) : ('hint' as const),
      resourceType,
      detail: `The server says with its answer to the search for ${resourceType}: “${textOf(issue)}”.`,
    }));
  });
}

/** The doubt that a `total` leaves, where it is above what came. */
export function againstTotal(total: unknown, found: number, resourceType: string): Doubt | undefined {
  if (typeof total !== 'number' || total <= found) return undefined;
  const detail = `The search for ${resourceType} names ${total} matches and gave ${found}.`;
  return { code: 'fewer-than-total', resourceType, detail };
}

function leavesSomethingOut({ severity, code }: OperationOutcomeIssue): boolean {
  return severity === 'error' || severity === 'fatal' || (severity === 'warning' && holdsBack.has(code));
}

function textOf({ severity, code, diagnostics, details }: OperationOutcomeIssue): string {
  const text = diagnostics ?? details?.text ?? details?.coding?.[0]?.display ?? '';
  return `${severity}, ${code}${text === '' ? '' : `: ${text}`}`.slice(0, 300);
}
