import { z } from 'zod';
import { wholeNumber, type Variable } from './config-variable.js';
import { serviceBase } from './fhir-server/index.js';
import { isSafeUrl } from './local.js';

/** What may be served beside the state of the service. */
export const interfaceNames = ['cds-hooks', 'rest'] as const;
export type InterfaceName = (typeof interfaceNames)[number];

/** What is served beside the state of the service, and to whom. */
export const interfaceVariables = {
  DWELLWARD_INTERFACES: {
    key: 'interfaces',
    schema: z
      .string()
      .transform((text) => (text === 'none' ? [] : text.split(',').map((name) => name.trim())))
      .pipe(z.array(z.enum(interfaceNames))),
    allowed: `none, or some of ${interfaceNames.join(', ')}, separated by commas`,
    help: 'What is served beside /healthz, /readyz and /metrics. Without a guard they are served on a loopback address only.',
    preset: 'none',
  },
  DWELLWARD_NOTIFY_TOKEN: {
    key: 'notifyToken',
    schema: z.string().regex(/^[A-Za-z0-9_-]{32,256}$/),
    allowed: '32 to 256 letters, digits, - and _, drawn at random',
    help: 'Secret part of the path /notified/TOKEN, to which rest-hook Subscriptions of the FHIR server lead: the next look comes at once.',
    optional: true,
    secret: true,
  },
  DWELLWARD_CDS_SERVERS: {
    key: 'cdsServers',
    schema: z.string().transform((text, context) => {
      if (text === 'none') return [];
      try {
        return text.split(',').map((base) => serviceBase(base.trim()));
      } catch {
        context.addIssue('not a service base');
        return z.NEVER;
      }
    }),
    allowed: 'none, or http or https URLs with no user name, query or fragment, separated by commas',
    help: 'Other service bases by which CDS clients name the FHIR server of DWELLWARD_FHIR_URL. A patient of any other server is not read.',
    preset: 'none',
  },
  DWELLWARD_CDS_CLIENTS: {
    key: 'cdsClients',
    schema: z.string(),
    allowed: 'a JSON file such as {"https://ehr.example": "https://ehr.example/jwks.json"}',
    help: 'CDS clients that may ask: the JWK Set, a URL or a file, of each issuer of their tokens. Needs DWELLWARD_PUBLIC_URL beside it.',
    optional: true,
  },
  DWELLWARD_PUBLIC_URL: {
    key: 'publicUrl',
    schema: z
      .string()
      .refine(isSafeUrl)
      .transform((text) => text.replace(/\/$/, '')),
    allowed: 'an https URL (http on a loopback address)',
    help: 'Where CDS clients reach the adapter: a token is taken only for the address that it names.',
    optional: true,
  },
  DWELLWARD_CDS_SECONDS: {
    ...wholeNumber('cdsSeconds', 1, 60),
    help: 'How long a CDS client waits at most, in seconds. Then its card says that the record could not be read.',
    preset: '8',
  },
} as const satisfies Record<string, Variable<string>>;
