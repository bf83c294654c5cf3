import type { EndOfHold, LayerName, PolicyChange } from '../../model/sentences.js';
import type { FactSentences, ReadingSentences, RemarkSentences } from '../../model/sentences/remarks.js';
import type { LineLength } from '../../model/basics.js';
import type { Speech, Wordings } from '../language.js';
import { capital, lowerDisplay } from './common.js';
import { productText, sentText } from './issues.js';

export const remarks: Wordings<keyof RemarkSentences> = {
  'counted-from-start-of': ({ time }, { say }) =>
    `Counted from the start of ${say({ code: 'recorded-time', time })}: the record gives no exact time.`,
  'counted-from-earliest-event': () =>
    'No insertion is on record: counted from the earliest event of the line.',
  'nothing-to-count-from': () => 'Nothing is on record to count from: due now.',
  'protective-reading': ({ facts }, { list }) =>
    `Not known: ${list(
      facts.map((fact) => ({ code: 'fact', fact })),
      ', ',
    )}. The protective reading is taken.`,
  'of-fact': ({ fact, remark }, { say }) => `${capital(say({ code: 'fact', fact }))}: ${say(remark)}.`,
  'applies-since': ({ since }, { instant }) => `The rule has applied since ${instant(since)}.`,
  held: ({ end, title, wasDueBy }, speech) =>
    `Held until ${endText(end, speech)} (${title}).${wasDueBy === undefined ? '' : ` It was due by ${speech.instant(wasDueBy)}.`}`,
  'opens-after-spacing': () => 'Opens only when the minimum spacing since the last time has passed.',
  emergency: ({ title, results }, { say }) =>
    `An emergency: ${[
      ...(title === undefined ? [] : [title]),
      ...results.map(
        ({ fact, value }) =>
          `${say({ code: 'fact-noun', fact })} ${say({ code: 'fact-value', fact, value })}`,
      ),
    ].join('; ')}.`,
  'asked-again': ({ done, at }, { instant }) =>
    done
      ? `The Task before it was marked as done on ${instant(at)} and nothing was charted: counted from then.`
      : `The Task before it was turned down on ${instant(at)}: asked for again.`,
  'also-asked': ({ titles }) => `At the same time: ${titles.join('; ')}.`,
  'asked-for-since': ({ change, since }, { instant }) =>
    `Asked for since ${changeText(change)}, in force since ${instant(since)}: not asked for before.`,
  'moved-by-version': ({ change, since, wasDueBy }, { instant }) =>
    `Moved by ${changeText(change)}, in force since ${instant(since)}: it was to be due by ${instant(wasDueBy)}.`,
  'judged-by-version': ({ layer, change, since }, { instant }) =>
    `Judged by ${layerText(layer)}: its window had opened before ${changeText(change)} came into force on ${instant(since)}.`,
};

function endText({ at, activity, findings = [] }: EndOfHold, { instant }: Speech): string {
  if (at !== undefined) return instant(at);
  if (activity !== undefined) return `the ${lowerDisplay('lineCareActivity', activity)} is done`;
  const found = findings.map((finding) => lowerDisplay('lineFinding', finding));
  return found.length > 0 ? `${found.join(' or ')} shows that it may end` : 'it ends';
}

function layerText({ title, version }: LayerName): string {
  return version === '' ? `“${title}”` : `version ${version} of “${title}”`;
}

function changeText({ came, ended }: PolicyChange): string {
  if (came.length > 0) return came.map(layerText).join(' and ');
  return `the end of ${ended.map(layerText).join(' and ')}`;
}

export const facts: Wordings<keyof FactSentences> = {
  'dressing-not-said': () => 'the last dressing change does not say which dressing was put on',
  'birth-date-in-future': () => 'the birth date lies in the future',
  'result-is-stale': ({ sent }) => `the last result, ${productText(sent)}, is older than the policy’s limit`,
  'neutrophils-at-most': ({ sent }) =>
    `the neutrophils are at most the leucocytes, ${productText(sent)}; a later count of theirs is not on record`,
  'external-length-impossible': ({ mostCm }) => `an external length of more than ${mostCm} cm can’t be`,
  'first-length-since-stands-for-it': () =>
    'the length at the insertion or the tip confirmation is not on record; the first one since stands for it',
  'infusion-without-end': () => 'an infusion has no end on record, and does not say that it runs',
  'no-lock-since': ({ activity }) =>
    `no lock was charted since the last ${lowerDisplay('lineCareActivity', activity)}`,
};

export const readings: Wordings<keyof ReadingSentences> = {
  'body-temperature': ({ sent }) => `Body temperature ${sentText(sent)}.`,
  'removed-catheter-read-as': ({ cm, length, read }, speech) =>
    `${cm} cm came out; on record: ${lengthText(length, speech)}. Read as ${read}: the finding does not say.`,
  'length-on-record': ({ length }, speech) => lengthText(length, speech),
};

function lengthText(length: LineLength | undefined, { instant }: Speech): string {
  const whole =
    length?.wholeCm === undefined
      ? 'no whole length; read it from the papers of the insertion or of the device'
      : `${length.wholeCm} cm whole (${length.ref}${length.at === undefined ? '' : `, ${instant(length.at)}`})`;
  const outside =
    length?.externalCm === undefined ? '' : `, ${length.externalCm} cm of it outside the skin when inserted`;
  const repaired =
    length?.repairedAt === undefined
      ? ''
      : `; repaired since, ${instant(length.repairedAt)}: reckon with what was cut off and added then`;
  return `${whole}${outside}${repaired}`;
}
