import { Calendar, english, speaker } from '@dwellward/core';
import {
  scheduleText as scheduleOf,
  spanText,
  type Condition,
  type Certainty,
  type LintFinding,
  type Policy,
  type Rule,
  type RuleOrigin,
} from '@dwellward/policy';

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

const howSure: Readonly<Record<Certainty, string>> = {
  seen: 'text seen',
  'from-memory': 'from memory, to be checked',
  'common-practice': 'common practice',
};

/** The sources of a rule, whole, each with how sure it is: nobody checks what is not said. */
export function sourceTexts({ citations }: Rule): readonly string[] {
  return citations.map(({ text, url, certainty }) =>
    [`[${howSure[certainty]}] ${text}`, ...(url === undefined ? [] : [url])].join(' '),
  );
}

// No condition says a time of the clock.
const say = speaker(english, new Calendar('UTC'));

/** A condition in words. */
function inWords({ meaning, description }: Condition): string {
  return say({ code: 'condition', meaning, ...(description === undefined ? {} : { description }) });
}

/** How a rule asks for less than its published source: only what differs, with its conditions in words. */
export function lessText(loosened: NonNullable<LintFinding['loosened']>): string {
  const { published, now, reasons, sources } = loosened;
  const how = say({ code: 'how-much-less', published, ...(now === undefined ? {} : { now }) });
  return [
    `It asks for less than its published source: ${how}.`,
    ...reasons,
    `Published: ${sources.join('; ')}.`,
  ].join(' ');
}

/** When a rule asks or forbids, in words. */
export function scheduleText(rule: Rule): string {
  return scheduleOf(rule, inWords);
}

/** The conditions of a rule as the policy writes them, in FHIRPath. */
export function expressionsOf({ applicability, start, stop }: Rule): readonly string[] {
  return [
    ...(applicability.meaning === '' ? [] : [applicability.meaning]),
    ...(start ? [`as it begins: ${start.meaning}`] : []),
    ...(stop ? [`until: ${stop.meaning}`] : []),
  ];
}

/** Whether a source of the rule is known from memory alone. */
export function isFromMemory({ citations }: Rule): boolean {
  return citations.some(({ certainty }) => certainty === 'from-memory');
}

/** When a rule applies, with its reading of unknown facts; of one that a trigger begins, also from when on and until. */
export function conditionText({ applicability, start, stop, whenUnknown }: Rule): string {
  const texts = [
    ...(applicability.meaning === '' ? [] : [inWords(applicability)]),
    ...(start ? [`as it begins: ${inWords(start)}`] : []),
    ...(stop ? [`until: ${inWords(stop)}`] : []),
  ];
  if (texts.length === 0) return 'always';
  return whenUnknown === 'protective'
    ? texts.join('; ')
    : `${texts.join('; ')} (not where a fact is unknown)`;
}

/** What a rule of a lower layer was before it was replaced or switched off. */
export function replacedText({ replaced = [] }: Policy, id: string): readonly string[] {
  return replaced
    .filter((one) => one.id === id)
    .map(
      ({ how, before, by }) =>
        `${how === 'replaced' ? 'replaced' : 'switched off'} by ${layerText(by)}: ${layerText(before.origin)} had it ${scheduleText(before)}`,
    );
}

/** A rule as plain JSON. */
export function plainRule(rule: Rule): object {
  const { applicability, start, stop, begins, origin, ...rest } = rule;
  const facts = [applicability, start, stop].flatMap((condition) => condition?.uses ?? []);
  return {
    ...rest,
    schedule: scheduleText(rule),
    begins,
    condition: applicability.meaning,
    when: conditionText(rule),
    ...(start ? { start: start.meaning } : {}),
    ...(stop ? { stop: stop.meaning } : {}),
    facts: [...new Set(facts)],
    layer: origin,
    ...(rule.lead ? { leadText: spanText(rule.lead) } : {}),
  };
}

/** What a policy replaced or switched off, as plain JSON. */
export function plainReplaced({ replaced = [] }: Policy): readonly object[] {
  return replaced.map(({ before, ...rest }) => ({ ...rest, before: plainRule(before) }));
}

/** What a rule is about: “exit site”, “line and lumen”. */
export function scopeText({ scopes }: Rule): string {
  return scopes.map((scope) => scope.replaceAll('-', ' ')).join(' and ');
}
