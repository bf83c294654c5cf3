import { activityRow, type LineCareActivity } from '@dwellward/profiles';
import { pushPullCycle } from '@dwellward/calculators';
import { Decimal } from 'decimal.js';
import type { Step } from '@dwellward/policy';
import { bloodVolumeOf } from '../facts/blood-loss.js';
import type { Amount } from '../due/calculated.js';
import type { Timeline } from '../timeline/timeline.js';
import type { Lumen } from '../model/record.js';
import type { Sentence } from '../model/sentences.js';
import type { DrawCautionSentences, DrawWarningSentences } from '../model/sentences/draw.js';
import type { BloodDraw, DrawLoss, DrawTest, DrawTube } from './model.js';

/** Before a coagulation sample: CLSI H21-A5 (from memory), 5 mL of flush, then 5 mL or 6 dead spaces of discard. */
const coagulationMl = '5';

/**
 * The flush or the discard before a coagulation sample. Of an adult 5 mL, or what the lumen needs where that is more; of
 * anybody else what the lumen needs: a fixed volume of adults is too much for a child.
 */
export function forCoagulation(amount: Amount, adult: boolean): Amount {
  if (!adult) return amount;
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

/** The way that wastes nothing, 6 mL in an adult: Royal Marsden Manual, chapter 13 (seen). */
const adultCycleMl = '6';

/** What has to be known for push–pull beside the tests. */
export interface PushPullFor {
  readonly timeline: Timeline;
  readonly adult: boolean;
  readonly deadSpace: Amount;
  /** The level of a drug is asked for that may have run through the lumen. */
  readonly drugRan: boolean;
}

/**
 * Said first where a draw takes more than may still be drawn today, with the way that wastes nothing where there is one:
 * push–pull, drawn and given back at least 3 times (Royal Marsden Manual, chapter 13, seen). In a child only where a cycle
 * is small against the blood volume.
 */
export function aboveLimit(
  tests: readonly DrawTest[],
  { within, thisDrawMl, leastMl, safeTodayMl }: DrawLoss,
  discardMl: string | undefined,
  given: PushPullFor,
): Sentence<keyof DrawWarningSentences>[] {
  const takesMl = thisDrawMl ?? leastMl;
  if (within !== false || takesMl === undefined || safeTodayMl === undefined) return [];
  return [
    { code: 'draw-above-limit', thisDrawMl: takesMl, safeTodayMl, atLeast: thisDrawMl === undefined },
    pushPull(tests, given, withoutDiscard(takesMl, safeTodayMl, discardMl)),
  ];
}

function pushPull(
  tests: readonly DrawTest[],
  { timeline, adult, deadSpace, drugRan }: PushPullFor,
  saved: Pick<DrawWarningSentences['push-pull-instead'], 'without'>,
): Sentence<keyof DrawWarningSentences> {
  if (tests.includes('coagulation')) return { code: 'no-push-pull-for-coagulation' };
  if (drugRan) return { code: 'no-push-pull-for-level' };
  if (adult) return { code: 'push-pull-instead', cycleMl: adultCycleMl, child: false, ...saved };
  const blood = bloodVolumeOf(timeline);
  if (!deadSpace.ok || blood === undefined) return { code: 'no-push-pull-for-child' };
  const { value: cycleMl, mostMl, allowed } = pushPullCycle({ deadSpaceMl: deadSpace.value, ...blood });
  return allowed
    ? { code: 'push-pull-instead', cycleMl, child: true, ...saved }
    : { code: 'no-push-pull-for-child', cycleMl, mostMl };
}

function withoutDiscard(
  takesMl: string,
  safeTodayMl: string,
  discardMl: string | undefined,
): Pick<DrawWarningSentences['push-pull-instead'], 'without'> {
  if (discardMl === undefined) return {};
  const left = new Decimal(takesMl).minus(discardMl);
  return { without: { ml: left.toFixed(), within: left.lte(safeTodayMl) } };
}

/** A child, or somebody who may be one, for whom no limit could be worked out. */
export function withoutLimit(adult: boolean, { safeTodayMl }: DrawLoss): Sentence<'child-without-limit'>[] {
  return adult || safeTodayMl !== undefined ? [] : [{ code: 'child-without-limit' }];
}

/** What to ask where a draw takes more than may be drawn, in place of its steps. */
export function askInstead({ within }: DrawLoss, tubes: readonly DrawTube[]): BloodDraw['ask'] {
  return within === false
    ? [
        { code: 'ask-which-can-wait', tubes },
        { code: 'ask-for-smaller-tubes' },
        { code: 'ask-another-way' },
        { code: 'then-ask-again' },
      ]
    : [];
}
