// Written by scripts/sync.mjs from the files beside it; run it after adding a calculator.
import { absoluteNeutrophilCount, absoluteNeutrophilCountCard } from './counts/absolute-neutrophil-count.js';
import { cellCountPerUl, cellCountPerUlCard } from './counts/cell-count-per-ul.js';
import { neutropeniaGrade, neutropeniaGradeCard } from './counts/neutropenia-grade.js';
import { neutrophilTrend, neutrophilTrendCard } from './counts/neutrophil-trend.js';
import {
  neutrophilsFromAbsoluteCounts,
  neutrophilsFromAbsoluteCountsCard,
} from './counts/neutrophils-from-absolute-counts.js';
import { flushVolume, flushVolumeCard } from './flush/flush-volume.js';
import { heparinGiven, heparinGivenCard } from './flush/heparin-given.js';
import { heparinPerDay, heparinPerDayCard } from './flush/heparin-per-day.js';
import { heparinPerLock, heparinPerLockCard } from './flush/heparin-per-lock.js';
import { lockVolume, lockVolumeCard } from './flush/lock-volume.js';
import { lockVolumeByDevice, lockVolumeByDeviceCard } from './flush/lock-volume-by-device.js';
import { lumensToLock, lumensToLockCard } from './flush/lumens-to-lock.js';
import { measurableVolume, measurableVolumeCard } from './flush/measurable-volume.js';
import { minimumSyringeSize, minimumSyringeSizeCard } from './flush/minimum-syringe-size.js';
import { syringePressure, syringePressureCard } from './flush/syringe-pressure.js';
import { catheterToVeinRatio, catheterToVeinRatioCard } from './geometry/catheter-to-vein-ratio.js';
import { frenchToMm, frenchToMmCard } from './geometry/french-to-mm.js';
import { gaugeToMm, gaugeToMmCard } from './geometry/gauge-to-mm.js';
import { hubColour, hubColourCard } from './geometry/hub-colour.js';
import { lumenVolume, lumenVolumeCard } from './geometry/lumen-volume.js';
import { mmToFrench, mmToFrenchCard } from './geometry/mm-to-french.js';
import { mmToGauge, mmToGaugeCard } from './geometry/mm-to-gauge.js';
import { poiseuilleFlow, poiseuilleFlowCard } from './geometry/poiseuille-flow.js';
import { pressureInKpa, pressureInKpaCard } from './geometry/pressure-in-kpa.js';
import { antisepticContactTime, antisepticContactTimeCard } from './insertion/antiseptic-contact-time.js';
import { countBackTimes, countBackTimesCard } from './insertion/count-back-times.js';
import { deviceByDuration, deviceByDurationCard } from './insertion/device-by-duration.js';
import { externalLengthChange, externalLengthChangeCard } from './insertion/external-length-change.js';
import { dialysisFlowCheck, dialysisFlowCheckCard } from './occlusion/dialysis-flow-check.js';
import { occlusionDegree, occlusionDegreeCard } from './occlusion/occlusion-degree.js';
import { precipitateAgent, precipitateAgentCard } from './occlusion/precipitate-agent.js';
import { thrombolyticClock, thrombolyticClockCard } from './occlusion/thrombolytic-clock.js';
import { thrombolyticDose, thrombolyticDoseCard } from './occlusion/thrombolytic-dose.js';
import {
  laboratoryPlausibility,
  laboratoryPlausibilityCard,
} from './plausibility/laboratory-plausibility.js';
import { weightPlausibility, weightPlausibilityCard } from './plausibility/weight-plausibility.js';
import { practiceValue, practiceValueCard } from './practice/practice-value.js';
import { repairPlan, repairPlanCard } from './repair/repair-plan.js';
import { repairTimes, repairTimesCard } from './repair/repair-times.js';
import { segmentAirVolume, segmentAirVolumeCard } from './repair/segment-air-volume.js';
import { bloodLoss, bloodLossCard } from './sampling/blood-loss.js';
import {
  differentialTimeToPositivity,
  differentialTimeToPositivityCard,
} from './sampling/differential-time-to-positivity.js';
import { discardVolume, discardVolumeCard } from './sampling/discard-volume.js';
import { pairedCultureRatio, pairedCultureRatioCard } from './sampling/paired-culture-ratio.js';
import { pushPullCycle, pushPullCycleCard } from './sampling/push-pull-cycle.js';
import { safeDrawToday, safeDrawTodayCard } from './sampling/safe-draw-today.js';
import { sampleTotal, sampleTotalCard } from './sampling/sample-total.js';
import { totalBloodVolume, totalBloodVolumeCard } from './sampling/total-blood-volume.js';
import { armCircumferenceChange, armCircumferenceChangeCard } from './site/arm-circumference-change.js';
import { infiltrationGrade, infiltrationGradeCard } from './site/infiltration-grade.js';
import { lineInfection, lineInfectionCard } from './site/line-infection.js';
import { phlebitisGrade, phlebitisGradeCard } from './site/phlebitis-grade.js';
import { vipScore, vipScoreCard } from './site/vip-score.js';
import { catheterDays, catheterDaysCard } from './time/catheter-days.js';
import { dwellDays, dwellDaysCard } from './time/dwell-days.js';
import { type CatalogEntry, entry } from './lib/catalog-entry.js';

