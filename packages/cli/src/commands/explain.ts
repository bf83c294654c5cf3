import { renderExplanation } from '@dwellward/core';
import { lineCareActivities } from '@dwellward/profiles';
import { meant, parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { careOptions, computeCare, reportUnreadable } from './care.js';

export const explainHelp = `dwellward explain FILE|FOLDER|- --line ID --at INSTANT --zone ZONE [options]

Why care is due: the rule, its source, the facts with their references, and what would change it.

  --line        the line's Device, as Device/ID or ID
  --activity    one activity only, such as dressing-change
  --expressions show each rule’s condition in FHIRPath too, as the plan has it
  --at, --zone, --policy, --without, --only-policy, --fhir-version: as for dwellward due

Example
  dwellward explain unit.json --line Device/cvc-1 --activity dressing-change \\
    --at 2026-11-25T07:30:00+01:00 --zone Europe/Berlin
`;

export async function explain(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      ...careOptions,
      line: { type: 'string' },
      activity: { type: 'string' },
      expressions: { type: 'boolean' },
    },
  });
  if (values.help) {
    io.write(explainHelp);
    return 'done';
  }
  if (!values.line) throw new CliError('usage', '--line is missing: the Device of the line to explain.');
  const activities = lineCareActivities.map(([code]) => code);
  // A slip of the pen must not read as “nothing is asked for”.
  if (values.activity && !activities.some((code) => code === values.activity))
    throw new CliError(
      'usage',
      `--activity ${values.activity}: there is no such activity. ${meant(values.activity, activities)}`,
    );
  const care = await computeCare(positionals[0], values, io);
  const found = care.cares.find(({ line }) => line === values.line || line === `Device/${values.line}`);
  if (!found) {
    const known = care.cares.map(({ line }) => line);
    throw new CliError(
      'usage',
      `--line ${values.line}: no such line in the input. ${meant(values.line, known, 'Lines:')}`,
    );
  }
  const line = care.records.lines.find(({ ref }) => ref === found.line);
  const activity = activities.find((code) => code === values.activity);
  io.write(
    renderExplanation({
      care: found,
      ...(line ? { line } : {}),
      policy: care.policy,
      when: care.when,
      ...(activity ? { activity } : {}),
      expressions: values.expressions ?? false,
    }),
  );
  return reportUnreadable(care.unreadable, io);
}
