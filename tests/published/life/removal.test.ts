import { dueCare, readRecords, transactionFor } from '@dwellward/core';
import { codeSystem } from '@dwellward/profiles';
import type { FhirResource, Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import {
  at,
  careOf,
  event,
  finding,
  infusion,
  itemOf,
  lineOf,
  places,
  policyOf,
  stepsOf,
  zone,
  type Resources,
} from './line.js';
import { said } from '../../said.js';

// Taking a line out. Flat or head down, Valsalva or breathing out, never against resistance, air-tight dressing at
// once: NCHD survival guide (seen). Flat for 30 minutes, dressing for 24 hours, length and tip recorded: INS 2021, from
// memory. Tip not sent for culture unless infection is suspected: IDSA 2009, A-II (seen). A piece that stayed in: keep
// the limb still, dress the site, urgent help: NCHD survival guide (seen). Infusions stopped and lumens clamped first,
// platelets and INR looked at, pressure for at least 5 minutes, and 1 cm as the length that may be missing: common
// practice, no source.

const policy = policyOf('removal', 'trouble', 'repair-care');
const coded = (code: string) => ({ coding: [{ system: codeSystem.lineFinding, code }] });
const cm = (value: number) => ({ value, unit: 'cm', system: 'http://unitsofmeasure.org', code: 'cm' });
const property = (code: string, value: number) => ({
  type: { coding: [{ system: codeSystem.lineProperty, code }] },
  valueQuantity: [cm(value)],
});
/** The line of these tests, whose Device says how long it is. */
const measured = (wholeCm?: number, externalCm?: number): Resources =>
  lineOf().map((one) =>
    one['id'] === 'line'
      ? {
          ...one,
          property: [
            ...(wholeCm === undefined ? [] : [property('length', wholeCm)]),
            ...(externalCm === undefined ? [] : [property('external-length', externalCm)]),
          ],
        }
      : one,
  );
const out = event('out', 'removal', at('10:00:00'));
const cameOut = (lengthCm: number | undefined, value?: string, when = at('10:05:00')) => {
  return {
    ...finding('came-out', 'removed-catheter', when),
    valueBoolean: undefined,
    ...(value === undefined ? {} : { valueCodeableConcept: { coding: [{ code: value }] } }),
    ...(lengthCm === undefined
      ? {}
      : value === undefined
        ? { valueQuantity: cm(lengthCm) }
        : {
            component: [
              {
                code: coded('catheter-length'),
                valueQuantity: cm(lengthCm),
              },
            ],
          }),
  };
};
const order = (when: string) => ({
  resourceType: 'ServiceRequest',
  id: 'order',
  status: 'active',
  intent: 'order',
  code: { coding: [{ system: codeSystem.lineCareActivity, code: 'removal' }] },
  subject: { reference: 'Patient/maple' },
  supportingInfo: [{ reference: 'Device/line' }],
  authoredOn: at('08:00:00'),
  occurrenceDateTime: when,
});
const inOrder = [
  /^Check the order, who the patient is/,
  /^Stop every infusion and clamp every lumen/,
  /^Look at the platelets and the INR/,
  /^Lay the patient flat or head down/,
  /bears down \(Valsalva\) or breathes out/,
  /^Never pull against resistance/,
  /^Press on the exit site and on the place where the line enters the vein.*at least 5 minutes; longer with low platelets/,
  /air-tight dressing at once.*at least 24 hours/,
  /^Flat for 30 minutes/,
  /Do not send the tip for culture unless an infection/,
];

describe('the steps of a removal', () => {
  it.each([
    ['that is ordered', [...lineOf(), order(at('14:00:00'))], at('14:00:00')],
    [
      'because asepsis was not kept (CDC 2011, IB, from memory: within 48 hours)',
      [
        ...lineOf().filter(({ resourceType }) => resourceType !== 'Procedure'),
        event('inserted', 'insertion', at('07:00:00')),
        finding('septic', 'aseptic-insertion', at('07:00:00'), false),
      ],
      '2026-11-27T07:00:00+01:00',
    ],
  ])('%s', (_, resources, dueBy) => {
    const item = itemOf(careOf(resources, policy, at('09:00:00')), 'removal');
    expect(item?.dueBy).toBe(dueBy);
    const found = places(stepsOf(item), inOrder);
    expect(found).not.toContain(-1);
    expect(found).toEqual([...found].sort((a, b) => a - b));
  });
  it('an order that was carried out asks for nothing more', () => {
    const done = [...lineOf(), order(at('14:00:00')), out];
    expect(itemOf(careOf(done, policy, at('10:10:00')), 'removal')).toBeUndefined();
  });
});

describe('whether the line is whole', () => {
  const check = (resources: Resources, when = at('10:10:00')) =>
    itemOf(careOf(resources, policy, when), 'removed-catheter-check');
  const retained = (resources: Resources, when = at('10:10:00')) =>
    itemOf(careOf(resources, policy, when), 'retained-catheter-response');

  it('is looked at at once after the removal, with the length on record', () => {
    const item = check([...measured(42, 6), out]);
    expect([item?.dueBy, item?.opens, item?.state]).toEqual([at('10:00:00'), at('10:00:00'), 'overdue']);
    expect(stepsOf(item).join(' ')).toContain('42 cm whole (Device/line), 6 cm of it outside the skin');
    expect(check([...measured(42, 6)])).toBeUndefined();
  });
  it('says so where no length is on record', () => {
    expect(stepsOf(check([...lineOf(), out])).join(' ')).toContain(
      'no whole length; read it from the papers',
    );
  });
  it('ends with the finding or with the charted check, and seven days after at the latest', () => {
    expect(check([...measured(42), out, cameOut(undefined, 'whole')])).toBeUndefined();
    expect(
      check([...measured(42), out, event('looked', 'removed-catheter-check', at('10:05:00'))]),
    ).toBeUndefined();
    expect(check([...measured(42), out], '2026-12-02T23:00:00+01:00')).toBeDefined();
    expect(check([...measured(42), out], '2026-12-03T00:00:00+01:00')).toBeUndefined();
  });

  it.each([
    ['incomplete, whatever its length', 42, undefined, 'incomplete', true],
    ['incomplete, with its length', 42, 42, 'incomplete', true],
    ['whole', 42, undefined, 'whole', false],
    ['whole by its word, though it is shorter: a person has judged it', 42, 30, 'whole', false],
    ['a length alone, 1.1 cm short', 42, 40.9, undefined, true],
    ['a length alone, exactly 1 cm short', 42, 41, undefined, false],
    ['a length alone, as long as on record', 42, 42, undefined, false],
  ])('%s', (_, wholeCm, lengthCm, value, urgent) => {
    const item = retained([...measured(wholeCm), out, cameOut(lengthCm, value)]);
    expect(item !== undefined).toBe(urgent);
    expect(check([...measured(wholeCm), out, cameOut(lengthCm, value)])).toBeUndefined();
    if (!urgent) return;
    expect([item?.dueBy, item?.rule.priority]).toEqual([at('10:05:00'), 'stat']);
    const found = places(stepsOf(item), [
      /^Keep the patient and the limb still/,
      /^Call for urgent help/,
      /^Dress the site/,
    ]);
    expect(found).toEqual([0, 1, 2]);
  });
  it('a length that nothing on record can be held against stays unjudged: the check is still due', () => {
    const unknown = [...lineOf(), out, cameOut(30)];
    expect(retained(unknown)).toBeUndefined();
    expect(check(unknown)).toBeDefined();
  });
  it('what was read out of a length is said', () => {
    const item = retained([...measured(42), out, cameOut(38)]);
    expect(said(item?.remarks ?? []).join(' ')).toContain(
      '38 cm came out; on record: 42 cm whole (Device/line). Read as incomplete',
    );
  });
  it('a length measured after a cut counts in place of the Device’s', () => {
    const cut = { ...cameOut(36, undefined, at('07:00:00')), id: 'cut', code: coded('catheter-length') };
    expect(retained([...measured(42), cut, out, cameOut(36)])).toBeUndefined();
    expect(retained([...measured(42), cut, out, cameOut(34.9)])?.rule.priority).toBe('stat');
    expect(stepsOf(check([...measured(42), cut, out])).join(' ')).toContain('36 cm whole (Observation/cut, ');
  });
  it('a repair with no length after it is said, and the protective reading stays', () => {
    const mended = [...measured(42), event('mended', 'repair', at('08:00:00'), 'red'), out];
    expect(stepsOf(check(mended)).join(' ')).toContain('repaired since, Wed 25 Nov 2026 08:00');
    expect(retained([...mended, cameOut(38)])?.rule.priority).toBe('stat');
  });
  it('ends when the first steps are charted', () => {
    const done = event('helped', 'retained-catheter-response', at('10:20:00'));
    expect(retained([...measured(42), out, cameOut(30), done], at('10:30:00'))).toBeUndefined();
  });
});

describe('after the removal', () => {
  it('flat for 30 minutes, then the site is looked at and the patient may get up (INS 2021, from memory)', () => {
    const care = careOf([...lineOf(), out], policy, at('10:10:00'));
    expect(care.holds.map(({ activity, until }) => [activity, until])).toEqual(
      expect.arrayContaining([
        ['getting-up', at('10:30:00')],
        ['dressing-change', '2026-11-26T10:00:00+01:00'],
      ]),
    );
    const item = itemOf(care, 'getting-up');
    expect([item?.opens, item?.dueBy]).toEqual([at('10:30:00'), at('10:30:00')]);
    expect(stepsOf(item)[0]).toMatch(/^Look at the dressing and the site before the patient sits up/);
    // It leaves the check after 24 hours standing.
    const up = [...lineOf(), out, event('up', 'getting-up', at('10:32:00'))];
    expect(itemOf(careOf(up, policy, at('10:40:00')), 'getting-up')).toBeUndefined();
    expect(itemOf(careOf(up, policy, at('10:40:00')), 'site-assessment')?.dueBy).toBe(
      '2026-11-26T10:00:00+01:00',
    );
  });

  it.each([
    ['bleeding', 'bleeding-response'],
    ['air-entry', 'air-entry-response'],
  ])('%s found at or after it still has its first steps', (code, activity) => {
    for (const when of [at('10:00:00'), at('10:20:00')]) {
      const item = itemOf(
        careOf([...lineOf(), out, finding('f', code, when)], policy, at('10:25:00')),
        activity,
      );
      expect([item?.dueBy, item?.rule.priority]).toEqual([when, 'stat']);
    }
    const before = [...lineOf(), finding('f', code, at('09:59:59')), out];
    expect(itemOf(careOf(before, policy, at('10:25:00')), activity)).toBeUndefined();
  });
  it('that first steps are charted then is no contradiction', () => {
    const done = [
      ...lineOf(),
      out,
      finding('f', 'bleeding', at('10:05:00')),
      event('pressed', 'bleeding-response', at('10:06:00')),
    ];
    expect(careOf(done, policy, at('10:25:00')).issues).toEqual([]);
    const flushed = [...lineOf(), out, event('flushed', 'flush', at('10:06:00'), 'red')];
    expect(careOf(flushed, policy, at('10:25:00')).issues.map(({ code }) => code)).toEqual([
      'event-after-removal',
    ]);
  });
  it('of a line that is out nothing is clamped or repaired', () => {
    const torn = [...lineOf(), out, finding('torn', 'damage', at('10:10:00'), 'cut')];
    const care = careOf(torn, policy, at('10:25:00'));
    expect(itemOf(care, 'breakage-response')).toBeUndefined();
    expect(itemOf(care, 'repair')).toBeUndefined();
  });
});

describe('the Tasks of the line', () => {
  /** The Tasks as a server holds them after it has taken what is to be written. */
  function sync(server: readonly Task[], resources: Resources, asOf: string): Task[] {
    const records = readRecords(resources.map((resource) => ({ resource })));
    const when = { asOf, zone };
    const cares = records.lines.map((line) => dueCare(line, policy, when));
    const existing: readonly FhirResource[] = server;
    const written = transactionFor({ records, cares, policy, when, existing })?.entry ?? [];
    const tasks = new Map(server.map((task) => [task.id, task]));
    for (const { resource } of written)
      if (resource?.resourceType === 'Task') {
        const id = resource.id ?? `t${tasks.size}`;
        tasks.set(id, { ...(resource as Task), id, meta: { versionId: '1' } });
      }
    return [...tasks.values()];
  }
  const reasons = (tasks: readonly Task[]) => [
    ...new Set(tasks.map(({ statusReason }) => statusReason?.coding?.[0]?.code)),
  ];
  const line = [...measured(42), infusion('drip', 'red', at('06:00:00'))];
  const before = sync([], line, at('09:00:00'));
  const known = new Set(before.map(({ id }) => id));
  const outNow = sync(before, [...line, out], at('10:10:00'));

  it('that are open are all closed with the reason that the line was removed', () => {
    expect(before.length).toBeGreaterThan(5);
    expect(new Set(before.map(({ status }) => status))).toEqual(new Set(['requested']));
    const closed = outNow.filter(({ id }) => known.has(id));
    const kept = closed.filter(({ status }) => status !== 'cancelled');
    // The daily look at the site becomes the one after the removal: the same Task, with another window.
    expect(kept.map(({ code }) => code?.coding?.[0]?.code)).toEqual(['site-assessment']);
    expect(reasons(closed.filter(({ status }) => status === 'cancelled'))).toEqual(['line-removed']);
  });
  it('are asked for anew as what follows a removal', () => {
    const fresh = outNow.filter(({ id }) => !known.has(id));
    expect(fresh.map(({ code }) => code?.coding?.[0]?.code).sort()).toEqual([
      'getting-up',
      'removed-catheter-check',
    ]);
  });
  it('are open again, the same ones, when the removal turns out to be entered in error', () => {
    const wrong = sync(outNow, [...line, { ...out, status: 'entered-in-error' }], at('10:20:00'));
    const again = wrong.filter(({ id }) => known.has(id));
    expect(again.map(({ status }) => status)).toEqual(before.map(() => 'requested'));
    expect(reasons(again)).toEqual([undefined]);
    const fresh = wrong.filter(({ id }) => !known.has(id));
    expect(new Set(fresh.map(({ status }) => status))).toEqual(new Set(['cancelled']));
    // And it stays so.
    expect(sync(wrong, [...line, { ...out, status: 'entered-in-error' }], at('10:20:00'))).toEqual(wrong);
  });
});

// Air-occlusive for 24 hours: INS 2021, from memory. A damp, loosened or soiled dressing is replaced: CDC-HICPAC 2011 (IB).
// What the two mean together, a new air-tight one at once, is common practice, no source.
describe('a dressing that does not hold after the removal', () => {
  const seen = (value: string, when: string) => ({
    ...finding('bad', 'dressing-condition', when, value),
    bodySite: { coding: [{ system: codeSystem.lineSite, code: 'exit-site' }] },
  });
  const care = (resources: Resources, when: string) => careOf([...lineOf(), out, ...resources], policy, when);

  it.each(['damp', 'loosened', 'soiled'])(
    '%s: a new air-tight one over or in its place, at once',
    (value) => {
      const { items, holds } = care([seen(value, at('15:00:00'))], at('15:05:00'));
      const item = items.find(({ activity }) => activity === 'dressing-change');
      expect([item?.rule.id, item?.dueBy, item?.state, item?.rule.priority]).toEqual([
        'dressing-change-after-removal',
        at('15:00:00'),
        'overdue',
        'asap',
      ]);
      expect(item?.heldBy).toBeUndefined();
      const steps = stepsOf(item);
      expect(
        places(steps, [
          /The patient lies/,
          /new air-tight dressing over it/,
          /new air-tight dressing.*in its place/,
        ]),
      ).not.toContain(-1);
      expect(holds.filter(({ activity }) => activity === 'dressing-change')).toEqual([]);
    },
  );

  it('clean and dry, or bad only before the removal: it stays on for the 24 hours, and nothing is asked for', () => {
    for (const one of [seen('intact', at('15:00:00')), seen('soiled', at('09:00:00'))]) {
      const { items, holds } = care([one], at('15:05:00'));
      expect(items.filter(({ activity }) => activity === 'dressing-change')).toEqual([]);
      expect(holds.some(({ activity }) => activity === 'dressing-change')).toBe(true);
    }
  });

  it('is met by the new dressing, which is no contradiction, and no longer asked for two days later', () => {
    const bad = seen('soiled', at('15:00:00'));
    const { items, issues } = care([bad, event('new', 'dressing-change', at('15:10:00'))], at('15:15:00'));
    expect(items.filter(({ activity }) => activity === 'dressing-change')).toEqual([]);
    expect(issues.filter(({ code }) => code === 'event-after-removal')).toEqual([]);
    const later = care([bad], '2026-11-27T00:00:00+01:00').items;
    expect(later.filter(({ activity }) => activity === 'dressing-change')).toEqual([]);
  });

  it('of a line that is in nothing changes', () => {
    const { items } = careOf([...lineOf(), seen('soiled', at('15:00:00'))], policy, at('15:05:00'));
    const item = items.find(({ activity }) => activity === 'dressing-change');
    const rules = [item?.rule, ...(item?.others ?? []).map(({ rule }) => rule)].map((rule) => rule?.id);
    expect(rules).toContain('dressing-change-at-once');
    expect(rules).not.toContain('dressing-change-after-removal');
  });
});
