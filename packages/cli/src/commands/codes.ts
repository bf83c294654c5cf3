import { codesSeen, oneLine, renderCodes, startMap, type CodeSeen } from '@dwellward/core';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import { readInput } from '../input.js';
import type { Io } from '../io.js';
import { readOptions, recordHelp, recordOptions } from '../record.js';

export const codesHelp = `dwellward codes FILE|FOLDER|- [options]

Every code of a record at the elements by which lines are read: what each is read as, and first those that concern a line
and are not understood, by what understanding them would change. Of the patients who have a line, of everybody where no
line is known at all, and the rows of nursing charts of anybody.

  --start URL   prints a FHIR ConceptMap of what is not understood instead, to be filled in; URL is its canonical
  --format      table (default), json or csv
  --all         the whole table: also what is read, and what is passed over, beyond twenty of each
${recordHelp}

What a map says of a code is counted as read. Nothing is guessed: a map that was just started changes nothing.
Ends with 5 where a code that concerns a line is not understood.

Examples
  dwellward codes unit.json
  dwellward codes export/ --start https://hospital.example/fhir/ConceptMap/lines > lines.json
  dwellward codes export/ --map lines.json --format csv
`;

const formats = ['table', 'json', 'csv'] as const;

export async function codes(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      ...recordOptions,
      start: { type: 'string' },
      format: { type: 'string', default: 'table' },
      all: { type: 'boolean' },
      help: { type: 'boolean', short: 'h' },
    },
  });
  if (values.help) {
    io.write(codesHelp);
    return 'done';
  }
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0)
    throw new CliError(
      'usage',
      'One input is wanted: a Bundle file, a folder of NDJSON files, or - for standard input.',
    );
  const format = formats.find((one) => one === values.format);
  if (format === undefined)
    throw new CliError('usage', `--format ${values.format}: one of ${formats.join(', ')} is wanted.`);
  if (values.start !== undefined && !/^[a-z][a-z0-9+.-]*:\S+$/i.test(values.start))
    throw new CliError(
      'usage',
      `--start ${values.start}: the canonical URL of the map is wanted, such as https://hospital.example/fhir/ConceptMap/lines.`,
    );
  const seen = codesSeen(await readInput(file, io), await readOptions(values, io));
  io.write(
    values.start === undefined
      ? written(seen, format, io, values.all ?? false)
      : json(startMap(seen, values.start)),
  );
  return seen.some(({ standing }) => standing === 'not-understood') ? 'partly-unreadable' : 'done';
}

const json = (value: object) => `${JSON.stringify(value, null, 2)}\n`;

function written(
  seen: readonly CodeSeen[],
  format: (typeof formats)[number],
  { columns }: Io,
  all: boolean,
): string {
  if (format === 'json') return json({ codes: seen });
  if (format === 'csv') return csv(seen);
  return renderCodes(seen, { columns, all });
}

const columns = [
  ...['standing', 'concern', 'on_line', 'count', 'patients', 'path', 'system', 'code', 'text'],
  ...['read_as_kind', 'read_as_code', 'values', 'examples'],
];

/** RFC 4180, with a header, a row a line; a cell that a spreadsheet would take for a formula begins with an apostrophe. */
function csv(seen: readonly CodeSeen[]): string {
  const rows = seen.map((one) => [
    ...[one.standing, one.concern, String(one.onLine), String(one.count), String(one.patients), one.path],
    ...[one.system ?? '', one.code ?? '', one.text ?? '', one.readAs?.kind ?? '', one.readAs?.code ?? ''],
    ...[one.values.join('; '), one.examples.join(' ')],
  ]);
  return [columns, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

function cell(given: string): string {
  const text = oneLine(given);
  const safe = /^ ?[=+\-@]/.test(text) ? `'${text}` : text;
  return /[",]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
