import {
  Calendar,
  english,
  inWords,
  renderPreview,
  speaker,
  itemOf,
  previewPolicy,
  type PolicyPreview,
  type PreviewChange,
} from '@dwellward/core';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import { readRecord, recordHelp, recordOptions } from '../record.js';
import type { Io } from '../io.js';
import { layerHelp, layerOptions, loadPolicy, reportNotInForce } from '../policies.js';
import { plainRule } from '../rules.js';
import { placesUnread, reportUnreadable, whenOf } from './care.js';

export const policyPreviewHelp = `dwellward policy preview PLAN [PLAN ...] --on FILE|FOLDER|- --at INSTANT --zone ZONE [options]

Due care of everyone in the input without and with the plans: which items of which patients would move, appear or
vanish, and by which rule. Everything else stays as it is. Nothing is written.

  --on          a FHIR Bundle, a folder of NDJSON files, or - for a Bundle from standard input
  --at, --zone  the moment to compute for and the unit's IANA time zone, as for dwellward due
  --policy      a layer that is in use already, under PLAN; may be repeated
${layerHelp}
${recordHelp}
  --format      table (default) or json

Examples
  dwellward policy preview neutropenia --on unit.json --at 2026-11-25T07:30:00+01:00 --zone Europe/Berlin
  dwellward policy preview our-unit-2.json --policy our-hospital.json --on export/ --at now --zone America/New_York

"by what is not known" marks what moves because a count or a dressing is not on record: unknown takes the protective
reading until it is charted. Exit codes are those of dwellward due.
`;

export async function policyPreview(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      on: { type: 'string' },
      at: { type: 'string' },
      zone: { type: 'string' },
      policy: { type: 'string', multiple: true },
      ...layerOptions,
      format: { type: 'string' },
      ...recordOptions,
      help: { type: 'boolean', short: 'h' },
    },
  });
  if (values.help) {
    io.write(policyPreviewHelp);
    return 'done';
  }
  const format = values.format ?? 'table';
  if (!['table', 'json'].includes(format))
    throw new CliError('usage', `--format ${format}: one of table, json.`);
  if (positionals.length === 0) throw new CliError('usage', 'policy preview: give the plan to preview.');
  if (values.on === undefined)
    throw new CliError('usage', '--on is missing: a Bundle file, a folder of NDJSON files, or -.');
  const when = whenOf(values, io);
  const lower = values.policy ?? [];
  const before = await loadPolicy(lower, values, io, true);
  const after = await loadPolicy([...lower, ...positionals], values, io);
  reportNotInForce(after, when, io);
  const records = await readRecord(values.on, values, io);
  const preview = previewPolicy(records, before, after, when);
  const say = speaker(english, new Calendar(when.zone));
  io.write(
    format === 'json'
      ? `${JSON.stringify({ asOf: when.asOf, zone: when.zone, ...(inWords(plainPreview(preview), say) as object) }, null, 2)}\n`
      : renderPreview(preview, records, {
          plan: positionals.join(', '),
          zone: when.zone,
          columns: io.columns,
        }),
  );
  return reportUnreadable(placesUnread(records), io);
}

function plainPreview({ changes, holds, ...rest }: PolicyPreview): object {
  return {
    changes: changes.map((change) => {
      const { activity, target } = itemOf(change);
      const { kind, line, patient, before, after, dueByShiftMs, opensShiftMs, notKnown, because } = change;
      return {
        kind,
        patient,
        line,
        activity,
        target: { scope: target.scope, device: target.device, name: target.name },
        ...(before ? { before: windowOf(before) } : {}),
        ...(after ? { after: windowOf(after) } : {}),
        ...(dueByShiftMs === undefined ? {} : { dueByShiftMs, opensShiftMs }),
        rule: plainRule(change.rule),
        ...(because ? { because: { how: because.how, by: because.by, notes: because.notes } } : {}),
        notKnown,
      };
    }),
    holds: holds.map(({ kind, patient, hold: { activity, target, from, until, rule } }) => ({
      kind,
      patient,
      activity,
      target: target.name,
      from,
      ...(until ? { until } : {}),
      rule: rule.id,
    })),
    ...rest,
  };
}

function windowOf({ opens, dueBy, state, rule }: NonNullable<PreviewChange['before']>): object {
  return { opens, dueBy, state, rule: rule.id };
}
