import { wrap } from '@dwellward/core';
import {
  bundledPlan,
  choices,
  lintPlan,
  readPolicy,
  unitLayerNames,
  type BundledPlanName,
  type ChoicePlace,
} from '@dwellward/policy';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { isFromMemory } from '../rules.js';

export const policyListHelp = `dwellward policy list [--format table|json]

Every bundled policy by the name that --policy takes: what it is for, how many rules it has, how many of them rest on a
source that is known from memory alone. Then the choices: where published sources differ, which reading the base takes
and the layer that takes each other one.

  --format table (default) or json

Examples
  dwellward policy list
  dwellward policy show infant --only-policy
`;

interface Listed {
  readonly name: BundledPlanName;
  readonly title: string;
  readonly does: string;
  readonly rules: number;
  readonly fromMemory: number;
}

function listed(name: BundledPlanName): Listed {
  const plan = bundledPlan(name);
  const reading = readPolicy([plan]);
  if (!reading.ok)
    throw new Error(
      `${name}: ${lintPlan(plan)
        .map(({ message }) => message)
        .join(' ')}`,
    );
  const { rules } = reading.policy;
  return {
    name,
    title: plan.title ?? name,
    does: plan.description ?? '',
    rules: rules.length,
    fromMemory: rules.filter(isFromMemory).length,
  };
}

export function policyList(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values } = parseArgs({
    args,
    options: {
      format: { type: 'string', default: 'table' },
      help: { type: 'boolean', short: 'h' },
    },
  });
  if (values.help) {
    io.write(policyListHelp);
    return Promise.resolve('done');
  }
  const { format } = values;
  if (format !== 'table' && format !== 'json')
    throw new CliError('usage', `--format ${format}: one of table, json.`);
  const layers = (['base', ...unitLayerNames] as const).map(listed);
  if (format === 'json') io.write(`${JSON.stringify({ layers, choices }, null, 2)}\n`);
  else io.write(tableOf(layers, io.columns));
  return Promise.resolve('done');
}

function tableOf(layers: readonly Listed[], columns: number): string {
  const lines = (text: string, indent: number) => wrap(text, indent, columns);
  return [
    'Layers',
    ...layers.flatMap((one) => [
      lines(`  ${one.name}: ${one.title}`, 4),
      lines(`      ${one.does}`, 6),
      `      ${one.rules} rules, ${one.fromMemory} with a source from memory`,
    ]),
    '',
    'Choices, where published sources differ',
    ...choices.flatMap(({ number, name, about, taken, why, readings }) => [
      lines(`  ${number}. ${name}: ${about}`, 5),
      lines(`     Taken where nobody chooses: ${taken} ${why}`, 7),
      ...readings.map(({ says, source, mark, place }) =>
        lines(`     - ${says} (${source}, ${mark}): ${placeText(place)}`, 7),
      ),
    ]),
    '',
  ].join('\n');
}

function placeText(place: ChoicePlace): string {
  switch (place.by) {
    case 'base':
      return `the base, rule ${place.rules.join(', ')}`;
    case 'layer':
      return `--policy ${place.layer}`;
    case 'calculator':
      return `calculator ${place.calculator}${place.input === undefined ? '' : `, ${place.input[0]} ${place.input[1]}`}`;
    case 'later':
      return `not yet: ${place.part}`;
    case 'none':
      return `not taken: ${place.why}`;
  }
}
