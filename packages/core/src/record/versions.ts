import type { InR4, VersionDoubt } from '../versions/to-r4.js';
import type { IssueList } from './issues.js';
import { ownName } from '../model/resource-entry.js';
import { addTo } from '../model/gather.js';

const mostRelated = 3;

/** Tells where a resource is not of the version that is said, and where it is of two at once. */
export function reportVersions({ doubts, contradictions }: Omit<InR4, 'entries'>, issues: IssueList): void {
  // A whole export may be of another version than the one that is said: it is told once.
  const groups = new Map<string, VersionDoubt[]>();
  for (const doubt of doubts) {
    const key = `${doubt.said}\u0000${doubt.found}`;
    addTo(groups, key, doubt);
  }
  for (const group of groups.values()) {
    const named = group.map((doubt) => ({ ...doubt, ref: nameOf(doubt.entry) }));
    const [first, ...others] = named.sort((a, b) => (a.ref < b.ref ? -1 : 1));
    if (first === undefined) continue;
    const { said, found } = first;
    const elements = [...new Set(named.flatMap((one) => one.elements))].sort();
    issues.add(
      'conflicting-values',
      first.ref,
      first.elements[0] ?? 'meta',
      { code: 'another-version', said, found, elements, resources: named.length },
      { related: others.slice(0, mostRelated).map(({ ref }) => ref) },
    );
  }
  for (const { entry, elements } of contradictions)
    issues.add(
      'unreadable',
      nameOf(entry),
      elements[0] ?? 'meta',
      { code: 'one-of-several-elements', elements },
      { severity: 'high' },
    );
}

function nameOf(entry: VersionDoubt['entry']): string {
  return ownName(entry) ?? entry.fullUrl ?? entry.place ?? 'Bundle.entry.resource';
}
