import { conjuncts } from './expression.js';
import { Findings, type LintFinding } from './findings.js';
import type { Rule, Span } from './model.js';
import type { Layer } from './read-layer.js';
import { scheduleText } from './schedule-text.js';
import { comparableMinutes } from './spans.js';
import { takesIn } from './triggers.js';

const atOnce: Span = { value: 0, unit: 'min' };

/**
 * Warns of a rule under an id of its own that asks for the same later than a rule below it, or forbids it for a shorter
 * time, and applies only where that one applies too: the more protective decides, so the new one never does. Who meant to
 * loosen the other has to replace it by its id, with the reason.
 */
export function reportWithoutEffect(
  rules: readonly Rule[],
  layers: readonly Layer[],
  list: LintFinding[],
): void {
  for (const rule of rules) {
    const lower = rules.find((other) => other.origin.layer < rule.origin.layer && outweighs(other, rule));
    if (lower === undefined) continue;
    const place = layers
      .filter(({ origin }) => origin === rule.origin)
      .flatMap(({ actions }) => actions)
      .find(({ id, kind }) => id === rule.id && kind === 'rule');
    if (place === undefined) continue;
    new Findings(list, place.index, place.path, rule.id).warning(
      '',
      'without-effect',
      `${rule.id} (${scheduleText(rule)}) never decides anything: ${lower.id} of ${lower.origin.title} (${scheduleText(lower)}) applies wherever it does, and is the more protective`,
      `To ask for less, replace ${lower.id} under its own id and give the reason; else leave this rule out.`,
    );
  }
}

/** Whether `lower` applies wherever `upper` does, and is the more protective. */
function outweighs(lower: Rule, upper: Rule): boolean {
  if (lower.effect !== upper.effect || lower.activity !== upper.activity) return false;
  if (!upper.scopes.every((scope) => lower.scopes.includes(scope))) return false;
  if (lower.start !== undefined || lower.stop !== undefined) return false;
  // Last what takes longest: it reads the conditions.
  return isLater(lower, upper) && appliesWherever(lower, upper);
}

/** Whether whatever meets the conditions of `upper` meets those of `lower`. */
function appliesWherever(lower: Rule, upper: Rule): boolean {
  // What is not known may count as true of the one and as false of the other.
  if (lower.whenUnknown === 'default' && upper.whenUnknown === 'protective') return false;
  const met = new Set(conjuncts(upper.applicability.meaning));
  return conjuncts(lower.applicability.meaning).every((part) => met.has(part));
}

function isLater(lower: Rule, upper: Rule): boolean {
  const [below, above] = [lower.begins, upper.begins];
  if (below.kind === 'interval' && above.kind === 'interval') {
    const unbounded = below.atMost === undefined && below.untilAfterInsertion === undefined;
    return unbounded && shorter(below.every, above.every);
  }
  if (below.kind !== 'triggered' || above.kind !== 'triggered') return false;
  if (!above.by.every((trigger) => below.by.some((other) => takesIn(other, trigger)))) return false;
  if (upper.effect === 'ask') return shorter(below.after ?? atOnce, above.after ?? atOnce);
  return upper.lasts !== undefined && (lower.lasts === undefined || shorter(upper.lasts, lower.lasts));
}

function shorter(one: Span, other: Span): boolean {
  return comparableMinutes(one) < comparableMinutes(other);
}
