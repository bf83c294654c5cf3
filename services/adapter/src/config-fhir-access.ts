import { z } from 'zod';
import type { Variable } from './config-variable.js';
import { isSafeUrl } from './local.js';

const file = z.string().refine((path) => path.trim() !== '');

/** With what the adapter goes to the FHIR server: one token, a file of tokens, or SMART Backend Services. */
export const fhirAccessVariables = {
  DWELLWARD_FHIR_TOKEN: {
    key: 'fhirToken',
    schema: z.string().regex(/^[\x21-\x7e]+$/),
    allowed: 'a bearer token of printable ASCII characters without spaces',
    help: 'Bearer token; sent to the service base and nowhere else.',
    optional: true,
    secret: true,
  },
  DWELLWARD_FHIR_TOKEN_FILE: {
    key: 'fhirTokenFile',
    schema: file,
    allowed: 'a file that holds a bearer token',
    help: 'Bearer token that something else renews: read anew for every call.',
    optional: true,
  },
  DWELLWARD_FHIR_CLIENT_ID: {
    key: 'fhirClientId',
    schema: z.string().regex(/^[\x20-\x7e]+$/),
    allowed: 'the client_id that the FHIR server gave the adapter, printable ASCII',
    help: 'Client of SMART Backend Services: the adapter gets its tokens itself.',
    optional: true,
  },
  DWELLWARD_FHIR_CLIENT_KEYS: {
    key: 'fhirClientKeys',
    schema: file,
    allowed: 'a file with a JWK or a JWK Set: RSA (RS384) or EC on P-384 (ES384), each key with a kid',
    help: 'Keys of this client. The first signs, the public parts of all stand at /.well-known/jwks.json. Read anew when they change.',
    optional: true,
  },
  DWELLWARD_FHIR_TOKEN_URL: {
    key: 'fhirTokenUrl',
    schema: z.string().refine(isSafeUrl),
    allowed: 'an https URL (http on a loopback address) with no user name',
    help: 'Where tokens are to be had. When absent the FHIR server is asked (.well-known/smart-configuration).',
    optional: true,
  },
  DWELLWARD_FHIR_SCOPES: {
    key: 'fhirScopes',
    schema: z.string().regex(/^[\x21\x23-\x5b\x5d-\x7e]+( [\x21\x23-\x5b\x5d-\x7e]+)*$/),
    allowed: 'scopes, separated by single spaces, for example system/*.rs system/Task.crus',
    help: 'What is asked for with each token. When absent: to read each type that is read, and to write each that is written.',
    optional: true,
  },
} as const satisfies Record<string, Variable<string>>;

type Environment = Readonly<Record<string, string | undefined>>;

/** One way in at most, and with it what belongs to it. */
export function fhirAccessProblems(environment: Environment): string[] {
  const set = (name: keyof typeof fhirAccessVariables) => Boolean(environment[name]);
  const ways = (
    ['DWELLWARD_FHIR_TOKEN', 'DWELLWARD_FHIR_TOKEN_FILE', 'DWELLWARD_FHIR_CLIENT_ID'] as const
  ).filter(set);
  const problems: string[] = [];
  if (ways.length > 1) problems.push(`${ways.join(' and ')} are set. It has to be one of them.`);
  const client = set('DWELLWARD_FHIR_CLIENT_ID');
  if (client && !set('DWELLWARD_FHIR_CLIENT_KEYS'))
    problems.push('DWELLWARD_FHIR_CLIENT_KEYS is missing. DWELLWARD_FHIR_CLIENT_ID needs it.');
  const itsOwn = ['DWELLWARD_FHIR_CLIENT_KEYS', 'DWELLWARD_FHIR_TOKEN_URL', 'DWELLWARD_FHIR_SCOPES'] as const;
  for (const name of client ? [] : itsOwn.filter(set))
    problems.push(`${name} is set without DWELLWARD_FHIR_CLIENT_ID, which it belongs to.`);
  return problems;
}
