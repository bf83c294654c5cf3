import type { Task } from 'fhir/r4.js';
import type { LineCare, MetItem } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import type { Say } from '../words/say.js';
import { askOfItem, askOfTask, type Ask } from './asks.js';
import { ownIdentity } from './own.js';
import { msIn } from './parts.js';
import { closedHere, completedHere, isOpen, metOutput } from './task-status.js';

/** What events have met, and which of the Tasks on a server each of them answers. */
export class Met {
  readonly #byId: ReadonlyMap<string, MetItem>;
  readonly #byTask = new Map<string, MetItem>();
  /** In the order of time. */
  readonly #byAsk = new Map<Ask, MetItem[]>();
  /** Identities of Tasks that are open or were closed here: what met them is theirs. */
  readonly #spoken: ReadonlySet<string>;
  readonly #borne: ReadonlySet<string>;

  constructor(cares: readonly LineCare[], lines: readonly LineRecord[], tasks: readonly Task[], say: Say) {
    const all = cares.flatMap(({ met }) => met);
    this.#byId = new Map(all.flatMap((one) => idsOf(one).map((id) => [id, one] as const)));
    const tasksOf = new Map(
      lines.flatMap(({ events }) =>
        events.map(
          ({ ref, identities = [] }) => [ref, identities.filter((one) => one.startsWith('Task/'))] as const,
        ),
      ),
    );
    for (const one of all) {
      const ask = askOfItem(one, say);
      this.#byAsk.set(ask, [...(this.#byAsk.get(ask) ?? []), one]);
      for (const ref of refsOf(one))
        for (const task of tasksOf.get(ref) ?? []) this.#byTask.set(`${task} ${ask}`, one);
    }
    for (const list of this.#byAsk.values()) list.sort((a, b) => msIn(a.at) - msIn(b.at));
    this.#borne = new Set(tasks.flatMap((task) => ownIdentity(task) ?? []));
    this.#spoken = new Set(
      tasks.filter((task) => isOpen(task) || closedHere(task)).flatMap((task) => ownIdentity(task) ?? []),
    );
  }

  /** The last time that what is asked for was done, milliseconds since 1970; -Infinity where it never was. */
  lastMs(ask: Ask): number {
    const last = this.#byAsk.get(ask)?.at(-1);
    return last ? msIn(last.at) : -Infinity;
  }

  last(ask: Ask): MetItem | undefined {
    return this.#byAsk.get(ask)?.at(-1);
  }

  /** Whether a Task bears this identity, whoever closed it. */
  isBorne(id: string): boolean {
    return this.#borne.has(id);
  }

  /**
   * The event that answers a Task: the one that met its identity or names it; of one that was completed here by an event
   * that was written anew under another id, the one at the same time; else the first that lies in its window and answers
   * no other Task.
   */
  of(task: Task): MetItem | undefined {
    const identity = ownIdentity(task);
    const ask = askOfTask(task);
    const known =
      (identity === undefined ? undefined : this.#byId.get(identity)) ??
      this.#byTask.get(`Task/${task.id} ${ask}`);
    if (known) return known;
    const here = this.#byAsk.get(ask) ?? [];
    if (completedHere(task)) {
      const ref = metOutput(task) ?? '';
      const atMs = msIn(task.executionPeriod?.end);
      return here.find((one) => refsOf(one).includes(ref)) ?? here.find(({ at }) => msIn(at) === atMs);
    }
    if (closedHere(task)) return undefined;
    const opensMs = msIn(task.restriction?.period?.start);
    return here.find((one) => msIn(one.at) >= opensMs && !idsOf(one).some((id) => this.#spoken.has(id)));
  }
}

function idsOf({ id, otherIds = [] }: MetItem): string[] {
  return [id, ...otherIds];
}

function refsOf({ by, twins = [] }: MetItem): string[] {
  return [by, ...twins];
}
