import type { Location } from 'fhir/r4.js';
import { nothingFetched, type Fetched, type FhirServer, type Found } from './fhir-server/index.js';
import { idIn } from './references.js';

/** Deepest that locations lie in each other: bed, room, ward, building, site, and one to spare. */
const locationDepth = 6;
/** Ids asked for in one search: keeps the URL below the 2,000 characters that every proxy takes. */
const idsPerSearch = 20;

/**
 * Too long: a ward’s new name, and what its new type says of the setting of care, counts late by that. Too short: a call
 * more a patient and round.
 */
const keptForMs = 3_600_000;

/** The beds, rooms and wards of the hospital. They are the same for many patients and hardly ever change: each is read once an hour. */
export class Places {
  readonly #server: FhirServer;
  /** By id; undefined for one that the server does not give. */
  readonly #known = new Map<string, Found | undefined>();
  readonly #now: () => number;
  #sinceMs = -Infinity;

  /** @param now milliseconds since 1970. */
  constructor(server: FhirServer, now: () => number) {
    this.#server = server;
    this.#now = now;
  }

  /** Those of the ids that have not been asked for. */
  unknown(ids: readonly string[]): string[] {
    if (this.#now() - this.#sinceMs > keptForMs) {
      this.#known.clear();
      this.#sinceMs = this.#now();
    }
    return ids.filter((id) => !this.#known.has(id));
  }

  /** These places and those that they lie in. @param fetched what was asked for of them already. */
  async around(ids: readonly string[], fetched: Fetched = nothingFetched): Promise<Found[]> {
    const all = new Map<string, Found>();
    let level = [...ids];
    for (let depth = 0; level.length > 0 && depth < locationDepth; depth++) {
      const asked = this.unknown(level);
      const found = await byIds(this.#server, 'Location', asked, fetched);
      for (const id of asked) this.#known.set(id, undefined);
      for (const one of found) this.#known.set(one.resource.id ?? '', one);
      const here = level.flatMap((id) => this.#known.get(id) ?? []);
      for (const one of here) all.set(one.resource.id ?? '', one);
      const parents = here.flatMap(
        ({ resource }) =>
          idIn((resource as Location).partOf?.reference, 'Location', this.#server.baseUrl) ?? [],
      );
      level = [...new Set(parents)].filter((id) => !all.has(id));
    }
    return [...all.values()];
  }
}

/** Resources of a type by their ids, as few searches as proxies allow. */
export async function byIds(
  server: FhirServer,
  type: string,
  ids: readonly string[],
  fetched: Fetched,
): Promise<Found[]> {
  const found: Found[] = [];
  for (const params of byIdParams(ids))
    for await (const one of server.searchAll(type, params, undefined, fetched)) found.push(one);
  return found;
}

/** The URLs that {@link byIds} begins with. */
export function byIdUrls(server: FhirServer, type: string, ids: readonly string[]): string[] {
  return byIdParams(ids).map((params) => server.searchUrl(type, params));
}

function byIdParams(ids: readonly string[]) {
  const parts: { readonly _id: string }[] = [];
  for (let from = 0; from < ids.length; from += idsPerSearch)
    parts.push({ _id: ids.slice(from, from + idsPerSearch).join(',') });
  return parts;
}
