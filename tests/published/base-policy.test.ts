import {
  bundledPlan,
  readPolicy,
  type Facts,
  type Rule,
  type Span,
  type StaticFacts,
  type TimeRange,
} from '@dwellward/policy';
import { describe, expect, it } from 'vitest';

// Every interval of the bundled base against the value in the published guideline, typed in beside it. The rows were
// written from the guidelines, not from the plan: what a rule is called does not matter, only what it asks for when.
// `seen` was read in the source or a page that reports it; `from memory` was not and is to be checked before use.

type Mark = 'seen' | 'from memory';
type LineType = NonNullable<Facts['line.type']>;

/** The facts of one group, by the part of their names behind its dot. */
type Group<Name extends string> = {
  readonly [
    Full in keyof StaticFacts as Full extends `${Name}.${infer Own}` ? Own : never
  ]?: StaticFacts[Full];
};

interface Row {
  readonly says: string;
  readonly source: string;
  readonly mark: Mark;
  readonly activity: Rule['activity'];
  /** The situation: what is not said is not known, but for what every line has. */
  readonly line?: Group<'line'>;
  readonly lumen?: Group<'lumen'>;
  readonly patient?: Group<'patient'>;
  readonly tipConfirmed?: true;
  readonly asepticInsertion?: false;
  readonly noInsertionOnRecord?: true;
  /** The most protective rule that holds asks for it this often; of several, the source allows each. */
  readonly every?: readonly string[];
  /** It is not done more often than this. */
  readonly spacing?: string;
  /** It is done once, so long after this event; at once where no time is said. */
  readonly after?: readonly [event: string, offset?: string];
  /** It must not be done until this event, or until so long after it. */
  readonly notUntil?: readonly [event: string, offset?: string];
  /** Other rules begin with it. */
  readonly event?: true;
  /** It is done at once after this finding. */
  readonly atOnce?: readonly [finding: string, value: string];
  /** No rule asks for it; `at-an-interval`: but for what follows an event. */
  readonly nothing?: true | 'at-an-interval';
}

const allTypes: readonly LineType[] = [
  'tunneled-cvc',
  'nontunneled-cvc',
  'picc',
  'implanted-port',
  'tunneled-dialysis-catheter',
  'nontunneled-dialysis-catheter',
  'midline',
];
const dialysis: readonly LineType[] = ['tunneled-dialysis-catheter', 'nontunneled-dialysis-catheter'];

const ins2021 = 'INS Standards of Practice 2021 and 2024';
const cdc2011 = 'CDC-HICPAC 2011';

const perType = (types: readonly LineType[], row: Omit<Row, 'says'> & { says: string }): Row[] =>
  types.map((type) => ({ ...row, says: `${type}: ${row.says}`, line: { ...row.line, type } }));

