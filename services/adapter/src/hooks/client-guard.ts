import type { RequestHandler } from 'express';
import { decodeJwt, errors, jwtVerify, type JWTVerifyGetKey } from 'jose';
import type { Logger } from 'pino';
import { allowedAlgorithms, KeysUnavailable, sendProblem, type Problem } from '../guard/index.js';
import type { Machine } from '../machine.js';

/** Longer than five minutes a token of a client is not good (SMART Backend Services; CDS Hooks 2.0 suggests the same). */
const longestSeconds = 300;
/** Clocks of two machines are a little apart. common practice, no source. */
const toleranceSeconds = 30;
/** So many tokens are remembered as used; beyond that the oldest, which end first. */
const mostUsed = 100_000;

export interface ClientGuardOptions {
  /** By issuer, as the tokens name it: the keys by which theirs are signed. */
  readonly clients: ReadonlyMap<string, JWTVerifyGetKey>;
  /** Where clients reach the service: `https://adapter.example`, without a slash at its end. */
  readonly publicUrl: string;
  readonly machine: Machine;
  readonly log: Logger;
}

/**
 * Lets by CDS clients that are known, by the JSON Web Token that each call carries (CDS Hooks 2.0, “Trusting CDS Clients”):
 * its issuer is one of ours, it is signed by a key that we have of that issuer (never one that the token itself points to),
 * it is for the address that is called, it is not over, and it was not used before.
 */
export function clientGuard(options: ClientGuardOptions): RequestHandler {
  const used = new Map<string, number>();
  return (request, response, next) => {
    const token = /^Bearer +(\S+) *$/i.exec(request.get('authorization') ?? '')?.[1];
    if (token === undefined) return sendProblem(response, noToken);
    problemWith(token, `${request.baseUrl}${request.path}`, options, used)
      .then((problem) => (problem === undefined ? next() : sendProblem(response, problem)))
      .catch(next);
  };
}

async function problemWith(
  token: string,
  path: string,
  { clients, publicUrl, machine, log }: ClientGuardOptions,
  used: Map<string, number>,
): Promise<Problem | undefined> {
  try {
    const issuer = decodeJwt(token).iss ?? '';
    const keys = clients.get(issuer);
    if (keys === undefined) throw new errors.JWTInvalid('its issuer is not known');
    const { payload } = await jwtVerify(token, keys, {
      algorithms: [...allowedAlgorithms],
      issuer,
      audience: addressesOf(publicUrl, path),
      requiredClaims: ['exp', 'iat', 'jti'],
      maxTokenAge: longestSeconds,
      clockTolerance: toleranceSeconds,
      currentDate: new Date(machine.now()),
    });
    const key = JSON.stringify([issuer, payload.jti]);
    if (used.has(key)) throw new errors.JWTInvalid('it was used before');
    remember(used, key, ((payload.exp ?? 0) + toleranceSeconds) * 1000, machine.now());
    return undefined;
  } catch (error) {
    if (error instanceof KeysUnavailable) {
      log.error({ code: 'keys-unavailable' }, 'The keys of a CDS client can’t be had.');
      return unavailable;
    }
    // jose’s code and the claim, never a value: the token is somebody’s.
    const claim = error instanceof errors.JWTClaimValidationFailed ? error.claim : undefined;
    const code = error instanceof errors.JOSEError ? error.code : 'not-a-token';
    log.warn({ code, claim }, 'A CDS client was refused.');
    return badToken;
  }
}

/** A call is for its own address; the feedback of a service may be sent with a token for the service. */
function addressesOf(publicUrl: string, path: string): string[] {
  const own = `${publicUrl}${path}`.replace(/\/$/, '');
  return [own, own.replace(/\/feedback$/, '')];
}

function remember(used: Map<string, number>, key: string, untilMs: number, nowMs: number): void {
  for (const [other, endMs] of used) {
    if (endMs > nowMs && used.size < mostUsed) break;
    used.delete(other);
  }
  used.set(key, untilMs);
}

const challenge = 'Bearer realm="dwellward"';
const noToken: Problem = {
  status: 401,
  code: 'no-token',
  detail: 'A token of the CDS client is needed.',
  challenge,
};
/** One answer for every bad token: which part of it was wrong helps only whoever makes one up. */
const badToken: Problem = {
  status: 401,
  code: 'invalid-token',
  detail: 'The token of the CDS client can’t be used.',
  challenge: `${challenge}, error="invalid_token"`,
};
const unavailable: Problem = {
  status: 503,
  code: 'keys-unavailable',
  detail: 'Tokens can’t be judged now: the keys of their issuer can’t be had.',
  retryAfterSeconds: 10,
};
