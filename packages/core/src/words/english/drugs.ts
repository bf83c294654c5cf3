import { drugRow, substanceRow, type SourceMark } from '@dwellward/profiles';
import type { DrugSentences, RunningSaid, WhatRunsSentences } from '../../model/sentences/drugs.js';
import type { Wordings } from '../language.js';
import { capital, shortName } from './common.js';

type Stop = WhatRunsSentences['what-runs']['stop'];

/** What is done with a drug that must not stop, without a full stop. Common practice, no source. */
const moveFirst = 'call the responsible clinician now and move it to another line first';

const stops: Readonly<Record<Stop, string>> = {
  now: 'stop it now and clamp',
  'or-say-why': 'stop it and clamp, or say why',
  'for-draw': 'stop it for the draw',
};

const marks: Readonly<Record<SourceMark, string>> = {
  seen: '',
  'seen-secondary': ', as reported',
  'from-memory': ', from memory',
  'common-practice': ', common practice, no source',
};

const kinds = { allergy: 'an allergy', problem: 'a problem', flag: 'a flag' } as const;

export const drugs: Wordings<keyof DrugSentences> = {
  'what-runs': ({ running, stop }) => whatRunsText(running, stop),
  'warning-against-hold': ({ lumens, rest }, { say }) =>
    `WARNING, ${lumens.map(shortName).join(', ')}: an infusion runs against a hold. ${say(rest)}`,
  'vesicant-in-small-vein': ({ running, sources }) =>
    `WARNING: ${running.map((one) => drugText(one)).join('; ')} ${surely(running) ? 'harms' : 'may harm'} the tissue that it leaks into, and the tip of this line lies in a small vein. Call the responsible clinician now about another line. ${whatRunsText(running, 'or-say-why')} (${[
      'many of these must not go through a midline: vascularaccess.com.au 2017',
      ...sources.map(({ text, mark }) => `${text}${marks[mark]}`),
    ].join('; ')}.)`,
  'care-not-computed': ({ reason }, { say }) =>
    `WARNING: what care this line needs could not be worked out (${say(reason)}). That nothing is listed does not mean that nothing is due: look after it by the local policy and the record, and tell whoever runs this.`,
  'runs-before-tip-is-confirmed': ({ running }) =>
    `WARNING: ${capital(running.map((one) => drugText(one)).join('; '))} ${running.length === 1 ? 'runs' : 'run'}, and where the tip lies was never confirmed, as far as is on record: find out and chart it now, before anything else is connected. ${whatRunsText(running, 'or-say-why')}`,
  'heparin-of-day': (heparin) =>
    `${heparin.limitCheck === 'above' ? 'WARNING: heparin on record in the last 24 hours is above the limit of small infants' : 'Heparin on record in the last 24 hours'}: ${heparinText(heparin)}.${
      heparin.limitCheck === 'above'
        ? ' Ask the prescriber before any more of it, in locks and flushes too (limit: caregiver sheet of a children’s hospital).'
        : ''
    }`,
  'may-it-be-used': ({ substance, entry, withheld }) => {
    const { display } = substanceRow(substance);
    const { kind, sure, text, at, ref, over } = entry;
    const quoted = text === undefined ? '' : ` “${text}”`;
    const when = at === undefined ? '' : ` of ${at.text.slice(0, 10)}`;
    return `ASK FIRST: ${kinds[kind]} on record${quoted}${when} (${ref})${over ? ', charted as over,' : ''} ${sure ? 'speaks' : 'may speak'} against ${display}, and this care uses it or may use it: ask the responsible clinician what to use instead.${
      withheld ? ' What belongs to it is left out here until that is answered.' : ''
    }`;
  },
  'ask-first-of': ({ substances }) =>
    `ASK FIRST, as above: ${substances.map((one) => substanceRow(one).display).join(', ')}.`,
  'not-read': () =>
    'Not read, and so behind nothing here: prescriptions and other orders for drugs, pregnancy, and what stands in free notes only.',
};

/** What is on record of heparin, without a full stop. */
function heparinText({
  doses,
  units,
  unitsPerKg,
  limitUnitsPerKg,
  unknown,
}: DrugSentences['heparin-of-day']): string {
  const most = limitUnitsPerKg === undefined ? '' : `, at most ${limitUnitsPerKg} units/kg`;
  const perKg =
    unitsPerKg === undefined
      ? limitUnitsPerKg === undefined
        ? ''
        : ` (per kg not known: there is no weight${most})`
      : ` (${unitsPerKg} units/kg${most})`;
  const sum = doses === 0 ? 'no amount' : `${units} units${doses === 1 ? '' : ` in ${doses} doses`}${perKg}`;
  const missing =
    unknown === 0
      ? ''
      : `; ${unknown} more ${unknown === 1 ? 'dose or lock' : 'doses or locks'} of unknown amount not counted`;
  return `${sum}${missing}`;
}

function surely(running: readonly RunningSaid[]): boolean {
  return running.every(({ drug }) => (drug?.codes ?? []).length > 0);
}

/** What to do about what runs: the one place where it is said. */
function whatRunsText(running: readonly RunningSaid[], stop: Stop): string {
  const of = (...what: readonly RunningSaid['stopping'][]) =>
    running.filter(({ stopping }) => what.includes(stopping));
  const names = (group: readonly RunningSaid[]) => group.map((one) => drugText(one)).join(', ');
  const circulation = of('circulation');
  const harm = of('harm');
  const unknown = of('find-out');
  const others = of('may-stop');
  const never = `${stop === 'for-draw' ? `${moveFirst}, or draw from a vein` : moveFirst}.`;
  return [
    ...(circulation.length > 0
      ? [
          `${capital(names(circulation))} ${circulation.length === 1 ? 'keeps' : 'keep'} up the circulation and must never just be stopped: ${never}`,
        ]
      : []),
    ...(harm.length > 0
      ? [
          `${capital(names(harm))} ${harm.length === 1 ? 'harms' : 'harm'} when stopped suddenly and must never just be stopped: ${never}`,
        ]
      : []),
    ...(unknown.length > 0 || running.length === 0
      ? [
          `${running.length === 0 ? 'Look what runs: nothing is on record.' : `Find out what runs: ${names(unknown)}.`} If it keeps up the circulation, as a vasopressor does, or must not stop suddenly, never just stop it: ${never} Anything else: ${stops[stop]}.`,
        ]
      : []),
    ...(others.length > 0 ? [`${capital(names(others))}: ${stops[stop]}.`] : []),
  ].join(' ');
}

/** A drug with its lumen, as far as either is known. */
function drugText({ lumen, drug, unsure }: RunningSaid): string {
  const through = lumen === undefined ? '' : ` through ${shortName(lumen)}`;
  const hint = (drug?.mayBe ?? []).map((code) => drugRow(code).display).join(' or ');
  const perhaps = hint === '' ? '' : ` (which may be ${hint})`;
  return `${drugName(drug)}${through}${perhaps}${unsure ? ' (whether it still runs is not known: look)' : ''}`;
}

function drugName(drug: RunningSaid['drug']): string {
  if (drug === undefined) return 'a drug that is not named';
  if (drug.codes.length > 0) return drug.codes.map((code) => drugRow(code).display).join(' with ');
  return drug.text === undefined ? 'a drug without a name' : `“${drug.text}”`;
}
