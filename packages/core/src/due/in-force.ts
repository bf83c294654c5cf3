import { asksTheSame, type Policy } from '@dwellward/policy';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { AsOf, InstantText } from '../model/care.js';

/** A stretch of time with the policy that is in force in it. */
export interface InForce {
  readonly policy: Policy;
  /** -Infinity for the first stretch. */
  readonly fromMs: number;
  /** When the next one begins; Infinity for the one that is in force at the moment asked for. */
  readonly untilMs: number;
  /** Since when each rule has asked for the same without a break, by its id; absent where it always has. */
  readonly sinceMs: ReadonlyMap<string, number>;
}

/**
 * The stretches of a policy up to a moment, the oldest first: the last is in force at the moment. A stretch begins
 * with the first instant of its day in the unit’s zone, so that the last day of an effectivePeriod counts whole.
 * A policy without versions is one stretch for all time.
 */
export function inForceAt(policy: Policy, calendar: Calendar, asOfMs: number): readonly InForce[] {
  if (policy.versions === undefined) {
    return [{ policy, fromMs: -Infinity, untilMs: Infinity, sinceMs: new Map() }];
  }
  const begun = policy.versions
    .map(({ from, policy: own }) => ({ policy: own, fromMs: startMs(from, calendar) }))
    .filter(({ fromMs }) => fromMs <= asOfMs);
  const stretches: InForce[] = [];
  for (const [at, { policy: own, fromMs }] of begun.entries()) {
    const before = stretches.at(-1);
    const earlier = new Map(before?.policy.rules.map((rule) => [rule.id, rule]));
    const sinceMs = new Map<string, number>();
    for (const rule of own.rules) {
      const old = earlier.get(rule.id);
      const since = old !== undefined && asksTheSame(old, rule) ? before?.sinceMs.get(rule.id) : fromMs;
      if (since !== undefined && Number.isFinite(since)) sinceMs.set(rule.id, since);
    }
    stretches.push({ policy: own, fromMs, untilMs: begun[at + 1]?.fromMs ?? Infinity, sinceMs });
  }
  return stretches;
}

function startMs(day: string | undefined, calendar: Calendar): number {
  return day === undefined ? -Infinity : calendar.earliest({ text: day, precision: 'day' });
}

/**
 * The policy in force at a moment: of a policy over time its version, of any other the policy itself.
 *
 * Throws a CoreError where `asOf` is not an instant with an offset or `zone` not an IANA zone.
 * @example
 * ```ts
 * policyAt(policy, when).rules.length === policy.rules.length; // true
 * ```
 */
export function policyAt(policy: Policy, { asOf, zone }: AsOf): Policy {
  return inForceAt(policy, new Calendar(zone), instantMs(asOf)).at(-1)?.policy ?? policy;
}

/**
 * When the policy in force changes next after a moment; undefined where it does not. Who keeps Tasks in step has to
 * look again then.
 *
 * Throws a CoreError where `asOf` is not an instant with an offset or `zone` not an IANA zone.
 * @example
 * ```ts
 * nextPolicyChange(policy, when); // undefined
 * ```
 */
export function nextPolicyChange(policy: Policy, { asOf, zone }: AsOf): InstantText | undefined {
  const calendar = new Calendar(zone);
  const nowMs = instantMs(asOf);
  const later = (policy.versions ?? []).map(({ from }) => startMs(from, calendar)).filter((ms) => ms > nowMs);
  return later.length === 0 ? undefined : calendar.text(Math.min(...later));
}

/** The policy that a rule stands in: of a policy over time the version that it was taken from. */
export function policyOfRule(policy: Policy, rule: Policy['rules'][number]): Policy {
  const version = policy.versions?.find((one) => one.policy.rules.includes(rule));
  return version?.policy ?? policy;
}
