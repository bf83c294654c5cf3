import { repairPlan, type RepairPlanInput, type RepairPrecondition } from '@dwellward/calculators';
import type { Citation, Policy, Rule } from '@dwellward/policy';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { standingDamages, type Damage } from '../timeline/damage.js';
import { policyAt } from '../due/in-force.js';
import type { AsOf, DueItem, InstantText, WorkInput } from '../model/care.js';
import { targetsOf } from '../timeline/targets.js';
import { timelineOf, type Timeline } from '../timeline/timeline.js';
import { questionsOf } from '../due/questions.js';
import { workOf } from '../due/work.js';
import type { LineRecord, Lumen, Ref } from '../model/record.js';
import type { Name, Sentence, WorkText } from '../model/sentences.js';
import type { PreconditionName, PreconditionReason, SafeStepSentences } from '../model/sentences/repair.js';
import { Refusal } from '../words/refusal.js';

/** What is known before a repair; what is left out is not known, and counts against it. */
export interface RepairOptions {
  /** The damaged lumen; may be left out where the line has one, or where the damage on record names one. */
  readonly lumen?: Ref;
  /** From the skin to the damage; the latest finding of damage tells it where this is left out. */
  readonly intactExternalLengthCm?: string;
  /** Cut off on the body’s side of the damage. */
  readonly trimCm?: string;
  readonly newSegmentLengthCm?: string;
  readonly newSegmentInnerDiameterMm?: string;
  readonly lumenFrench?: string;
  readonly kitFrench?: string;
  readonly kitForThisDevice?: boolean;
  readonly lumenFreeOfClot?: boolean;
  /** Whether who is to do it may, by the device maker’s instructions and local policy. */
  readonly performerAllowed?: boolean;
  /** The intact length that the kit needs after the trim; its instructions say it. Nothing stands in for it. */
  readonly leastIntactCm?: string;
  /** The longest external length afterwards; 20 cm, common practice, where left out. */
  readonly mostExternalCm?: string;
}

/** One thing that must be so before a repair. */
export interface JudgedPrecondition {
  readonly name: PreconditionName;
  readonly met: 'yes' | 'no' | 'not-known';
  readonly reason: PreconditionReason;
}

/** Whether a line can be repaired, why, and how. */
export interface RepairJudgement {
  readonly line: Ref;
  readonly patient: Ref;
  readonly lumen?: { readonly ref: Ref; readonly name: Name };
  /**
   * `not-known` where nothing speaks against it but something has to be found out first: no repair until then.
   * `no-damage` where none is on record of what was asked for, or all of it was repaired.
   */
  readonly verdict: 'possible' | 'not-possible' | 'not-known' | 'no-damage';
  /** What to ask the responsible clinician first, by allergies and problems on record. */
  readonly questions: DueItem['questions'];
  readonly preconditions: readonly JudgedPrecondition[];
  /** The latest damage on record. */
  readonly damage?: {
    readonly ref: Ref;
    readonly at: InstantText;
    readonly values: readonly string[];
    readonly fromSkinCm?: string;
  };
  /** Where to clamp and cut, and the air in the new segment; only where every length is known. */
  readonly measures?: {
    readonly cutAtCm: string;
    readonly externalLengthAfterCm: string;
    readonly airToWithdrawMl: string;
  };
  /** The checklist, in order; where no repair is possible only what is done at once and whom to ask; of no damage none. */
  readonly steps: readonly (WorkText | Sentence<keyof SafeStepSentences>)[];
  readonly supplies: readonly WorkText[];
  readonly cautions: readonly WorkText[];
  readonly sources: readonly Citation[];
  readonly notes: readonly Sentence<'policy-text' | 'source-of-safe-steps'>[];
  /** Repairs of the line so far: each left a segment in it that is not the maker’s first one. */
  readonly earlierRepairs: readonly { readonly ref: Ref; readonly at: InstantText; readonly lumen?: Ref }[];
}

type Asked = keyof RepairPlanInput & keyof RepairOptions;

// What each precondition depends on.
const depends: readonly (readonly [RepairPrecondition['name'], readonly Asked[]])[] = [
  ['intact-length', ['intactExternalLengthCm', 'trimCm', 'leastIntactCm']],
  ['kit-size', ['lumenFrench', 'kitFrench']],
  ['kit-for-device', ['kitForThisDevice']],
  ['no-clot', ['lumenFreeOfClot']],
  ['stump-left', ['intactExternalLengthCm', 'trimCm']],
  ['length-afterwards', ['intactExternalLengthCm', 'trimCm', 'newSegmentLengthCm']],
];

