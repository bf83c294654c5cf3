import { expect, it } from 'vitest';
import { event, line, patient, read, type Resource } from '../record.kit.js';

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

it('an insertion planned for another patient than the Device’s is no plan of that line, stays a line to come, and is reported', () => {
  const planned: Resource = {
    resourceType: 'Procedure',
    id: 'planned',
    status: 'preparation',
    code: event('insertion', undefined)['code'],
    subject: { reference: 'Patient/other' },
    focalDevice: [{ manipulated: { reference: 'Device/line' } }],
    performedDateTime: '2026-11-26T08:00:00+01:00',
  };
  const { lines, issues } = read(patient(), line(), planned);
  expect(lines.map(({ ref, patient: { ref: whose }, planned: plan }) => [ref, whose, plan?.refs])).toEqual([
    ['Device/line', 'Patient/p', undefined],
    ['Procedure/planned', 'Patient/other', ['Procedure/planned']],
  ]);
  expect(issues.map(({ sentence: { code } }) => code)).toContain('planned-with-anothers-device');
});
