import { dueBundle, plainCare, policyAt, renderTable } from '@dwellward/core';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { layerHelp } from '../policies.js';
import { recordHelp } from '../record.js';
import { dueStream } from '../stream/due-stream.js';
import { careOptions, computeCare, reportUnreadable } from './care.js';

export const dueHelp = `dwellward due FILE|FOLDER|- --at INSTANT --zone ZONE [options]

What care every line in the input needs, when, and why.

  FILE          a FHIR Bundle (R4, R4B, R5): collection, searchset, transaction or batch
  FOLDER        NDJSON files as a FHIR bulk export writes them
  -             a Bundle from standard input; with --format ndjson a resource a line

  --at          the moment to compute for, with its offset; or now
  --zone        the unit's IANA time zone
  --policy      lay a PlanDefinition file, or a bundled policy by its name, over the default; may be repeated. Files of
                one url are versions of one layer, each in force in its effectivePeriod
${layerHelp}
${recordHelp}
  --format      table (default), fhir or json; or ndjson: a Task, Flag or DetectedIssue a line, from a FOLDER, a file
                of NDJSON or -. It sorts the input by patient on disk and never holds all of it, whatever its size
  --work        ndjson: the folder that takes the sorted input while it runs (default: the system's for such files)
  --within      table: show upcoming care that opens within so many hours (default 12)
  --all         table: show all upcoming care

Examples
  dwellward due unit.json --at 2026-11-25T07:30:00+01:00 --zone Europe/Berlin
  dwellward due export/ --at now --zone America/New_York --policy neutropenia --format fhir > due.json
  dwellward due export/ --at now --zone Europe/Berlin --format ndjson > due.ndjson
  zcat export/*.ndjson.gz | dwellward due - --at now --zone Europe/Berlin --format ndjson | wc -l
  curl -s "$FHIR/Device/\\$export..." | dwellward due - --at now --zone Europe/Berlin

Exit codes
  0  computed, also where care is overdue
  2  the command was not understood
  3  the input can't be read at all
  4  the policy or a map of codes was refused
  5  computed, but parts of the input could not be read; they are named on the error stream
  7  not all of the answer could be written: who read it has stopped, or there is no room
`;

export async function due(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      ...careOptions,
      format: { type: 'string' },
      within: { type: 'string' },
      work: { type: 'string' },
      all: { type: 'boolean' },
    },
  });
  if (values.help) {
    io.write(dueHelp);
    return 'done';
  }
  const format = values.format ?? 'table';
  const hours = Number(values.within ?? 12);
  if (!['table', 'fhir', 'json', 'ndjson'].includes(format))
    throw new CliError('usage', `--format ${format}: one of table, fhir, json, ndjson.`);
  if (!Number.isFinite(hours) || hours < 0)
    throw new CliError('usage', `--within ${values.within}: a number of hours, 0 or more.`);
  if (positionals.length > 1)
    throw new CliError('usage', `One input at a time; too many: ${positionals.slice(1).join(' ')}.`);
  if (format === 'ndjson') return dueStream(positionals[0], values, io);
  const care = await computeCare(positionals[0], values, io);
  const { records, cares, policy, when, unreadable } = care;
  if (format === 'table') {
    io.write(
      renderTable(records, cares, when, {
        colour: io.colour,
        columns: io.columns,
        loosened: policyAt(policy, when).loosened ?? [],
        ...(values.all ? {} : { upcomingWithinHours: hours, showsAll: '--all' }),
      }),
    );
  } else {
    const answer = format === 'fhir' ? dueBundle(records, cares, policy, when) : plainCare(care);
    io.write(`${JSON.stringify(answer, null, 2)}\n`);
  }
  return reportUnreadable(unreadable, io);
}
