import type { CalculatedName, Policy, Rule } from '@dwellward/policy';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { isKnownAdult } from '../facts/blood-loss.js';
import { catheterVolume, discardOf, flushOf, mayBeDialysis, orderOfDraw, said } from '../due/calculated.js';
import { dueCare } from '../due/due-care.js';
import { policyAt } from '../due/in-force.js';
import type { AsOf } from '../model/care.js';
import type { Moment } from '../facts/facts.js';
import { applies } from '../rules/applies.js';
import { targetsOf } from '../timeline/targets.js';
import { timelineOf, type Timeline } from '../timeline/timeline.js';
import { questionsOf } from '../due/questions.js';
import { partFor, stepOf, workOf } from '../due/work.js';
import { whatRuns } from '../lumens/stopping.js';
import type { StepPart } from '../model/sentences.js';
import type { TubeCode } from '../model/sentences/tubes.js';
import { sentenceKey } from '../words/keys.js';
import { Refusal } from '../words/refusal.js';
import type { LineRecord, Lumen } from '../model/record.js';
import { drawLumens } from './draw-lumens.js';
import { lossOf, sumMl } from './draw-loss.js';
import {
  aboveLimit,
  askInstead,
  drugInLumen,
  forCoagulation,
  isBeforeDiscard,
  samplePitfalls,
  withoutLimit,
} from './draw-sample.js';
import type { DrawOptions, BloodDraw, DrawTest, DrawTube } from './model.js';

