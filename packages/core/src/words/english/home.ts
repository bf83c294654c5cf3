import { substanceRow, type LineCareActivity } from '@dwellward/profiles';
import type { Name, Sentence } from '../../model/sentences.js';
import type { AdviceCode, HomeLabel, HomeSentences } from '../../model/sentences/home.js';
import type { Speech, Wordings } from '../language.js';
import { capital, lowerDisplay, msOf } from './common.js';
import { plainSupplies } from './home-supplies.js';
import { unansweredText } from './issues.js';
import { timeOfDay, weekdayText } from './times.js';

// The sheet is for families: short words, short sentences. Wording is ours.
const labels: Readonly<Record<HomeLabel, string>> = {
  title: 'Your line at home',
  'intro-help': 'This sheet helps you to look after your line.',
  'intro-shown': 'Do only what your nurse has shown you.',
  'intro-unit-first': 'If the unit tells you something else, do what the unit says.',
  'call-title': 'Whom to call',
  'unit-phone': 'Your unit, day and night:',
  'emergency-phone': 'Emergency number:',
  'emergency-title': 'Call the emergency number at once if',
  'broken-title': 'If the line breaks or is open',
  'signs-title': 'Call the unit at once, day or night, if',
  'late-title': 'Late: do this today, or call the unit',
  'now-title': 'Call the unit now',
  'not-now-title': 'Not now',
  'daily-title': 'Every day',
  'days-title': 'The next 14 days',
  day: 'Day',
  todo: 'What to do',
  'only-daily': 'The same as every day.',
  nothing: 'Nothing is planned.',
  'always-title': 'Always',
  'never-title': 'Never',
  'bring-title': 'Bring to each visit',
  'supplies-title': 'Have these at home for the next 14 days',
  'safe-side':
    'Some things about your line are not on record. So this plan is on the safe side. Ask your nurse.',
  'plan-can-change': 'The plan can change. A new blood test or a wet dressing can move a day.',
  'planned-title': 'Before your line goes in',
  'no-line': 'We have no line on record for you. Ask the unit.',
  unsure: 'If you are not sure, call the unit.',
};

const advice: Readonly<Record<AdviceCode, string>> = {
  'chest-hurts': 'Your chest hurts.',
  'hard-to-breathe': 'It is hard to breathe.',
  'line-falls-out': 'The line falls out. Press hard on the spot with a clean pad, and keep on.',
  'line-breaks':
    'The line breaks or leaks. Clamp it at once, between the break and your body. Put clean gauze on the break. Then call.',
  fever: 'You have a fever of 38.0 °C (100.4 °F) or more.',
  'cap-off':
    'The cap is off, or the tube is open. Close the clamp at once, near your body. Lie down. Then call.',
  'needle-out': 'The needle comes out of the port. Press on the spot with a clean pad.',
  'port-red': 'The skin over the port is red, hot, sore or open, or it swells.',
  'port-needle-is-for-staff': 'If there is a needle in your port, your nurse looks after it.',
  'dialysis-unit-only': 'Never let anyone but the dialysis unit open the line.',
  'cold-after-flush': 'You shake or feel cold after a flush.',
  'red-or-fluid': 'The skin at the line is red, or fluid comes out.',
  rash: 'You get a rash.',
  'arm-or-neck-swells': 'Your arm or your neck swells.',
  'longer-or-shorter': 'The part outside is longer or shorter than before, or you can see the cuff.',
  'hard-to-flush': 'The line is hard to flush. Stop, and do not force it.',
  'dressing-wet': 'The dressing is wet.',
  'wash-hands': 'Wash your hands before you touch the line.',
  'scrub-the-end': 'Scrub the end of the line for 15 seconds each time. Let it dry.',
  'keep-dry': 'Keep the line and the dressing dry.',
  'tape-in-a-loop': 'Tape the line to your skin in a loop, so that it cannot pull.',
  'no-forced-flush': 'Never force a flush.',
  'not-under-water': 'Never put the line under water. No swims and no full baths.',
  'no-cuff-on-the-arm': 'Never let a cuff for blood pressure go on the arm with the line.',
  'no-scissors': 'Never use scissors near the line.',
  'never-push-in': 'Never push the line back in.',
  'this-sheet': 'This sheet.',
  'card-of-the-line': 'The card of your line, if you have one.',
  'list-of-drugs': 'A list of the drugs you take.',
  'the-clamp': 'The clamp you were given. Keep it near you at all times.',
  'still-needed': 'One question: do I still need the line?',
};

