import type { Rule } from '@dwellward/policy';
import { findingRow, type LineCareActivity, type LineFinding } from '@dwellward/profiles';

/** What ends a hold that has no time of its own. */
export interface HoldEnds {
  /** Any of these, once it is done. */
  readonly acts: readonly LineCareActivity[];
  /** Any of these, once it is found. */
  readonly findings: readonly LineFinding[];
}

/** What ends the holds of a rule, as far as its stop condition says it plainly. */
export function holdEnds({ stop, begins }: Rule): HoldEnds {
  const ends = stop?.ends ?? [];
  const by = begins.kind === 'triggered' ? begins.by : [];
  const acts = ends.flatMap((end) => {
    if ('done' in end) return [end.done];
    if ('found' in end) return [];
    return by.flatMap((one) => (one.kind === 'finding' ? (findingRow(one.finding).answeredBy ?? []) : []));
  });
  const findings = ends.flatMap((end) => ('found' in end ? [end.found] : []));
  return { acts: [...new Set(acts)], findings: [...new Set(findings)] };
}

/** The act that a hold follows: the one that it waits for, or that it lasts so long after. */
export function actOfHold(rule: Rule): LineCareActivity | undefined {
  if (rule.lasts === undefined) return holdEnds(rule).acts[0];
  if (rule.begins.kind !== 'triggered') return undefined;
  return rule.begins.by.flatMap((one) => (one.kind === 'event' ? [one.activity] : []))[0];
}
