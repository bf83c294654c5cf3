export type { Card, Result } from './lib/calculator.js';
export { CalculatorError, type CalculatorErrorCode } from './lib/error.js';
export type { DecimalInput } from './lib/input.js';
export {
  absoluteNeutrophilCount,
  type AbsoluteNeutrophilCountInput,
} from './counts/absolute-neutrophil-count.js';
export { flushVolume, type FlushVolumeInput } from './flush/flush-volume.js';
export { lockVolume, type LockVolumeInput } from './flush/lock-volume.js';
export { minimumSyringeSize, type MinimumSyringeSizeInput } from './flush/minimum-syringe-size.js';
export { lumenVolume, type LumenVolumeInput } from './geometry/lumen-volume.js';
export { dwellDays, type DwellDaysInput } from './time/dwell-days.js';
