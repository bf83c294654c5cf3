import { errors, jwtVerify, type JWTVerifyGetKey } from 'jose';
import type { Machine } from '../machine.js';
import { allowedAlgorithms, KeysUnavailable } from './keys.js';
import { scopesOf } from './scopes.js';

/** Clocks of two machines are a little apart: so much after its end a token is still taken. common practice, no source. */
const clockToleranceSeconds = 30;

export interface VerifierOptions {
  readonly keys: JWTVerifyGetKey;
  readonly issuer: string;
  readonly audience: string;
  readonly machine: Machine;
}

/** What is to be thought of a token. Says nothing of what stands in it but its scopes and its end. */
export type Verdict =
  | { readonly kind: 'valid'; readonly scopes: ReadonlySet<string>; readonly endsMs: number }
  /** The reason is for the log: all bad tokens get one answer. */
  | { readonly kind: 'invalid'; readonly because: string }
  | { readonly kind: 'unavailable'; readonly because: string };

/** Judges a bearer token: signature, algorithm, issuer, audience, begin and end. */
export async function verdictOn(token: string, options: VerifierOptions): Promise<Verdict> {
  const { keys, issuer, audience, machine } = options;
  try {
    const { payload } = await jwtVerify(token, keys, {
      algorithms: [...allowedAlgorithms],
      issuer,
      audience,
      // One that never ends could not be taken back.
      requiredClaims: ['exp'],
      clockTolerance: clockToleranceSeconds,
      currentDate: new Date(machine.now()),
    });
    const endsMs = ((payload.exp ?? 0) + clockToleranceSeconds) * 1000;
    return { kind: 'valid', scopes: scopesOf(payload), endsMs };
  } catch (error) {
    if (error instanceof KeysUnavailable) return { kind: 'unavailable', because: error.message };
    return { kind: 'invalid', because: reasonOf(error) };
  }
}

/** jose's code, and of a claim its name, never its value. */
function reasonOf(error: unknown): string {
  if (error instanceof errors.JWTClaimValidationFailed) return `${error.code} ${error.claim}`;
  return error instanceof errors.JOSEError ? error.code : 'not a token';
}
