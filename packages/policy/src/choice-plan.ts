import { base, policyExtension } from '@dwellward/profiles';
import type {
  ActivityDefinition,
  Extension,
  PlanDefinition,
  PlanDefinitionAction,
  TimingRepeat,
} from 'fhir/r4.js';
import type { ChoiceChange, ChoiceLayer } from './choice-layers.js';
import type { Span } from './model.js';
import { spanText } from './schedule-text.js';

const copied = <Value>(value: Value): Value => JSON.parse(JSON.stringify(value)) as Value;

/**
 * A choice as a PlanDefinition to lay over the base: each rule that it changes is the base's own with only that
 * changed, and cites the source of the choice.
 */
export function choicePlan(name: string, choice: ChoiceLayer, below: PlanDefinition): PlanDefinition {
  const works: ActivityDefinition[] = [];
  const action = choice.changes.map((change) => changed(change, choice, below, works));
  return {
    resourceType: 'PlanDefinition',
    id: name,
    ...(works.length > 0 ? { contained: works } : {}),
    url: `${base}/PlanDefinition/${name}`,
    version: '0.1.0',
    name: name.replace(/(?:^|-)(.)/g, (_, letter: string) => letter.toUpperCase()),
    title: choice.title,
    ...(below.type ? { type: copied(below.type) } : {}),
    status: 'active',
    experimental: false,
    ...(below.date ? { date: below.date } : {}),
    publisher: 'Dwellward',
    description: `A choice between published readings, to lay over the base. ${choice.title}. ${choice.why}`,
    action,
  };
}

function changed(
  change: ChoiceChange,
  { source, url, why }: ChoiceLayer,
  below: PlanDefinition,
  works: ActivityDefinition[],
): PlanDefinitionAction {
  const found = below.action?.find(({ id }) => id === change.rule);
  if (!found) throw new Error(`the base has no rule ${change.rule}`);
  const { extension, condition, timingTiming, definitionCanonical, ...rest } = copied(found);
  const documentation: PlanDefinitionAction['documentation'] = [
    { type: 'citation', label: 'The choice', citation: source, ...(url === undefined ? {} : { url }) },
    { type: 'justification', display: why },
  ];
  if (change.off) {
    const expression = { language: 'text/fhirpath', expression: 'false' };
    return { ...rest, documentation, condition: [{ kind: 'applicability', expression }] };
  }
  const conditions = [
    ...(condition ?? []),
    ...(change.when ?? []).map((expression) => ({
      kind: 'applicability' as const,
      expression: { language: 'text/fhirpath', expression },
    })),
  ];
  // A chain has no interval of its own.
  const repeat = repeatOf(change) ?? timingTiming?.repeat;
  const extensions = spaced(extension ?? [], change.spacing);
  const work =
    definitionCanonical === undefined
      ? undefined
      : workFor(change, definitionCanonical.slice(1), below, works);
  return {
    id: change.beside ?? change.rule,
    ...(extensions.length > 0 ? { extension: extensions } : {}),
    ...Object.fromEntries(Object.entries(rest).filter(([key]) => key !== 'id' && key !== 'documentation')),
    ...(change.title === undefined ? {} : { title: change.title }),
    documentation,
    ...(conditions.length > 0 ? { condition: conditions } : {}),
    ...(repeat ? { timingTiming: { repeat } } : {}),
    ...(work === undefined ? {} : { definitionCanonical: `#${work}` }),
  };
}

function repeatOf({ every, weekly }: ChoiceChange): TimingRepeat | undefined {
  if (every) return { frequency: 1, period: every.value, periodUnit: every.unit };
  return weekly && { dayOfWeek: [...weekly.days], timeOfDay: [weekly.at] };
}

function spaced(extensions: readonly Extension[], spacing: Span | 'none' | undefined): Extension[] {
  if (spacing === undefined) return [...extensions];
  const others = extensions.filter(({ url }) => url !== policyExtension.ruleMinimumSpacing);
  if (spacing === 'none') return others;
  const valueDuration = {
    value: spacing.value,
    unit: spanText(spacing).replace(/^\S+ /, ''),
    system: 'http://unitsofmeasure.org',
    code: spacing.unit,
  };
  return [...others, { url: policyExtension.ruleMinimumSpacing, valueDuration }];
}

/** The base's work for the rule, with the choice's own supplies in place of the solution, and its cautions. */
function workFor(
  { rule, beside, supplies = [], cautions = [] }: ChoiceChange,
  id: string,
  below: PlanDefinition,
  works: ActivityDefinition[],
): string {
  const found = below.contained?.find((one): one is ActivityDefinition => one.id === id);
  if (!found) throw new Error(`the base has no work ${id}`);
  const own = supplies.length + cautions.length > 0;
  const name = own ? `${beside ?? rule}-work` : id;
  if (works.some((one) => one.id === name)) return name;
  const work: ActivityDefinition = { ...copied(found), id: name };
  const value = (path: string, text: string) => ({
    path,
    expression: { language: 'text/fhirpath', expression: `'${text.replace(/'/g, "\\'")}'` },
  });
  const kept = (work.dynamicValue ?? []).filter(
    ({ expression }) =>
      supplies.length === 0 || !/lock solution as prescribed/.test(expression?.expression ?? ''),
  );
  const at = kept.findIndex(({ path }) => path === 'input:supply');
  kept.splice(at < 0 ? kept.length : at, 0, ...supplies.map((text) => value('input:supply', text)));
  kept.push(...cautions.map((text) => value('input:caution', text)));
  works.push({ ...work, dynamicValue: kept });
  return name;
}
