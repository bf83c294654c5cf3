import type { RecordIssueCode } from '@dwellward/profiles';
import type { RecordIssue, Ref } from '../model/record.js';

type Details = Partial<Pick<RecordIssue, 'severity' | 'patient' | 'line' | 'related'>>;

/** Gathers what can't be used; the same issue is kept once. */
export class IssueList {
  readonly #issues = new Map<string, RecordIssue>();

  add(
    code: RecordIssueCode,
    resource: Ref,
    path: string,
    sentence: RecordIssue['sentence'],
    details: Details = {},
  ): void {
    const issue: RecordIssue = {
      code,
      resource,
      path,
      sentence,
      severity: 'moderate',
      related: [],
      ...details,
    };
    this.#issues.set(issueKey(issue), issue);
  }

  sorted(): RecordIssue[] {
    return [...this.#issues].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, issue]) => issue);
  }
}

/** What makes two issues the same one. */
export function issueKey(issue: RecordIssue): string {
  return [issue.resource, issue.code, issue.path, issue.line ?? '', JSON.stringify(issue.sentence)].join(
    '\u0000',
  );
}
