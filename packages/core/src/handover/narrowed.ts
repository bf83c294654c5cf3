import type { LineCareActivity } from '@dwellward/profiles';
import type { Policy } from '@dwellward/policy';

/** The policy of one activity: its rules, and every hold. It asks for the same care of that activity as the whole. */
export function narrowed(policy: Policy, activity: LineCareActivity): Policy {
  return {
    ...policy,
    rules: policy.rules.filter((rule) => rule.activity === activity || rule.effect === 'forbid'),
    ...(policy.versions
      ? {
          versions: policy.versions.map((version) => ({
            ...version,
            policy: narrowed(version.policy, activity),
          })),
        }
      : {}),
  };
}
