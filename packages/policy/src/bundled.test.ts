import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { policyExtension } from '@dwellward/profiles';
import type { StructureDefinition } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import {
  bundledActivities,
  bundledPlan,
  bundledPlanNames,
  choiceLayerNames,
  lintPlan,
  readPolicy,
  scheduleText,
  unitLayerNames,
  type Facts,
  type PolicyReading,
  type Rule,
} from './index.js';

function rulesOf(...names: (typeof bundledPlanNames)[number][]): Map<string, Rule> {
  const reading = readPolicy(names.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return new Map(reading.policy.rules.map((rule) => [rule.id, rule]));
}
const base = rulesOf('base');

function applies(rule: Rule | undefined, given: Facts): boolean {
  if (rule === undefined) throw new Error('no such rule');
  const truth = rule.applicability.evaluate(given);
  return truth.is === 'true' || (truth.is === 'unknown' && rule.whenUnknown === 'protective');
}

/** Every extension with the R4 path or type of the element that carries it. */
function extensionsIn(value: unknown, on: string): { readonly url: string; readonly on: string }[] {
  if (Array.isArray(value)) return value.flatMap((one) => extensionsIn(one, on));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, member]) => {
    if (key === 'extension') return (member as { readonly url: string }[]).map(({ url }) => ({ url, on }));
    const documents = key === 'documentation' || key === 'relatedArtifact';
    // An action within an action is of the same kind.
    return extensionsIn(member, documents ? 'RelatedArtifact' : on.endsWith(key) ? on : `${on}.${key}`);
  });
}

/** What the lint says of them, but for what they loosen with a reason: that is said to everybody. */
const faults = ({ findings }: PolicyReading) =>
  findings.filter(({ code }) => code !== 'loosened-with-reason');

