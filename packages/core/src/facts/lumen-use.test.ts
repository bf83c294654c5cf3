import type { LineCareActivity } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { event, line, lumen, patient, readLine, type Resource } from '../record.kit.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { lumenUse } from './lumen-use.js';
import { targetsOf } from '../timeline/targets.js';
import { timelineOf } from '../timeline/timeline.js';

const at = (time: string) => `2026-11-25T${time}:00+01:00`;
const done = (activity: LineCareActivity, time: string) => event(activity, at(time));
const infusion = (start: string, end?: string, more: object = {}): Resource => ({
  resourceType: 'MedicationAdministration',
  id: `infusion-${start.replace(':', '')}`,
  status: end === undefined ? 'in-progress' : 'completed',
  subject: { reference: 'Patient/p' },
  device: [{ reference: 'Device/line' }],
  effectivePeriod: { start: at(start), ...(end ? { end: at(end) } : {}) },
  ...more,
});

function useOf(...resources: Resource[]) {
  const record = readLine(patient(), line(), event('insertion', '2026-11-01T10:00:00+01:00'), ...resources);
  const asOfMs = instantMs(at('12:00'));
  const timeline = timelineOf(record, new Calendar('Europe/Berlin'), asOfMs);
  const [target] = targetsOf(record, 'lumen');
  const { value, sinceMs } = lumenUse({
    timeline,
    target: target!,
    ms: asOfMs,
    staleAfter: { value: 7, unit: 'd' },
  });
  return [
    value ?? 'unknown',
    sinceMs === undefined ? undefined : timeline.calendar.text(sinceMs).slice(11, 16),
  ];
}

// Common practice, no source: a lumen through which nothing on record runs any more has no set in use.
it.each<[string, Resource[], [string, string | undefined]]>([
  ['nothing on record', [], ['unknown', undefined]],
  ['a lock', [done('lock', '08:00')], ['locked', '08:00']],
  ['an infusion that runs', [infusion('08:00')], ['infusing', '08:00']],
  ['an infusion that ended', [infusion('08:00', '10:00')], ['open', '10:00']],
  ['it ended and was flushed', [infusion('08:00', '10:00'), done('flush', '10:05')], ['open', '10:00']],
  [
    'it ended, was flushed and locked',
    [infusion('08:00', '10:00'), done('flush', '10:05'), done('lock', '10:06')],
    ['locked', '10:06'],
  ],
  ['a stop', [done('infusion-start', '08:00'), done('infusion-stop', '10:00')], ['open', '10:00']],
  ['a draw from a locked lumen', [done('lock', '08:00'), done('blood-sampling', '10:00')], ['open', '10:00']],
  [
    'a draw and a flush of a locked lumen',
    [done('lock', '08:00'), done('blood-sampling', '10:00'), done('flush', '10:05')],
    ['open', '10:00'],
  ],
  [
    'another infusion connected since',
    [infusion('08:00', '10:00'), done('infusion-start', '11:00')],
    ['infusing', '11:00'],
  ],
  [
    'a flush while something is connected: whether it runs on is not known',
    [done('infusion-start', '08:00'), done('flush', '10:00')],
    ['unknown', '10:00'],
  ],
  ['a flush, and nothing before it', [done('flush', '10:00')], ['unknown', '10:00']],
  [
    'an infusion without an end',
    [done('lock', '07:00'), infusion('08:00', undefined, { status: 'stopped' })],
    ['unknown', undefined],
  ],
])('after %s', (_, resources, expected) => {
  expect(useOf(...resources)).toEqual(expected);
});

// Common practice, no source: where infusions are charted, a lumen with none has none running.
describe('of several lumens', () => {
  const through = (id: string, more: object = {}) =>
    infusion('08:00', undefined, { device: [{ reference: `Device/${id}` }], ...more });
  const redOf = (...resources: Resource[]) => {
    const record = readLine(patient(), line(), lumen('red'), lumen('white'), ...resources);
    const asOfMs = instantMs(at('12:00'));
    const timeline = timelineOf(record, new Calendar('Europe/Berlin'), asOfMs);
    const target = targetsOf(record, 'lumen').find(({ ref }) => ref === 'Device/red')!;
    return lumenUse({ timeline, target, ms: asOfMs, staleAfter: { value: 7, unit: 'd' } }).value;
  };

  it('one through which nothing was charted is open where the other infuses', () => {
    expect(redOf(through('white'))).toBe('open');
    expect(redOf()).toBeUndefined();
    expect(redOf(through('red'))).toBe('infusing');
  });

  it('is not known where an infusion does not say of which lumen it is', () => {
    expect(redOf(through('white'), { ...through('line'), id: 'of-the-line' })).toBeUndefined();
  });
});

it('nothing runs through a port whose needle is out', () => {
  const port = (...resources: Resource[]) => {
    const record = readLine(patient(), line('implanted-port'), ...resources);
    const asOfMs = instantMs(at('12:00'));
    const timeline = timelineOf(record, new Calendar('Europe/Berlin'), asOfMs);
    const [target] = targetsOf(record, 'lumen');
    return lumenUse({ timeline, target: target!, ms: asOfMs, staleAfter: { value: 7, unit: 'd' } }).value;
  };
  expect(port(done('access-needle-change', '08:00'))).toBeUndefined();
  expect(port(done('access-needle-removal', '10:00'))).toBe('open');
  expect(port(done('lock', '09:00'), done('access-needle-removal', '10:00'))).toBe('locked');
  expect(port(done('access-needle-removal', '08:00'), done('access-needle-change', '10:00'))).toBeUndefined();
});
