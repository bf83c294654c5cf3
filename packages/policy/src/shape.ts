import { zod } from '#outside';
import type { z, ZodSafeParseResult } from 'zod';

// What is in order is only looked at: the schema library is loaded, and its schema built, for what it has to refuse, since
// its words say what is wrong. Both must judge alike, which a test holds them to.

/** What JSON must look like. */
export interface Shape<T> {
  /** Whether a value has this shape. Nothing is copied. */
  accepts(value: unknown): value is T;
  /** The same as a schema, which says what is wrong. */
  schema(): z.ZodType<T>;
}

/** The type of what has a shape. */
export type Shaped<S> = S extends Shape<infer T> ? T : never;

type Members = Readonly<Record<string, Shape<unknown>>>;
type OptionalKey<M extends Members> = {
  [K in keyof M]: undefined extends Shaped<M[K]> ? K : never;
}[keyof M];

/** An object with these members, and whatever else stands in it. */
export type ShapedObject<M extends Members> = {
  [K in OptionalKey<M>]?: Shaped<M[K]> | undefined;
} & { [K in Exclude<keyof M, OptionalKey<M>>]: Shaped<M[K]> } & { [name: string]: unknown };

function shape<T>(accepts: (value: unknown) => boolean, make: (z: Zod) => z.ZodType): Shape<T> {
  let made: z.ZodType<T> | undefined;
  return {
    accepts: accepts as Shape<T>['accepts'],
    schema: () => (made ??= make(zod()) as z.ZodType<T>),
  };
}

type Zod = typeof z;

export const text: Shape<string> = shape(
  (value) => typeof value === 'string',
  (z) => z.string(),
);

export const number: Shape<number> = shape(
  (value) => typeof value === 'number' && Number.isFinite(value),
  (z) => z.number(),
);

export const yesNo: Shape<boolean> = shape(
  (value) => typeof value === 'boolean',
  (z) => z.boolean(),
);

/** Whatever it is. */
export const anything: Shape<unknown> = shape(
  () => true,
  (z) => z.unknown(),
);

/** One of these texts. */
export function oneOf<const T extends string>(first: T, ...others: readonly T[]): Shape<T> {
  const all: readonly unknown[] = [first, ...others];
  return shape(
    (value) => all.includes(value),
    (z) => (others.length === 0 ? z.literal(first) : z.enum([first, ...others])),
  );
}

/** That, or nothing. */
export function optional<T>(of: Shape<T>): Shape<T | undefined> {
  return shape(
    (value) => value === undefined || of.accepts(value),
    () => of.schema().optional(),
  );
}

export function list<T>(of: Shape<T>): Shape<T[]> {
  return shape(
    (value) => {
      if (!Array.isArray(value)) return false;
      for (const one of value) if (!of.accepts(one)) return false;
      return true;
    },
    (z) => z.array(of.schema()),
  );
}

/** An object that may have other members, too. */
export function object<const M extends Members>(members: M): Shape<ShapedObject<M>> {
  const all = Object.entries(members);
  return shape(
    (value) => {
      if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
      for (const [name, { accepts }] of all)
        if (!accepts((value as Readonly<Record<string, unknown>>)[name])) return false;
      return true;
    },
    (z) => z.looseObject(Object.fromEntries(all.map(([name, of]) => [name, of.schema()]))),
  );
}

/** Both at once. */
export function both<A, B>(a: Shape<A>, b: Shape<B>): Shape<A & B> {
  return shape(
    (value) => a.accepts(value) && b.accepts(value),
    () => a.schema().and(b.schema()),
  );
}

/** A value by its shape: itself where it has it, else what is wrong with it. */
export function shaped<T>(by: Shape<T>, value: unknown): ZodSafeParseResult<T> {
  return by.accepts(value) ? { success: true, data: value } : by.schema().safeParse(value);
}
