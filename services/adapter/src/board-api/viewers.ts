import { createHash } from 'node:crypto';
import { FhirServerError, type FhirServer } from '../fhir-server/index.js';
import type { Machine } from '../machine.js';

/** Somebody who is signed in to the record system. */
export interface Viewer {
  /** The record system as it is to them. */
  readonly server: FhirServer;
  /** @param patient a reference. */
  readonly mayRead: (patient: string) => boolean;
}

/** What somebody may read is asked anew so often: longer, and they see whom they may read no more. */
const keptForMs = 60_000;
const mostViewers = 500;
/** Ids asked for in one search: keeps the URL below what every proxy takes. */
const idsPerSearch = 20;

/**
 * Who may see what: the record system decides, by being asked with their own token for the patients of the unit. Nothing
 * is known of a token but its digest, and nothing of it is logged.
 */
export class Viewers {
  readonly #serverFor: (token: string) => FhirServer;
  readonly #patients: () => readonly string[];
  readonly #machine: Machine;
  readonly #kept = new Map<
    string,
    { readonly viewer: Promise<Viewer | undefined>; readonly sinceMs: number }
  >();

  /** @param patients references of everybody in the unit. */
  constructor(serverFor: (token: string) => FhirServer, patients: () => readonly string[], machine: Machine) {
    this.#serverFor = serverFor;
    this.#patients = patients;
    this.#machine = machine;
  }

  /**
   * @param authorization `Bearer …`.
   * @returns undefined where nobody is signed in by it.
   * @throws FhirServerError where the record system can’t be asked.
   */
  async of(authorization: string | undefined): Promise<Viewer | undefined> {
    const [scheme, token] = (authorization ?? '').split(' ');
    if (scheme?.toLowerCase() !== 'bearer' || token === undefined || token === '') return undefined;
    const key = createHash('sha256').update(token).digest('base64');
    const known = this.#kept.get(key);
    if (known && this.#machine.now() - known.sinceMs < keptForMs) return known.viewer;
    const viewer = this.#ask(token);
    const [oldest] = this.#kept.keys();
    if (this.#kept.size >= mostViewers && oldest !== undefined) this.#kept.delete(oldest);
    this.#kept.delete(key);
    this.#kept.set(key, { viewer, sinceMs: this.#machine.now() });
    // A failed question is no answer: the next asks again.
    viewer.catch(() => this.#kept.delete(key));
    return viewer;
  }

  async #ask(token: string): Promise<Viewer | undefined> {
    const server = this.#serverFor(token);
    const known = this.#patients().map((patient) => patient.slice('Patient/'.length));
    // Of an empty unit it is asked all the same whether the token is good for anything.
    const ids = known.length > 0 ? known : ['nobody'];
    const readable = new Set<string>();
    try {
      for (let from = 0; from < ids.length; from += idsPerSearch) {
        const params = { _id: ids.slice(from, from + idsPerSearch).join(','), _elements: 'id' };
        for await (const { resource } of server.searchAll('Patient', params))
          if (resource.resourceType === 'Patient') readable.add(`Patient/${resource.id}`);
      }
    } catch (error) {
      if (!(error instanceof FhirServerError)) throw error;
      if (error.status === 401) return undefined;
      if (error.status !== 403) throw error;
    }
    return { server, mayRead: (patient) => readable.has(patient) };
  }
}
