import { skewRefusedMs, skewText } from './fit.js';
import type { Status } from './status.js';

/** More than this share of failing patients, and the unit as a whole is not served. common practice, no source. */
const failingShare = 0.1;

/** Why the adapter is not ready, in a word that names nobody. */
export type HealthCode =
  | 'no-round-yet'
  | 'round-too-old'
  | 'round-failed'
  | 'server-asks-to-wait'
  | 'many-failing'
  | 'writes-refused'
  | 'closings-held'
  | 'reading-incomplete'
  | 'list-incomplete'
  | 'clocks-apart';

/** Whether the adapter does its work, and why not. */
export interface Health {
  readonly ready: boolean;
  /** Each once; empty where it is ready. For everybody who asks, whom the sentences are not for. */
  readonly codes: readonly HealthCode[];
  /** One sentence each; empty where it is ready. */
  readonly because: readonly string[];
  /** What does not keep it from its work and should be looked at. */
  readonly warnings: readonly string[];
}

/**
 * Judges by the status whether care is kept in step. Pure.
 * @param oldestMs age from which on the last completed round is too old, milliseconds.
 */
export function healthOf(status: Status, oldestMs: number): Health {
  const reasons = [...ofRounds(status, oldestMs), ...ofPatients(status), ...ofReading(status)];
  return {
    ready: reasons.length === 0,
    codes: [...new Set(reasons.map(([code]) => code))],
    because: reasons.map(([, sentence]) => sentence),
    warnings: warningsOf(status),
  };
}

/**
 * Why what is shown of the unit may be old or missing, one sentence each; empty where it is in step with the record.
 * @param mayRead whose references may be named.
 */
export function doubtsOf(
  status: Status,
  oldestMs: number,
  mayRead: (patient: string) => boolean = () => true,
): string[] {
  const { because, warnings } = healthOf(status, oldestMs);
  const failing = status.failing.map(({ patient }) => patient).filter(mayRead);
  return [
    ...because,
    ...(failing.length > 0
      ? [`What is shown of ${failing.join(', ')} may be old or missing: the record can’t be read.`]
      : []),
    ...warnings,
  ];
}

type Reason = readonly [HealthCode, string];

function* ofRounds(status: Status, oldestMs: number): Generator<Reason> {
  const { nowMs, completedMs, lastRound, closedForMs } = status;
  if (completedMs === undefined) yield ['no-round-yet', 'No round has been completed yet.'];
  else if (nowMs - completedMs > oldestMs) {
    const age = Math.round((nowMs - completedMs) / 1000);
    const sentence = `The last completed round is ${age} s old; ${oldestMs / 1000} s are allowed.`;
    yield ['round-too-old', sentence];
  }
  if (lastRound?.ok === false) yield ['round-failed', `The last round failed: ${lastRound.code}.`];
  if (closedForMs > 0) {
    const seconds = Math.ceil(closedForMs / 1000);
    yield ['server-asks-to-wait', `The FHIR server asks to be left alone for another ${seconds} s.`];
  }
}

function* ofPatients({ failing, patients, lastRound }: Status): Generator<Reason> {
  if (failing.length > failingShare * patients)
    yield ['many-failing', `${failing.length} of ${patients} patients could not be brought in step.`];
  const { done, refused } = lastRound?.writes ?? { done: 0, refused: 0 };
  if (refused > 0 && done === 0)
    yield ['writes-refused', `The FHIR server refused every write of the last round (${refused}).`];
}

function* ofReading({ held, gaps, clockSkewMs }: Status): Generator<Reason> {
  const open = held.filter(({ because }) => because !== 'incomplete-reading');
  const closings = open.reduce((sum, one) => sum + one.closings, 0);
  if (open.length > 0) {
    const next = open.some(({ needsWord }) => needsWord)
      ? 'They wait until the data are back, or for a person’s word (DWELLWARD_MASS_CLOSING).'
      : 'A second look has to agree.';
    const of = `${closings} closings of ${open.length} patients`;
    yield ['closings-held', `${of} are held back: ${open[0]?.detail} ${next}`];
  }
  const incomplete = held.filter(({ because }) => because === 'incomplete-reading');
  if (incomplete.length > 0) {
    const of = `The reading of ${incomplete.length} patients`;
    yield ['reading-incomplete', `${of} may not be the whole: ${incomplete[0]?.detail}`];
  }
  for (const gap of gaps)
    yield ['list-incomplete', `The list of patients with lines may not be the whole: ${gap}`];
  if (Math.abs(clockSkewMs) > skewRefusedMs) yield ['clocks-apart', skewText(clockSkewMs) ?? ''];
}

function warningsOf({ patients, completedMs, failing, fit, clockSkewMs, writesOneByOne }: Status): string[] {
  const skew = Math.abs(clockSkewMs) > skewRefusedMs ? undefined : skewText(clockSkewMs);
  return [
    ...(completedMs !== undefined && patients === 0
      ? ['Nobody with a line was found: is it the right server, and may its Devices be read?']
      : []),
    ...(failing.length > 0 ? [`${failing.length} of ${patients} patients are not in step.`] : []),
    ...(writesOneByOne ? ['The FHIR server takes no transactions: every write is a call of its own.'] : []),
    ...(fit?.warnings ?? []),
    ...(skew === undefined ? [] : [skew]),
  ];
}
