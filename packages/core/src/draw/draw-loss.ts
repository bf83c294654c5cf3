import { sampleTotal } from '@dwellward/calculators';
import { Decimal } from 'decimal.js';
import { lossesUntilNow, safeToday, type LossRemarks } from '../facts/blood-loss.js';
import type { Timeline } from '../timeline/timeline.js';
import type { DrawLoss, DrawOptions, DrawTube } from './model.js';

/** What a draw takes beside its tubes, mL; undefined where it could not be worked out. */
export interface DrawnBefore {
  readonly discardMl: string | undefined;
  /** The old lock of a dialysis catheter, which comes out with blood behind it; absent where none is drawn off. */
  readonly oldLock?: { readonly ml: string | undefined };
}

/** The sum of volumes; undefined where one is not known. */
export function sumMl(volumes: readonly (string | undefined)[]): string | undefined {
  let sum = new Decimal(0);
  for (const volume of volumes) {
    if (volume === undefined) return undefined;
    sum = sum.plus(volume);
  }
  return sum.toFixed();
}

/**
 * What this draw and the earlier ones take, against the limit of the child or of the unit. Where a volume is not known
 * the known ones together are the least that it takes: above the limit they are above it with any other.
 */
export function lossOf(
  options: DrawOptions,
  tubes: readonly DrawTube[],
  before: DrawnBefore,
  timeline: Timeline,
): DrawLoss {
  const remarks: LossRemarks = [];
  const thisDrawMl = thisDraw(options, tubes, before, remarks);
  const leastMl = thisDrawMl ?? atLeast(options, before);
  const losses = lossesUntilNow(timeline, options.draws ?? [], remarks);
  const { within, ...safe } = safeToday(timeline, losses, options.limit, leastMl, remarks);
  const judged = thisDrawMl === undefined && within === true ? undefined : within;
  return {
    ...(thisDrawMl === undefined ? { leastMl } : { thisDrawMl }),
    ...losses,
    ...safe,
    ...(judged === undefined ? {} : { within: judged }),
    remarks,
  };
}

function thisDraw(
  { tests }: DrawOptions,
  tubes: readonly DrawTube[],
  { discardMl, oldLock }: DrawnBefore,
  remarks: LossRemarks,
): string | undefined {
  const missing = tests.filter(({ volumeMl }) => volumeMl === undefined).map(({ test }) => test);
  if (missing.length > 0) {
    remarks.push({ code: 'fill-volume-not-given', tests: [...new Set(missing)] });
    return undefined;
  }
  if (discardMl === undefined || (oldLock && oldLock.ml === undefined)) {
    remarks.push({ code: 'discard-not-worked-out' });
    return undefined;
  }
  const { value } = sampleTotal({
    tubes: tubes.map(({ volumeMl }) => ({ volumeMl: volumeMl ?? '0' })),
    discardMl,
  });
  return sumMl([value, oldLock?.ml ?? '0']);
}

function atLeast({ tests }: DrawOptions, { discardMl, oldLock }: DrawnBefore): string {
  const known = [...tests.map(({ volumeMl }) => volumeMl), discardMl, oldLock?.ml];
  return sumMl(known.filter((one) => one !== undefined)) ?? '0';
}