/** What an activity is called at home, with the tubes it is done to. What has no words here is named by its display. */
const tasks: Readonly<Partial<Record<LineCareActivity, string | ((tubes: string) => string)>>> = {
  'site-assessment': 'look at the skin where the line comes out',
  'dressing-change': 'change the dressing',
  flush: (tubes) => `flush ${tubes}`,
  lock: (tubes) => `put the lock fluid into ${tubes}`,
  'needleless-connector-change': (tubes) => `put a new cap on ${tubes}`,
  'administration-set-change': (tubes) => `change the drip set on ${tubes}`,
  'external-length-measurement': 'measure the part of the line that is outside',
  'clamp-position-change': 'move the clamp to a new place',
  'securement-change': 'change what holds the line in place',
  bath: 'wash with the soap you were given',
  teaching: 'go through this sheet with you',
  'laboratory-review': 'look at your blood test',
  'patency-assessment': 'test the line',
  'suture-removal': 'take out the stitches',
  'access-needle-change': 'change the needle of the port',
  'access-needle-removal': 'take the needle out of the port',
  'blood-sampling': 'take blood',
  'occlusion-treatment': 'treat the blocked line',
  'splint-removal': 'take off the splint',
  'tip-confirmation': 'check where the tip lies',
  'infusion-start': 'start the drip',
  'infusion-stop': 'stop the drip',
  repair: 'mend the line',
  removal: 'take out the line',
  insertion: 'put in the line',
};

/** What was found, to the family, by what answers it. */
const troubles: Readonly<Partial<Record<LineCareActivity, string>>> = {
  'air-entry-response':
    'Air may have got into the line. Close the clamp, lie down, and call the emergency number.',
  'breakage-response': 'The line is broken or leaks. Clamp it between the break and your body.',
  'bleeding-response': 'Blood comes out at the line. Press on the spot with a clean pad.',
  'extravasation-response': 'Fluid may have gone under the skin.',
  'fever-response': 'You have a fever, or you shake.',
  'infection-sign-response': 'The skin at the line may have an infection.',
  'swelling-response': 'Your arm, your neck or your face swells.',
  'new-site-response': 'The new spot where the line goes in drips or swells.',
  'migration-response': 'The line has moved. Tape it down as it is. Do not push it in.',
  'retained-catheter-response':
    'A piece of the line may be left in you. Lie still and call the emergency number.',
  'blockage-response': 'The line may be blocked. Do not force it.',
};

const held: Readonly<Partial<Record<LineCareActivity, (on: string) => string>>> = {
  'infusion-start': (on) => `Let nothing run through ${on}`,
  flush: (on) => `Do not flush ${on}`,
  lock: (on) => `Do not put the lock fluid into ${on}`,
  'dressing-change': () => 'Leave the dressing on',
  'getting-up': () => 'Lie flat, and do not get up',
};

