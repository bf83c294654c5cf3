import { describe, expect, it } from 'vitest';
import {
  berlin,
  care,
  event,
  every,
  days,
  line,
  patient,
  policyOf,
  read,
  rule,
  said,
  type Resource,
} from '../record.kit.js';

const policy = policyOf(rule('Dressing', every(days(7))));
const noon = berlin('2026-11-25T12:00:00+01:00');
const inserted = (more: object) => event('insertion', undefined, { id: 'in', ...more });
const change = event('dressing-change', '2026-11-10T08:00:00+01:00');

describe('an insertion that is completed and has no time that can be read', () => {
  it.each<[string, object]>([
    ['none at all', {}],
    ['a text', { performedString: 'early in November' }],
    ['a day that there is not', { performedDateTime: '2026-02-30' }],
    ['an offset that there is not', { performedDateTime: '2026-11-01T08:00:00+25:00' }],
    ['a slip of the year', { performedDateTime: '0226-11-01T08:00:00Z' }],
  ])('I1: puts the line in place, with %s: no line loses its care for a time', (_, time) => {
    const { inPlace, items, issues } = care([patient(), line(), inserted(time), change], policy, noon);
    expect({ inPlace, due: items.map(({ dueBy }) => dueBy) }).toEqual({
      inPlace: true,
      due: ['2026-11-17T08:00:00+01:00'],
    });
    expect(said(issues.map(({ sentence }) => sentence))).toEqual([
      'The line was put in, and when can’t be read: its earliest event is counted from.',
    ]);
  });

  it('I1: counts from nothing where nothing else is known, and says so: its care is due now', () => {
    const { inPlace, items, issues } = care([patient(), line(), inserted({})], policy, noon);
    expect({ inPlace, due: items.map(({ dueBy }) => dueBy) }).toEqual({ inPlace: true, due: [noon.asOf] });
    expect(issues).toMatchObject([{ code: 'no-insertion', related: ['Procedure/in'] }]);
  });

  it('I1: leaves the time to the use of the Device, where that tells it', () => {
    const use: Resource = {
      resourceType: 'DeviceUseStatement',
      id: 'use',
      status: 'active',
      subject: { reference: 'Patient/p' },
      device: { reference: 'Device/line' },
      timingPeriod: { start: '2026-11-20T09:00:00+01:00' },
    };
    const { items } = care([patient(), line(), inserted({}), use], policy, noon);
    expect(items.map(({ dueBy }) => dueBy)).toEqual(['2026-11-27T09:00:00+01:00']);
  });

  it('I1: is in also where a request of an insertion is still open', () => {
    const request: Resource = {
      resourceType: 'ServiceRequest',
      id: 'plan',
      status: 'active',
      intent: 'order',
      code: { coding: [{ code: 'insertion' }] },
      subject: { reference: 'Patient/p' },
      supportingInfo: [{ reference: 'Device/line' }],
    };
    expect(care([patient(), line(), inserted({}), request], policy, noon).inPlace).toBe(true);
  });

  it('I1: says at its Procedure what became of it', () => {
    const { issues } = read(patient(), line(), inserted({}));
    expect(said(issues.map(({ sentence }) => sentence))).toEqual([
      'The insertion is completed and has no time that can be read: the line counts as in place.',
    ]);
  });
});
