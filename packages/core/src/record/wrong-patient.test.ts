import { expect, it } from 'vitest';
import { event, line, patient, read } from '../record.kit.js';

it('an event charted for another patient than the line’s counts for nobody, and is reported', () => {
  const other = { subject: { reference: 'Patient/other' } };
  const { lines, issues } = read(patient(), line(), event('flush', '2026-11-24T08:00:00+01:00', other));
  expect(lines[0]?.events).toEqual([]);
  expect(issues).toMatchObject([
    {
      code: 'conflicting-values',
      severity: 'high',
      path: 'Procedure.subject',
      patient: 'Patient/other',
      line: 'Device/line',
    },
  ]);
});