export const home: Wordings<keyof HomeSentences> = {
  'home-label': ({ label }) => labels[label],
  'home-advice': ({ advice: code }) => advice[code],
  'home-task': ({ activity, at, tubes }, speech) => {
    if (at === 'incision') return 'look at the small cut over the vein';
    if (at === 'port' && activity === 'site-assessment') return 'look at the skin over the port';
    const task = tasks[activity];
    if (task === undefined) return `ask the unit about this: ${lowerDisplay('lineCareActivity', activity)}`;
    return typeof task === 'string' ? task : task(tubesText(tubes, at === 'port', speech));
  },
  'nurse-does': ({ tasks: all }, speech) => `Your nurse does this: ${inPairs(all, speech)}.`,
  'nurse-does-by': ({ tasks: all, at }, speech) =>
    `By ${dayAndClock(msOf(at), speech)} your nurse does this: ${inPairs(all, speech)}.`,
  'nurse-late': ({ tasks: all }, speech) =>
    `This is late, and your nurse does it: ${inPairs(all, speech)}. Call the unit and ask when.`,
  'do-by-clock': ({ clock, task }, { say }) => `By ${clock}: ${say(task)}.`,
  'do-it': ({ task }, { say }) => `${capital(say(task))}.`,
  'do-by-day': ({ at, task }, speech) => `By ${dayAndClock(msOf(at), speech)}: ${speech.say(task)}.`,
  'do-late': ({ task }, { say }) => `Late, do this now or call the unit: ${say(task)}.`,
  'call-about': ({ activity, title }) => troubles[activity] ?? `${title}.`,
  'tell-nurse': ({ found }, speech) =>
    `Tell your nurse now: ${unansweredText(found, speech)}. This plan does not say what to do about it.`,
  'wait-with-this': ({ todo }, { say }) => `Wait with this until the unit says so: ${say(todo)}`,
  'ask-before-you-do': ({ todo, substances }, { say }) =>
    `Ask your nurse before you do this: ${say(todo)} Your record speaks against ${substances.map((one) => substanceRow(one).display).join(', ')}.`,
  'ask-what-is-in-it': ({ substance }) =>
    `Your record speaks against ${substanceRow(substance).display}. Ask your nurse if what you use is free of it.`,
  'leave-at-home': ({ activity, tube, until }, speech) => {
    const on = tube === undefined ? 'the line' : `this tube: ${speech.say(tube)}`;
    const what = held[activity]?.(on) ?? `Leave this: ${lowerDisplay('lineCareActivity', activity)}`;
    return until === undefined
      ? `${what}. Wait until the unit says so.`
      : `${what} until ${dayAndClock(msOf(until), speech)}.`;
  },
  'sheet-for': ({ patient, made }, speech) => `For ${patient}. Made ${dayAndClock(msOf(made), speech)}.`,
  'your-line': ({ name }, { say }) => `Your line: ${say(name)}`,
  'line-goes-in': ({ at }, speech) =>
    at === undefined
      ? 'Your line goes in soon. Ask the unit when.'
      : `Your line goes in on ${dayAndClock(msOf(at), speech)}.`,
  'home-supply': ({ count, what }, { say }) => {
    const plain =
      what.code === 'policy-text' && Object.hasOwn(plainSupplies, what.text)
        ? plainSupplies[what.text]
        : undefined;
    return `${count} x ${plain ?? say(what)}`;
  },
  'home-day': ({ at }, { calendar }) => weekdayText(msOf(at), calendar),
};

/** Two in a sentence: a long list is not read to its end. */
function inPairs(all: readonly Sentence<'home-task'>[], { list }: Speech): string {
  const pairs = Array.from({ length: Math.ceil(all.length / 2) }, (_, i) => all.slice(2 * i, 2 * i + 2));
  return pairs.map((pair) => list(pair, '; ')).join('. And this: ');
}

function tubesText(tubes: readonly Name[], ofPort: boolean, { list }: Speech): string {
  if (ofPort) return 'the port';
  if (tubes.length === 0) return 'the line';
  return `${tubes.length === 1 ? 'this tube' : 'these tubes'}: ${list(tubes, ', ')}`;
}

function dayAndClock(ms: number, { calendar }: Speech): string {
  return `${weekdayText(ms, calendar)}, ${timeOfDay(ms, calendar)}`;
}
