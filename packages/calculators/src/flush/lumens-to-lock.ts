import { type Result, answer, card, inconsistent, raisedWhere } from '../lib/calculator.js';
import { deferToDevice } from '../lib/cautions.js';
import { type Decimal, compare, decimal, toText } from '../lib/decimal.js';
import { type InputOf, choice, flag, list, name, optional, quantity, readInput } from '../lib/input.js';

export const lumensToLockCard = () =>
  card({
    name: 'lumens-to-lock',
    title: 'Which lumens need a flush and lock, and in which order',
    formula:
      'idle lumens only: those with blood in them first, then the longest since the last lock, then by name',
    unit: 'lumens',
    source: 'common practice, no source',
    cautions: [
      'Flush each lumen with saline before its lock, and use a new syringe for each lumen.',
      'A lumen on an infusion needs its flush and lock when the infusion stops.',
      deferToDevice,
    ],
    refuses: ['two lumens of one name'],
    inputs: {
      lumens: list(
        1,
        10,
        {
          name: name('the lumen'),
          use: choice(['idle', 'infusing', 'blocked'], 'what it is used for now'),
          bloodInside: optional(
            flag('blood was drawn or given through it, or is seen in it, since the last flush'),
          ),
          hoursSinceLock: optional(
            quantity('h', '0', '10000', 'since its last lock; left out when not known'),
          ),
          valved: optional(flag('it has a valve instead of a clamp')),
        },
        'every lumen of the line',
      ),
    },
  });

export type LumensToLockInput = InputOf<ReturnType<typeof lumensToLockCard>['inputs']>;

/** How many as `value`; the names in order beside it. */
export interface LumensToLock extends Result<number> {
  readonly order: readonly string[];
}

interface Lumen {
  readonly name: string;
  readonly use: 'idle' | 'infusing' | 'blocked';
  readonly bloodInside: boolean | undefined;
  readonly hoursSinceLock: Decimal | undefined;
}

/**
 * The lumens that need a flush and lock now, the most urgent first.
 *
 * Blood left in a lumen clots first, so such a lumen leads; a lumen whose last lock is not known counts as the
 * longest. A blocked lumen is not locked and not forced: it goes to the treatment of occlusion.
 *
 * @formula idle lumens only: those with blood in them first, then the longest since the last lock, then by
 *   name
 * @units `lumens[].hoursSinceLock` in h; result in lumens
 * @ranges
 * - `lumens`: a list of 1 to 10 entries; every lumen of the line
 * - `lumens[].name`: text of 1 to 80 characters; the lumen
 * - `lumens[].use`: one of idle, infusing, blocked; what it is used for now
 * - `lumens[].bloodInside` (optional): true or false; blood was drawn or given through it, or is seen in it,
 *   since the last flush
 * - `lumens[].hoursSinceLock` (optional): 0 to 10000 h; since its last lock; left out when not known
 * - `lumens[].valved` (optional): true or false; it has a valve instead of a clamp
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @throws {@link CalculatorError} where refused together: two lumens of one name
 * @cautions
 * - Flush each lumen with saline before its lock, and use a new syringe for each lumen.
 * - A lumen on an infusion needs its flush and lock when the infusion stops.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source common practice, no source
 * @example
 * ```ts
 * lumensToLock({
 *   lumens: [{ name: 'b', use: 'idle', hoursSinceLock: 5 }, { name: 'a', use: 'idle', hoursSinceLock: 5 }, { name: 'c', use: 'idle', hoursSinceLock: 30 }, { name: 'd', use: 'idle', hoursSinceLock: 1, bloodInside: true }, { name: 'e', use: 'infusing' }, { name: 'f', use: 'blocked' }, { name: 'g', use: 'idle', bloodInside: false }],
 * }).value; // 5
 * ```
 */
export function lumensToLock(input: LumensToLockInput): LumensToLock {
  const own = lumensToLockCard();
  const { lumens } = readInput(own.inputs, input);
  const names = lumens.map((lumen) => lumen.name);
  const twice = names.find((each, index) => names.indexOf(each) !== index);
  if (twice !== undefined) throw inconsistent('lumens', twice, 'every lumen with a name of its own');
  const ordered = lumens.filter((lumen) => lumen.use === 'idle').sort(byUrgency);
  const blocked = lumens.filter((lumen) => lumen.use === 'blocked').map((lumen) => lumen.name);
  const valved = lumens
    .filter((lumen) => lumen.use === 'idle' && lumen.valved === true)
    .map((lumen) => lumen.name);
  const order = ordered.map((lumen) => lumen.name);
  const waiting = lumens.filter((lumen) => lumen.use === 'infusing').map((lumen) => lumen.name);
  return {
    ...answer(
      own,
      order.length,
      [
        ...ordered.map((lumen, index) => `${index + 1}. ${lumen.name}: ${reason(lumen)}`),
        ...waiting.map((each) => `${each}: infusing, no lock now`),
        ...blocked.map((each) => `${each}: blocked, no flush, no lock`),
      ],
      raisedWhere(
        [
          blocked.length > 0,
          `Blocked: ${blocked.join(', ')}. Do not force a flush; look for the cause first.`,
        ],
        [
          valved.length > 0,
          `With a valve: ${valved.join(', ')}. The maker usually asks for saline, not heparin.`,
        ],
      ),
    ),
    order,
  };
}

function byUrgency(a: Lumen, b: Lumen): number {
  const blood = Number(b.bloodInside === true) - Number(a.bloodInside === true);
  const idle = compare(hoursIdle(b), hoursIdle(a));
  return blood !== 0 ? blood : idle !== 0 ? idle : a.name < b.name ? -1 : 1;
}

const hoursIdle = (lumen: Lumen): Decimal => lumen.hoursSinceLock ?? decimal('1000000');

function reason({ bloodInside, hoursSinceLock }: Lumen): string {
  const since =
    hoursSinceLock === undefined ? 'last lock not known' : `${toText(hoursSinceLock)} h since the last lock`;
  return bloodInside === true ? `blood inside, ${since}` : since;
}
