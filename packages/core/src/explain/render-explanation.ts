import type { Policy } from '@dwellward/policy';
import type { LineCareActivity } from '@dwellward/profiles';
import type { AsOf, DueItem, LineCare, LumenState } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import type { Heading } from '../model/sentences/pages.js';
import { repairsOn } from '../repair/repair-judgement.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { speaker, type Say } from '../words/say.js';
import { policyTexts, sourceTexts } from '../words/sources.js';
import { explain } from './explain.js';

/** What the page on why care of a line is due is made of. */
export interface ExplainedLine {
  readonly care: LineCare;
  /** The line as it was read; absent where it is not in the record. */
  readonly line?: LineRecord;
  readonly policy: Policy;
  readonly when: AsOf;
  /** Shows each rule’s condition as the policy writes it, too. */
  readonly expressions?: boolean;
  /** Only care of this activity; all of it where absent. */
  readonly activity?: LineCareActivity;
}

/**
 * Why care of one line is due, by whose rule, and what would change it, for people.
 * @example
 * ```ts
 * renderExplanation({ care: cares[0]!, line: records.lines[0]!, policy, when }).length > 0; // true
 * ```
 */
export function renderExplanation(of: ExplainedLine, language: Language = english): string {
  const { care, line, policy, when, activity, expressions = false } = of;
  const say = speaker(language, new Calendar(when.zone));
  const items = care.items.filter((item) => activity === undefined || item.activity === activity);
  const { closed: because, plannedFor } = care;
  const repairs = (line ? repairsOn(line, when) : []).map(({ at, lumen, ref }) => {
    const name = line?.lumens.find((one) => one.ref === lumen)?.name;
    return `${say({ code: 'repaired-at', at, ...(name ? { lumen: name } : {}), ref })}\n`;
  });
  const state =
    because !== undefined && !care.inPlace
      ? say({
          code: 'why-not-in-place',
          because,
          ...(plannedFor === undefined ? {} : { plannedFor }),
          stillDue: care.items.length > 0,
        })
      : items.length === 0
        ? say({ code: 'nothing-asked-for', ...(activity === undefined ? {} : { activity }) })
        : undefined;
  return [
    `${say({
      code: 'line-at',
      name: line?.name ?? { code: 'named', name: care.line },
      line: care.line,
      patient: care.patient,
      at: when.asOf,
    })}\n`,
    ...repairs,
    ...care.warnings.map((warning) => `\n${say(warning)}\n`),
    ...(state === undefined ? [] : [`\n${state}\n`]),
    ...items.map((item) => `\n${itemText(item, policy, care.lumens, say, expressions)}`),
    ...care.issues.map(
      ({ sentence, resource, path }) =>
        `\n${say({ code: 'wrong-in-record', resource, path, issue: sentence })}\n`,
    ),
    `\n${say({ code: 'not-read' })}\n`,
  ].join('');
}

/** What is told under a heading of its own; all else of the work is to be taken along. */
const told: ReadonlySet<DueItem['work'][number]['kind']> = new Set(['step', 'caution']);

function itemText(
  item: DueItem,
  policy: Policy,
  lumens: readonly LumenState[],
  say: Say,
  expressions: boolean,
): string {
  const why = explain(item, policy, lumens);
  const { rule } = why;
  const head = (heading: Heading) => `  ${say({ code: 'heading', heading })}`;
  const list = (heading: Heading, lines: readonly string[]) =>
    lines.length === 0 ? [] : [head(heading), ...lines.map((line) => `    - ${line}`)];
  const texts = ({ work }: DueItem, of: 'step' | 'caution' | 'take') =>
    work.filter(({ kind }) => (told.has(kind) ? kind : 'take') === of).map(({ text }) => say(text));
  const steps = texts(item, 'step');
  return [
    say({ code: 'item-is', activity: item.activity, target: item.target.name, state: item.state }),
    ...item.questions.map((question) => `  ${say(question)}`),
    `  ${say({ code: 'may-be-done-from', opens: item.opens, dueBy: item.dueBy })}`,
    `  ${say({ code: 'by-rule', id: rule.id, title: rule.title, schedule: rule.schedule })}`,
    `    ${say({ code: 'policy-text', text: rule.layer })}, ${rule.plan}`,
    ...why.replaced.map(
      ({ schedule, layer, plan }) => `    ${say({ code: 'in-place-of', schedule, layer, plan })}`,
    ),
    ...(rule.condition ? [`    ${say({ code: 'applies-while', condition: rule.condition })}`] : []),
    ...(expressions && rule.expression !== '' ? [`    ${rule.expression}`] : []),
    `  ${say(why.countedFrom)}`,
    ...list('why-source', sourceTexts(why.sources, say)),
    ...list('why-notes', policyTexts(why.notes, say)),
    ...list(
      'why-facts',
      why.facts.map((one) => say({ code: 'fact-was', ...one })),
    ),
    ...list('why-lumen', why.lumen ? [why.lumen, ...why.lumen.also].map((one) => lumenText(one, say)) : []),
    ...list(
      'why-others',
      why.others.map((one) => say({ code: 'other-rule', ...one })),
    ),
    ...list(
      'why-switched-off',
      why.switchedOff.map((one) => say({ code: 'rule-switched-off', ...one })),
    ),
    ...list('why-mind', [...why.remarks.map(say), ...texts(item, 'caution')]),
    ...(steps.length > 0 ? [head('why-steps'), ...steps.map((text, i) => `    ${i + 1}. ${text}`)] : []),
    ...list('why-take', texts(item, 'take')),
    ...list('why-changes', why.wouldChange.map(say)),
    '',
  ].join('\n');
}

function lumenText({ state, since, because, why }: LumenState['also'][number], say: Say): string {
  return say({ code: 'lumen-was', state, ...(since === undefined ? {} : { since }), because, why });
}