describe('the bundled plans', () => {
  const resources = new URL('../resources/', import.meta.url);
  const read = (name: string): unknown => JSON.parse(readFileSync(new URL(name, resources), 'utf8'));

  it.each(bundledPlanNames)('%s is what its JSON says', (name) => {
    expect(bundledPlan(name)).toEqual(read(`PlanDefinition-${name}.json`));
  });

  it('have their ActivityDefinitions beside them, and no resource is left out', () => {
    expect(bundledActivities.length).toBeGreaterThan(0);
    for (const activity of bundledActivities)
      expect(activity).toEqual(read(`ActivityDefinition-${activity.id}.json`));
    const files = readdirSync(resources).filter((name) => !name.startsWith('StructureDefinition-'));
    expect(files.sort()).toEqual(
      [
        ...bundledPlanNames.map((name) => `PlanDefinition-${name}.json`),
        ...bundledActivities.map(({ id }) => `ActivityDefinition-${id}.json`),
        'PlanDefinition-our-unit.json',
        'PlanDefinition-our-unit-examples.json',
      ].sort(),
    );
  });

  it.each(['base', ...unitLayerNames] as const)('%s has nothing to find fault with', (name) => {
    expect(lintPlan(bundledPlan(name))).toEqual([]);
  });

  // Another reader has to find out what an extension means.
  it('use no extension of ours that is not declared, in a place that it is declared for', () => {
    const declared = new Map(
      Object.values(policyExtension)
        .map((url) => `StructureDefinition-${url.split('/').at(-1)}.json`)
        .filter((name) => existsSync(new URL(name, resources)))
        .map((name) => read(name) as StructureDefinition)
        .map(({ url, context, snapshot }) => [url, { context: context?.[0]?.expression, snapshot }]),
    );
    expect([...declared.keys()].sort()).toEqual(Object.values(policyExtension).sort());
    for (const { snapshot } of declared.values()) expect(snapshot?.element.length).toBeGreaterThan(3);
    const used = new Set<string>();
    for (const resource of [...bundledPlanNames.map(bundledPlan), ...bundledActivities]) {
      for (const { url, on } of extensionsIn(resource, resource.resourceType)) {
        expect(declared.get(url)?.context, `${url} on ${on}`).toBe(on);
        used.add(url);
      }
    }
    expect([...used].sort()).toEqual(Object.values(policyExtension).sort());
  });

  it('lie over one another', () => {
    const reading = readPolicy((['base', ...unitLayerNames] as const).map((name) => bundledPlan(name)));
    expect([reading.ok, faults(reading)]).toEqual([true, []]);
  });

  it.each(['base', ...unitLayerNames, ...choiceLayerNames].filter((name) => name !== 'base'))(
    '%s lies over the base with nothing to find fault with',
    (name) => {
      const reading = readPolicy([bundledPlan('base'), bundledPlan(name as 'infant')]);
      expect([reading.ok, faults(reading)]).toEqual([true, []]);
    },
  );

  it('are all in the list, each once', () => {
    expect([...bundledPlanNames].sort()).toEqual(['base', ...unitLayerNames, ...choiceLayerNames].sort());
    expect(new Set(bundledPlanNames).size).toBe(bundledPlanNames.length);
  });

  it('give every caller a copy of its own', () => {
    const first = bundledPlan('base');
    first.title = 'changed';
    expect(bundledPlan('base').title).not.toBe('changed');
  });

  it('name a source for every rule of the base, and none for the unit layers', () => {
    for (const rule of base.values()) {
      expect(rule.citations.length, rule.id).toBeGreaterThan(0);
      expect(
        rule.citations.map(({ certainty }) => certainty),
        rule.id,
      ).not.toContain('common-practice');
    }
    for (const name of ['neutropenia', 'repair-care'] as const) {
      for (const rule of rulesOf(name).values())
        expect(
          rule.citations.map(({ certainty }) => certainty),
          rule.id,
        ).toEqual(['common-practice']);
    }
  });

  it('say with every piece of work that others come first, and never force a syringe', () => {
    for (const rule of rulesOf(...bundledPlanNames).values()) {
      // What the hospital's own order asks for need not say how: the insertion is another plan's.
      if (rule.effect === 'forbid' || rule.id === 'planned-insertion') continue;
      expect(rule.work.cautions[0], rule.id).toContain('Local policy');
      if (rule.activity !== 'flush' && rule.activity !== 'lock') continue;
      // Of a line of unknown type only the printed volume counts: none is worked out.
      if (rule.id.startsWith('lock-type-unknown')) continue;
      expect(rule.work.computed, rule.id).toEqual([`${rule.activity}-volume`, 'syringe-size']);
      expect(rule.work.cautions.join(' '), rule.id).toMatch(/syringe smaller than 10 mL.*Stop on resistance/);
    }
  });
});

