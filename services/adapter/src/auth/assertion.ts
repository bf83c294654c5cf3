import { randomUUID } from 'node:crypto';
import { SignJWT } from 'jose';
import type { SigningKey } from './client-keys.js';

/**
 * How long an assertion is good, seconds. SMART App Launch allows five minutes from the server's now; a minute is left
 * for a clock of ours that is ahead. Too short: a server whose clock is ahead takes it for over.
 */
export const assertionSeconds = 240;

/** What an assertion is made from. */
export interface AssertionParts {
  readonly clientId: string;
  /** The URL that it is posted to. */
  readonly tokenUrl: string;
  readonly signing: SigningKey;
  /** Milliseconds since 1970. */
  readonly nowMs: number;
}

/** Signs a JWT by which the client shows once who it is (SMART App Launch, asymmetric client authentication). */
export function clientAssertion({ clientId, tokenUrl, signing, nowMs }: AssertionParts): Promise<string> {
  return new SignJWT({})
    .setProtectedHeader({ alg: signing.algorithm, kid: signing.kid, typ: 'JWT' })
    .setIssuer(clientId)
    .setSubject(clientId)
    .setAudience(tokenUrl)
    .setExpirationTime(Math.floor(nowMs / 1000) + assertionSeconds)
    .setJti(randomUUID())
    .sign(signing.key);
}
