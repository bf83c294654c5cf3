import type { IssueList } from './issues.js';
import type { Ref } from '../model/record.js';
import type { ShapeName } from './shapes.js';
import { momentKey, recordedTime } from './times.js';

/** A resource before it is read, with the names by which others point to it. */
export interface Candidate {
  readonly type: ShapeName;
  readonly ref: Ref;
  readonly resource: Record<string, unknown>;
  readonly names: ReadonlySet<string>;
  /** The server it came from, where that is known. */
  readonly base?: string;
}

/**
 * The one resource that several of one name make. Copies are one. Of versions the newest counts, by its time, else by its
 * number. Where they differ and nothing says which is the newer neither wins: what they agree on is used, and what they
 * disagree on counts as not known, so that nothing is done by it. Of an Observation the values of both are kept, because
 * one of them may be what calls for care. The order of the input does not matter.
 */
export function settled(rivals: readonly Candidate[], issues: IssueList): Candidate {
  const [only, another] = rivals;
  if (only !== undefined && another === undefined) return only;
  const [first, ...others] = newest(rivals);
  const names = new Set(rivals.flatMap((one) => [...one.names]));
  const base = rivals.map((one) => one.base).find((one) => one !== undefined);
  const more = { names, ...(base === undefined ? {} : { base }) };
  if (others.length === 0) return { ...first, ...more };
  const { agreed, elements } = agreement(first, others);
  issues.add(
    'unreadable',
    first.ref,
    `${first.type}.id`,
    { code: 'several-of-one-id', resources: others.length + 1, elements },
    { severity: 'high' },
  );
  return { ...first, ...more, resource: agreed };
}

type AtLeastOne = readonly [Candidate, ...Candidate[]];

/** The newest, or all that may be it; of copies one, in an order of their own. */
function newest(rivals: readonly Candidate[]): AtLeastOne {
  if (rivals.length === 1) return rivals as unknown as AtLeastOne;
  const byContent = new Map<string, Candidate>();
  for (const one of [...rivals].sort((a, b) => compareText(updatedKey(a), updatedKey(b))))
    byContent.set(weighedKey(one.resource), one);
  let left = [...byContent].sort(([a], [b]) => compareText(a, b)).map(([, one]) => one);
  for (const keyOf of [updatedKey, versionKey]) {
    const keys = left.map(keyOf);
    if (keys.includes('')) continue;
    const last = [...keys].sort().at(-1);
    left = left.filter((_, i) => keys[i] === last);
  }
  return left as unknown as AtLeastOne;
}

function agreement(
  first: Candidate,
  others: readonly Candidate[],
): { readonly agreed: Record<string, unknown>; readonly elements: readonly string[] } {
  const all = [first, ...others].map(({ resource }) => resource);
  const keys = [...new Set(all.flatMap((one) => Object.keys(one)))]
    .filter((key) => !unweighed.has(key))
    .sort();
  const agreed: [string, unknown][] = [];
  const elements: string[] = [];
  for (const key of keys) {
    const values = all.map((one) => one[key]);
    if (new Set(values.map(contentKey)).size === 1) agreed.push([key, values[0]]);
    else {
      elements.push(key);
      const joined = first.type === 'Observation' ? joinedValues(key, values) : undefined;
      if (joined !== undefined) agreed.push([key, joined]);
    }
  }
  return { agreed: Object.fromEntries(agreed), elements };
}

function joinedValues(key: string, values: readonly unknown[]): unknown {
  const lists = (parts: readonly unknown[]) =>
    parts.flatMap((one) => (Array.isArray(one) ? (one as unknown[]) : []));
  if (key === 'component') return lists(values);
  if (key !== 'valueCodeableConcept') return undefined;
  return { coding: lists(values.map((one) => (one as { coding?: unknown } | null | undefined)?.coding)) };
}

/** What a resource tells, as a key: copies that differ in their versions alone are the same. */
export function weighedKey(resource: object): string {
  return contentKey(Object.fromEntries(Object.entries(resource).filter(([key]) => !unweighed.has(key))));
}

/** Says nothing of what was done or seen. */
const unweighed: ReadonlySet<string> = new Set(['meta', 'text']);

/** The content of a resource or an element as a key: the same for the same, whatever the order of its elements. */
export function contentKey(value: unknown): string {
  const key = JSON.stringify(value, (_, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => compareText(a, b)))
      : part,
  ) as string | undefined;
  return key ?? '';
}

function metaOf({ resource }: Candidate): { readonly lastUpdated?: unknown; readonly versionId?: unknown } {
  const meta = resource['meta'];
  return typeof meta === 'object' && meta !== null ? meta : {};
}

function updatedKey(one: Candidate): string {
  const { lastUpdated } = metaOf(one);
  const time = typeof lastUpdated === 'string' ? recordedTime(lastUpdated) : undefined;
  return time?.precision === 'instant' ? momentKey(time).padStart(20, '0') : '';
}

function versionKey(one: Candidate): string {
  const { versionId } = metaOf(one);
  return typeof versionId === 'string' && versionId !== '' ? versionId.padStart(20, '0') : '';
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
