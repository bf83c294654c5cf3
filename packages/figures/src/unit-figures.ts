import { Calendar, type Records, type ResourceEntry } from '@dwellward/core';
import { daysIn, within } from './days/calendar-days.js';
import { dwellTimes, type Dwell } from './days/dwell.js';
import { lineDays, type LineDays, type PeriodOptions } from './days/line-days.js';
import { admissionsOf } from './infections/admissions.js';
import { proposeInfections, type ProposedInfection } from './infections/propose.js';
import { readCultures, type OrganismLists } from './infections/read-cultures.js';
import type { LeftOut } from './left-out.js';
import { gChart, uChart, type ControlChart } from './statistics/control-charts.js';
import { burdenRows, onTimeRows, type BurdenRow, type OnTimeRow } from './care/on-time.js';
import { careWindows, type CarePolicy } from './care/windows.js';
import type { IntervalMethod } from './statistics/poisson.js';
import { compareRates, compareShares, ratePer1000, type Rate } from './statistics/rates.js';
import { standardisedRatio, type StandardisedRatio } from './statistics/ratio.js';

/** What the figures are made by. */
export interface FiguresOptions extends PeriodOptions {
  readonly organisms?: OrganismLists;
  /** Infections that the user’s own baseline predicts, by unit, for the whole period. */
  readonly predicted?: Readonly<Record<string, number>>;
  readonly method?: IntervalMethod;
  /** By which care was due; without it nothing is said of care on time. */
  readonly policy?: CarePolicy;
  /** An earlier period that the rates and the shares are compared with; its days come from the same record. */
  readonly against?: { readonly from: string; readonly to: string };
  /** When shifts begin, as {@link careWindows} has it. */
  readonly shifts?: readonly number[];
}

/** A unit in an earlier period, and how likely differences as large are by chance. */
export interface Against {
  readonly rate: Rate;
  /** Two-sided mid-P value that both rates are the same. */
  readonly ratePValue: number;
  readonly utilisation?: number;
  /** The same of the shares of days with a line; days of one patient are not independent: the true value is larger. */
  readonly utilisationPValue?: number;
}

/** The figures of one unit over the period. */
export interface UnitFigures {
  readonly unit: string;
  readonly patientDays: number;
  readonly lineDays: number;
  /** Absent without patient days. */
  readonly utilisation?: number;
  /** Proposed infections of a central line. */
  readonly infections: number;
  /** Absent without line days. */
  readonly rate?: Rate;
  /** Absent where nothing was predicted for the unit. */
  readonly ratio?: StandardisedRatio;
  /** Infections by month; absent without line days. */
  readonly chart?: ControlChart;
  /** The months of its points. */
  readonly chartMonths?: readonly string[];
  /** Days from one infection of a line to the next; absent with fewer than two. */
  readonly between?: ControlChart;
  /** The dates that its points end with. */
  readonly betweenDates?: readonly string[];
  /** Absent where nothing was asked for, or the unit has no line days in either period. */
  readonly against?: Against;
}

/** Everything together. */
export interface Figures {
  readonly days: LineDays;
  /** The earlier period that was compared with. */
  readonly against?: { readonly from: string; readonly to: string };
  readonly units: readonly UnitFigures[];
  readonly infections: readonly ProposedInfection[];
  /** How long lines stayed in until they were taken out. */
  readonly dwell: readonly Dwell[];
  /** Care on time and what care asks; absent where no policy was given. */
  readonly care?: { readonly onTime: readonly OnTimeRow[]; readonly burden: readonly BurdenRow[] };
  /** Cultures that make no infection, and everything that could not be counted, with the reason. */
  readonly leftOut: readonly LeftOut[];
  readonly cautions: readonly string[];
}

/**
 * The figures of every unit of a record: days, proposed infections of central lines, rates with intervals, ratios where a
 * baseline is given, and a chart by month.
 *
 * - Units: days, infections, infections of 1,000 line days. Ranges: as {@link lineDays}.
 * - Errors: throws a {@link FiguresError} for a period that is none or a predicted number that is not above 0.
 * - Cautions: infections are proposed, a person confirms each; numbers of one unit are small; without a baseline there is no
 *   adjustment for risk. Infections of mucosal barrier injury are not told apart, so that the rate may be too high.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapters 2 and 4.
 *
 * @example
 * ```ts
 * const none = { lines: [], issues: [], notUnderstood: [], otherBusiness: [], unitStays: [] };
 * unitFigures(none, [], { from: '2026-04-01', to: '2026-04-30', zone: 'Europe/Berlin' }).units; // []
 * ```
 */
export function unitFigures(
  records: Records,
  entries: Iterable<ResourceEntry>,
  options: FiguresOptions,
): Figures {
  const { against, ...now } = options;
  const all = [...entries];
  const figures = periodFigures(records, all, now);
  if (against === undefined) return figures;
  const { policy: _, predicted: __, ...then } = now;
  const before = periodFigures(records, all, { ...then, ...against });
  const units = figures.units.map((unit) => {
    const earlier = before.units.find((one) => one.unit === unit.unit);
    const compared = earlier && comparedWith(unit, earlier);
    return { ...unit, ...(compared ? { against: compared } : {}) };
  });
  return {
    ...figures,
    against,
    units,
    leftOut: [
      ...figures.leftOut,
      ...before.leftOut.filter(
        ({ ref, reason }) => !figures.leftOut.some((one) => one.ref === ref && one.reason === reason),
      ),
    ],
  };
}

