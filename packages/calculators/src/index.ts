// Written by scripts/sync.mjs from the files beside it; run it after adding a calculator.
export type { Card, Result } from './lib/calculator.js';
export { CalculatorError, type CalculatorErrorCode } from './lib/error.js';
export type { DecimalInput } from './lib/input.js';
export {
  absoluteNeutrophilCount,
  type AbsoluteNeutrophilCountInput,
} from './counts/absolute-neutrophil-count.js';
export { cellCountPerUl, type CellCountPerUlInput } from './counts/cell-count-per-ul.js';
export { neutropeniaGrade, type NeutropeniaGradeInput } from './counts/neutropenia-grade.js';
export {
  neutrophilTrend,
  type NeutrophilTrend,
  type NeutrophilTrendInput,
} from './counts/neutrophil-trend.js';
export {
  neutrophilsFromAbsoluteCounts,
  type NeutrophilsFromAbsoluteCountsInput,
} from './counts/neutrophils-from-absolute-counts.js';
export { flushVolume, type FlushVolume, type FlushVolumeInput } from './flush/flush-volume.js';
export { heparinGiven, type HeparinGiven, type HeparinGivenInput } from './flush/heparin-given.js';
export { heparinPerDay, type HeparinPerDay, type HeparinPerDayInput } from './flush/heparin-per-day.js';
export { heparinPerLock, type HeparinPerLockInput } from './flush/heparin-per-lock.js';
export { lockVolume, type LockVolume, type LockVolumeInput } from './flush/lock-volume.js';
export {
  lockVolumeByDevice,
  type LockVolumeByDevice,
  type LockVolumeByDeviceInput,
} from './flush/lock-volume-by-device.js';
export { lumensToLock, type LumensToLock, type LumensToLockInput } from './flush/lumens-to-lock.js';
export {
  measurableVolume,
  type MeasurableVolume,
  type MeasurableVolumeInput,
} from './flush/measurable-volume.js';
export { minimumSyringeSize, type MinimumSyringeSizeInput } from './flush/minimum-syringe-size.js';
export {
  syringePressure,
  type SyringePressure,
  type SyringePressureInput,
} from './flush/syringe-pressure.js';
export {
  catheterToVeinRatio,
  type CatheterToVeinRatio,
  type CatheterToVeinRatioInput,
} from './geometry/catheter-to-vein-ratio.js';
export { frenchToMm, type FrenchToMmInput } from './geometry/french-to-mm.js';
export { gaugeToMm, type GaugeDiameters, type GaugeToMmInput } from './geometry/gauge-to-mm.js';
export { hubColour, type HubColourInput } from './geometry/hub-colour.js';
export { lumenVolume, type LumenVolumeInput } from './geometry/lumen-volume.js';
export { mmToFrench, type MmToFrenchInput } from './geometry/mm-to-french.js';
export { mmToGauge, type MmToGaugeInput } from './geometry/mm-to-gauge.js';
export { poiseuilleFlow, type PoiseuilleFlow, type PoiseuilleFlowInput } from './geometry/poiseuille-flow.js';
export { pressureInKpa, type PressureInKpaInput } from './geometry/pressure-in-kpa.js';
export {
  antisepticContactTime,
  type AntisepticContactTime,
  type AntisepticContactTimeInput,
} from './insertion/antiseptic-contact-time.js';
export {
  countBackTimes,
  type CountBackTimes,
  type CountBackTimesInput,
} from './insertion/count-back-times.js';
export {
  deviceByDuration,
  type DeviceByDuration,
  type DeviceByDurationInput,
} from './insertion/device-by-duration.js';
export {
  externalLengthChange,
  type ExternalLengthChange,
  type ExternalLengthChangeInput,
} from './insertion/external-length-change.js';
export {
  dialysisFlowCheck,
  type DialysisFlowCheck,
  type DialysisFlowCheckInput,
} from './occlusion/dialysis-flow-check.js';
export { occlusionDegree, type OcclusionDegreeInput } from './occlusion/occlusion-degree.js';
export {
  precipitateAgent,
  type PrecipitateAgent,
  type PrecipitateAgentInput,
} from './occlusion/precipitate-agent.js';
export {
  thrombolyticClock,
  type ThrombolyticClock,
  type ThrombolyticClockInput,
  type ThrombolyticStep,
} from './occlusion/thrombolytic-clock.js';
export {
  thrombolyticDose,
  type ThrombolyticDose,
  type ThrombolyticDoseInput,
  type ThrombolyticQuestion,
  type ThrombolyticVerdict,
} from './occlusion/thrombolytic-dose.js';
export {
  laboratoryPlausibility,
  type LaboratoryPlausibility,
  type LaboratoryPlausibilityInput,
} from './plausibility/laboratory-plausibility.js';
export {
  weightPlausibility,
  type WeightPlausibility,
  type WeightPlausibilityInput,
} from './plausibility/weight-plausibility.js';
export {
  practiceValue,
  type PracticeValueInput,
  type PracticeValueResult,
} from './practice/practice-value.js';
export {
  repairPlan,
  type RepairPlan,
  type RepairPlanInput,
  type RepairPrecondition,
} from './repair/repair-plan.js';
export { repairTimes, type RepairTimes, type RepairTimesInput } from './repair/repair-times.js';
export { segmentAirVolume, type SegmentAirVolumeInput } from './repair/segment-air-volume.js';
export { bloodLoss, type BloodLoss, type BloodLossInput } from './sampling/blood-loss.js';
export {
  differentialTimeToPositivity,
  type DifferentialTimeToPositivity,
  type DifferentialTimeToPositivityInput,
} from './sampling/differential-time-to-positivity.js';
export { discardVolume, type DiscardVolume, type DiscardVolumeInput } from './sampling/discard-volume.js';
export {
  pairedCultureRatio,
  type PairedCultureRatio,
  type PairedCultureRatioInput,
} from './sampling/paired-culture-ratio.js';
export { pushPullCycle, type PushPullCycle, type PushPullCycleInput } from './sampling/push-pull-cycle.js';
export { safeDrawToday, type SafeDrawToday, type SafeDrawTodayInput } from './sampling/safe-draw-today.js';
export { sampleTotal, type SampleTotal, type SampleTotalInput } from './sampling/sample-total.js';
export { totalBloodVolume, type TotalBloodVolumeInput } from './sampling/total-blood-volume.js';
export {
  armCircumferenceChange,
  type ArmCircumferenceChange,
  type ArmCircumferenceChangeInput,
} from './site/arm-circumference-change.js';
export { infiltrationGrade, type InfiltrationGradeInput } from './site/infiltration-grade.js';
export { lineInfection, type LineInfection, type LineInfectionInput } from './site/line-infection.js';
export { phlebitisGrade, type PhlebitisGradeInput } from './site/phlebitis-grade.js';
export { vipScore, type VipScore, type VipScoreInput } from './site/vip-score.js';
export { catheterDays, type CatheterDaysInput } from './time/catheter-days.js';
export { dwellDays, type DwellDaysInput } from './time/dwell-days.js';
