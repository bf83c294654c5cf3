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
} from '../record.kit.js';
import { readTime, recordedTime } from './times.js';

const reasonOf = (text: string) => {
  const reading = readTime(text);
  return 'reason' in reading ? reading.reason : undefined;
};

describe('a time', () => {
  it('I9: with more than nine decimals is the same moment, to the nanosecond', () => {
    expect(recordedTime('2026-11-24T08:00:00.1234567891Z')).toEqual({
      text: '2026-11-24T08:00:00.123456789Z',
      precision: 'instant',
    });
    expect(recordedTime('2026-11-24T08:00:00.123Z')?.text).toBe('2026-11-24T08:00:00.123Z');
  });

  it.each(['+25:00', '-14:01', '+05:75', '+99:99'])(
    'I9: with an offset of %s is none: which moment is meant can’t be known',
    (offset) => {
      expect(recordedTime(`2026-11-24T08:00:00${offset}`)).toBeUndefined();
      expect(reasonOf(`2026-11-24T08:00:00${offset}`)).toEqual({ code: 'no-such-offset', offset });
    },
  );

  it.each(['+14:00', '-12:00', 'Z'])('with an offset of %s is one', (offset) => {
    expect(recordedTime(`2026-11-24T08:00:00${offset}`)).toBeDefined();
  });

  it.each(['0226-11-24T08:00:00Z', '0001-01-01', '1970-01-01T00:00:00Z', '1979', '2200-01-01', '9999-12-31'])(
    'I6: of the year that %s says is none: nobody charts a line then',
    (text) => {
      expect(recordedTime(text)).toBeUndefined();
      expect(reasonOf(text)).toMatchObject({ code: 'year-not-plausible' });
    },
  );
});

describe('a time that can’t be used', () => {
  const noon = berlin('2026-11-25T12:00:00+01:00');
  const policy = policyOf(rule('Dressing', every(days(7))));

  it.each([
    ['I9', '2026-11-24T08:00:00+25:00', 'no clock is +25:00 from UTC'],
    ['I6', '0226-11-24T08:00:00Z', 'the year 0226 can’t be meant'],
    ['I4', 'yesterday', 'it is no date or time of FHIR'],
  ])('%s: is named with its resource, and the rest of the unit is computed (%s)', (_, given, reason) => {
    const change = event('dressing-change', given, { id: 'c' });
    const { issues } = read(patient(), line(), change);
    expect(issues.filter(({ code }) => code === 'unreadable')).toMatchObject([
      {
        resource: 'Procedure/c',
        path: 'Procedure.performedDateTime',
        patient: 'Patient/p',
        severity: 'high',
      },
    ]);
    expect(said(issues.map(({ sentence }) => sentence))).toContain(
      `The time “${given}” can’t be used: ${reason}. It counts as not known.`,
    );
    expect(care([patient(), line(), change], policy, noon).items).toHaveLength(1);
  });

  it('of a patient born before anybody who lives makes the age unknown', () => {
    const { lines, issues } = read(patient({ birthDate: '1026-01-01' }), line());
    expect(lines[0]?.patient.birthDate).toBeUndefined();
    expect(issues).toMatchObject([{ code: 'unreadable', path: 'Patient.birthDate' }]);
    expect(read(patient({ birthDate: '1922-01-01' }), line()).issues).toEqual([]);
  });

  it('of a patient without a line is no concern of a list of lines', () => {
    const other = event('flush', 'yesterday', { subject: { reference: 'Patient/other' }, focalDevice: [] });
    expect(read(patient(), line(), other).issues.map(({ code }) => code)).not.toContain('unreadable');
  });
});
