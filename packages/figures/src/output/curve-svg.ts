import type { SurvivalStep } from '../statistics/kaplan-meier.js';
import { escaped } from './escape.js';

const width = 720;
const height = 320;
const [left, right, top, bottom] = [56, 20, 52, 44];

/**
 * A curve of the share of lines that is still in, by days since the insertion, as SVG: a step line with its interval dashed,
 * every step in the description for who hears it.
 *
 * - Ranges: any curve; one without a step says that no line was taken out.
 * - Cautions: those of `kaplanMeier`.
 *
 * @example
 * ```ts
 * curveSvg(kaplanMeier([{ time: 3, event: true }]), 'Unit A').startsWith('<svg'); // true
 * ```
 */
export function curveSvg(curve: readonly SurvivalStep[], title: string): string {
  const most = Math.max(1, ...curve.map(({ time }) => time)) * 1.05;
  const x = (days: number) => left + (days * (width - left - right)) / most;
  const y = (share: number) => height - bottom - share * (height - top - bottom);
  const steps = (of: (step: SurvivalStep) => number, style: string) => {
    let before = 1;
    const points = [`${n(x(0))},${n(y(1))}`];
    for (const step of curve) {
      points.push(`${n(x(step.time))},${n(y(before))}`);
      before = of(step);
      points.push(`${n(x(step.time))},${n(y(before))}`);
    }
    points.push(`${n(x(most))},${n(y(before))}`);
    return `<polyline fill="none" stroke="#222" ${style} points="${points.join(' ')}"/>`;
  };
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="curve-title curve-desc" font-family="sans-serif" font-size="12" fill="#222">`,
    `<title id="curve-title">${escaped(title)}</title>`,
    `<desc id="curve-desc">${escaped(curveText(curve))}</desc>`,
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    `<text x="${left}" y="20" font-size="15">${escaped(title)}</text>`,
    `<text x="${left}" y="38">share of lines that is in, by days since the insertion; dashed: 95 %</text>`,
    `<line x1="${left}" y1="${n(y(0))}" x2="${width - right}" y2="${n(y(0))}" stroke="#222"/>`,
    ...[0, 0.5, 1].map(
      (share) => `<text x="${left - 6}" y="${n(y(share) + 4)}" text-anchor="end">${percent(share)}</text>`,
    ),
    ...[0, most / 2.1, most / 1.05].map(
      (days) =>
        `<text x="${n(x(days))}" y="${height - bottom + 18}" text-anchor="middle">${Math.round(days)} d</text>`,
    ),
    steps(({ share }) => share, 'stroke-width="2"'),
    steps(({ share, interval }) => interval?.lower ?? share, 'stroke-dasharray="6 4"'),
    steps(({ share, interval }) => interval?.upper ?? share, 'stroke-dasharray="6 4"'),
    '</svg>',
    '',
  ].join('\n');
}

/** Every step of a curve in words, for who hears it. */
export function curveText(curve: readonly SurvivalStep[]): string {
  const said =
    curve.length === 0
      ? ['No line was taken out.']
      : curve.map(
          ({ time, share, atRisk, interval }) =>
            `Day ${time}: ${percent(share)} in${interval ? ` (${percent(interval.lower)} to ${percent(interval.upper)})` : ''}, of ${atRisk} watched.`,
        );
  return said.join(' ');
}

const percent = (share: number) => `${Math.round(share * 100)} %`;
const n = (value: number) => String(Math.round(value * 10) / 10);
