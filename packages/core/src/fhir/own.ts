import type { Annotation, DetectedIssue, Extension, Flag, Task } from 'fhir/r4.js';
import type { Policy } from '@dwellward/policy';
import { identifierSystem, writtenExtension } from '@dwellward/profiles';
import { policyAt } from '../due/in-force.js';
import type { AsOf } from '../model/care.js';
import { digest } from '../model/digest.js';

/** Who says what stands in our notes; whatever another or nobody signed is a person’s. */
export const ourName = 'Dwellward';

/** The identity under which a Task of ours was written. */
export function ownIdentity(task: Task): string | undefined {
  return task.identifier?.find(({ system }) => system === identifierSystem.dueItem)?.value;
}

/** A Task under another identity of ours; identifiers of others stay. */
export function withIdentity(task: Task, value: string): Task {
  const identifier = task.identifier?.map((one) =>
    one.system === identifierSystem.dueItem ? { ...one, value } : one,
  );
  return { ...task, ...(identifier ? { identifier } : {}) };
}

type Written = Task | Flag | DetectedIssue;

const ours: ReadonlySet<string> = new Set(Object.values(writtenExtension));

/** The extensions of others as they are found, and ours as they are wanted. */
export function withOwnExtensions(
  found: readonly Extension[] | undefined,
  wanted: readonly Extension[] | undefined,
): { readonly extension?: Extension[] } {
  const own = new Set([...ours, ...(wanted ?? []).map(({ url }) => url)]);
  const extension = [...(wanted ?? []), ...(found ?? []).filter(({ url }) => !own.has(url))];
  return extension.length > 0 ? { extension } : {};
}

/** What a resource says was worked out when it was last written here; undefined of one that does not say. */
export function workedOutIn({ extension }: Written): string | undefined {
  return extension?.find(({ url }) => url === writtenExtension.workedOut)?.valueString;
}

/**
 * A resource that says what was worked out of it. Where the next answer is the same, whatever differs from it in the
 * resource was done by somebody else, and stays: a server’s own way of writing, an edit, a closing.
 */
export function withWorkedOut<Kind extends Written>(resource: Kind, ...facts: readonly string[]): Kind {
  const url = writtenExtension.workedOut;
  const others = (resource.extension ?? []).filter((one) => one.url !== url);
  return { ...resource, extension: [...others, { url, valueString: digest('worked-out', ...facts) }] };
}

/** A resource that declares its profile; what it declares already, and whatever else its `meta` has, stays. */
export function withProfile<Kind extends Written>(resource: Kind, ...profiles: readonly string[]): Kind {
  const { resourceType, meta, ...rest } = resource;
  const profile = [...new Set([...(meta?.profile ?? []), ...profiles])];
  return { resourceType, meta: { ...meta, profile }, ...rest } as Kind;
}

/** What `withWorkedOut` says of a resource that was closed here. */
export const closedHereMark = 'closed';

/**
 * The plans in force at a moment, each with its version, the base first.
 * @example
 * ```ts
 * carePolicies(policy, when).length > 0; // true
 * ```
 */
export function carePolicies(policy: Policy, when: AsOf): readonly string[] {
  return policyAt(policy, when).layers.map(({ url, version }) => (version ? `${url}|${version}` : url));
}

/** A resource that says by which plans it was worked out, or closed, in place of those that it said before. */
export function withPolicies<Kind extends Written>(resource: Kind, policies: readonly string[]): Kind {
  const own = policies.map((valueCanonical) => ({ url: writtenExtension.carePolicy, valueCanonical }));
  const others = (resource.extension ?? []).filter(({ url }) => url !== writtenExtension.carePolicy);
  return { ...resource, extension: [...others, ...own] };
}

/**
 * The plans by which a resource was last worked out; empty where it does not say.
 * @example
 * ```ts
 * policiesOf({}); // []
 * ```
 */
export function policiesOf({ extension }: Written): readonly string[] {
  return (extension ?? []).flatMap(({ url, valueCanonical }) =>
    url === writtenExtension.carePolicy && valueCanonical ? [valueCanonical] : [],
  );
}

/**
 * A policy by the names of its plans, as one text.
 * @example
 * ```ts
 * policyKey(carePolicies(policy, when)) === policyKey([]); // false
 * ```
 */
export function policyKey(policies: readonly string[]): string {
  return policies.join(' ');
}

/** Whether a note is ours: signed, or of a Task that an earlier version wrote its first, which it left unsigned. */
function isOurs(note: Annotation, at: number, { extension }: Task): boolean {
  if (note.authorString !== undefined || note.authorReference !== undefined)
    return note.authorString === ourName;
  const unsigned = !(extension ?? []).some(({ url }) => ours.has(url));
  return unsigned && at === 0 && note.time === undefined;
}

/** The notes of a Task that people wrote, with or without a name. */
export function notesOfPeople(task: Task): readonly Annotation[] {
  return (task.note ?? []).filter((note, at) => !isOurs(note, at, task));
}
