import { hasRepairSteps, repairJudgement, renderRepair, type RepairOptions } from '@dwellward/core';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { careOptions, reportUnreadable } from './care.js';
import { lumenOf, readOneLine, refused, plainText } from './one-line.js';

export const repairHelp = `dwellward repair FILE|FOLDER|- --line ID --at INSTANT --zone ZONE [options]

Whether a damaged line can be repaired: each precondition with its reason, and the checklist. What is not given is
not known, and stands in the way until it is found out. The damage itself has to be on record.

  --line               the line's Device, as Device/ID or ID
  --lumen              the damaged lumen, by its name or its Device; needed where the line has several and the
                       damage on record does not name just one
  --intact             cm of intact catheter between the skin and the damage; the finding on record, if left out
  --trim               cm cut off on the body's side of the damage
  --segment            length of the kit's new segment, cm
  --segment-diameter   its inner diameter, mm
  --lumen-size         size of the damaged lumen's tube, French
  --kit-size           size that the kit is made for, French
  --kit-for-device     yes or no: the kit is the maker's for this very device
  --free-of-clot       yes or no: the lumen was checked for a clot and is free
  --may-repair         yes or no: who is to do it may, by the maker's instructions and local policy
  --least-intact       cm of intact catheter that the kit needs after the trim: its instructions say it
  --longest            longest length outside the skin afterwards, cm; 20 if left out
  --format             text (default) or json
  --at, --zone, --policy, --without, --only-policy, --fhir-version: as for dwellward due

Example
  dwellward repair unit.json --line cvc-1 --lumen red --intact 6 --trim 0.5 --segment 10 --segment-diameter 1.6 \\
    --lumen-size 9.6 --kit-size 9.6 --least-intact 4 --kit-for-device yes --free-of-clot yes --may-repair yes \\
    --at 2026-11-25T07:30:00+01:00 --zone Europe/Berlin

Exit codes: as for dwellward due
`;

const lengths = {
  intact: 'intactExternalLengthCm',
  trim: 'trimCm',
  segment: 'newSegmentLengthCm',
  'segment-diameter': 'newSegmentInnerDiameterMm',
  'lumen-size': 'lumenFrench',
  'kit-size': 'kitFrench',
  'least-intact': 'leastIntactCm',
  longest: 'mostExternalCm',
} as const satisfies Record<string, keyof RepairOptions>;

const answers = {
  'kit-for-device': 'kitForThisDevice',
  'free-of-clot': 'lumenFreeOfClot',
  'may-repair': 'performerAllowed',
} as const satisfies Record<string, keyof RepairOptions>;

const text = { type: 'string' } as const;

export async function repair(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      ...careOptions,
      line: text,
      lumen: text,
      intact: text,
      trim: text,
      segment: text,
      'segment-diameter': text,
      'lumen-size': text,
      'kit-size': text,
      'least-intact': text,
      longest: text,
      'kit-for-device': text,
      'free-of-clot': text,
      'may-repair': text,
      format: text,
    },
  });
  if (values.help) {
    io.write(repairHelp);
    return 'done';
  }
  const format = values.format ?? 'text';
  if (!['text', 'json'].includes(format))
    throw new CliError('usage', `--format ${format}: one of text, json.`);
  const given = optionsOf(values);
  const { line, policy, when, unreadable } = await readOneLine(
    positionals[0],
    values,
    'repair-care',
    hasRepairSteps,
    io,
  );
  const lumen = lumenOf(values.lumen, line);
  const judgement = refused(
    () => repairJudgement(line, { ...given, ...(lumen ? { lumen } : {}) }, policy, when),
    when,
  );
  io.write(format === 'json' ? plainText(judgement, when) : renderRepair(judgement, line, when));
  return reportUnreadable(unreadable, io);
}

function optionsOf(values: Readonly<Record<string, unknown>>): RepairOptions {
  const options: Record<string, string | boolean> = {};
  for (const [option, name] of Object.entries(lengths)) {
    const value = values[option];
    if (typeof value === 'string') options[name] = value;
  }
  for (const [option, name] of Object.entries(answers)) {
    const value = values[option];
    if (typeof value !== 'string') continue;
    if (value !== 'yes' && value !== 'no')
      throw new CliError('usage', `--${option} ${value}: yes or no; leave it out where it is not known.`);
    options[name] = value === 'yes';
  }
  return options;
}