// Each value as its source gives it, typed in here a second time. Where the source was not read itself the citation
// says `from memory`.
type Row = readonly [
  id: string,
  interval: string,
  spacing: string | undefined,
  source: string,
  sourceIn: RegExp,
  fromMemory: boolean,
];
const published: readonly Row[] = [
  [
    'dressing-change-gauze',
    'every 2 days',
    undefined,
    'SHEA/IDSA 2008 (A-I): gauze every 2 days',
    /SHEA\/IDSA 2008.*gauze every 2 days/,
    false,
  ],
  [
    'dressing-change-transparent',
    'every 7 days',
    undefined,
    'French ICU consensus 2020, table 2: every 7 days',
    /2020, table 2: transparent dressings every 7 days/,
    false,
  ],
  [
    'dressing-change-transparent',
    'every 7 days',
    undefined,
    'CDC 2011 recommendation 7 (IB): at least every 7 days',
    /2011.*recommendation 7 \(category IB\).*every 7 days/,
    true,
  ],
  [
    'dressing-change-gauze',
    'every 2 days',
    undefined,
    'CDC 2011 recommendation 6 (II): every 2 days',
    /2011.*recommendation 6 \(category II\).*every 2 days/,
    true,
  ],
  [
    'dressing-change-chlorhexidine',
    'every 7 days',
    undefined,
    'SHEA/IDSA/APIC 2022: at least every 7 days',
    /2022.*at least every 7 days/,
    false,
  ],
  [
    'dressing-change-at-once',
    'at once when the dressing is damp, loosened or soiled',
    undefined,
    'CDC 2011 recommendation 3 (IB), 2017 update',
    /recommendation 3 \(category IB\).*2017/,
    false,
  ],
  [
    'needleless-connector-change',
    'every 7 days',
    '96 h',
    'NHS Ayrshire & Arran G004: weekly',
    /G004.*weekly/,
    false,
  ],
  [
    'needleless-connector-change',
    'every 7 days',
    '96 h',
    'INS 2016/2021/2024: not more often than every 96 h',
    /INS 2016, 2021 and 2024.*not more often than every 96 hours/,
    true,
  ],
  [
    'needleless-connector-change-at-once',
    'at once when the connector is found with: blood residue, debris or contaminated',
    undefined,
    'INS: blood, debris, contamination',
    /INS.*blood or debris.*contaminated/,
    true,
  ],
  [
    'administration-set-change',
    'every 7 days',
    '96 h',
    'CDC 2011 recommendation 1 (IA): 96 h to 7 days',
    /2011.*recommendation 1 \(category IA\).*every 96 hours and at least every 7 days/,
    true,
  ],
  [
    'administration-set-change-blood',
    'every 4 hours',
    undefined,
    'INS: each unit or 4 h',
    /INS 2016.*every 4 hours/,
    true,
  ],
  [
    'administration-set-change-fat-emulsion',
    'every 12 hours',
    undefined,
    'INS: fat emulsion alone 12 h',
    /INS 2016.*alone every 12 hours/,
    true,
  ],
  [
    'administration-set-change-nutrition-with-fat',
    'every 24 hours',
    undefined,
    'INS: mixtures with fat 24 h',
    /INS 2016.*mixtures with fat every 24 hours/,
    true,
  ],
  [
    'administration-set-change-unknown',
    'every 24 hours',
    undefined,
    'CDC 2011 (IB): blood and fat within 24 h',
    /2011.*\(category IB\).*24 hours/,
    true,
  ],
  [
    'bag-change-blood',
    'every 4 hours',
    undefined,
    'NZ Blood Service, UK JPAC: 4 h',
    /JPAC.*within 4 hours/,
    false,
  ],
  [
    'bag-change-fat-emulsion',
    'every 12 hours',
    undefined,
    'CDC 2002: fat alone 12 h',
    /fat emulsion alone within 12 hours/,
    false,
  ],
  [
    'bag-change-nutrition-with-fat',
    'every 24 hours',
    undefined,
    'CDC 2002: 3-in-1 24 h',
    /nutrition that holds fat within 24 hours/,
    false,
  ],
  [
    'administration-set-change-propofol',
    'every 12 hours',
    undefined,
    'CDC 2011 (IA): every 6 or 12 h',
    /2011.*\(category IA\).*6 or 12 hours/,
    true,
  ],
  [
    'flush-picc-tunneled',
    'every 7 days',
    undefined,
    'NHS Ayrshire & Arran G004: weekly',
    /G004.*weekly/,
    false,
  ],
  [
    'lock-picc-tunneled',
    'every 7 days',
    undefined,
    'NHS Ayrshire & Arran G004: weekly',
    /G004.*weekly/,
    false,
  ],
  [
    'flush-midline',
    'every 24 hours',
    undefined,
    'INS: at least every 24 h',
    /midline and peripheral.*every 24 hours/,
    true,
  ],
  [
    'lock-midline',
    'every 24 hours',
    undefined,
    'INS: at least every 24 h',
    /midline and peripheral.*every 24 hours/,
    true,
  ],
  [
    'flush-nontunneled',
    'every 24 hours',
    undefined,
    'INS, stated for midline and peripheral: at least every 24 h',
    /midline and peripheral.*every 24 hours/,
    true,
  ],
  [
    'lock-nontunneled',
    'every 24 hours',
    undefined,
    'INS, stated for midline and peripheral: at least every 24 h',
    /midline and peripheral.*every 24 hours/,
    true,
  ],
  [
    'flush-port-accessed',
    'every 24 hours',
    undefined,
    'INS, stated for midline and peripheral: at least every 24 h',
    /midline and peripheral.*every 24 hours/,
    true,
  ],
  [
    'lock-port-accessed',
    'every 24 hours',
    undefined,
    'INS, stated for midline and peripheral: at least every 24 h',
    /midline and peripheral.*every 24 hours/,
    true,
  ],
  [
    'flush-port-not-accessed',
    'every 4 weeks',
    undefined,
    'port labels in Diaz 2017: monthly, 4 weeks',
    /Diaz 2017.*4 weeks/,
    false,
  ],
  [
    'lock-port-not-accessed',
    'every 4 weeks',
    undefined,
    'port labels in Diaz 2017: monthly, 4 weeks',
    /Diaz 2017.*4 weeks/,
    false,
  ],
  [
    'lock-dialysis',
    'every 3 days',
    undefined,
    'PreCLOT: three times a week, so at most 3 days apart',
    /PreCLOT.*three times a week/,
    false,
  ],
  ...(
    [
      ['flush-after-infusion', 'straight after the infusion stop', /INS.*flush after each infusion/, true],
      ['flush-after-blood-sampling', 'straight after the blood sampling', /INS.*each blood draw/, true],
      ['lock-after-infusion', 'straight after the infusion stop', /US heparin.*after every use/, false],
      [
        'lock-after-blood-sampling',
        'straight after the blood sampling',
        /US heparin.*after every use/,
        false,
      ],
      [
        'lock-dialysis-after-infusion',
        'straight after the infusion stop',
        /US heparin.*after every use/,
        false,
      ],
      [
        'lock-dialysis-after-blood-sampling',
        'straight after the blood sampling',
        /US heparin.*after every use/,
        false,
      ],
    ] as const
  ).map(([id, when, source, fromMemory]): Row => [
    id,
    when,
    undefined,
    'flush after each infusion and draw (INS), lock after every use (US labels)',
    source,
    fromMemory,
  ]),
  [
    'site-assessment',
    'every day',
    undefined,
    'home care sheet: every day',
    /home care sheet.*every day/,
    false,
  ],
  [
    'external-length-measurement',
    'every 7 days',
    undefined,
    'INS 2016/2021: at each dressing change',
    /INS 2016 and 2021.*each dressing change/,
    true,
  ],
  [
    'necessity-review',
    'every day',
    undefined,
    'SHEA/IDSA/APIC 2022, ASA 2020: daily',
    /ASA 2020.*daily/,
    true,
  ],
  [
    'access-needle-change',
    'every 7 days',
    undefined,
    'INS 2016/2021: at least every 7 days',
    /INS 2016 and 2021.*at least every 7 days/,
    true,
  ],
  [
    'access-review-dialysis',
    'every 3 months',
    undefined,
    'KDOQI 2019: at least quarterly',
    /KDOQI 2019.*quarterly/,
    false,
  ],
  [
    'administration-set-change-intermittent',
    'every 24 hours',
    undefined,
    'INS: intermittent sets every 24 h',
    /INS.*intermittent use every 24 hours/,
    true,
  ],
  [
    'administration-set-change-parenteral-nutrition',
    'every 24 hours',
    undefined,
    'INS 2021/2024: parenteral nutrition without fat 24 h',
    /2021 and 2024.*without fat.*every 24 hours/,
    true,
  ],
  [
    'administration-set-change-pressure-monitoring',
    'every 96 hours',
    undefined,
    'INS: transducer 96 h',
    /INS.*transducer.*96 hours/,
    true,
  ],
  [
    'antiseptic-bath',
    'every day',
    undefined,
    'SHEA/IDSA/APIC 2022, essential: bath in intensive care above 2 months',
    /2022.*above 2 months.*daily/,
    false,
  ],
  ['dressing-change-dialysis', 'every 7 days', undefined, 'KHA-CARI: weekly', /KHA-CARI.*weekly/, true],
  [
    'dressing-stays-after-removal',
    'not within 24 hours after the removal, unless damp, loosened or soiled dressing condition is found first',
    undefined,
    'INS 2021: air-occlusive dressing at least 24 h',
    /INS 2021.*at least 24 hours/,
    true,
  ],
  [
    'infusion-start-before-tip-confirmation',
    'not from the insertion until the tip confirmation',
    undefined,
    'dialysis catheter leaflet: verify by x-ray before use',
    /leaflet.*before use/,
    false,
  ],
  [
    'removal-after-insertion-without-asepsis',
    '48 hours after the insertion',
    undefined,
    'CDC 2011 (IB): within 48 h',
    /\(category IB\).*within 48 hours/,
    true,
  ],
  [
    'securement-change',
    'every 7 days',
    undefined,
    'INS: with the dressing',
    /INS 2016 and 2021.*with the dressing/,
    true,
  ],
  [
    'site-assessment-after-removal',
    '24 hours after the removal',
    undefined,
    'INS 2021: at least 24 h',
    /INS 2021.*at least 24 hours/,
    true,
  ],
  [
    'tip-confirmation',
    'straight after the insertion',
    undefined,
    'dialysis catheter leaflet: before use',
    /leaflet.*before use/,
    false,
  ],
];

