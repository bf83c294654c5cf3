import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { cylinderMl } from '../lib/circle.js';
import { type Decimal, compare, decimal, minus, notNegative, plus, round, toText } from '../lib/decimal.js';
import { type InputOf, flag, optional, quantity, readInput } from '../lib/input.js';
import { practiceSource, repairPractice } from '../lib/practice.js';

export const repairPlanCard = () =>
  card({
    name: 'repair-plan',
    title: 'Repair of a broken external catheter: possible or not, and its measures',
    formula:
      'left = intact length − trim, at least the kit’s length and 2.5 cm; length afterwards = left + new segment; air = π · d² / 4 · L; possible where every precondition is met',
    unit: '',
    source: `the kit’s own instructions; ${practiceSource} (never below 2.5 cm left, 2 min cleansing, 1 mL adhesive, 15 to 20 cm outside at most, 48 h splinted); clamp between damage and body: home sheet (seen); clot check before a permanent repair: JAVA 25(2):40 (seen)`,
    cautions: [
      'The device maker’s repair instructions and kit rule over every number here.',
      'First of all: clamp between the damage and the body, cover the damage with sterile gauze, call for help.',
      'Studies disagree on whether a repair raises the risk of infection; weigh repair against replacement.',
      'After the adhesive: no infusion for as long as the kit says; while that is not known, none. Splint for 48 h.',
      deferToDevice,
    ],
    inputs: {
      intactExternalLengthCm: quantity('cm', '0', '100', 'intact catheter from the skin to the damage'),
      trimCm: quantity('cm', '0', '20', 'cut off on the body’s side of the damage for a clean, square end'),
      newSegmentLengthCm: quantity('cm', '0.5', '60', 'length of the kit’s new segment outside the joint'),
      newSegmentInnerDiameterMm: quantity('mm', '0.1', '10', 'inner diameter of the new segment'),
      lumenFrench: quantity('[Ch]', '1', '40', 'size of the damaged lumen’s tube'),
      kitFrench: quantity('[Ch]', '1', '40', 'size that the kit is made for'),
      kitForThisDevice: flag('the kit is the maker’s for this very device'),
      lumenFreeOfClot: optional(
        flag('the lumen was checked for a clot and is free; left out when not checked'),
      ),
      leastIntactCm: quantity(
        'cm',
        '0.5',
        '20',
        'intact tube outside the skin that the kit needs after the trim; its instructions say it',
      ),
      noInfusionHours: optional(
        quantity('h', '0', '240', 'wait before an infusion; the kit’s instructions say it'),
      ),
      mostExternalCm: optional(
        quantity('cm', '5', '60', 'longest external length afterwards; 20 when left out'),
      ),
    },
  });

export type RepairPlanInput = InputOf<ReturnType<typeof repairPlanCard>['inputs']>;

/** One thing that must be so before a repair, and why. */
export interface RepairPrecondition {
  readonly name:
    'intact-length' | 'kit-size' | 'kit-for-device' | 'no-clot' | 'stump-left' | 'length-afterwards';
  readonly met: boolean;
  readonly reason: string;
}

/** Verdict as `value`; preconditions and measures beside it. */
export interface RepairPlan extends Result<'possible' | 'not-possible'> {
  readonly preconditions: readonly RepairPrecondition[];
  /** The clamp goes between the skin (0) and this distance from it. */
  readonly clampWithinCm: string;
  /** Where to cut, from the skin. */
  readonly cutAtCm: string;
  readonly externalLengthAfterCm: string;
  /** Rounded up to 0.01 mL. */
  readonly airToWithdrawMl: string;
  readonly cleansingMinutes: number;
  readonly adhesiveMl: string;
  /** Absent where the kit’s time was not given: no infusion until it is known. */
  readonly noInfusionHours?: string;
  readonly splintHours: number;
}

