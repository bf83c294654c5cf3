import { readPolicy } from '@dwellward/policy';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { findingText, layerHelp, layerOptions, layersOver, readPlan } from '../policies.js';

export const policyCheckHelp = `dwellward policy check PLAN [PLAN ...] [options]

Reads PlanDefinitions as they would be laid over the default, the lowest first, and says, with path and cure,
what is wrong with them: facts, values and units that are not known, links that lead nowhere or in a circle, two layers
with one url at a time, a published maximum that is loosened without a reason.

${layerHelp}

Examples
  dwellward policy check our-unit.json
  dwellward policy check our-hospital.json our-unit.json

Exit codes: 0 nothing stands in the way (warnings are printed), 4 refused.
`;

export async function policyCheck(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { ...layerOptions, help: { type: 'boolean', short: 'h' } },
  });
  if (values.help) {
    io.write(policyCheckHelp);
    return 'done';
  }
  const last = positionals.at(-1);
  if (last === undefined) throw new CliError('usage', 'policy check: give at least one PlanDefinition.');
  const names = layersOver(positionals, values);
  const reading = readPolicy(await Promise.all(names.map(readPlan)));
  for (const finding of reading.findings) io.write(`${findingText(finding, names)}\n`);
  const errors = reading.findings.filter(({ severity }) => severity === 'error').length;
  const warnings = reading.findings.filter(({ severity }) => severity === 'warning').length;
  const top = reading.ok ? Math.max(...reading.policy.layers.map(({ layer }) => layer)) : 0;
  const own = reading.ok ? reading.policy.rules.filter(({ origin }) => origin.layer === top).length : 0;
  io.write(
    `${last}: ${errors} errors, ${warnings} warnings${reading.ok ? `, ${own} rules of its own, ${reading.policy.rules.length} in all` : ': refused'}.\n`,
  );
  return reading.ok ? 'done' : 'policy-refused';
}
