import type { Records } from '@dwellward/core';

/** Everything that a record names: of a line, an issue, or what was not understood. */
export function named(records: Records): ReadonlySet<string> {
  const { lines, issues, notUnderstood } = records;
  return new Set([
    ...lines.flatMap(({ ref, lumens, events, findings, infusions, planned }) => [
      ref,
      ...lumens.map(({ device }) => device),
      ...[...events, ...findings, ...infusions].map((fact) => fact.ref),
      ...(planned?.refs ?? []),
    ]),
    ...issues.flatMap(({ resource, related }) => [resource, ...related]),
    ...notUnderstood.flatMap(({ patients }) => patients.flatMap(({ resources }) => resources)),
  ]);
}

/** How many of a type are counted as other business. */
export function elsewhere(records: Records, type: string): number {
  return records.otherBusiness.find(({ resourceType }) => resourceType === type)?.count ?? 0;
}
