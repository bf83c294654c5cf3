import type { MapCondition, MapProduct } from '@dwellward/profiles';

/** One dependency of a target: it applies only where the element has this value. */
export interface Condition {
  readonly property: MapCondition;
  readonly system?: string;
  readonly value: string;
}

/** What a code says beside its target. */
export interface Product {
  readonly property: MapProduct;
  readonly system?: string;
  readonly value: string;
}

/** What a code of a hospital stands for. */
export interface MapTarget {
  readonly system: string;
  readonly code: string;
  readonly display?: string;
  readonly conditions: readonly Condition[];
  readonly products: readonly Product[];
}

/** Something of a map that is wrong, or that will not be used. */
export interface MapFinding {
  /** Of an error the map is refused. */
  readonly severity: 'error' | 'warning';
  /** The name under which the map was given: that of its file. */
  readonly map: string;
  /** The element, in FHIRPath: `ConceptMap.group[0].element[3].target[0].code`. */
  readonly path: string;
  /** What is wrong, and what is accepted. */
  readonly message: string;
}

/** What the maps say of one code. */
export interface CodeMeaning {
  readonly targets: readonly MapTarget[];
  /** What it is explicitly not. */
  readonly not: readonly { readonly system: string; readonly code: string }[];
}

/** Maps of codes that were read and can be used: what `readCodeMaps` gives. */
export class CodeMaps {
  readonly #codes: ReadonlyMap<string, CodeMeaning>;
  readonly #texts: ReadonlyMap<string, CodeMeaning>;

  constructor(codes: ReadonlyMap<string, CodeMeaning>, texts: ReadonlyMap<string, CodeMeaning>) {
    this.#codes = codes;
    this.#texts = texts;
  }

  /** What they say of a code of a system. */
  ofCode(system: string | undefined, code: string | undefined): CodeMeaning | undefined {
    return code === undefined ? undefined : this.#codes.get(codeKey(system ?? '', code));
  }

  /** What they say of a text that stands without a code: as it is written, or written alike. */
  ofText(text: string): CodeMeaning | undefined {
    return this.#texts.get(normalText(text));
  }

  /** The codes that lead to such a target: as search tokens, `system|code`. */
  tokensTo(wanted: (target: MapTarget) => boolean): readonly string[] {
    return [...this.#codes]
      .filter(([, { targets }]) => targets.some(wanted))
      .map(([key]) => key.replace('\u0000', '|'));
  }

  /** The texts that lead to such a target, which no search finds. */
  textsTo(wanted: (target: MapTarget) => boolean): readonly string[] {
    return [...this.#texts].filter(([, { targets }]) => targets.some(wanted)).map(([text]) => text);
  }

  /** True where there is nothing to be mapped. */
  get empty(): boolean {
    return this.#codes.size === 0 && this.#texts.size === 0;
  }
}

/** The key of a code of a system. */
export function codeKey(system: string, code: string): string {
  return `${system}\u0000${code}`;
}

/** A text without what differs from one who writes it to the next: capitals, signs, accents, spaces. */
export function normalText(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}
