import { eachOnOneLine } from '@dwellward/core/safe-text';
import {
  chartSvg,
  curveSvg,
  intervalMethods,
  measureBundle,
  type BurdenRow,
  type Dwell,
  type Figures,
  type Interval,
  type OnTimeRow,
  type UnitFigures,
} from '@dwellward/figures';
import { displayOf } from '@dwellward/profiles';
import { CliError } from './errors.js';
import { columns, csvRows } from './plain-rows.js';

/** Which chart: rates by month, days between infections, or how long lines stay in. */
export const chartKinds = ['rate', 'between', 'dwell'] as const;
export type ChartKind = (typeof chartKinds)[number];

export const figuresFormats = ['table', 'csv', 'json', 'fhir', 'svg'] as const;

/** The figures in a format; a chart is that of the one unit that is shown. */
export function figuresAs(
  format: (typeof figuresFormats)[number],
  shown: Figures,
  chart: ChartKind = 'rate',
): string {
  switch (format) {
    case 'table':
      return figuresTable(eachOnOneLine(shown));
    case 'csv':
      return figuresCsv(eachOnOneLine(shown));
    case 'json':
      return `${JSON.stringify(shown, null, 2)}\n`;
    case 'fhir':
      return `${JSON.stringify(measureBundle(shown), null, 2)}\n`;
    case 'svg':
      return chartOf(shown, chart);
  }
}

/** The chart of the one unit that is shown. */
function chartOf({ units, dwell }: Figures, kind: ChartKind): string {
  const [one] = units;
  const none = (why: string) => new CliError('usage', `--format svg: ${why}, so there is no chart.`);
  if (kind === 'dwell') {
    const whole = dwell.find(({ unit, reason }) => unit === one?.unit && reason === undefined);
    if (one === undefined || whole === undefined) throw none('no line was put in on the unit in the period');
    return curveSvg(whole.curve, `${one.unit}: lines in place, by days since the insertion`);
  }
  if (kind === 'between') {
    if (one?.between === undefined) throw none('the unit has fewer than two proposed infections');
    const title = `${one.unit}: days from one proposed infection of a central line to the next`;
    return chartSvg(one.between, { title, labels: one.betweenDates ?? [], unit: 'days' });
  }
  if (one?.chart === undefined) throw none('the unit has no line days in the period');
  const title = `${one.unit}: proposed infections of central lines by month`;
  return chartSvg(one.chart, { title, labels: one.chartMonths ?? [], unit: 'of 1,000 line days' });
}

const mostLeftOut = 20;

/** The figures for people. */
function figuresTable({ days, units, infections, leftOut, cautions, care, dwell }: Figures): string {
  const rows = units.map((one) => [
    one.unit,
    String(one.patientDays),
    String(one.lineDays),
    one.utilisation.toFixed(2),
    String(one.infections),
    one.rate ? one.rate.per1000.toFixed(2) : '-',
    one.rate ? between(one.rate.interval, 2) : 'no line days',
    ratioText(one),
  ]);
  const head = [
    'unit',
    'patient days',
    'line days',
    'utilisation',
    'infections',
    'of 1,000',
    '95 %',
    'ratio',
  ];
  const method = units.flatMap(({ rate }) => rate?.method ?? [])[0];
  return [
    `Figures from ${days.period.from} to ${days.period.to}`,
    '',
    ...columns([head, ...rows]),
    '',
    ...(method ? [`Intervals: ${intervalMethods[method]}.`, ''] : []),
    ...signalled(units),
    ...dwellTable(dwell),
    ...(care ? [...onTimeTable(care.onTime), ...burdenTable(care.burden)] : []),
    ...infections.flatMap((one) => [
      `Proposed, to be confirmed: ${one.patient}, ${one.dateOfEvent}, ${one.lineAssociated ? 'of a central line' : 'not of a central line'}`,
      ...one.because.map((why) => `  ${why}`),
      '',
    ]),
    `Left out, or counted on an assumption: ${leftOut.length}`,
    ...leftOut
      .slice(0, mostLeftOut)
      .map(({ ref, counted, reason }) => `  ${counted ? 'counted' : 'left out'}: ${ref}: ${reason}`),
    ...(leftOut.length > mostLeftOut
      ? [`  and ${leftOut.length - mostLeftOut} more: --format json has all`]
      : []),
    '',
    ...cautions,
    '',
  ].join('\n');
}

/** How long lines stayed in. */
function dwellTable(rows: readonly Dwell[]): string[] {
  if (rows.length === 0) return [];
  const cells = rows.map((one) => [
    ...[one.unit, one.reason ?? 'any', String(one.lines), String(one.removed)],
    one.medianDays === undefined ? 'not reached' : `${one.medianDays} d`,
  ]);
  const head = ['unit', 'taken out for', 'lines put in', 'taken out', 'half were out by day'];
  return ['Days in place', '', ...columns([head, ...cells]), ''];
}

/** Care on time, the worst first within a unit. */
function onTimeTable(rows: readonly OnTimeRow[]): string[] {
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
          '',
        ];
  return ['Care on time', '', ...columns([head, ...cells]), '', ...said];
}

/** What the policy asks, the most first within a unit. */
function burdenTable(rows: readonly BurdenRow[]): string[] {
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
  return ['What care asks', '', ...columns([head, ...cells]), ''];
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
  const lines = units.flatMap(({ unit, chart }) => [
    ...(chart?.cautions ?? []).map((caution) => `${unit}, chart by month: ${caution}`),
    ...(chart?.points ?? []).flatMap(({ value, lower, upper, signals }, at) =>
      signals.length === 0
        ? []
        : [
            `${unit}, month ${at + 1} of those with line days: ${value.toFixed(2)} of 1,000, limits ${lower.toFixed(2)} to ${upper.toFixed(2)}: ${signals.join(', ')}`,
          ],
    ),
  ]);
  return lines.length === 0 ? [] : [...lines, ''];
}

/** A row for each unit and month. */
function figuresCsv({ days, units, infections, leftOut }: Figures): string {
  const head = [
    'unit',
    'month',
    'patient_days',
    'line_days',
    'permanent',
    'temporary',
    'utilisation',
    'infections',
    'left_out',
  ];
  const shown = new Set(units.map(({ unit }) => unit));
  const rows = days.rows
    .filter(({ unit }) => shown.has(unit))
    .map((row) => [
      ...[row.unit, row.month, String(row.patientDays), String(row.lineDays)],
      ...[
        String(row.byStratum.permanent),
        String(row.byStratum.temporary),
        row.utilisation?.toFixed(3) ?? '',
      ],
      String(
        infections.filter(
          (one) => one.lineAssociated && one.location === row.unit && one.dateOfEvent.startsWith(row.month),
        ).length,
      ),
      String(leftOut.filter(({ counted }) => !counted).length),
    ]);
  return csvRows([head, ...rows]);
}
