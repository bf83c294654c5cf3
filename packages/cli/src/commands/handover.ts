import {
  Calendar,
  english,
  handover as handoverOf,
  instantMs,
  inWords,
  renderHandover,
  speaker,
  type HandoverOf,
} from '@dwellward/core';
import { parseArgs } from '../args.js';
import { CliError, coreCode, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { careOptions, computeCare, reportUnreadable } from './care.js';
import { patientOf } from './patient.js';

export const handoverHelp = `dwellward handover FILE|FOLDER|- --at INSTANT --zone ZONE [options]

What one shift hands to the next, patient by patient: emergencies, what is overdue, what falls due in the
shift, what the shift before did and missed, holds, doubts, and which supplies to take.

  --at          when the shift begins, with its offset; or now
  --shift       how long it is: 12h (default) or PT8H30M; or the whole shift as an ISO 8601 interval,
                START/END or START/PT12H, and then no --at
  --zone        the unit's IANA time zone
  --unit        only patients of this unit
  --patient     only this patient
  --policy, --without, --only-policy, --fhir-version: as for dwellward due
  --format      table (default; 90 columns, to print) or json

The shift before is of the same length. Expected care is marked: it is not open yet.

Examples
  dwellward handover unit.json --at 2026-11-25T07:30:00+01:00 --zone Europe/Berlin --shift 8h
  dwellward handover unit.json --zone Europe/Berlin --unit "Lanternfern Unit" \\
    --shift 2026-11-25T07:30:00+01:00/2026-11-25T19:30:00+01:00 > handover.txt

Exit codes: as for dwellward due
`;

export async function handover(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      ...careOptions,
      shift: { type: 'string' },
      unit: { type: 'string' },
      patient: { type: 'string' },
      format: { type: 'string' },
    },
  });
  if (values.help) {
    io.write(handoverHelp);
    return 'done';
  }
  const format = values.format ?? 'table';
  if (!['table', 'json'].includes(format))
    throw new CliError('usage', `--format ${format}: one of table, json.`);
  if (positionals.length > 1)
    throw new CliError('usage', `One input at a time; too many: ${positionals.slice(1).join(' ')}.`);
  const shift = readShift(values.shift ?? '12h');
  if (shift.start !== undefined && values.at !== undefined)
    throw new CliError('usage', `--shift ${values.shift}: it says when it begins; leave --at out.`);
  const care = await computeCare(
    positionals[0],
    shift.start === undefined ? values : { ...values, at: shift.start },
    io,
  );
  const { records, cares, policy, when, unreadable } = care;
  const of: HandoverOf = {
    ...(values.unit === undefined ? {} : { unit: unitOf(values.unit, care.records.lines) }),
    ...(values.patient === undefined ? {} : { patient: patientOf(values.patient, records) }),
  };
  const fromMs = instantMs(when.asOf);
  const toMs = shift.endMs ?? fromMs + shift.lengthMs;
  if (toMs <= fromMs) throw new CliError('usage', `--shift ${values.shift}: it must end after it begins.`);
  const answer = handoverOf(
    records,
    cares,
    policy,
    { from: when.asOf, to: new Date(toMs).toISOString(), zone: when.zone },
    of,
  );
  io.write(
    format === 'json'
      ? `${JSON.stringify(inWords(plain(answer), speaker(english, new Calendar(when.zone))), null, 2)}\n`
      : renderHandover(answer, { colour: io.colour, columns: io.columns }),
  );
  return reportUnreadable(unreadable, io);
}

interface ShiftGiven {
  readonly start?: string;
  readonly endMs?: number;
  readonly lengthMs: number;
}

const longestMs = 31 * 86_400_000;

/** `12h`, `PT12H`, `START/END`, `START/PT12H`. */
function readShift(text: string): ShiftGiven {
  const refuse = (): never => {
    throw new CliError(
      'usage',
      `--shift ${text}: a length of up to 31 days such as 12h or PT8H30M, or an interval START/END or START/PT12H.`,
    );
  };
  const [first = '', second, more] = text.split('/');
  if (more !== undefined) return refuse();
  if (second === undefined) return { lengthMs: lengthMs(first) ?? refuse() };
  const length = lengthMs(second);
  if (length !== undefined) return { start: first, lengthMs: length };
  const startMs = instantOf(first) ?? refuse();
  const endMs = instantOf(second) ?? refuse();
  const ms = endMs - startMs;
  return ms > 0 && ms <= longestMs ? { start: first, endMs, lengthMs: ms } : refuse();
}

function instantOf(text: string): number | undefined {
  try {
    return instantMs(text);
  } catch (cause) {
    if (coreCode(cause) !== 'no-instant') throw cause;
    return undefined;
  }
}

/** Undefined where it is no length; a length is more than nothing and not longer than a month. */
function lengthMs(text: string): number | undefined {
  const [all, hours, minutes] = /^PT(?:(\d+)H)?(?:(\d+)M)?$/i.exec(text) ?? /^(\d+)h$/i.exec(text) ?? [];
  if (all === undefined) return undefined;
  const ms = (Number(hours ?? 0) * 60 + Number(minutes ?? 0)) * 60_000;
  return ms > 0 && ms <= longestMs ? ms : undefined;
}

function unitOf(given: string, lines: readonly { readonly patient: { readonly unit?: string } }[]): string {
  const units = [...new Set(lines.flatMap(({ patient }) => patient.unit ?? []))].sort();
  const found = units.find((unit) => unit.trim().toLowerCase() === given.trim().toLowerCase());
  if (found === undefined)
    throw new CliError(
      'usage',
      `--unit ${given}: no patient with a line is there. Units: ${units.join(', ') || 'none'}.`,
    );
  return found;
}

/** A rule in JSON is its id, title and sources; the compiled condition is no data. */
function plain(answer: unknown): unknown {
  if (Array.isArray(answer)) return answer.map(plain);
  if (typeof answer !== 'object' || answer === null) return answer;
  return Object.fromEntries(
    Object.entries(answer).map(([name, value]: [string, unknown]) => [
      name,
      name === 'rule' ? plainRule(value as PlainRule) : plain(value),
    ]),
  );
}

interface PlainRule {
  readonly id: string;
  readonly title: string;
  readonly citations: readonly { readonly text: string }[];
}

function plainRule({ id, title, citations }: PlainRule): object {
  return { id, title, sources: citations.map(({ text }) => text) };
}
