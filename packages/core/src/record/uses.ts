import { activityOfRole } from '@dwellward/profiles';
import { grouped } from '../model/gather.js';
import type { OnDevice } from './events.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { CareEvent, RecordedTime, Ref } from '../model/record.js';
import type { Sentence } from '../model/sentences.js';
import type { IssueSentences } from '../model/sentences/issues.js';
import type { Shape } from './shapes.js';
import { recordedTime } from './times.js';

/** The uses of a Device that count: not those entered in error, nor those that were only meant to be. */
export function usesOf(device: Ref, index: ResourceIndex): readonly Indexed<'DeviceUseStatement'>[] {
  let byDevice = uses.get(index);
  if (byDevice === undefined) {
    const counting = index.all('DeviceUseStatement').filter(({ value }) => !noUse.has(value.status ?? ''));
    byDevice = grouped(counting, ({ ref, value }) => index.nameOf(value.device, ref));
    uses.set(index, byDevice);
  }
  return byDevice.get(device) ?? [];
}

// Every line asks for its own.
const uses = new WeakMap<ResourceIndex, ReadonlyMap<Ref, readonly Indexed<'DeviceUseStatement'>[]>>();

// HL7 FHIR R4, device-statement-status; `not-done` is R5’s.
const noUse = new Set(['entered-in-error', 'intended', 'not-done']);

/** From when to when a Device was in use. */
export function periodOf({
  timingPeriod,
  timingTiming,
}: Shape<'DeviceUseStatement'>): Shape<'DeviceUseStatement'>['timingPeriod'] {
  return timingPeriod ?? timingTiming?.repeat?.boundsPeriod;
}

/**
 * Insertions and removals that only the use of a Device tells of. A line is out where its use is completed and has an
 * end: care that stops too early does more harm than care of a line that is out, so anything less leaves it in place.
 */
export function readUsePeriods(
  index: ResourceIndex,
  issues: IssueList,
  isLine: (device: Ref) => boolean,
): OnDevice<CareEvent>[] {
  return index.all('DeviceUseStatement').flatMap(({ ref, value }) => {
    const device = index.nameOf(value.device, ref);
    if (!device || noUse.has(value.status ?? '')) return [];
    const subject = index.nameOf(value.subject, ref);
    const period = periodOf(value);
    const [start, end] = [recordedTime(period?.start), recordedTime(period?.end)];
    const completed = value.status === 'completed';
    const tell = (sentence: Sentence<keyof IssueSentences>, severity: 'high' | 'low') => {
      if (!isLine(device)) return;
      const of = subject === undefined ? {} : { patient: subject };
      issues.add('imprecise-time', ref, 'DeviceUseStatement.timing', sentence, { severity, ...of });
    };
    if (end && !completed)
      tell({ code: 'use-ended-not-completed', status: value.status ?? 'unknown' }, 'high');
    if (completed && !end) tell({ code: 'use-completed-without-end' }, 'high');
    if (value.timingDateTime !== undefined && !start) tell({ code: 'use-time-is-no-start' }, 'low');
    const event = (
      role: 'begins-line' | 'ends-line',
      at: RecordedTime | undefined,
    ): OnDevice<CareEvent>[] => {
      if (!at) return [];
      const activity = activityOfRole(role);
      const fact = { ref, activity, status: 'completed', at, site: 'exit-site' } as const;
      return [{ device, fact, ...(subject ? { subject } : {}) }];
    };
    return [...event('begins-line', start), ...event('ends-line', completed ? end : undefined)];
  });
}
