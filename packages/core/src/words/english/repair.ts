import type { PreconditionName, RepairSentences } from '../../model/sentences/repair.js';
import type { Wordings } from '../language.js';
import { lumenNamed } from './common.js';

const who = 'the device maker’s instructions and local policy say who may repair a line';

const toFindOut: Readonly<Record<PreconditionName, string>> = {
  'intact-length':
    'measure the intact catheter between the skin and the damage, and what is trimmed off it; read in the kit’s instructions how much it needs after that',
  'kit-size': 'read the size of the lumen and of the kit',
  'kit-for-device': 'see whether the kit is the maker’s for this very device',
  'no-clot': 'check the lumen for a clot',
  'stump-left': 'measure what is left for the clamp after the cut: never below 2.5 cm',
  'length-afterwards': 'measure the lengths of catheter, cut and new segment',
  'who-may-repair': who,
};

const preconditions: Readonly<Record<PreconditionName, string>> = {
  'intact-length': 'intact length',
  'kit-size': 'kit size',
  'kit-for-device': 'kit for device',
  'no-clot': 'no clot',
  'stump-left': 'stump left',
  'length-afterwards': 'length afterwards',
  'who-may-repair': 'who may repair',
};

const answers = { yes: 'yes', no: 'NO', 'not-known': 'not known' } as const;

const verdicts = {
  possible: 'A repair is possible.',
  'not-possible':
    'NOT TO BE REPAIRED as it stands: keep it clamped; the responsible clinician decides on a replacement.',
  'not-known': 'NOT YET: something has to be found out first. Keep it clamped.',
  'no-damage':
    'No damage is on record. Where you see some: clamp between it and the body, cover it with sterile gauze, call; chart it with its lumen and its distance from the skin, then ask again.',
} as const;

export const repairs: Wordings<keyof RepairSentences> = {
  'find-out-first': ({ what }) => `not known: ${toFindOut[what]}`,
  'maker-and-policy-say-who': () => who,
  'keep-it-clamped': () =>
    'Keep the clamp between the damage and the body, and cover the damage with sterile gauze.',
  'nothing-in-or-out': () => 'Put nothing into it and draw nothing out of it.',
  'call-the-line-team': () => 'Call the line team, and ask the responsible clinician about a replacement.',
  'source-of-safe-steps': () =>
    'What is done at once: home sheet of a US hospital (seen): clamp between the break and the body, cover with sterile gauze, call.',
  'repair-head': ({ name, line, lumen, patient, at }, { say, instant }) =>
    `Repair, ${say(name)} (${line})${lumen === undefined ? '' : `, ${lumenNamed(lumen)}`}, ${patient}, at ${instant(at)}`,
  'repair-verdict': ({ verdict }) => verdicts[verdict],
  'damage-on-record': ({ kinds, at, ref, fromSkinCm }, { instant }) =>
    `${kinds.join(', ') || 'damage'} on ${instant(at)} (${ref})${fromSkinCm === undefined ? '' : `, ${fromSkinCm} cm from the skin`}`,
  precondition: ({ name, met, reason }, { say }) =>
    `${preconditions[name]}: ${answers[met]} (${reason.code === 'find-out-first' ? toFindOut[reason.what] : say(reason)})`,
  'cut-at': ({ cm }) => `cut at ${cm} cm from the skin; the clamp sits between the skin and the cut`,
  'outside-afterwards': ({ cm }) => `${cm} cm outside the skin afterwards`,
  'air-to-withdraw': ({ ml }) => `at least ${ml} mL of air in the new segment, to be drawn back`,
};
