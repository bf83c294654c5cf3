import {
  Calendar,
  english,
  inWords,
  Refusal,
  speaker,
  type AsOf,
  type LineRecord,
  type Ref,
} from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import { meant } from '../args.js';
import { CliError, refusalOf } from '../errors.js';
import { readRecord } from '../record.js';
import type { Io } from '../io.js';
import { loadPolicy } from '../policies.js';
import { placesUnread, whenOf, type CareValues } from './care.js';

/** One line of the input, with the policy to judge it by. */
export interface OneLine {
  readonly line: LineRecord;
  readonly policy: Policy;
  readonly when: AsOf;
  readonly unreadable: readonly string[];
}

/**
 * Reads the one line that `--line` names. Where the policy does not tell how the work is done, the bundled layer that
 * does is laid straight over the default, below the layers that were named.
 */
export async function readOneLine(
  file: string | undefined,
  values: CareValues & { readonly line?: string | undefined },
  layer: string,
  tells: (policy: Policy, when: AsOf) => boolean,
  io: Io,
): Promise<OneLine> {
  if (file === undefined)
    throw new CliError(
      'usage',
      'No input: give a Bundle file, a folder of NDJSON files, or - for standard input.',
    );
  if (!values.line) throw new CliError('usage', '--line is missing: the Device of the line.');
  const when = whenOf(values, io);
  const named = values.policy ?? [];
  const plain = await loadPolicy(named, values, io);
  const policy = tells(plain, when) ? plain : await loadPolicy([layer, ...named], values, io);
  const records = await readRecord(file, values, io);
  const line = records.lines.find(({ ref }) => ref === values.line || ref === `Device/${values.line}`);
  if (!line)
    throw new CliError(
      'usage',
      `--line ${values.line}: no such line in the input. ${meant(
        values.line,
        records.lines.map(({ ref }) => ref),
        'Lines:',
      )}`,
    );
  return { line, policy, when, unreadable: placesUnread(records) };
}

/** The lumen that `--lumen` names by its name or its Device. */
export function lumenOf(given: string | undefined, line: LineRecord): Ref | undefined {
  if (given === undefined) return undefined;
  const say = speaker(english, new Calendar('UTC'));
  const lumens = line.lumens.map(({ ref, name }) => ({ ref, name: say(name) }));
  const found = lumens.find(
    ({ ref, name }) =>
      ref === given || ref === `Device/${given}` || name.toLowerCase() === given.toLowerCase(),
  );
  if (!found)
    throw new CliError(
      'usage',
      `--lumen ${given}: the line has none of that name. ${meant(
        given,
        lumens.map(({ name }) => name),
        'Lumens:',
      )}`,
    );
  return found.ref;
}

/** Runs what refuses impossible input with an error of its own, and says so as the command does, on the unit’s clock. */
export function refused<Answer>(work: () => Answer, { zone }: AsOf): Answer {
  try {
    return work();
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw refusalOf(cause) ?? cause;
    throw new CliError('usage', speaker(english, new Calendar(zone))(cause.sentence), { cause });
  }
}

/** An answer as plain JSON, its sentences in English. */
export function plainText(answer: object, { zone }: AsOf): string {
  return `${JSON.stringify(inWords(answer, speaker(english, new Calendar(zone))), undefined, 2)}\n`;
}
