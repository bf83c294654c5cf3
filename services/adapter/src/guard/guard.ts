import type { Request, RequestHandler, Response } from 'express';
import type { Logger } from 'pino';
import type { Machine } from '../machine.js';
import { isLocalRequest } from './local-request.js';
import { sendProblem, type Problem } from './problem.js';
import type { Scope } from './scopes.js';
import { verdictOn, type VerifierOptions } from './verify.js';

/** Whether a caller may do something. */
export type Admission =
  | {
      readonly admitted: true;
      /** Until when, milliseconds since 1970; without an end where absent. */
      readonly endsMs?: number;
    }
  | {
      readonly admitted: false;
      /** True for one who said nothing of who it is: what is open to all is open to it. */
      readonly anonymous: boolean;
      readonly problem: Problem;
    };

/** Judges who asks. */
export interface Guard {
  admit(request: Request, scope: Scope): Promise<Admission>;
}

/**
 * The guard where none is set: lets by who asks from this machine, and nobody else.
 * @param loopbackOnly whether the service listens on loopback only. On an open address a proxy beside the service makes
 *   everybody's request look like one from this machine.
 * @example
 * const app = createApp(poller, 600_000, () => [], undefined, { guard: localGuard(false) });
 */
export function localGuard(loopbackOnly: boolean): Guard {
  const problem: Problem = {
    status: 403,
    code: 'loopback-only',
    detail:
      'No guard is set (DWELLWARD_GUARD_KEYS): this is answered on a loopback address only, without a proxy.',
  };
  return {
    admit: (request) =>
      Promise.resolve(
        loopbackOnly && isLocalRequest(request)
          ? { admitted: true }
          : { admitted: false, anonymous: true, problem },
      ),
  };
}

const realm = 'Bearer realm="dwellward"';

/** The guard that asks everybody for a bearer token (RFC 6750), on loopback too: behind a proxy all come from there. */
export function tokenGuard(options: VerifierOptions & { readonly log: Logger }): Guard {
  const say = seldom(options.log, options.machine);
  return {
    async admit(request, scope) {
      const token = /^Bearer +(\S+) *$/i.exec(request.get('authorization') ?? '')?.[1];
      if (token === undefined) return { admitted: false, anonymous: true, problem: noToken };
      const verdict = await verdictOn(token, options);
      if (verdict.kind === 'unavailable') {
        say(verdict.because, 'Tokens of callers can’t be judged.');
        return { admitted: false, anonymous: false, problem: unavailable };
      }
      if (verdict.kind === 'invalid') {
        say(verdict.because, 'A caller’s token was refused.');
        return { admitted: false, anonymous: false, problem: badToken };
      }
      if (!verdict.scopes.has(scope)) {
        say(scope, 'A caller’s token lacks a scope.');
        return { admitted: false, anonymous: false, problem: lacks(scope) };
      }
      return { admitted: true, endsMs: verdict.endsMs };
    },
  };
}

const noToken: Problem = {
  status: 401,
  code: 'no-token',
  detail: 'A bearer token is needed.',
  challenge: realm,
};
/** One answer for every bad token: which part of it was wrong helps only whoever makes one up. */
const badToken: Problem = {
  status: 401,
  code: 'invalid-token',
  detail: 'The bearer token can’t be used.',
  challenge: `${realm}, error="invalid_token"`,
};
const unavailable: Problem = {
  status: 503,
  code: 'keys-unavailable',
  detail: 'Tokens can’t be judged now: the keys of their issuer can’t be had.',
  retryAfterSeconds: 10,
};
function lacks(scope: Scope): Problem {
  return {
    status: 403,
    code: 'insufficient-scope',
    detail: `The token lacks the scope ${scope}.`,
    challenge: `${realm}, error="insufficient_scope", scope="${scope}"`,
  };
}

/** Lets by who is admitted, for as long as that holds: a stream ends with its token. */
export function need(
  guard: Guard,
  scopeOf: (request: Request) => Scope,
  machine: Pick<Machine, 'now' | 'sleep'>,
): RequestHandler {
  return (request, response, next) => {
    guard
      .admit(request, scopeOf(request))
      .then((admission) => {
        if (!admission.admitted) return sendProblem(response, admission.problem);
        if (admission.endsMs !== undefined) endAt(admission.endsMs, response, machine);
        next();
      })
      .catch(next);
  };
}

/** Timers take no longer time; a later end is looked at again then. */
const longestSleepMs = 2 ** 31 - 1;

function endAt(endsMs: number, response: Response, machine: Pick<Machine, 'now' | 'sleep'>): void {
  const closed = new AbortController();
  response.once('close', () => closed.abort());
  const wait = async () => {
    while (!closed.signal.aborted && machine.now() < endsMs)
      await machine.sleep(Math.min(endsMs - machine.now(), longestSleepMs), closed.signal);
    if (!closed.signal.aborted) response.end();
  };
  void wait();
}

/** The same reason is said once a minute: callers could fill the log. */
const sayEveryMs = 60_000;

function seldom(log: Logger, machine: Machine): (because: string, sentence: string) => void {
  const saidMs = new Map<string, number>();
  return (because, sentence) => {
    const key = `${because} ${sentence}`;
    const now = machine.now();
    if (now - (saidMs.get(key) ?? -Infinity) < sayEveryMs) return;
    saidMs.set(key, now);
    log.warn({ because }, sentence);
  };
}
