import { type Result, answer, card } from '../lib/calculator.js';
import { deferToDevice, printedVolumeFirst } from '../lib/cautions.js';
import { type InputOf, choice, readInput } from '../lib/input.js';

interface Row {
  readonly total: string;
  readonly internal: string;
  readonly overfill: string;
  readonly extra: string;
}

const row = (total: string, internal: string, overfill: string, extra: string): Row => ({
  total,
  internal,
  overfill,
  extra,
});

/** Goossens 2015, Nurs Res Pract 985686, Table 4, in mL, as printed. */
const table = () => ({
  peripheral: row('1', '0.03', '0.006', '0.9'),
  midline: row('1.5', '0.4', '0.1', '1'),
  picc: row('1.5', '0.6', '0.1', '0.8'),
  'nontunneled-cvc': row('1.5', '0.6', '0.1', '0.8'),
  'tunneled-cvc-to-1-mm': row('1.5', '0.7', '0.1', '0.7'),
  'tunneled-cvc-above-1-mm': row('2.5', '1.3', '0.3', '0.9'),
  'implanted-port': row('2.5', '1.3', '0.3', '0.9'),
});

type Device = keyof ReturnType<typeof table>;

export const lockVolumeByDeviceCard = () =>
  card({
    name: 'lock-volume-by-device',
    title: 'Published lock volume by kind of device, where the priming volume is not known',
    formula: 'table: internal volume + 20 % + extra, as printed',
    unit: 'mL',
    source: 'Goossens 2015, Nurs Res Pract 985686, Table 4 (seen)',
    cautions: [
      printedVolumeFirst,
      'Only for a lock that does no harm if it reaches the circulation.',
      'Adult devices; not for children.',
      deferToDevice,
    ],
    inputs: {
      device: choice(
        Object.keys(table()) as readonly Device[],
        'kind of device; tunnelled catheters by inner diameter, a port with a reservoir of at most 0.6 mL',
      ),
    },
  });

export type LockVolumeByDeviceInput = InputOf<ReturnType<typeof lockVolumeByDeviceCard>['inputs']>;

/** Total as `value`, its printed parts beside it. */
export interface LockVolumeByDevice extends Result {
  readonly internalMl: string;
  readonly overfillMl: string;
  readonly extraMl: string;
}

/**
 * A total lock volume for a device whose own volume is not known. As printed, nothing is rounded here.
 *
 * @formula table: internal volume + 20 % + extra, as printed
 * @units result in mL
 * @ranges
 * - `device`: one of peripheral, midline, picc, nontunneled-cvc, tunneled-cvc-to-1-mm,
 *   tunneled-cvc-above-1-mm, implanted-port; kind of device; tunnelled catheters by inner diameter, a port
 *   with a reservoir of at most 0.6 mL
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Where the maker prints a volume on the limb or in the leaflet, use that volume instead of a computed
 *   one.
 * - Only for a lock that does no harm if it reaches the circulation.
 * - Adult devices; not for children.
 * - Local policy and the device maker’s instructions rule; this is a check, not an order.
 * @source Goossens 2015, Nurs Res Pract 985686, Table 4 (seen)
 * @example
 * ```ts
 * lockVolumeByDevice({ device: 'picc' }).value; // '1.5'
 * ```
 */
export function lockVolumeByDevice(input: LockVolumeByDeviceInput): LockVolumeByDevice {
  const own = lockVolumeByDeviceCard();
  const { device } = readInput(own.inputs, input);
  const { total, internal, overfill, extra } = table()[device];
  return {
    ...answer(own, total, [
      `${device}: internal ${internal} mL, overfill ${overfill} mL, extra ${extra} mL, total as printed ${total} mL`,
    ]),
    internalMl: internal,
    overfillMl: overfill,
    extraMl: extra,
  };
}
