import { dayNumber, localMinutes } from './calendar.js';
import { type Decimal, compare, decimal, parseDecimal, round } from './decimal.js';
import { CalculatorError } from './error.js';

/** A number as decimal text, or a JavaScript number, which is read by the digits it prints. */
export type DecimalInput = string | number;

interface Described {
  /** What it is, in a sentence for people. */
  readonly about: string;
  readonly optional?: boolean;
}

/** A measured amount; both ends of the range are accepted. */
export interface QuantitySpec extends Described {
  readonly kind: 'quantity';
  readonly unit: string;
  readonly min: string;
  readonly max: string;
}

/** A count of whole things. */
export interface WholeSpec extends Described {
  readonly kind: 'whole';
  readonly unit: string;
  readonly min: string;
  readonly max: string;
}

export interface ChoiceSpec<C extends string = string> extends Described {
  readonly kind: 'choice';
  readonly choices: readonly C[];
}

export interface FlagSpec extends Described {
  readonly kind: 'flag';
}

/** A calendar date, `YYYY-MM-DD`, in whatever zone the caller counts days in. */
export interface DateSpec extends Described {
  readonly kind: 'date';
}

/** Date and time on the wall clock, `YYYY-MM-DDThh:mm`. */
export interface LocalTimeSpec extends Described {
  readonly kind: 'local-time';
}

export interface NameSpec extends Described {
  readonly kind: 'name';
}

export interface ListSpec<S extends Specs = Specs> extends Described {
  readonly kind: 'list';
  readonly of: S;
  readonly minEntries: number;
  readonly maxEntries: number;
}

/** What one input of a calculator accepts: enough to check it, to document it and to ask a person for it. */
export type Spec =
  | QuantitySpec
  | WholeSpec
  | ChoiceSpec
  | FlagSpec
  | DateSpec
  | LocalTimeSpec
  | NameSpec
  // The entry type must not be spelled out here: the union would contain itself.
  | ListSpec<{ readonly [name: string]: Spec }>;

export interface Specs {
  readonly [name: string]: Spec;
}

type ValueIn<S> = S extends { kind: 'quantity' | 'whole' }
  ? DecimalInput
  : S extends ChoiceSpec<infer C>
    ? C
    : S extends { kind: 'flag' }
      ? boolean
      : S extends ListSpec<infer O>
        ? readonly InputOf<O>[]
        : string;

type ValueRead<S> = S extends { kind: 'quantity' }
  ? Decimal
  : S extends { kind: 'whole' | 'date' | 'local-time' }
    ? number
    : S extends ChoiceSpec<infer C>
      ? C
      : S extends { kind: 'flag' }
        ? boolean
        : S extends ListSpec<infer O>
          ? readonly InputRead<O>[]
          : string;

type OptionalKey<S> = { [K in keyof S]: S[K] extends { optional: true } ? K : never }[keyof S];
type Flat<T> = { readonly [K in keyof T]: T[K] };

/** The argument of a calculator with these inputs. */
export type InputOf<S> = Flat<
  { [K in Exclude<keyof S, OptionalKey<S>>]: ValueIn<S[K]> } & {
    [K in OptionalKey<S>]?: ValueIn<S[K]> | undefined;
  }
>;

/** The same, checked and read: decimals, day numbers, minutes. */
export type InputRead<S> = Flat<
  { [K in Exclude<keyof S, OptionalKey<S>>]: ValueRead<S[K]> } & {
    [K in OptionalKey<S>]: ValueRead<S[K]> | undefined;
  }
>;

export const quantity = (unit: string, min: string, max: string, about: string) =>
  ({ kind: 'quantity', unit, min, max, about }) as const;

export const whole = (unit: string, min: string, max: string, about: string) =>
  ({ kind: 'whole', unit, min, max, about }) as const;

export const choice = <const C extends string>(choices: readonly C[], about: string) =>
  ({ kind: 'choice', choices, about }) as const;

export const flag = (about: string) => ({ kind: 'flag', about }) as const;

export const date = (about: string) => ({ kind: 'date', about }) as const;

export const localTime = (about: string) => ({ kind: 'local-time', about }) as const;

export const name = (about: string) => ({ kind: 'name', about }) as const;

export const list = <const S extends Specs>(minEntries: number, maxEntries: number, of: S, about: string) =>
  ({ kind: 'list', minEntries, maxEntries, of, about }) as const;

export const optional = <S extends Spec>(spec: S): S & { readonly optional: true } => ({
  ...spec,
  optional: true,
});

