import { Temporal } from 'temporal-polyfill';

/**
 * Whether two pieces of a resource say the same. Servers write instants their own way and leave out empty parts;
 * that is no difference.
 */
export function saysTheSame(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a === 'string' && typeof b === 'string') return sameInstant(a, b);
  if (Array.isArray(a) && Array.isArray(b)) {
    return a.length === b.length && a.every((one, i) => saysTheSame(one, b[i]));
  }
  if (!isObject(a) || !isObject(b)) return false;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].every((key) => saysTheSame(a[key], b[key]));
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

const instant = /^\d{4}-\d{2}-\d{2}T.*(Z|[+-]\d{2}:\d{2})$/;

function sameInstant(a: string, b: string): boolean {
  if (!instant.test(a) || !instant.test(b)) return false;
  try {
    return Temporal.Instant.from(a).equals(Temporal.Instant.from(b));
  } catch {
    return false;
  }
}

/** Whether the first of two instants in ISO 8601 is before the second; false where either can’t be read. */
export function isEarlier(a: string, b: string): boolean {
  if (!instant.test(a) || !instant.test(b)) return false;
  try {
    return Temporal.Instant.compare(Temporal.Instant.from(a), Temporal.Instant.from(b)) < 0;
  } catch {
    return false;
  }
}
