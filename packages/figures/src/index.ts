export { FiguresError, type FiguresErrorCode } from './error.js';
export {
  byarInterval,
  exactInterval,
  intervalMethods,
  midPInterval,
  poissonInterval,
  type Interval,
  type IntervalMethod,
} from './statistics/poisson.js';
export { standardisedRatio, type StandardisedRatio } from './statistics/ratio.js';
export {
  compareRates,
  compareShares,
  ratePer1000,
  type Counted,
  type Rate,
  type Share,
} from './statistics/rates.js';
export {
  gChart,
  uChart,
  type ChartPoint,
  type ControlChart,
  type Signal,
} from './statistics/control-charts.js';
export { kaplanMeier, type SurvivalStep, type Watched } from './statistics/kaplan-meier.js';
export { lineDays, unnamedUnit, type LineDays, type PeriodOptions, type UnitDays } from './days/line-days.js';
export type { Day, DaySpan } from './days/calendar-days.js';
export type { Stratum } from './days/line-presence.js';
export type { LeftOut } from './left-out.js';
export {
  attributedTo,
  dateOfEvent,
  eligibleDays,
  infectionWindow,
  onsetOf,
  repeatTimeframe,
  secondaryAttribution,
  type LineTime,
  type LocationStay,
} from './infections/windows.js';
export {
  proposeInfections,
  type Admission,
  type BloodCulture,
  type OrganismKind,
  type ProposedInfection,
  type Proposals,
  type Sign,
} from './infections/propose.js';
export {
  unitFigures,
  type Against,
  type Figures,
  type FiguresOptions,
  type UnitFigures,
} from './unit-figures.js';
export type { OrganismLists } from './infections/read-cultures.js';
export { measureBundle } from './output/measure-report.js';
export {
  figuresView,
  withoutPatients,
  type FiguresChart,
  type FiguresTable,
  type FiguresView,
} from './output/figures-view.js';
export { chartSvg, type ChartTexts } from './output/chart-svg.js';
export {
  careWindows,
  type CarePeriod,
  type CarePolicy,
  type CareWindow,
  type WindowOutcome,
} from './care/windows.js';
export {
  burdenRows,
  onTime,
  onTimeRows,
  type BurdenRow,
  type OnTime,
  type OnTimeRow,
} from './care/on-time.js';
export { burdenOf, careAskedBy, type AskedCare, type Burden } from './care/replay.js';
export { dwellTimes, unsaidReason, type Dwell } from './days/dwell.js';
export { curveSvg } from './output/curve-svg.js';
