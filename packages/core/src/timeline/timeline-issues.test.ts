import { describe, expect, it } from 'vitest';
import {
  berlin,
  care,
  days,
  event,
  every,
  finding,
  line,
  patient,
  policyOf,
  rule,
  said,
} from '../record.kit.js';

const when = berlin('2026-11-25T12:00:00+01:00');
const issuesOf = (...more: Parameters<typeof care>[0]) =>
  care([patient(), line('picc'), ...more], policyOf(), when).issues;

describe('an insertion that is completed at a time still to come', () => {
  it('is said: a slip of a date has no care asked for until then', () => {
    const issues = issuesOf(event('insertion', '2026-11-26T10:00:00+01:00', { id: 'slip' }));
    expect(issues).toMatchObject([
      {
        code: 'conflicting-values',
        severity: 'high',
        resource: 'Procedure/slip',
        path: 'Procedure.performed',
      },
    ]);
    expect(said(issues.map(({ sentence }) => sentence)).join(' ')).toMatch(
      /still to come: Thu 26 Nov 2026 10:00.*Is the time right\?/,
    );
  });

  it('is not, where it is planned or was an error', () => {
    const later = '2026-11-26T10:00:00+01:00';
    const codes = (...more: Parameters<typeof care>[0]) => issuesOf(...more).map(({ code }) => code);
    for (const status of ['preparation', 'not-done', 'entered-in-error'])
      expect(codes(event('insertion', later, { status }))).not.toContain('conflicting-values');
    // Known by its day alone it may have been at any time of it.
    expect(codes(event('insertion', '2026-11-25'))).not.toContain('conflicting-values');
  });
});

describe('what is charted for a time still to come on a line that is in', () => {
  const inserted = event('insertion', '2026-11-20T09:00:00+01:00');
  const toCome = (...more: Parameters<typeof care>[0]) =>
    issuesOf(inserted, ...more).filter(({ sentence }) => sentence.code === 'done-still-to-come');

  it('is said once for all of it, the earliest first, and counts for nothing until then', () => {
    const slips = [
      event('dressing-change', '2027-11-24T08:00:00+01:00', { id: 'year' }),
      event('flush', '2026-11-26T08:00:00+01:00', { id: 'day' }),
      finding('blood-return', 'none', '2026-11-26T08:05:00+01:00', { id: 'seen' }),
    ];
    const issues = toCome(...slips);
    expect(issues).toMatchObject([
      {
        code: 'conflicting-values',
        severity: 'high',
        resource: 'Procedure/day',
        path: 'Procedure.performed',
        related: ['Observation/seen', 'Procedure/year'],
      },
    ]);
    expect(said(issues.map(({ sentence }) => sentence)).join(' ')).toMatch(
      /^The flush is charted, and its time is still to come: Thu 26 Nov 2026 08:00.*; so it is of 2 more\. .*Is the date right\?$/,
    );
    const daily = policyOf(rule('dressing', every(days(1))));
    const dueBy = (...more: Parameters<typeof care>[0]) =>
      care([patient(), line('picc'), inserted, ...more], daily, when).items.map((item) => item.dueBy);
    expect(dueBy(...slips)).toEqual(dueBy());
  });

  it('is not where it may have been already, was not done, or a clock is a few minutes ahead', () => {
    expect(toCome(event('flush', '2026-11-25'))).toEqual([]);
    for (const status of ['preparation', 'not-done', 'entered-in-error'])
      expect(toCome(event('flush', '2026-11-26T08:00:00+01:00', { status }))).toEqual([]);
    expect(toCome(event('flush', '2026-11-25T12:10:00+01:00'))).toEqual([]);
    expect(toCome(event('flush', '2026-11-25T12:10:01+01:00'))).toHaveLength(1);
  });

  it('is said of a second insertion, and of a removal', () => {
    expect(toCome(event('insertion', '2026-11-26T10:00:00+01:00'))).toHaveLength(1);
    expect(toCome(event('removal', '2026-11-26T10:00:00+01:00'))).toHaveLength(1);
  });
});
