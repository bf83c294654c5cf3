import { scheduleText, spanText, type Policy, type Rule, type RuleOrigin } from '@dwellward/policy';

/** A layer by its title and version. */
export function layerText({ title, version }: RuleOrigin): string {
  return version === '' ? title : `${title}, version ${version}`;
}

/** Since and until when a layer is in force; empty where it always is. */
export function effectiveText({ effective }: RuleOrigin): string {
  if (!effective) return '';
  const { start, end } = effective;
  return [start === undefined ? '' : `from ${start}`, end === undefined ? '' : `to the end of ${end}`]
    .filter(Boolean)
    .join(' ');
}

const longestSource = 96;

/** The sources of a rule, each cut to what tells it from others. */
export function shortSources({ citations }: Rule): readonly string[] {
  return citations.map(({ text }) =>
    text.length <= longestSource ? text : `${text.slice(0, longestSource).replace(/\s+\S*$/, '')} …`,
  );
}

/** When a rule holds, with its reading of unknown facts. */
export function conditionText({ condition, whenUnknown }: Rule): string {
  if (condition.text === '') return 'always';
  return whenUnknown === 'protective' ? condition.text : `${condition.text} (not where a fact is unknown)`;
}

/** What a rule of a lower layer was before it was replaced or switched off. */
export function replacedText({ replaced = [] }: Policy, id: string): readonly string[] {
  return replaced
    .filter((one) => one.id === id)
    .map(
      ({ how, before, by }) =>
        `${how === 'replaced' ? 'replaced' : 'switched off'} by ${layerText(by)}: ${layerText(before.origin)} had it ${scheduleText(before.schedule)}`,
    );
}

/** A rule as plain JSON. */
export function plainRule(rule: Rule): object {
  const { condition, schedule, origin, ...rest } = rule;
  return {
    ...rest,
    schedule: { text: scheduleText(schedule), ...schedule },
    condition: condition.text,
    facts: condition.uses,
    layer: origin,
    ...(rule.lead ? { leadText: spanText(rule.lead) } : {}),
  };
}

/** What a policy replaced or switched off, as plain JSON. */
export function plainReplaced({ replaced = [] }: Policy): readonly object[] {
  return replaced.map(({ before, ...rest }) => ({ ...rest, before: plainRule(before) }));
}
