import type { Policy, RuleOrigin } from '@dwellward/policy';
import type { InForce } from './in-force.js';
import type { Calendar } from '../timeline/calendar.js';
import type { DueItem } from '../model/care.js';
import type { LayerName, PolicyChange, Remark } from '../model/sentences.js';

function named({ title, version }: RuleOrigin): LayerName {
  return { title, version };
}

function without(layers: Policy['layers'], others: Policy['layers']): readonly LayerName[] {
  return layers
    .filter(({ url, version }) => !others.some((other) => other.url === url && other.version === version))
    .map(named);
}

/** What changed between two stretches: the layers that came into force, and those that no longer are. */
function changeOf(before: InForce, since: InForce): PolicyChange {
  return {
    came: without(since.policy.layers, before.policy.layers),
    ended: without(before.policy.layers, since.policy.layers),
  };
}

/** Why an item is where a new version puts it. */
export function movedRemark(
  was: DueItem | undefined,
  before: InForce,
  since: InForce,
  calendar: Calendar,
): Remark {
  const changed = { change: changeOf(before, since), since: calendar.text(since.fromMs) };
  return was === undefined
    ? { code: 'asked-for-since', ...changed }
    : { code: 'moved-by-version', ...changed, wasDueBy: was.dueBy };
}

/** Why an item stays with an older version. */
export function stayedRemark(item: DueItem, own: InForce, next: InForce, calendar: Calendar): Remark {
  const origin = own.policy.layers.find(({ url }) => url === item.rule.origin.url) ?? item.rule.origin;
  return {
    code: 'judged-by-version',
    layer: named(origin),
    change: changeOf(own, next),
    since: calendar.text(next.fromMs),
  };
}
