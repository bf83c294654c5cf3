import type { LineTokens } from '@dwellward/core';
import type { Logger } from 'pino';
import type { ReferenceStyle } from './bindings.js';
import { Brake, type Review } from './brake.js';
import type { Care, Slice } from './care.js';
import { FhirServerError, type Doubt, type FhirServer } from './fhir-server/index.js';
import { checkFit, type Fit } from './fit.js';
import type { Listed } from './listed.js';
import type { Machine } from './machine.js';
import { Places } from './places.js';
import { PolicyWatch } from './policy-watch.js';
import { reconcilePatient, type Reconciled } from './reconcile-patient.js';
import { isOpenTask, type DispensableType } from './slice.js';
import { described, newCounters, type Counters, type LastRound, type Status } from './status.js';
import { Whom } from './whom.js';
import { DifferenceWriter, nothingWritten, plus, type Writer, type Written } from './write.js';

export interface PollerOptions {
  readonly server: FhirServer;
  readonly care: Care;
  readonly machine: Machine;
  readonly log: Logger;
  /** The instant to compute for, ISO 8601. */
  readonly asOf: () => string;
  /** Every so many rounds all patients with lines are worked out anew. */
  readonly fullEvery: number;
  readonly overlapMs: number;
  readonly patientsAtOnce: number;
  readonly maxEntries: number;
  /** Types that the server does not have. */
  readonly without?: readonly DispensableType[];
  /** Types of which the server is known to leave something out of its answers. */
  readonly acceptedGaps?: readonly string[];
  /** By what codes lines and insertions are looked for; ours and the published ones where absent. */
  readonly tokens?: LineTokens;
  /** Whom to look at, where that is said: each of them in every round, since nothing tells who has changed. */
  readonly listed?: Listed;
  /** True where a person has said that mass closings are right. */
  readonly massClosing?: boolean;
  /** How what is written refers to the hospital’s own resources. */
  readonly references?: ReferenceStyle;
  /** Whether every write is told by an AuditEvent. */
  readonly audit?: boolean;
  /** Where differences go; to the server where absent. */
  readonly writer?: Writer;
  /** No further patient is taken up once it fires; those in hand are finished. */
  readonly drain?: AbortSignal;
}

/** What one round did. */
export interface Round {
  readonly full: boolean;
  readonly patients: number;
  readonly failed: number;
  /** Patients whose Tasks were not closed though their records as they were read ask for it. */
  readonly held: number;
  readonly written: Written;
}

/** So many patients in a row whom the server gives no answer for end the round: it would be the same for all others. */
const noAnswersInARow = 8;

/** Keeps every patient with a line in step. One round at a time; within it one writer per patient. */
export class Poller {
  readonly counters: Counters = newCounters();
  readonly #options: PollerOptions;
  readonly #whom: Whom;
  readonly #writer: Writer;
  readonly #brake: Brake;
  readonly #watch: PolicyWatch;
  readonly #places: Places;
  /** What the server has said of its answers, each once. */
  readonly #heard = new Set<string>();
  /** The round that runs, so that the next waits for it: two would write for the same patient. */
  #turn: Promise<unknown> = Promise.resolve();
  #lastRound: LastRound | undefined;
  #completedMs: number | undefined;
  #fit: Fit | undefined;
  /** True until a full round has looked at everybody. */
  #fullOwed = true;
  #noAnswers = 0;
  #writes = { done: 0, refused: 0 };
  /** What ended the round that runs: no answers, or the server asks to be left alone. */
  #ended: { readonly by: unknown } | undefined;