const rows: readonly Row[] = [
  // 1. Dressings
  ...perType(allTypes, {
    says: 'gauze at least every 2 days',
    source: `${ins2021}, standard 42; ${cdc2011} dressing regimens 6`,
    mark: 'from memory',
    activity: 'dressing-change',
    line: { dressing: 'gauze-dressing' },
    every: ['2 d'],
  }),
  ...perType(allTypes, {
    says: 'transparent dressing at least every 7 days',
    source: `${ins2021}, standard 42; ${cdc2011} dressing regimens 7; French ICU consensus 2020 table 2 (seen); for dialysis KHA-CARI (reported), KDOQI 2019`,
    mark: 'from memory',
    activity: 'dressing-change',
    line: { dressing: 'transparent-dressing' },
    every: ['7 d'],
  }),
  ...perType(allTypes, {
    says: 'chlorhexidine dressing, a transparent one, at least every 7 days',
    source: `SHEA/IDSA/APIC 2022, essential practices, maintenance; ${ins2021}`,
    mark: 'from memory',
    activity: 'dressing-change',
    line: { dressing: 'chlorhexidine-dressing' },
    every: ['7 d'],
  }),
  ...(['damp', 'loosened', 'soiled'] as const).flatMap((value) =>
    perType(allTypes, {
      says: `changed at once when ${value}`,
      source: `${cdc2011} dressing regimens 3 (IB), repeated 2017`,
      mark: 'seen',
      activity: 'dressing-change',
      line: { dressing: 'transparent-dressing' },
      atOnce: ['dressing-condition', value],
    }),
  ),

  // 2. Connectors and sets
  ...perType(allTypes, {
    says: 'connector not more often than every 96 hours',
    source: `${ins2021}`,
    mark: 'from memory',
    activity: 'needleless-connector-change',
    line: { accessed: true },
    spacing: '96 h',
  }),
  ...perType(allTypes, {
    says: 'connector at least as often as the set, so every 7 days',
    source: `${cdc2011} needleless systems 1 (II) with administration sets 1 (IA); weekly: NHS Ayrshire & Arran G004 (seen)`,
    mark: 'from memory',
    activity: 'needleless-connector-change',
    line: { accessed: true },
    every: ['7 d'],
  }),
  ...(['blood-residue', 'debris', 'contaminated'] as const).map((value): Row => ({
    says: `connector changed at once with ${value}`,
    source: ins2021,
    mark: 'from memory',
    activity: 'needleless-connector-change',
    line: { type: 'picc', accessed: true },
    atOnce: ['connector-condition', value],
  })),
  {
    says: 'continuous set without blood or fat at least every 7 days',
    source: `${cdc2011} administration sets 1 (IA); SHEA/IDSA/APIC 2022 (reported)`,
    mark: 'seen',
    activity: 'administration-set-change',
    line: { type: 'picc' },
    lumen: { use: 'infusing', infusate: 'other' },
    every: ['7 d'],
  },
  {
    says: 'continuous set without blood or fat not more often than every 96 hours',
    source: `${cdc2011} administration sets 1 (IA)`,
    mark: 'seen',
    activity: 'administration-set-change',
    line: { type: 'picc' },
    lumen: { use: 'infusing', infusate: 'other' },
    spacing: '96 h',
  },
  ...(
    [
      ['blood', '4 h', 'with each unit or every 4 hours (other sources: CDC 24 h, epic3 12 h)'],
      ['fat-emulsion', '12 h', 'alone every 12 hours and with each container (other sources: CDC 24 h)'],
      ['nutrition-with-fat', '24 h', 'every 24 hours and with each bag (CDC 24 h)'],
    ] as const
  ).map(([infusate, every, says]): Row => ({
    says: `set for ${infusate} ${says}`,
    source: ins2021,
    mark: 'from memory',
    activity: 'administration-set-change',
    line: { type: 'picc' },
    lumen: { use: 'infusing', infusate },
    every: [every],
  })),
  {
    says: 'set of which it is not known what runs: the 24 hours that blood and fat have at most',
    source: `${cdc2011} administration sets (IB)`,
    mark: 'seen',
    activity: 'administration-set-change',
    line: { type: 'picc' },
    lumen: { use: 'infusing' },
    every: ['24 h'],
  },
  ...(
    [
      ['blood', '4 h', 'NZ Blood Service, 3.11; UK JPAC, table 4.2; CDC 2002, MMWR 51 RR-10, Appendix B'],
      ['fat-emulsion', '12 h', 'CDC 2002, MMWR 51 RR-10, Appendix B: fat alone'],
      ['nutrition-with-fat', '24 h', 'CDC 2002, MMWR 51 RR-10, Appendix B: fat in a 3-in-1 bag'],
    ] as const
  ).map(([infusate, every, source]): Row => ({
    says: `the bag of ${infusate} hangs at most ${every}`,
    source,
    mark: 'seen',
    activity: 'bag-change',
    line: { type: 'picc' },
    lumen: { use: 'infusing', infusate },
    every: [every],
  })),
  {
    says: 'set for propofol every 6 or 12 hours',
    source: `${cdc2011} administration sets (IA)`,
    mark: 'seen',
    activity: 'administration-set-change',
    line: { type: 'nontunneled-cvc' },
    lumen: { use: 'infusing', infusate: 'propofol' },
    every: ['6 h', '12 h'],
  },
  {
    says: 'port needle at least every 7 days',
    source: `${ins2021} (CDC 2011: unresolved)`,
    mark: 'from memory',
    activity: 'access-needle-change',
    line: { type: 'implanted-port', accessed: true },
    every: ['7 d'],
  },
  {
    says: 'no needle to change in a port at rest',
    source: 'the same: the interval is of a needle in place',
    mark: 'from memory',
    activity: 'access-needle-change',
    line: { type: 'implanted-port', accessed: false },
    nothing: true,
  },

  // 3. Flushing and locking of what is not in use
  ...(['flush', 'lock'] as const).flatMap((activity): Row[] => [
    ...perType(['picc', 'tunneled-cvc'], {
      says: 'idle lumen flushed with saline and locked weekly',
      source: 'NHS Ayrshire & Arran G004 (adult cancer care)',
      mark: 'seen',
      activity,
      lumen: { use: 'locked' },
      every: ['7 d', '1 wk'],
    }),
    {
      says: 'idle midline at least every 24 hours',
      source: ins2021,
      mark: 'from memory',
      activity,
      line: { type: 'midline' },
      lumen: { use: 'locked' },
      every: ['24 h'],
    },
    // No source that was seen states an interval for these two: the shortest that one states for any line.
    {
      says: 'idle non-tunneled catheter as a midline, at least every 24 hours, for want of a published interval',
      source: `${ins2021}, of midline and peripheral catheters`,
      mark: 'from memory',
      activity,
      line: { type: 'nontunneled-cvc' },
      lumen: { use: 'locked' },
      every: ['24 h'],
    },
    {
      says: 'idle port with its needle in as a midline, at least every 24 hours, for want of a published interval',
      source: `${ins2021}, of midline and peripheral catheters`,
      mark: 'from memory',
      activity,
      line: { type: 'implanted-port', accessed: true },
      lumen: { use: 'locked' },
      every: ['24 h'],
    },
    {
      says: 'port at rest monthly, 4 weeks',
      source: 'makers’ labelling as reported by Diaz 2017 (pubmed 28084883)',
      mark: 'seen',
      activity,
      line: { type: 'implanted-port', accessed: false },
      every: ['4 wk', '28 d'],
    },
    {
      says: 'nothing while the lumen is infusing',
      source: 'the same: the intervals are of lumens that are not in use',
      mark: 'seen',
      activity,
      line: { type: 'picc' },
      lumen: { use: 'infusing' },
      nothing: activity === 'lock' ? true : 'at-an-interval',
    },
  ]),
  ...(['infusion-stop', 'blood-sampling'] as const).flatMap((activity): Row[] => [
    {
      says: `${activity} is what a flush and a lock follow`,
      source: `${ins2021}; US heparin lock labels (seen)`,
      mark: 'from memory',
      activity,
      event: true,
    },
    ...perType(allTypes, {
      says: `flushed straight after each ${activity}`,
      source: `${ins2021}, MASCC: after each infusion and each draw`,
      mark: 'from memory',
      activity: 'flush',
      lumen: {},
      after: [activity],
    }),
    ...perType(allTypes, {
      says: `locked again straight after each ${activity}, where nothing runs through the lumen`,
      source: 'US heparin lock labels: the lock is replaced after every use',
      mark: 'seen',
      activity: 'lock',
      lumen: { use: 'locked' },
      after: [activity],
    }),
  ]),
  ...perType(dialysis, {
    says: 'lock renewed with dialysis three times a week: at most 3 days between',
    source: 'PreCLOT trial, heparin three times a week (PMC1459124)',
    mark: 'seen',
    activity: 'lock',
    lumen: { use: 'locked' },
    every: ['3 d', '72 h'],
  }),

  // 6., 7., 12. Looking, measuring, asking
  ...perType(allTypes, {
    says: 'site looked at daily at least',
    source: `${ins2021}; VIP score: check at least daily (seen)`,
    mark: 'from memory',
    activity: 'site-assessment',
    line: { accessed: true },
    every: ['1 d', '24 h'],
  }),
  ...perType(allTypes, {
    says: 'need of the line reviewed daily',
    source: `${cdc2011} (remove when not essential, IA: seen); daily: ASA 2020, SHEA 2022`,
    mark: 'from memory',
    activity: 'necessity-review',
    every: ['1 d', '24 h'],
  }),
  ...perType(['picc', 'tunneled-cvc', 'nontunneled-cvc', 'midline'], {
    says: 'external length measured at each dressing change, so at least every 7 days',
    source: 'INS Standards of Practice 2016 and 2021',
    mark: 'from memory',
    activity: 'external-length-measurement',
    every: ['7 d'],
  }),

  // 2., 7., 12. Further kinds of set, securement, bath
  {
    says: 'set in intermittent use every 24 hours (CDC 2011: unresolved)',
    source: ins2021,
    mark: 'from memory',
    activity: 'administration-set-change',
    line: { type: 'picc' },
    lumen: { use: 'infusing', infusate: 'other', infusionPattern: 'intermittent' },
    every: ['24 h'],
  },
  {
    says: 'a set that nothing says is intermittent stays with the continuous ones',
    source: `${cdc2011} administration sets 1 (IA)`,
    mark: 'seen',
    activity: 'administration-set-change',
    line: { type: 'picc' },
    lumen: { use: 'infusing', infusate: 'other', infusionPattern: 'continuous' },
    every: ['7 d'],
  },
  {
    says: 'set for parenteral nutrition without fat every 24 hours (CDC: no rule; older chart 96 h)',
    source: ins2021,
    mark: 'from memory',
    activity: 'administration-set-change',
    line: { type: 'picc' },
    lumen: { use: 'infusing', infusate: 'parenteral-nutrition' },
    every: ['24 h'],
  },
  {
    says: 'set of a pressure transducer every 96 hours',
    source: ins2021,
    mark: 'from memory',
    activity: 'administration-set-change',
    line: { type: 'nontunneled-cvc' },
    lumen: { use: 'infusing', infusate: 'pressure-monitoring' },
    every: ['96 h'],
  },
  {
    says: 'adhesive securement device changed with the dressing, so every 7 days',
    source: `${ins2021}`,
    mark: 'from memory',
    activity: 'securement-change',
    line: { type: 'picc', securement: 'adhesive-device' },
    every: ['7 d'],
  },
  {
    says: 'no adhesive device, none to change',
    source: 'the same: it is about the adhesive device',
    mark: 'from memory',
    activity: 'securement-change',
    line: { type: 'picc', securement: 'subcutaneous-anchor' },
    nothing: true,
  },
  ...perType(dialysis, {
    says: 'dressing of a dialysis catheter weekly',
    source: 'KHA-CARI guideline (reported)',
    mark: 'from memory',
    activity: 'dressing-change',
    line: { dressing: 'transparent-dressing' },
    every: ['7 d'],
  }),
  {
    says: 'chlorhexidine bath in intensive care above 2 months of age, daily',
    source: 'SHEA/IDSA/APIC 2022, essential practices',
    mark: 'from memory',
    activity: 'bath',
    patient: { setting: 'intensive-care', ageDays: 63 },
    every: ['1 d'],
  },
  ...[
    { says: 'no bath up to 2 months', patient: { setting: 'intensive-care', ageDays: 62 } },
    { says: 'no bath outside of intensive care', patient: { setting: 'inpatient', ageDays: 15_000 } },
    { says: 'no bath where the setting is not known', patient: {} },
  ].map(({ says, patient }): Row => ({
    says,
    source: 'SHEA/IDSA/APIC 2022, essential practices',
    mark: 'from memory',
    activity: 'bath',
    patient: patient as Group<'patient'>,
    nothing: true,
  })),

  // 12. Need by setting; quarterly review of dialysis access
  ...(['inpatient', 'intensive-care'] as const).map((setting): Row => ({
    says: `need reviewed daily, ${setting}`,
    source: `${cdc2011}; daily: ASA 2020, SHEA 2022 (acute care)`,
    mark: 'from memory',
    activity: 'necessity-review',
    patient: { setting },
    every: ['1 d', '24 h'],
  })),
  {
    says: 'need of a line at home is left to the unit',
    source: 'ASA 2020 and SHEA 2022 are about acute care',
    mark: 'from memory',
    activity: 'necessity-review',
    patient: { setting: 'home' },
    nothing: true,
  },
  {
    says: 'dialysis access reviewed at least quarterly',
    source: 'KDOQI 2019 (guidelinecentral.com/guideline/22840)',
    mark: 'seen',
    activity: 'necessity-review',
    line: { type: 'tunneled-dialysis-catheter' },
    patient: { setting: 'ambulatory' },
    every: ['3 mo'],
  },

  // 12. The tip, asepsis, what follows a removal
  {
    says: 'the insertion is what the confirmation of the tip follows',
    source: 'ASA 2020; INS; dialysis catheter leaflet (seen)',
    mark: 'from memory',
    activity: 'insertion',
    event: true,
  },
  {
    says: 'tip confirmed before use: straight after the insertion',
    source: 'dialysis catheter leaflet: verify by x-ray (seen); ASA 2020; INS',
    mark: 'seen',
    activity: 'tip-confirmation',
    line: { dwellDays: 0, used: false },
    after: ['insertion'],
  },
  {
    says: 'no infusion before the tip is confirmed',
    source: 'the same',
    mark: 'seen',
    activity: 'infusion-start',
    line: { dwellDays: 0, used: true },
    notUntil: ['tip-confirmation'],
  },
  {
    says: 'no infusion before the tip is confirmed, of a line that was never used, however long it is in',
    source: 'the same',
    mark: 'seen',
    activity: 'infusion-start',
    line: { dwellDays: 10, used: false },
    notUntil: ['tip-confirmation'],
  },
  ...[
    {
      says: 'nothing of a line that has been in use since the day before yesterday',
      line: { dwellDays: 2, used: true },
    },
    { says: 'nothing once the tip is confirmed', line: { dwellDays: 0 }, tipConfirmed: true as const },
    { says: 'nothing of a midline', line: { type: 'midline' as const, dwellDays: 0 } },
    { says: 'nothing where no insertion is on record', line: {}, noInsertionOnRecord: true as const },
  ].flatMap(({ says, line, ...others }) =>
    (['tip-confirmation', 'infusion-start'] as const).map((activity): Row => ({
      ...others,
      says,
      source: 'reading of a record that is silent, stated in the rule',
      mark: 'from memory',
      activity,
      line,
      nothing: true,
    })),
  ),
  {
    says: 'line put in without full asepsis replaced within 48 hours',
    source: `${cdc2011} (IB)`,
    mark: 'from memory',
    activity: 'removal',
    asepticInsertion: false,
    after: ['insertion', '48 h'],
  },
  {
    says: 'the removal is what the checks follow',
    source: 'INS 2021',
    mark: 'from memory',
    activity: 'removal',
    event: true,
  },
  {
    says: 'site looked at when the air-occlusive dressing may come off, 24 hours after the removal',
    source: 'INS 2021',
    mark: 'from memory',
    activity: 'site-assessment',
    line: { removedDays: 1 },
    after: ['removal', '24 h'],
  },
  {
    says: 'air-occlusive dressing at least 24 hours after the removal',
    source: 'INS 2021',
    mark: 'from memory',
    activity: 'dressing-change',
    line: { removedDays: 0 },
    notUntil: ['removal', '24 h'],
  },
];

