import type { LineCareActivity } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { event, line, lumen, on, patient, readLine, type Resource } from '../record.kit.js';
import { Calendar, instantMs } from './calendar.js';
import { targetsOf } from './targets.js';
import { eventsOn, timelineOf } from './timeline.js';

const infusion = (start: string | undefined, end?: string, through = 'red'): Resource => ({
  resourceType: 'MedicationAdministration',
  id: `infusion-${(start ?? 'never').replace(/\D/g, '')}-${through}`,
  status: end === undefined ? 'in-progress' : 'completed',
  subject: { reference: 'Patient/p' },
  device: [{ reference: `Device/${through}` }],
  effectivePeriod: { ...(start ? { start } : {}), ...(end ? { end } : {}) },
});
const done = (activity: LineCareActivity, at: string) => event(activity, at, on('red'));
const day = (date: number, time: string) => `2026-11-${date}T${time}:00+01:00`;

/** The set changes of the red lumen, as minutes of the day they count from. */
function setsOf(...resources: Resource[]): string[] {
  const record = readLine(
    patient(),
    line(),
    lumen('red'),
    lumen('white'),
    event('insertion', day(10, '10:00')),
    ...resources,
  );
  const timeline = timelineOf(record, new Calendar('Europe/Berlin'), instantMs(day(25, '12:00')));
  const target = targetsOf(record, 'lumen').find(({ ref }) => ref === 'Device/red')!;
  return eventsOn(timeline, 'administration-set-change', target).map(({ fact }) => fact.ref);
}

// CDC 2011: blood and fat within 24 hours of starting. That a new infusion has a new set is common practice, no source.
describe('what begins to run through an idle lumen has a new set', () => {
  it.each<[string, Resource[], string[]]>([
    [
      'an infusion',
      [infusion(day(20, '08:00'))],
      ['MedicationAdministration/infusion-202611200800000100-red'],
    ],
    [
      'a start charted as an event',
      [done('infusion-start', day(20, '08:00'))],
      ['Procedure/infusion-start-20261120T0800000100'],
    ],
    [
      'the first bag of several',
      [infusion(day(20, '08:00'), day(20, '20:00')), infusion(day(20, '20:00'), day(21, '08:00'))],
      ['MedicationAdministration/infusion-202611200800000100-red'],
    ],
    [
      'another more than 24 hours after the first',
      [infusion(day(20, '08:00'), day(20, '09:00')), infusion(day(21, '09:01'))],
      [
        'MedicationAdministration/infusion-202611200800000100-red',
        'MedicationAdministration/infusion-202611210901000100-red',
      ],
    ],
    [
      'not a dose within 24 hours of the last: its set may have been kept',
      [infusion(day(20, '08:00'), day(20, '09:00')), infusion(day(21, '09:00'))],
      ['MedicationAdministration/infusion-202611200800000100-red'],
    ],
    [
      'not where a set change is on record shortly before, or within ten minutes after',
      [done('administration-set-change', day(20, '07:50')), infusion(day(20, '08:00'))],
      ['Procedure/administration-set-change-20261120T0750000100'],
    ],
    [
      'not where it was charted just after',
      [infusion(day(20, '08:00')), done('administration-set-change', day(20, '08:10'))],
      ['Procedure/administration-set-change-20261120T0810000100'],
    ],
    [
      'not where something connected before was never stopped',
      [done('infusion-start', day(12, '08:00')), infusion(day(20, '08:00'))],
      ['Procedure/infusion-start-20261112T0800000100'],
    ],
    ['not of one whose start is not known', [infusion(undefined)], []],
    ['not of the other lumen', [infusion(day(20, '08:00'), undefined, 'white')], []],
  ])('%s', (_, resources, expected) => {
    expect(setsOf(...resources)).toEqual(expected);
  });

  it('and one whose start is not known leaves open whether the next has', () => {
    const unknown = { ...infusion(undefined, day(20, '07:00')), id: 'unknown' };
    expect(setsOf(unknown, infusion(day(20, '08:00')))).toEqual([]);
  });
});
