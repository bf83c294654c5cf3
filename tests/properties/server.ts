import { dueCare, readRecords, transactionFor } from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import { codeSystem, identifierSystem } from '@dwellward/profiles';
import type { Bundle, FhirResource, Task } from 'fhir/r4.js';
import { entriesOf, type Resource } from './generators.js';

type Stored = FhirResource & { id: string; meta: { versionId: string } };

/** The least that a FHIR server does with a transaction: conditional creates, updates on a version, references resolved. */
export class TinyServer {
  readonly #stored = new Map<string, Stored>();
  #next = 1;
  /** How many resources were written. */
  written = 0;

  get all(): FhirResource[] {
    return [...this.#stored.values()].map((one) => JSON.parse(JSON.stringify(one)) as FhirResource);
  }

  get tasks(): Task[] {
    return this.all.filter((one): one is Task => one.resourceType === 'Task');
  }

  /** Puts a resource as a person or another system would. */
  put(resource: FhirResource): void {
    const id = resource.id ?? `s${(this.#next += 1)}`;
    const before = this.#stored.get(`${resource.resourceType}/${id}`);
    const versionId = String(Number(before?.meta.versionId ?? '0') + 1);
    this.#stored.set(`${resource.resourceType}/${id}`, {
      ...resource,
      id,
      meta: { ...resource.meta, versionId },
    } as Stored);
    this.written += 1;
  }

  apply(bundle: Bundle): void {
    const names = new Map<string, string>();
    const writes: FhirResource[] = [];
    for (const { request, resource, fullUrl } of bundle.entry ?? []) {
      if (!request || !resource) throw new Error('An entry of a transaction has a request and a resource.');
      if (request.method === 'PUT') {
        const before = this.#stored.get(request.url);
        if (!before) throw new Error(`${request.url} is not there.`);
        if (request.ifMatch !== `W/"${before.meta.versionId}"`) throw new Error(`412: ${request.url}`);
        writes.push(resource as FhirResource);
        continue;
      }
      const found = this.#matches(request.ifNoneExist ?? '', resource.resourceType);
      if (found.length > 1) throw new Error(`412: several match ${request.ifNoneExist ?? ''}`);
      const id = found[0]?.id ?? `s${(this.#next += 1)}`;
      if (fullUrl) names.set(fullUrl, `${resource.resourceType}/${id}`);
      if (found.length === 0) writes.push({ ...resource, id } as FhirResource);
    }
    for (const resource of writes) {
      const text = JSON.stringify(resource).replace(
        /urn:uuid:[0-9a-f-]{36}/g,
        (urn) => names.get(urn) ?? urn,
      );
      this.put(JSON.parse(text) as FhirResource);
    }
  }

  #matches(search: string, type: string): Stored[] {
    const [parameter, value = ''] = search.split('=');
    const [system, code] = decodeURIComponent(value).split('|');
    return [...this.#stored.values()].filter((one) => {
      if (one.resourceType !== type) return false;
      const tokens =
        parameter === '_tag'
          ? ((one.meta as { tag?: { system?: string; code?: string }[] }).tag ?? []).map((tag) => [
              tag.system,
              tag.code,
            ])
          : ((one as Task).identifier ?? []).map((identifier) => [identifier.system, identifier.value]);
      return tokens.some(([a, b]) => a === system && b === code);
    });
  }
}

/** Brings the server in step with a record once. Undefined where there was nothing to write. */
export function sync(
  server: TinyServer,
  resources: readonly Resource[],
  policy: Policy,
  when: { asOf: string; zone: string },
): Bundle | undefined {
  const records = readRecords(entriesOf(resources));
  const cares = records.lines.map((line) => dueCare(line, policy, when));
  const bundle = transactionFor({ records, cares, policy, when, existing: server.all });
  if (bundle) server.apply(bundle);
  return bundle;
}

const openStatuses = new Set([
  'draft',
  'requested',
  'received',
  'accepted',
  'ready',
  'in-progress',
  'on-hold',
]);

export const isOpen = ({ status }: Task) => openStatuses.has(status);

/** What a Task asks for, and of what: its activity, the Device, and the site or lumen among its inputs. */
export function askOf(task: Task): string {
  const inputs = (task.input ?? [])
    .filter(({ type }) =>
      type.coding?.some(
        ({ system, code }) => system === codeSystem.taskInput && (code === 'site' || code === 'lumen'),
      ),
    )
    .map((input) => input.valueString ?? input.valueCodeableConcept?.coding?.[0]?.code);
  return [task.code?.coding?.[0]?.code, task.focus?.reference, ...inputs].join(' ');
}

/** Open Tasks of one activity on one target beyond the first. */
export function surplus(tasks: readonly Task[]): string[] {
  const seen = new Set<string>();
  return tasks.filter(isOpen).flatMap((task) => {
    const ask = askOf(task);
    if (seen.has(ask)) return [ask];
    seen.add(ask);
    return [];
  });
}

export const identityOf = (task: Task) =>
  task.identifier?.find(({ system }) => system === identifierSystem.dueItem)?.value;
