import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToClinician } from '../lib/cautions.js';
import { type InputOf, flag, readInput, whole } from '../lib/input.js';

export const deviceByDurationCard = () =>
  card({
    name: 'device-by-duration',
    title: 'Kind of device by how long it is expected to be needed',
    formula:
      'critically ill, up to 14 d: rather a non-tunneled catheter; else peripherally compatible, up to 5 d: no PICC; 6 to 14 d: rather a midline or an ultrasound-guided peripheral cannula; else no rule',
    unit: '',
    source:
      'MAGIC 2015 (acpjournals.org M15-0744, seen): PICC inappropriate for a peripherally compatible infusion of up to 5 d; 6 to 14 d rather a midline or ultrasound-guided cannula; critical illness up to 14 d rather a non-tunneled central catheter. Critical illness first where both speak: order of ours, no source',
    cautions: [
      'How long it will be needed is a guess: choose again when it grows.',
      'Whether an infusion is peripherally compatible the pharmacy or the drug’s own text says.',
      'The state of the veins, kidney disease and what is already in place are not in it.',
      deferToClinician,
    ],
    inputs: {
      expectedDays: whole('d', '1', '3650', 'days for which access is expected to be needed'),
      peripherallyCompatible: flag('all that is to be infused may go into a peripheral vein'),
      criticallyIll: flag('the patient is critically ill'),
    },
  });

export type DeviceByDurationInput = InputOf<ReturnType<typeof deviceByDurationCard>['inputs']>;

type Preferred = 'no-picc' | 'midline-or-ultrasound-guided-peripheral' | 'nontunneled-cvc' | 'no-rule';

/** What the published rules prefer as `value`, and what they say of a PICC. */
export interface DeviceByDuration extends Result<Preferred> {
  readonly picc: 'inappropriate' | 'not-preferred' | 'no-rule';
}

/**
 * Which device the published rules prefer for the expected time. 5 d belong to the shorter rule, 14 d to the
 * longer one; beyond 14 d, and for what may not go into a peripheral vein, these rules say nothing.
 *
 * @formula critically ill, up to 14 d: rather a non-tunneled catheter; else peripherally compatible, up to 5
 *   d: no PICC; 6 to 14 d: rather a midline or an ultrasound-guided peripheral cannula; else no rule
 * @units `expectedDays` in d; result a word
 * @ranges
 * - `expectedDays`: a whole number from 1 to 3650 d; days for which access is expected to be needed
 * - `peripherallyCompatible`: true or false; all that is to be infused may go into a peripheral vein
 * - `criticallyIll`: true or false; the patient is critically ill
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - How long it will be needed is a guess: choose again when it grows.
 * - Whether an infusion is peripherally compatible the pharmacy or the drug’s own text says.
 * - The state of the veins, kidney disease and what is already in place are not in it.
 * - A licensed clinician judges the patient; local policy rules. This is a check, not an order.
 * @source MAGIC 2015 (acpjournals.org M15-0744, seen): PICC inappropriate for a peripherally compatible
 *   infusion of up to 5 d; 6 to 14 d rather a midline or ultrasound-guided cannula; critical illness up to
 *   14 d rather a non-tunneled central catheter. Critical illness first where both speak: order of ours, no
 *   source
 * @example
 * ```ts
 * deviceByDuration({
 *   expectedDays: 5,
 *   peripherallyCompatible: true,
 *   criticallyIll: false,
 * }).value; // 'no-picc'
 * ```
 */
export function deviceByDuration(input: DeviceByDurationInput): DeviceByDuration {
  const own = deviceByDurationCard();
  const { expectedDays, peripherallyCompatible, criticallyIll } = readInput(own.inputs, input);
  const withinTwoWeeks = expectedDays <= 14;
  const short = peripherallyCompatible && expectedDays <= 5;
  const middle = peripherallyCompatible && withinTwoWeeks;
  const critical = criticallyIll && withinTwoWeeks;
  const preferred: Preferred = critical
    ? 'nontunneled-cvc'
    : short
      ? 'no-picc'
      : middle
        ? 'midline-or-ultrasound-guided-peripheral'
        : 'no-rule';
  const picc = short ? 'inappropriate' : middle || critical ? 'not-preferred' : 'no-rule';
  return {
    ...answer(
      own,
      preferred,
      [
        `${expectedDays} d, peripherally compatible ${peripherallyCompatible ? 'yes' : 'no'}, critically ill ${criticallyIll ? 'yes' : 'no'}`,
        `preferred: ${preferred}; PICC: ${picc}`,
      ],
      raisedWhere(
        [
          critical && peripherallyCompatible,
          'Two rules speak here: what is infused would also go into a peripheral vein. The clinician weighs whether a central line is needed.',
        ],
        [preferred === 'no-rule', 'None of these rules speaks here; that is no leave to choose any device.'],
      ),
    ),
    picc,
  };
}
