import { lineTokens, type LineTokens } from '@dwellward/core';
import type { Logger } from 'pino';
import type { Brake } from './brake.js';
import type { Version } from './care.js';
import { ChangeFeed } from './changes.js';
import { FailingPatients } from './failing.js';
import type { Doubt, FhirServer } from './fhir-server/index.js';
import { findPatientsWithLines, type PatientsWithLines } from './lines.js';
import type { Listed } from './listed.js';
import type { Machine } from './machine.js';
import { patientsWithOpenTasks } from './own-tasks.js';
import { PendingChanges } from './pending.js';
import type { DispensableType } from './slice.js';

export interface WhomOptions {
  readonly server: FhirServer;
  readonly machine: Machine;
  readonly log: Logger;
  readonly asOf: () => string;
  readonly overlapMs: number;
  readonly without?: readonly DispensableType[];
  readonly acceptedGaps?: readonly string[];
  /** By what codes lines and insertions are known; ours and the published ones where absent. */
  readonly tokens?: LineTokens;
  /** Whom to look at, where that is said: the server is asked for nothing without a patient then. */
  readonly listed?: Listed;
}

const noLines: PatientsWithLines = {
  patients: new Set(),
  lumens: new Map(),
  devices: new Map(),
  ownerless: [],
};

/**
 * Too long: a change that the server told late, or never, of a patient whose lines are long out is found as late. Too short:
 * everybody who ever had a line is read as often as those who have one.
 */
const restMs = 24 * 3_600_000;

/** Whom to look at: everybody with a line, or those with something new, in whose care time has moved something, who failed, or whose closings wait. */
export class Whom {
  readonly failing = new FailingPatients();
  readonly feed: ChangeFeed;
  readonly #options: WhomOptions;
  readonly #brake: Brake;
  readonly #hear: (doubt: Doubt) => void;
  readonly #pending = new PendingChanges();
  /** By patient with lines: when an item’s state changes next, milliseconds since 1970. */
  readonly #nextChangeMs = new Map<string, number | undefined>();
  #lines: PatientsWithLines = noLines;
  /** By patient in whose care nothing is open or to come: since when, milliseconds, and the versions of their Devices then. */
  readonly #atRest = new Map<string, { readonly sinceMs: number; readonly devices: string }>();
  #gaps: readonly Doubt[] = [];

  /** @param hear told what the server says of its answers. */
  constructor(options: WhomOptions, brake: Brake, hear: (doubt: Doubt) => void) {
    this.#options = options;
    this.#brake = brake;
    this.#hear = hear;
    this.feed = new ChangeFeed(
      options.server,
      options.overlapMs,
      options.without ?? [],
      hear,
      options.tokens ?? lineTokens(),
    );
  }

  /** How many patients have a line or are to have one. */
  get count(): number {
    return this.#lines.patients.size;
  }

  /** What the last look for patients with lines may have left out. */
  get gaps(): readonly string[] {
    return this.#gaps.map(({ detail }) => detail);
  }

  /** Ids of the lumens of a patient that don’t name the patient. */
  lumensOf(id: string): readonly string[] {
    return this.#lines.lumens.get(id) ?? [];
  }

