import { dueBundle, readRecords, renderTable } from '@dwellward/core';
import { describe, expect, it } from 'vitest';
import {
  at,
  careOf,
  event,
  finding,
  itemOf,
  lineOf,
  places,
  policyOf,
  stepsOf,
  tasksOf,
  zone,
  type Resources,
} from './line.js';

// First steps from a finding: what each source says has to be done, and in which order, typed in from the source.
// `seen` was read in the source, `reported` in a page about it, `from memory` in neither; `common practice, no source`
// has none.

interface Row {
  readonly says: string;
  readonly source: string;
  readonly finding: readonly [code: string, value?: string | undefined, device?: string];
  readonly activity: string;
  readonly stat: boolean;
  /** What the steps say, in this order. */
  readonly inOrder: readonly RegExp[];
  /** What they say somewhere. */
  readonly also?: readonly RegExp[];
}

const rows: readonly Row[] = [
  {
    says: 'air: stop the entry, call, left side, 100 % oxygen; arrest flat on the back',
    source: 'emedicine 761367, a university module (seen); PMC7785711, citing AHA 2010 (seen)',
    finding: ['air-entry'],
    activity: 'air-entry-response',
    stat: true,
    inOrder: [/^Clamp/, /^Call/, /on the left side/, /oxygen, 100 %/i, /No pulse: flat on the back/],
    also: [/right atrium/],
  },
  ...(['leak', 'cut', 'puncture'] as const).map((value): Row => ({
    says: `${value}: clamp between the break and the body at once, sterile gauze, call`,
    source: 'home sheet of a US hospital (seen); common practice, no source, says the chest wall',
    finding: ['damage', value],
    activity: 'breakage-response',
    stat: true,
    inOrder: [/^Clamp.*between the break and the chest wall.*at once/, /sterile gauze/, /^Call/],
  })),
  {
    says: 'bleeding: pressure; pressure on excessive drainage and cold on a swelling after the insertion',
    source: 'common practice, no source',
    finding: ['bleeding'],
    activity: 'bleeding-response',
    stat: true,
    inOrder: [/^Press/, /^Call/, /pressure on a site that drains much, cold on a swelling/],
  },
  {
    says: 'bleeding: gauze until it is resolved',
    source: 'CDC-HICPAC 2011 dressing regimens 2 (II), from memory',
    finding: ['bleeding'],
    activity: 'bleeding-response',
    stat: true,
    inOrder: [/gauze dressing/],
  },
  {
    says: 'extravasation: stop, draw back, call',
    source: 'common practice, no source',
    finding: ['extravasation', undefined, 'red'],
    activity: 'extravasation-response',
    stat: true,
    inOrder: [/stop it now and clamp\. Do not flush/, /draw back/, /^Call/],
  },
  {
    says: 'fever: call; cultures from the line with a new connector, 10 to 15 minutes apart at most; not removed for fever alone',
    source: 'two US home sheets (seen); INS and IDSA, CDC-HICPAC 2011 (II), from memory',
    finding: ['fever'],
    activity: 'fever-response',
    // No count is on record here.
    stat: true,
    inOrder: [
      /^Call/,
      /new connector first.*same volume.*10 to 15 minutes apart/,
      /Do not take the line out/,
    ],
  },
  ...(['redness', 'swelling', 'tenderness', 'drainage'] as const).map((value): Row => ({
    says: `${value} at the exit site: exit site up to 2 cm, tunnel beyond, pocket`,
    source: 'IDSA 2009 table 4 (seen)',
    finding: ['exit-site', value],
    activity: 'infection-sign-response',
    stat: false,
    inOrder: [/Measure/, /Up to 2 cm.*exit site.*More than 2 cm.*tunnel.*pocket/, /^Call/],
  })),
  {
    says: 'signs along the tunnel',
    source: 'IDSA 2009 table 4 (seen)',
    finding: ['tunnel-signs'],
    activity: 'infection-sign-response',
    stat: false,
    inOrder: [/More than 2 cm.*tunnel/],
  },
  ...(
    [
      ['blood-return', 'none'],
      ['blood-return', 'sluggish'],
      ['flush-resistance', 'some'],
      ['flush-resistance', 'blocked'],
    ] as const
  ).map(([code, value]): Row => ({
    says: `${code} ${value}: mechanical causes first, then precipitate or clot; no pressure, 10 mL syringe`,
    source:
      'Goossens 2015 (seen); US label of alteplase: other causes before it (reported); syringe: a dialysis catheter’s leaflet (seen)',
    finding: [code, value, 'red'],
    activity: 'blockage-response',
    stat: false,
    inOrder: [/force.*10 mL/, /mechanical cause first/, /precipitate/, /clot/],
  })),
  {
    says: 'migration: never pushed back, measured, tip imaged before use',
    source: 'INS 2016 and 2021, from memory',
    finding: ['migration'],
    activity: 'migration-response',
    stat: false,
    inOrder: [/Do not use the line/, /Never push it back in/, /external length/, /tip is confirmed/],
  },
  {
    says: 'arm or neck swelling: 10 cm above the fold, 3 cm more',
    source: 'INS, from memory',
    finding: ['arm-neck-swelling'],
    activity: 'swelling-response',
    stat: false,
    inOrder: [/10 cm above.*3 cm/, /imaging/],
  },
];

