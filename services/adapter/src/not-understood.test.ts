import { readRecords } from '@dwellward/core';
import { pino } from 'pino';
import { expect, it } from 'vitest';
import { tellNotUnderstood } from './not-understood.js';

const computed = (...codes: string[]) => {
  const record = [
    { resourceType: 'Patient', id: 'p' },
    {
      resourceType: 'Device',
      id: 'line',
      type: { coding: [{ code: 'picc' }] },
      patient: { reference: 'Patient/p' },
    },
    ...codes.map((code, i) => ({
      resourceType: 'Procedure',
      id: `c${i}`,
      status: 'completed',
      code: { coding: [{ system: 'http://ward.example/acts', code }] },
      subject: { reference: 'Patient/p' },
    })),
  ];
  return { records: readRecords(record.map((resource) => ({ resource }))), cares: [], chartedOnly: [] };
};

it('I2: the log tells once what was not understood of a patient, and again when it changes', () => {
  const rows: { patient?: string; notUnderstood?: string[] }[] = [];
  const log = pino({}, { write: (row: string) => void rows.push(JSON.parse(row) as (typeof rows)[number]) });
  const tell = tellNotUnderstood(log);
  tell('Patient/p', computed());
  tell('Patient/p', computed('LF-1'));
  tell('Patient/p', computed('LF-1'));
  tell('Patient/p', computed('LF-1', 'LF-2'));
  expect(rows.map(({ patient, notUnderstood }) => [patient, notUnderstood])).toEqual([
    ['Patient/p', ['1 × Procedure.code http://ward.example/acts|LF-1, Procedure/c0']],
    [
      'Patient/p',
      [
        '1 × Procedure.code http://ward.example/acts|LF-1, Procedure/c0',
        '1 × Procedure.code http://ward.example/acts|LF-2, Procedure/c1',
      ],
    ],
  ]);
});
