import {
  allIssues,
  dueCareOfEach,
  instantMs,
  noLineFound,
  notUnderstoodSaid,
  Calendar,
  english,
  speaker,
  type AsOf,
  type LineCare,
  type Records,
} from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import { CliError, coreCode } from '../errors.js';
import type { Io } from '../io.js';
import { layerOptions, loadPolicy, reportNotInForce, type LayerValues } from '../policies.js';
import { readRecord, recordOptions, type RecordValues } from '../record.js';

/** The options that every command on a record takes. */
export const careOptions = {
  at: { type: 'string' },
  zone: { type: 'string' },
  policy: { type: 'string', multiple: true },
  ...layerOptions,
  ...recordOptions,
  help: { type: 'boolean', short: 'h' },
} as const;

export interface CareValues extends LayerValues, RecordValues {
  readonly at?: string | undefined;
  readonly zone?: string | undefined;
  readonly policy?: string[] | undefined;
}

/** Due care of everything in the input. */
export interface Care {
  readonly records: Records;
  readonly cares: readonly LineCare[];
  readonly policy: Policy;
  readonly when: AsOf;
  readonly unreadable: readonly string[];
}

/** Reads the input and the policy, and works out due care. */
export async function computeCare(file: string | undefined, values: CareValues, io: Io): Promise<Care> {
  if (file === undefined)
    throw new CliError(
      'usage',
      'No input: give a Bundle file, a folder of NDJSON files, or - for standard input.',
    );
  const when = whenOf(values, io);
  const policy = await loadPolicy(values.policy ?? [], values, io);
  reportNotInForce(policy, when, io);
  const records = await readRecord(file, values, io);
  const cares = dueCareOfEach(records.lines, policy, when);
  return { records, cares, policy, when, unreadable: placesUnread(records, cares) };
}

// On the error stream; the JSON answer has all of them.
const mostKinds = 10;

/**
 * Every place that could not be read and line that could not be computed, with the reason, and every kind of thing that
 * was not understood.
 * @param whole false of a part of an input: that there is no line in it says nothing.
 */
export function placesUnread(
  records: Records,
  cares: readonly LineCare[] = [],
  whole = true,
): readonly string[] {
  // Times in what can’t be read are told as they were sent: no zone is needed to say them.
  const say = speaker(english, new Calendar('UTC'));
  const unread = allIssues(records, cares)
    .filter(({ code }) => code === 'unreadable')
    .map(({ resource, path, sentence }) => `${[...new Set([resource, path])].join(', ')}: ${say(sentence)}`);
  const none = noLineFound(records);
  const kinds = notUnderstoodSaid(records.notUnderstood, mostKinds)?.kinds ?? [];
  // An input without any Device may be that of a unit without a line.
  return [...unread, ...(whole && none && kinds.length > 0 ? [none] : []), ...kinds].map((one) =>
    typeof one === 'string' ? one : say(one),
  );
}

/** The moment and the zone of the options; both have to be given. */
export function whenOf({ at, zone }: Pick<CareValues, 'at' | 'zone'>, io: Io): AsOf {
  if (at === undefined)
    throw new CliError(
      'usage',
      '--at is missing: the moment to compute for, such as 2026-11-25T07:30:00+01:00, or now.',
    );
  if (zone === undefined)
    throw new CliError('usage', '--zone is missing: the unit’s IANA time zone, such as Europe/Berlin.');
  const asOf = at === 'now' ? io.now() : at;
  try {
    instantMs(asOf);
  } catch (cause) {
    if (coreCode(cause) !== 'no-instant') throw cause;
    throw new CliError(
      'usage',
      `--at ${at}: not an instant with an offset, such as 2026-11-25T07:30:00+01:00.`,
      { cause },
    );
  }
  try {
    return { asOf, zone: new Calendar(zone).zone };
  } catch (cause) {
    if (coreCode(cause) !== 'no-zone') throw cause;
    throw new CliError('usage', `--zone ${zone}: not an IANA time zone, such as Europe/Berlin.`, { cause });
  }
}

/** Tells on the error stream what could not be read; the exit code says so too. */
export function reportUnreadable(unreadable: readonly string[], io: Io): 'done' | 'partly-unreadable' {
  if (unreadable.length === 0) return 'done';
  io.warn(`Not read or not understood (${unreadable.length}); everything else was computed:\n`);
  for (const place of unreadable) io.warn(`  ${place}\n`);
  return 'partly-unreadable';
}
