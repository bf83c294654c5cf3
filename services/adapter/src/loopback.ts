const names: ReadonlySet<string> = new Set(['127.0.0.1', '::1', '[::1]', 'localhost']);

/**
 * Whether a host is this machine by an address that nobody from elsewhere reaches.
 * @example
 * ```ts
 * isLoopback('127.0.0.1'); // true
 * ```
 */
export function isLoopback(host: string | undefined): boolean {
  return host !== undefined && names.has(host);
}
