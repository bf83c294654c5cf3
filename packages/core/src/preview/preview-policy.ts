import { ruleDifferences, type FactName, type Policy, type ReplacedRule, type Rule } from '@dwellward/policy';
import { instantMs } from '../timeline/calendar.js';
import { dueCare } from '../due/due-care.js';
import type { AsOf, DueItem, Hold, LineCare } from '../model/care.js';
import { CoreError } from '../model/error.js';
import { compareText } from '../timeline/timeline.js';
import type { Records, Ref } from '../model/record.js';

/**
 * What becomes of an item: due `earlier` or `later`, only its opening moves (`opens`), it `appears` or `vanishes`, it
 * comes under a hold or is no longer held at the same times (`held`, `released`), or only the rule behind it is
 * another or says something else (`reason`).
 */
export type PreviewKind =
  'earlier' | 'later' | 'opens' | 'appears' | 'vanishes' | 'held' | 'released' | 'reason';

/** One item that is not the same with the other policy. */
export interface PreviewChange {
  readonly kind: PreviewKind;
  readonly line: Ref;
  readonly patient: Ref;
  readonly before?: DueItem;
  readonly after?: DueItem;
  /** How much later it is due, negative where earlier; absent where it appears or vanishes. */
  readonly dueByShiftMs?: number;
  readonly opensShiftMs?: number;
  /** The rule that does it: the one that decides afterwards; of what vanishes the one that no longer asks. */
  readonly rule: Rule;
  /** Where that came about by a layer that replaced or switched off a rule: which. */
  readonly because?: ReplacedRule;
  /** The facts that are not known, by whose protective reading alone the rule applies; empty where all is known. */
  readonly notKnown: readonly FactName[];
}

/** What would change for whom if one policy took the place of another. */
export interface PolicyPreview {
  /** By patient, line, activity and target. */
  readonly changes: readonly PreviewChange[];
  readonly holds: readonly {
    readonly kind: 'appears' | 'vanishes';
    readonly hold: Hold;
    readonly patient: Ref;
  }[];
  /** Items that are the same with both. */
  readonly same: number;
  /** Patients of whom nothing changes, and of whom something does. */
  readonly unchangedPatients: readonly Ref[];
  readonly changedPatients: readonly Ref[];
}

/**
 * Works out due care of the same record by two policies and says what differs. Items are the same ones where activity,
 * line, target and the last time it was done are. It changes nothing, and reads no clock.
 *
 * Throws a CoreError where `asOf` is not an instant with an offset or `zone` not an IANA zone.
 * @example
 * ```ts
 * previewPolicy(records, policy, policy, when).changes; // []
 * ```
 */
export function previewPolicy(records: Records, before: Policy, after: Policy, when: AsOf): PolicyPreview {
  const pairs = records.lines.map(
    (line) => [dueCare(line, before, when), dueCare(line, after, when)] as const,
  );
  const changes: PreviewChange[] = [];
  const holds: PolicyPreview['holds'][number][] = [];
  let same = 0;
  for (const [was, is] of pairs) {
    const found = changesOf(was, is, after);
    changes.push(...found.changes);
    same += found.same;
    holds.push(
      ...only(is.holds, was.holds).map((hold) => ({ kind: 'appears' as const, hold, patient: is.patient })),
      ...only(was.holds, is.holds).map((hold) => ({ kind: 'vanishes' as const, hold, patient: is.patient })),
    );
  }
  const changed = new Set([...changes, ...holds].map(({ patient }) => patient));
  const patients = [...new Set(pairs.map(([{ patient }]) => patient))].sort(compareText);
  return {
    changes: changes.sort(
      (a, b) =>
        compareText(a.patient, b.patient) ||
        compareText(a.line, b.line) ||
        compareText(itemOf(a).activity, itemOf(b).activity) ||
        compareText(itemOf(a).target.scope, itemOf(b).target.scope) ||
        compareText(itemOf(a).target.ref, itemOf(b).target.ref),
    ),
    holds,
    same,
    changedPatients: patients.filter((patient) => changed.has(patient)),
    unchangedPatients: patients.filter((patient) => !changed.has(patient)),
  };
}

/**
 * The item of a change, as it will be where it will be.
 * @example
 * ```ts
 * const wider = readPolicy([...defaultPlans(), bundledPlan('neutropenia')]);
 * const [change] = wider.ok ? previewPolicy(records, policy, wider.policy, when).changes : [];
 * change && itemOf(change).activity; // 'dressing-change'
 * ```
 */
export function itemOf({ before, after }: PreviewChange): DueItem {
  const item = after ?? before;
  if (!item) throw new CoreError('empty-change', 'A change is about an item.');
  return item;
}

function only(holds: readonly Hold[], others: readonly Hold[]): readonly Hold[] {
  return holds.filter(({ id, until }) => !others.some((other) => other.id === id && other.until === until));
}

function changesOf(was: LineCare, is: LineCare, policy: Policy): { changes: PreviewChange[]; same: number } {
  const changes: PreviewChange[] = [];
  let same = 0;
  const later = new Map(is.items.map((item) => [item.id, item]));
  for (const before of was.items) {
    const after = later.get(before.id);
    later.delete(before.id);
    const change = after ? moved(before, after, policy) : vanished(before, policy);
    if (change) changes.push(change);
    else same += 1;
  }
  for (const after of later.values()) {
    changes.push({
      kind: 'appears',
      line: after.line,
      patient: after.patient,
      after,
      rule: after.rule,
      ...because(after.rule.id, policy),
      notKnown: after.byUnknown ?? [],
    });
  }
  return { changes, same };
}

function vanished(before: DueItem, policy: Policy): PreviewChange {
  return {
    kind: 'vanishes',
    line: before.line,
    patient: before.patient,
    before,
    rule: before.rule,
    ...because(before.rule.id, policy),
    notKnown: [],
  };
}

function moved(before: DueItem, after: DueItem, policy: Policy): PreviewChange | undefined {
  const dueByShiftMs = instantMs(after.dueBy) - instantMs(before.dueBy);
  const opensShiftMs = instantMs(after.opens) - instantMs(before.opens);
  const kind = kindOf(before, after, dueByShiftMs, opensShiftMs);
  if (kind === undefined) return undefined;
  return {
    kind,
    line: after.line,
    patient: after.patient,
    before,
    after,
    dueByShiftMs,
    opensShiftMs,
    rule: after.rule,
    ...because(before.rule.id, policy),
    notKnown: after.byUnknown ?? [],
  };
}

function kindOf(
  before: DueItem,
  after: DueItem,
  dueByShiftMs: number,
  opensShiftMs: number,
): PreviewKind | undefined {
  if (dueByShiftMs !== 0) return dueByShiftMs < 0 ? 'earlier' : 'later';
  if ((before.state === 'held') !== (after.state === 'held'))
    return after.state === 'held' ? 'held' : 'released';
  if (opensShiftMs !== 0) return 'opens';
  const another = before.rule.id !== after.rule.id || ruleDifferences(before.rule, after.rule).length > 0;
  return another ? 'reason' : undefined;
}

function because(id: string, { replaced = [] }: Policy): { because?: ReplacedRule } {
  const found = replaced.findLast((one) => one.id === id);
  return found === undefined ? {} : { because: found };
}
