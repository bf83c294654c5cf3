import {
  attributedTo,
  eligibleDays,
  FiguresError,
  proposeInfections,
  repeatTimeframe,
  type Admission,
  type BloodCulture,
  type OrganismKind,
} from '@dwellward/figures';
import { describe, expect, it } from 'vitest';
import { datesOf, infectionRows } from './infection-rows.js';

describe('dates that the manual prints', () => {
  it('has all its rows', () => {
    expect(infectionRows).toHaveLength(15);
  });
  it.each(infectionRows)('$figure: $source, $where', (row) => {
    expect(datesOf(row)).toEqual(row.expect);
  });
});

const june = (day: number) => `2026-06-${String(day).padStart(2, '0')}`;
const culture = (
  day: number,
  organism: string,
  kind: OrganismKind,
  more: Partial<BloodCulture> = {},
): BloodCulture => ({
  ...{ ref: `Observation/${organism}-${day}`, collected: june(day), organism, kind },
  ...more,
});
const stay = (cultures: BloodCulture[], more: Partial<Admission> = {}): Admission => ({
  ...{ patient: 'Patient/p', admitted: june(1), until: june(30), cultures, signs: [], stays: [] },
  lines: [{ inserted: june(1), accessed: june(1) }],
  ...more,
});

describe('proposed infections', () => {
  it('manual, ch. 2: fever on 6/1 with a commensal on 6/4 and 6/5 has its date of event on 6/1', () => {
    const [one, ...more] = proposeInfections(
      stay(
        [culture(4, 'S. epidermidis', 'common-commensal'), culture(5, 'S. epidermidis', 'common-commensal')],
        {
          signs: [{ ref: 'Observation/f', on: june(1), sign: 'fever' }],
        },
      ),
    ).infections;
    expect(more).toEqual([]);
    expect(one).toMatchObject({
      ...{ criterion: 'LCBI-2', window: { from: june(1), to: june(7) }, dateOfEvent: june(1) },
      ...{ onset: 'present-on-admission', lineAssociated: false, standing: 'proposed' },
    });
    expect(one?.because).toHaveLength(6);
  });

  it('manual, ch. 2: S. aureus on day 6, Pseudomonas on day 12 is added and changes no date', () => {
    const { infections } = proposeInfections(
      stay([culture(6, 'S. aureus', 'pathogen'), culture(12, 'P. aeruginosa', 'pathogen')]),
    );
    expect(infections).toHaveLength(1);
    expect(infections[0]).toMatchObject({
      dateOfEvent: june(6),
      organisms: ['S. aureus', 'P. aeruginosa'],
      lineAssociated: true,
    });
  });

  it('manual, ch. 2: E. coli present on admission makes K. pneumoniae of 6/10 no new infection', () => {
    const given = [culture(1, 'E. coli', 'pathogen'), culture(10, 'K. pneumoniae', 'pathogen')];
    expect(proposeInfections(stay(given)).infections).toMatchObject([{ onset: 'present-on-admission' }]);
  });

  it('manual, ch. 2: where the first was secondary to a joint, 6/10 is assessed anew', () => {
    const given = [
      culture(1, 'S. aureus', 'pathogen', { secondaryTo: 'a joint infection' }),
      culture(10, 'K. pneumoniae', 'pathogen'),
    ];
    const { infections, others } = proposeInfections(stay(given));
    expect(infections).toMatchObject([{ dateOfEvent: june(10), lineAssociated: true }]);
    expect(others).toMatchObject([{ because: expect.stringContaining('joint') as string }]);
  });

  it('manual, ch. 2: an event in the two days before admission counts for its first day', () => {
    const given = [culture(9, 'S. aureus', 'pathogen')];
    const [one] = proposeInfections(stay(given, { admitted: june(11) })).infections;
    expect(one).toMatchObject({
      dateOfEvent: june(11),
      onset: 'present-on-admission',
      timeframe: { from: june(11) },
    });
  });

  it('a pathogen after the 14 days is a new infection', () => {
    const given = [
      culture(4, 'S. aureus', 'pathogen'),
      culture(17, 'S. aureus', 'pathogen'),
      culture(18, 'S. aureus', 'pathogen'),
    ];
    expect(proposeInfections(stay(given)).infections.map(({ dateOfEvent }) => dateOfEvent)).toEqual([
      june(4),
      june(18),
    ]);
  });

  it.each([
    ['one specimen only', [culture(8, 'C. acnes', 'common-commensal')], 'contaminant'],
    [
      'two days apart',
      [culture(8, 'C. acnes', 'common-commensal'), culture(10, 'C. acnes', 'common-commensal')],
      'contaminant',
    ],
    [
      'one occasion',
      ['x', 'y'].map((ref) => culture(8, 'C. acnes', 'common-commensal', { ref, occasion: 'morning' })),
      'one occasion',
    ],
    [
      'no sign',
      [culture(8, 'C. acnes', 'common-commensal'), culture(9, 'C. acnes', 'common-commensal')],
      'no fever',
    ],
    ['an excluded organism', [culture(8, 'Histoplasma', 'excluded')], 'excludes'],
    ['an organism on no list', [culture(8, 'S. nova', 'not-listed')], 'none of the lists'],
  ])('%s is no infection, and says why', (_, given, why) => {
    const { infections, others } = proposeInfections(stay(given));
    expect(infections).toEqual([]);
    expect(others[0]?.because).toContain(why);
    expect(others.map(({ ref }) => ref)).toEqual(given.map(({ ref }) => ref));
  });

  it('is not of a line that nobody accessed, nor where a person found another cause', () => {
    const given = [culture(8, 'S. aureus', 'pathogen')];
    const of = (more: Partial<Admission>) =>
      proposeInfections(stay(given, more)).infections[0]?.lineAssociated;
    expect(of({})).toBe(true);
    expect(of({ lines: [{ inserted: june(1) }] })).toBe(false);
    expect(of({ lines: [{ inserted: june(7), accessed: june(7) }] })).toBe(false);
    expect(of({ notLineBecause: 'a circuit outside the body for more than two days' })).toBe(false);
  });
});