  constructor(options: PollerOptions) {
    this.#options = options;
    const { server, maxEntries, acceptedGaps = [], massClosing = false } = options;
    this.#writer = options.writer ?? new DifferenceWriter(server, maxEntries);
    this.#brake = new Brake(acceptedGaps, massClosing);
    this.#places = new Places(server, () => options.machine.now());
    this.#watch = new PolicyWatch(({ policy }) => {
      this.counters.policyFights += 1;
      options.log.error(
        { policy },
        'Another adapter keeps the same Tasks by this other policy. Nothing that it asks for is taken back until one of the two is switched off.',
      );
    });
    this.#whom = new Whom(options, this.#brake, (doubt) => this.#say(doubt));
  }

  get failing(): Status['failing'] {
    return this.#whom.failing.list;
  }

  get patients(): number {
    return this.#whom.count;
  }

  /** Ids of the lumens of a patient that don’t name the patient, as the last look for lines has found them. */
  lumensOf(id: string): readonly string[] {
    return this.#whom.lumensOf(id);
  }

  /** When the last round ended and whether the server could be asked; undefined before the first has ended. */
  get lastRound(): LastRound | undefined {
    return this.#lastRound;
  }

  /** Everything that tells how it goes. */
  get status(): Status {
    const { server, machine } = this.#options;
    return {
      nowMs: machine.now(),
      lastRound: this.#lastRound,
      completedMs: this.#completedMs,
      patients: this.patients,
      openTasks: this.#brake.openTasks,
      failing: this.failing,
      held: this.#brake.held,
      gaps: this.#whom.gaps,
      fit: this.#fit,
      clockSkewMs: server.clockSkewMs,
      closedForMs: server.closedForMs,
      writesOneByOne: server.writesOneByOne,
      callsTimedOut: server.timedOut,
      counters: this.counters,
    };
  }

  /**
   * Asks the server what it is, unless it was asked before.
   * @throws UnfitServer where the adapter must not work with it. @throws FhirServerError where it can’t be asked now.
   */
  async checkServer(): Promise<void> {
    this.#fit ??= await checkFit(this.#options.server, this.#options.log);
  }

  /**
   * One round: finds out whom to look at and brings them in step. A patient who fails is noted and tried again, with
   * growing waits; the others go on.
   * @throws FhirServerError where the server could not be asked whom to look at, or asks to be left alone.
   * @throws UnfitServer where the adapter must not work with it.
   */
  round(): Promise<Round> {
    const turn = this.#turn.then(() => this.#round());
    this.#turn = turn.catch(() => undefined);
    return turn;
  }

  /**
   * Brings one patient in step at once, before the next round: who has charted wants to see what follows. It waits for
   * the round that runs, because two would write for the same patient. What failed is tried again as always. It decides
   * on no closing that was put aside: whether they are too many only a round can tell.
   * @returns false where the patient could not be brought in step.
   */
  lookAt(id: string): Promise<boolean> {
    const turn = this.#turn.then(async () => {
      if (this.#stopping) return false;
      await this.checkServer();
      return this.#reconcile(id, false, () => undefined);
    });
    this.#turn = turn.catch(() => undefined);
    return turn;
  }

  async #round(): Promise<Round> {
    const { machine, log, server, fullEvery, listed } = this.#options;
    const full = this.#fullOwed || listed !== undefined || this.counters.rounds % fullEvery === 0;
    if (full) this.#fullOwed = true;
    this.counters.rounds += 1;
    this.#noAnswers = 0;
    this.#ended = undefined;
    this.#brake.begin();
    this.#writes = { done: 0, refused: 0 };
    try {
      await this.checkServer();
      const startedMs = machine.now();
      const queue = full
        ? await this.#whom.everyone()
        : await this.#whom.changed(startedMs + server.clockSkewMs);
      const round = await this.#reconcileAll(queue, full);
      if (full && !this.#stopping) {
        this.counters.fullRounds += 1;
        this.#fullOwed = false;
        server.lacking.forgetRefusals();
        this.#whom.feed.startFrom(startedMs + server.clockSkewMs);
      }
      this.#completedMs = machine.now();
      this.#lastRound = { at: this.#now(), ok: true, failed: round.failed, writes: this.#writes };
      return round;
    } catch (error) {
      this.counters.roundsFailed += 1;
      const { code, message } = described(error);
      this.#lastRound = { at: this.#now(), ok: false, failed: 0, writes: this.#writes, code, message };
      log.error({ code, message }, 'The round failed; the next one tries again.');
      throw error;
    }
  }

  async #reconcileAll(queue: readonly string[], full: boolean): Promise<Round> {
    let written = nothingWritten;
    let failed = 0;
    let patients = 0;
    const lookAt = async (ids: readonly string[], agreed: boolean) => {
      const waiting = [...ids];
      const worker = async () => {
        while (!this.#stopping && this.#ended === undefined) {
          const id = waiting.shift();
          if (id === undefined) return;
          if (!agreed) patients += 1;
          const done = await this.#reconcile(id, agreed, (part) => (written = plus(written, part)));
          if (!done) failed += 1;
        }
      };
      await Promise.all(Array.from({ length: this.#options.patientsAtOnce }, worker));
      if (this.#ended !== undefined) throw this.#ended.by;
    };
    await lookAt(queue, false);
    if (!this.#stopping) await lookAt(this.#decide(), true);
    return { full, patients, failed, held: this.#brake.held.length, written };
  }

  /** Closings wait until everybody was looked at: only then is it known whether they are too many. */
  #decide(): string[] {
    const before = new Set(this.#brake.heldIds);
    const right = this.#brake.decide();
    for (const held of this.#brake.held) {
      if (held.because === 'incomplete-reading' || before.has(held.patient.slice('Patient/'.length)))
        continue;
      this.counters.closingsHeld += held.closings;
      this.#options.log.error(held, 'Tasks were not closed: the record as it was read may not be the whole.');
    }
    return right;
  }

  async #reconcile(id: string, agreed: boolean, onWritten: (written: Written) => void): Promise<boolean> {
    const { log, machine, server } = this.#options;
    const patient = `Patient/${id}`;
    const look: { slice?: Slice; review?: Review } = {};
    try {
      const { care, asOf, drain, without = [], audit = false } = this.#options;
      const reviewed: Care = {
        policies: (at) => care.policies?.(at) ?? [],
        difference: (slice, at) => {
          const { bundle, ...rest } = care.difference({ ...slice, fhirVersion: this.#fit?.fhirVersion }, at);
          look.slice = slice;
          look.review = this.#brake.review(slice, bundle, agreed);
          return { ...rest, bundle: look.review.bundle };
        },
      };
      const result = await reconcilePatient(
        {
          server,
          care: reviewed,
          watch: this.#watch,
          asOf,
          machine,
          writer: this.#writer,
          without,
          places: this.#places,
          logicalReferences: this.#logicalReferences,
          audit,
          ...(drain ? { stop: drain } : {}),
        },
        id,
        this.#whom.lumensOf(id),
        (part) => {
          this.counters.created += part.created;
          this.counters.updated += part.updated;
          this.counters.deleted += part.deleted;
          this.#writes.done += 1;
          this.#whom.feed.saw(part.versions, machine.now() + server.clockSkewMs);
          onWritten(part);
        },
      );
      this.#noAnswers = 0;
      this.#looked(id, look, result);
      this.counters.conflicts += result.tries - 1;
      const { created, updated, deleted, transactions } = result.written;
      if (transactions > 0)
        log.info({ patient, created, updated, deleted, transactions, tries: result.tries }, 'Written.');
      return true;
    } catch (error) {
      this.#failed(id, error);
      return false;
    }
  }

  #looked(
    id: string,
    { slice, review }: { slice?: Slice; review?: Review },
    { nextChangeMs, written }: Reconciled,
  ) {
    const doubts = slice?.doubts ?? [];
    doubts.forEach((doubt) => this.#say(doubt));
    if (doubts.some(({ code }) => code !== 'hint')) this.counters.incompleteReadings += 1;
    // Whoever was put aside is read again, or held and looked at in the next round.
    if (review?.aside) return this.#whom.failing.succeeded(id);
    const settled = slice !== undefined && written.transactions === 0 && !slice.existing.some(isOpenTask);
    this.#whom.looked(id, slice?.read ?? new Map(), nextChangeMs, settled);
    this.counters.patientsDone += 1;
  }

  #failed(id: string, error: unknown): void {
    const { log, machine, server } = this.#options;
    const { code, message } = described(error);
    if (code === 'no-token' || (code === 'throttled' && server.closedForMs > 0)) {
      // It is the server that can’t be asked, not this patient.
      this.#ended = { by: error };
      return;
    }
    const failing = this.#whom.failing.failed(id, error, machine.now());
    this.counters.patientsFailed += 1;
    if (error instanceof FhirServerError && error.method !== 'GET' && error.code === 'refused') {
      this.counters.writesRefused += 1;
      this.#writes.refused += 1;
    }
    log.error({ patient: `Patient/${id}`, code, message, times: failing.times }, 'Not in step; tried again.');
    const noAnswer = ['timed-out', 'unreachable', 'throttled', 'server-failed'].includes(code);
    this.#noAnswers = noAnswer ? this.#noAnswers + 1 : 0;
    if (this.#noAnswers >= noAnswersInARow) this.#ended = { by: error };
  }

  /** What the server says of its answers is logged once. */
  #say({ code, resourceType, detail }: Doubt): void {
    const key = `${code} ${resourceType} ${detail.replaceAll(/\d+/g, 'n')}`;
    if (this.#heard.has(key) || this.#heard.size > 1000) return;
    this.#heard.add(key);
    this.#options.log[code === 'hint' ? 'info' : 'warn']({ code, resourceType }, detail);
  }

  get #logicalReferences(): boolean {
    const { references = 'as-stated' } = this.#options;
    return references === 'logical' || (references === 'as-stated' && this.#fit?.enforcesReferences === true);
  }

  get #stopping(): boolean {
    return this.#options.drain?.aborted ?? false;
  }

  #now(): string {
    return new Date(this.#options.machine.now()).toISOString();
  }
}
