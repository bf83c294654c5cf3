import { treeTexts, treeTypes } from './generated/trees.js';

/** A node of the syntax tree that the reference engine parses FHIRPath into; only what is used of it. */
export interface Tree {
  readonly type: string;
  readonly text?: string;
  readonly delimitedText?: string;
  /** Of a QuantityLiteral: the number and the unit, a quoted UCUM code or a calendar word. */
  readonly value?: string;
  readonly unit?: string;
  /** Both count from 1; of an operator it is the operator’s own place. */
  readonly start?: { readonly line: number; readonly column: number };
  readonly length?: number;
  readonly children?: readonly Tree[];
}

// A node as it is stored: its type as a place in the list of types, its children, then text, line, column, length,
// value and unit. What is absent is null, or left out at the end.
type Stored = readonly [
  type: number,
  children?: readonly Stored[] | null,
  text?: string | null,
  line?: number | null,
  column?: number | null,
  length?: number | null,
  value?: string | null,
  unit?: string | null,
];

/**
 * The tree of a text that the bundled plans ask, as the reference engine parsed it when the package was built; undefined of
 * any other. `scripts/trees.mjs` stores them, and a test holds each against the engine.
 */
export function storedTree(text: string): Tree | undefined {
  const stored = Object.hasOwn(treeTexts, text) ? treeTexts[text] : undefined;
  return stored === undefined ? undefined : unpacked(JSON.parse(stored) as Stored);
}

function unpacked([type, children, text, line, column, length, value, unit]: Stored): Tree {
  return {
    type: treeTypes[type] ?? '',
    ...(typeof text === 'string' ? { text } : {}),
    ...(typeof line === 'number' && typeof column === 'number' ? { start: { line, column } } : {}),
    ...(typeof length === 'number' ? { length } : {}),
    ...(typeof value === 'string' ? { value } : {}),
    ...(typeof unit === 'string' ? { unit } : {}),
    ...(children ? { children: children.map(unpacked) } : {}),
  };
}
