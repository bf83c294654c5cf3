import { stepText, type CalculatedName, type Policy, type Rule } from '@dwellward/policy';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { calculatedText, discardOf, flushOf, isDialysis, orderOfDraw, said } from '../due/calculated.js';
import { dueCare } from '../due/due-care.js';
import { policyAt } from '../due/in-force.js';
import type { AsOf } from '../model/care.js';
import type { Moment } from '../facts/facts.js';
import { targetsOf } from '../timeline/targets.js';
import { timelineOf } from '../timeline/timeline.js';
import { workOf } from '../due/work.js';
import type { LineRecord, Lumen } from '../model/record.js';
import { drawLumens } from './draw-lumens.js';
import { lossOf, sumMl } from './draw-loss.js';
import { aboveLimit, drugInLumen, forCoagulation, isBeforeDiscard, samplePitfalls } from './draw-sample.js';
import type { DrawOptions, DrawPlan, DrawTest, DrawTube } from './model.js';

/** The tube of each sample: which additive a test needs is the laboratory’s to say; these are the usual ones. */
const tubeOf: Readonly<Record<DrawTest, (typeof orderOfDraw)[number]>> = {
  culture: 'blood culture bottles',
  coagulation: 'citrate',
  chemistry: 'serum',
  'drug-level': 'serum',
  'plasma-chemistry': 'heparin',
  'blood-count': 'EDTA',
  crossmatch: 'EDTA',
  glucose: 'fluoride',
};

/** What a sample may be for, in the order of its tubes. */
export const drawTests = (Object.keys(tubeOf) as DrawTest[]).sort(
  (a, b) => orderOfDraw.indexOf(tubeOf[a]) - orderOfDraw.indexOf(tubeOf[b]),
);

/**
 * The steps of a blood draw from one lumen, with their volumes, by the policy’s definition of `blood-sampling`; which
 * infusions stop, which lumens are irrigated, the tubes in the published order of draw (CLSI GP41, from memory), and
 * the blood loss against the patient’s limit.
 *
 * Pure. Throws a RangeError where the policy in force has no steps of a blood draw, where no test is named, where the
 * lumen is not the line’s, where several could be meant, or where it is blocked, damaged or not to be used: the message
 * says why, and which other lumen can be drawn from; where the line is not in place; where `asOf` or an earlier draw is no instant with an
 * offset; and a CalculatorError for a volume that can’t be.
 *
 * It advises and never orders: local policy, the laboratory, the device’s own instructions and the licensed clinician
 * come first.
 */