const policy = policyOf('trouble', 'repair-care', 'occlusion');
const with1 = ([code, value, device]: Row['finding']): Resources => [
  ...lineOf(),
  finding('found', code, at('09:00:00'), value, device ?? 'line'),
];

describe.each(rows)('$says', (row) => {
  it(`steps in the order of the source: ${row.source}`, () => {
    const item = itemOf(careOf(with1(row.finding), policy, at('09:05:00')), row.activity);
    expect(item?.target.scope === 'lumen' ? item.target.ref : 'line').toBe(
      row.activity === 'blockage-response' ? 'Device/red' : 'line',
    );
    const steps = stepsOf(item);
    const found = places(steps, row.inOrder);
    expect(found).not.toContain(-1);
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(places(steps, row.also ?? [])).not.toContain(-1);
    expect(item?.rule.citations.length).toBeGreaterThan(0);
  });

  it('is asked for at once, and ends when the first steps are charted', () => {
    const before = itemOf(careOf(with1(row.finding), policy, at('09:00:00')), row.activity);
    expect([before?.dueBy, before?.opens, before?.state]).toEqual([at('09:00:00'), at('09:00:00'), 'due']);
    const done = [
      ...with1(row.finding),
      event('done', row.activity, at('09:10:00'), row.finding[2] ?? 'line'),
    ];
    expect(itemOf(careOf(done, policy, at('09:15:00')), row.activity)).toBeUndefined();
  });

  it(`${row.stat ? 'is' : 'is not'} an emergency`, () => {
    const care = careOf(with1(row.finding), policy, at('09:05:00'));
    const item = itemOf(care, row.activity);
    expect(item?.rule.priority === 'stat').toBe(row.stat);
    expect(item?.heldBy).toBeUndefined();
  });

  it('is not asked for where the finding says that it is absent', () => {
    const [code, value, device] = row.finding;
    const no: Record<string, string | boolean> = { 'blood-return': 'brisk', 'flush-resistance': 'none' };
    for (const absent of value === undefined ? [false, 'absent', 'none'] : [no[code] ?? 'absent']) {
      const resources = [...lineOf(), finding('found', code, at('09:00:00'), absent, device ?? 'line')];
      expect(itemOf(careOf(resources, policy, at('09:05:00')), row.activity)).toBeUndefined();
    }
  });
});

