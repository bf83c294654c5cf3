import { readRecords } from '@dwellward/core';
import { curveSvg, dwellTimes, kaplanMeier, unitFigures, unsaidReason } from '@dwellward/figures';
import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';

const june = (day: number, hour = 12) => `2026-06-${String(day).padStart(2, '0')}T${hour}:00:00+02:00`;
const period = { from: '2026-06-01', to: '2026-06-30', zone: 'Europe/Berlin' };
const line = (id: string, inserted: number | undefined, removed?: number, reason?: string): object[] => {
  const subject = { reference: `Patient/${id}` };
  const act = (code: string, day: number, more: object = {}) => ({
    ...{ resourceType: 'Procedure', id: `${id}-${code}`, status: 'completed', subject },
    ...{ performedDateTime: june(day), focalDevice: [{ manipulated: { reference: `Device/${id}` } }] },
    code: { coding: [{ system: codeSystem.lineCareActivity, code }] },
    ...more,
  });
  return [
    { resourceType: 'Patient', id },
    {
      ...{ resourceType: 'Device', id, status: 'active', patient: subject },
      type: { coding: [{ system: codeSystem.lineType, code: 'picc' }] },
    },
    {
      ...{ resourceType: 'Encounter', id, status: 'in-progress', subject },
      ...{ period: { start: '2026-05-01' }, location: [{ location: { display: 'Ward' } }] },
    },
    ...(inserted === undefined
      ? [act('flush', 5)]
      : [act('insertion', inserted), act('flush', inserted + 1)]),
    ...(removed === undefined
      ? []
      : [act('removal', removed, reason ? { reasonCode: [{ text: reason }] } : {})]),
  ];
};
const dwellOf = (...lines: object[][]) =>
  dwellTimes(readRecords(lines.flat().map((resource) => ({ resource }))), period);

// Worked out by hand.
describe('days in place', () => {
  it('are estimated over the lines that were put in, those that are in watched to the end', () => {
    const { dwell } = dwellOf(line('a', 1, 4), line('b', 2, 7), line('c', 3, 8), line('d', 20));
    expect(dwell).toMatchObject([{ unit: 'Ward', lines: 4, removed: 3, medianDays: 5 }]);
    expect(dwell[0]?.curve.map(({ time, atRisk, share }) => [time, atRisk, share])).toEqual([
      [3, 4, 0.75],
      [5, 3, 0.25],
    ]);
    expect(dwell[0]).not.toHaveProperty('reason');
  });

  it('are told by the reason of the removal, the others watched until they came out', () => {
    const { dwell } = dwellOf(
      line('a', 1, 4, 'Infection'),
      line('b', 1, 6, 'End of therapy'),
      line('c', 1, 8),
    );
    expect(dwell.map(({ reason, removed }) => [reason, removed])).toEqual([
      [undefined, 3],
      [unsaidReason, 1],
      ['End of therapy', 1],
      ['Infection', 1],
    ]);
    const ended = dwell.find(({ reason }) => reason === 'End of therapy');
    expect(ended?.curve.map(({ time, atRisk, share }) => [time, atRisk, share])).toEqual([[5, 2, 0.5]]);
  });

  it('leave out what was in before, and say of what nothing tells since when', () => {
    const { dwell, leftOut } = dwellOf(line('a', undefined), line('b', 1, 3));
    expect(dwell[0]?.lines).toBe(1);
    expect(leftOut).toMatchObject([{ ref: 'Device/a', counted: false }]);
    expect(dwellTimes(readRecords([]), { ...period, from: '2026-06-02' }).dwell).toEqual([]);
  });

  it('are drawn as steps, with every step in words', () => {
    const svg = curveSvg(
      kaplanMeier([
        { time: 3, event: true },
        { time: 5, event: false },
      ]),
      'A <b>',
    );
    expect(svg).toContain('Day 3: 50 % in (0 % to 100 %), of 2 watched.');
    expect(svg).toContain('A &lt;b&gt;');
    expect(curveSvg([], 'A')).toContain('No line was taken out.');
  });
});

it('days from one infection to the next are charted where there are two', () => {
  const culture = (id: string, day: number) => ({
    ...{
      resourceType: 'Observation',
      id: `${id}-culture`,
      status: 'final',
      subject: { reference: `Patient/${id}` },
    },
    ...{ effectiveDateTime: june(day), code: { coding: [{ system: 'http://loinc.org', code: '600-7' }] } },
    valueCodeableConcept: { coding: [{ system: 'urn:o', code: 'patho' }] },
  });
  const organisms = {
    pathogens: [
      { resourceType: 'ValueSet', compose: { include: [{ system: 'urn:o', concept: [{ code: 'patho' }] }] } },
    ],
  };
  const figures = (...ids: [string, number][]) => {
    const entries = ids
      .flatMap(([id, day]) => [...line(id, 1), culture(id, day)])
      .map((resource) => ({ resource }));
    return unitFigures(readRecords(entries), entries, { ...period, organisms }).units[0];
  };
  const access = figures(['a', 8], ['b', 12], ['c', 20]);
  expect(access?.infections).toBe(3);
  expect(access?.between?.points.map(({ value }) => value)).toEqual([4, 8]);
  expect(access?.betweenDates).toEqual(['2026-06-12', '2026-06-20']);
  expect(figures(['a', 8])).not.toHaveProperty('between');
});