/** The tube of each sample: which additive a test needs is the laboratory’s to say; these are the usual ones. */
const tubeOf: Readonly<Record<DrawTest, TubeCode>> = {
  culture: 'blood-culture',
  coagulation: 'citrate',
  chemistry: 'serum',
  'drug-level': 'serum',
  'plasma-chemistry': 'heparin',
  'blood-count': 'edta',
  crossmatch: 'edta',
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
 * Pure. Throws a Refusal where the policy in force has no steps of a blood draw, where no test is named, where the
 * lumen is not the line’s, where several could be meant, or where it is blocked, damaged or not to be used: the message
 * says why, and which other lumen can be drawn from; where the line is not in place; a CoreError where `asOf` or an earlier draw is no
 * instant with an offset; and a CalculatorError for a volume that can’t be.
 *
 * It advises and never orders: local policy, the laboratory, the device’s own instructions and the licensed clinician
 * come first.
 * @example
 * ```ts
 * const wider = readPolicy([...defaultPlans(), bundledPlan('blood-sampling')]);
 * const [line] = records.lines;
 * const asked = { lumen: line!.lumens[1]!.ref, tests: [{ test: 'blood-count', volumeMl: '3' } as const] };
 * wider.ok && bloodDraw(line!, asked, wider.policy, when).lumen.ref === asked.lumen; // true
 * ```
 */
export function bloodDraw(line: LineRecord, given: DrawOptions, policy: Policy, when: AsOf): BloodDraw {
  const options = inOrder(given);
  if (options.tests.length === 0) throw new Refusal({ code: 'no-test-named' });
  const calendar = new Calendar(when.zone);
  const timeline = timelineOf(line, calendar, instantMs(when.asOf));
  const lumen = lumenOf(line, options);
  const moment = (one: Lumen): Moment => {
    const target = targetsOf(line, 'lumen').find(({ ref }) => ref === one.ref);
    if (!target) throw noSuchLumen(line, one.ref);
    return { timeline, target, ms: timeline.asOfMs, staleAfter: policy.labStaleAfter };
  };
  const rule = stepsRule(policyAt(policy, when), moment(lumen));
  const care = dueCare(line, policy, when);
  const held = care.holds.filter(
    (hold) =>
      hold.activity === 'blood-sampling' &&
      (hold.target.scope === 'line' || hold.target.ref === lumen.ref) &&
      instantMs(hold.from) <= timeline.asOfMs,
  );
  const lumens = drawLumens(care, whatRuns(timeline), lumen, mayBeDialysis(line.type), held);
  const withheld = questionsOf(rule, timeline);
  const tests = testsOf(options);
  const tubes = tubesOf(options);
  const coagulation = tests.includes('coagulation');
  const adult = isKnownAdult(timeline);
  const discard = coagulation
    ? forCoagulation(discardOf(lumen, 'coagulation', timeline), adult)
    : discardOf(lumen, 'general', timeline);
  const own: Partial<Record<CalculatedName, StepPart>> = {
    discardVolume: said(discard, 'volume'),
    tubes: { code: 'tubes-drawn', tubes },
    infusingLumens: lumens.infusing,
    idleLumens: lumens.idle,
  };
  const work = workOf(rule, timeline, moment(lumen).target);
  const flushBefore = said(forCoagulation(flushOf(lumen), adult), 'volume');
  const steps = (rule.work.steps ?? []).map((step, i, all) => {
    const before = coagulation && isBeforeDiscard(all, i);
    return stepOf(step, (name) =>
      before && name === 'flushVolume'
        ? flushBefore
        : (own[name] ?? partFor(timeline, lumen, withheld)(name)),
    );
  });
  const cautions: BloodDraw['cautions'] = [
    ...samplePitfalls(tests),
    ...lumens.cautions,
    ...(discard.ok
      ? discard.cautions
      : [{ code: 'not-worked-out', what: 'discard-volume', reason: discard.reason } as const]),
    ...(discard.ok && coagulation && adult ? [{ code: 'discard-before-coagulation' } as const] : []),
    ...work.filter(({ kind }) => kind === 'caution').map(({ text }) => text),
  ];
  const discardMl = discard.ok ? discard.value : undefined;
  const taken = whatItTakes(options, rule, { timeline, lumen, tubes, discardMl, adult });
  return {
    line: line.ref,
    patient: line.patient.ref,
    lumen: { ref: lumen.ref, name: lumen.name },
    at: calendar.text(timeline.asOfMs),
    rule: { id: rule.id, title: rule.title },
    questions: withheld.questions,
    warnings: taken.warnings,
    steps: taken.ask.length > 0 ? [] : steps,
    ask: taken.ask,
    tubes,
    stop: lumens.stop,
    irrigate: lumens.irrigate,
    leave: lumens.leave,
    ...(discardMl === undefined ? {} : { discardMl }),
    ...(taken.oldLockMl === undefined ? {} : { oldLockMl: taken.oldLockMl }),
    holds: held,
    supplies:
      taken.ask.length > 0 ? [] : work.filter(({ kind }) => kind === 'supply').map(({ text }) => text),
    cautions: [...new Map(cautions.map((caution) => [sentenceKey(caution), caution])).values()],
    sources: rule.citations,
    notes: rule.notes,
    loss: taken.loss,
  };
}

/** What the draw takes against the limit, what has to be known before it, and what to ask in place of its steps. */
function whatItTakes(
  options: DrawOptions,
  rule: Rule,
  given: {
    readonly timeline: Timeline;
    readonly lumen: Lumen;
    readonly tubes: readonly DrawTube[];
    readonly discardMl: string | undefined;
    readonly adult: boolean;
  },
): Pick<BloodDraw, 'loss' | 'warnings' | 'ask' | 'oldLockMl'> {
  const { timeline, lumen, tubes, discardMl, adult } = given;
  const tests = testsOf(options);
  const deadSpace = catheterVolume(lumen);
  const oldLockMl = deadSpace.ok && namesOldLock(rule) ? deadSpace.value : undefined;
  const drawnOff = namesOldLock(rule) ? { oldLock: { ml: oldLockMl } } : {};
  const loss = lossOf(options, tubes, { discardMl, ...drawnOff }, timeline);
  const ran = drugInLumen(tests, timeline, lumen);
  return {
    loss,
    warnings: [
      ...aboveLimit(tests, loss, discardMl, { timeline, adult, deadSpace, drugRan: ran.length > 0 }),
      ...(timeline.line.type === undefined ? [{ code: 'draw-from-unknown-type' } as const] : []),
      ...withoutLimit(adult, loss),
      ...ran,
    ],
    ask: askInstead(loss, tubes),
    ...(oldLockMl === undefined ? {} : { oldLockMl }),
  };
}

/** The tests in the order of draw, so that the same draw gives the same answer. */
function inOrder(options: DrawOptions): DrawOptions {
  const place = ({ test }: DrawOptions['tests'][number]) => drawTests.indexOf(test);
  return { ...options, tests: [...options.tests].sort((a, b) => place(a) - place(b)) };
}

/**
 * Whether the policy in force has the steps of a blood draw.
 * @example
 * ```ts
 * hasDrawSteps(policy, when); // false
 * ```
 */
export function hasDrawSteps(policy: Policy, when: AsOf): boolean {
  return policyAt(policy, when).rules.some(describesDraw);
}

function namesOldLock({ work }: Rule): boolean {
  return (work.steps ?? []).some((step) =>
    step.some((part) => typeof part !== 'string' && part.calculated === 'oldLockVolume'),
  );
}

function describesDraw({ activity, work }: Rule): boolean {
  return activity === 'blood-sampling' && (work.steps ?? []).length > 0;
}

/** The rule that says how a draw from this line and this patient is done. */
function stepsRule(policy: Policy, at: Moment): Rule {
  const rule = policy.rules.find((one) => describesDraw(one) && applies(one, at).applies);
  if (!rule) throw new Refusal({ code: 'no-steps-of-a-draw' });
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
  throw lumen === undefined
    ? new Refusal({ code: 'say-which-lumen', line: line.ref, lumens: namesOf(line) })
    : noSuchLumen(line, lumen);
}

function noSuchLumen(line: LineRecord, given: string): Refusal {
  return new Refusal({ code: 'no-such-lumen', line: line.ref, given, lumens: namesOf(line) });
}

function namesOf({ lumens }: LineRecord) {
  return lumens.map(({ ref, name }) => ({ ref, name }));
}

function testsOf({ tests }: DrawOptions): DrawTest[] {
  return tests.map(({ test }) => test);
}

function tubesOf({ tests }: DrawOptions): DrawTube[] {
  return orderOfDraw.flatMap((tube) => {
    const own = tests.filter(({ test }) => tubeOf[test] === tube);
    if (own.length === 0) return [];
    const volumeMl = sumMl(own.map((one) => one.volumeMl));
    return [
      {
        tube: { code: 'tube', tube },
        tests: [...new Set(own.map(({ test }) => test))],
        ...(volumeMl === undefined ? {} : { volumeMl }),
      },
    ];
  });
}
