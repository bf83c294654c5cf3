import type { Bundle, BundleEntry, Resource } from 'fhir/r4.js';
import { againstTotal, outcomesIn, type Doubt } from './doubts.js';
import { FhirServerError, type FhirServerErrorCode } from './errors.js';
import { nextPageUrl } from './urls.js';

/** One resource of a search, with the URL that it stands for. */
export interface Found {
  readonly resource: Resource;
  readonly fullUrl?: string;
}

/** What reading a search page by page needs. */
export interface Paging {
  readonly baseUrl: string;
  readonly resourceType: string;
  readonly firstUrl: string;
  readonly maxPages: number;
  readonly page: (url: string) => Promise<Bundle>;
  readonly hear: (doubt: Doubt) => void;
}

/**
 * Pages without a new resource that may follow each other before the chain of links counts as endless. Servers that
 * filter after they have cut pages give some empty ones; a page of nothing but what was read already ends it at once.
 */
const emptyPagesInARow = 10;

/**
 * Every match, page after page, until there is no next link. A chain that would not end, or that leads elsewhere, is an
 * incomplete reading: it throws, and is never taken for the whole.
 */
export async function* pagesOf(paging: Paging): AsyncGenerator<Found, void, undefined> {
  const { baseUrl, resourceType, maxPages, hear } = paging;
  let url = paging.firstUrl;
  const links = new Set<string>([url]);
  /** Ids of the matches; what `_include` adds is not counted by `total`. */
  const read = new Set<string>();
  let total: unknown;
  let empty = 0;
  for (let page = 1; ; page++) {
    const bundle = await paging.page(url);
    outcomesIn(bundle, resourceType).forEach(hear);
    total = bundle.total ?? total;
    const before = read.size;
    const found = (bundle.entry ?? []).flatMap((entry) => foundIn(entry) ?? []);
    for (const one of found) {
      const { resource, fullUrl } = one;
      if (resource.resourceType === resourceType) read.add(resource.id ?? fullUrl ?? `${page} ${read.size}`);
      yield one;
    }
    const link = bundle.link?.find(({ relation }) => relation === 'next')?.url;
    if (link === undefined) break;
    const fail = (code: FhirServerErrorCode, detail: string) =>
      new FhirServerError(code, { method: 'GET', resourceType, url, detail });
    const next = nextPageUrl(baseUrl, url, link);
    if (next === undefined) throw fail('foreign-next-link', `the next link leads out of ${baseUrl}`);
    if (links.has(next)) throw fail('next-link-loop', `page ${page} leads back`);
    const nothingNew = read.size === before;
    empty = nothingNew ? empty + 1 : 0;
    if (nothingNew && (found.length > 0 || empty > emptyPagesInARow))
      throw fail('next-link-loop', `page ${page} brings nothing new and leads on`);
    if (page >= maxPages) throw fail('too-many-pages', `more than ${maxPages} pages`);
    links.add(next);
    url = next;
  }
  const doubt = againstTotal(total, read.size, resourceType);
  if (doubt !== undefined) hear(doubt);
}

/** The resource of an entry; undefined for the search’s own messages and for entries without one. */
function foundIn(entry: BundleEntry | null): Found | undefined {
  const { resource, fullUrl, search } = entry ?? {};
  if (resource === undefined || resource === null || search?.mode === 'outcome') return undefined;
  if (resource.resourceType === 'OperationOutcome') return undefined;
  return fullUrl === undefined ? { resource } : { resource, fullUrl };
}
