import type { Logger } from 'pino';
import type { Care } from './care.js';
import { ChangeFeed } from './changes.js';
import type { FhirServer } from './fhir-server/index.js';
import { findPatientsWithLines, type PatientsWithLines } from './lines.js';
import type { Machine } from './machine.js';
import { patientsWithOpenTasks } from './own-tasks.js';
import { PolicyWatch } from './policy-watch.js';
import { reconcilePatient } from './reconcile-patient.js';
import type { DispensableType } from './slice.js';
import { described, newCounters, type Counters, type Failing } from './status.js';
import { DifferenceWriter, nothingWritten, plus, type Written } from './write.js';

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
  /** No further patient is taken up once it fires; those in hand are finished. */
  readonly drain?: AbortSignal;
}

/** What one round did. */
export interface Round {
  readonly full: boolean;
  readonly patients: number;
  readonly failed: number;
  readonly written: Written;
}

/** Keeps every patient with a line in step. One round at a time; within it one writer per patient. */
export class Poller {
  readonly counters: Counters = newCounters();
  readonly #options: PollerOptions;
  readonly #feed: ChangeFeed;
  readonly #writer: DifferenceWriter;
  readonly #watch: PolicyWatch;
  readonly #failing = new Map<string, Failing>();
  /** By patient with lines: when an item’s state changes next, milliseconds since 1970. */
  readonly #nextChangeMs = new Map<string, number | undefined>();
  #lines: PatientsWithLines = { patients: new Set(), lumens: new Map(), ownerless: [] };
  /** The round that runs, so that the next waits for it: two would write for the same patient. */
  #turn: Promise<unknown> = Promise.resolve();
  #lastRound: { readonly at: string; readonly ok: boolean } | undefined;