export function drawPlan(line: LineRecord, given: DrawOptions, policy: Policy, when: AsOf): DrawPlan {
  const options = inOrder(given);
  const rule = stepsRule(policyAt(policy, when));
  if (options.tests.length === 0) throw new RangeError('No test is named: a blood draw needs one.');
  const calendar = new Calendar(when.zone);
  const timeline = timelineOf(line, calendar, instantMs(when.asOf));
  const lumen = lumenOf(line, options);
  const staleAfter = policy.labStaleAfter;
  const moment = (one: Lumen): Moment => {
    const target = targetsOf(line, 'lumen').find(({ ref }) => ref === one.ref);
    if (!target) throw new RangeError(`${one.ref} is no lumen of ${line.ref}.`);
    return { timeline, target, ms: timeline.asOfMs, staleAfter };
  };
  const care = dueCare(line, policy, when);
  const held = care.holds.filter(
    (hold) =>
      hold.activity === 'blood-sampling' &&
      (hold.target.scope === 'line' || hold.target.ref === lumen.ref) &&
      instantMs(hold.from) <= timeline.asOfMs,
  );
  const lumens = drawLumens(care, lumen, isDialysis(line.type), held);
  const tests = options.tests.map(({ test }) => test);
  const tubes = tubesOf(options);
  const coagulation = tests.includes('coagulation');
  const discard = coagulation ? forCoagulation(discardOf(lumen, 'coagulation')) : discardOf(lumen, 'general');
  const own: Partial<Record<CalculatedName, string>> = {
    discardVolume: said(discard, 'a volume'),
    tubes: tubes.map(tubeText).join('; '),
    infusingLumens: lumens.infusingText,
    idleLumens: lumens.idleText,
  };
  const target = moment(lumen).target;
  const work = workOf(rule, timeline, target);
  const flushBefore = said(forCoagulation(flushOf(lumen)), 'a volume');
  const steps = (rule.work.steps ?? []).map((step, i, all) => {
    const before = coagulation && isBeforeDiscard(all, i);
    return stepText(step, (name) =>
      before && name === 'flushVolume' ? flushBefore : (own[name] ?? calculatedText(name, timeline, lumen)),
    );
  });
  const discardMl = discard.ok ? discard.value : undefined;
  const loss = lossOf(options, tubes, discardMl, moment(lumen));
  return {
    line: line.ref,
    patient: line.patient.ref,
    lumen: { ref: lumen.ref, name: lumen.name },
    at: calendar.text(timeline.asOfMs),
    rule: { id: rule.id, title: rule.title },
    warnings: [...aboveLimit(tests, loss, discardMl), ...drugInLumen(tests, timeline, lumen)],
    steps,
    tubes,
    stop: lumens.stop,
    irrigate: lumens.irrigate,
    leave: lumens.leave,
    ...(discardMl === undefined ? {} : { discardMl }),
    holds: held,
    supplies: work.filter(({ kind }) => kind === 'supply').map(({ text }) => text),
    cautions: [
      ...new Set([
        ...samplePitfalls(tests),
        ...lumens.cautions,
        ...(discard.ok ? discard.cautions : [`Discard volume not worked out: ${discard.reason}`]),
        ...work.filter(({ kind }) => kind === 'caution').map(({ text }) => text),
      ]),
    ],
    sources: rule.citations,
    notes: rule.notes,
    loss,
  };
}

/** The tests in the order of draw, so that the same draw gives the same answer. */
function inOrder(options: DrawOptions): DrawOptions {
  const place = ({ test }: DrawOptions['tests'][number]) => drawTests.indexOf(test);
  return { ...options, tests: [...options.tests].sort((a, b) => place(a) - place(b)) };
}

/** Whether the policy in force has the steps of a blood draw. */
export function hasDrawSteps(policy: Policy, when: AsOf): boolean {
  return policyAt(policy, when).rules.some(describesDraw);
}

function describesDraw({ activity, work }: Rule): boolean {
  return activity === 'blood-sampling' && (work.steps ?? []).length > 0;
}

function stepsRule(policy: Policy): Rule {
  const rule = policy.rules.find(describesDraw);
  if (!rule)
    throw new RangeError(
      'The policy has no steps of a blood draw: lay the bundled layer blood-sampling over it.',
    );
  return rule;
}

function lumenOf(line: LineRecord, { lumen }: DrawOptions): Lumen {
  const [only, ...more] = line.lumens;
  const found =
    lumen === undefined
      ? more.length === 0
        ? only
        : undefined
      : line.lumens.find(({ ref }) => ref === lumen);
  if (found) return found;
  const names = line.lumens.map(({ ref, name }) => `${name} (${ref})`).join(', ');
  throw new RangeError(
    lumen === undefined
      ? `${line.ref} has several lumens; say which: ${names}.`
      : `${lumen} is no lumen of ${line.ref}. Lumens: ${names}.`,
  );
}

function tubesOf({ tests }: DrawOptions): DrawTube[] {
  return orderOfDraw.flatMap((tube) => {
    const own = tests.filter(({ test }) => tubeOf[test] === tube);
    if (own.length === 0) return [];
    const volumeMl = sumMl(own.map((one) => one.volumeMl));
    return [
      {
        tube,
        tests: [...new Set(own.map(({ test }) => test))],
        ...(volumeMl === undefined ? {} : { volumeMl }),
      },
    ];
  });
}

function tubeText({ tube, tests, volumeMl }: DrawTube): string {
  const what = tests.map((test) => test.replaceAll('-', ' ')).join(', ');
  return `${tube} (${what}${volumeMl === undefined ? '' : `, ${volumeMl} mL`})`;
}
