import { policiesOf, policyKey } from '@dwellward/core';
import type { Bundle, DetectedIssue, Flag, Resource, Task } from 'fhir/r4.js';

/** A Task that was taken from us so often is fought over; once is a policy that was replaced. */
const timesUntilFight = 2;
/** After so long without a sign of the other it is tried again. Too short: a needless write an hour; too long: care that only the other asked for stays. */
const fightLastsMs = 3_600_000;

/** Another policy that keeps the same Tasks. */
export interface Fight {
  /** Its plans with their versions. */
  readonly policy: string;
  readonly sinceMs: number;
}

/**
 * Finds out whether another adapter keeps the same Tasks by another policy: what was written here comes back written by
 * the other, again and again. A policy that was replaced takes each Task once and does not count.
 */
export class PolicyWatch {
  readonly #tell: (fight: Fight) => void;
  readonly #ours = new Set<string>();
  readonly #lost = new Map<string, number>();
  readonly #fights = new Map<string, { readonly sinceMs: number; lastMs: number }>();

  /** @param tell told of every other policy, once. */
  constructor(tell: (fight: Fight) => void = () => undefined) {
    this.#tell = tell;
  }

  /** The policies that are fought with. */
  get fights(): readonly Fight[] {
    return [...this.#fights].map(([policy, { sinceMs }]) => ({ policy, sinceMs }));
  }

  /**
   * Looks at what is on the server of a patient.
   * @param ours the plans that this adapter works by.
   * @returns the other policies that keep the same Tasks, as core’s `contested` takes them.
   */
  look(existing: readonly Resource[], ours: readonly string[], nowMs: number): ReadonlySet<string> {
    const own = policyKey(ours);
    for (const resource of existing) {
      const policy = policyKey(policiesOf(resource as Task | Flag | DetectedIssue));
      const name = `${resource.resourceType}/${resource.id}`;
      if (policy === own) this.#ours.add(name);
      else if (policy !== '' && this.#ours.delete(name)) this.#loses(name, policy, nowMs);
    }
    return new Set(
      [...this.#fights].flatMap(([policy, { lastMs }]) => (nowMs - lastMs < fightLastsMs ? [policy] : [])),
    );
  }

  /** What was written is ours until it comes back otherwise. */
  wrote(bundle: Bundle): void {
    for (const { request } of bundle.entry ?? []) if (request?.method === 'PUT') this.#ours.add(request.url);
  }

  #loses(name: string, policy: string, nowMs: number): void {
    const times = (this.#lost.get(name) ?? 0) + 1;
    this.#lost.set(name, times);
    const known = this.#fights.get(policy);
    if (known) known.lastMs = nowMs;
    else if (times >= timesUntilFight) {
      this.#fights.set(policy, { sinceMs: nowMs, lastMs: nowMs });
      this.#tell({ policy, sinceMs: nowMs });
    }
  }
}
