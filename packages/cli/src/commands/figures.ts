import { readFile } from 'node:fs/promises';
import {
  intervalMethods,
  unitFigures,
  FiguresError,
  type FiguresOptions,
  type IntervalMethod,
} from '@dwellward/figures';
import { CoreError, readRecords } from '@dwellward/core';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import { chartKinds, figuresAs, figuresFormats } from '../figures-text.js';
import { readInput } from '../input.js';
import type { Io } from '../io.js';
import { layerHelp, layerOptions, loadPolicy } from '../policies.js';
import { readOptions, recordHelp, recordOptions } from '../record.js';
import { placesUnread, reportUnreadable } from './care.js';

export const figuresHelp = `dwellward figures FILE|FOLDER|- --from DAY --to DAY --zone ZONE [options]

Line days, patient days, utilisation, proposed bloodstream infections of central lines and their rate with a 95 % interval,
by unit. What was left out of a figure stands beside it, with the reason. A person confirms every infection.

  --from, --to  first and last day, such as 2025-01-01
  --zone        the unit's IANA time zone
  --against     an earlier period to compare with, such as 2024-01-01/2024-12-31
  --unit        this unit alone, by its name
  --pathogens   a ValueSet file of organisms of which one specimen is enough; may be repeated
  --commensals  a ValueSet file of common commensals; may be repeated
  --excluded    a ValueSet file of organisms that the definition excludes; may be repeated
  --predicted   UNIT=NUMBER, infections that your baseline predicts for the period; may be repeated
  --care        care on time and what care asks, too: of the windows that closed in the period, by the default policy
                and the layers that --policy lays over it
  --shifts      hours at which shifts begin (default 7,19)
  --policy      a PlanDefinition file, or a bundled policy by its name; may be repeated
${layerHelp}
  --method      ${Object.keys(intervalMethods).join(' (default) or ')}
  --format      table (default), csv, json, fhir (Measure and MeasureReport), or svg (a chart of one --unit)
  --chart       svg: rate (by month, default), between (days from infection to infection), dwell (lines in place)
${recordHelp}

Ends with 5 where parts of the input could not be read.

Example
  dwellward figures export/ --from 2025-01-01 --to 2025-12-31 --zone Europe/Berlin --pathogens p.json --commensals c.json
`;

const figuresOptions = {
  ...recordOptions,
  ...layerOptions,
  care: { type: 'boolean', default: false },
  shifts: { type: 'string' },
  policy: { type: 'string', multiple: true },
  from: { type: 'string' },
  to: { type: 'string' },
  zone: { type: 'string' },
  unit: { type: 'string' },
  against: { type: 'string' },
  pathogens: { type: 'string', multiple: true },
  commensals: { type: 'string', multiple: true },
  excluded: { type: 'string', multiple: true },
  predicted: { type: 'string', multiple: true },
  method: { type: 'string' },
  format: { type: 'string', default: 'table' },
  chart: { type: 'string', default: 'rate' },
  help: { type: 'boolean', short: 'h' },
} as const;