const reading = readPolicy([bundledPlan('base')]);
if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
const { rules } = reading.policy;

const span = (text: string): Span => {
  const [value, unit] = text.split(' ');
  return { value: Number(value), unit: unit as Span['unit'] };
};
const text = ({ value, unit }: Span) => `${value} ${unit}`;
const hoursOf = (of: Span) => of.value * { min: 1 / 60, h: 1, d: 24, wk: 168, mo: 730 }[of.unit];

const someTime: TimeRange = { lowMs: 0, highMs: 0 };

function named(group: string, facts: object): Facts {
  return Object.fromEntries(Object.entries(facts).map(([name, value]) => [`${group}.${name}`, value]));
}

function beginsWith(rule: Rule, activity: string): boolean {
  const { begins } = rule;
  return (
    begins.kind === 'triggered' && begins.by.some((one) => one.kind === 'event' && one.activity === activity)
  );
}

/** The rules of an activity that apply in a situation, a rule on what is not known read as the policy says. */
function applying(row: Row): Rule[] {
  const facts: Facts = {
    ...named('line', { type: 'picc', lumenCount: 1, dwellDays: 10, accessed: true, ...row.line }),
    ...named('lumen', row.lumen ?? {}),
    ...named('patient', { ageDays: 15_000, ...row.patient }),
    ...(row.tipConfirmed ? { 'last.tipConfirmation': someTime } : {}),
    ...(row.asepticInsertion === undefined ? {} : { 'latest.asepticInsertion': row.asepticInsertion }),
  };
  return rules.filter((rule) => {
    if (rule.activity !== row.activity) return false;
    if (row.noInsertionOnRecord && beginsWith(rule, 'insertion')) return false;
    const truth = rule.applicability.evaluate(facts);
    return truth.is === 'true' || (truth.is === 'unknown' && rule.whenUnknown === 'protective');
  });
}

