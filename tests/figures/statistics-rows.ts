// The published rows of fixtures/published, worked out again to the printed digit.
import { readFileSync } from 'node:fs';
import {
  compareShares,
  gChart,
  kaplanMeier,
  ratePer1000,
  standardisedRatio,
  uChart,
  type IntervalMethod,
  type Share,
} from '@dwellward/figures';

interface Published<Figure extends string, Input> {
  readonly figure: Figure;
  readonly input: Input;
  readonly expect: Readonly<Record<string, string>>;
  readonly source: string;
  readonly where: string;
  readonly seen: 'seen' | 'computed' | 'from memory';
}

export type StatisticsRow =
  | Published<'standardised-ratio', { observed: number; predicted: number; method: IntervalMethod }>
  | Published<
      'indirect-standardisation',
      { observed: number; days: number; baselineEvents: number; baselineDays: number }
    >
  | Published<'rate', { events: number; days: number }>
  | Published<'share', Share>
  | Published<'compare-shares', { one: Share; other: Share }>
  | Published<'g-chart', { gaps: number[] }>
  | Published<'u-chart', { events: number; days: number; of: number }>
  | Published<'kaplan-meier', { watched: [number, 0 | 1][]; at: number }>;

const file = new URL('../../fixtures/published/figures-statistics.json', import.meta.url);

export const statisticsRows = (JSON.parse(readFileSync(file, 'utf8')) as { rows: StatisticsRow[] }).rows;

/** Every number of the row as we work it out, undefined where there is none. */
export function workedOut(row: StatisticsRow): Readonly<Record<string, number | undefined>> {
  switch (row.figure) {
    case 'standardised-ratio':
      return ratio(row.input.observed, row.input.predicted, row.input.method);
    case 'indirect-standardisation': {
      const { observed, days, baselineEvents, baselineDays } = row.input;
      const predicted = (baselineEvents / baselineDays) * days;
      return { predicted, ...ratio(observed, predicted) };
    }
    case 'rate':
      return { per1000: ratePer1000(row.input).per1000 };
    case 'share':
      return { ratio: row.input.part / row.input.whole };
    case 'compare-shares':
      return { pValue: compareShares(row.input.one, row.input.other) };
    case 'g-chart': {
      const { centre, points } = gChart(row.input.gaps);
      return { centre, lower: points[0]?.lower, upper: points[0]?.upper };
    }
    case 'u-chart': {
      const { events, days, of } = row.input;
      const { points } = uChart([
        { events: 0, days: of },
        { events, days: days - of },
      ]);
      return { lower: points[0]?.lower, upper: points[0]?.upper };
    }
    case 'kaplan-meier': {
      const watched = row.input.watched.map(([time, event]) => ({ time, event: event === 1 }));
      const step = kaplanMeier(watched).find(({ time }) => time === row.input.at);
      return { share: step?.share, standardError: step?.standardError };
    }
  }
}

function ratio(observed: number, predicted: number, method?: IntervalMethod) {
  const answer = standardisedRatio(observed, predicted, method);
  if (!answer.computed) return {};
  return { ratio: answer.ratio, ...answer.interval, pValue: answer.pValue };
}

/** A number with as many digits as the printed one. */
export function asPrinted(value: number | undefined, printed: string): string | undefined {
  if (printed.includes('e')) return value?.toExponential(printed.split('e')[0]?.split('.')[1]?.length ?? 0);
  return value?.toFixed(printed.split('.')[1]?.length ?? 0);
}