  /** Everybody, for a full round. @throws FhirServerError where the server can’t be asked. */
  async everyone(): Promise<string[]> {
    if (this.#options.listed) return this.#allListed(this.#options.listed);
    await this.#discover();
    const withTasks = await patientsWithOpenTasks(this.#options.server, this.#hear);
    const known = [...this.#lines.patients, ...this.#nextChangeMs.keys()].filter((id) => !this.#rests(id));
    return this.#inTurn([...known, ...withTasks.keys(), ...this.#pending.patients, ...this.#brake.heldIds]);
  }

  /**
   * Those of whom something has changed since the last look, and those whose time has come.
   * @param serverMs the time on the server’s clock at which this look begins.
   * @throws FhirServerError where the server can’t be asked; nothing of what has changed is lost by it.
   */
  async changed(serverMs: number): Promise<string[]> {
    const { changes, commit } = await this.feed.look(serverMs);
    const unknown = changes.some(
      ({ mayBeLine, patients }) =>
        mayBeLine === 'planned' && patients.some((id) => !this.#lines.patients.has(id)),
    );
    if (unknown || changes.some(({ mayBeLine }) => mayBeLine === 'device')) await this.#discover();
    const fresh = new Set<string>();
    for (const change of changes) {
      for (const id of change.patients) {
        if (!this.#lines.patients.has(id) && !this.#nextChangeMs.has(id)) continue;
        this.#pending.add(id, change);
        fresh.add(id);
      }
    }
    // Only now that all of them stand in the queue: had a search failed before, they would come again.
    commit();
    const asOfMs = Date.parse(this.#options.asOf());
    const timely = [...this.#nextChangeMs]
      .filter(([, atMs]) => atMs !== undefined && atMs <= asOfMs)
      .map(([id]) => id);
    const waiting = this.#inTurn([...this.#pending.patients, ...timely, ...this.#brake.waiting]);
    return sorted([...fresh, ...waiting]);
  }

  /**
   * A patient was read, and what was to be written is written.
   * @param read what the server answered with.
   * @param settled nothing is open, and nothing was written: without a change to come they are let go.
   */
  looked(
    id: string,
    read: ReadonlyMap<string, Version>,
    nextChangeMs: number | undefined,
    settled: boolean,
  ): void {
    this.failing.succeeded(id);
    if (settled && nextChangeMs === undefined)
      this.#atRest.set(id, { sinceMs: this.#options.machine.now(), devices: this.#devicesOf(id) });
    else this.#atRest.delete(id);
    if (this.#lines.patients.has(id)) this.#nextChangeMs.set(id, nextChangeMs);
    else this.#nextChangeMs.delete(id);
    const lost = this.#pending.looked(id, read);
    if (lost.length > 0)
      this.#options.log.warn(
        { patient: `Patient/${id}`, changes: lost },
        'Changes that no reading of the patient has shown.',
      );
  }

  /** Those who are listed; who no longer is keeps what is written: nobody says that the line is out. */
  async #allListed(listed: Listed): Promise<string[]> {
    const { log } = this.#options;
    const patients = await listed();
    const left = [...this.#lines.patients].filter((id) => !patients.has(id));
    if (left.length > 0)
      log.warn(
        { patients: left.map((id) => `Patient/${id}`).slice(0, 20), count: left.length },
        'No longer listed: they are looked at no more, and their open Tasks stay as they are.',
      );
    if (patients.size === 0) log.warn('Nobody is listed.');
    left.forEach((id) => this.#nextChangeMs.delete(id));
    this.#lines = { ...noLines, patients };
    return this.#inTurn([...patients]);
  }

  async #discover(): Promise<void> {
    const { server, log, without = [], acceptedGaps = [], tokens = lineTokens() } = this.#options;
    const gaps: Doubt[] = [];
    const hear = (doubt: Doubt) => {
      this.#hear(doubt);
      if (doubt.code !== 'hint' && !acceptedGaps.includes(doubt.resourceType)) gaps.push(doubt);
    };
    this.#lines = await findPatientsWithLines(server, without, hear, tokens);
    this.#gaps = gaps;
    const { patients, ownerless } = this.#lines;
    if (patients.size === 0)
      log.warn('No patient with a line was found on this server, and none who is to have one.');
    if (ownerless.length > 0) {
      log.warn(
        { devices: ownerless.slice(0, 20), count: ownerless.length },
        'Lines that name no patient of this server.',
      );
    }
  }

  /** Whose lines are out and whose last care is done, as long as no Device of theirs is another: they are read once a day. */
  #rests(id: string): boolean {
    const rest = this.#atRest.get(id);
    if (rest === undefined) return false;
    const over = this.#options.machine.now() - rest.sinceMs >= restMs;
    return !over && rest.devices === this.#devicesOf(id);
  }

  #devicesOf(id: string): string {
    return this.#lines.devices.get(id) ?? '';
  }

  /** These and the failing whose time has come, without the failing who rest. */
  #inTurn(ids: readonly string[]): string[] {
    const nowMs = this.#options.machine.now();
    const due = [...ids, ...this.failing.due(nowMs)];
    return sorted(due.filter((id) => !this.failing.rests(id, nowMs)));
  }
}

function sorted(ids: readonly string[]): string[] {
  return [...new Set(ids)].sort();
}
