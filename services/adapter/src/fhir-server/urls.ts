/**
 * The service base in one spelling: no trailing slash, no query, no fragment.
 * @throws TypeError where it is not an absolute http or https URL, or carries a user name or password.
 */
export function serviceBase(text: string): string {
  const url = new URL(text);
  if (url.protocol !== 'http:' && url.protocol !== 'https:') throw new TypeError('not an http or https URL');
  if (url.username !== '' || url.password !== '') throw new TypeError('a user name or password in the URL');
  if (url.search !== '' || url.hash !== '') throw new TypeError('a query or fragment in the URL');
  return url.origin + url.pathname.replace(/\/+$/, '');
}

/** True where the URL is the service base itself or lies below it, on the same origin. */
export function isBelow(base: string, url: URL): boolean {
  const from = new URL(base);
  const path = from.pathname.replace(/\/+$/, '');
  return url.origin === from.origin && (url.pathname === path || url.pathname.startsWith(`${path}/`));
}

/**
 * Where a next link leads, read the way servers in the wild write it: absolute, from the root (`/fhir/Device?page=2`),
 * from the service base (`Device?page=2`) or only a query.
 * @returns undefined where it leads to another origin, or out of the service base, or is no URL.
 */
export function nextPageUrl(base: string, current: string, link: string): string | undefined {
  let url: URL;
  try {
    url = new URL(link, link.startsWith('?') ? current : `${base}/`);
  } catch {
    return undefined;
  }
  if (!isBelow(base, url) || url.username !== '' || url.password !== '') return undefined;
  url.hash = '';
  return url.href;
}
