import {
  FiguresError,
  gChart,
  intervalMethods,
  kaplanMeier,
  poissonInterval,
  standardisedRatio,
  uChart,
} from '@dwellward/figures';
import { describe, expect, it } from 'vitest';
import { asPrinted, statisticsRows, workedOut } from './statistics-rows.js';

describe('published figures, to the printed digit', () => {
  it('has all its rows', () => {
    expect(statisticsRows).toHaveLength(51);
  });

  it.each(statisticsRows)('$figure: $source, $where ($seen) $input', (row) => {
    const ours = workedOut(row);
    const printed = Object.entries(row.expect);
    expect(printed).not.toEqual([]);
    for (const [name, text] of printed) expect(asPrinted(ours[name], text), name).toBe(text);
  });
});

describe('a standardised infection ratio', () => {
  it('is not computed below one predicted, and is at one', () => {
    expect(standardisedRatio(3, 0.999)).toMatchObject({ computed: false, observed: 3, predicted: 0.999 });
    expect(standardisedRatio(3, 1)).toMatchObject({ computed: true, ratio: 3 });
  });

  it('has no lower bound where nothing was observed', () => {
    const none = standardisedRatio(0, 2);
    expect(none.computed && none.interval).not.toHaveProperty('lower');
  });
});

describe('the method of an interval', () => {
  it('is the newer where none is named', () => {
    expect(poissonInterval(10)).toEqual(poissonInterval(10, 'mid-p-or-byar'));
    expect(poissonInterval(10)).not.toEqual(poissonInterval(10, 'exact-or-byar'));
    expect(Object.keys(intervalMethods)).toEqual(['mid-p-or-byar', 'exact-or-byar']);
  });

  it('changes between 14 and 15 events in 2011, and between 100 and 101 since 2014', () => {
    // One event more moves a bound by about one; the change of method moves it by much less than that.
    for (const [method, last] of [
      ['exact-or-byar', 14],
      ['mid-p-or-byar', 100],
    ] as const) {
      const step = poissonInterval(last + 1, method).upper - poissonInterval(last, method).upper;
      expect(step).toBeGreaterThan(1);
      expect(step).toBeLessThan(1.9);
    }
  });
});

describe('signals', () => {
  it('points out a point beyond its limit, and the eighth of a run', () => {
    const quiet = Array.from({ length: 24 }, () => ({ events: 1, days: 500 }));
    const { points, cautions } = uChart([...quiet, { events: 9, days: 500 }]);
    expect(points.at(-1)?.signals).toEqual(['above-limit']);
    expect(points[6]?.signals).toEqual([]);
    expect(points[7]?.signals).toEqual(['run']);
    expect(cautions).toEqual([]);
  });

  it('says that limits of few subgroups are provisional', () => {
    expect(uChart([{ events: 1, days: 500 }]).cautions).toHaveLength(1);
    expect(gChart([3, 400, 2, 1, 2, 1, 0, 2, 3, 1, 1]).points[1]?.signals).toEqual(['above-limit']);
  });
});

describe('what no figure can be made from', () => {
  it('is refused, naming what is wanted', () => {
    expect(() => poissonInterval(1.5)).toThrow('events is 1.5: a whole number from 0 to 1000000 is wanted.');
    expect(() => standardisedRatio(1, 0)).toThrow(FiguresError);
    expect(() => uChart([])).toThrow('groups is empty');
    expect(() => gChart([])).toThrow('gaps is empty');
    expect(() => kaplanMeier([{ time: -1, event: true }])).toThrow('time is -1');
  });

  it('events at the same time come before censoring, and a curve may end at nothing', () => {
    expect(
      kaplanMeier([
        { time: 2, event: false },
        { time: 2, event: true },
      ])[0],
    ).toMatchObject({ atRisk: 2, share: 0.5 });
    expect(kaplanMeier([{ time: 2, event: true }])).toEqual([{ time: 2, atRisk: 1, events: 1, share: 0 }]);
  });
});
