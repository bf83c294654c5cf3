import { activityRow, type LineCareActivity } from '@dwellward/profiles';
import { Decimal } from 'decimal.js';
import type { Step } from '@dwellward/policy';
import type { Amount } from '../due/calculated.js';
import type { Timeline } from '../timeline/timeline.js';
import type { Lumen } from '../model/record.js';
import type { DrawLoss, DrawTest } from './model.js';

/** Before a coagulation sample: CLSI H21-A5 (from memory), 5 mL of flush, then 5 mL or 6 dead spaces of discard. */
const coagulationMl = '5';
const coagulationSource =
  'Coagulation: flush 5 mL, then discard 5 mL or 6 × dead space (CLSI H21-A5, from memory; 6 × also RNAO): the larger is taken.';

/** The flush or the discard before a coagulation sample: 5 mL, or what the lumen needs where that is more. */
export function forCoagulation(amount: Amount): Amount {
  if (!amount.ok) return { ...amount, reason: `at least ${coagulationMl} mL; ${amount.reason}` };
  const value = new Decimal(amount.value).gt(coagulationMl) ? amount.value : coagulationMl;
  return { ...amount, value, text: `${value} mL`, cautions: [...amount.cautions, coagulationSource] };
}

/** Whether a step comes before the discard: the flush there is another than the one after the draw. */
export function isBeforeDiscard(steps: readonly Step[], i: number): boolean {
  const discard = steps.findIndex((step) =>
    step.some((part) => typeof part !== 'string' && part.calculated === 'discardVolume'),
  );
  return i < discard;
}

/** What falsifies the samples that are drawn through a lumen. */
export function samplePitfalls(tests: readonly DrawTest[]): string[] {
  const touched = tests.filter((test) => test === 'coagulation' || test === 'drug-level');
  if (touched.length === 0) return [];
  const what = touched.map((test) => test.replaceAll('-', ' ')).join(' and ');
  return [
    `A lumen that holds heparin falsifies ${what}: use a vein or a lumen without heparin (RNAO; for drug levels by the same reason, common practice, no source); where that can’t be, clear and discard the heparin first (US heparin labels).`,
    ...(tests.includes('drug-level') ? [levelOfGivenDrug] : []),
  ];
}

const levelOfGivenDrug =
  'The level of a drug comes out too high from a lumen that it ran through: take it from a vein, or from a lumen that never had it (common practice, no source).';

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
): string[] {
  if (!tests.includes('drug-level')) return [];
  const may = (lumen: string | undefined) => lumen === undefined || lumen === ref;
  const ran =
    infusions.some(
      ({ fact, untilMs }) => may(fact.lumen) && (fact.running || (untilMs ?? asOfMs) >= asOfMs - dayMs),
    ) ||
    events.some(
      ({ fact, latestMs }) => connectsOrNot(fact.activity) && may(fact.lumen) && latestMs >= asOfMs - dayMs,
    );
  return ran
    ? [
        `Something runs through ${name}, or ran through it in the last 24 hours: where it is the drug whose level is asked for, the level from this lumen is false. Take it from a vein or from another lumen (common practice, no source).`,
      ]
    : [];
}

/**
 * Said first where a draw takes more than may still be drawn today, with the way that wastes nothing: push–pull, 6 mL
 * drawn and given back at least 3 times (Royal Marsden Manual, chapter 13, seen).
 */
export function aboveLimit(
  tests: readonly DrawTest[],
  { within, thisDrawMl, safeTodayMl }: Pick<DrawLoss, 'within' | 'thisDrawMl' | 'safeTodayMl'>,
  discardMl: string | undefined,
): string[] {
  if (within !== false || thisDrawMl === undefined || safeTodayMl === undefined) return [];
  return [
    `THIS DRAW IS ABOVE WHAT MAY STILL BE DRAWN TODAY: ${thisDrawMl} mL, discard included, and ${safeTodayMl} mL may be. Draw less, or ask the prescriber first.`,
    tests.includes('coagulation')
      ? 'Push–pull wastes nothing, but a coagulation sample needs its discard (CLSI H21-A5, from memory): ask whether it can wait, or take it from a vein.'
      : `Push–pull instead of the discard wastes nothing: draw 6 mL and give it back, at least 3 times, with the same syringe, where local policy allows it (Royal Marsden Manual, chapter 13).${withoutDiscard(thisDrawMl, safeTodayMl, discardMl)}`,
  ];
}

function withoutDiscard(thisDrawMl: string, safeTodayMl: string, discardMl: string | undefined): string {
  if (discardMl === undefined) return '';
  const left = new Decimal(thisDrawMl).minus(discardMl);
  return ` Without the discard this draw takes ${left.toFixed()} mL: ${left.lte(safeTodayMl) ? 'that keeps within' : 'still above'}.`;
}