export async function figures(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({ args, allowPositionals: true, options: figuresOptions });
  if (values.help) {
    io.write(figuresHelp);
    return 'done';
  }
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0)
    throw new CliError(
      'usage',
      'One input is wanted: a Bundle file, a folder of NDJSON files, or - for standard input.',
    );
  const { from, to, zone } = values;
  if (from === undefined || to === undefined || zone === undefined)
    throw new CliError(
      'usage',
      '--from, --to and --zone are wanted, such as --from 2025-01-01 --to 2025-12-31 --zone Europe/Berlin.',
    );
  const format = figuresFormats.find((one) => one === values.format);
  if (format === undefined)
    throw new CliError('usage', `--format ${values.format}: one of ${figuresFormats.join(', ')} is wanted.`);
  const chart = chartKinds.find((one) => one === values.chart);
  if (chart === undefined)
    throw new CliError('usage', `--chart ${values.chart}: one of ${chartKinds.join(', ')} is wanted.`);
  if (format === 'svg' && values.unit === undefined)
    throw new CliError('usage', '--format svg: the chart is that of one unit, which --unit names.');
  const lists = {
    pathogens: await valueSets(values.pathogens),
    commensals: await valueSets(values.commensals),
    excluded: await valueSets(values.excluded),
  };
  const options: FiguresOptions = {
    ...{ from, to, zone, predicted: predictedOf(values.predicted ?? []) },
    ...methodOf(values.method),
    ...(values.care ? { policy: await loadPolicy(values.policy ?? [], values, io) } : {}),
    ...shiftsOf(values.shifts),
    ...againstOf(values.against),
    ...(Object.values(lists).some((list) => list.length > 0) ? { organisms: lists } : {}),
  };
  if (!values.care && (values.policy !== undefined || values.shifts !== undefined))
    throw new CliError('usage', '--policy and --shifts say by what care was due: they go with --care.');
  const entries = await readInput(file, io);
  const records = readRecords(entries, await readOptions(values, io));
  const all = refusing(() => unitFigures(records, entries, options));
  const units = all.units.filter(({ unit }) => values.unit === undefined || unit === values.unit);
  if (values.unit !== undefined && units.length === 0)
    throw new CliError(
      'usage',
      `--unit ${values.unit}: there are ${all.units.map(({ unit }) => unit).join(', ') || 'none'}.`,
    );
  for (const unit of Object.keys(options.predicted ?? {}))
    if (!all.units.some((one) => one.unit === unit))
      throw new CliError('usage', `--predicted ${unit}: there is no unit of this name in the period.`);
  const ofUnit = ({ unit }: { readonly unit: string }) => values.unit === undefined || unit === values.unit;
  const shown = {
    ...all,
    units,
    dwell: all.dwell.filter(ofUnit),
    ...(all.care
      ? { care: { onTime: all.care.onTime.filter(ofUnit), burden: all.care.burden.filter(ofUnit) } }
      : {}),
    infections: all.infections.filter(
      ({ location }) => values.unit === undefined || location === values.unit,
    ),
  };
  io.write(figuresAs(format, shown, chart));
  return reportUnreadable(placesUnread(records), io);
}

function shiftsOf(given: string | undefined): { shifts?: readonly number[] } {
  if (given === undefined) return {};
  const shifts = given.split(',').map((text) => (/^\d{1,2}$/.test(text.trim()) ? Number(text) : NaN));
  if (shifts.some((hour) => !(hour >= 0 && hour <= 23)))
    throw new CliError('usage', `--shifts ${given}: hours from 0 to 23 are wanted, such as 7,19.`);
  return { shifts };
}

function againstOf(given: string | undefined): Pick<FiguresOptions, 'against'> {
  if (given === undefined) return {};
  const [, from, to] = /^(\d{4}-\d\d-\d\d)\/(\d{4}-\d\d-\d\d)$/.exec(given) ?? [];
  if (from === undefined || to === undefined)
    throw new CliError('usage', `--against ${given}: two days are wanted, such as 2024-01-01/2024-12-31.`);
  return { against: { from, to } };
}

function predictedOf(given: readonly string[]): Record<string, number> {
  return Object.fromEntries(
    given.map((text) => {
      const at = text.lastIndexOf('=');
      const number = Number(text.slice(at + 1));
      if (at < 1 || text.slice(at + 1).trim() === '' || !(number > 0))
        throw new CliError(
          'usage',
          `--predicted ${text}: a unit and a number above 0 are wanted, such as "Unit A=2.4".`,
        );
      return [text.slice(0, at), number];
    }),
  );
}

function methodOf(given: string | undefined): { method?: IntervalMethod } {
  if (given === undefined) return {};
  const names = Object.keys(intervalMethods) as IntervalMethod[];
  const method = names.find((one) => one === given);
  if (method === undefined)
    throw new CliError('usage', `--method ${given}: one of ${names.join(', ')} is wanted.`);
  return { method };
}

async function valueSets(files: readonly string[] = []): Promise<object[]> {
  return Promise.all(
    files.map(async (file) => {
      let read: unknown;
      try {
        read = JSON.parse(await readFile(file, 'utf8'));
      } catch (cause) {
        throw new CliError('map-refused', `${file}: it can’t be read as JSON.`, { cause });
      }
      if (
        typeof read !== 'object' ||
        read === null ||
        (read as { resourceType?: unknown }).resourceType !== 'ValueSet'
      )
        throw new CliError('map-refused', `${file}: a FHIR ValueSet is wanted.`);
      return read;
    }),
  );
}

function refusing<Answer>(work: () => Answer): Answer {
  try {
    return work();
  } catch (cause) {
    if (cause instanceof FiguresError || cause instanceof CoreError)
      throw new CliError('usage', cause.message, { cause });
    throw cause;
  }
}
