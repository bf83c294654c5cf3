import { dueCare, readRecords, type DueItem, type LineCare } from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import { entriesOf, whenOf, type Resource, type Unit } from './generators.js';

/** What the lines of a record need at the moment of its unit. */
export function careOf(resources: readonly Resource[], policy: Policy, unit: Unit): LineCare[] {
  return readRecords(entriesOf(resources)).lines.map((line) => dueCare(line, policy, whenOf(unit)));
}

/** What an item asks for, and on what: of one answer no two have the same. */
export const keyOf = ({ activity, target }: Pick<DueItem, 'activity' | 'target'>) =>
  `${activity} ${target.scope} ${target.ref}`;

/** Every item of both answers, side by side. */
export function pairs(
  before: readonly LineCare[],
  after: readonly LineCare[],
): [DueItem, DueItem | undefined][] {
  const later = new Map(after.flatMap(({ items }) => items).map((item) => [keyOf(item), item]));
  return before.flatMap(({ items }) => items).map((item) => [item, later.get(keyOf(item))]);
}

export const inMs = (text: string) => Date.parse(text);
