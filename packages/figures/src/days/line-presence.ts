import { type Calendar, type LineRecord, type RecordedTime } from '@dwellward/core';
import type { LeftOut } from '../left-out.js';

/** When a line was in, and of which stratum it is. */
export interface Presence {
  readonly ref: string;
  readonly patient: string;
  readonly type: string;
  readonly stratum: Stratum;
  readonly fromMs: number;
  /** Absent while it is in. */
  readonly untilMs?: number;
  readonly fromDay: string;
  readonly untilDay?: string;
}

/** Permanent lines are tunnelled or implanted, temporary ones neither. */
export type Stratum = 'permanent' | 'temporary';

const strata: ReadonlyMap<string, Stratum> = new Map([
  ['tunneled-cvc', 'permanent'],
  ['implanted-port', 'permanent'],
  ['tunneled-dialysis-catheter', 'permanent'],
]);

/** When a line was in the patient, or why it can’t be counted. What had to be assumed is said, too. */
export function presenceOf(
  line: LineRecord,
  calendar: Calendar,
): { readonly presence?: Presence; readonly said?: LeftOut } {
  const left = (reason: string) => ({ said: { ref: line.ref, counted: false, reason } });
  if (line.planned && line.events.every(({ activity }) => activity !== 'insertion')) return {};
  if (!line.valid) return left('its Device is entered in error or inactive');
  if (line.type === 'midline')
    return left('a midline does not end in a great vessel; whether this one does is for a person to say');
  const done = line.events.filter(({ status, ofPatient }) => status === 'completed' && !ofPatient);
  const timesOf = (activity?: string) =>
    done
      .filter((event) => activity === undefined || event.activity === activity)
      .flatMap(({ from, at }): RecordedTime[] => (from ? [from] : at ? [at] : []))
      .sort((a, b) => calendar.earliest(a) - calendar.earliest(b));
  const [inserted] = timesOf('insertion');
  const [sign] = timesOf();
  const from = inserted ?? sign;
  if (from === undefined) return left('nothing says when it was in');
  const fromMs = calendar.earliest(from);
  const removals = done.filter(({ activity }) => activity === 'removal');
  if (removals.some(({ at }) => at === undefined)) return left('it was removed at a time that is not known');
  const ends = [
    ...removals.flatMap(({ at }) => at ?? []),
    ...(line.patient.deceased?.at ? [line.patient.deceased.at] : []),
  ].filter((at) => calendar.earliest(at) >= fromMs);
  const [until] = ends.sort((a, b) => calendar.earliest(a) - calendar.earliest(b));
  const assumed = [
    ...(inserted ? [] : ['no insertion is on record: it is counted from the first care of it']),
    ...(line.type ? [] : ['its type is not known: it is counted as a temporary central line']),
  ];
  const untilMs = until && calendar.earliest(until);
  return {
    presence: {
      ref: line.ref,
      patient: line.patient.ref,
      type: line.type ?? 'unknown',
      stratum: strata.get(line.type ?? '') ?? (line.cuffed ? 'permanent' : 'temporary'),
      fromMs,
      fromDay: calendar.text(fromMs).slice(0, 10),
      ...(untilMs === undefined ? {} : { untilMs, untilDay: calendar.text(untilMs).slice(0, 10) }),
    },
    ...(assumed.length === 0 ? {} : { said: { ref: line.ref, counted: true, reason: assumed.join('; ') } }),
  };
}
