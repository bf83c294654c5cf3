import { fhirPathOf, readShape, shapes, type Reference, type Shape, type ShapeName } from './shapes.js';
import { digest } from '../model/digest.js';
import { doubledChoices, isResourceType } from './choices.js';
import type { IssueList } from './issues.js';
import type { Ref } from '../model/record.js';
import type { Unusable } from '../model/sentences.js';

/** A resource as it came. */
export interface ResourceEntry {
  readonly resource: unknown;
  /** The full URL of its Bundle entry, where it had one. */
  readonly fullUrl?: string;
  /** Where it stood, for people: `Bundle.entry[7].resource`, or a file and a line. */
  readonly place?: string;
  /** Why there is no resource, where whoever read the input knows it. */
  readonly problem?: string;
}

/** A resource that was read, with the one name by which the rest of the record knows it. */
export interface Indexed<Name extends ShapeName> {
  readonly ref: Ref;
  readonly value: Shape<Name>;
}

interface Candidate {
  readonly type: ShapeName;
  readonly ref: Ref;
  readonly resource: Record<string, unknown>;
  readonly names: Set<string>;
}

/** The resources of a record by type, and the way from a reference to the resource it points to. */
export class ResourceIndex {
  readonly #byType = new Map<ShapeName, Map<Ref, unknown>>();
  readonly #byName = new Map<string, Ref>();

  constructor(entries: Iterable<ResourceEntry>, issues: IssueList) {
    const kept = new Map<Ref, Candidate>();
    for (const [position, entry] of [...entries].entries()) {
      for (const candidate of candidatesOf(entry, position, issues)) {
        const rival = kept.get(candidate.ref);
        const winner = rival && compareVersions(rival.resource, candidate.resource) >= 0 ? rival : candidate;
        kept.set(candidate.ref, { ...winner, names: new Set([...candidate.names, ...(rival?.names ?? [])]) });
      }
    }
    for (const candidate of [...kept.values()].sort((a, b) => (a.ref < b.ref ? -1 : 1))) {
      const doubled = doubledChoices(candidate.type, candidate.resource);
      for (const { path, keys } of doubled) {
        issues.add(
          'unreadable',
          candidate.ref,
          path,
          { code: 'one-of-several-elements', elements: keys },
          { severity: 'high' },
        );
      }
      const { value, bad } = readShape(
        candidate.type,
        without(
          candidate.resource,
          doubled.flatMap(({ keys }) => keys),
        ),
      );
      for (const { path, message } of bad) {
        issues.add('unreadable', candidate.ref, fhirPathOf(candidate.type, path), {
          code: 'element-left-out',
          reason: { code: 'outside-text', text: message },
        });
      }
      const ofType = this.#byType.get(candidate.type) ?? new Map<Ref, unknown>();
      this.#byType.set(candidate.type, ofType.set(candidate.ref, value));
      for (const name of candidate.names) this.#byName.set(name, candidate.ref);
    }
  }

  /** All of a type, in the order of their names. */
  all<Name extends ShapeName>(type: Name): Indexed<Name>[] {
    return [...(this.#byType.get(type) ?? [])].map(([ref, value]) => ({ ref, value: value as Shape<Name> }));
  }

  /** One by its name. */
  get<Name extends ShapeName>(type: Name, ref: Ref | undefined): Indexed<Name> | undefined {
    const value = ref === undefined ? undefined : this.#byType.get(type)?.get(ref);
    return ref !== undefined && value !== undefined ? { ref, value: value as Shape<Name> } : undefined;
  }

  /**
   * The name of what a reference points to: relative, absolute, with a version, `urn:uuid:` or contained.
   * Where the resource is not there the name is the reference’s own `Type/id`, or its text.
   */
  nameOf(reference: Reference | undefined, from: Ref): Ref | undefined {
    const text = reference?.reference?.trim();
    if (!text) return undefined;
    if (text.startsWith('#')) return this.#byName.get(`${from}${text}`) ?? `${from}${text}`;
    const unversioned = text.replace(/\/_history\/[^/]+$/, '');
    return (
      this.#byName.get(unversioned) ?? this.#byName.get(typeAndId(unversioned)) ?? typeAndId(unversioned)
    );
  }
}

function* candidatesOf(entry: ResourceEntry, position: number, issues: IssueList): Generator<Candidate> {
  const { resource, fullUrl } = entry;
  // The position names an entry only where nothing else does: the order of the input must not show.
  const place = fullUrl ? 'Bundle.entry.resource' : (entry.place ?? `Bundle.entry[${position}].resource`);
  const unreadable = (reason: Unusable) =>
    issues.add(
      'unreadable',
      fullUrl ?? place,
      place,
      { code: 'nothing-of-it-used', reason },
      { severity: 'high' },
    );
  if (typeof resource !== 'object' || resource === null || Array.isArray(resource)) {
    unreadable(
      entry.problem === undefined
        ? { code: 'no-resource-here' }
        : { code: 'outside-text', text: entry.problem },
    );
    return;
  }
  const content = resource as Record<string, unknown>;
  const type = content['resourceType'];
  if (typeof type !== 'string' || type === '') {
    unreadable({ code: 'no-resource-type' });
    return;
  }
  if (!isResourceType(type)) {
    unreadable({ code: 'no-such-resource-type', type });
    return;
  }
  const id = typeof content['id'] === 'string' && content['id'] !== '' ? content['id'] : undefined;
  const ref = id ? `${type}/${id}` : (entry.fullUrl ?? `${type}/${digest(contentKey(content))}`);
  if (isShape(type)) {
    const names = new Set([ref]);
    if (entry.fullUrl) names.add(entry.fullUrl);
    yield { type, ref, resource: content, names };
  }
  for (const inner of Array.isArray(content['contained']) ? content['contained'] : []) {
    if (typeof inner !== 'object' || inner === null) continue;
    const { resourceType, id: innerId } = inner as Record<string, unknown>;
    if (typeof resourceType === 'string' && isShape(resourceType) && typeof innerId === 'string') {
      const innerRef = `${ref}#${innerId.replace(/^#/, '')}`;
      yield {
        type: resourceType,
        ref: innerRef,
        resource: inner as Record<string, unknown>,
        names: new Set([innerRef]),
      };
    }
  }
}

function without(resource: Record<string, unknown>, keys: readonly string[]): Record<string, unknown> {
  return Object.fromEntries(Object.entries(resource).filter(([key]) => !keys.includes(key)));
}

function isShape(type: string): type is ShapeName {
  return Object.hasOwn(shapes, type);
}

function typeAndId(reference: string): string {
  return /(?:^|\/)([A-Z][A-Za-z]+\/[^/]+)$/.exec(reference)?.[1] ?? reference;
}

// The order of the input must not matter: the newest version wins, by its time, then its number, then its text.
function compareVersions(a: Record<string, unknown>, b: Record<string, unknown>): number {
  const [x, y] = [versionKey(a), versionKey(b)];
  return x < y ? -1 : x > y ? 1 : 0;
}

function versionKey(resource: Record<string, unknown>): string {
  const meta = resource['meta'] as { lastUpdated?: unknown; versionId?: unknown } | undefined;
  const updated = typeof meta?.lastUpdated === 'string' ? meta.lastUpdated : '';
  const version = typeof meta?.versionId === 'string' ? meta.versionId.padStart(20, '0') : '';
  return `${updated}\u0000${version}\u0000${contentKey(resource)}`;
}

function contentKey(resource: Record<string, unknown>): string {
  return JSON.stringify(resource, (_, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );
}