describe('a fever and the neutrophil count (rules for fever in neutropenia, from memory: below 0.5 10*9/L)', () => {
  const count = (value: number, when = at('06:00:00'), id = 'count') => ({
    resourceType: 'Observation',
    id,
    status: 'final',
    code: { coding: [{ system: 'http://loinc.org', code: '751-8' }] },
    subject: { reference: 'Patient/maple' },
    effectiveDateTime: when,
    valueQuantity: { value, unit: '10*9/L', system: 'http://unitsofmeasure.org', code: '10*9/L' },
  });
  const task = (...more: Resources) => {
    const resources = [...lineOf(), finding('found', 'fever', at('09:00:00')), ...more];
    const records = readRecords(resources.map((resource) => ({ resource })));
    const when = { asOf: at('09:05:00'), zone };
    const care = careOf(resources, policy, when.asOf);
    const { priority, reasonCode, note, restriction } =
      tasksOf(dueBundle(records, [care], policy, when)).find(({ code }) => code?.text === 'Fever response') ??
      {};
    const item = itemOf(care, 'fever-response');
    return {
      priority,
      rule: item?.rule.id,
      title: reasonCode?.text,
      note: note?.[0]?.text,
      due: restriction?.period?.end,
      movedBy: item?.movedBy,
    };
  };

  it('low: an emergency that says so and gives the count', () => {
    const low = task(count(0.49));
    expect([low.priority, low.rule]).toEqual(['stat', 'fever-response-low-count']);
    expect(low.title).toMatch(/neutrophils low or not known: an emergency/);
    expect(low.note).toMatch(/An emergency: neutrophil count 0\.49 10\^9\/L/);
    expect(low.movedBy).toEqual(['Observation/count', 'Observation/found']);
  });

  it('at the limit: as soon as possible', () => {
    expect(task(count(0.5))).toMatchObject({ priority: 'asap', rule: 'fever-response' });
  });

  // The protective reading of what is not known; no published rule.
  it.each([
    ['not on record', [], /Not known: the neutrophil count\. The protective reading is taken/],
    [
      'too old to tell',
      [count(2.5, '2026-11-11T06:00:00+01:00')],
      /the last result, 2\.5 10\^9\/L, is older than the policy’s limit/,
    ],
  ])('%s: an emergency that says so', (_, more, says) => {
    const unknown = task(...more);
    expect([unknown.priority, unknown.rule]).toEqual(['stat', 'fever-response-low-count']);
    expect(unknown.title).toMatch(/neutrophils low or not known: an emergency/);
    expect(unknown.note).toMatch(says);
  });

  it('low only after the fever: an emergency from then on, and due since the fever', () => {
    const later = task(count(2.5), count(0.3, at('09:03:00'), 'later'));
    expect(later).toMatchObject({ priority: 'stat', due: at('09:00:00') });
    expect(later.note).toMatch(
      /neutrophils low or not known: an emergency, first steps; neutrophil count 0\.3 10\^9\/L\./,
    );
    expect(later.movedBy).toContain('Observation/later');
  });
});

