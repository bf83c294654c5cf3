import { chartedBundle, chartQuestions, type ChartQuestion } from '@dwellward/core';
import { identifierSystem } from '@dwellward/profiles';
import type { Bundle, Observation, Procedure, Resource } from 'fhir/r4.js';
import type { FhirServer } from '../fhir-server/index.js';
import type { ChartingRequest } from './request.js';
import type { ShownUnit } from './unit.js';

export type ChartingAnswer =
  /** `shown` is false where what follows from it could not be worked out yet. */
  | { readonly kind: 'written'; readonly refs: readonly string[]; readonly shown: boolean }
  | { readonly kind: 'asked'; readonly questions: readonly ChartQuestion[] }
  | { readonly kind: 'unknown-line' };

/** Reads a patient anew, ahead of the next round; false where that failed. */
export type LookAt = (patient: string) => Promise<boolean>;

/**
 * Charts what nurses did. One act of one patient at a time, each judged by what is on record then: of two people who
 * chart the same at once the second is asked.
 */
export class Charting {
  readonly #unit: ShownUnit;
  readonly #server: FhirServer;
  readonly #lookAt: LookAt;
  readonly #turns: Map<string, Promise<unknown>>;

  constructor(
    unit: ShownUnit,
    server: FhirServer,
    lookAt: LookAt,
    turns = new Map<string, Promise<unknown>>(),
  ) {
    this.#unit = unit;
    this.#server = server;
    this.#lookAt = lookAt;
    this.#turns = turns;
  }

  /** The same for somebody’s own part of the unit, with the rights that they have; the turns are everybody’s. */
  by(unit: ShownUnit, server: FhirServer): Charting {
    return new Charting(unit, server, this.#lookAt, this.#turns);
  }

  /** @throws FhirServerError where it could not be written: the same request may be sent again. */
  chart({ charted, confirmed }: ChartingRequest): Promise<ChartingAnswer> {
    const patient = this.#unit.line(charted.line)?.line.patient.ref;
    if (patient === undefined) return Promise.resolve({ kind: 'unknown-line' });
    return this.#inTurn(patient, async () => {
      const found = this.#unit.line(charted.line);
      if (!found) return { kind: 'unknown-line' };
      const questions = chartQuestions(charted, found.line, this.#unit.policy, this.#unit.when).filter(
        ({ code, refused }) => refused || !confirmed.has(code),
      );
      // The same act sent again is no second one, whatever it looks like by now.
      const again = questions.length > 0 ? await this.#written(charted.id) : [];
      if (again.length > 0) return { kind: 'written', refs: again, shown: await this.#look(patient) };
      if (questions.length > 0) return { kind: 'asked', questions };
      const response = await this.#server.transaction(chartedBundle(charted, found.line));
      return { kind: 'written', refs: refsIn(response), shown: await this.#look(patient) };
    });
  }

  /**
   * Takes back what was charted here, as entered in error: it stays on record, and counts for nothing.
   * @returns undefined where nothing was charted here under this id.
   */
  async takeBack(line: string, id: string): Promise<{ readonly shown: boolean } | undefined> {
    const patient = this.#unit.line(line)?.line.patient.ref;
    if (patient === undefined) return undefined;
    return this.#inTurn(patient, async () => {
      const own = await this.#find(id);
      if (own.length === 0) return undefined;
      await this.#server.transaction({
        resourceType: 'Bundle',
        type: 'transaction',
        entry: own.map((resource) => ({
          resource: { ...resource, status: 'entered-in-error' },
          request: {
            method: 'PUT',
            url: `${resource.resourceType}/${resource.id}`,
            ...(resource.meta?.versionId ? { ifMatch: `W/"${resource.meta.versionId}"` } : {}),
          },
        })),
      });
      return { shown: await this.#look(patient) };
    });
  }

  /** It is on record whether the look that follows comes about or not: the next round shows it. */
  #look(patient: string): Promise<boolean> {
    return this.#lookAt(patient).catch(() => false);
  }

  async #written(id: string): Promise<string[]> {
    return (await this.#find(id)).map(({ resourceType, id: own }) => `${resourceType}/${own}`);
  }

  /** What was charted under an id: the act by it alone, its findings with a number behind it. */
  async #find(id: string): Promise<(Procedure | Observation)[]> {
    const most = 20;
    const ids = [id, ...Array.from({ length: most }, (_, at) => `${id}.${at + 1}`)];
    const identifier = ids.map((one) => `${identifierSystem.charted}|${one}`).join(',');
    const found: (Procedure | Observation)[] = [];
    for (const type of ['Procedure', 'Observation'] as const)
      for await (const { resource } of this.#server.searchAll(type, { identifier }))
        if (isCharted(resource, ids)) found.push(resource);
    return found.filter(({ status }) => (status as string) !== 'entered-in-error');
  }

  #inTurn<Answer>(patient: string, act: () => Promise<Answer>): Promise<Answer> {
    const turn = (this.#turns.get(patient) ?? Promise.resolve()).then(act, act);
    this.#turns.set(
      patient,
      turn.catch(() => undefined),
    );
    return turn;
  }
}

/** A server that does not know the parameter gives everything: what is not ours is left alone. */
function isCharted(resource: Resource, ids: readonly string[]): resource is Procedure | Observation {
  const { identifier = [] } = resource as Procedure;
  return identifier.some(
    ({ system, value }) => system === identifierSystem.charted && value !== undefined && ids.includes(value),
  );
}

function refsIn({ entry = [] }: Bundle): string[] {
  return entry.flatMap(({ response }) => {
    const [, ref] = /((?:Procedure|Observation)\/[^/]+)/.exec(response?.location ?? '') ?? [];
    return ref === undefined ? [] : [ref];
  });
}
