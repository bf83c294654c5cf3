import { Findings, type LintFinding } from './findings.js';
import { merge } from './merge.js';
import type { Policy } from './model.js';
import { definitionsAtHand } from './read-activity.js';
import { readLayer } from './read-layer.js';
import { checkVersions, mergeVersions, placesOf } from './versions.js';

/** A policy with what the lint has to say of it, or only what is wrong. */
export type PolicyReading =
  | { readonly ok: true; readonly policy: Policy; readonly findings: readonly LintFinding[] }
  | { readonly ok: false; readonly findings: readonly LintFinding[] };

/** What a policy is read with besides its layers. */
export interface PolicyOptions {
  /** Parsed JSON of ActivityDefinitions that the layers name by their url; the bundled ones are always at hand. */
  readonly activities?: readonly unknown[];
}

/**
 * Reads PlanDefinitions as one policy, bottom layer first: a later layer adds a rule, replaces the one with the same
 * action id, or switches it off (an action with that id and the condition `false`). A group is replaced or switched off
 * as a whole by its id, a rule in it by its own.
 *
 * Refused, with path and cure: what is not FHIR R4 or can’t be kept, unknown facts, values and units, links to
 * actions that do not exist, cycles, two rules with one id in a layer, two layers with one url at a time, and a layer
 * that loosens a rule of a published source without documentation of type justification. Never throws.
 *
 * A layer with an effectivePeriod is in force from the start of its first day to the end of its last in the unit’s
 * zone. Several plans with one url are versions of one layer and stand at the place of the first of them: each has a
 * version of its own, and no two are in force on one day. The policy then has `versions`, and due care judges every
 * item by the one that was in force when its window opened.
 *
 * @param layers parsed JSON of each PlanDefinition; none of it is changed.
 * @example
 * ```ts
 * const reading = readPolicy([...defaultPlans(), bundledPlan('neutropenia')]);
 * reading.ok && reading.policy.rules.length > defaultPolicy().rules.length; // true
 * ```
 */
export function readPolicy(
  layers: readonly unknown[],
  { activities = [] }: PolicyOptions = {},
): PolicyReading {
  const list: LintFinding[] = [];
  const atHand = definitionsAtHand(activities, list);
  const given: readonly unknown[] = Array.isArray(layers) ? layers : [layers];
  if (given.length === 0) {
    new Findings(list, 0, 'PlanDefinition').error(
      '',
      'no-layer',
      'There is no layer',
      'Give at least one PlanDefinition.',
    );
  }
  const places = placesOf(given);
  const read = given.map((plan, index) => readLayer(plan, index, list, atHand, places[index]));
  const whole = read.filter((layer) => layer !== undefined);
  checkVersions(whole, list);
  const policy = mergeVersions(whole, list, whole.length === given.length ? 'whole' : 'parts');
  const findings = inOrder(list);
  return findings.some(({ severity }) => severity === 'error')
    ? { ok: false, findings }
    : { ok: true, policy, findings };
}

/**
 * Checks one PlanDefinition by itself. A link or a switch to a rule that is not in the plan is only pointed out: it
 * may stand in a layer below, which `readPolicy` over all layers decides. Never throws.
 * @example
 * ```ts
 * lintPlan(bundledPlan('base')).filter(({ severity }) => severity === 'error'); // []
 * lintPlan({ resourceType: 'PlanDefinition' }).length > 0; // true
 * ```
 */
export function lintPlan(plan: unknown, { activities = [] }: PolicyOptions = {}): readonly LintFinding[] {
  const list: LintFinding[] = [];
  const layer = readLayer(plan, 0, list, definitionsAtHand(activities, list));
  if (layer !== undefined) merge([layer], list, 'alone');
  return inOrder(list);
}

/** Each once, by layer, then by place in the plan as it was read. What a group lends is read with each of its rules. */
function inOrder(list: readonly LintFinding[]): readonly LintFinding[] {
  const seen = new Set<string>();
  return list
    .filter((finding) => {
      const key = JSON.stringify(finding);
      return !seen.has(key) && seen.add(key);
    })
    .sort((a, b) => a.layer - b.layer);
}
