import type { CalculatedSentences, ReasonSentences, WorkSentences } from '../../model/sentences/work.js';
import type { Wordings } from '../language.js';
import { unstopped } from './common.js';

const nouns = {
  'flush-volume': 'Flush volume',
  'lock-volume': 'Lock volume',
  'syringe-size': 'Syringe size',
  'thrombolytic-dose': 'Dose of alteplase',
  'discard-volume': 'Discard volume',
} as const;

export const work: Wordings<keyof WorkSentences> = {
  'flush-with': ({ ml }) => `Flush with at least ${ml} mL`,
  'lock-with': ({ ml }) => `Lock with ${ml} mL`,
  'syringe-no-narrower-than': ({ ml }) => `Barrel no narrower than that of a ${ml} mL syringe`,
  'alteplase-if-ordered': ({ mg, ml }) => `Alteplase ${mg} mg in ${ml} mL, if the prescriber orders it`,
  'not-worked-out': ({ what, reason }, { say }) =>
    `${nouns[what]} not worked out: ${unstopped(say(reason))}.`,
  'no-dose-no-further': ({ reason }, { say }) =>
    `No dose could be worked out: ${unstopped(say(reason))}. Go no further without one.`,
  step: ({ parts }, { say }) => parts.map((part) => (typeof part === 'string' ? part : say(part))).join(''),
  'add-ons-not-counted': () => 'Add-ons are not counted: add their volume.',
  'no-overfill': () =>
    'The fill volume that is printed on the limb, and no more: what is put in beyond it reaches the blood.',
  'dose-is-for-weight': ({ kg, measured }, { say }) =>
    `Worked out for ${kg} kg, measured ${say({ code: 'recorded-time', time: measured })}: weigh again where that is long ago.`,
  'second-and-last-dose': ({ firstAt }, { instant }) =>
    `The second and last dose: the first was given ${instant(firstAt)}.`,
};

export const reasons: Wordings<keyof ReasonSentences> = {
  'lumen-not-on-record': () => 'The lumen is not on record',
  'priming-volume-not-on-record': () =>
    'the lumen’s priming volume is not on record. Read it from the lumen or the device’s instructions',
  'priming-volume-not-believed': ({ ml }) =>
    `a priming volume of ${ml} mL is more than any lumen holds. Read it from the lumen or the device’s instructions`,
  'weight-not-exact': () => 'the weight is not on record as one exact value. Weigh the patient',
  'dose-needs-lumen-volume': () =>
    'below 30 kg the dose follows the lumen’s internal volume, which is not on record. Ask for it: read it from the lumen or the device’s instructions',
  'doses-already-given': ({ count }) =>
    `${count} doses were given since the lumen was last found open, and nothing is known of a third. Ask the responsible clinician`,
  'ask-first': () =>
    'an allergy or a problem on record speaks against it. Ask the responsible clinician first',
  'at-least': ({ ml, reason }, { say }) => `at least ${ml} mL; ${say(reason)}`,
};

export const calculated: Wordings<keyof CalculatedSentences> = {
  'dose-in-volume': ({ mg, ml }) => `${mg} mg in ${ml} mL`,
  'cannot-be-worked-out': ({ what, reason }, { say }) =>
    `a ${what} that could not be worked out (${unstopped(say(reason))})`,
  'volume-between': ({ leastMl, mostMl, loss }) => {
    const volume = leastMl === mostMl ? `${leastMl} mL` : `${leastMl} to ${mostMl} mL`;
    if (loss === undefined) return volume;
    const { safeTodayMl, within } = loss;
    if (within === false)
      return `${volume} (blood loss, MORE THAN THE ${safeTodayMl} mL that may still be drawn today: ask the prescriber first how much)`;
    return safeTodayMl === undefined
      ? `${volume} (it counts as blood loss; how much may be drawn today is not known: ask the prescriber first)`
      : `${volume} (it counts as blood loss; ${safeTodayMl} mL may still be drawn today)`;
  },
  'withdrawal-by-weight': () => '4 to 5 mL, below 10 kg 3 mL (it counts as blood loss)',
  'old-lock': ({ ml, printed }) =>
    ml === undefined
      ? 'whose volume is not on record (read it from the limb before you go on; where none is printed, stop and ask)'
      : printed
        ? `${ml} mL as printed on its limb, with what hangs on it`
        : `${ml} mL by its measures, with what hangs on it (the volume printed on the limb comes first)`,
  'printed-volume': ({ ml }) => `${ml} mL, the volume printed on its limb, and no more`,
  'discard-volumes': ({ generalMl, coagulationMl }) =>
    `${generalMl} mL, ${coagulationMl} mL where a coagulation sample is drawn`,
  'order-of-draw': ({ tubes }, { list }) =>
    list(
      tubes.map((tube) => ({ code: 'tube', tube })),
      ', ',
    ),
  'every-idle-lumen': () => 'each one that is not infusing',
};
