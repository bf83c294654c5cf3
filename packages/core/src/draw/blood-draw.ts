import type { CalculatedName, Policy, Rule } from '@dwellward/policy';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { discardOf, flushOf, isDialysis, orderOfDraw, said } from '../due/calculated.js';
import { dueCare } from '../due/due-care.js';
import { policyAt } from '../due/in-force.js';
import type { AsOf } from '../model/care.js';
import type { Moment } from '../facts/facts.js';
import { targetsOf } from '../timeline/targets.js';
import { timelineOf } from '../timeline/timeline.js';
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
import { aboveLimit, drugInLumen, forCoagulation, isBeforeDiscard, samplePitfalls } from './draw-sample.js';
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
 */
export function bloodDraw(line: LineRecord, given: DrawOptions, policy: Policy, when: AsOf): BloodDraw {
  const options = inOrder(given);
  const rule = stepsRule(policyAt(policy, when));
  if (options.tests.length === 0) throw new Refusal({ code: 'no-test-named' });
  const calendar = new Calendar(when.zone);
  const timeline = timelineOf(line, calendar, instantMs(when.asOf));
  const lumen = lumenOf(line, options);
  const staleAfter = policy.labStaleAfter;
  const moment = (one: Lumen): Moment => {
    const target = targetsOf(line, 'lumen').find(({ ref }) => ref === one.ref);
    if (!target) throw noSuchLumen(line, one.ref);
    return { timeline, target, ms: timeline.asOfMs, staleAfter };
  };
  const care = dueCare(line, policy, when);
  const held = care.holds.filter(
    (hold) =>
      hold.activity === 'blood-sampling' &&
      (hold.target.scope === 'line' || hold.target.ref === lumen.ref) &&
      instantMs(hold.from) <= timeline.asOfMs,
  );
  const lumens = drawLumens(care, whatRuns(timeline), lumen, isDialysis(line.type), held);
  const withheld = questionsOf(rule, timeline);
  const tests = options.tests.map(({ test }) => test);
  const tubes = tubesOf(options);
  const coagulation = tests.includes('coagulation');
  const discard = coagulation ? forCoagulation(discardOf(lumen, 'coagulation')) : discardOf(lumen, 'general');
  const own: Partial<Record<CalculatedName, StepPart>> = {
    discardVolume: said(discard, 'volume'),
    tubes: { code: 'tubes-drawn', tubes },
    infusingLumens: lumens.infusing,
    idleLumens: lumens.idle,
  };
  const target = moment(lumen).target;
  const work = workOf(rule, timeline, target);
  const flushBefore = said(forCoagulation(flushOf(lumen)), 'volume');
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
    ...(discard.ok && coagulation ? [{ code: 'discard-before-coagulation' } as const] : []),
    ...work.filter(({ kind }) => kind === 'caution').map(({ text }) => text),
  ];
  const discardMl = discard.ok ? discard.value : undefined;
  const loss = lossOf(options, tubes, discardMl, moment(lumen));
  return {
    line: line.ref,
    patient: line.patient.ref,
    lumen: { ref: lumen.ref, name: lumen.name },
    at: calendar.text(timeline.asOfMs),
    rule: { id: rule.id, title: rule.title },
    questions: withheld.questions,
    warnings: [...aboveLimit(tests, loss, discardMl), ...drugInLumen(tests, timeline, lumen)],
    steps,
    tubes,
    stop: lumens.stop,
    irrigate: lumens.irrigate,
    leave: lumens.leave,
    ...(discardMl === undefined ? {} : { discardMl }),
    holds: held,
    supplies: work.filter(({ kind }) => kind === 'supply').map(({ text }) => text),
    cautions: [...new Map(cautions.map((caution) => [sentenceKey(caution), caution])).values()],
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
