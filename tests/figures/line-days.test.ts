import { readRecords } from '@dwellward/core';
import { FiguresError, lineDays, unnamedUnit } from '@dwellward/figures';
import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';

const april = { from: '2026-03-31', to: '2026-04-06', zone: 'Europe/Berlin' };

function resources(patient: string) {
  const subject = { reference: `Patient/${patient}` };
  return {
    stay: (id: string, ...places: [unit: string, start: string, end?: string][]) => ({
      ...{ resourceType: 'Encounter', id, status: 'in-progress', subject },
      class: { system: 'http://terminology.hl7.org/CodeSystem/v3-ActCode', code: 'IMP' },
      period: { start: places[0]?.[1] },
      location: places.map(([unit, start, end]) => ({
        location: { display: unit },
        status: end === undefined ? 'active' : 'completed',
        period: { start, ...(end === undefined ? {} : { end }) },
      })),
    }),
    line: (id: string, type: string, inserted?: string, removed?: string) => [
      {
        ...{ resourceType: 'Device', id, status: 'active', patient: subject },
        type: { coding: [{ system: codeSystem.lineType, code: type }] },
      },
      ...Object.entries({ insertion: inserted, removal: removed }).flatMap(([activity, at]) =>
        at === undefined
          ? []
          : [
              {
                ...{ resourceType: 'Procedure', id: `${id}-${activity}`, status: 'completed', subject },
                code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
                performedDateTime: at,
                focalDevice: [{ manipulated: { reference: `Device/${id}` } }],
              },
            ],
      ),
    ],
  };
}

const counted = (...given: object[]) => lineDays(readRecords(given.map((resource) => ({ resource }))), april);
const sum = (days: ReturnType<typeof counted>, unit: string, of: 'lineDays' | 'patientDays') =>
  days.rows.filter((row) => row.unit === unit).reduce((all, row) => all + row[of], 0);

const { stay, line } = resources('a');

// CDC NHSN Patient Safety Component Manual, chapter 4, January 2026, Table 6: 31 March to 6 April.
describe('line days of the published table', () => {
  it.each([
    [
      'A, inserted on the unit on 31 March',
      7,
      [['ICU', '2026-03-31T09:00:00+02:00']],
      '2026-03-31T10:00:00+02:00',
    ],
    [
      'B, inserted in the emergency department on 31 March, on the unit from 1 April',
      6,
      [
        ['ED', '2026-03-31T09:00:00+02:00', '2026-04-01T03:00:00+02:00'],
        ['ICU', '2026-04-01T03:00:00+02:00'],
      ],
      '2026-03-31T10:00:00+02:00',
    ],
    ['D, placed on 1 April', 6, [['ICU', '2026-03-31T09:00:00+02:00']], '2026-04-01T23:30:00+02:00'],
  ] as const)('patient %s: %i', (_, days, places, inserted) => {
    const given = counted(
      stay('s', ...(places as unknown as [string, string, string?][])),
      ...line('l', 'nontunneled-cvc', inserted),
    );
    expect(sum(given, 'ICU', 'lineDays')).toBe(days);
  });
});

describe('line days', () => {
  const unit = stay('s', ['ICU', '2026-03-01']);

  it('counts several lines of a patient once, each type once, and both strata as temporary', () => {
    const days = counted(
      unit,
      ...line('l', 'nontunneled-cvc', '2026-04-01', '2026-04-03'),
      ...line('m', 'picc', '2026-04-02', '2026-04-03'),
      ...line('p', 'implanted-port', '2026-01-01'),
    );
    const [march, inApril] = days.rows;
    expect(march).toMatchObject({
      month: '2026-03',
      patientDays: 1,
      byStratum: { permanent: 1, temporary: 0 },
    });
    expect(inApril).toMatchObject({ lineDays: 6, patientDays: 6, utilisation: 1 });
    expect(inApril?.byStratum).toEqual({ permanent: 3, temporary: 3 });
    expect(inApril?.byType).toEqual({ 'implanted-port': 6, 'nontunneled-cvc': 3, picc: 2 });
  });

  it('gives a day of transfer to the unit where the patient was last on it, and counts it once', () => {
    const moved = stay(
      's',
      ['ICU', '2026-03-31T08:00:00+02:00', '2026-04-02T12:00:00+02:00'],
      ['Ward', '2026-04-02T12:00:00+02:00', '2026-04-04T08:00:00+02:00'],
    );
    const days = counted(moved, ...line('l', 'picc', '2026-03-31'));
    expect([sum(days, 'ICU', 'lineDays'), sum(days, 'Ward', 'lineDays')]).toEqual([2, 3]);
    expect([sum(days, 'ICU', 'patientDays'), sum(days, 'Ward', 'patientDays')]).toEqual([2, 3]);
  });

  it('counts days by the unit’s clock', () => {
    // 23:30 UTC on 31 March is 1 April in Berlin.
    const days = counted(unit, ...line('l', 'picc', '2026-03-31T23:30:00Z'));
    expect(sum(days, 'ICU', 'lineDays')).toBe(6);
  });

  it('counts patients without a line among patient days', () => {
    const days = counted(
      unit,
      resources('b').stay('t', ['ICU', '2026-04-01', '2026-04-02']),
      ...line('l', 'picc', '2026-04-06'),
    );
    expect(sum(days, 'ICU', 'patientDays')).toBe(7 + 2);
    expect(days.rows.find(({ month }) => month === '2026-04')?.utilisation).toBeCloseTo(1 / 8);
  });

  it('says what it leaves out and what it assumes, with the reason', () => {
    const days = counted(
      unit,
      ...line('mid', 'midline', '2026-04-01'),
      ...line('never', 'picc'),
      ...resources('c').line('homeless', 'picc', '2026-04-01'),
      resources('d').stay('lost', ['ICU', undefined as unknown as string]),
    );
    expect(Object.fromEntries(days.leftOut.map(({ ref, reason }) => [ref, reason]))).toEqual({
      'Device/mid': expect.stringContaining('midline') as string,
      'Device/never': 'nothing says when it was in',
      'Device/homeless': 'no Encounter says on which unit its patient was',
      'Encounter/lost': 'nothing says when it began',
    });
    expect(days.leftOut.every((one) => !one.counted)).toBe(true);
    expect(sum(days, 'ICU', 'lineDays')).toBe(0);
  });

  it('keeps the days of a stay that names no unit apart', () => {
    const nowhere = { ...stay('s', ['', '2026-04-01']), location: undefined };
    const days = counted(nowhere, ...line('l', 'picc', '2026-04-01'));
    expect(sum(days, unnamedUnit, 'lineDays')).toBe(6);
    expect(days.leftOut).toMatchObject([{ ref: 'Encounter/s', counted: true }]);
  });

  it('refuses a period that is none', () => {
    expect(() => lineDays(readRecords([]), { ...april, to: '2026-03-30' })).toThrow(FiguresError);
    expect(() => lineDays(readRecords([]), { ...april, from: '2026-02-30' })).toThrow('from is 2026-02-30');
  });
});
