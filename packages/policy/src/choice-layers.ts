import type { Span } from './model.js';

/** What a choice does to one rule of the base; what is not said stays as the base has it. */
export interface ChoiceChange {
  /** Id of the rule in the base. */
  readonly rule: string;
  /** An id of its own: the rule stands beside the base's one instead of in its place. */
  readonly beside?: string;
  readonly off?: true;
  readonly every?: Span;
  /** The days and the time of the week that take the place of the interval. */
  readonly weekly?: {
    readonly days: readonly ('mon' | 'tue' | 'wed' | 'thu' | 'fri' | 'sat' | 'sun')[];
    readonly at: string;
  };
  /** Not more often than; `none` takes the base's away. */
  readonly spacing?: Span | 'none';
  readonly when?: readonly string[];
  readonly title?: string;
  readonly supplies?: readonly string[];
  readonly cautions?: readonly string[];
}

/** A published reading that differs from the base, as a layer to lay over it. */
export interface ChoiceLayer {
  readonly title: string;
  readonly source: string;
  readonly url?: string;
  /** Why it may be chosen, and what speaks against it. */
  readonly why: string;
  readonly changes: readonly ChoiceChange[];
}

const hours = (value: number): Span => ({ value, unit: 'h' });
const days = (value: number): Span => ({ value, unit: 'd' });
const weeks = (value: number): Span => ({ value, unit: 'wk' });
const months = (value: number): Span => ({ value, unit: 'mo' });

const local = 'A choice of the unit between published readings; the base takes the newest graded guideline.';
const portRules = ['flush-port-not-accessed', 'lock-port-not-accessed'];
const idleLocks = [
  'lock-picc-tunneled',
  'lock-nontunneled',
  'lock-midline',
  'lock-port-accessed',
  'lock-port-not-accessed',
  'lock-after-infusion',
  'lock-after-blood-sampling',
];
const shorter = 'The base takes the 24 hours of CDC 2011. This one is shorter: it loosens nothing.';

const dialysisLock = (source: string, supply: string, cautions: readonly string[] = []): ChoiceLayer => ({
  title: `Dialysis catheters are locked with ${supply}`,
  source,
  why: local,
  changes: ['lock-dialysis', 'lock-dialysis-after-infusion', 'lock-dialysis-after-blood-sampling'].map(
    (rule) => ({
      rule,
      supplies: [`${supply}, as prescribed`],
      cautions,
    }),
  ),
});

/**
 * The readings of published sources that are a schedule or its work, one layer each, by name. `choices` says of each
 * disagreement which of them there are and which the base takes.
 */