export type { CatalogEntry } from './lib/catalog-entry.js';
export type { Result } from './lib/calculator.js';
export { CalculatorError } from './lib/error.js';
export type { Spec, Specs } from './lib/input.js';

/** Every calculator by its name, for a command or a form that offers them all; to use one, import that one. */
export const calculators = {
  'absolute-neutrophil-count': entry('counts', absoluteNeutrophilCountCard, absoluteNeutrophilCount),
  'cell-count-per-ul': entry('counts', cellCountPerUlCard, cellCountPerUl),
  'neutropenia-grade': entry('counts', neutropeniaGradeCard, neutropeniaGrade),
  'neutrophil-trend': entry('counts', neutrophilTrendCard, neutrophilTrend),
  'neutrophils-from-absolute-counts': entry(
    'counts',
    neutrophilsFromAbsoluteCountsCard,
    neutrophilsFromAbsoluteCounts,
  ),
  'flush-volume': entry('flush', flushVolumeCard, flushVolume),
  'heparin-given': entry('flush', heparinGivenCard, heparinGiven),
  'heparin-per-day': entry('flush', heparinPerDayCard, heparinPerDay),
  'heparin-per-lock': entry('flush', heparinPerLockCard, heparinPerLock),
  'lock-volume': entry('flush', lockVolumeCard, lockVolume),
  'lock-volume-by-device': entry('flush', lockVolumeByDeviceCard, lockVolumeByDevice),
  'lumens-to-lock': entry('flush', lumensToLockCard, lumensToLock),
  'measurable-volume': entry('flush', measurableVolumeCard, measurableVolume),
  'minimum-syringe-size': entry('flush', minimumSyringeSizeCard, minimumSyringeSize),
  'syringe-pressure': entry('flush', syringePressureCard, syringePressure),
  'catheter-to-vein-ratio': entry('geometry', catheterToVeinRatioCard, catheterToVeinRatio),
  'french-to-mm': entry('geometry', frenchToMmCard, frenchToMm),
  'gauge-to-mm': entry('geometry', gaugeToMmCard, gaugeToMm),
  'hub-colour': entry('geometry', hubColourCard, hubColour),
  'lumen-volume': entry('geometry', lumenVolumeCard, lumenVolume),
  'mm-to-french': entry('geometry', mmToFrenchCard, mmToFrench),
  'mm-to-gauge': entry('geometry', mmToGaugeCard, mmToGauge),
  'poiseuille-flow': entry('geometry', poiseuilleFlowCard, poiseuilleFlow),
  'pressure-in-kpa': entry('geometry', pressureInKpaCard, pressureInKpa),
  'antiseptic-contact-time': entry('insertion', antisepticContactTimeCard, antisepticContactTime),
  'count-back-times': entry('insertion', countBackTimesCard, countBackTimes),
  'device-by-duration': entry('insertion', deviceByDurationCard, deviceByDuration),
  'external-length-change': entry('insertion', externalLengthChangeCard, externalLengthChange),
  'dialysis-flow-check': entry('occlusion', dialysisFlowCheckCard, dialysisFlowCheck),
  'occlusion-degree': entry('occlusion', occlusionDegreeCard, occlusionDegree),
  'precipitate-agent': entry('occlusion', precipitateAgentCard, precipitateAgent),
  'thrombolytic-clock': entry('occlusion', thrombolyticClockCard, thrombolyticClock),
  'thrombolytic-dose': entry('occlusion', thrombolyticDoseCard, thrombolyticDose),
  'laboratory-plausibility': entry('plausibility', laboratoryPlausibilityCard, laboratoryPlausibility),
  'weight-plausibility': entry('plausibility', weightPlausibilityCard, weightPlausibility),
  'practice-value': entry('practice', practiceValueCard, practiceValue),
  'repair-plan': entry('repair', repairPlanCard, repairPlan),
  'repair-times': entry('repair', repairTimesCard, repairTimes),
  'segment-air-volume': entry('repair', segmentAirVolumeCard, segmentAirVolume),
  'blood-loss': entry('sampling', bloodLossCard, bloodLoss),
  'differential-time-to-positivity': entry(
    'sampling',
    differentialTimeToPositivityCard,
    differentialTimeToPositivity,
  ),
  'discard-volume': entry('sampling', discardVolumeCard, discardVolume),
  'paired-culture-ratio': entry('sampling', pairedCultureRatioCard, pairedCultureRatio),
  'push-pull-cycle': entry('sampling', pushPullCycleCard, pushPullCycle),
  'safe-draw-today': entry('sampling', safeDrawTodayCard, safeDrawToday),
  'sample-total': entry('sampling', sampleTotalCard, sampleTotal),
  'total-blood-volume': entry('sampling', totalBloodVolumeCard, totalBloodVolume),
  'arm-circumference-change': entry('site', armCircumferenceChangeCard, armCircumferenceChange),
  'infiltration-grade': entry('site', infiltrationGradeCard, infiltrationGrade),
  'line-infection': entry('site', lineInfectionCard, lineInfection),
  'phlebitis-grade': entry('site', phlebitisGradeCard, phlebitisGrade),
  'vip-score': entry('site', vipScoreCard, vipScore),
  'catheter-days': entry('time', catheterDaysCard, catheterDays),
  'dwell-days': entry('time', dwellDaysCard, dwellDays),
} as const satisfies Readonly<Record<string, CatalogEntry>>;

export type CalculatorName = keyof typeof calculators;
