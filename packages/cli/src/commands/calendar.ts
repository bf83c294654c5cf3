import { readFile } from 'node:fs/promises';
import { calendarFeed, instantMs, readFeed, type CalendarFeedOptions } from '@dwellward/core';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { careOptions, computeCare, reportUnreadable } from './care.js';
import { patientOf } from './patient.js';

export const calendarHelp = `dwellward calendar FILE|FOLDER|- --patient ID --at INSTANT --zone ZONE [options]

Open care of one patient as an iCalendar file (RFC 5545) with alarms before it is due, at waking hours; pressing care
rings at any hour, and when it may be done too. What is done in one visit rings once.
The same care keeps its UID, so that a calendar updates it; what is done since goes as cancelled.

  --patient     the patient, as Patient/ID or ID
  --previous    the file given out before: what is no longer open is sent as cancelled
  --sequence    SEQUENCE of every event; by default the minutes since 1970 of --at, so that a later file is newer
  --alarm       minutes from the last alarm to the latest time (default 60)
  --waking      hours at which care that is not pressing may ring (default 07:00-22:00)
  --tells       care (default: neither name nor results), name, or full
  --at, --zone, --policy, --without, --only-policy, --fhir-version: as for dwellward due

Example
  dwellward calendar unit.json --patient spindle-wagtail --at now --zone Europe/Berlin > care.ics

Exit codes: as for dwellward due
`;

/** So long a cancelled event is sent again: a calendar that misses a file still gets the news. */
const cancelledForMs = 30 * 86_400_000;
const tellings = ['care', 'name', 'full'] as const;

export async function calendar(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      ...careOptions,
      patient: { type: 'string' },
      previous: { type: 'string' },
      sequence: { type: 'string' },
      alarm: { type: 'string' },
      waking: { type: 'string' },
      tells: { type: 'string' },
    },
  });
  if (values.help) {
    io.write(calendarHelp);
    return 'done';
  }
  const tells = tellings.find((one) => one === (values.tells ?? 'care'));
  if (!tells) throw new CliError('usage', `--tells ${values.tells}: one of ${tellings.join(', ')}.`);
  const alarmMinutes = wholeNumber('--alarm', values.alarm, 1, 10_080) ?? 60;
  const waking = wakingOf(values.waking ?? '07:00-22:00');
  const sequenceGiven = wholeNumber('--sequence', values.sequence, 0, 2_147_483_647);
  if (positionals.length > 1)
    throw new CliError('usage', `One input at a time; too many: ${positionals.slice(1).join(' ')}.`);
  const { records, cares, policy, when, unreadable } = await computeCare(positionals[0], values, io);
  const patient = patientOf(values.patient, records);
  const atMs = instantMs(when.asOf);
  const sequence = sequenceGiven ?? Math.floor(atMs / 60_000);
  const before = values.previous === undefined ? undefined : await previousFeed(values.previous);
  if (before && before.sequence >= sequence)
    throw new CliError(
      'usage',
      `The file given out before has the sequence ${before.sequence}: give a higher --sequence, or a later --at.`,
    );
  const options: CalendarFeedOptions = {
    stamp: when.asOf,
    sequence,
    zone: when.zone,
    lines: records.lines,
    tells,
    policy,
    alarmMinutes,
    waking,
    previous: (before?.events ?? []).filter(({ end }) => instantMs(end) >= atMs - cancelledForMs),
  };
  const items = cares.filter((care) => care.patient === patient).flatMap((care) => care.items);
  io.write(calendarFeed(items, options));
  return reportUnreadable(unreadable, io);
}

/** `07:00-22:00`: the first and the last waking time of a day. */
function wakingOf(text: string): { readonly from: string; readonly to: string } {
  const clock = '([01]\\d|2[0-3]):[0-5]\\d';
  const [from = '', to = ''] = text.split('-');
  if (!new RegExp(`^${clock}-${clock}$`).test(text) || from >= to)
    throw new CliError(
      'usage',
      `--waking ${text}: two times of a day, the earlier first, such as 07:00-22:00.`,
    );
  return { from, to };
}

async function previousFeed(path: string): Promise<ReturnType<typeof readFeed>> {
  try {
    return readFeed(await readFile(path, 'utf8'));
  } catch (cause) {
    throw new CliError('usage', `--previous ${path}: there is no such file, or it can’t be read.`, { cause });
  }
}

function wholeNumber(
  name: string,
  text: string | undefined,
  least: number,
  most: number,
): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (!/^\d+$/.test(text) || value < least || value > most)
    throw new CliError('usage', `${name} ${text}: a whole number from ${least} to ${most}.`);
  return value;
}