  constructor(options: PollerOptions) {
    this.#options = options;
    this.#feed = new ChangeFeed(options.server, options.overlapMs, options.without ?? []);
    this.#writer = new DifferenceWriter(options.server, options.maxEntries);
    this.#watch = new PolicyWatch(({ policy }) => {
      this.counters.policyFights += 1;
      options.log.error(
        { policy },
        'Another adapter keeps the same Tasks by this other policy. Nothing that it asks for is taken back until one of the two is switched off.',
      );
    });
  }

  get failing(): readonly Failing[] {
    return [...this.#failing.values()];
  }

  get patients(): number {
    return this.#lines.patients.size;
  }

  /** When the last round ended and whether the server could be asked; undefined before the first has ended. */
  get lastRound(): { readonly at: string; readonly ok: boolean } | undefined {
    return this.#lastRound;
  }

  /**
   * One round: finds out whom to look at and brings them in step. A patient who fails is noted and tried again in the
   * next round; the others go on.
   * @throws FhirServerError where the server could not be asked whom to look at.
   */
  round(): Promise<Round> {
    const turn = this.#turn.then(() => this.#round());
    this.#turn = turn.catch(() => undefined);
    return turn;
  }

  async #round(): Promise<Round> {
    const { machine, log, server } = this.#options;
    const full = !this.#feed.started || this.counters.rounds % this.#options.fullEvery === 0;
    this.counters.rounds += 1;
    try {
      const startedMs = machine.now();
      const queue = full ? await this.#everyone() : await this.#changed(startedMs + server.clockSkewMs);
      const round = await this.#reconcileAll(queue, full);
      if (full && !this.#stopping) {
        this.counters.fullRounds += 1;
        server.lacking.forgetRefusals();
        this.#feed.startFrom(startedMs + server.clockSkewMs);
      }
      this.#lastRound = { at: this.#now(), ok: true };
      return round;
    } catch (error) {
      this.counters.roundsFailed += 1;
      this.#lastRound = { at: this.#now(), ok: false };
      log.error(described(error), 'The round failed; the next one tries again.');
      throw error;
    }
  }

  async #everyone(): Promise<string[]> {
    const { server, log } = this.#options;
    this.#lines = await findPatientsWithLines(server, this.#options.without ?? []);
    const { patients, ownerless } = this.#lines;
    if (ownerless.length > 0) {
      log.warn(
        { devices: ownerless.slice(0, 20), count: ownerless.length },
        'Lines that name no patient of this server.',
      );
    }
    const withTasks = await patientsWithOpenTasks(server);
    return sorted([...patients, ...withTasks.keys(), ...this.#nextChangeMs.keys(), ...this.#failing.keys()]);
  }

  async #changed(serverMs: number): Promise<string[]> {
    const { patients, withDevices, withPlanned } = await this.#feed.look(serverMs);
    const unknown = [...withPlanned].some((id) => !this.#lines.patients.has(id));
    if (withDevices.size > 0 || unknown) await this.#everyone();
    const known = [...patients].filter((id) => this.#lines.patients.has(id) || this.#nextChangeMs.has(id));
    const asOfMs = Date.parse(this.#options.asOf());
    const timely = [...this.#nextChangeMs]
      .filter(([, atMs]) => atMs !== undefined && atMs <= asOfMs)
      .map(([id]) => id);
    return sorted([...known, ...timely, ...this.#failing.keys()]);
  }

  async #reconcileAll(queue: readonly string[], full: boolean): Promise<Round> {
    let written = nothingWritten;
    let failed = 0;
    const waiting = [...queue];
    const worker = async () => {
      while (!this.#stopping) {
        const id = waiting.shift();
        if (id === undefined) return;
        const done = await this.#reconcile(id, (part) => (written = plus(written, part)));
        if (!done) failed += 1;
      }
    };
    await Promise.all(Array.from({ length: this.#options.patientsAtOnce }, worker));
    return { full, patients: queue.length - waiting.length, failed, written };
  }

  async #reconcile(id: string, onWritten: (written: Written) => void): Promise<boolean> {
    const { log, machine, server } = this.#options;
    const patient = `Patient/${id}`;
    try {
      const result = await reconcilePatient(
        this.#reconciling(),
        id,
        this.#lines.lumens.get(id) ?? [],
        (part) => {
          this.counters.created += part.created;
          this.counters.updated += part.updated;
          this.counters.deleted += part.deleted;
          this.#feed.saw(part.versions, machine.now() + server.clockSkewMs);
          onWritten(part);
        },
      );
      if (this.#lines.patients.has(id)) this.#nextChangeMs.set(id, result.nextChangeMs);
      else this.#nextChangeMs.delete(id);
      this.#failing.delete(id);
      this.counters.patientsDone += 1;
      this.counters.conflicts += result.tries - 1;
      const { created, updated, deleted, transactions } = result.written;
      if (transactions > 0)
        log.info({ patient, created, updated, deleted, transactions, tries: result.tries }, 'Written.');
      return true;
    } catch (error) {
      const { code, message } = described(error);
      const before = this.#failing.get(id);
      this.#failing.set(id, {
        patient,
        since: before?.since ?? this.#now(),
        times: (before?.times ?? 0) + 1,
        code,
        message,
      });
      this.counters.patientsFailed += 1;
      log.error({ patient, code, message }, 'Not in step; tried again in the next round.');
      return false;
    }
  }

  #reconciling() {
    const { server, care, asOf, machine, drain, without } = this.#options;
    return {
      watch: this.#watch,
      server,
      care,
      asOf,
      machine,
      writer: this.#writer,
      without: without ?? [],
      ...(drain === undefined ? {} : { stop: drain }),
    };
  }

  get #stopping(): boolean {
    return this.#options.drain?.aborted ?? false;
  }

  #now(): string {
    return new Date(this.#options.machine.now()).toISOString();
  }
}

/** Runs rounds until `drain` fires, with a pause between them. A failed round is logged and does not end it. */
export async function runRounds(
  poller: Poller,
  pauseMs: number,
  machine: Machine,
  drain: AbortSignal,
): Promise<void> {
  while (!drain.aborted) {
    await poller.round().catch(() => undefined);
    await machine.sleep(pauseMs, drain);
  }
}

function sorted(ids: readonly string[]): string[] {
  return [...new Set(ids)].sort();
}