/** What has to be known before it is said where to cut: also how much the kit needs. */
const measured: readonly Asked[] = [
  'intactExternalLengthCm',
  'trimCm',
  'leastIntactCm',
  'newSegmentLengthCm',
  'newSegmentInnerDiameterMm',
];

/** Stand in for what is not known; no precondition that depends on them is taken over. */
const fillers = {
  intactExternalLengthCm: '0',
  trimCm: '0',
  leastIntactCm: '1',
  newSegmentLengthCm: '1',
  newSegmentInnerDiameterMm: '1',
  lumenFrench: '1',
  kitFrench: '1',
  kitForThisDevice: false,
} as const;

/** Home sheet of a US hospital (seen), but for the last: common practice, no source. */
const safeSteps: readonly Sentence<keyof SafeStepSentences>[] = [
  { code: 'keep-it-clamped' },
  { code: 'nothing-in-or-out' },
  { code: 'call-the-line-team' },
];

/**
 * Whether a damaged line can be repaired: each precondition with its reason, the measures, and the checklist from the
 * policy’s definition of `repair`. What is not known is said, and stands in the way until it is found out. Where it is
 * not to be repaired, how it would be done is left out.
 *
 * Pure. Throws a Refusal where the policy in force has no steps of a repair, where the lumen is not the line’s,
 * where none is named and damage of several, or of the line as a whole, is on record; a CoreError where `asOf` is no
 * instant with an offset; and a CalculatorError for a length or a size that can’t be.
 *
 * It advises and never orders: the instructions of the device and of its repair kit, local policy and the licensed
 * clinician come first.
 *
 * Source: common practice, no source, for the lengths and times; see the calculator `repair-plan`.
 * @example
 * ```ts
 * repairJudgement(records.lines[0]!, { lumen: records.lines[0]!.lumens[0]!.ref }, policy, when).earlierRepairs; // []
 * ```
 */
export function repairJudgement(
  line: LineRecord,
  options: RepairOptions,
  policy: Policy,
  when: AsOf,
): RepairJudgement {
  const rule = stepsRule(policyAt(policy, when));
  const calendar = new Calendar(when.zone);
  const timeline = timelineOf(line, calendar, instantMs(when.asOf));
  const lumen = lumenOf(line, options.lumen, standingDamages(timeline, timeline.asOfMs));
  const damage = damageOf(timeline, lumen?.ref);
  const given = givenOf({
    ...options,
    ...(options.intactExternalLengthCm === undefined && damage?.fromSkinCm !== undefined
      ? { intactExternalLengthCm: damage.fromSkinCm }
      : {}),
  });
  const result = repairPlan({ ...fillers, ...given });
  const knows = (names: readonly Asked[]) => names.every((name) => given[name] !== undefined);
  const judged = depends.map(([name, names]): JudgedPrecondition => {
    const found = result.preconditions.find((one) => one.name === name);
    return found && knows(names)
      ? { name, met: found.met ? 'yes' : 'no', reason: { code: 'calculator-text', text: found.reason } }
      : { name, met: 'not-known', reason: { code: 'find-out-first', what: name } };
  });
  const preconditions = [...judged, performer(options.performerAllowed)];
  const target = targetsOf(line, lumen ? 'lumen' : 'line').find(({ ref }) => !lumen || ref === lumen.ref);
  const work = target ? workOf(rule, timeline, target) : [];
  const texts = (kind: WorkInput['kind']) => work.filter((one) => one.kind === kind).map(({ text }) => text);
  const verdict = damage ? verdictOf(preconditions) : 'no-damage';
  const tellsHow = verdict === 'possible' || verdict === 'not-known';
  return {
    line: line.ref,
    patient: line.patient.ref,
    ...(lumen ? { lumen: { ref: lumen.ref, name: lumen.name } } : {}),
    verdict,
    questions: tellsHow ? questionsOf(rule, timeline).questions : [],
    preconditions,
    ...(damage ? { damage } : {}),
    ...(tellsHow && knows(measured)
      ? {
          measures: {
            cutAtCm: result.cutAtCm,
            externalLengthAfterCm: result.externalLengthAfterCm,
            airToWithdrawMl: result.airToWithdrawMl,
          },
        }
      : {}),
    steps: tellsHow ? texts('step') : verdict === 'not-possible' ? safeSteps : [],
    supplies: tellsHow ? texts('supply') : [],
    cautions: texts('caution'),
    sources: rule.citations,
    notes: [
      ...rule.notes.map((text) => ({ code: 'policy-text', text }) as const),
      ...(verdict === 'not-possible' ? [{ code: 'source-of-safe-steps' } as const] : []),
    ],
    earlierRepairs: repairsOf(timeline),
  };
}

