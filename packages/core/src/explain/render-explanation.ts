import type { Policy } from '@dwellward/policy';
import type { LineCareActivity } from '@dwellward/profiles';
import type { AsOf, DueItem, LineCare, LumenState } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import { repairsOn } from '../repair/repair-judgement.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { speaker, type Say } from '../words/say.js';
import { explanationSections } from './sections.js';

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

function itemText(
  item: DueItem,
  policy: Policy,
  lumens: readonly LumenState[],
  say: Say,
  expressions: boolean,
): string {
  const why = explanationSections(item, policy, lumens, say, expressions);
  return [
    why.item,
    ...[...why.questions, why.window, why.rule].map((line) => `  ${line}`),
    ...why.ofRule.map((line) => `    ${line}`),
    `  ${why.countedFrom}`,
    ...why.sections.flatMap(({ heading, lines, numbered }) => [
      `  ${say({ code: 'heading', heading })}`,
      ...lines.map((line, i) => `    ${numbered ? `${i + 1}.` : '-'} ${line}`),
    ]),
    '',
  ].join('\n');
}