/**
 * Whether a broken external segment can be repaired, and where to clamp and cut.
 *
 * Each precondition comes with its reason; one that was not checked counts as not met. What counts is what is left after
 * the trim: it has to be what the kit needs, and is never enough below 2.5 cm. Lengths are exact; the air is rounded up to
 * 0.01 mL.
 *
 * @formula left = intact length − trim, at least the kit’s length and 2.5 cm; length afterwards = left + new
 *   segment; air = π · d² / 4 · L; possible where every precondition is met
 * @units `intactExternalLengthCm` in cm; `trimCm` in cm; `newSegmentLengthCm` in cm;
 *   `newSegmentInnerDiameterMm` in mm; `lumenFrench` in [Ch]; `kitFrench` in [Ch]; `leastIntactCm` in cm;
 *   `noInfusionHours` in h; `mostExternalCm` in cm; result a word
 * @ranges
 * - `intactExternalLengthCm`: 0 to 100 cm; intact catheter from the skin to the damage
 * - `trimCm`: 0 to 20 cm; cut off on the body’s side of the damage for a clean, square end
 * - `newSegmentLengthCm`: 0.5 to 60 cm; length of the kit’s new segment outside the joint
 * - `newSegmentInnerDiameterMm`: 0.1 to 10 mm; inner diameter of the new segment
 * - `lumenFrench`: 1 to 40 [Ch]; size of the damaged lumen’s tube
 * - `kitFrench`: 1 to 40 [Ch]; size that the kit is made for
 * - `kitForThisDevice`: true or false; the kit is the maker’s for this very device
 * - `lumenFreeOfClot` (optional): true or false; the lumen was checked for a clot and is free; left out when
 *   not checked
 * - `leastIntactCm`: 0.5 to 20 cm; intact tube outside the skin that the kit needs after the trim; its
 *   instructions say it
 * - `noInfusionHours` (optional): 0 to 240 h; wait before an infusion; the kit’s instructions say it
 * - `mostExternalCm` (optional): 5 to 60 cm; longest external length afterwards; 20 when left out
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - The device maker’s repair instructions and kit rule over every number here.
 * - First of all: clamp between the damage and the body, cover the damage with sterile gauze, call for help.
 * - Studies disagree on whether a repair raises the risk of infection; weigh repair against replacement.
 * - After the adhesive: no infusion for as long as the kit says; while that is not known, none. Splint for
 *   48 h.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source the kit’s own instructions; common practice, no source (never below 2.5 cm left, 2 min cleansing,
 *   1 mL adhesive, 15 to 20 cm outside at most, 48 h splinted); clamp between damage and body: home sheet
 *   (seen); clot check before a permanent repair: JAVA 25(2):40 (seen)
 * @example
 * ```ts
 * repairPlan({
 *   intactExternalLengthCm: '6',
 *   trimCm: '1',
 *   newSegmentLengthCm: '8',
 *   newSegmentInnerDiameterMm: '1.6',
 *   lumenFrench: '9',
 *   kitFrench: '9.0',
 *   kitForThisDevice: true,
 *   lumenFreeOfClot: true,
 *   leastIntactCm: '4',
 * }).value; // 'possible'
 * ```
 */
export function repairPlan(input: RepairPlanInput): RepairPlan {
  const own = repairPlanCard();
  const read = readInput(own.inputs, input);
  const { intactExternalLengthCm: intact, trimCm, newSegmentLengthCm: segment } = read;
  const least = read.leastIntactCm;
  const bound = decimal(repairPractice.neverBelowCm);
  const most = read.mostExternalCm ?? decimal(repairPractice.mostExternalCm);
  const cut = notNegative(minus(intact, trimCm));
  const after = plus(cut, segment);
  const air = round(cylinderMl(read.newSegmentInnerDiameterMm, segment), 2, 'up');
  const checks: readonly RepairPrecondition[] = [
    check(
      'intact-length',
      atLeast(cut, least),
      `${toText(cut)} cm intact outside the skin after the trim, ${toText(least)} cm needed by the kit`,
    ),
    check(
      'kit-size',
      compare(read.lumenFrench, read.kitFrench) === 0,
      `lumen ${toText(read.lumenFrench)} Fr, kit ${toText(read.kitFrench)} Fr: a joint of another size leaks`,
    ),
    check(
      'kit-for-device',
      read.kitForThisDevice,
      'only the maker’s kit for this device fits its tube and adhesive',
    ),
    check(
      'no-clot',
      read.lumenFreeOfClot === true,
      'a clot in the lumen would be flushed into the patient, or the repair stays blocked',
    ),
    check(
      'stump-left',
      atLeast(cut, bound),
      `${toText(cut)} cm left outside the skin after the cut, for the clamp; below ${toText(bound)} cm never`,
    ),
    check(
      'length-afterwards',
      atLeast(most, after),
      `${toText(after)} cm outside the skin afterwards, ${toText(most)} cm at most: a longer one is pulled out more easily`,
    ),
  ];
  const verdict = checks.every(({ met }) => met) ? 'possible' : 'not-possible';
  return {
    ...answer(
      own,
      verdict,
      [
        `cut at ${toText(intact)} cm − ${toText(trimCm)} cm = ${toText(cut)} cm from the skin; clamp between skin and cut`,
        `length afterwards ${toText(cut)} cm + ${toText(segment)} cm = ${toText(after)} cm`,
        `air in the new segment ${toText(air)} mL, rounded up to 0.01`,
        ...checks.map(({ name, met, reason }) => `${name}: ${met ? 'met' : 'NOT MET'} (${reason})`),
      ],
      raisedWhere(
        [
          verdict === 'not-possible',
          'Not to be repaired as it stands: keep it clamped and call the line team.',
        ],
        [read.lumenFreeOfClot === undefined, 'The lumen was not checked for a clot; that counts as not met.'],
        [
          compare(after, decimal(repairPractice.wantedExternalCm)) > 0,
          'Longer than 15 cm outside the skin afterwards: secure it especially well.',
        ],
        [
          read.noInfusionHours === undefined,
          'How long the adhesive needs is not known: no infusion until the kit’s instructions were read.',
        ],
      ),
    ),
    preconditions: checks,
    clampWithinCm: toText(cut),
    cutAtCm: toText(cut),
    externalLengthAfterCm: toText(after),
    airToWithdrawMl: toText(air),
    cleansingMinutes: Number(repairPractice.cleansingMinutes),
    adhesiveMl: repairPractice.adhesiveMl,
    ...(read.noInfusionHours && { noInfusionHours: toText(read.noInfusionHours) }),
    splintHours: Number(repairPractice.splintHours),
  };
}

const check = (name: RepairPrecondition['name'], met: boolean, reason: string): RepairPrecondition => ({
  name,
  met,
  reason,
});

const atLeast = (value: Decimal, bound: Decimal): boolean => compare(value, bound) >= 0;
