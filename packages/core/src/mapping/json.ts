/** Resources before they are read by their shapes: what is no object or list is none. */
export type Json = Readonly<Record<string, unknown>>;

export function isObject(value: unknown): value is Json {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export function objectsOf(value: unknown): readonly Json[] {
  return Array.isArray(value) ? value.filter(isObject) : [];
}

export function textOf(value: unknown): string | undefined {
  return typeof value === 'string' && value.trim() !== '' ? value.trim() : undefined;
}

/** The codings of a CodeableConcept. */
export function codingsOf(concept: unknown): readonly Json[] {
  return isObject(concept) ? objectsOf(concept['coding']) : [];
}

/** The reference of an element. */
export function referenceOf(value: unknown): string | undefined {
  return isObject(value) ? textOf(value['reference']) : undefined;
}
