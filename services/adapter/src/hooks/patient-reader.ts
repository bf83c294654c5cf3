import {
  Calendar,
  dueCareOfEach,
  english,
  fhirVersionOf,
  readRecords,
  speaker,
  type AsOf,
  type CodeMaps,
  type LineCare,
  type NotReadBecause,
  type ReadOptions,
  type Records,
  type Ref,
} from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import { FhirServerError, type Fetched, type FhirServer, type Found } from '../fhir-server/index.js';
import type { Places } from '../places.js';
import { nameOf, readSlice, type DispensableType } from '../slice.js';

export interface PatientReaderOptions {
  readonly server: FhirServer;
  readonly places: Places;
  readonly policy: Policy;
  readonly maps?: CodeMaps | undefined;
  /** IANA zone of the unit. */
  readonly zone: string;
  /** The instant to compute for, ISO 8601. */
  readonly asOf: () => string;
  /** Types that the server does not have. */
  readonly without: readonly DispensableType[];
  /** Types of which the server is known to leave something out of its answers. */
  readonly acceptedGaps: readonly string[];
  /** Lumens of a patient that don’t name the patient; undefined until they have been looked for. */
  readonly lumensOf: (id: string) => readonly string[] | undefined;
  /** The version of FHIR that the server’s CapabilityStatement names. */
  readonly fhirVersion: () => string | undefined;
}

/** A patient as read now, and the care of every line. */
export interface PatientCare {
  /** `Patient/12`. */
  readonly patient: Ref;
  readonly records: Records;
  readonly cares: readonly LineCare[];
  readonly when: AsOf;
  /** What the reading may lack, one sentence each. */
  readonly doubts: readonly string[];
  /** What it was read from, and how. */
  readonly entries: readonly Found[];
  readonly readOptions: ReadOptions;
  /** Whether a line has a Device on the server: one that only a nursing chart tells of has none to point to. */
  readonly recordable: (line: Ref) => boolean;
}

/** A patient who could not be read, and why. */
export class NotRead extends Error {
  override readonly name = 'NotRead';
  readonly because: NotReadBecause;

  constructor(because: NotReadBecause, cause?: unknown) {
    super(because, { cause });
    this.because = because;
  }
}

/** An id as FHIR has them: anything else is no patient, and gets into no URL. */
const idPattern = /^[A-Za-z0-9\-.]{1,64}$/;

/** Reads a patient from the FHIR server at the moment it is asked, and works out due care; it writes nothing. */
export class PatientReader {
  readonly #options: PatientReaderOptions;

  constructor(options: PatientReaderOptions) {
    this.#options = options;
  }

  get policy(): Policy {
    return this.#options.policy;
  }

  get server(): FhirServer {
    return this.#options.server;
  }

  /** The moment and the zone that are computed for. */
  get when(): AsOf {
    return { asOf: this.#options.asOf(), zone: this.#options.zone };
  }

  /**
   * @param given what whoever asks has given along, by URL.
   * @throws NotRead
   */
  async read(id: string, given?: Fetched): Promise<PatientCare> {
    const { server, places, policy, without, acceptedGaps, maps } = this.#options;
    if (!idPattern.test(id)) throw new NotRead('no-such-patient');
    const lumens = this.#options.lumensOf(id);
    const slice = await readSlice(server, id, {
      without,
      places,
      lumens: lumens ?? [],
      ...(given ? { given } : {}),
    }).catch((error: unknown) => {
      throw error instanceof FhirServerError ? new NotRead(becauseOf(error), error) : error;
    });
    if (!slice.record.some(({ resource }) => nameOf(resource) === `Patient/${id}`))
      throw new NotRead('no-such-patient');
    const { when } = this;
    const fhirVersion = fhirVersionOf(this.#options.fhirVersion() ?? '');
    const readOptions: ReadOptions = {
      ...(fhirVersion === undefined ? {} : { fhirVersion }),
      ...(maps === undefined ? {} : { maps }),
    };
    const records = readRecords(slice.record, readOptions);
    const there = new Set(slice.record.map(({ resource }) => nameOf(resource)));
    const heard = (slice.doubts ?? []).filter(
      ({ code, resourceType }) => code !== 'hint' && !acceptedGaps.includes(resourceType),
    );
    const say = speaker(english, new Calendar(when.zone));
    return {
      patient: slice.patient,
      records,
      cares: dueCareOfEach(records.lines, policy, when),
      when,
      doubts: [
        ...heard.map(({ detail }) => detail),
        ...(lumens === undefined ? [say({ code: 'lumens-not-looked-for' })] : []),
      ],
      entries: slice.record,
      readOptions,
      recordable: (line) => there.has(line.split('#')[0] ?? line),
    };
  }
}

function becauseOf({ code }: FhirServerError): NotReadBecause {
  if (code === 'foreign-patient') return 'several-patients';
  if (code === 'refused') return 'refused';
  return noAnswer.has(code) ? 'no-answer' : 'error';
}

const noAnswer: ReadonlySet<string> = new Set([
  'throttled',
  'server-failed',
  'unreachable',
  'timed-out',
  'stopped',
]);
