import { STATUS_CODES } from 'node:http';
import type { Response } from 'express';

/** Why a request is not answered, for a program (`code`) and for people. Holds nothing of the request or of a record. */
export interface Problem {
  readonly status: number;
  readonly code: string;
  readonly detail: string;
  /** What stands in `WWW-Authenticate`. */
  readonly challenge?: string;
  readonly retryAfterSeconds?: number;
}

/** Answers with problem details (RFC 9457). */
export function sendProblem(response: Response, problem: Problem): void {
  const { status, code, detail, challenge, retryAfterSeconds } = problem;
  if (challenge !== undefined) response.set('www-authenticate', challenge);
  if (retryAfterSeconds !== undefined) response.set('retry-after', String(retryAfterSeconds));
  response.status(status).set('cache-control', 'no-store').type('application/problem+json');
  response.send(
    JSON.stringify({ type: 'about:blank', title: STATUS_CODES[status] ?? 'Problem', status, code, detail }),
  );
}
