import type { Policy, RuleOrigin } from '@dwellward/policy';
import type { Calendar } from '../timeline/calendar.js';
import type { InForce } from './in-force.js';
import type { DueItem } from '../model/care.js';

function named({ title, version }: RuleOrigin): string {
  return version === '' ? `“${title}”` : `version ${version} of “${title}”`;
}

function without(layers: Policy['layers'], others: Policy['layers']): readonly RuleOrigin[] {
  return layers.filter(
    ({ url, version }) => !others.some((other) => other.url === url && other.version === version),
  );
}

/** What changed between two stretches: the layers that came into force, else those that no longer are. */
function changeText(before: InForce, since: InForce): string {
  const came = without(since.policy.layers, before.policy.layers);
  if (came.length > 0) return came.map(named).join(' and ');
  const ended = without(before.policy.layers, since.policy.layers);
  return `the end of ${ended.map(named).join(' and ')}`;
}

/** Why an item is where a new version puts it. */
export function movedRemark(
  was: DueItem | undefined,
  before: InForce,
  since: InForce,
  calendar: Calendar,
): string {
  const change = `${changeText(before, since)}, in force since ${calendar.text(since.fromMs)}`;
  if (was === undefined) return `Asked for since ${change}: not asked for before.`;
  return `Moved by ${change}: it was to be due by ${was.dueBy}.`;
}

/** Why an item stays with an older version. */
export function stayedRemark(item: DueItem, own: InForce, next: InForce, calendar: Calendar): string {
  const origin = own.policy.layers.find(({ url }) => url === item.rule.origin.url) ?? item.rule.origin;
  return `Judged by ${named(origin)}: its window had opened before ${changeText(own, next)} came into force on ${calendar.text(next.fromMs)}.`;
}