describe('the intervals of the base are the published ones', () => {
  it.each(published.map((row) => [...row] as const))(
    '%s: %s (%s); %s',
    (id, interval, spacing, _, sourceIn, fromMemory) => {
      const rule = base.get(id);
      expect(rule === undefined ? undefined : scheduleText(rule)).toBe(interval);
      const given = rule?.minimumSpacing;
      expect(given === undefined ? undefined : `${given.value} ${given.unit}`).toBe(spacing);
      const source = rule?.citations.find(({ text }) => sourceIn.test(text));
      expect(source?.text).toBeDefined();
      expect(source?.text.includes('from memory')).toBe(fromMemory);
      expect(source?.certainty).toBe(fromMemory ? 'from-memory' : 'seen');
    },
  );

  it('and no rule of the base is without a row above', () => {
    expect([...new Set(published.map(([id]) => id))].sort()).toEqual([...base.keys()]);
  });
});

describe('the base applies where it should', () => {
  const picc = { 'line.type': 'picc', 'line.accessed': true } as const;
  const port = { 'line.type': 'implanted-port' } as const;
  const ids = (given: Facts) =>
    [...base.values()]
      .filter((rule) => applies(rule, given) && rule.begins.kind === 'interval')
      .map(({ id }) => id);

  it('a PICC with a transparent dressing, locked', () => {
    expect(ids({ ...picc, 'line.dressing': 'transparent-dressing', 'lumen.use': 'locked' })).toEqual([
      'dressing-change-transparent',
      'external-length-measurement',
      'flush-picc-tunneled',
      'lock-picc-tunneled',
      'necessity-review',
      'needleless-connector-change',
      'site-assessment',
    ]);
  });

  it('a PICC left open on purpose, infusing neither blood, fat nor propofol', () => {
    expect(
      ids({ ...picc, 'line.dressing': 'no-dressing', 'lumen.use': 'infusing', 'lumen.infusate': 'other' }),
    ).toEqual([
      'administration-set-change',
      'external-length-measurement',
      'necessity-review',
      'needleless-connector-change',
      'site-assessment',
    ]);
  });

  it('the set of an unknown infusion has the 24 hours that blood and fat have at most', () => {
    const asked = ids({ ...picc, 'line.dressing': 'no-dressing', 'lumen.use': 'infusing' });
    expect(asked.filter((id) => /^(administration-set|bag)-change/.test(id))).toEqual([
      'administration-set-change',
      'administration-set-change-unknown',
    ]);
  });

  it('an unknown dressing counts as gauze', () => {
    expect(ids({ ...picc, 'lumen.use': 'locked' })).toContain('dressing-change-gauze');
  });

  it('a port without a needle asks for its monthly flush and lock, and whether it is needed', () => {
    expect(ids({ ...port, 'line.accessed': false, 'lumen.use': 'locked' })).toEqual([
      'flush-port-not-accessed',
      'lock-port-not-accessed',
      'necessity-review',
    ]);
  });

  it('a port with a needle in', () => {
    expect(
      ids({
        ...port,
        'line.accessed': true,
        'line.dressing': 'transparent-dressing',
        'lumen.use': 'locked',
      }),
    ).toEqual([
      'access-needle-change',
      'dressing-change-transparent',
      'flush-port-accessed',
      'lock-port-accessed',
      'necessity-review',
      'needleless-connector-change',
      'site-assessment',
    ]);
  });

  it.each(['tunneled-dialysis-catheter', 'nontunneled-dialysis-catheter'] as const)(
    'a %s is locked and not flushed',
    (type) => {
      const asked = ids({
        'line.type': type,
        'line.accessed': true,
        'line.dressing': 'no-dressing',
        'lumen.use': 'locked',
      });
      expect(asked.filter((id) => /flush|lock/.test(id))).toEqual(['lock-dialysis']);
    },
  );

  it.each([
    ['picc', 'locked', ['lock-after-blood-sampling', 'lock-after-infusion']],
    ['implanted-port', undefined, ['lock-after-blood-sampling', 'lock-after-infusion']],
    ['picc', 'infusing', []],
    [
      'tunneled-dialysis-catheter',
      undefined,
      ['lock-dialysis-after-blood-sampling', 'lock-dialysis-after-infusion'],
    ],
  ] as const)('after use, a %s whose lumen is %s: %j and always a flush', (type, use, locks) => {
    const asked = [...base.values()].filter(
      (rule) =>
        rule.begins.kind === 'triggered' &&
        rule.begins.by.some(({ kind }) => kind === 'event') &&
        applies(rule, { 'line.type': type, ...(use === undefined ? {} : { 'lumen.use': use }) }),
    );
    expect(asked.map(({ id }) => id).filter((id) => /flush|lock/.test(id))).toEqual([
      'flush-after-blood-sampling',
      'flush-after-infusion',
      ...locks,
    ]);
  });
});

