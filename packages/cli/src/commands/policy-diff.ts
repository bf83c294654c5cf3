import { eachOnOneLine, oneLine, wrap } from '@dwellward/core';
import { diffPolicies, spanText, type ChangedRule, type PolicyDiff, type Rule } from '@dwellward/policy';
import { displayOf } from '@dwellward/profiles';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { layerHelp, layerOptions, loadPolicy } from '../policies.js';
import {
  scopeText,
  conditionText,
  expressionsOf,
  scheduleText,
  layerText,
  plainRule,
  sourceTexts,
} from '../rules.js';
import { stepChanges, stepTexts } from '../step-changes.js';

export const policyDiffHelp = `dwellward policy diff A B [options]

The rules that differ between two policies, each a PlanDefinition file or a bundled policy by its name, as it is when it
is laid over the default: added, removed, switched off, and changed ones with both sides. Of the steps of changed work
only those are shown that were added, removed or changed, with their number.

${layerHelp}
  --expressions show each condition in FHIRPath too, as the plan has it
  --format      table (default) or json

Examples
  dwellward policy diff base our-unit.json
  dwellward policy diff our-unit-1.json our-unit-2.json

Exit codes: 0 compared, whether they differ or not; 4 one of them is refused.
`;

export async function policyDiff(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      ...layerOptions,
      format: { type: 'string' },
      expressions: { type: 'boolean' },
      help: { type: 'boolean', short: 'h' },
    },
  });
  if (values.help) {
    io.write(policyDiffHelp);
    return 'done';
  }
  const format = values.format ?? 'table';
  if (!['table', 'json'].includes(format))
    throw new CliError('usage', `--format ${format}: one of table, json.`);
  const [a, b, ...more] = positionals;
  if (a === undefined || b === undefined || more.length > 0)
    throw new CliError('usage', 'policy diff takes two policies.');
  const [before, after] = [await loadPolicy([a], values, io), await loadPolicy([b], values, io)];
  const diff = diffPolicies(before, after);
  io.write(
    format === 'json'
      ? `${JSON.stringify(plainDiff(diff), null, 2)}\n`
      : `${diffText(eachOnOneLine(diff), { a: oneLine(a), b: oneLine(b), columns: io.columns, expressions: values.expressions ?? false })}\n`,
  );
  return 'done';
}

function plainDiff({ added, removed, switchedOff, changed, ...rest }: PolicyDiff): object {
  return {
    added: added.map(plainRule),
    removed: removed.map(plainRule),
    switchedOff: switchedOff.map(({ rule, by }) => ({ rule: plainRule(rule), by: by.by, notes: by.notes })),
    changed: changed.map(({ before, after, ...one }) => ({
      ...one,
      steps: stepChanges(stepTexts(before), stepTexts(after)),
      before: plainRule(before),
      after: plainRule(after),
    })),
    ...rest,
  };
}

interface View {
  readonly a: string;
  readonly b: string;
  readonly columns: number;
  /** Conditions are shown in FHIRPath, too. */
  readonly expressions: boolean;
}

function diffText(diff: PolicyDiff, view: View): string {
  const { added, removed, switchedOff, changed, same, labStaleAfter } = diff;
  const lines = (text: string, indent = 6) => wrap(text, indent, view.columns);
  const section = (head: string, body: readonly string[]) => (body.length === 0 ? [] : ['', head, ...body]);
  const whole = (sign: string, rule: Rule) => [
    lines(`  ${sign} ${ruleText(rule)}`),
    lines(`      when ${conditionText(rule)}`, 11),
    ...(view.expressions ? expressionsOf(rule).map((text) => lines(`      FHIRPath ${text}`, 15)) : []),
    ...sourceTexts(rule).map((source) => lines(`      source ${source}`, 13)),
    ...stepTexts(rule).map((text, i) => lines(`      step ${i + 1}. ${text}`, 14)),
    lines(`      layer ${layerText(rule.origin)}`, 12),
  ];
  const count = added.length + removed.length + switchedOff.length + changed.length;
  return [
    `From ${view.a} to ${view.b}: ${added.length} added, ${removed.length} removed, ${switchedOff.length} switched off, ${changed.length} changed, ${same} the same.`,
    ...(count === 0 ? ['No rule differs.'] : []),
    ...(labStaleAfter
      ? [
          `A laboratory result is stale after ${spanText(labStaleAfter.after)} instead of ${spanText(labStaleAfter.before)}.`,
        ]
      : []),
    ...section(
      'Added',
      added.flatMap((rule) => whole('+', rule)),
    ),
    ...section(
      'Removed',
      removed.flatMap((rule) => whole('-', rule)),
    ),
    ...section(
      'Switched off',
      switchedOff.flatMap(({ rule, by }) => [
        ...whole('-', rule),
        lines(`      by ${layerText(by.by)}: ${by.notes.join(' ') || 'no reason is given'}`, 9),
      ]),
    ),
    ...section(
      'Changed',
      changed.flatMap((one) => changedLines(one, view, lines)),
    ),
  ].join('\n');
}

function ruleText(rule: Rule): string {
  const activity = displayOf('lineCareActivity', rule.activity);
  return `${rule.id}: ${activity} (${scopeText(rule)}), ${scheduleText(rule)}. ${rule.title}`;
}

/** Both sides, one under the other: schedule, condition and sources always, the rest where it differs. */
function changedLines(
  { id, before, after, differences }: ChangedRule,
  { expressions }: View,
  lines: (text: string, indent?: number) => string,
): string[] {
  const sides = (name: string, of: (rule: Rule) => string) => {
    const [was, is] = [of(before), of(after)];
    return was === is
      ? [lines(`      ${name}: ${is}`, 8)]
      : [lines(`    - ${name}: ${was}`, 8), lines(`    + ${name}: ${is}`, 8)];
  };
  const optional: readonly (readonly [string, (rule: Rule) => string])[] = [
    ['title', ({ title }) => title],
    ['effect', ({ effect }) => effect],
    ['activity', ({ activity }) => activity],
    ['scope', scopeText],
    ['lead', ({ lead }) => (lead ? spanText(lead) : 'a quarter of the interval')],
    ['minimum spacing', ({ minimumSpacing }) => (minimumSpacing ? spanText(minimumSpacing) : 'none')],
    ['priority', ({ priority }) => priority],
    ['notes', ({ notes }) => notes.join(' ') || 'none'],
    ['work', ({ work }) => [...work.computed, ...work.supplies, ...work.cautions].join('; ') || 'none'],
  ];
  return [
    lines(`  ~ ${id}: ${differences.join(', ')}`),
    ...sides('schedule', scheduleText),
    ...sides('when', conditionText),
    ...(expressions ? sides('FHIRPath', (rule) => expressionsOf(rule).join('; ') || 'none') : []),
    ...sides('source', (rule) => sourceTexts(rule).join('; ') || 'none is given'),
    ...optional.flatMap(([name, of]) =>
      // Work may differ in its steps alone, which stand below.
      differences.some((one) => one === name) && of(before) !== of(after) ? sides(name, of) : [],
    ),
    ...stepChanges(stepTexts(before), stepTexts(after)).flatMap(({ before: was, after: is }) => [
      ...(was ? [lines(`    - step ${was.number}. ${was.text}`, 14)] : []),
      ...(is ? [lines(`    + step ${is.number}. ${is.text}`, 14)] : []),
    ]),
    ...sides('layer', ({ origin }) => layerText(origin)),
  ];
}