/** What an input accepts, as text for an error or a page: `0.01 to 30 mL`. */
export function accepted(spec: Spec): string {
  switch (spec.kind) {
    case 'quantity':
      return `${spec.min} to ${spec.max} ${spec.unit}`;
    case 'whole':
      return `a whole number from ${spec.min} to ${spec.max} ${spec.unit}`;
    case 'choice':
      return `one of ${spec.choices.join(', ')}`;
    case 'flag':
      return 'true or false';
    case 'date':
      return 'a date YYYY-MM-DD of the years 1900 to 2199';
    case 'local-time':
      return 'a local date and time YYYY-MM-DDThh:mm of the years 1900 to 2199';
    case 'name':
      return 'text of 1 to 80 characters';
    case 'list':
      return `a list of ${spec.minEntries} to ${spec.maxEntries} entries`;
  }
}

/**
 * Checks every input against its spec and reads it.
 *
 * @throws {@link CalculatorError} for the first input that is not accepted, in the order of the specs.
 */
export function readInput<S extends Specs>(specs: S, input: unknown): InputRead<S> {
  // The compiler can't follow a loop over the keys of a mapped type; `readEntry` fills exactly those keys.
  return readEntry(specs, input, '') as InputRead<S>;
}

function readEntry(specs: Specs, input: unknown, path: string): Readonly<Record<string, unknown>> {
  if (typeof input !== 'object' || input === null || Array.isArray(input)) {
    const names = Object.keys(specs).join(', ');
    throw new CalculatorError('wrong-type', path === '' ? 'input' : path, input, `an object with ${names}`);
  }
  const prefix = path === '' ? '' : `${path}.`;
  for (const key of Object.keys(input)) {
    if (!Object.hasOwn(specs, key)) {
      throw new CalculatorError('unknown-input', prefix + key, key, `only ${Object.keys(specs).join(', ')}`);
    }
  }
  const read: Record<string, unknown> = {};
  for (const [key, spec] of Object.entries(specs)) {
    const value: unknown = Object.hasOwn(input, key) ? (input as Record<string, unknown>)[key] : undefined;
    if (value !== undefined) read[key] = readValue(spec, value, prefix + key);
    else if (spec.optional !== true)
      throw new CalculatorError('missing', prefix + key, value, accepted(spec));
  }
  return read;
}

function readValue(spec: Spec, value: unknown, path: string): unknown {
  switch (spec.kind) {
    case 'quantity':
      return readQuantity(spec, value, path);
    case 'whole':
      return readWhole(spec, value, path);
    case 'choice':
      if (typeof value !== 'string' || !spec.choices.includes(value))
        throw refusal('not-a-choice', spec, value, path);
      return value;
    case 'flag':
      if (typeof value !== 'boolean') throw refusal('wrong-type', spec, value, path);
      return value;
    case 'date':
      return readTime(spec, value, path, dayNumber);
    case 'local-time':
      return readTime(spec, value, path, localMinutes);
    case 'name':
      if (typeof value !== 'string') throw refusal('wrong-type', spec, value, path);
      if (value.trim() === '' || value.length > 80) throw refusal('out-of-range', spec, value, path);
      return value;
    case 'list':
      if (!Array.isArray(value)) throw refusal('wrong-type', spec, value, path);
      if (value.length < spec.minEntries || value.length > spec.maxEntries) {
        throw refusal('out-of-range', spec, value, path);
      }
      return Array.from(value, (entry: unknown, index) => readEntry(spec.of, entry, `${path}[${index}]`));
  }
}

const refusal = (code: CalculatorError['code'], spec: Spec, value: unknown, path: string): CalculatorError =>
  new CalculatorError(code, path, value, accepted(spec));

function readQuantity(spec: QuantitySpec | WholeSpec, value: unknown, path: string): Decimal {
  if (typeof value !== 'string' && typeof value !== 'number') throw refusal('wrong-type', spec, value, path);
  const parsed = parseDecimal(String(value));
  if (parsed === undefined) throw refusal('not-a-number', spec, value, path);
  if (compare(parsed, decimal(spec.min)) < 0 || compare(parsed, decimal(spec.max)) > 0) {
    throw refusal('out-of-range', spec, value, path);
  }
  return parsed;
}

function readWhole(spec: WholeSpec, value: unknown, path: string): number {
  const parsed = readQuantity(spec, value, path);
  const integer = round(parsed, 0, 'down');
  if (compare(integer, parsed) !== 0) throw refusal('not-a-number', spec, value, path);
  return Number(integer.digits);
}

function readTime(
  spec: DateSpec | LocalTimeSpec,
  value: unknown,
  path: string,
  read: (text: string) => number | undefined,
): number {
  if (typeof value !== 'string') throw refusal('wrong-type', spec, value, path);
  const time = read(value);
  if (time === undefined) throw refusal('not-a-date', spec, value, path);
  return time;
}
