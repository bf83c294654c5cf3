import {
  calculators,
  CalculatorError,
  type CatalogEntry,
  type Result,
  type Spec,
} from '@dwellward/calculators/catalog';
import { oneLine } from '@dwellward/core/safe-text';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';

export const calcHelp = `dwellward calc NAME --INPUT VALUE ... [--format table|json]

The numbers a line nurse works out, each with the working, its cautions and its source.

  dwellward calc              lists the calculators
  dwellward calc NAME --help  what it needs, in which units and ranges

Examples
  dwellward calc flush-volume --catheter-volume-ml 0.6 --add-on-volume-ml 0.3
  dwellward calc absolute-neutrophil-count --leucocytes 2 --leucocytes-unit k/mm3 \\
    --segmented-percent 20 --bands-percent 20
`;

export async function calc(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === '-h') {
    io.write(`${calcHelp}\n${list()}`);
    return 'done';
  }
  const entry = Object.hasOwn(calculators, name)
    ? (calculators as Readonly<Record<string, CatalogEntry>>)[name]
    : undefined;
  if (!entry) throw new CliError('usage', `There is no calculator ${name}. dwellward calc lists them.`);
  const inputs = Object.entries(entry.inputs);
  const { values } = parseArgs({
    args: rest,
    options: {
      ...Object.fromEntries(inputs.map(([input]) => [kebab(input), { type: 'string' as const }])),
      help: { type: 'boolean' as const, short: 'h' },
      format: { type: 'string' as const },
    },
  });
  if (values.help) {
    io.write(helpOf(entry));
    return 'done';
  }
  const format = values.format ?? 'table';
  if (format !== 'table' && format !== 'json')
    throw new CliError('usage', `--format ${String(format)}: one of table, json.`);
  const given: Record<string, unknown> = {};
  for (const [input, spec] of inputs) {
    const value: unknown = (values as Readonly<Record<string, unknown>>)[kebab(input)];
    if (value !== undefined) given[input] = readValue(spec, String(value), kebab(input));
  }
  let result: Result<string | number>;
  try {
    result = entry.run(given);
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    const said = error.input.replace(/^[a-zA-Z]+/, (input) =>
      input in entry.inputs ? `--${kebab(input)}` : input,
    );
    throw new CliError(
      'usage',
      `${said}: ${error.code.replaceAll('-', ' ')}, got ${oneLine(error.received)}; accepted: ${error.accepted}.`,
      { cause: error },
    );
  }
  io.write(format === 'json' ? `${JSON.stringify(result, null, 2)}\n` : resultText(entry, result));
  return 'done';
}

function list(): string {
  const groups = new Map<string, CatalogEntry[]>();
  for (const entry of Object.values(calculators))
    groups.set(entry.group, [...(groups.get(entry.group) ?? []), entry]);
  return [...groups]
    .map(([group, entries]) =>
      [group, ...entries.map((entry) => `  ${entry.name.padEnd(36)}${entry.title}`), ''].join('\n'),
    )
    .join('\n');
}

function helpOf(entry: CatalogEntry): string {
  const inputs = Object.entries(entry.inputs).map(([input, spec]) => inputText(input, spec));
  return [
    `dwellward calc ${entry.name}: ${entry.title}`,
    '',
    `  ${entry.formula}`,
    entry.unit ? `  Answer in ${entry.unit}.` : '',
    '',
    'Inputs',
    ...(inputs.length > 0 ? inputs : ['  none']),
    ...(entry.refuses.length > 0
      ? ['', 'Refused together', ...entry.refuses.map((text) => `  - ${text}`)]
      : []),
    '',
    'Cautions',
    ...entry.cautions.map((text) => `  - ${text}`),
    '',
    `Source: ${entry.source}`,
    '',
  ].join('\n');
}

function inputText(input: string, spec: Spec): string {
  const value = spec.kind === 'flag' ? ' true|false' : spec.kind === 'list' ? ' JSON' : ' VALUE';
  const entries =
    spec.kind === 'list'
      ? Object.entries(spec.of).map(([name, one]) => `      ${name}: ${one.about}; ${one.accepted}`)
      : [];
  return [
    `  --${kebab(input)}${value}${spec.optional ? ' (optional)' : ''}`,
    `      ${spec.about}; ${spec.accepted}`,
    ...entries,
  ].join('\n');
}

function resultText(
  entry: CatalogEntry,
  { value, unit, cautions, source, steps, ...further }: Result<string | number>,
): string {
  const more = Object.entries(further).map(
    ([name, what]) =>
      `  ${kebab(name).replaceAll('-', ' ')}: ${typeof what === 'object' ? JSON.stringify(what) : String(what)}`,
  );
  return [
    `${entry.title}: ${value}${unit ? ` ${unit}` : ''}`,
    ...more,
    '',
    'Working',
    ...steps.map((step) => `  ${step}`),
    '',
    'Cautions',
    ...cautions.map((text) => `  - ${text}`),
    '',
    `Source: ${source}`,
    '',
  ].join('\n');
}

/** A value as a calculator takes it: said to be false is not the same as not said. */
function readValue(spec: Spec, text: string, option: string): unknown {
  if (spec.kind === 'list') return parseList(text, option);
  if (spec.kind !== 'flag') return text;
  if (text !== 'true' && text !== 'false')
    throw new CliError('usage', `--${option} ${text}: true or false; leave it out where it is not known.`);
  return text === 'true';
}

function parseList(text: string, option: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch (cause) {
    throw new CliError('usage', `--${option}: a list is written as JSON, such as '[{"name": "value"}]'.`, {
      cause,
    });
  }
}

function kebab(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}
