import { codeSystem } from '@dwellward/profiles';
import type { Bundle, BundleEntry, Flag, DetectedIssue, Resource, Task } from 'fhir/r4.js';
import type { Writer } from './write.js';

/**
 * Takes differences and writes none of them: it tells of each what would be written. By reference, never by name: what
 * it tells ends up where logs do.
 */
export class DryWriter implements Writer {
  /** Entries that would have been written. */
  count = 0;
  readonly #tell: (text: string) => void;

  constructor(tell: (text: string) => void) {
    this.#tell = tell;
  }

  write(bundle: Bundle): Promise<void> {
    // What stands beside a Task to say where it came from says nothing of its own.
    for (const entry of bundle.entry ?? []) {
      this.count += 1;
      if (entry.resource?.resourceType !== 'Provenance') this.#tell(entryText(entry));
    }
    return Promise.resolve();
  }
}

function entryText({ request, resource }: BundleEntry): string {
  const method = request?.method ?? '';
  const verbs: Readonly<Record<string, string>> = { POST: 'create', PUT: 'update', DELETE: 'delete' };
  const what = method === 'POST' ? (resource?.resourceType ?? '') : (request?.url ?? '');
  return [verbs[method] ?? method, what, ...(resource ? partsOf(resource) : [])].filter(Boolean).join(' ');
}

function partsOf(resource: Resource): string[] {
  if (resource.resourceType === 'Task') {
    const { status, code, focus, restriction, for: patient } = resource as Task;
    const activity = code?.coding?.find(({ system }) => system === codeSystem.lineCareActivity)?.code;
    const end = restriction?.period?.end;
    return [
      ...[
        status,
        activity ?? '',
        `on ${focus?.reference ?? 'nothing'}`,
        `of ${patient?.reference ?? 'nobody'}`,
      ],
      end === undefined ? '' : `by ${end}`,
    ];
  }
  if (resource.resourceType === 'Flag') {
    const { status, code, subject } = resource as Flag;
    return [status, code.coding?.[0]?.code ?? '', `of ${subject.reference ?? 'nobody'}`];
  }
  const { status, code, patient } = resource as DetectedIssue;
  return [status, code?.coding?.[0]?.code ?? '', `of ${patient?.reference ?? 'nobody'}`];
}