export const choiceLayers = {
  'choice-set-96-hours': {
    title: 'Continuous sets are changed every 96 hours',
    source:
      'SHEA/IDSA 2008 compendium (A-II, superseded): not longer than 96 hours; French intensive care expert consensus 2020, table 2: 96 hours',
    why: local,
    changes: [{ rule: 'administration-set-change', every: hours(96), spacing: 'none' }],
  },
  'choice-set-cdc-2002-72-hours': {
    title: 'Continuous sets are changed not more often than every 72 hours',
    source: 'CDC 2002, Appendix B (superseded): administration sets not more often than every 72 hours',
    why: 'Superseded by CDC 2011, which says 96 hours; for units whose policy still has it.',
    changes: [{ rule: 'administration-set-change', spacing: hours(72) }],
  },
  'choice-intermittent-set-cdc-unresolved': {
    title: 'No interval for sets in intermittent use',
    source:
      'CDC-HICPAC 2011, administration sets, recommendation 2: no recommendation on sets in intermittent use (unresolved); from memory, read only in a secondary text',
    why: 'CDC 2011 gives no interval, INS gives 24 hours. The 7 days of continuous sets still count while something runs.',
    changes: [{ rule: 'administration-set-change-intermittent', off: true }],
  },
  'choice-fat-emulsion-set-ins-12-hours': {
    title: 'Sets for fat emulsion are changed every 12 hours',
    source:
      'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: fat emulsion alone every 12 hours and with each container; from memory',
    why: shorter,
    changes: [{ rule: 'administration-set-change-fat-emulsion', every: hours(12) }],
  },
  'choice-blood-set-ins-4-hours': {
    title: 'Sets for blood are changed every 4 hours',
    source:
      'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: set and filter with each unit or every 4 hours; from memory',
    why: shorter,
    changes: [
      {
        rule: 'administration-set-change-blood',
        every: hours(4),
        cautions: ['With each unit, if that is sooner.'],
      },
    ],
  },
  'choice-blood-set-epic3-12-hours': {
    title: 'Sets for blood are changed every 12 hours',
    source:
      'epic3 2014, national evidence-based guidelines (England): at the end of the episode or every 12 hours, whichever is sooner; from memory',
    why: shorter,
    changes: [
      {
        rule: 'administration-set-change-blood',
        every: hours(12),
        cautions: ['At the end of the episode, if that is sooner.'],
      },
    ],
  },
  'choice-parenteral-nutrition-set-96-hours': {
    title: 'Sets for parenteral nutrition without fat are changed every 96 hours',
    source:
      'INS, an older chart of the same publisher: parenteral nutrition without fat every 96 hours; from memory, read only in a secondary text',
    why: 'INS says 24 hours now; for units that still work by the older chart.',
    changes: [{ rule: 'administration-set-change-parenteral-nutrition', every: hours(96) }],
  },
  'choice-parenteral-nutrition-set-cdc-none': {
    title: 'No interval of its own for parenteral nutrition without fat',
    source:
      'CDC-HICPAC 2011, administration sets: no rule for parenteral nutrition without fat; from memory, read only in a secondary text',
    why: 'CDC 2011 has no rule of its own for it: the 7 days of continuous sets count.',
    changes: [{ rule: 'administration-set-change-parenteral-nutrition', off: true }],
  },
  'choice-transparent-dressing-5-days': {
    title: 'Transparent dressings are changed every 5 days',
    source:
      'SHEA/IDSA 2008 compendium (A-I): transparent dressings every 5 to 7 days; INS 2016 the same (from memory)',
    url: 'https://eguideline.guidelinecentral.com/i/53995',
    why: 'Of a range the shorter end is taken. The base takes the 7 days of SHEA 2022, CDC 2011 and INS 2021.',
    changes: [{ rule: 'dressing-change-transparent', every: days(5) }],
  },
  'choice-transparent-dressing-tunneled-weekly': {
    title: 'Transparent dressings of tunneled and implanted lines not more often than once a week',
    source:
      'CDC-HICPAC 2011, dressing regimens, recommendation 8 (category II): dressings of tunneled or implanted catheters not more than once a week, unless soiled or loose, until the insertion site has healed; from memory',
    why: 'A least spacing beside the interval of the base; damp, loosened or soiled dressings are changed at once all the same.',
    changes: [
      {
        rule: 'dressing-change-transparent',
        beside: 'dressing-change-transparent-tunneled',
        title: 'Change the transparent dressing of a tunneled line',
        spacing: days(7),
        when: ["%line.type in ('tunneled-cvc' | 'tunneled-dialysis-catheter' | 'implanted-port')"],
      },
    ],
  },
  'choice-connector-cdc-72-hours': {
    title: 'Connectors are changed not more often than every 72 hours',
    source:
      'CDC-HICPAC 2011, needleless systems, recommendations 2 and 3 (category II): not more often than every 72 hours, or as the maker says; from memory',
    why: 'INS, the newer one, says 96 hours; the greatest interval stays 7 days.',
    changes: [{ rule: 'needleless-connector-change', spacing: hours(72) }],
  },
  'choice-chlorhexidine-dressing-cdc-18-years': {
    title: 'Chlorhexidine dressings from 18 years',
    source:
      'CDC 2017, Recommendations on the Use of Chlorhexidine-Impregnated Dressings, recommendations 1.a (category IA), 2.a (IC) and 2.b (unresolved)',
    url: 'https://www.cdc.gov/infectioncontrol/guidelines/bsi/c-i-dressings/',
    why: local,
    changes: [
      {
        rule: 'dressing-change-chlorhexidine',
        cautions: [
          'This unit uses chlorhexidine dressings from 18 years, on short-term non-tunneled catheters (CDC 2017).',
        ],
      },
    ],
  },
  'choice-chlorhexidine-dressing-shea-2-months': {
    title: 'Chlorhexidine dressings above 2 months',
    source:
      'SHEA/IDSA/APIC 2022, essential practice: chlorhexidine-containing dressings for patients above 2 months of age; from memory',
    why: local,
    changes: [
      {
        rule: 'dressing-change-chlorhexidine',
        cautions: ['This unit uses chlorhexidine dressings above 2 months of age (SHEA/IDSA/APIC 2022).'],
      },
    ],
  },
  'choice-lock-saline': {
    title: 'Idle lumens are locked with saline',
    source:
      'ESPEN home parenteral nutrition guideline 2020 and 2023: saline rather than heparin for long-term lines; from memory, read only in a secondary text',
    why: 'The base leaves the solution to the prescription and to the device: its own instructions may require heparin.',
    changes: idleLocks.map((rule) => ({
      rule,
      supplies: [
        'sodium chloride 0.9 %, unless the device’s instructions or the prescription ask for another lock',
      ],
    })),
  },
  'choice-lock-heparin': {
    title: 'Idle lumens are locked with heparin where it is prescribed',
    source:
      'Device instructions that ask for heparin; NHS Ayrshire & Arran, guideline G004: 2 mL heparin 10 units/mL after saline; US heparin lock labels: effect up to 4 hours',
    why: 'The base leaves the solution to the prescription and to the device. Doses are checked with the calculators heparin-per-lock and heparin-per-day.',
    changes: idleLocks.map((rule) => ({
      rule,
      supplies: ['heparin lock solution of the concentration that is prescribed'],
      cautions: [
        'An aPTT before the first heparin lock: repeated small doses can alter it (US heparin lock labels).',
      ],
    })),
  },
  'choice-port-8-weeks': {
    title: 'Ports at rest are flushed and locked every 8 weeks',
    source: 'Wu 2020, meta-analysis (862 cases): 8 weeks against 4, occlusion 4.1 % and 4.9 %',
    why: 'Longer than the 4 weeks of the labels that the base takes: a meta-analysis found no more occlusions with 8 weeks; a larger one of 2024 found a relative risk of 1.50 (1.18 to 1.92) with 2 to 3 months. The label comes first where it says otherwise.',
    changes: portRules.map((rule) => ({ rule, every: weeks(8) })),
  },
  'choice-port-3-months': {
    title: 'Ports at rest are flushed and locked every 3 months',
    source:
      'Diaz 2017 (87 patients, phase II): every 3 months; INS 2021: up to every 3 months is acceptable (from memory)',
    url: 'https://pubmed.ncbi.nlm.nih.gov/28084883/',
    why: 'Longer than the 4 weeks of the labels that the base takes: acceptable in INS 2021; a meta-analysis of 2024 found a relative risk of occlusion of 1.50 (1.18 to 1.92) with 2 to 3 months. The label comes first where it says otherwise.',
    changes: portRules.map((rule) => ({ rule, every: months(3) })),
  },
  'choice-dialysis-lock-heparin-1000': dialysisLock(
    'KDOQI 2019, clinical practice guideline for vascular access: heparin 1000 units/mL or citrate below 5 %; from memory',
    'heparin 1000 units/mL',
  ),
  'choice-dialysis-lock-citrate-4': dialysisLock(
    'KDOQI 2019, clinical practice guideline for vascular access: citrate 4 % (below 5 %) or heparin 1000 units/mL; from memory',
    'citrate 4 %',
    ['Never citrate of 5 % or more.'],
  ),
  'choice-dialysis-lock-heparin-5000': dialysisLock(
    'PreCLOT trial (PMC1459124, results 2011): heparin 5000 units/mL three times a week',
    'heparin 5000 units/mL',
    ['Five times the strength of KDOQI 2019: aspirate it before use.'],
  ),
  'choice-dialysis-lock-weekly-enzyme': {
    title: 'Dialysis catheters are locked with a thrombolytic once a week',
    source:
      'PreCLOT trial (PMC1459124, results 2011): 1 mg to a lumen once a week and heparin twice, bacteraemia 4.5 % against 13.0 %; SHEA/IDSA/APIC 2022, additional approach; KDOQI 2019 (from memory): once a week may be used',
    url: 'https://www.ncbi.nlm.nih.gov/pmc/articles/PMC1459124/',
    why: 'An additional approach, on prescription. Monday by 08:00 is invented: put the day of the unit in its place.',
    changes: [
      {
        rule: 'lock-dialysis',
        beside: 'lock-dialysis-weekly-enzyme',
        title: 'Lock with the thrombolytic of the week',
        weekly: { days: ['mon'], at: '08:00:00' },
        supplies: ['thrombolytic lock as prescribed'],
      },
    ],
  },
} as const satisfies Readonly<Record<string, ChoiceLayer>>;

/** The name of a bundled choice layer. */
export type ChoiceLayerName = keyof typeof choiceLayers;

/** Their names, in the order of the disagreements. */
export const choiceLayerNames = Object.keys(choiceLayers) as readonly ChoiceLayerName[];
