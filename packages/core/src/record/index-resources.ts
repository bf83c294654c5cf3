import { fhirPathOf, readShape, shapes, type Reference, type Shape, type ShapeName } from './shapes.js';
import { mergedPatients } from './merged-patients.js';
import { isNestedTooDeep } from './nesting.js';
import { contentKey, settled, type Candidate } from './rival-resources.js';
import { baseOf, namesOfSeveralServers, withoutVersion } from './servers.js';
import { shortened } from './shortened.js';
import { ownName, type ResourceEntry } from '../model/resource-entry.js';
import { digest } from '../model/digest.js';
import { doubledChoices, isResourceType } from './choices.js';
import type { IssueList } from './issues.js';
import type { Ref } from '../model/record.js';
import type { Unusable } from '../model/sentences.js';
import { addTo } from '../model/gather.js';

/** A resource that was read, with the one name by which the rest of the record knows it. */
export interface Indexed<Name extends ShapeName> {
  readonly ref: Ref;
  readonly value: Shape<Name>;
}

/** The resources of a record by type, and the way from a reference to the resource it points to. */
export class ResourceIndex {
  readonly #byType = new Map<ShapeName, Map<Ref, unknown>>();
  /** Filled when they are first asked for, which is after everything was read. */
  readonly #lists = new Map<ShapeName, readonly Indexed<ShapeName>[]>();
  readonly #pointed = new Map<string | undefined, Map<string, Ref>>();
  readonly #byName = new Map<string, Ref>();
  /** The server that each came from, where the full URL of its entry says it. */
  readonly #bases = new Map<Ref, string>();
  /** All servers of the record. */
  readonly #servers = new Set<string>();
  /** By patient: the one whose record took the place of theirs. */
  readonly #merged: ReadonlyMap<Ref, Ref>;
  /** Types that are not read, with how many there are of each. */
  readonly unread = new Map<string, number>();

  constructor(given: Iterable<ResourceEntry>, issues: IssueList) {
    const entries = [...given];
    const apart = namesOfSeveralServers(entries);
    const byRef = new Map<Ref, Candidate[]>();
    for (const [position, entry] of entries.entries()) {
      const whole = wholeResource(entry, position, issues);
      if (whole === undefined) continue;
      if (!isShape(whole.type)) this.unread.set(whole.type, (this.unread.get(whole.type) ?? 0) + 1);
      for (const candidate of candidatesOf(entry, whole, apart)) addTo(byRef, candidate.ref, candidate);
    }
    const kept = [...byRef.values()].map((rivals) => settled(rivals, issues));
    for (const candidate of kept.sort((a, b) => (a.ref < b.ref ? -1 : 1))) {
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
        doubled.length === 0
          ? candidate.resource
          : without(
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
      if (candidate.base !== undefined) this.#bases.set(candidate.ref, candidate.base);
      for (const { base } of byRef.get(candidate.ref) ?? []) if (base !== undefined) this.#servers.add(base);
    }
    this.#merged = mergedPatients(this.all('Patient'), (one, from) => this.#pointedTo(one, from), issues);
  }

  /** All of a type, in the order of their names. */
  all<Name extends ShapeName>(type: Name): readonly Indexed<Name>[] {
    const known = this.#lists.get(type) as readonly Indexed<Name>[] | undefined;
    if (known !== undefined) return known;
    const list = [...(this.#byType.get(type) ?? [])].map(([ref, value]) => ({
      ref,
      value: value as Shape<Name>,
    }));
    this.#lists.set(type, list);
    return list;
  }

  /** One by its name. */
  get<Name extends ShapeName>(type: Name, ref: Ref | undefined): Indexed<Name> | undefined {
    const value = ref === undefined ? undefined : this.#byType.get(type)?.get(ref);
    return ref !== undefined && value !== undefined ? { ref, value: value as Shape<Name> } : undefined;
  }

