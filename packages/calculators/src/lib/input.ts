import { dayNumber, localMinutes } from './calendar.js';
import { type Decimal, compare, decimal, parseDecimal, round } from './decimal.js';
import { CalculatorError } from './error.js';

/** A number as decimal text, or a JavaScript number, which is read by the digits it prints. */
export type DecimalInput = string | number;

interface Described {
  /** What it is, in a sentence for people. */
  readonly about: string;
  /** What is accepted, for an error or a page: `0.01 to 30 mL`. */
  readonly accepted: string;
  readonly optional?: boolean;
}

/** Checks one value and reads it, or throws a {@link CalculatorError} that names `path`. */
type Read<V> = (value: unknown, path: string) => V;

/** A measured amount; both ends of the range are accepted. */
export interface QuantitySpec extends Described {
  readonly kind: 'quantity';
  readonly unit: string;
  readonly min: string;
  readonly max: string;
  readonly read: Read<Decimal>;
}

/** A count of whole things. */
export interface WholeSpec extends Described {
  readonly kind: 'whole';
  readonly unit: string;
  readonly min: string;
  readonly max: string;
  readonly read: Read<number>;
}

export interface ChoiceSpec<C extends string = string> extends Described {
  readonly kind: 'choice';
  readonly choices: readonly C[];
  readonly read: Read<C>;
}

export interface FlagSpec extends Described {
  readonly kind: 'flag';
  readonly read: Read<boolean>;
}

/** A calendar date, `YYYY-MM-DD`, in whatever zone the caller counts days in; read as a day number. */
export interface DateSpec extends Described {
  readonly kind: 'date';
  readonly read: Read<number>;
}

/** Date and time on the wall clock, `YYYY-MM-DDThh:mm`; read as minutes. */
export interface LocalTimeSpec extends Described {
  readonly kind: 'local-time';
  readonly read: Read<number>;
}

export interface NameSpec extends Described {
  readonly kind: 'name';
  readonly read: Read<string>;
}