describe('the unit layers', () => {
  it('infant: a neonate’s lock after use says what a neonate may be given', () => {
    const rules = rulesOf('base', 'infant');
    for (const use of ['infusion', 'blood-sampling']) {
      const [own, general] = [rules.get(`lock-neonate-after-${use}`), rules.get(`lock-after-${use}`)];
      expect(own?.begins).toEqual(general?.begins);
      expect(own?.work.cautions.join(' ')).toMatch(/at most 40 units\/kg in 24 h/);
      const line = { 'line.type': 'picc' } as const;
      expect(applies(own, { ...line, 'patient.ageDays': 28 })).toBe(true);
      expect(applies(own, { ...line, 'patient.ageDays': 29 })).toBe(false);
      expect(applies(own, line)).toBe(false);
      expect(applies(own, { ...line, 'lumen.use': 'infusing', 'patient.ageDays': 28 })).toBe(false);
    }
  });

  const low = rulesOf('base', 'neutropenia').get('dressing-change-gauze-low-neutrophils');
  const gauze = {
    'line.type': 'picc',
    'line.dressing': 'gauze-dressing',
    'line.accessed': true,
  } as const;
  const anc = (value: string, unit: string) => ({
    'labs.anc': { low: value, high: value, lowIncluded: true, highIncluded: true, unit },
  });

  // Common practice, no source: below 200/mm3.
  it.each([
    ['199', '/mm3', true],
    ['200', '/mm3', false],
    ['0.2', '10*9/L', false],
    ['0.19', '10*9/L', true],
    ['200', '{cells}/uL', false],
  ])('neutropenia: gauze daily at %s %s is %s', (value, unit, expected) => {
    expect(applies(low, { ...gauze, ...anc(value, unit) })).toBe(expected);
    expect(low === undefined ? '' : scheduleText(low)).toBe('every day');
  });

  it('neutropenia: an unknown count with gauze takes the protective reading, other dressings do not', () => {
    expect(applies(low, gauze)).toBe(true);
    expect(applies(low, { ...gauze, 'line.dressing': 'transparent-dressing' })).toBe(false);
  });

  // Common practice, no source.
});
