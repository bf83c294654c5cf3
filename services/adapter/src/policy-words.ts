import { Calendar, english, policyAt, speaker } from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import type { Config } from './config.js';

/**
 * What whoever runs the adapter has to know of its policy: rules of a published source that it loosens or switches off,
 * layers that nobody has approved, layers of the default that are left out.
 * @param asOf instant in ISO 8601 at which the policy is to be in force.
 */
export function policyWarnings(
  policy: Policy,
  { zone, policyWithout }: Pick<Config, 'zone' | 'policyWithout'>,
  asOf: string,
): string[] {
  const say = speaker(english, new Calendar(zone));
  const { loosened = [], layers } = policyAt(policy, { asOf, zone });
  return [
    ...loosened.map((rule) => say({ code: 'asks-for-less', rule })),
    ...layers.flatMap(({ title, unapproved }) =>
      unapproved === undefined
        ? []
        : [`The layer “${title}” is ${unapproved} and was allowed by DWELLWARD_POLICY_UNAPPROVED.`],
    ),
    ...policyWithout.map(
      (layer) => `The layer “${layer}” of the default is left out by DWELLWARD_POLICY_WITHOUT.`,
    ),
  ];
}
