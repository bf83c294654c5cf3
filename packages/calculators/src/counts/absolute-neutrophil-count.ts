import { type Result, answerAmount, card, inconsistent, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { cellCountUnits, perUl } from '../lib/cell-count.js';
import { type Decimal, compare, decimal, plus, times, toText } from '../lib/decimal.js';
import { neutrophilCautions } from '../lib/laboratory.js';
import { type InputOf, choice, optional, quantity, readInput } from '../lib/input.js';

export const absoluteNeutrophilCountCard = () =>
  card({
    name: 'absolute-neutrophil-count',
    title: 'Absolute neutrophil count from leucocytes and differential',
    formula: 'ANC = leucocytes × (segmented % + bands %) / 100',
    unit: '/uL',
    source:
      'CDC NHSN Patient Safety Component Manual, chapter 4, January 2026, p. 4-10 (the printed formula lacks brackets; its example fixes the meaning)',
    cautions: [
      'An automated "neutrophils %" usually includes bands already; add bands only to segmented neutrophils.',
      'Leucocytes and differential must be of the same blood sample.',
      deferToClinician,
    ],
    refuses: [
      'leucocytes twice, not at all, or without their unit',
      'segmented neutrophils and all neutrophils both, or neither',
      'percentages that add up to more than 100',
    ],
    inputs: {
      leucocytesPerUl: optional(
        quantity('/uL', '0', '1000000', 'leucocytes; or give leucocytes with leucocytesUnit'),
      ),
      leucocytes: optional(
        quantity('in leucocytesUnit', '0', '1000000', 'leucocytes as the laboratory printed them'),
      ),
      leucocytesUnit: optional(choice(cellCountUnits(), 'unit of leucocytes, exactly as printed')),
      segmentedPercent: optional(quantity('%', '0', '100', 'segmented neutrophils')),
      bandsPercent: optional(quantity('%', '0', '100', 'bands; 0 when left out')),
      neutrophilsPercent: optional(
        quantity('%', '0', '100', 'all neutrophils, bands included, instead of the two above'),
      ),
    },
  });

export type AbsoluteNeutrophilCountInput = InputOf<ReturnType<typeof absoluteNeutrophilCountCard>['inputs']>;

/**
 * Neutrophils per microlitre from leucocytes and differential.
 *
 * Leucocytes come per microlitre, or in the laboratory's own unit with its name; a count without a unit is refused,
 * since 0.8 and 800 are both plausible. The result is exact, nothing is rounded.
 *
 * @formula ANC = leucocytes × (segmented % + bands %) / 100
 * @units `leucocytesPerUl` in /uL; `leucocytes` in leucocytesUnit; `segmentedPercent` in %; `bandsPercent`
 *   in %; `neutrophilsPercent` in %; result in /uL
 * @ranges
 * - `leucocytesPerUl` (optional): 0 to 1000000 /uL; leucocytes; or give leucocytes with leucocytesUnit
 * - `leucocytes` (optional): 0 to 1000000 in leucocytesUnit; leucocytes as the laboratory printed them
 * - `leucocytesUnit` (optional): one of /uL, {cells}/uL, cells/uL, /mm3, /cmm, 10*6/L, 10^6/L, x10^6/L,
 *   10*3/uL, 10^3/uL, x10*3/uL, x10^3/uL, 10*9/L, 10^9/L, x10^9/L, K/uL, k/mm3, thou/mcL, G/L, G/l,
 *   lakhs/cu.mm; unit of leucocytes, exactly as printed
 * - `segmentedPercent` (optional): 0 to 100 %; segmented neutrophils
 * - `bandsPercent` (optional): 0 to 100 %; bands; 0 when left out
 * - `neutrophilsPercent` (optional): 0 to 100 %; all neutrophils, bands included, instead of the two above
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: leucocytes twice, not at all, or without their
 *   unit
 * @throws {@link CalculatorError} where refused together: segmented neutrophils and all neutrophils both, or
 *   neither
 * @throws {@link CalculatorError} where refused together: percentages that add up to more than 100
 * @cautions
 * - An automated "neutrophils %" usually includes bands already; add bands only to segmented neutrophils.
 * - Leucocytes and differential must be of the same blood sample.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source CDC NHSN Patient Safety Component Manual, chapter 4, January 2026, p. 4-10 (the printed formula
 *   lacks brackets; its example fixes the meaning)
 * @example
 * ```ts
 * absoluteNeutrophilCount({ leucocytesPerUl: '4500', segmentedPercent: '40' }).value; // '1800'
 * ```
 */
export function absoluteNeutrophilCount(input: AbsoluteNeutrophilCountInput): Result {
  const own = absoluteNeutrophilCountCard();
  const read = readInput(own.inputs, input);
  const leucocytes = leucocytesPerUl(read);
  const { share, working } = neutrophilShare(read);
  const count = times(times(leucocytes, share), decimal('0.01'));
  return answerAmount(
    own,
    count,
    [
      ...(read.leucocytes === undefined
        ? []
        : [`leucocytes ${toText(read.leucocytes)} ${read.leucocytesUnit} = ${toText(leucocytes)} /uL`]),
      ...working,
      `${toText(leucocytes)} /uL × ${toText(share)} % ÷ 100 = ${toText(count)} /uL`,
    ],
    [
      ...neutrophilCautions(count),
      ...raisedWhere([
        read.segmentedPercent !== undefined && read.bandsPercent === undefined,
        'Bands were not given and count as 0 %; with bands the count would be higher.',
      ]),
    ],
  );
}

interface Leucocytes {
  readonly leucocytesPerUl: Decimal | undefined;
  readonly leucocytes: Decimal | undefined;
  readonly leucocytesUnit: ReturnType<typeof cellCountUnits>[number] | undefined;
}

function leucocytesPerUl(read: Leucocytes): Decimal {
  const wanted = 'either leucocytesPerUl, or leucocytes together with leucocytesUnit';
  const { leucocytesPerUl: direct, leucocytes, leucocytesUnit } = read;
  if (direct !== undefined && leucocytes === undefined && leucocytesUnit === undefined) return direct;
  if (direct === undefined && leucocytes !== undefined && leucocytesUnit !== undefined) {
    return perUl(leucocytes, leucocytesUnit);
  }
  throw inconsistent('leucocytes', undefined, wanted);
}

interface Differential {
  readonly segmentedPercent: Decimal | undefined;
  readonly bandsPercent: Decimal | undefined;
  readonly neutrophilsPercent: Decimal | undefined;
}

function neutrophilShare(read: Differential): {
  readonly share: Decimal;
  readonly working: readonly string[];
} {
  const { segmentedPercent, bandsPercent, neutrophilsPercent } = read;
  if (neutrophilsPercent !== undefined && segmentedPercent === undefined && bandsPercent === undefined) {
    return { share: neutrophilsPercent, working: [] };
  }
  if (segmentedPercent === undefined || neutrophilsPercent !== undefined) {
    const wanted = 'either segmentedPercent with or without bandsPercent, or neutrophilsPercent alone';
    throw inconsistent('segmentedPercent', undefined, wanted);
  }
  const bands = bandsPercent ?? decimal('0');
  const share = plus(segmentedPercent, bands);
  if (compare(share, decimal('100')) > 0) {
    throw inconsistent('bandsPercent', toText(share), 'segmented and bands together at most 100 %');
  }
  return {
    share,
    working: [`segmented ${toText(segmentedPercent)} % + bands ${toText(bands)} % = ${toText(share)} %`],
  };
}