export interface ListSpec<S extends Specs = Specs> extends Described {
  readonly kind: 'list';
  readonly of: S;
  readonly minEntries: number;
  readonly maxEntries: number;
  readonly read: Read<readonly InputRead<S>[]>;
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
  // Spelled out with its own entries the union would contain itself.
  | (Omit<ListSpec, 'of' | 'read'> & {
      readonly of: { readonly [name: string]: Spec };
      readonly read: Read<readonly unknown[]>;
    });

export interface Specs {
  readonly [name: string]: Spec;
}

type ValueIn<S> = S extends { kind: 'quantity' | 'whole' }
  ? DecimalInput
  : S extends ChoiceSpec<infer C>
    ? C
    : S extends { kind: 'flag' }
      ? boolean
      : S extends { kind: 'list'; of: infer O }
        ? readonly InputOf<O>[]
        : string;

type ValueRead<S> = S extends { read: Read<infer V> } ? V : never;

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

// Each maker brings its own reader, so that a bundle holds only the readers of the kinds it uses.

export const quantity = (unit: string, min: string, max: string, about: string): QuantitySpec => {
  const accepted = `${min} to ${max} ${unit}`;
  const read: Read<Decimal> = (value, path) => readAmount(min, max, accepted, value, path);
  return { kind: 'quantity', unit, min, max, about, accepted, read };
};

export const whole = (unit: string, min: string, max: string, about: string): WholeSpec => {
  const accepted = `a whole number from ${min} to ${max} ${unit}`;
  const read: Read<number> = (value, path) => {
    const amount = readAmount(min, max, accepted, value, path);
    const integer = round(amount, 0, 'down');
    if (compare(integer, amount) !== 0) throw new CalculatorError('not-a-number', path, value, accepted);
    return Number(integer.digits);
  };
  return { kind: 'whole', unit, min, max, about, accepted, read };
};

export const choice = <const C extends string>(choices: readonly C[], about: string): ChoiceSpec<C> => {
  const accepted = `one of ${choices.join(', ')}`;
  const read: Read<C> = (value, path) => {
    const found = choices.find((each) => each === value);
    if (found === undefined) throw new CalculatorError('not-a-choice', path, value, accepted);
    return found;
  };
  return { kind: 'choice', choices, about, accepted, read };
};

export const flag = (about: string): FlagSpec => {
  const accepted = 'true or false';
  const read: Read<boolean> = (value, path) => {
    if (typeof value !== 'boolean') throw new CalculatorError('wrong-type', path, value, accepted);
    return value;
  };
  return { kind: 'flag', about, accepted, read };
};

export const date = (about: string): DateSpec => {
  const accepted = 'a date YYYY-MM-DD of the years 1900 to 2199';
  return { kind: 'date', about, accepted, read: (value, path) => readTime(dayNumber, accepted, value, path) };
};

export const localTime = (about: string): LocalTimeSpec => {
  const accepted = 'a local date and time YYYY-MM-DDThh:mm of the years 1900 to 2199';
  return {
    kind: 'local-time',
    about,
    accepted,
    read: (value, path) => readTime(localMinutes, accepted, value, path),
  };
};

export const name = (about: string): NameSpec => {
  const accepted = 'text of 1 to 80 characters';
  const read: Read<string> = (value, path) => {
    const text = readText(accepted, value, path);
    if (text.trim() === '' || text.length > 80)
      throw new CalculatorError('out-of-range', path, value, accepted);
    return text;
  };
  return { kind: 'name', about, accepted, read };
};

export const list = <const S extends Specs>(
  minEntries: number,
  maxEntries: number,
  of: S,
  about: string,
): ListSpec<S> => {
  const accepted = `a list of ${minEntries} to ${maxEntries} entries`;
  const read: Read<readonly InputRead<S>[]> = (value, path) => {
    if (!Array.isArray(value)) throw new CalculatorError('wrong-type', path, value, accepted);
    if (value.length < minEntries || value.length > maxEntries) {
      throw new CalculatorError('out-of-range', path, value, accepted);
    }
    return Array.from(value, (entry: unknown, index) => readInput(of, entry, `${path}[${index}]`));
  };
  return { kind: 'list', minEntries, maxEntries, of, about, accepted, read };
};

export const optional = <S extends Spec>(spec: S): S & { readonly optional: true } => ({
  ...spec,
  optional: true,
});

/**
 * Checks every input against its spec and reads it.
 *
 * @param path - the name of the entry that `input` is, where it is one of a list
 * @throws {@link CalculatorError} for the first input that is not accepted, in the order of the specs.
 */
export function readInput<S extends Specs>(specs: S, input: unknown, path = ''): InputRead<S> {
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
    if (value !== undefined) read[key] = spec.read(value, prefix + key);
    else if (spec.optional !== true) throw new CalculatorError('missing', prefix + key, value, spec.accepted);
  }
  // The compiler can't follow a loop over the keys of a mapped type; exactly those keys were filled.
  return read as InputRead<S>;
}

function readAmount(min: string, max: string, accepted: string, value: unknown, path: string): Decimal {
  const text = typeof value === 'number' ? String(value) : readText(accepted, value, path);
  const amount = parseDecimal(text);
  if (amount === undefined) throw new CalculatorError('not-a-number', path, value, accepted);
  if (compare(amount, decimal(min)) < 0 || compare(amount, decimal(max)) > 0) {
    throw new CalculatorError('out-of-range', path, value, accepted);
  }
  return amount;
}

function readTime(
  parse: (text: string) => number | undefined,
  accepted: string,
  value: unknown,
  path: string,
): number {
  const time = parse(readText(accepted, value, path));
  if (time === undefined) throw new CalculatorError('not-a-date', path, value, accepted);
  return time;
}

function readText(accepted: string, value: unknown, path: string): string {
  if (typeof value !== 'string') throw new CalculatorError('wrong-type', path, value, accepted);
  return value;
}
