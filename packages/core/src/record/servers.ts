import { ownName, type ResourceEntry } from '../model/resource-entry.js';
import { weighedKey } from './rival-resources.js';
import { isNestedTooDeep } from './nesting.js';

/** The address of a resource without that of a version of it. */
export function withoutVersion(url: string): string {
  return url.replace(/\/_history\/[^/]+$/, '');
}

/** The base of the server, from the full URL of a resource and its own `Type/id`. */
export function baseOf(fullUrl: string, name: string): string | undefined {
  const end = `/${name}`;
  return fullUrl.startsWith('http') && fullUrl.endsWith(end) ? fullUrl.slice(0, -end.length) : undefined;
}

/**
 * The full URLs of resources that bear one `Type/id` on several servers and are not the same: they are kept apart, each by
 * its full URL, or two patients would become one. One resource that came by two addresses stays one.
 */
export function namesOfSeveralServers(entries: readonly ResourceEntry[]): ReadonlySet<string> {
  const byName = new Map<string, Map<string, object>>();
  for (const entry of entries) {
    const { resource, fullUrl } = entry;
    const name = ownName(entry);
    if (fullUrl === undefined || name === undefined) continue;
    const url = withoutVersion(fullUrl);
    if (baseOf(url, name) === undefined) continue;
    const urls = byName.get(name) ?? new Map<string, object>();
    byName.set(name, urls.set(url, resource as object));
  }
  const apart = new Set<string>();
  const shared = [...byName.values()].filter((urls) => urls.size > 1);
  for (const urls of shared) {
    const contents = new Set([...urls.values()].map((one) => (isNestedTooDeep(one) ? '' : weighedKey(one))));
    if (contents.size > 1) for (const url of urls.keys()) apart.add(url);
  }
  if (apart.size > 0) withWhatTheyPointTo(apart, byName, shared);
  return apart;
}

type ByUrl = ReadonlyMap<string, object>;

/**
 * Two that read alike are not the same where what they point to is not: `Patient/7` of one server is not that of the other.
 * A Device of R5 does not name its patient; what names both decides for it.
 */
function withWhatTheyPointTo(
  apart: Set<string>,
  byName: ReadonlyMap<string, ByUrl>,
  shared: readonly ByUrl[],
): void {
  const pointsTo = new Map<string, readonly string[]>();
  for (const [name, urls] of byName)
    for (const [url, resource] of urls) {
      const base = baseOf(url, name);
      pointsTo.set(
        url,
        referencesIn(resource).map((one) => (one.startsWith('http') ? one : `${base}/${one}`)),
      );
    }
  const uses = [...pointsTo].filter(([url]) => /\/Device(UseStatement|Usage|Association)\/[^/]+$/.test(url));
  for (let before = -1; before < apart.size;) {
    before = apart.size;
    for (const urls of shared) {
      const all = [...urls.keys()];
      const mine = all.some((url) => apart.has(url) || pointsTo.get(url)?.some((one) => apart.has(one)));
      const used =
        all.some((url) => url.includes('/Device/')) &&
        uses.some(([use, to]) => apart.has(use) && to.some((one) => urls.has(one)));
      if (mine || used) for (const url of all) apart.add(url);
    }
    // A use that is there once, of a patient who is two, parts its Device as well.
    for (const [use, to] of uses) if (to.some((one) => apart.has(one))) apart.add(use);
  }
}

/** Every reference in a resource, without versions. */
function referencesIn(resource: object): string[] {
  if (isNestedTooDeep(resource)) return [];
  const found: string[] = [];
  const open: unknown[] = [resource];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    if (typeof at !== 'object' || at === null) continue;
    const { reference } = at as { reference?: unknown };
    if (typeof reference === 'string') found.push(withoutVersion(reference));
    open.push(...Object.values(at).filter((one) => one !== undefined));
  }
  return found;
}
