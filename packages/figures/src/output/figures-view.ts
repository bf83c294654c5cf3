import { displayOf } from '@dwellward/profiles';
import type { BurdenRow, OnTimeRow } from '../care/on-time.js';
import type { Dwell } from '../days/dwell.js';
import { intervalMethods, type Interval } from '../statistics/poisson.js';
import type { Figures, UnitFigures } from '../unit-figures.js';
import { chartSvg, chartText, type ChartTexts } from './chart-svg.js';
import { curveSvg, curveText } from './curve-svg.js';
import type { ControlChart } from '../statistics/control-charts.js';

/** A table of figures, in words. */
export interface FiguresTable {
  readonly heading: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** What has to be known of it. */
  readonly notes: readonly string[];
}

/** A chart, and all that it shows in words. */
export interface FiguresChart {
  readonly kind: 'rate' | 'between' | 'dwell';
  readonly unit: string;
  readonly title: string;
  readonly description: string;
  readonly svg: string;
}

/** The figures for people: whoever shows them words nothing. */
export interface FiguresView {
  readonly title: string;
  readonly tables: readonly FiguresTable[];
  readonly charts: readonly FiguresChart[];
  readonly proposals: readonly { readonly text: string; readonly because: readonly string[] }[];
  readonly leftOutText: string;
  readonly leftOut: readonly string[];
  readonly cautions: readonly string[];
}

/**
 * Figures in words: tables, charts, the infections that a person has to confirm, and what was left out.
 *
 * - Ranges: any figures. Cautions: those of the figures stand in it.
 *
 * @example
 * ```ts
 * const none = { lines: [], issues: [], notUnderstood: [], otherBusiness: [], unitStays: [] };
 * const figures = unitFigures(none, [], { from: '2026-04-01', to: '2026-04-30', zone: 'Europe/Berlin' });
 * figuresView(figures).title; // 'Figures from 2026-04-01 to 2026-04-30'
 * ```
 */
export function figuresView(figures: Figures): FiguresView {
  const { days, units, infections, leftOut, cautions, care, dwell } = figures;
  return {
    title: `Figures from ${days.period.from} to ${days.period.to}`,
    tables: [
      unitsTable(units),
      ...againstTable(figures),
      ...dwellTable(dwell),
      ...(care ? [onTimeTable(care.onTime), burdenTable(care.burden)] : []),
    ],
    charts: units.flatMap((unit) => chartsOf(unit, dwell)),
    proposals: infections.map((one) => ({
      text: `Proposed, to be confirmed: ${one.patient}, ${one.dateOfEvent}, ${one.lineAssociated ? 'of a central line' : 'not of a central line'}`,
      because: one.because,
    })),
    leftOutText: `Left out, or counted on an assumption: ${leftOut.length}`,
    leftOut: leftOut.map(
      ({ ref, counted, reason }) => `${counted ? 'counted' : 'left out'}: ${ref}: ${reason}`,
    ),
    cautions,
  };
}

/**
 * The same without what names a patient: which infections were proposed for whom, and what was left out.
 * @example
 * ```ts
 * const none = { lines: [], issues: [], notUnderstood: [], otherBusiness: [], unitStays: [] };
 * const figures = unitFigures(none, [], { from: '2026-04-01', to: '2026-04-30', zone: 'Europe/Berlin' });
 * withoutPatients(figuresView(figures)).proposals; // []
 * ```
 */
export function withoutPatients(view: FiguresView): FiguresView {
  return {
    ...view,
    proposals: [],
    leftOut: [],
    cautions: [...view.cautions, 'Which patients they are of is told by the command alone.'],
  };
}

/** Those that the figures of a unit are enough for. */
function chartsOf(
  { unit, chart, chartMonths, between: gaps, betweenDates }: UnitFigures,
  dwell: readonly Dwell[],
): FiguresChart[] {
  const whole = dwell.find((one) => one.unit === unit && one.reason === undefined);
  const control = (kind: 'rate' | 'between', of: ControlChart, texts: ChartTexts): FiguresChart => ({
    kind,
    unit,
    title: texts.title,
    description: chartText(of, texts),
    svg: chartSvg(of, texts),
  });
  const title = `${unit}: lines in place, by days since the insertion`;
  return [
    ...(chart
      ? [
          control('rate', chart, {
            title: `${unit}: proposed infections of central lines by month`,
            labels: chartMonths ?? [],
            unit: 'of 1,000 line days',
          }),
        ]
      : []),
    ...(gaps
      ? [
          control('between', gaps, {
            title: `${unit}: days from one proposed infection of a central line to the next`,
            labels: betweenDates ?? [],
            unit: 'days',
          }),
        ]
      : []),
    ...(whole
      ? [
          {
            kind: 'dwell' as const,
            unit,
            title,
            description: curveText(whole.curve),
            svg: curveSvg(whole.curve, title),
          },
        ]
      : []),
  ];
}

function againstTable({ units, against, days: { period } }: Figures): FiguresTable[] {
  if (against === undefined) return [];
  const compared = units.flatMap(({ unit, rate, utilisation, against: then }) =>
    rate && then ? [{ unit, rate, utilisation, then }] : [],
  );
  const none = units.filter((one) => one.against === undefined);
  const share = (value: number | undefined) => value?.toFixed(2) ?? '-';
  return [
    {
      heading: `Compared with ${against.from} to ${against.to}`,
      head: ['unit', 'of 1,000 then', 'of 1,000 now', 'p', 'utilisation then', 'utilisation now', 'p of it'],
      rows: compared.map(({ unit, rate, utilisation, then }) => [
        unit,
        then.rate.per1000.toFixed(2),
        rate.per1000.toFixed(2),
        then.ratePValue.toFixed(4),
        share(then.utilisation),
        share(utilisation),
        then.utilisationPValue?.toFixed(4) ?? '-',
      ]),
      notes: [
        'A p-value says nothing of how large a difference is, or of its cause; days of one patient are not independent of each other, so that the true p of the utilisation is larger.',
        ...none.map(({ unit }) => `${unit}: no line days in one of the two periods, so nothing is compared.`),
        ...(against.to >= period.from ? ['The two periods overlap: they are not independent.'] : []),
      ],
    },
  ];
}