// US label of alteplase (reported): no pressure into a blocked lumen. Which care waits meanwhile, and what shows that the
// lumen is open, is common practice, no source.
describe('a blocked lumen is left alone until it is found open', () => {
  const layers = policyOf('common-practice', 'trouble', 'occlusion');
  const looked = (...more: Resources) =>
    careOf([...lineOf({ weightKg: 70 }), ...more], layers, at('12:00:00'));
  const waiting = ['flush', 'lock', 'infusion-start', 'blood-sampling'];
  const heldOn = (lumen: string, ...more: Resources) =>
    looked(...more)
      .holds.filter(({ target, from }) => target.ref === `Device/${lumen}` && from >= at('08:00:00'))
      .map(({ activity }) => activity)
      .sort();

  it.each([
    ['blood-return', 'none', waiting],
    ['flush-resistance', 'blocked', waiting],
    ['blood-return', 'sluggish', []],
    ['flush-resistance', 'some', []],
  ] as const)('%s %s', (code, value, held) => {
    const found = finding('found', code, at('08:00:00'), value, 'red');
    expect(heldOn('red', found)).toEqual([...held].sort());
    expect(heldOn('white', found)).toEqual([]);
    const care = looked(found);
    const states = ['flush', 'lock'].map((activity) => itemOf(care, activity, 'red')?.state);
    expect(states.every((state) => (state === 'held') === held.length > 0)).toBe(true);
    expect(itemOf(care, 'flush', 'white')?.state).toBe('overdue');
    // What finds out or puts right stays possible.
    expect(itemOf(care, 'blockage-response', 'red')?.state).toBe('overdue');
    const first = event('first', 'blockage-response', at('08:10:00'), 'red');
    expect(itemOf(looked(found, first), 'occlusion-treatment', 'red')?.state).toBe('overdue');
  });

  it.each([
    ['blood-return', 'none', 'blood-return', 'brisk', true],
    ['blood-return', 'none', 'flush-resistance', 'none', false],
    ['blood-return', 'none', 'blood-return', 'sluggish', false],
    ['flush-resistance', 'blocked', 'blood-return', 'brisk', true],
    ['flush-resistance', 'blocked', 'flush-resistance', 'none', true],
    ['flush-resistance', 'blocked', 'flush-resistance', 'some', false],
  ] as const)('%s %s, then %s %s', (code, value, laterCode, laterValue, open) => {
    const seen = [
      finding('found', code, at('08:00:00'), value, 'red'),
      finding('later', laterCode, at('09:00:00'), laterValue, 'red'),
    ];
    expect(heldOn('red', ...seen)).toEqual(open ? [] : [...waiting].sort());
    expect(itemOf(looked(...seen), 'blockage-response', 'red') === undefined).toBe(open);
  });

  it('after a dose that helped, flush and lock come back at once, and the first steps do not', () => {
    const treated = [
      finding('found', 'blood-return', at('08:00:00'), 'none', 'red'),
      event('first', 'blockage-response', at('08:10:00'), 'red'),
      event('dose', 'occlusion-treatment', at('09:00:00'), 'red'),
      event('look', 'patency-assessment', at('09:31:00'), 'red'),
      finding('still', 'blood-return', at('09:31:00'), 'none', 'red'),
    ];
    const helped = [
      event('again', 'patency-assessment', at('11:00:00'), 'red'),
      finding('open', 'blood-return', at('11:00:00'), 'brisk', 'red'),
    ];
    const state = (time: string, activity: string, ...more: Resources) =>
      itemOf(careOf([...lineOf({ weightKg: 70 }), ...treated, ...more], layers, at(time)), activity, 'red')
        ?.state;
    expect(['flush', 'lock'].map((one) => state('10:59:00', one))).toEqual(['held', 'held']);
    expect(['flush', 'lock'].map((one) => state('11:00:01', one, ...helped))).toEqual(['overdue', 'overdue']);
    expect(state('11:00:01', 'blockage-response', ...helped)).toBeUndefined();
    expect(state('11:00:01', 'occlusion-treatment', ...helped)).toBeUndefined();
  });
});

describe('an emergency among other care', () => {
  const resources = [
    ...lineOf(),
    finding('soiled', 'dressing-condition', at('06:00:00'), 'soiled'),
    event('treated', 'repair', at('08:50:00')),
    finding('found', 'air-entry', at('09:00:00')),
  ];
  it('stands above all that is overdue, whatever was due first', () => {
    const records = readRecords(resources.map((resource) => ({ resource })));
    const when = { asOf: at('09:05:00'), zone };
    const text = renderTable(records, [careOf(resources, policy, when.asOf)], when, {
      colour: false,
      columns: 0,
    });
    const overdue = text.split('\n').filter((line) => line.includes('!! overdue'));
    expect(overdue[0]).toContain('Air entry response');
    expect(overdue.some((line) => line.includes('Dressing change'))).toBe(true);
  });

  it('carries its steps into the Task, in their order', () => {
    const records = readRecords(resources.map((resource) => ({ resource })));
    const care = careOf(resources, policy, at('09:05:00'));
    const task = tasksOf(dueBundle(records, [care], policy, { asOf: at('09:05:00'), zone })).find(
      ({ code }) => code?.text === 'Air entry response',
    );
    const steps = task?.input?.flatMap(({ type, valueString }) =>
      type.coding?.[0]?.code === 'step' ? [valueString] : [],
    );
    expect(steps).toEqual(stepsOf(itemOf(care, 'air-entry-response')));
    expect(steps?.length).toBeGreaterThan(3);
    expect(task?.priority).toBe('stat');
  });
});
