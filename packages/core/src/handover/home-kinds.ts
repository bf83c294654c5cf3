import { activityRow, type LineCareActivity, type LineType } from '@dwellward/profiles';
import { known } from '../facts/facts.js';
import type { LineRecord } from '../model/record.js';
import type { Calendar } from '../timeline/calendar.js';
import { targetsOf } from '../timeline/targets.js';
import { timelineOf } from '../timeline/timeline.js';

/**
 * What a line is to the person who lives with it: a tube that they were taught to look after, one that only staff touch,
 * one that only the dialysis unit opens, or a port, which is under the skin and only staff reach.
 */
export type HomeKind = 'tube' | 'staff-tube' | 'dialysis' | 'port' | 'port-with-needle';

/** Families are taught the care of these (home sheets of two hospitals, KU Med, Maine Med: tunneled lines and PICCs). */
const kinds: Readonly<Record<LineType, HomeKind>> = {
  'tunneled-cvc': 'tube',
  picc: 'tube',
  midline: 'tube',
  'nontunneled-cvc': 'staff-tube',
  'tunneled-dialysis-catheter': 'dialysis',
  'nontunneled-dialysis-catheter': 'dialysis',
  'implanted-port': 'port',
};

/** The kind of a line at a moment; one of a type that is not known is touched by staff only. */
export function homeKindOf(line: LineRecord, calendar: Calendar, nowMs: number): HomeKind {
  const kind = line.type === undefined ? 'staff-tube' : kinds[line.type];
  const [target] = targetsOf(line, 'line');
  if (kind !== 'port' || target === undefined) return kind;
  const timeline = timelineOf(line, calendar, nowMs);
  const needle = known('line.accessed', { timeline, target, ms: nowMs, staleAfter: { value: 7, unit: 'd' } });
  return needle.value === true ? 'port-with-needle' : 'port';
}

/** Who does it at home: the person or the family, or staff; `ask` where it has no plain words. */
export function doneBy(activity: LineCareActivity, kind: HomeKind): 'patient' | 'unit' | 'ask' {
  const { atHome } = activityRow(activity);
  if (atHome === undefined || atHome === 'team') return 'ask';
  if (atHome === 'anybody') return 'patient';
  return atHome === 'patient' && kind === 'tube' ? 'patient' : 'unit';
}
