/** A JSON object. */
export type JsonObject = Readonly<Record<string, unknown>>;

/** Whether a value is a JSON object: not null, not a list. */
export function isObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The value as a list: what is absent is an empty one, a lone value a list of one. */
export function listOf(value: unknown): readonly unknown[] {
  if (value === undefined || value === null) return [];
  return Array.isArray(value) ? value : [value];
}

/** A short rendering of a value for a message. */
export function shown(value: unknown): string {
  let text: string | undefined;
  try {
    text = JSON.stringify(value);
  } catch {
    text = undefined;
  }
  text ??= typeof value;
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** The names of an object’s elements; one that is undefined is not there. */
export function elementsOf(object: object): readonly string[] {
  return Object.entries(object).flatMap(([name, value]) => (value === undefined ? [] : [name]));
}

/** Whether a value is nested deeper than so many levels; walked without recursion, for it may be very deep. */
export function isDeeper(value: unknown, levels: number): boolean {
  let level: unknown[] = [value];
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > levels) return true;
    level = level.flatMap((one) => (typeof one === 'object' && one !== null ? Object.values(one) : []));
  }
  return false;
}
