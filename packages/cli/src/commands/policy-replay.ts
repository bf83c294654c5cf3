import { burdenOf, careAskedBy, FiguresError, type Burden } from '@dwellward/figures';
import { CoreError } from '@dwellward/core';
import { eachOnOneLine } from '@dwellward/core/safe-text';
import { displayOf } from '@dwellward/profiles';
import type { Policy } from '@dwellward/policy';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { layerHelp, layerOptions, loadPolicy } from '../policies.js';
import { readRecord, recordHelp, recordOptions } from '../record.js';
import { columns, csvRows } from '../plain-rows.js';
import { placesUnread, reportUnreadable } from './care.js';

export const policyReplayHelp = `dwellward policy replay PLAN [PLAN ...] --on FILE|FOLDER|- --from DAY --to DAY --zone ZONE [options]

The price of a plan before it goes live: what it would have asked over a past period beside the policy in use, had
everything been done at the moment it was due: items, visits, openings of a lumen, supplies. Lines, infusions, samples,
findings and results are those of the record. A model, for comparing two policies; nothing is written.

  --on          a FHIR Bundle, a folder of NDJSON files, or - for a Bundle from standard input
  --from, --to  first and last day, such as 2025-01-01
  --zone        the unit's IANA time zone
  --policy      a layer that is in use already, under PLAN; may be repeated
${layerHelp}
${recordHelp}
  --format      table (default), csv or json

Example
  dwellward policy replay common-practice --on export/ --from 2025-01-01 --to 2025-12-31 --zone Europe/Berlin
`;

/** The two burdens beside each other. */
interface Replayed {
  readonly from: string;
  readonly to: string;
  readonly zone: string;
  readonly before: Burden;
  readonly after: Burden;
}

const formats = ['table', 'csv', 'json'] as const;

export async function policyReplay(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      on: { type: 'string' },
      from: { type: 'string' },
      to: { type: 'string' },
      zone: { type: 'string' },
      policy: { type: 'string', multiple: true },
      ...layerOptions,
      ...recordOptions,
      format: { type: 'string', default: 'table' },
      help: { type: 'boolean', short: 'h' },
    },
  });
  if (values.help) {
    io.write(policyReplayHelp);
    return 'done';
  }
  const format = formats.find((one) => one === values.format);
  if (format === undefined)
    throw new CliError('usage', `--format ${values.format}: one of ${formats.join(', ')} is wanted.`);
  if (positionals.length === 0) throw new CliError('usage', 'policy replay: give the plan to replay.');
  const { on, from, to, zone } = values;
  if (on === undefined || from === undefined || to === undefined || zone === undefined)
    throw new CliError('usage', '--on, --from, --to and --zone are wanted: policy replay --help shows one.');
  const lower = values.policy ?? [];
  const before = await loadPolicy(lower, values, io, true);
  const after = await loadPolicy([...lower, ...positionals], values, io);
  const records = await readRecord(on, values, io);
  const asked = (policy: Policy, name: string) => {
    try {
      return burdenOf(
        careAskedBy(records, policy, { from, to, zone }, (done, of) => {
          if (io.progress && (done % 20 === 0 || done === of))
            io.warn(`\r${name}: ${done} of ${of} lines${done === of ? '\n' : ''}`);
        }),
      );
    } catch (cause) {
      if (cause instanceof FiguresError || cause instanceof CoreError)
        throw new CliError('usage', cause.message, { cause });
      throw cause;
    }
  };
  const replayed = { from, to, zone, before: asked(before, 'in use'), after: asked(after, 'with the plan') };
  io.write(shownAs(format, replayed, positionals.join(', ')));
  return reportUnreadable(placesUnread(records), io);
}

function shownAs(format: (typeof formats)[number], replayed: Replayed, plan: string): string {
  if (format === 'json') return `${JSON.stringify(replayed, null, 2)}\n`;
  const rows = rowsOf(eachOnOneLine(replayed));
  if (format === 'csv') return csvRows([['what', 'layer', 'in_use', 'with_the_plan', 'difference'], ...rows]);
  return [
    `What ${eachOnOneLine(plan)} would have asked from ${replayed.from} to ${replayed.to}, beside the policy in use`,
    '',
    ...columns([['', 'layer', 'in use', 'with the plan', 'difference'], ...rows]),
    '',
    'A model: everything is done at the moment it is due. It compares two policies with each other, not with what was charted.',
    'Visits: what falls due for one patient within an hour is one.',
    '',
  ].join('\n');
}

/** The totals, then the activities and the supplies of which there are more or fewer. */
function rowsOf({ before, after }: Replayed): string[][] {
  const row = (what: string, layer: string, was: number, is: number) => [
    ...[what, layer, String(was), String(is)],
    is === was ? '' : `${is > was ? '+' : '-'}${Math.abs(is - was)}`,
  ];
  const count = ({ byActivity }: Burden, activity: string, layer: string) =>
    byActivity.find((one) => one.activity === activity && one.layer === layer)?.items ?? 0;
  const activities = new Map(
    [...before.byActivity, ...after.byActivity].map(({ activity, layer }) => [
      `${activity}\u0000${layer}`,
      { activity, layer },
    ]),
  );
  const supplies = [...new Set([...Object.keys(before.supplies), ...Object.keys(after.supplies)])].sort();
  const differing = (rows: string[][]) => rows.filter(([, , was, is]) => was !== is);
  return [
    row('Items', '', before.items, after.items),
    row('Visits', '', before.visits, after.visits),
    row('Openings of a lumen', '', before.openings, after.openings),
    row('Urgent', '', before.urgent, after.urgent),
    ...differing(
      [...activities.values()].map(({ activity, layer }) =>
        row(
          displayOf('lineCareActivity', activity),
          layer,
          count(before, activity, layer),
          count(after, activity, layer),
        ),
      ),
    ),
    ...differing(
      supplies.map((one) => row(`Supply: ${one}`, '', before.supplies[one] ?? 0, after.supplies[one] ?? 0)),
    ),
  ];
}