/** The lumen that is named, else the one that all damage on record names; undefined where there is no damage. */
function lumenOf(line: LineRecord, given: Ref | undefined, standing: readonly Damage[]): Lumen | undefined {
  const [only, ...more] = line.lumens;
  if (given === undefined && more.length === 0) return only;
  const [damaged, ...others] = new Set(standing.map(({ lumen }) => lumen));
  if (given === undefined && standing.length === 0) return undefined;
  const wanted = given ?? (others.length === 0 ? damaged : undefined);
  const found = line.lumens.find(({ ref }) => ref === wanted);
  if (found) return found;
  const lumens = line.lumens.map(({ ref, name }) => ({ ref, name }));
  throw new Refusal(
    given === undefined
      ? { code: 'say-which-damaged-lumen', line: line.ref, lumens }
      : { code: 'no-such-lumen', line: line.ref, given, lumens },
  );
}

/** What the calculator takes of the options, as far as it is known. */
function givenOf(options: RepairOptions): Partial<RepairPlanInput> {
  const own = Object.entries(options).filter(
    ([name, value]) => name !== 'lumen' && name !== 'performerAllowed' && value !== undefined,
  );
  return Object.fromEntries(own);
}

/**
 * Whether the policy in force has the steps of a repair.
 * @example
 * ```ts
 * hasRepairSteps(policy, when); // true
 * ```
 */
export function hasRepairSteps(policy: Policy, when: AsOf): boolean {
  return policyAt(policy, when).rules.some(describesRepair);
}

function describesRepair({ activity, work }: Rule): boolean {
  return activity === 'repair' && (work.steps ?? []).length > 0;
}

function stepsRule(policy: Policy): Rule {
  const rule = policy.rules.find(describesRepair);
  if (!rule) throw new Refusal({ code: 'no-steps-of-a-repair' });
  return rule;
}

function performer(allowed: boolean | undefined): JudgedPrecondition {
  const name = 'who-may-repair';
  if (allowed === undefined)
    return { name, met: 'not-known', reason: { code: 'find-out-first', what: name } };
  return { name, met: allowed ? 'yes' : 'no', reason: { code: 'maker-and-policy-say-who' } };
}

function verdictOf(
  preconditions: readonly JudgedPrecondition[],
): Exclude<RepairJudgement['verdict'], 'no-damage'> {
  if (preconditions.some(({ met }) => met === 'no')) return 'not-possible';
  return preconditions.every(({ met }) => met === 'yes') ? 'possible' : 'not-known';
}

function damageOf(timeline: Timeline, lumen: Ref | undefined): RepairJudgement['damage'] {
  const found = standingDamages(timeline, timeline.asOfMs, lumen).at(-1)?.found;
  if (!found) return undefined;
  const { ref, values, quantity } = found.fact;
  const fromSkinCm = quantity?.low !== undefined && quantity.low === quantity.high ? quantity.low : undefined;
  return {
    ref,
    at: timeline.calendar.text(found.ms),
    values,
    ...(fromSkinCm === undefined ? {} : { fromSkinCm }),
  };
}

/**
 * Every repair of a line up to a moment, in the order of time: each left a segment in it that is not the maker’s first.
 *
 * Throws a CoreError where `asOf` is not an instant with an offset or `zone` not an IANA zone.
 * @example
 * ```ts
 * repairsOn(records.lines[0]!, when); // []
 * ```
 */
export function repairsOn(line: LineRecord, { asOf, zone }: AsOf): RepairJudgement['earlierRepairs'] {
  if (!line.events.some(({ activity }) => activity === 'repair')) return [];
  return repairsOf(timelineOf(line, new Calendar(zone), instantMs(asOf)));
}

function repairsOf(timeline: Timeline): RepairJudgement['earlierRepairs'] {
  return timeline.events
    .filter(({ fact }) => fact.activity === 'repair')
    .map(({ fact, ms }) => ({
      ref: fact.ref,
      at: timeline.calendar.text(ms),
      ...(fact.lumen ? { lumen: fact.lumen } : {}),
    }));
}
