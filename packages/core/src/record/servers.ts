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
  for (const urls of byName.values()) {
    if (urls.size < 2) continue;
    const contents = new Set([...urls.values()].map((one) => (isNestedTooDeep(one) ? '' : weighedKey(one))));
    if (contents.size > 1) for (const url of urls.keys()) apart.add(url);
  }
  return apart;
}