/** The rules that answer a row as its source says; empty where none does. */
function answering(row: Row): Rule[] {
  const found = applying(row);
  if (row.every) {
    const intervals = found.flatMap((rule) =>
      rule.begins.kind === 'interval' && rule.begins.atMost === undefined
        ? [{ rule, every: rule.begins.every }]
        : [],
    );
    const shortest = Math.min(...intervals.map(({ every }) => hoursOf(every)));
    const governing = intervals.filter(({ every }) => hoursOf(every) === shortest);
    return governing.filter(({ every }) => row.every?.includes(text(every))).map(({ rule }) => rule);
  }
  if (row.spacing) {
    const wanted = hoursOf(span(row.spacing));
    return found.filter(({ minimumSpacing }) => minimumSpacing && hoursOf(minimumSpacing) === wanted);
  }
  if (row.after) {
    const [event, offset] = row.after;
    return found.filter(
      (rule) =>
        rule.effect === 'ask' &&
        beginsWith(rule, event) &&
        rule.begins.kind === 'triggered' &&
        (rule.begins.after && text(rule.begins.after)) === offset,
    );
  }
  if (row.notUntil) {
    const [event, offset] = row.notUntil;
    const bans = found.filter(({ effect }) => effect === 'forbid');
    if (offset !== undefined)
      return bans.filter((rule) => beginsWith(rule, event) && rule.lasts && text(rule.lasts) === offset);
    const done = `%last.${event.replace(/-(.)/g, (_, letter: string) => letter.toUpperCase())} >= %began`;
    return bans.filter(({ stop, lasts }) => stop?.text === done && lasts === undefined);
  }
  if (row.event) return rules.filter((rule) => beginsWith(rule, row.activity));
  if (row.atOnce) {
    const [finding, value] = row.atOnce;
    return found.filter(
      ({ effect, begins }) =>
        effect === 'ask' &&
        begins.kind === 'triggered' &&
        begins.by.some(
          (one) => one.kind === 'finding' && one.finding === finding && one.values.includes(value),
        ),
    );
  }
  return [];
}

describe('the bundled base', () => {
  it.each(
    rows.filter(({ nothing }) => !nothing).map((row) => [row.activity, row.says, row.mark, row] as const),
  )('%s, %s (%s)', (_, __, ___, row) => {
    const found = answering(row);
    expect(
      found.map(({ id }) => id),
      `no rule answers as ${row.source} says; these apply: ${applying(row)
        .map(({ id, begins }) => `${id} ${JSON.stringify(begins)}`)
        .join('; ')}`,
    ).not.toEqual([]);
  });

  it.each(rows.filter(({ nothing }) => nothing).map((row) => [row.activity, row.says, row] as const))(
    '%s, %s',
    (_, __, row) => {
      const asking = applying(row).filter(
        ({ begins }) => row.nothing !== 'at-an-interval' || begins.kind !== 'triggered',
      );
      expect(asking.map(({ id }) => id)).toEqual([]);
    },
  );

  it('has no rule whose value does not stand in a row', () => {
    const valued = rows.filter(({ event }) => !event);
    const answered = new Set(valued.flatMap((row) => answering(row).map(({ id }) => id)));
    expect(rules.map(({ id }) => id).filter((id) => !answered.has(id))).toEqual([]);
  });
});
