import { activityRow, type LineCareActivity } from '@dwellward/profiles';
import { Decimal } from 'decimal.js';
import type { Step } from '@dwellward/policy';
import type { Amount } from '../due/calculated.js';
import type { Timeline } from '../timeline/timeline.js';
import type { Lumen } from '../model/record.js';
import type { Sentence } from '../model/sentences.js';
import type { DrawCautionSentences, DrawWarningSentences } from '../model/sentences/draw.js';
import type { DrawLoss, DrawTest } from './model.js';

/** Before a coagulation sample: CLSI H21-A5 (from memory), 5 mL of flush, then 5 mL or 6 dead spaces of discard. */
const coagulationMl = '5';

/** The flush or the discard before a coagulation sample: 5 mL, or what the lumen needs where that is more. */
export function forCoagulation(amount: Amount): Amount {
  if (!amount.ok)
    return { ...amount, reason: { code: 'at-least', ml: coagulationMl, reason: amount.reason } };
  const value = new Decimal(amount.value).gt(coagulationMl) ? amount.value : coagulationMl;
  return { ...amount, value };
}

/** Whether a step comes before the discard: the flush there is another than the one after the draw. */
export function isBeforeDiscard(steps: readonly Step[], i: number): boolean {
  const discard = steps.findIndex((step) =>
    step.some((part) => typeof part !== 'string' && part.calculated === 'discardVolume'),
  );
  return i < discard;
}

/** What falsifies the samples that are drawn through a lumen. */
export function samplePitfalls(tests: readonly DrawTest[]): Sentence<keyof DrawCautionSentences>[] {
  const touched = tests.filter((test) => test === 'coagulation' || test === 'drug-level');
  if (touched.length === 0) return [];
  return [
    { code: 'heparin-falsifies', tests: touched },
    ...(tests.includes('drug-level') ? [{ code: 'level-of-a-given-drug' } as const] : []),
  ];
}

const dayMs = 86_400_000;

/** Whether an infusion was connected, or taken off. */
function connectsOrNot(activity: LineCareActivity): boolean {
  const { leavesLumen } = activityRow(activity);
  return leavesLumen === 'infusing' || leavesLumen === 'open';
}

/**
 * Said at the top where the level of a drug is drawn from a lumen that something runs through, or ran through in the
 * last 24 hours; also where it is not known through which lumen it ran, or when it ended. Which drug it was is not
 * looked at: the record may not tell. Common practice, no source.
 */
export function drugInLumen(
  tests: readonly DrawTest[],
  { infusions, events, asOfMs }: Timeline,
  { ref, name }: Lumen,
): Sentence<'drug-may-be-in-lumen'>[] {
  if (!tests.includes('drug-level')) return [];
  const may = (lumen: string | undefined) => lumen === undefined || lumen === ref;
  const ran =
    infusions.some(
      ({ fact, untilMs }) => may(fact.lumen) && (fact.running || (untilMs ?? asOfMs) >= asOfMs - dayMs),
    ) ||
    events.some(
      ({ fact, latestMs }) => connectsOrNot(fact.activity) && may(fact.lumen) && latestMs >= asOfMs - dayMs,
    );
  return ran ? [{ code: 'drug-may-be-in-lumen', lumen: name }] : [];
}

/**
 * Said first where a draw takes more than may still be drawn today, with the way that wastes nothing: push–pull, 6 mL
 * drawn and given back at least 3 times (Royal Marsden Manual, chapter 13, seen).
 */
export function aboveLimit(
  tests: readonly DrawTest[],
  { within, thisDrawMl, safeTodayMl }: Pick<DrawLoss, 'within' | 'thisDrawMl' | 'safeTodayMl'>,
  discardMl: string | undefined,
): Sentence<keyof DrawWarningSentences>[] {
  if (within !== false || thisDrawMl === undefined || safeTodayMl === undefined) return [];
  return [
    { code: 'draw-above-limit', thisDrawMl, safeTodayMl },
    tests.includes('coagulation')
      ? { code: 'no-push-pull-for-coagulation' }
      : { code: 'push-pull-instead', ...withoutDiscard(thisDrawMl, safeTodayMl, discardMl) },
  ];
}

function withoutDiscard(
  thisDrawMl: string,
  safeTodayMl: string,
  discardMl: string | undefined,
): Pick<DrawWarningSentences['push-pull-instead'], 'without'> {
  if (discardMl === undefined) return {};
  const left = new Decimal(thisDrawMl).minus(discardMl);
  return { without: { ml: left.toFixed(), within: left.lte(safeTodayMl) } };
}
