import { parseArgs } from 'node:util';
import {
  hasRepairSteps,
  repairJudgement,
  type JudgedPrecondition,
  type RepairJudgement,
  type RepairOptions,
} from '@dwellward/core';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { careOptions, reportUnreadable } from './care.js';
import { advice, lumenOf, readOneLine, refused, section } from './one-line.js';

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
  --least-intact       the kit's own least intact length, cm; 4 if left out
  --longest            longest length outside the skin afterwards, cm; 20 if left out
  --format             text (default) or json
  --at, --zone, --policy, --only-policy: as for dwellward due

Example
  dwellward repair unit.json --line cvc-1 --lumen red --intact 6 --trim 0.5 --segment 10 --segment-diameter 1.6 \\
    --lumen-size 9.6 --kit-size 9.6 --kit-for-device yes --free-of-clot yes --may-repair yes \\
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
  const judgement = refused(() =>
    repairJudgement(line, { ...given, ...(lumen ? { lumen } : {}) }, policy, when),
  );
  io.write(
    format === 'json'
      ? `${JSON.stringify(judgement, undefined, 2)}\n`
      : repairText(judgement, line.name, when.asOf),
  );
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

const verdicts: Readonly<Record<RepairJudgement['verdict'], string>> = {
  possible: 'A repair is possible.',
  'not-possible':
    'NOT TO BE REPAIRED as it stands: keep it clamped; the responsible clinician decides on a replacement.',
  'not-known': 'NOT YET: something has to be found out first. Keep it clamped.',
  'no-damage':
    'No damage is on record. Where you see some: clamp between it and the body, cover it with sterile gauze, call; chart it with its lumen and its distance from the skin, then ask again.',
};

const signs: Readonly<Record<JudgedPrecondition['met'], string>> = {
  yes: 'yes',
  no: 'NO',
  'not-known': 'not known',
};

function repairText(judgement: RepairJudgement, name: string, at: string): string {
  const { lumen, damage, measures, verdict } = judgement;
  const damaged = verdict !== 'no-damage';
  return [
    `Repair, ${name} (${judgement.line})${lumen ? `, lumen ${lumen.name}` : ''}, ${judgement.patient}, at ${at}`,
    '',
    verdicts[verdict],
    ...section(
      'Damage on record',
      damage
        ? [
            `${damage.values.join(', ') || 'damage'} on ${damage.at} (${damage.ref})${damage.fromSkinCm ? `, ${damage.fromSkinCm} cm from the skin` : ''}`,
          ]
        : [],
    ),
    ...section(
      'Preconditions',
      (damaged ? judgement.preconditions : []).map(
        ({ name: what, met, reason }) =>
          `${what.replaceAll('-', ' ')}: ${signs[met]} (${reason.replace(/^not known: /, '')})`,
      ),
    ),
    ...section(
      'Measures',
      measures
        ? [
            `cut at ${measures.cutAtCm} cm from the skin; the clamp sits between the skin and the cut`,
            `${measures.externalLengthAfterCm} cm outside the skin afterwards`,
            `at least ${measures.airToWithdrawMl} mL of air in the new segment, to be drawn back`,
          ]
        : [],
    ),
    ...section(verdict === 'not-possible' ? 'Now' : 'Checklist', judgement.steps, true),
    ...section('Take', judgement.supplies),
    ...section('Mind', damaged ? judgement.cautions : []),
    ...section(
      'Repaired before',
      judgement.earlierRepairs.map(
        ({ ref, at: when, lumen: which }) => `${when}${which ? `, ${which}` : ''} (${ref})`,
      ),
    ),
    ...section('Source', [
      ...judgement.sources.map(({ text: source, url }) => (url ? `${source} <${url}>` : source)),
      ...judgement.notes,
    ]),
    '',
    advice,
    '',
  ].join('\n');
}
