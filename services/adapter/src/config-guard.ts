import { z } from 'zod';
import type { Variable } from './config-variable.js';
import { isSafeUrl } from './local.js';

/** How the adapter's own doors are guarded. */
export const guardVariables = {
  DWELLWARD_GUARD_KEYS: {
    key: 'guardKeys',
    schema: z.string().refine((text) => !/^[a-z][a-z0-9+.-]*:\/\//i.test(text) || isSafeUrl(text)),
    allowed: 'an https URL (http on a loopback address), or a file',
    help: 'JWK Set by whose keys the tokens of callers are signed, asked for again when it changes. With it every caller needs a token, on loopback too.',
    optional: true,
  },
  DWELLWARD_GUARD_ISSUER: {
    key: 'guardIssuer',
    schema: z.string().regex(/^\S+$/),
    allowed: 'a text without spaces, as the tokens have it',
    help: 'Who gives callers their tokens: what stands as iss in each.',
    optional: true,
  },
  DWELLWARD_GUARD_AUDIENCE: {
    key: 'guardAudience',
    schema: z.string().regex(/^\S+$/),
    allowed: 'a text without spaces, as the tokens have it',
    help: 'For whom these tokens are: what stands as aud in each.',
    optional: true,
  },
} as const satisfies Record<string, Variable<string>>;

/** A guard that is set in part guards nothing: all of its settings, or none. */
export function guardProblems(environment: Readonly<Record<string, string | undefined>>): string[] {
  const names = Object.keys(guardVariables);
  const missing = names.filter((name) => !environment[name]);
  if (missing.length === 0 || missing.length === names.length) return [];
  return missing.map((name) => `${name} is missing. ${names.join(', ')} are set together, or none of them.`);
}
