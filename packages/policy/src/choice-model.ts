import type { ChoiceLayerName, UnitLayerName } from './bundled.js';

/** Where a reading of a disagreement is taken. */
export type ChoicePlace =
  /** What the bundled base does, by these rules. */
  | { readonly by: 'base'; readonly rules: readonly string[] }
  /** Lay this bundled layer over the base. */
  | { readonly by: 'layer'; readonly layer: ChoiceLayerName | UnitLayerName }
  /** A calculator by its name, with the value of its input that gives this reading; its default where absent. */
  | {
      readonly by: 'calculator';
      readonly calculator: string;
      readonly input?: readonly [name: string, value: string];
    }
  /** Comes with a later part of the product. */
  | { readonly by: 'later'; readonly part: string }
  /** Is taken nowhere, for this reason. */
  | { readonly by: 'none'; readonly why: string };

/** One of the answers that published sources give. */
export interface ChoiceReading {
  readonly says: string;
  readonly source: string;
  /** `seen` was read in the source, `reported` in another text, `from memory` was not read. */
  readonly mark: 'seen' | 'reported' | 'from memory';
  readonly place: ChoicePlace;
  /** Of the life of a set: the longest that the source gives, in hours. */
  readonly hours?: number;
}

/** A point on which published sources differ. */
export interface Choice {
  readonly number: number;
  readonly name: string;
  readonly about: string;
  /** What is taken where nobody chooses, and why. */
  readonly taken: string;
  readonly why: string;
  readonly readings: readonly ChoiceReading[];
}

type Mark = ChoiceReading['mark'];

/** What the base does, by its rules. */
export const base = (...rules: string[]): ChoicePlace => ({ by: 'base', rules });
/** A bundled layer. */
export const layer = (name: ChoiceLayerName | UnitLayerName): ChoicePlace => ({ by: 'layer', layer: name });
/** A calculator and the input that gives the reading. */
export const calculator = (name: string, input?: readonly [string, string]): ChoicePlace => ({
  by: 'calculator',
  calculator: name,
  ...(input ? { input } : {}),
});
/** Taken nowhere. */
export const none = (why: string): ChoicePlace => ({ by: 'none', why });
/** Of a later part of the product. */
export const later = (part: string): ChoicePlace => ({ by: 'later', part });
/** What one source says. */
export const reading = (
  says: string,
  source: string,
  mark: Mark,
  place: ChoicePlace,
  { hours }: { readonly hours?: number } = {},
): ChoiceReading => ({ says, source, mark, place, ...(hours === undefined ? {} : { hours }) });
