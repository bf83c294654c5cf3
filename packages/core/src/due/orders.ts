import { always, spanText, type Policy, type Rule } from '@dwellward/policy';
import { activityRow, displayOf } from '@dwellward/profiles';
import type { Order } from '../model/record.js';
import { applies } from '../rules/applies.js';
import { targetsOf } from '../timeline/targets.js';
import { compareText, type Timeline } from '../timeline/timeline.js';

/** A patient's order as a rule, and since when it counts. */
export interface OrderRule {
  readonly rule: Rule;
  readonly sinceMs: number;
}

/**
 * The patient's own orders, as far as they count at the moment, as rules of the top layer. They stand beside the
 * policy's rules, so an order can bring care forward but never put it off: the most protective rule wins.
 */
export function orderRules(timeline: Timeline, policy: Policy): OrderRule[] {
  const { line, calendar, asOfMs } = timeline;
  return [...line.orders]
    .sort((a, b) => compareText(a.ref, b.ref))
    .map((order) => ({
      rule: orderRule(order, policy, timeline),
      sinceMs: order.from ? calendar.earliest(order.from) : -Infinity,
      untilMs: order.until ? calendar.latest(order.until) : Infinity,
    }))
    .filter(({ sinceMs, untilMs }) => sinceMs <= asOfMs && asOfMs < untilMs);
}

function orderRule(order: Order, policy: Policy, timeline: Timeline): Rule {
  const same = policy.rules.filter(
    (rule) => rule.activity === order.activity && describes(rule, policy, timeline),
  );
  const like =
    same.find(({ begins }) => begins.kind === 'interval') ??
    same.find(({ work }) => work.supplies.length + work.cautions.length + (work.steps ?? []).length > 0);
  return {
    id: `order-${order.ref.replace(/[^A-Za-z0-9]+/g, '-')}`,
    title: `Ordered for this patient: ${displayOf('lineCareActivity', order.activity).toLowerCase()}`,
    activity: order.activity,
    effect: 'ask',
    scopes: like?.scopes ?? [activityRow(order.activity).scope],
    begins: order.begins,
    applicability: always,
    whenUnknown: 'protective',
    priority: 'routine',
    citations: [{ text: `Order of a licensed clinician (${order.ref})`, certainty: 'seen' }],
    notes: order.begins.kind === 'interval' ? [`Ordered every ${spanText(order.begins.every)}.`] : [],
    work: like?.work ?? { computed: [], supplies: [], cautions: [] },
    origin: {
      url: order.ref,
      version: '',
      title: 'Patient’s order',
      // Above every layer; the places of a policy over time may have gaps.
      layer: 1 + Math.max(-1, ...policy.layers.map(({ layer }) => layer)),
      order: order.ref,
    },
  };
}

/** Whether a rule says how the ordered act is done in this line: of an act that is only planned, while it applies. */
function describes(rule: Rule, { labStaleAfter: staleAfter }: Policy, timeline: Timeline): boolean {
  if (rule.begins.kind !== 'planned') return true;
  return targetsOf(timeline.line, 'line').some(
    (target) => applies(rule, { timeline, target, ms: timeline.asOfMs, staleAfter }).applies,
  );
}
