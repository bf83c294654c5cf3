import { parseArgs } from 'node:util';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { findingText, readPlan } from '../policies.js';

export const policyHelp = `dwellward policy check PLAN.json [--only-policy]

Reads a PlanDefinition as it would be laid over the bundled base and says, with path and cure, what is wrong with it.

  --only-policy check it by itself, without the base under it

Example
  dwellward policy check our-unit.json

Exit codes: 0 nothing stands in the way (warnings are printed), 4 refused.
`;

export async function policy(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { 'only-policy': { type: 'boolean' }, help: { type: 'boolean', short: 'h' } },
  });
  const [verb, file, ...rest] = positionals;
  if (values.help || verb === undefined) {
    io.write(policyHelp);
    return verb === undefined && !values.help ? 'usage' : 'done';
  }
  if (verb !== 'check') throw new CliError('usage', `policy ${verb}: there is only policy check.`);
  if (file === undefined || rest.length > 0)
    throw new CliError('usage', 'policy check takes one PlanDefinition file.');
  const plan = await readPlan(file);
  const isBase = file === 'base';
  const layers = values['only-policy'] || isBase ? [plan] : [bundledPlan('base'), plan];
  const names = values['only-policy'] || isBase ? [file] : ['base', file];
  const reading = readPolicy(layers);
  for (const finding of reading.findings) io.write(`${findingText(finding, names)}\n`);
  const errors = reading.findings.filter(({ severity }) => severity === 'error').length;
  const warnings = reading.findings.filter(({ severity }) => severity === 'warning').length;
  const own = reading.ok
    ? reading.policy.rules.filter(({ origin }) => origin.layer === names.length - 1).length
    : 0;
  io.write(
    `${file}: ${errors} errors, ${warnings} warnings${reading.ok ? `, ${own} rules of its own, ${reading.policy.rules.length} in all` : ': refused'}.\n`,
  );
  return reading.ok ? 'done' : 'policy-refused';
}