function unitsTable(units: readonly UnitFigures[]): FiguresTable {
  const method = units.flatMap(({ rate }) => rate?.method ?? [])[0];
  return {
    heading: 'Days and infections',
    head: ['unit', 'patient days', 'line days', 'utilisation', 'infections', 'of 1,000', '95 %', 'ratio'],
    rows: units.map((one) => [
      one.unit,
      String(one.patientDays),
      String(one.lineDays),
      one.utilisation?.toFixed(2) ?? 'no patient days',
      String(one.infections),
      one.rate ? one.rate.per1000.toFixed(2) : '-',
      one.rate ? between(one.rate.interval, 2) : 'no line days',
      ratioText(one),
    ]),
    notes: [...(method ? [`Intervals: ${intervalMethods[method]}.`] : []), ...signalled(units)],
  };
}

/** How long lines stayed in. */
function dwellTable(rows: readonly Dwell[]): FiguresTable[] {
  if (rows.length === 0) return [];
  const cells = rows.map((one) => [
    ...[one.unit, one.reason ?? 'any', String(one.lines), String(one.removed)],
    one.medianDays === undefined ? 'not reached' : `${one.medianDays} d`,
  ]);
  const head = ['unit', 'taken out for', 'lines put in', 'taken out', 'half were out by day'];
  return [{ heading: 'Days in place', head, rows: cells, notes: [] }];
}

/** Care on time, the worst first within a unit. */
function onTimeTable(rows: readonly OnTimeRow[]): FiguresTable {
  const percent = (share: number | undefined) =>
    share === undefined ? '-' : `${(share * 100).toFixed(0)} %`;
  const cells = [...rows]
    .sort((a, b) => (a.unit < b.unit ? -1 : a.unit > b.unit ? 1 : (a.share ?? 2) - (b.share ?? 2)))
    .map((one) => [
      ...[
        one.unit,
        displayOf('lineCareActivity', one.activity),
        one.shift,
        String(one.windows),
        percent(one.share),
      ],
      ...[String(one.late), String(one.missed), String(one.held)],
      one.daysOverdue ? `${one.daysOverdue.median.toFixed(1)} (${one.daysOverdue.most.toFixed(1)})` : '-',
      [...one.reasons.map(({ reason, count }) => `${count} × ${reason}`)].join('; '),
    ]);
  const head = [
    ...['unit', 'activity', 'shift', 'due', 'on time', 'late', 'not done', 'held'],
    ...['days overdue: middle (most)', 'reasons'],
  ];
  const never = [...new Set(rows.map(({ activity }) => activity))].filter((activity) =>
    rows.every((row) => row.activity !== activity || row.onTime + row.late === 0),
  );
  const said =
    never.length === 0
      ? []
      : [
          `Never charted as done: ${never.map((one) => displayOf('lineCareActivity', one)).join(', ')}. It may be charted elsewhere, or in a code that is not read: \`dwellward codes\` lists those.`,
        ];
  return { heading: 'Care on time', head, rows: cells, notes: said };
}

/** What the policy asks, the most first within a unit. */
function burdenTable(rows: readonly BurdenRow[]): FiguresTable {
  const cells = [...rows]
    .sort((a, b) => (a.unit < b.unit ? -1 : a.unit > b.unit ? 1 : b.windows - a.windows))
    .map((one) => [
      ...[
        one.unit,
        displayOf('lineCareActivity', one.activity),
        one.layer,
        String(one.windows),
        one.per1000?.toFixed(1) ?? '-',
      ],
      String(one.alarms),
      Object.entries(one.supplies)
        .map(([name, count]) => `${count} × ${name}`)
        .join('; '),
    ]);
  const head = ['unit', 'activity', 'layer', 'due', 'of 1,000 line days', 'alarms', 'supplies taken'];
  return { heading: 'What care asks', head, rows: cells, notes: [] };
}

function ratioText({ ratio }: UnitFigures): string {
  if (ratio === undefined) return '-';
  if (!ratio.computed) return `not computed: ${ratio.predicted} predicted, fewer than 1`;
  return `${ratio.ratio.toFixed(3)} (${between(ratio.interval, 3)}), p ${ratio.pValue.toFixed(4)}`;
}

function between({ lower, upper }: Interval, digits: number): string {
  return lower === undefined
    ? `up to ${upper.toFixed(digits)}`
    : `${lower.toFixed(digits)} to ${upper.toFixed(digits)}`;
}

function signalled(units: readonly UnitFigures[]): string[] {
  return units.flatMap(({ unit, chart }) => [
    ...(chart?.cautions ?? []).map((caution) => `${unit}, chart by month: ${caution}`),
    ...(chart?.points ?? []).flatMap(({ value, lower, upper, signals }, at) =>
      signals.length === 0
        ? []
        : [
            `${unit}, month ${at + 1} of those with line days: ${value.toFixed(2)} of 1,000, limits ${lower.toFixed(2)} to ${upper.toFixed(2)}: ${signals.join(', ')}`,
          ],
    ),
  ]);
}
