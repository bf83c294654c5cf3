import {
  badRequest,
  formatSearchQuery,
  getSearchParameter,
  gone,
  MemoryRepository,
  OperationOutcomeError,
  validateResource,
  type CreateResourceOptions,
  type SearchRequest,
} from './medplum.js';
import { quickFilter } from './quick-filters.js';

/** The maps of resources and of their history that MemoryRepository keeps. */
interface Tables {
  readonly resources: Map<string, Map<string, unknown>>;
  readonly history: Map<string, Map<string, unknown[]>>;
}
type Resource = Parameters<typeof validateResource>[0];

const defaultCount = 50;
const largestCount = 1000;

/**
 * The in-memory repository of @medplum/fhir-router with what a server needs beside it: pages with links, refusal of
 * unknown search parameters, validation on write, history newest first, 410 for what was deleted, and rollback.
 */
export class DemoRepository extends MemoryRepository {
  readonly #validate: boolean;
  readonly #deleted = new Set<string>();

  constructor(options: { readonly validate: boolean }) {
    super();
    this.#validate = options.validate;
  }

  override async createResource<T extends Resource>(
    resource: T,
    options?: CreateResourceOptions,
    update?: boolean,
  ) {
    if (this.#validate) validateResource(resource);
    const created = await super.createResource(resource, options, update);
    this.#deleted.delete(`${created.resourceType}/${created.id}`);
    return created;
  }

  override async readResource<T extends Resource>(resourceType: string, id: string): Promise<T> {
    if (this.#deleted.has(`${resourceType}/${id}`)) throw new OperationOutcomeError(gone);
    return super.readResource<T>(resourceType, id);
  }

  override async deleteResource(
    resourceType: string,
    id: string,
    options?: { ifMatch?: string },
  ): Promise<void> {
    await super.deleteResource(resourceType, id, options);
    this.#deleted.add(`${resourceType}/${id}`);
  }

  override async readHistory<T extends Resource>(resourceType: string, id: string) {
    await this.readResource(resourceType, id);
    const versions = [...(this.#tables().history.get(resourceType)?.get(id) ?? [])].reverse() as T[];
    return {
      resourceType: 'Bundle' as const,
      type: 'history' as const,
      entry: versions.map((resource) => ({ resource })),
    };
  }

  override async search<T extends Resource>(request: SearchRequest<T>) {
    refuseUnknownParameters(request);
    const count = Math.min(request.count ?? defaultCount, largestCount);
    const offset = request.offset ?? 0;
    const page = { ...request, count, offset };
    const bundle = await this.#search(page);
    const more = offset + count < (bundle.total ?? 0);
    bundle.link = [{ relation: 'self', url: urlOf(page) }];
    if (more) bundle.link.push({ relation: 'next', url: urlOf({ ...page, offset: offset + count }) });
    return bundle;
  }

  /** Runs the work and puts everything back where it throws. The caller sees to it that no other request runs meanwhile. */
  async orNothing<T>(work: () => Promise<T>): Promise<T> {
    const tables = this.#tables();
    const before = {
      resources: copy(tables.resources, (rows) => new Map(rows)),
      history: copy(tables.history, (rows) => copy(rows, (versions) => [...versions])),
      deleted: [...this.#deleted],
    };
    try {
      return await work();
    } catch (error) {
      restore(tables.resources, before.resources);
      restore(tables.history, before.history);
      this.#deleted.clear();
      for (const key of before.deleted) this.#deleted.add(key);
      throw error;
    }
  }

  /** Number of stored resources of a type. */
  count(resourceType: string): number {
    return this.#tables().resources.get(resourceType)?.size ?? 0;
  }

  /** Lets the router’s own repository search what the quick filters leave over. */
  #search<T extends Resource>(request: SearchRequest<T>) {
    const { resources } = this.#tables();
    let rows = resources.get(request.resourceType) ?? new Map<string, unknown>();
    const rest = [];
    for (const filter of request.filters ?? []) {
      const test = quickFilter(filter);
      if (test === undefined) rest.push(filter);
      else rows = new Map([...rows].filter(([, row]) => test(row as Record<string, unknown>)));
    }
    const narrowed = new MemoryRepository();
    const view = new Map(resources).set(request.resourceType, rows);
    Object.assign(narrowed, { resources: view } satisfies Pick<Tables, 'resources'>);
    return narrowed.search({ ...request, filters: rest });
  }

  /** The maps are declared private, but there is no other way to them. */
  #tables(): Tables {
    return this as unknown as Tables;
  }
}

/** Raw, the router answers a question it does not understand with an empty list. */
function refuseUnknownParameters(request: SearchRequest): void {
  for (const { code } of request.filters ?? []) {
    const known =
      code.startsWith('_') || code.includes('.') || getSearchParameter(request.resourceType, code);
    if (!known) {
      throw new OperationOutcomeError(
        badRequest(`Unknown search parameter ${code} for ${request.resourceType}`),
      );
    }
  }
}

function urlOf(request: SearchRequest): string {
  return request.resourceType + formatSearchQuery(request);
}

function copy<V>(table: Map<string, V>, row: (value: V) => V): Map<string, V> {
  return new Map([...table].map(([key, value]) => [key, row(value)]));
}

function restore<V>(table: Map<string, V>, before: Map<string, V>): void {
  table.clear();
  for (const [key, value] of before) table.set(key, value);
}