describe('eligible days', () => {
  const until = june(30);
  it('go on over lines that follow each other, and begin anew after a full day without one', () => {
    const first = { inserted: june(1), accessed: june(1), removed: june(3) };
    const next = (day: number) => ({ inserted: june(day), accessed: june(day), removed: june(10) });
    expect(eligibleDays([first, next(4)], { until })).toEqual([{ from: june(3), to: june(11) }]);
    expect(eligibleDays([first, next(5)], { until })).toEqual([
      { from: june(3), to: june(4) },
      { from: june(7), to: june(11) },
    ]);
  });
  it('are none of a line that was out before its third day', () => {
    expect(eligibleDays([{ inserted: june(1), accessed: june(1), removed: june(2) }], { until })).toEqual([]);
  });
  it('end the day after discharge', () => {
    const line = { inserted: june(1), accessed: june(1) };
    expect(eligibleDays([line], { until, discharged: june(9) })).toEqual([{ from: june(3), to: june(10) }]);
  });
  it('refuse a removal before the insertion', () => {
    expect(() =>
      eligibleDays([{ inserted: june(2), accessed: june(2), removed: june(1) }], { until }),
    ).toThrow(FiguresError);
  });
});

describe('the transfer rule', () => {
  const move = (location: string, from: number, to: number) => ({ location, from: june(from), to: june(to) });
  it('goes back to the sending place on the day of transfer and the next', () => {
    const moved = [move('ICU', 1, 5), move('Ward', 5, 20)];
    expect([4, 5, 6, 7].map((day) => attributedTo(june(day), moved))).toEqual(['ICU', 'ICU', 'ICU', 'Ward']);
  });
  it('takes the first place of the day before where there were several moves', () => {
    const moved = [move('A', 1, 5), move('B', 5, 5), move('C', 5, 6), move('D', 6, 9)];
    expect(attributedTo(june(6), moved)).toBe('A');
  });
  it('holds for discharge, and says nothing of a time that is not covered', () => {
    expect(attributedTo(june(6), [move('Ward', 1, 5)])).toBe('Ward');
    expect(attributedTo(june(7), [move('Ward', 1, 5)])).toBeUndefined();
  });
});

it('a timeframe ends with the admission', () => {
  expect(repeatTimeframe(june(4), june(9))).toEqual({ from: june(4), to: june(9) });
});
