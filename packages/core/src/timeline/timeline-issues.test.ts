import { describe, expect, it } from 'vitest';
import { berlin, care, event, line, patient, policyOf, said } from '../record.kit.js';

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

  it('is not, where it is planned, was an error, or the line is in', () => {
    const later = '2026-11-26T10:00:00+01:00';
    const codes = (...more: Parameters<typeof care>[0]) => issuesOf(...more).map(({ code }) => code);
    for (const status of ['preparation', 'not-done', 'entered-in-error'])
      expect(codes(event('insertion', later, { status }))).not.toContain('conflicting-values');
    const first = event('insertion', '2026-11-20T09:00:00+01:00');
    expect(codes(first, event('insertion', later))).not.toContain('conflicting-values');
    // Known by its day alone it may have been at any time of it.
    expect(codes(event('insertion', '2026-11-25'))).not.toContain('conflicting-values');
  });
});
