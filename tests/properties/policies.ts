import {
  bundledPlan,
  bundledPlanNames,
  compileCondition,
  readPolicy,
  type Begins,
  type Condition,
  type ConditionKind,
  type Policy,
  type Rule,
  type Span,
} from '@dwellward/policy';
import type { LineCareActivity, LineFinding } from '@dwellward/profiles';

/** The base with every bundled layer over it. */
export function bundledPolicy(): Policy {
  const reading = readPolicy(bundledPlanNames.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

export const hours = (value: number): Span => ({ value, unit: 'h' });

/** A finding that sets a rule going, with one of these values; any that says that it is there, where none are named. */
export const found = (finding: LineFinding, ...values: readonly string[]) =>
  ({ kind: 'finding', finding, values }) as const;

/** An act that sets a rule going. */
export const done = (activity: LineCareActivity) => ({ kind: 'event', activity }) as const;

type Triggered = Extract<Begins, { kind: 'triggered' }>;

/** With any of these; so long after, at once where no time is given. */
export const triggered = (by: Triggered['by'], after?: Span): Triggered => ({
  kind: 'triggered',
  by,
  ...(after ? { after } : {}),
});

/** The texts of a rule’s conditions. */
export interface Texts {
  readonly when?: string | undefined;
  readonly startsIf?: string | undefined;
  readonly stopsIf?: string | undefined;
}

function conditionOf(kind: ConditionKind, text: string | undefined): Condition {
  const compiled = compileCondition(text ? [text] : [], { kind });
  if (!compiled.ok) throw new Error(JSON.stringify(compiled.problems));
  return compiled.condition;
}

/** A rule of the test’s own, plain in everything that is not said. */
export function ruleOf(
  id: string,
  more: Partial<Rule> & Pick<Rule, 'activity' | 'scopes' | 'begins'>,
  { when, startsIf, stopsIf }: Texts = {},
): Rule {
  return {
    id,
    title: id,
    effect: 'ask',
    applicability: conditionOf('applicability', when),
    ...(startsIf === undefined ? {} : { start: conditionOf('start', startsIf) }),
    ...(stopsIf === undefined ? {} : { stop: conditionOf('stop', stopsIf) }),
    whenUnknown: 'protective',
    priority: 'routine',
    citations: [{ text: 'invented for a test', certainty: 'common-practice' }],
    notes: [],
    work: { computed: [], supplies: [], cautions: [] },
    origin: { url: 'https://test.example/PlanDefinition/extra', version: '1', title: 'Extra', layer: 9 },
    ...more,
  };
}

const line = ['line'] as const;
const lumen = ['lumen'] as const;
const exitSite = ['exit-site'] as const;
const both = ['line', 'lumen'] as const;
const forbid = { effect: 'forbid' } as const;

/** Asks of every kind that the bundled plans have none of, or few. */
const asks: readonly Rule[] = [
  ruleOf('wide-bath', {
    activity: 'bath',
    scopes: line,
    begins: { kind: 'fixed-times', daysOfWeek: [], timesOfDay: ['02:30:00', '14:00:00'] },
  }),
  ruleOf('wide-sampling-first', {
    activity: 'blood-sampling',
    scopes: lumen,
    begins: triggered([done('insertion')], hours(1)),
  }),
  ruleOf('wide-sampling', {
    activity: 'blood-sampling',
    scopes: lumen,
    begins: { kind: 'interval', every: hours(8), untilAfterInsertion: { value: 2, unit: 'd' } },
  }),
  ruleOf('wide-teaching', {
    activity: 'teaching',
    scopes: line,
    begins: { kind: 'interval', every: { value: 1, unit: 'mo' }, atMost: 2 },
  }),
  ruleOf(
    'wide-incision',
    {
      activity: 'site-assessment',
      scopes: ['incision'],
      begins: { kind: 'interval', every: hours(12) },
    },
    { when: '%latest.incisionHealed.not()' },
  ),
  ruleOf('wide-suture', {
    activity: 'suture-removal',
    scopes: exitSite,
    begins: triggered([done('insertion')], { value: 3, unit: 'wk' }),
  }),
  ruleOf('wide-emergency', {
    activity: 'flush',
    scopes: lumen,
    priority: 'stat',
    begins: triggered([found('connector-condition', 'blood-residue')]),
  }),
  // Several triggers, findings and an act, judged when they occur and ended by what is found or done later.
  ruleOf(
    'wide-several',
    {
      activity: 'site-assessment',
      scopes: exitSite,
      begins: triggered(
        [found('dressing-condition', 'damp', 'soiled'), found('exit-site'), done('dressing-change')],
        { value: 30, unit: 'min' },
      ),
    },
    {
      startsIf: "%line.dwellDays > 1 and %labs.platelets < 50 '10*9/L'",
      stopsIf: '%found.dressingCondition.intact > %began or %last.dressingChange > %began + 2 hours',
    },
  ),
  ruleOf(
    'wide-warm',
    {
      activity: 'laboratory-review',
      scopes: line,
      priority: 'urgent',
      whenUnknown: 'default',
      begins: triggered([found('body-temperature'), found('fever')], hours(1)),
    },
    { startsIf: "%latest.bodyTemperature >= 38 'Cel'", when: '%line.used' },
  ),
  // Of the part that the finding or the act names.
  ruleOf(
    'wide-both',
    {
      activity: 'clamp-position-change',
      scopes: both,
      begins: triggered([found('damage'), found('blood-return', 'sluggish', 'none'), done('infusion-stop')]),
    },
    { stopsIf: '%answered.exists() or %found.bloodReturn.brisk >= %began' },
  ),
  ruleOf(
    'wide-while',
    { activity: 'necessity-review', scopes: line, begins: { kind: 'while' } },
    { when: "%line.dressing = 'gauze-dressing' and %line.dwellDays > 3" },
  ),
  ruleOf(
    'wide-while-lumen',
    { activity: 'needleless-connector-change', scopes: lumen, begins: { kind: 'while' } },
    { when: "%lumen.use = 'open'" },
  ),
];

/** Bans of every kind. */
const bans: readonly Rule[] = [
  ruleOf('wide-no-bath', {
    ...forbid,
    activity: 'bath',
    scopes: line,
    begins: triggered([done('dressing-change')]),
    lasts: hours(6),
  }),
  ruleOf(
    'wide-no-infusion',
    { ...forbid, activity: 'flush', scopes: lumen, begins: triggered([done('insertion')]) },
    { when: '%last.tipConfirmation.empty()', stopsIf: '%last.tipConfirmation >= %began' },
  ),
  // For a time, and not beyond what ends it.
  ruleOf(
    'wide-no-securement',
    {
      ...forbid,
      activity: 'securement-change',
      scopes: line,
      begins: triggered([found('dressing-condition', 'damp'), done('bath')]),
      lasts: hours(12),
    },
    {
      startsIf: "%line.dressing != 'gauze-dressing'",
      stopsIf: '%last.dressingChange >= %began or %found.dressingCondition.intact > %began',
    },
  ),
  ruleOf(
    'wide-no-length',
    { ...forbid, activity: 'external-length-measurement', scopes: line, begins: { kind: 'while' } },
    { when: "%labs.platelets < 20 '10*9/L' and %line.dressing = 'transparent-dressing'" },
  ),
  ruleOf(
    'wide-no-sampling',
    {
      ...forbid,
      activity: 'blood-sampling',
      scopes: both,
      begins: triggered([found('damage'), found('flush-resistance', 'blocked'), done('occlusion-treatment')]),
    },
    { stopsIf: '%answered.exists() or %found.bloodReturn.brisk >= %began' },
  ),
];

/** The bundled policy, with a rule of every kind that it has none of, or few. */
export function widePolicy(): Policy {
  const bundled = bundledPolicy();
  return { ...bundled, rules: [...bundled.rules, ...asks, ...bans] };
}
