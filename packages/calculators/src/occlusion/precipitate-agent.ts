import { type Result, answer, card, raisedWhere } from '../lib/calculator.js';
import { deferToDrug } from '../lib/cautions.js';
import { compare, decimal, round, toText } from '../lib/decimal.js';
import { type InputOf, choice, flag, optional, quantity, readInput } from '../lib/input.js';

interface Agent {
  readonly agent: string;
  readonly alternative: string;
  readonly source: string;
  readonly isAcid: boolean;
}

const acid = 'hydrochloric acid 0.1 mol/L';

const agents = () =>
  ({
    'calcium-phosphate': {
      isAcid: true,
      agent: acid,
      alternative: 'L-cysteine 50 mg (10 of 16 episodes cleared)',
      source: 'Shulman 1988, Duffy 1989 (0.2 to 1.0 mL, 1 h; seen); L-cysteine: Pai & Plogsted 2014 (seen)',
    },
    'acidic-drug': {
      isAcid: true,
      agent: acid,
      alternative: '',
      source: 'Shulman 1988, Duffy 1989 (0.2 to 1.0 mL, 1 h; seen)',
    },
    'basic-drug': {
      isAcid: false,
      agent: 'sodium bicarbonate 1 mmol/mL (8.4 %)',
      alternative: 'sodium hydroxide 0.1 mol/L (16 of 19 episodes cleared)',
      source: 'Pai & Plogsted 2014 (seen); sodium hydroxide: Sando 1997 (seen)',
    },
    fat: {
      isAcid: false,
      agent: 'ethanol 70 %',
      alternative: '',
      source: 'McHugh 1997, Schilcher 2013 (seen)',
    },
  }) as const satisfies Readonly<Record<string, Agent>>;

type Precipitate = keyof ReturnType<typeof agents>;

export const precipitateAgentCard = () =>
  card({
    name: 'precipitate-agent',
    title: 'What dissolves a precipitate in a lumen, and how much of it',
    formula: 'agent by table; volume = internal volume of the lumen, down to 0.01 mL',
    unit: '',
    source:
      'By precipitate, see the result; volume, dwell of 20 to 60 min and at most two tries: INS/CVAA (from memory, to be checked)',
    cautions: [
      'Find out from the drugs given what precipitated; the wrong agent makes it worse.',
      'Fill the lumen only; afterwards aspirate the agent and do not push it into the patient.',
      'Off-label use of chemicals: needs a prescriber and the pharmacy.',
      deferToDrug,
    ],
    inputs: {
      precipitate: choice(Object.keys(agents()) as readonly Precipitate[], 'what blocks the lumen'),
      lumenVolumeMl: quantity('mL', '0.01', '10', 'internal volume of the lumen'),
      polyurethane: optional(flag('the catheter is made of polyurethane; left out when not known')),
    },
  });

export type PrecipitateAgentInput = InputOf<ReturnType<typeof precipitateAgentCard>['inputs']>;

/** Agent as `value`; volume, dwell and tries beside it. */
export interface PrecipitateAgent extends Result {
  readonly volumeMl: string;
  readonly dwellLeastMinutes: number;
  readonly dwellMostMinutes: number;
  readonly mostTries: number;
  /** Empty where no other agent is published. */
  readonly alternative: string;
}

/**
 * The agent for a mineral, drug or fat precipitate, and the volume that just fills the lumen.
 *
 * @formula agent by table; volume = internal volume of the lumen, down to 0.01 mL
 * @units `lumenVolumeMl` in mL; result a word
 * @ranges
 * - `precipitate`: one of calcium-phosphate, acidic-drug, basic-drug, fat; what blocks the lumen
 * - `lumenVolumeMl`: 0.01 to 10 mL; internal volume of the lumen
 * - `polyurethane` (optional): true or false; the catheter is made of polyurethane; left out when not known
 * @throws {@link CalculatorError} for an input that is missing, unknown, ill-formed or out of range
 * @cautions
 * - Find out from the drugs given what precipitated; the wrong agent makes it worse.
 * - Fill the lumen only; afterwards aspirate the agent and do not push it into the patient.
 * - Off-label use of chemicals: needs a prescriber and the pharmacy.
 * - The prescription, local policy and the drug’s and device’s own instructions rule; this is a check, not
 *   an order.
 * @source By precipitate, see the result; volume, dwell of 20 to 60 min and at most two tries: INS/CVAA
 *   (from memory, to be checked)
 * @example
 * ```ts
 * precipitateAgent({ precipitate: 'fat', lumenVolumeMl: '0.619' }).value; // 'ethanol 70 %'
 * ```
 */
export function precipitateAgent(input: PrecipitateAgentInput): PrecipitateAgent {
  const own = precipitateAgentCard();
  const { precipitate, lumenVolumeMl, polyurethane } = readInput(own.inputs, input);
  const { agent, alternative, source, isAcid } = agents()[precipitate];
  const volume = round(lumenVolumeMl, 2, 'down');
  const volumeMl = toText(volume);
  const beyondAcid = isAcid && compare(volume, decimal('1')) > 0;
  return {
    ...answer(
      own,
      agent,
      [
        `${precipitate}: ${agent}`,
        `lumen ${toText(lumenVolumeMl)} mL, down to 0.01: ${volumeMl} mL`,
        isAcid ? 'leave for 60 min, then aspirate' : 'leave for 20 to 60 min, then aspirate',
      ],
      raisedWhere(
        [beyondAcid, 'Published acid instillations were 0.2 to 1.0 mL; this lumen holds more.'],
        [
          precipitate === 'fat' && polyurethane === true,
          'Ethanol softens polyurethane: ask the device maker first.',
        ],
        [
          precipitate === 'fat' && polyurethane === undefined,
          'Ethanol softens polyurethane: find out the material first.',
        ],
        [
          precipitate === 'fat',
          'Ethanol precipitates protein: clear blood and protein from the lumen first.',
        ],
      ),
    ),
    source: `${source}; ${own.source}`,
    volumeMl,
    dwellLeastMinutes: isAcid ? 60 : 20,
    dwellMostMinutes: 60,
    mostTries: 2,
    alternative,
  };
}