function comparedWith(now: UnitFigures, then: UnitFigures): Against | undefined {
  if (now.rate === undefined || then.rate === undefined) return undefined;
  const share = ({ lineDays: part, patientDays: whole }: UnitFigures) => ({ part, whole });
  // A line counts without a day of its patient where the stay is not on record: then there is no share.
  const shares = [now, then].every((one) => one.utilisation !== undefined && one.lineDays <= one.patientDays);
  return {
    rate: then.rate,
    ratePValue: compareRates(now.rate, then.rate),
    ...(then.utilisation === undefined ? {} : { utilisation: then.utilisation }),
    ...(shares ? { utilisationPValue: compareShares(share(now), share(then)) } : {}),
  };
}

function periodFigures(records: Records, entries: Iterable<ResourceEntry>, options: FiguresOptions): Figures {
  const days = lineDays(records, options);
  const calendar = new Calendar(options.zone);
  const cultures = readCultures(entries, options.organisms ?? {}, calendar);
  const { admissions, leftOut } = admissionsOf(records, cultures.byPatient, calendar, days.period.to);
  const proposals = admissions.map(proposeInfections);
  const infections = proposals
    .flatMap((one) => one.infections)
    .filter(({ dateOfEvent }) => within(dateOfEvent, days.period))
    .sort((a, b) => (a.dateOfEvent < b.dateOfEvent ? -1 : a.dateOfEvent > b.dateOfEvent ? 1 : 0));
  const ofLines = infections.filter(({ lineAssociated }) => lineAssociated);
  const units = [...new Set(days.rows.map(({ unit }) => unit))].map((unit) =>
    figuresOf(
      unit,
      days,
      ofLines.filter(({ location }) => location === unit),
      options,
    ),
  );
  const dwell = dwellTimes(records, options);
  const placeless = ofLines.filter(({ location }) => !units.some(({ unit }) => unit === location));
  return {
    days,
    units,
    infections,
    dwell: dwell.dwell,
    ...careFigures(records, options, units),
    leftOut: [
      ...days.leftOut,
      ...dwell.leftOut,
      ...cultures.leftOut,
      ...leftOut,
      ...proposals.flatMap(({ others }) =>
        others.map(({ ref, because }) => ({ ref, counted: false, reason: because })),
      ),
      ...placeless.map(({ refs }) => ({
        ref: refs.join(', '),
        counted: false,
        reason: 'a proposed infection that no unit of the period could be found for',
      })),
    ],
    cautions: [
      ...new Set([...proposeNothing.cautions, ...days.cautions]),
      ...(options.organisms === undefined
        ? ['No list of organisms was given: no culture can make an infection, and a rate of 0 means nothing.']
        : []),
      'Of the signs, only a temperature above 38.0 °C is read from the record; infections by commensals with chills or hypotension alone are missed.',
      'Small numbers: read the interval, not the rate.',
    ],
  };
}

/** Days between infections, in the order of time. */
function gapsOf(infections: readonly ProposedInfection[]): Pick<UnitFigures, 'between' | 'betweenDates'> {
  const dates = infections.map(({ dateOfEvent }) => dateOfEvent);
  if (dates.length < 2) return {};
  const gaps = dates.slice(1).map((to, at) => daysIn({ from: dates[at] ?? to, to }) - 1);
  return { between: gChart(gaps), betweenDates: dates.slice(1) };
}

function careFigures(
  records: Records,
  { policy, from, to, zone, shifts }: FiguresOptions,
  units: readonly UnitFigures[],
): Pick<Figures, 'care'> {
  if (policy === undefined) return {};
  const windows = careWindows(records, policy, { from, to, zone, ...(shifts ? { shifts } : {}) });
  const days = Object.fromEntries(units.map(({ unit, lineDays: own }) => [unit, own]));
  return { care: { onTime: onTimeRows(windows), burden: burdenRows(windows, days) } };
}

const proposeNothing = proposeInfections({
  ...{ patient: '', admitted: '2026-01-01', until: '2026-01-01' },
  ...{ cultures: [], signs: [], lines: [], stays: [] },
});

function figuresOf(
  unit: string,
  { rows }: LineDays,
  infections: readonly ProposedInfection[],
  { predicted, method }: FiguresOptions,
): UnitFigures {
  const own = rows.filter((row) => row.unit === unit);
  const total = (of: 'lineDays' | 'patientDays') => own.reduce((sum, row) => sum + row[of], 0);
  const [lines, patients] = [total('lineDays'), total('patientDays')];
  const baseline = predicted?.[unit];
  const withLines = own.filter((row) => row.lineDays > 0);
  const months = withLines.map((row) => ({
    events: infections.filter(({ dateOfEvent }) => dateOfEvent.startsWith(row.month)).length,
    days: row.lineDays,
  }));
  return {
    ...{ unit, patientDays: patients, lineDays: lines },
    ...(patients > 0 ? { utilisation: lines / patients } : {}),
    infections: infections.length,
    ...(lines > 0 ? { rate: ratePer1000({ events: infections.length, days: lines }, method) } : {}),
    ...(baseline === undefined ? {} : { ratio: standardisedRatio(infections.length, baseline, method) }),
    ...gapsOf(infections),
    ...(months.length > 0 ? { chart: uChart(months), chartMonths: withLines.map(({ month }) => month) } : {}),
  };
}