  /**
   * The name of what a reference points to: relative, absolute, with a version, `urn:uuid:` or contained.
   * Where the resource is not there the name is the reference’s own `Type/id`, or its text. A patient whose record was merged
   * goes by the name of the one that it was merged into.
   */
  nameOf(reference: Reference | undefined, from: Ref): Ref | undefined {
    const name = this.#pointedTo(reference, from);
    return name === undefined ? undefined : (this.#merged.get(name) ?? name);
  }

  #pointedTo(reference: Reference | undefined, from: Ref): Ref | undefined {
    const text = reference?.reference?.trim();
    if (!text) return undefined;
    if (text.startsWith('#')) return this.#byName.get(`${from}${text}`) ?? `${from}${text}`;
    // A relative reference is meant on the server that it came from.
    const base = this.#bases.size === 0 ? undefined : this.#bases.get(from.split('#')[0] as Ref);
    let fromThere = this.#pointed.get(base);
    if (fromThere === undefined) this.#pointed.set(base, (fromThere = new Map()));
    const known = fromThere.get(text);
    if (known !== undefined) return known;
    const name = this.#named(text, base);
    fromThere.set(text, name);
    return name;
  }

  #named(text: string, base: string | undefined): Ref {
    const unversioned = withoutVersion(text);
    const here = base === undefined ? undefined : this.#byName.get(`${base}/${unversioned}`);
    if (here !== undefined) return here;
    const short = typeAndId(unversioned);
    const found = this.#byName.get(unversioned) ?? this.#byName.get(short);
    if (found === undefined) return short;
    // A server of this record that has no such resource does not mean another one’s. One whose addresses nobody else here
    // has may be the same server under another name.
    const meant = unversioned === short ? base : baseOf(unversioned, short);
    const its = this.#bases.get(found);
    const another = meant !== undefined && its !== undefined && meant !== its && this.#servers.has(meant);
    return another ? `${meant}/${short}` : found;
  }
}

/** A resource of FHIR R4 with its type; undefined, and reported, where there is none. */
interface Whole {
  readonly type: string;
  readonly content: Record<string, unknown>;
}

function wholeResource(entry: ResourceEntry, position: number, issues: IssueList): Whole | undefined {
  const { resource, fullUrl } = entry;
  // The position names an entry only where nothing else does: the order of the input must not show.
  const place = fullUrl ? 'Bundle.entry.resource' : (entry.place ?? `Bundle.entry[${position}].resource`);
  const unreadable = (reason: Unusable, name?: Ref) => {
    issues.add(
      'unreadable',
      name ?? fullUrl ?? place,
      place,
      { code: 'nothing-of-it-used', reason },
      { severity: 'high' },
    );
    return undefined;
  };
  if (entry.missing !== undefined) {
    const reason = { code: 'outside-text', text: entry.missing } as const;
    issues.add('unreadable', place, place, { code: 'input-not-whole', reason }, { severity: 'high' });
    return undefined;
  }
  if (typeof resource !== 'object' || resource === null || Array.isArray(resource)) {
    return unreadable(
      entry.problem === undefined
        ? { code: 'no-resource-here' }
        : { code: 'outside-text', text: entry.problem },
    );
  }
  const content = resource as Record<string, unknown>;
  const type = content['resourceType'];
  if (typeof type !== 'string' || type === '') return unreadable({ code: 'no-resource-type' });
  if (!isResourceType(type)) return unreadable({ code: 'no-such-resource-type', type: shortened(type) });
  if (isNestedTooDeep(resource)) {
    const { id } = content;
    return unreadable(
      { code: 'nested-too-deep' },
      typeof id === 'string' ? `${type}/${shortened(id)}` : undefined,
    );
  }
  return { type, content };
}

function* candidatesOf(
  entry: ResourceEntry,
  { type, content }: Whole,
  apart: ReadonlySet<string>,
): Generator<Candidate> {
  const { fullUrl } = entry;
  const id = typeof content['id'] === 'string' && content['id'] !== '' ? content['id'] : undefined;
  const name = ownName(entry);
  const own = fullUrl === undefined ? undefined : withoutVersion(fullUrl);
  // An id with a sign that parts references in it can’t be one.
  const ref =
    name !== undefined && !/[#/\s]/.test(id ?? '') && !(own !== undefined && apart.has(own))
      ? name
      : (own ?? `${type}/${digest(contentKey(content))}`);
  const base = own === undefined || name === undefined ? undefined : baseOf(own, name);
  if (isShape(type)) {
    const names = new Set([ref]);
    if (own !== undefined) names.add(own);
    if (name !== undefined && !(own !== undefined && apart.has(own))) names.add(name);
    yield { type, ref, resource: content, names, ...(base === undefined ? {} : { base }) };
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
