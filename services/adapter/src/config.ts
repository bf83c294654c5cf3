import { defaultLayerNames, type DefaultLayerName } from '@dwellward/policy';
import { z } from 'zod';
import { referenceStyles, type ReferenceStyle } from './bindings.js';
import { fhirAccessProblems, fhirAccessVariables } from './config-fhir-access.js';
import { guardProblems, guardVariables } from './config-guard.js';
import { interfaceVariables, type InterfaceName } from './config-interfaces.js';
import { wholeNumber, type Variable } from './config-variable.js';
import { serviceBase } from './fhir-server/index.js';
import { dispensableTypes, recordTypes, writtenTypes, type DispensableType } from './slice.js';

/** The adapter’s settings, checked. */
export interface Config {
  /** Service base of the FHIR server, without trailing slash. */
  readonly fhirUrl: string;
  readonly fhirToken?: string;
  /** Path of a file that holds the token. */
  readonly fhirTokenFile?: string;
  /** Client of SMART Backend Services. */
  readonly fhirClientId?: string;
  /** Path of its keys. */
  readonly fhirClientKeys?: string;
  readonly fhirTokenUrl?: string;
  readonly fhirScopes?: string;
  /** IANA zone of the unit. */
  readonly zone: string;
  /** Names of bundled layers and paths of PlanDefinition files, in the order in which they lie over the default. */
  readonly policy: readonly string[];
  /** Layers of the default that are left out. */
  readonly policyWithout: readonly DefaultLayerName[];
  /** Layers that may be used though they are draft, experimental or retired. */
  readonly policyUnapproved: readonly string[];
  /** Paths of ConceptMap files: what the hospital’s own codes mean. */
  readonly maps: readonly string[];
  /** `all`, a Group or a List of the server, or the path of a file of ids. */
  readonly patients: string;
  readonly references: ReferenceStyle;
  /** Whether every write is told by an AuditEvent. */
  readonly audit: boolean;
  readonly pollSeconds: number;
  readonly fullEvery: number;
  readonly overlapSeconds: number;
  readonly host: string;
  readonly port: number;
  /** URL or path of the JWK Set by whose keys tokens of callers are signed; without one, details are given on loopback only. */
  readonly guardKeys?: string;
  readonly guardIssuer?: string;
  readonly guardAudience?: string;
  readonly callSeconds: number;
  readonly stopSeconds: number;
  readonly pageSize: number;
  readonly maxPages: number;
  readonly maxEntries: number;
  readonly patientsAtOnce: number;
  readonly without: readonly DispensableType[];
  readonly acceptedGaps: readonly string[];
  readonly massClosing: boolean;
  readonly readySeconds: number;
  /** Whether the unit’s board is answered. */
  readonly board: boolean;
  /** Whether users are signed in to the record system. */
  readonly boardSignIn: boolean;
  /** Path of a JSON file of minutes by activity. */
  readonly boardMinutes?: string;
  /** Hours of the day at which shifts begin. */
  readonly boardShifts: readonly number[];
  /** Path of a JSON file of figures, for the board. */
  readonly figures?: string;
  /** What is served beside /healthz, /readyz and /metrics. */
  readonly interfaces: readonly InterfaceName[];
  /** Other service bases by which CDS clients call the same FHIR server. */
  readonly cdsServers: readonly string[];
  readonly cdsSeconds: number;
  /** Path of a JSON file: the keys of CDS clients by issuer. */
  readonly cdsClients?: string;
  /** The secret part of the path to which a server’s notifications are sent. */
  readonly notifyToken?: string;
  /** Where others reach the adapter, without a slash at its end. */
  readonly publicUrl?: string;
  readonly logLevel: 'fatal' | 'error' | 'warn' | 'info' | 'debug' | 'silent';
}

