import fc from 'fast-check';

/** A resource as it stands in JSON. */
export interface Resource {
  readonly resourceType: string;
  readonly id?: string;
  readonly [element: string]: unknown;
}
export interface Entry {
  readonly resource: unknown;
  readonly fullUrl?: string;
}
export const zones = [
  'Europe/Berlin',
  'America/New_York',
  'Australia/Lord_Howe',
  'Asia/Kathmandu',
  'UTC',
] as const;

export const hour = 3_600_000;
export const iso = (ms: number) => new Date(ms).toISOString();

/** An instant with an offset of its own, which need not be the unit’s. */
export function instantText(ms: number, offsetMinutes = 0): string {
  if (offsetMinutes === 0) return iso(ms);
  const sign = offsetMinutes < 0 ? '-' : '+';
  const two = (value: number) => String(value).padStart(2, '0');
  const size = Math.abs(offsetMinutes);
  const local = iso(ms + offsetMinutes * 60_000).slice(0, 19);
  return `${local}${sign}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** A time near the moment: exact, a day, a month, without an offset, or none at all. */
export function timeNear(asOfMs: number): fc.Arbitrary<string | undefined> {
  const ms = fc
    .oneof(fc.integer({ min: -72 * 60, max: 12 * 60 }), fc.integer({ min: -60 * 1440, max: 5 * 1440 }))
    .map((minutes) => asOfMs + minutes * 60_000);
  const exact = fc
    .tuple(ms, fc.constantFrom(0, 60, -300, 630, 345, 120))
    .map(([at, offset]) => instantText(at, offset));
  return fc.oneof(
    { weight: 12, arbitrary: exact },
    { weight: 2, arbitrary: ms.map((at) => iso(at).slice(0, 10)) },
    { weight: 1, arbitrary: ms.map((at) => iso(at).slice(0, 7)) },
    { weight: 1, arbitrary: ms.map((at) => iso(at).slice(0, 16)) },
    { weight: 1, arbitrary: fc.constantFrom('2026', '2026-02-30', 'yesterday', '', '2026-13-01T00:00:00Z') },
    { weight: 1, arbitrary: fc.constant(undefined) },
  );
}

export const one = <Code extends string>(concepts: readonly (readonly [Code, ...unknown[]])[]) =>
  fc.constantFrom(...concepts.map(([code]) => code));
export const concept = (system: string, code: string, more: readonly object[] = []) => ({
  coding: [...more, { system, code }],
});
export const maybe = <Value>(arbitrary: fc.Arbitrary<Value>, freq = 3) =>
  fc.option(arbitrary, { nil: undefined, freq });
export const defined = (object: Record<string, unknown>) =>
  Object.fromEntries(Object.entries(object).filter(([, value]) => value !== undefined));
