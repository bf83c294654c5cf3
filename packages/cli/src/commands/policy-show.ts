import { eachOnOneLine, wrap } from '@dwellward/core';
import { spanText, type Policy, type Rule } from '@dwellward/policy';
import { activityCodes, displayOf } from '@dwellward/profiles';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { layerHelp, layerOptions, loadPolicy } from '../policies.js';
import {
  scopeText,
  conditionText,
  expressionsOf,
  effectiveText,
  isFromMemory,
  layerText,
  plainReplaced,
  plainRule,
  replacedText,
  scheduleText,
  sourceTexts,
} from '../rules.js';

export const policyShowHelp = `dwellward policy show [PLAN ...] [options]

Every rule of the policy that the plans make when they are laid over the default, the lowest first: what, on what,
how often, when it holds, each source whole with how sure it is, the layer, and what a layer replaced or switched off. No
PLAN shows the default; policy list names what is bundled.

${layerHelp}
  --activity    one activity only, such as dressing-change
  --expressions show each condition in FHIRPath too, as the plan has it
  --from-memory only rules with a source that is known from memory: check them against the guideline before use
  --format      table (default) or json

Examples
  dwellward policy show
  dwellward policy show neutropenia our-unit.json --activity dressing-change
  dwellward policy show --from-memory

Of plans that are versions of one another the newest is shown; json has each stretch of time under versions.
`;

const activities: readonly string[] = activityCodes;

export async function policyShow(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      ...layerOptions,
      activity: { type: 'string' },
      expressions: { type: 'boolean' },
      'from-memory': { type: 'boolean', default: false },
      format: { type: 'string' },
      help: { type: 'boolean', short: 'h' },
    },
  });
  if (values.help) {
    io.write(policyShowHelp);
    return 'done';
  }
  const format = values.format ?? 'table';
  if (!['table', 'json'].includes(format))
    throw new CliError('usage', `--format ${format}: one of table, json.`);
  if (values.activity !== undefined && !activities.includes(values.activity))
    throw new CliError('usage', `--activity ${values.activity}: one of ${activities.join(', ')}.`);
  const policy = await loadPolicy(positionals, values, io);
  const { activity, 'from-memory': fromMemory } = values;
  const shown = (rule: Rule) =>
    (activity === undefined || rule.activity === activity) && (!fromMemory || isFromMemory(rule));
  io.write(
    format === 'json'
      ? `${JSON.stringify(plainPolicy(policy, shown), null, 2)}\n`
      : tableOf(eachOnOneLine(policy), shown, {
          columns: io.columns,
          expressions: values.expressions ?? false,
        }),
  );
  return 'done';
}

function plainPolicy(policy: Policy, shown: (rule: Rule) => boolean): object {
  return {
    layers: policy.layers,
    labStaleAfter: policy.labStaleAfter,
    rules: policy.rules.filter(shown).map(plainRule),
    replaced: plainReplaced(policy),
    loosened: policy.loosened ?? [],
    ...(policy.versions
      ? {
          versions: policy.versions.map(({ from, policy: own }) => ({
            ...(from === undefined ? {} : { from }),
            ...plainPolicy(own, shown),
          })),
        }
      : {}),
  };
}

interface View {
  readonly columns: number;
  /** Conditions are shown in FHIRPath, too. */
  readonly expressions: boolean;
}

function tableOf(policy: Policy, shown: (rule: Rule) => boolean, view: View): string {
  const rules = policy.rules.filter(shown);
  const present = activities.filter((code) => rules.some(({ activity }) => activity === code));
  const labels = new Set(policy.replaced?.filter(({ how }) => how === 'switched-off').map(({ id }) => id));
  const off = (policy.replaced ?? []).filter(
    ({ id, how, before }) =>
      how === 'switched-off' && shown(before) && !policy.rules.some((rule) => rule.id === id),
  );
  const lines = (text: string, indent: number) => wrap(text, indent, view.columns);
  return [
    ...policy.layers.map((layer) => {
      const when = effectiveText(layer);
      return lines(`Layer ${layer.layer}: ${layerText(layer)}${when ? `, in force ${when}` : ''}`, 9);
    }),
    `A laboratory result is stale after ${spanText(policy.labStaleAfter)}.`,
    ...present.flatMap((activity) => [
      '',
      displayOf('lineCareActivity', activity as Rule['activity']),
      ...rules
        .filter((rule) => rule.activity === activity)
        .flatMap((rule) => ruleLines(rule, policy, view, lines)),
    ]),
    ...(off.length > 0 && labels.size > 0 ? ['', 'Switched off'] : []),
    ...off.map((one) =>
      lines(
        `  ${one.id}: ${one.before.title}, ${scheduleText(one.before)} (${layerText(one.before.origin)}); switched off by ${layerText(one.by)}. ${one.notes.join(' ')}`,
        4,
      ),
    ),
    '',
    `${rules.length} rules, ${rules.filter(isFromMemory).length} of them with a source from memory: check those against it before use (--from-memory shows them alone). Advice, not an order. Local policy, the instructions of device and drug, and the licensed clinician come first.`,
    '',
  ].join('\n');
}

function ruleLines(
  rule: Rule,
  policy: Policy,
  { expressions }: View,
  lines: (text: string, indent: number) => string,
): string[] {
  const label = (name: string, text: string) => lines(`    ${name.padEnd(10)}${text}`, 14);
  const head = [
    rule.title,
    scopeText(rule),
    scheduleText(rule),
    ...(rule.priority === 'routine' ? [] : [rule.priority]),
  ];
  return [
    lines(`  ${head.join(' | ')}`, 4),
    label('when', conditionText(rule)),
    ...(expressions ? expressionsOf(rule).map((text) => label('FHIRPath', text)) : []),
    ...sourceTexts(rule).map((source) => label('source', source)),
    ...(rule.citations.length === 0 ? [label('source', 'none is given')] : []),
    label('layer', `${layerText(rule.origin)} (rule ${rule.id})`),
    ...replacedText(policy, rule.id).map((text) => label('before', text)),
  ];
}
