import { eachOnOneLine } from '@dwellward/core/safe-text';
import { figuresView, measureBundle, type Figures } from '@dwellward/figures';
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

/** Why a unit has no chart of a kind. */
const noChart: Readonly<Record<ChartKind, string>> = {
  rate: 'the unit has no line days in the period',
  between: 'the unit has fewer than two proposed infections',
  dwell: 'no line was put in on the unit in the period',
};

/** The chart of the one unit that is shown. */
function chartOf(shown: Figures, kind: ChartKind): string {
  const chart = figuresView(shown).charts.find((one) => one.kind === kind);
  if (chart === undefined)
    throw new CliError('usage', `--format svg: ${noChart[kind]}, so there is no chart.`);
  return chart.svg;
}

const mostLeftOut = 20;

/** The figures in a terminal. */
function figuresTable(shown: Figures): string {
  const { title, tables, proposals, leftOutText, leftOut, cautions } = figuresView(shown);
  return [
    title,
    '',
    ...tables.flatMap(({ heading, head, rows, notes }) => [
      heading,
      '',
      ...columns([head, ...rows]),
      '',
      ...(notes.length > 0 ? [...notes, ''] : []),
    ]),
    ...proposals.flatMap(({ text, because }) => [text, ...because.map((why) => `  ${why}`), '']),
    leftOutText,
    ...leftOut.slice(0, mostLeftOut).map((text) => `  ${text}`),
    ...(leftOut.length > mostLeftOut
      ? [`  and ${leftOut.length - mostLeftOut} more: --format json has all`]
      : []),
    '',
    ...cautions,
    '',
  ].join('\n');
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
