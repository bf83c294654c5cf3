import type { Policy } from '@dwellward/policy';
import type { DueItem, LumenState } from '../model/care.js';
import type { Heading } from '../model/sentences/pages.js';
import type { Say } from '../words/say.js';
import { policyTexts, sourceTexts } from '../words/sources.js';
import { explain } from './explain.js';

/** Why an item is due, for people: what it is, then section by section. */
export interface ExplanationSections {
  readonly item: string;
  readonly questions: readonly string[];
  readonly window: string;
  readonly rule: string;
  /** Where the rule stands, what it replaced, while when it applies; deeper than the rule. */
  readonly ofRule: readonly string[];
  readonly countedFrom: string;
  /** Empty ones are left out. */
  readonly sections: readonly {
    readonly heading: Heading;
    readonly lines: readonly string[];
    /** True where the lines are done one after the other. */
    readonly numbered?: true;
  }[];
}

/** What is told under a heading of its own; all else of the work is to be taken along. */
const told: ReadonlySet<DueItem['work'][number]['kind']> = new Set(['step', 'caution']);

/** @param expressions shows each rule’s condition as the policy writes it, too. */
export function explanationSections(
  item: DueItem,
  policy: Policy,
  lumens: readonly LumenState[],
  say: Say,
  expressions: boolean,
): ExplanationSections {
  const why = explain(item, policy, lumens);
  const { rule } = why;
  const texts = ({ work }: DueItem, of: 'step' | 'caution' | 'take') =>
    work.filter(({ kind }) => (told.has(kind) ? kind : 'take') === of).map(({ text }) => say(text));
  const sections = [
    { heading: 'why-source', lines: sourceTexts(why.sources, say) },
    { heading: 'why-notes', lines: policyTexts(why.notes, say) },
    { heading: 'why-facts', lines: why.facts.map((one) => say({ code: 'fact-was', ...one })) },
    {
      heading: 'why-lumen',
      lines: (why.lumen ? [why.lumen, ...why.lumen.also] : []).map((one) => lumenText(one, say)),
    },
    { heading: 'why-others', lines: why.others.map((one) => say({ code: 'other-rule', ...one })) },
    {
      heading: 'why-switched-off',
      lines: why.switchedOff.map((one) => say({ code: 'rule-switched-off', ...one })),
    },
    { heading: 'why-mind', lines: [...why.remarks.map(say), ...texts(item, 'caution')] },
    { heading: 'why-steps', lines: texts(item, 'step'), numbered: true },
    { heading: 'why-take', lines: texts(item, 'take') },
    { heading: 'why-changes', lines: why.wouldChange.map(say) },
  ] as const;
  return {
    item: say({ code: 'item-is', activity: item.activity, target: item.target.name, state: item.state }),
    questions: item.questions.map(say),
    window: say({ code: 'may-be-done-from', opens: item.opens, dueBy: item.dueBy }),
    rule: say({ code: 'by-rule', id: rule.id, title: rule.title, schedule: rule.schedule }),
    ofRule: [
      `${say({ code: 'policy-text', text: rule.layer })}, ${rule.plan}`,
      ...why.replaced.map(({ schedule, layer, plan }) => say({ code: 'in-place-of', schedule, layer, plan })),
      ...(rule.condition ? [say({ code: 'applies-while', condition: rule.condition })] : []),
      ...(expressions && rule.expression !== '' ? [rule.expression] : []),
    ],
    countedFrom: say(why.countedFrom),
    sections: sections.filter(({ lines }) => lines.length > 0),
  };
}

function lumenText({ state, since, because, why }: LumenState['also'][number], say: Say): string {
  return say({ code: 'lumen-was', state, ...(since === undefined ? {} : { since }), because, why });
}