/** Every variable that the adapter reads. Another one that begins with `DWELLWARD_` is a mistake. */
export const variables: Readonly<Record<string, Variable<keyof Config>>> = {
  DWELLWARD_FHIR_URL: {
    key: 'fhirUrl',
    schema: z.string().transform((text, context) => {
      try {
        return serviceBase(text);
      } catch {
        context.addIssue('not a service base');
        return z.NEVER;
      }
    }),
    allowed: 'an http or https URL with no user name, query or fragment, for example https://fhir.example/r4',
    help: 'Service base of the FHIR R4 server.',
  },
  ...fhirAccessVariables,
  DWELLWARD_ZONE: {
    key: 'zone',
    schema: z.string().refine(isZone),
    allowed: 'an IANA time zone, for example Europe/Berlin',
    help: 'Time zone of the unit. It decides when a day ends, so there is no default.',
  },
  DWELLWARD_POLICY: {
    key: 'policy',
    schema: z
      .string()
      .transform((text) => (text === 'none' ? [] : text.split(',').map((layer) => layer.trim())))
      .refine((layers) => layers.every((layer) => layer !== '') && new Set(layers).size === layers.length),
    allowed: 'none, or names of bundled layers or PlanDefinition files, separated by commas, each once',
    help: `Policy layers to lie over the default (${defaultLayerNames.join(', ')}); a later one changes the rules of those before it.`,
    preset: 'none',
  },
  DWELLWARD_POLICY_WITHOUT: {
    key: 'policyWithout',
    schema: z
      .string()
      .transform((text) => (text === 'none' ? [] : text.split(',').map((layer) => layer.trim())))
      .pipe(z.array(z.enum(defaultLayerNames))),
    allowed: `none, or some of ${defaultLayerNames.join(', ')}, separated by commas`,
    help: 'Layers of the default to leave out: what they ask for is asked for by nobody then.',
    preset: 'none',
  },
  DWELLWARD_POLICY_UNAPPROVED: {
    key: 'policyUnapproved',
    schema: z
      .string()
      .transform((text) => (text === 'none' ? [] : text.split(',').map((layer) => layer.trim())))
      .refine((layers) => layers.every((layer) => layer !== '')),
    allowed: 'none, or layers as DWELLWARD_POLICY names them, separated by commas',
    help: 'Layers that may be used though their plan is a draft, experimental or retired: for trying out, not for care.',
    preset: 'none',
  },
  DWELLWARD_MAPS: {
    key: 'maps',
    schema: z
      .string()
      .transform((text) => (text === 'none' ? [] : text.split(',').map((file) => file.trim())))
      .refine((files) => files.every((file) => file !== '') && new Set(files).size === files.length),
    allowed: 'none, or ConceptMap files, separated by commas, each once',
    help: 'What the hospital’s own codes mean. The server is asked for the lines of these codes too. dwellward codes FILE --start URL begins such a map.',
    preset: 'none',
  },
  DWELLWARD_POLL_SECONDS: {
    ...wholeNumber('pollSeconds', 1, 3600),
    help: 'Time between two looks at what has changed, in seconds.',
    preset: '30',
  },
  DWELLWARD_FULL_EVERY: {
    ...wholeNumber('fullEvery', 1, 10_000),
    help: 'Every so many looks all patients with lines are worked out anew.',
    preset: '20',
  },
  DWELLWARD_OVERLAP_SECONDS: {
    ...wholeNumber('overlapSeconds', 0, 86_400),
    help: 'How far each look reaches back behind the last, in seconds. Too short: a change that was slow to be stored waits for the next full round.',
    preset: '300',
  },
  DWELLWARD_HOST: {
    key: 'host',
    schema: z.string().regex(/^[A-Za-z0-9.:-]+$/),
    allowed: 'a host name or an address',
    help: 'Where the adapter answers. Off loopback and without a guard everybody gets health and counts alone.',
    preset: '127.0.0.1',
  },
  DWELLWARD_PORT: {
    ...wholeNumber('port', 0, 65_535),
    help: 'Port on which it answers; 0 takes a free one.',
    preset: '8080',
  },
  ...guardVariables,
  DWELLWARD_CALL_SECONDS: {
    ...wholeNumber('callSeconds', 1, 600),
    help: 'Time limit of one call to the FHIR server, in seconds.',
    preset: '30',
  },
  DWELLWARD_STOP_SECONDS: {
    ...wholeNumber('stopSeconds', 0, 600),
    help: 'How long a shutdown waits for the patients in hand, in seconds.',
    preset: '20',
  },
  DWELLWARD_PAGE_SIZE: {
    ...wholeNumber('pageSize', 1, 10_000),
    help: 'Resources asked for per page of a search.',
    preset: '200',
  },
  DWELLWARD_MAX_PAGES: {
    ...wholeNumber('maxPages', 1, 1_000_000),
    help: 'A search with more pages fails.',
    preset: '1000',
  },
  DWELLWARD_MAX_ENTRIES: {
    ...wholeNumber('maxEntries', 1, 10_000),
    help: 'Most entries that one transaction may have. Where the server refuses fewer, the adapter finds that out.',
    preset: '500',
  },
  DWELLWARD_PATIENTS_AT_ONCE: {
    ...wholeNumber('patientsAtOnce', 1, 64),
    help: 'How many patients are worked on side by side.',
    preset: '2',
  },
  DWELLWARD_PATIENTS: {
    key: 'patients',
    schema: z.string().min(1),
    allowed: 'all, Group/ID, List/ID, or a file of ids, one a line',
    help: 'Whose lines are looked after. All: whoever has a line is looked for. A Group, a List or a file: for a server that takes no search without a patient; each of them is read in every round.',
    preset: 'all',
  },
  DWELLWARD_AUDIT: {
    key: 'audit',
    schema: z.enum(['none', 'written']).transform((text) => text === 'written'),
    allowed: 'none or written',
    help: 'Whether an AuditEvent goes with every write: that it was Dwellward, for which patient, and when. None: the server keeps its own, as most do.',
    preset: 'none',
  },
  DWELLWARD_REFERENCES: {
    key: 'references',
    schema: z.enum(referenceStyles),
    allowed: referenceStyles.join(', '),
    help: 'How Tasks and what is written beside them refer to the hospital’s own resources other than patient and line. Logical: by an identifier, so that a server that enforces references lets them be deleted. As stated: logical where the server says that it enforces them.',
    preset: 'as-stated',
  },
  DWELLWARD_WITHOUT: {
    key: 'without',
    schema: z
      .string()
      .transform((text) => (text === 'none' ? [] : text.split(',').map((type) => type.trim())))
      .pipe(z.array(z.enum(dispensableTypes))),
    allowed: `none, or some of ${dispensableTypes.join(', ')}, separated by commas`,
    help: 'Resource types that the server does not have. What they would tell is unknown and read protectively; what would be written in them is left out.',
    preset: 'none',
  },
  DWELLWARD_ACCEPTED_GAPS: {
    key: 'acceptedGaps',
    schema: z
      .string()
      .transform((text) => (text === 'none' ? [] : text.split(',').map((type) => type.trim())))
      .pipe(z.array(z.enum([...recordTypes, ...writtenTypes]))),
    allowed: `none, or some of ${[...recordTypes, ...writtenTypes].join(', ')}, separated by commas`,
    help: 'Resource types of which the server is known to leave something out (its total is above what it gives, or it says so). For all others such an answer closes no Task.',
    preset: 'none',
  },
  DWELLWARD_MASS_CLOSING: {
    key: 'massClosing',
    schema: z.enum(['held', 'allowed']).transform((text) => text === 'allowed'),
    allowed: 'held or allowed',
    help: 'Whether more than a fifth of the unit’s open Tasks may be closed in one round, or a patient’s whose record is suddenly empty, without a second look. Allowed is a person’s word for one start, after the record was looked at.',
    preset: 'held',
  },
  DWELLWARD_READY_SECONDS: {
    ...wholeNumber('readySeconds', 10, 86_400),
    help: 'Age of the last completed round from which on /readyz says no, in seconds.',
    preset: '600',
  },
  DWELLWARD_BOARD: {
    key: 'board',
    schema: z.enum(['off', 'on']).transform((text) => text === 'on'),
    allowed: 'off or on',
    help: 'Whether the unit’s board is answered, under /board-api. Without a guard (DWELLWARD_GUARD_KEYS) it is answered on a loopback address only.',
    preset: 'off',
  },
  DWELLWARD_BOARD_SIGN_IN: {
    key: 'boardSignIn',
    schema: z.enum(['off', 'smart']).transform((text) => text === 'smart'),
    allowed: 'off or smart',
    help: 'Whether the board signs its users in to the FHIR server (SMART App Launch): then each sees the patients whom the server gives for their own token, and what they chart is written with it. Off, whoever reaches the board sees the whole unit.',
    preset: 'off',
  },
  DWELLWARD_BOARD_MINUTES: {
    key: 'boardMinutes',
    schema: z.string(),
    allowed: 'a JSON file such as {"flush": 4, "dressing-change": 20}',
    help: 'Minutes that the unit takes each activity to need; the board’s load counts items alone of the others.',
    optional: true,
  },
  DWELLWARD_BOARD_SHIFTS: {
    key: 'boardShifts',
    schema: z
      .string()
      .transform((text) => text.split(',').map((hour) => (hour.trim() === '' ? NaN : Number(hour))))
      .pipe(z.array(z.number().int().min(0).max(23)).max(6)),
    allowed: 'hours from 0 to 23, separated by commas, six at most',
    help: 'Hours of the day at which shifts begin, by the unit’s clock.',
    preset: '7,19',
  },
  DWELLWARD_FIGURES: {
    key: 'figures',
    schema: z.string(),
    allowed: 'a file as dwellward figures --format json writes it',
    help: 'The unit’s figures for the board; read anew whenever they are asked for. They are made from a whole export: the record of those who have a line today is not enough for them.',
    optional: true,
  },
  ...interfaceVariables,
  DWELLWARD_LOG_LEVEL: {
    key: 'logLevel',
    schema: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'silent']),
    allowed: 'fatal, error, warn, info, debug or silent',
    help: 'How much is logged. Patients appear by reference, never by name.',
    preset: 'info',
  },
};

