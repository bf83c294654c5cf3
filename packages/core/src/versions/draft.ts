export type Json = Readonly<Record<string, unknown>>;

export function isObject(value: unknown): value is Json {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A resource on its way into the shape of R4. What was given is not written to. */
export class Draft {
  /** The elements, by their names, that only R5 has, or has in this shape. */
  readonly signs: string[] = [];
  /** Elements of both versions that say different things: what is meant can’t be known, and none of them is kept. */
  readonly contradictions: (readonly string[])[] = [];
  readonly #source: Json;
  #changed: Record<string, unknown> | undefined;

  constructor(source: Json) {
    this.#source = source;
  }

  get(name: string): unknown {
    return (this.#changed ?? this.#source)[name];
  }

  has(name: string): boolean {
    return this.get(name) !== undefined;
  }

  /** Sets an element; with undefined it is taken away. */
  set(name: string, value: unknown): void {
    this.#changed ??= { ...this.#source };
    if (value === undefined) Reflect.deleteProperty(this.#changed, name);
    else this.#changed[name] = value;
  }

  /** Moves an element of R5 to where R4 has it, in R4’s shape. */
  move(from: string, to: string, reshape: (value: unknown) => unknown = (value) => value): void {
    const value = this.get(from);
    if (value === undefined) return;
    this.signs.push(from);
    this.set(from, undefined);
    this.put(from, to, reshape(value));
  }

  /** Puts what an element of R5 says where R4 has it. */
  put(from: string, to: string, value: unknown): void {
    if (value === undefined) return;
    const there = this.get(to);
    if (there !== undefined && !isSame(there, value)) {
      this.contradictions.push([to, from]);
      this.set(to, undefined);
    } else this.set(to, value);
  }

  /** Turns an element that has the same name in both versions, where it has the shape of R5. */
  reshape(name: string, isNew: (value: unknown) => boolean, change: (value: unknown) => unknown): void {
    const value = this.get(name);
    if (value === undefined || !isNew(value)) return;
    this.signs.push(name);
    this.set(name, change(value));
  }

  /** The resource; the very one that was given where nothing was to be changed. */
  get result(): Json {
    return this.#changed ?? this.#source;
  }
}

/** Whether two values of elements say the same, as far as their own primitives go. */
function isSame(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (!isObject(a) || !isObject(b)) return false;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].every((key) => a[key] === b[key]);
}

/** The concept of a CodeableReference; one that only points somewhere keeps what is said of that, as text. */
export function conceptOf(value: unknown): unknown {
  if (!isObject(value)) return value;
  if (value['concept'] !== undefined) return value['concept'];
  const { reference } = value;
  if (!isObject(reference)) return undefined;
  const text = reference['display'] ?? reference['reference'];
  return text === undefined ? undefined : { text };
}

/** The reference of a CodeableReference. */
export function referenceOf(value: unknown): unknown {
  return isObject(value) ? value['reference'] : value;
}

/** Whether it is a CodeableReference: neither a CodeableConcept nor a Reference. */
export function isCodeableReference(value: unknown): boolean {
  return isObject(value) && (isObject(value['concept']) || isObject(value['reference']));
}

/** Whether it is a list with a CodeableReference in it. */
export function hasCodeableReference(value: unknown): boolean {
  return Array.isArray(value) && value.some(isCodeableReference);
}

/** What is there of each in a list; anything else stays as it is, so that whoever reads it next can tell of it. */
export function each(change: (one: unknown) => unknown): (list: unknown) => unknown {
  return (list) => {
    if (!Array.isArray(list)) return list;
    const changed = list.map(change).filter((one) => one !== undefined);
    return changed.length === 0 ? undefined : changed;
  };
}

/** One concept of a list of them: the codings of all, and the first text. */
export function joinedConcepts(list: unknown): unknown {
  if (!Array.isArray(list)) return list;
  const concepts = (list as unknown[]).filter(isObject);
  if (concepts.length < list.length) return concepts.length === 0 ? list[0] : joinedConcepts(concepts);
  const coding = concepts.flatMap((one) =>
    Array.isArray(one['coding']) ? (one['coding'] as unknown[]) : [],
  );
  const text = concepts.map((one) => one['text']).find((one) => one !== undefined);
  return { ...(coding.length > 0 ? { coding } : {}), ...(text === undefined ? {} : { text }) };
}
