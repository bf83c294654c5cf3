import type { ChartPoint, ControlChart } from '../statistics/control-charts.js';
import { escaped } from './escape.js';

/** What stands on a chart. */
export interface ChartTexts {
  readonly title: string;
  /** One for each point, such as its month. */
  readonly labels: readonly string[];
  readonly unit: string;
}

const width = 720;
const height = 320;
const [left, right, top, bottom] = [56, 20, 44, 64];

/**
 * A control chart as SVG: points with their limits. Nothing is told by colour alone: a point with a signal is a filled square,
 * others are open circles, limits are dashed, the centre is a thin line. All values stand in the description for who hears it.
 *
 * - Ranges: any chart; a label for each point.
 * - Cautions: those of the chart stand below it.
 *
 * @example
 * ```ts
 * const chart = uChart([{ events: 1, days: 500 }]);
 * chartSvg(chart, { title: 'Unit A', labels: ['2026-04'], unit: 'of 1,000 line days' }).startsWith('<svg'); // true
 * ```
 */
export function chartSvg(chart: ControlChart, texts: ChartTexts): string {
  const { centre, points, cautions } = chart;
  const most = Math.max(1, ...points.flatMap(({ value, upper }) => [value, upper])) * 1.05;
  const x = (at: number) => left + ((at + 0.5) * (width - left - right)) / Math.max(1, points.length);
  const y = (value: number) => height - bottom - (value / most) * (height - top - bottom);
  const line = (values: readonly number[], dash: string, thick = 1) =>
    `<polyline fill="none" stroke="#222" stroke-width="${thick}"${dash} points="${values.map((value, at) => `${n(x(at))},${n(y(value))}`).join(' ')}"/>`;
  const dashed = ' stroke-dasharray="6 4"';
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="chart-title chart-desc" font-family="sans-serif" font-size="12" fill="#222">`,
    `<title id="chart-title">${escaped(texts.title)}</title>`,
    `<desc id="chart-desc">${escaped(chartText(chart, texts))}</desc>`,
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    `<text x="${left}" y="20" font-size="15">${escaped(texts.title)}</text>`,
    `<text x="${left}" y="36">${escaped(texts.unit)}; open circle: within limits; filled square: a signal; dashed: limits</text>`,
    `<line x1="${left}" y1="${n(y(0))}" x2="${width - right}" y2="${n(y(0))}" stroke="#222"/>`,
    ...[0, centre, most / 1.05].map(
      (value) => `<text x="${left - 6}" y="${n(y(value) + 4)}" text-anchor="end">${value.toFixed(1)}</text>`,
    ),
    line(
      points.map(({ upper }) => upper),
      dashed,
    ),
    line(
      points.map(({ lower }) => lower),
      dashed,
    ),
    line(
      points.map(() => centre),
      '',
    ),
    line(
      points.map(({ value }) => value),
      '',
      2,
    ),
    ...points.map(({ value, signals }, at) => mark(x(at), y(value), signals.length > 0)),
    ...points.map(
      (_, at) =>
        `<text x="${n(x(at))}" y="${height - bottom + 18}" text-anchor="middle" font-size="10">${escaped(texts.labels[at] ?? '')}</text>`,
    ),
    ...cautions.map(
      (caution, at) => `<text x="${left}" y="${height - 26 + at * 14}">${escaped(caution)}</text>`,
    ),
    '</svg>',
    '',
  ].join('\n');
}

/** All values of a control chart in words, for who hears it. */
export function chartText({ centre, points, cautions }: ControlChart, texts: ChartTexts): string {
  const said = points.map((point, at) => pointText(point, texts.labels[at] ?? String(at + 1)));
  return [`Centre ${centre.toFixed(2)} ${texts.unit}.`, ...said, ...cautions].join(' ');
}

function mark(x: number, y: number, signal: boolean): string {
  return signal
    ? `<rect x="${n(x - 5)}" y="${n(y - 5)}" width="10" height="10" fill="#222"/>`
    : `<circle cx="${n(x)}" cy="${n(y)}" r="4" fill="#fff" stroke="#222" stroke-width="2"/>`;
}

function pointText({ value, lower, upper, signals }: ChartPoint, label: string): string {
  const signal = signals.length === 0 ? '' : `, signal: ${signals.join(' and ')}`;
  return `${label}: ${value.toFixed(2)}, limits ${lower.toFixed(2)} to ${upper.toFixed(2)}${signal}.`;
}

const n = (value: number) => String(Math.round(value * 10) / 10);