/** Settings that can’t be used: every problem, in words. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
  readonly problems: readonly string[];

  constructor(problems: readonly string[]) {
    super(problems.join('\n'));
    this.problems = problems;
  }
}

/**
 * Reads the settings from environment variables. An empty value counts as absent.
 * @throws ConfigError with all problems at once: an unknown `DWELLWARD_` variable, one that is missing, one whose value
 *   can’t be used, each with what is allowed. Secrets are masked.
 */
export function readConfig(environment: Readonly<Record<string, string | undefined>>): Config {
  const problems: string[] = [];
  const given = Object.keys(environment).filter((name) => name.startsWith('DWELLWARD_'));
  for (const name of given.sort()) {
    if (!(name in variables))
      problems.push(`${name} is not known. Known are ${Object.keys(variables).join(', ')}.`);
  }
  const config: Record<string, unknown> = {};
  for (const [name, variable] of Object.entries(variables)) {
    const value = environment[name] || variable.preset;
    if (value === undefined) {
      if (!variable.optional) problems.push(`${name} is missing. It has to be ${variable.allowed}.`);
      continue;
    }
    const result = variable.schema.safeParse(value);
    if (result.success) config[variable.key] = result.data;
    else problems.push(`${name} is ${shown(value, variable)}. It has to be ${variable.allowed}.`);
  }
  problems.push(...fhirAccessProblems(environment), ...guardProblems(environment));
  if (problems.length > 0) throw new ConfigError(problems);
  return config as unknown as Config;
}

/** The value as given, cut to a length that fits a line; of a secret only how long it is. */
function shown(value: string, variable: Variable<keyof Config>): string {
  if (variable.secret) return `set to a secret of ${value.length} characters that can’t be used`;
  // A URL that is refused may hold a password.
  const safe = value.replace(/\/\/[^/@]*@/, '//***@');
  return `“${safe.length > 100 ? `${safe.slice(0, 100)}…` : safe}”`;
}

/** An offset is no zone: it does not know of clock changes. */
function isZone(name: string): boolean {
  if (!/^[A-Za-z]/.test(name)) return false;
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}
