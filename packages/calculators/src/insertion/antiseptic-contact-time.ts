import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToDrug } from '../lib/cautions.js';
import { type InputOf, choice, readInput } from '../lib/input.js';

interface Times {
  readonly scrubSeconds: number;
  readonly drySeconds: number;
  readonly published: string;
}

const row = (scrubSeconds: number, drySeconds: number, published: string): Times => ({
  scrubSeconds,
  drySeconds,
  published,
});

const dryingSource = 'drying: INS 2021 (from memory, to be checked)';
const scrubSource = 'scrub: 15 s is epic3’s minimum and the upper end of INS 2021’s 5 to 15 s (from memory)';
const skinScrub = 'scrub before insertion: 5 min (common practice, no source; older)';

const table = () => ({
  'skin-chlorhexidine-alcohol': row(0, 30, `${dryingSource}: 20 to 30 s`),
  'skin-povidone-iodine': row(0, 120, `${dryingSource}: 1.5 to 2 min and more`),
  'skin-alcohol': row(0, 5, `${dryingSource}: about 5 s`),
  'skin-before-insertion-chlorhexidine-alcohol': row(300, 30, `${skinScrub}; ${dryingSource}: 20 to 30 s`),
  'skin-before-insertion-povidone-iodine': row(
    300,
    120,
    `${skinScrub}; ${dryingSource}: 1.5 to 2 min and more`,
  ),
  'connector-chlorhexidine-alcohol': row(15, 30, `${scrubSource}; ${dryingSource}: 20 to 30 s`),
  'connector-alcohol': row(15, 5, `${scrubSource}; ${dryingSource}: about 5 s`),
  'connector-povidone-iodine': row(15, 360, `${scrubSource}; ${dryingSource}: 6 min`),
});

type Place = keyof ReturnType<typeof table>;

export const antisepticContactTimeCard = () =>
  card({
    name: 'antiseptic-contact-time',
    title: 'Scrub and drying time of an antiseptic',
    formula: 'time = scrub + drying, the upper end of each published range',
    unit: 's',
    source: 'By antiseptic and place, see the result',
    cautions: [
      'The product’s label rules; let it dry by itself, no wiping, no fanning.',
      'The best scrub time is not established: 5 to 60 s are advised across studies (Moureau & Flynn 2015, seen).',
      deferToDrug,
    ],
    inputs: { on: choice(Object.keys(table()) as readonly Place[], 'place and antiseptic') },
  });

export type AntisepticContactTimeInput = InputOf<ReturnType<typeof antisepticContactTimeCard>['inputs']>;

/** Seconds in all as `value`, scrub and drying beside it. */
export interface AntisepticContactTime extends Result<number> {
  readonly scrubSeconds: number;
  readonly drySeconds: number;
}

/**
 * How long an antiseptic needs on skin or connector before anything goes through.
 *
 * @formula time = scrub + drying, the upper end of each published range
 * @units result in s
 * @ranges
 * - `on`: one of skin-chlorhexidine-alcohol, skin-povidone-iodine, skin-alcohol,
 *   skin-before-insertion-chlorhexidine-alcohol, skin-before-insertion-povidone-iodine,
 *   connector-chlorhexidine-alcohol, connector-alcohol, connector-povidone-iodine; place and antiseptic
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - The product’s label rules; let it dry by itself, no wiping, no fanning.
 * - The best scrub time is not established: 5 to 60 s are advised across studies (Moureau & Flynn 2015,
 *   seen).
 * - The prescription, local policy and the drug’s and device’s own instructions rule; this is a check, not
 *   an order.
 * @source By antiseptic and place, see the result
 * @example
 * ```ts
 * antisepticContactTime({ on: 'skin-povidone-iodine' }).value; // 120
 * ```
 */
export function antisepticContactTime(input: AntisepticContactTimeInput): AntisepticContactTime {
  const own = antisepticContactTimeCard();
  const { on } = readInput(own.inputs, input);
  const { scrubSeconds, drySeconds, published } = table()[on];
  const total = scrubSeconds + drySeconds;
  return {
    ...answer(
      own,
      total,
      [`${on}: scrub ${scrubSeconds} s + drying ${drySeconds} s = ${total} s`],
      raisedWhere(
        [
          scrubSeconds === 0,
          'No scrub time is published for this one: apply as the label says, then let it dry.',
        ],
        [drySeconds > 60, 'Takes more than a minute to dry: wait for it.'],
      ),
    ),
    source: published,
    scrubSeconds,
    drySeconds,
  };
}
