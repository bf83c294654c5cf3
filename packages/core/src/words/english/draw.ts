import { lowerDisplay, lumenNamed } from './common.js';
import { closedText } from './outputs.js';
import type { DrawSentences, NamedLumen } from '../../model/sentences/draw.js';
import type { DrawTest, TubeCode } from '../../model/sentences/tubes.js';
import type { Speech, Wordings } from '../language.js';

const tubes: Readonly<Record<TubeCode, string>> = {
  'blood-culture': 'blood culture bottles',
  citrate: 'citrate',
  serum: 'serum',
  heparin: 'heparin',
  edta: 'EDTA',
  fluoride: 'fluoride',
};

const testNames: Readonly<Record<DrawTest, string>> = {
  culture: 'culture',
  coagulation: 'coagulation',
  chemistry: 'chemistry',
  'drug-level': 'drug level',
  'plasma-chemistry': 'plasma chemistry',
  'blood-count': 'blood count',
  crossmatch: 'crossmatch',
  glucose: 'glucose',
};

const notWorkedOut = 'The limit of blood loss could not be worked out';

export const draws: Wordings<keyof DrawSentences> = {
  tube: ({ tube }) => tubes[tube],
  'tubes-drawn': ({ tubes: drawn }, { say }) =>
    drawn
      .map(
        ({ tube, tests, volumeMl }) =>
          `${say(tube)} (${tests.map((test) => testNames[test]).join(', ')}${volumeMl === undefined ? '' : `, ${volumeMl} mL`})`,
      )
      .join('; '),
  'lumens-to-irrigate': ({ lumens, keepsLock, leave }, { say, list }) => {
    const others =
      lumens.length > 0
        ? list(lumens, ', ')
        : keepsLock
          ? 'none; the lock of a dialysis catheter stays where it is'
          : 'none';
    const left = leave.map(
      ({ name, state }) => `leave ${say(name)}, which is ${lowerDisplay('lumenState', state)}`,
    );
    return [others, ...left].join('; ');
  },
  'draw-above-limit': ({ thisDrawMl, safeTodayMl, atLeast }) =>
    `THIS DRAW IS ABOVE WHAT MAY STILL BE DRAWN TODAY: ${atLeast ? 'at least ' : ''}${thisDrawMl} mL, discard included, and ${safeTodayMl} mL may be. No steps are given for it: draw less, or ask the prescriber first.`,
  'no-push-pull-for-coagulation': () =>
    'Push–pull wastes nothing, but a coagulation sample needs its discard (CLSI H21-A5, from memory): ask whether it can wait, or take it from a vein.',
  'no-push-pull-for-level': () =>
    'No push–pull for the level of a drug that may have run through this lumen (common practice, no source): take it from a vein.',
  'no-push-pull-for-child': ({ cycleMl, mostMl }) =>
    cycleMl === undefined || mostMl === undefined
      ? 'No push–pull: what one cycle takes, or the child’s blood volume, is not known (common practice, no source).'
      : `No push–pull: one cycle of ${cycleMl} mL is more than the ${mostMl} mL, 1 % of the blood volume, that may go out and in at once, or too little to be drawn (common practice, no source).`,
  'child-without-limit': () =>
    'HOW MUCH MAY BE DRAWN COULD NOT BE WORKED OUT, and this may be a child: find out age and weight, and ask the prescriber before you draw.',
  'draw-from-unknown-type': () =>
    'WHICH LINE THIS IS IS NOT ON RECORD: find out before anything goes in. Until then it is treated as a dialysis catheter.',
  'ask-which-can-wait': ({ tubes: drawn }, { say }) =>
    `Ask the prescriber which of these can wait: ${say({ code: 'tubes-drawn', tubes: drawn })}.`,
  'ask-for-smaller-tubes': () =>
    'Ask the laboratory for its smallest tubes, and which tests can share one (common practice, no source).',
  'ask-another-way': () =>
    'Ask whether a vein, or a prick of heel or finger, does: then nothing is discarded (common practice, no source).',
  'then-ask-again': () => 'Then ask again here, with the tests and volumes that are left.',
  'push-pull-instead': ({ cycleMl, child, without }) =>
    `Push–pull instead of the discard wastes nothing: draw ${cycleMl} mL and give it back, at least 3 times, with the same syringe, where local policy and the laboratory allow it (Royal Marsden Manual, chapter 13${child ? ', of adults; the volume, 3 × dead space and at most 1 % of the blood volume: common practice, no source' : ''}).${
      without === undefined
        ? ''
        : ` Without the discard this draw takes ${without.ml} mL: ${without.within ? 'that keeps within' : 'still above'}.`
    }`,
  'drug-may-be-in-lumen': ({ lumen }, { say }) =>
    `Something runs through ${say(lumen)}, or ran through it in the last 24 hours: where it is the drug whose level is asked for, the level from this lumen is false. Take it from a vein or from another lumen (common practice, no source).`,
  'heparin-falsifies': ({ tests }) =>
    `A lumen that holds heparin falsifies ${tests.map((test) => testNames[test]).join(' and ')}: use a vein or a lumen without heparin (RNAO; for drug levels by the same reason, common practice, no source); where that can’t be, clear and discard the heparin first (US heparin labels).`,
  'level-of-a-given-drug': () =>
    'The level of a drug comes out too high from a lumen that it ran through: take it from a vein, or from a lumen that never had it (common practice, no source).',
  'discard-before-coagulation': () =>
    'Coagulation in an adult: flush 5 mL, then discard 5 mL or 6 × dead space (CLSI H21-A5, from memory; 6 × also RNAO): the larger is taken.',
  'lumen-is-sluggish': ({ why }, { say }) => `This lumen is sluggish: do not force it. ${say(why)}`,
  'volumes-without-discards': () =>
    'Volumes are from the samples on record, without what was discarded: the loss is at least this.',
  'draws-of-unknown-volume': ({ count }) =>
    `Draws and samples of blood in the last 8 weeks whose volume or time is not known: ${count}. The loss is at least this.`,
  'withdrawals-counted': ({ count }) =>
    `Counted too: what was withdrawn after a treated lumen opened, ${count} times, 3 mL each below 10 kg and 5 mL above (US dosing card).`,
  'fill-volume-not-given': ({ tests }) =>
    `The volume of this draw is not known: give the fill volume of ${tests.join(', ')}.`,
  'discard-not-worked-out': () =>
    'The volume of this draw is not known: the discard could not be worked out.',
  'no-limit-without-age': () => `${notWorkedOut}: the age is not on record.`,
  'no-limit-without-weight': () => `${notWorkedOut}: no recent weight is on record as one exact value.`,
  'strictest-limit-taken': () =>
    'No limit of the unit is given: 3 % of the blood volume in 24 hours and 10 % in 8 weeks are taken, the strictest of those in use (3, 3.8 and 5 %; 10 % a month or in 8 weeks).',
  'limit-not-worked-out': ({ reason }, { say }) => `${notWorkedOut}: ${say(reason)}`,
  'planned-above-safe': () =>
    'The planned volume is above what is safe today: draw less, or ask the prescriber.',
  'nothing-left-today': () => 'Nothing is left of the limit today.',
  'no-test-named': () => 'No test is named: a blood draw needs one.',
  'no-steps-of-a-draw': () =>
    'The policy has no steps of a blood draw: lay the bundled layer blood-sampling over it.',
  'no-steps-of-a-repair': () =>
    'The policy has no steps of a repair: lay the bundled layer repair-care over it.',
  'say-which-lumen': ({ line, lumens }, speech) =>
    `${line} has several lumens; say which: ${lumensText(lumens, ', ', speech)}.`,
  'say-which-damaged-lumen': ({ line, lumens }, speech) =>
    `${line} has several lumens, and the damage on record does not name just one; say which: ${lumensText(lumens, ', ', speech)}.`,
  'no-such-lumen': ({ line, given, lumens }, speech) =>
    `${given} is no lumen of ${line}. Lumens: ${lumensText(lumens, ', ', speech)}.`,
  'no-draw-from-line': ({ line, because }) =>
    `${line} is not in place (${closedText(because)}): no blood is drawn from it.`,
  'no-draw-from-lumen': ({ lumen, state, since, holds, why, others }, speech) => {
    const instead =
      others.length > 0
        ? `Draw from ${lumensText(others, ' or ', speech)} instead, or from a vein.`
        : 'No other lumen of the line can be used: draw from a vein.';
    const titles = new Set(
      holds.map(
        ({ title, until }) => `${title}${until === undefined ? '' : `, until ${speech.instant(until)}`}.`,
      ),
    );
    const reasons = [...titles, ...why.map((one) => speech.say(one))].join(' ');
    return `No blood is drawn from ${lumensText([lumen], '', speech)}: it is ${lowerDisplay('lumenState', state)}${since === undefined ? '' : ` since ${speech.instant(since)}`}. ${reasons} ${instead}`;
  },
  'draw-head': ({ name, line, lumen, patient, at }, { say, instant }) =>
    `Blood draw, ${say(name)} (${line}), ${lumenNamed(lumen)}, ${patient}, at ${instant(at)}`,
  'hold-by-title': ({ title, until }, { instant }) =>
    `${title}${until === undefined ? '' : `, until ${instant(until)}`}`,
  'this-draw-takes': ({ ml, leastMl }) =>
    `this draw: ${ml === undefined ? `not known${leastMl === undefined ? '' : `, at least ${leastMl} mL`}` : `${ml} mL`}`,
  'lost-before': ({ last24HoursMl, last30DaysMl, last8WeeksMl }) =>
    `before it, as far as known: ${last24HoursMl} mL in 24 hours, ${last30DaysMl} mL in 30 days, ${last8WeeksMl} mL in 8 weeks`,
  'may-still-be-drawn': ({ ml, within }) =>
    `may still be drawn today: ${ml} mL${within === undefined ? '' : within ? ': this draw keeps within' : ': THIS DRAW IS ABOVE IT'}`,
};

function lumensText(lumens: readonly NamedLumen[], between: string, { say }: Speech): string {
  return lumens.map(({ name, ref }) => `${say(name)} (${ref})`).join(between);
}
