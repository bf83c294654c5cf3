import { dueCare, instantMs, readRecords } from '@dwellward/core';
import {
  burdenOf,
  burdenRows,
  careAskedBy,
  careWindows,
  onTime,
  onTimeRows,
  unitFigures,
} from '@dwellward/figures';
import { demoInstant, demoUnit, inventedYear, yearPeriod } from '@dwellward/fixtures';
import { defaultPlans, readPolicy } from '@dwellward/policy';
import { codeSystem, policyExtension } from '@dwellward/profiles';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const reading = readPolicy(defaultPlans());
if (!reading.ok) throw new Error('The default policy is refused.');
const { policy } = reading;
const zone = 'Europe/Berlin';
const subject = { reference: 'Patient/p' };
const june = (day: number, hour = 12) => `2026-06-${String(day).padStart(2, '0')}T${hour}:00:00+02:00`;
const put = [{ coding: [{ system: codeSystem.dressingType, code: 'transparent-dressing' }] }];
const act = (activity: string, at: string, more: object = {}) => ({
  ...{ resourceType: 'Procedure', id: `${activity}-${at.slice(5, 13)}`, status: 'completed', subject },
  ...{ performedDateTime: at, focalDevice: [{ manipulated: { reference: 'Device/l' } }] },
  code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
  ...more,
});
const dressing = (day: number, more: object = {}) =>
  act('dressing-change', june(day), { usedCode: put, ...more });
const base = [
  { resourceType: 'Patient', id: 'p', birthDate: '1970-01-01' },
  {
    ...{ resourceType: 'Device', id: 'l', status: 'active', patient: subject },
    type: { coding: [{ system: codeSystem.lineType, code: 'picc' }] },
  },
  {
    ...{ resourceType: 'Encounter', id: 's', status: 'in-progress', subject },
    ...{ period: { start: june(1) }, location: [{ location: { display: 'Ward' }, status: 'active' }] },
  },
  act('insertion', june(1)),
];
const records = (...more: object[]) => readRecords([...base, ...more].map((resource) => ({ resource })));
const dressings = (from: number, to: number, ...more: object[]) =>
  careWindows(records(...more), policy, {
    ...{ from: june(from).slice(0, 10), to: june(to).slice(0, 10), zone },
  })
    .filter(({ activity }) => activity === 'dressing-change')
    .map(({ outcome, dueBy, daysOverdue }) => [
      outcome,
      dueBy.slice(5, 10),
      Math.round(daysOverdue * 10) / 10,
    ]);

/** A dressing change a day after the insertion, which is forbidden for five days from it. */
function heldForFiveDays() {
  const held = (activity: string) => ({
    resourceType: 'ActivityDefinition',
    url: `https://hospital.example/no-${activity}`,
    ...{ status: 'active', kind: 'ServiceRequest', intent: 'plan', doNotPerform: true },
    code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
  });
  const inserted = {
    type: 'data-added',
    data: [
      {
        type: 'Procedure',
        codeFilter: [{ path: 'code', code: [{ system: codeSystem.lineCareActivity, code: 'insertion' }] }],
      },
    ],
  };
  const code = [{ coding: [{ system: codeSystem.lineCareActivity, code: 'dressing-change' }] }];
  const documentation = [{ type: 'citation', citation: 'Our own' }];
  const extension = [{ url: policyExtension.ruleScope, valueCode: 'exit-site' }];
  const plan = {
    ...{ resourceType: 'PlanDefinition', url: 'https://hospital.example/held', version: '1' },
    ...{ status: 'active', title: 'Held' },
    action: [
      {
        ...{ id: 'once', code, documentation, extension, trigger: [inserted] },
        timingDuration: { value: 1, code: 'd', system: 'http://unitsofmeasure.org' },
      },
      {
        ...{ id: 'not-yet', code, documentation, extension, trigger: [inserted] },
        definitionCanonical: 'https://hospital.example/no-dressing-change',
        timingTiming: {
          repeat: { boundsDuration: { value: 5, code: 'd', system: 'http://unitsofmeasure.org' } },
        },
      },
    ],
  };
  const own = readPolicy([plan], { activities: [held('dressing-change')] });
  if (!own.ok) throw new Error(JSON.stringify(own.findings));
  return own.policy;
}

// Worked out by hand: a transparent dressing is due seven days after it was put on.
describe('care on time', () => {
  it('is what was done by the time it was due, late what was done after it, missed what was not done at all', () => {
    expect(dressings(1, 30, dressing(2), dressing(8), dressing(18))).toEqual([
      ['on-time', '06-03', 0],
      ['on-time', '06-09', 0],
      ['late', '06-15', 3],
      ['missed', '06-25', 5.5],
    ]);
  });

  it('counts a window in the period in which it closed: when it was due, or was done where that was sooner', () => {
    const three = [dressing(2), dressing(8), dressing(18)];
    expect(dressings(9, 14, ...three)).toEqual([]);
    expect(dressings(8, 8, ...three)).toEqual([['on-time', '06-09', 0]]);
    expect(dressings(15, 17, ...three)).toEqual([['missed', '06-15', 2.5]]);
    expect(dressings(16, 20, ...three)).toEqual([]);
    expect(dressings(26, 30, ...three)).toEqual([]);
  });

  it('ends with the line: what was overdue when it came out is missed, what was not is nothing', () => {
    expect(dressings(1, 30, dressing(2), act('removal', june(12)))).toEqual([
      ['on-time', '06-03', 0],
      ['missed', '06-09', 3],
    ]);
    expect(dressings(1, 30, dressing(2), act('removal', june(8)))).toEqual([['on-time', '06-03', 0]]);
  });

  it('has the reason that was charted, the unit and the shift', () => {
    const refused = dressing(9, { status: 'not-done', statusReason: { text: 'Asked for later.' } });
    const found = careWindows(records(dressing(2), refused, dressing(11)), policy, {
      ...{ from: '2026-06-09', to: '2026-06-12', zone },
    }).find(({ activity }) => activity === 'dressing-change');
    expect(found).toMatchObject({
      outcome: 'late',
      reason: 'Asked for later.',
      unit: 'Ward',
      shift: '07 to 19',
    });
    const coded = { coding: [{ system: 'x', code: 'y', display: 'Refused' }] };
    const other = dressing(9, { status: 'not-done', statusReason: coded });
    const rows = onTimeRows(
      careWindows(records(dressing(2), other, dressing(11)), policy, {
        ...{ from: '2026-06-09', to: '2026-06-12', zone, shifts: [6, 14, 22] },
      }),
    ).find(({ activity }) => activity === 'dressing-change');
    expect(rows).toMatchObject({ shift: '06 to 14', reasons: [{ reason: 'Refused', count: 1 }] });
  });

  it('is held only while a hold forbids it: what was overdue after its end is missed', () => {
    const own = heldForFiveDays();
    const outcomes = (to: string) =>
      careWindows(records(), own, { from: '2026-06-01', to, zone }).map(({ outcome, dueBy }) => [
        outcome,
        dueBy.slice(0, 10),
      ]);
    expect(outcomes('2026-06-30')).toEqual([['missed', '2026-06-06']]);
    expect(outcomes('2026-06-04')).toEqual([]);
  });

  it('refuses a period and shifts that are none', () => {
    const period = { from: '2026-06-01', to: '2026-06-30', zone };
    for (const bad of [
      { to: '2026-05-01' },
      { from: 'June' },
      { shifts: [] },
      { shifts: [24] },
      { shifts: [7.5] },
    ])
      expect(() => careWindows(records(), policy, { ...period, ...bad })).toThrow(/is wanted/);
  });
});

describe('windows of the demo unit', () => {
  const demo = readRecords((demoUnit().entry ?? []).map(({ resource }) => ({ resource })));
  const to = demoInstant.slice(0, 10);
  const windows = careWindows(demo, policy, { from: '2026-11-18', to, zone });

  it('end in one of four ways, and are what they are counted as', () => {
    const { windows: all, onTime: done, late, missed, held, share } = onTime(windows);
    expect(done + late + missed + held).toBe(all);
    expect(all).toBe(windows.length);
    expect(share).toBeCloseTo(done / (all - held), 10);
    expect(onTimeRows(windows).reduce((sum, row) => sum + row.windows, 0)).toBe(all);
    expect(burdenRows(windows, {}).reduce((sum, row) => sum + row.windows, 0)).toBe(all);
    expect(new Set(windows.map(({ id }) => id)).size).toBe(all);
  });

  it('say what the due list says at any moment: what is overdue there is late or missed here', () => {
    const [first, last] = [Date.parse('2026-11-18T00:00:00+01:00'), Date.parse(demoInstant)];
    fc.assert(
      fc.property(fc.nat(last - first), fc.nat(demo.lines.length - 1), (after, at) => {
        const line = demo.lines[at];
        if (line === undefined) return;
        const ms = first + after;
        const { items } = dueCare(line, policy, { asOf: new Date(ms).toISOString(), zone });
        const overdue = items.filter(({ state, dueBy }) => state === 'overdue' && instantMs(dueBy) >= first);
        const known = new Map(windows.map((one) => [one.id, one]));
        for (const { id, dueBy } of overdue) {
          const window = known.get(id);
          // One that was withdrawn, or moved by what came later, is no window that closed then.
          if (window === undefined || window.dueBy !== dueBy) continue;
          expect(['late', 'missed', 'held']).toContain(window.outcome);
        }
      }),
      { numRuns: 40 },
    );
  });
});

it('the figures of a unit have care on time where a policy is given', () => {
  const entries = inventedYear(2025, 30).map((resource) => ({ resource }));
  const year = readRecords(entries);
  expect(unitFigures(year, entries, yearPeriod).care).toBeUndefined();
  const { care, units } = unitFigures(year, entries, { ...yearPeriod, policy });
  const changes = care?.onTime.filter(({ activity }) => activity === 'dressing-change') ?? [];
  expect(changes.map(({ unit }) => unit).sort()).toEqual(units.map(({ unit }) => unit).sort());
  expect(changes.every(({ onTime: done, late }) => done > 0 && late > 0)).toBe(true);
  const [burden] = care?.burden.filter(({ activity }) => activity === 'dressing-change') ?? [];
  const days = units.find(({ unit }) => unit === burden?.unit)?.lineDays ?? 0;
  expect(burden?.per1000).toBeCloseTo(((burden?.windows ?? 0) / days) * 1000, 8);
  expect(Object.keys(burden?.supplies ?? {})).not.toEqual([]);
});

// Worked out by hand. A line goes in on 1 June at noon; nothing is known of its dressing, which is read as gauze: due after two
// days. From then on a transparent one, for seven days by the default policy and for three by the stricter plan.
describe('what a policy would have asked', () => {
  const stricter = readPolicy([
    ...defaultPlans(),
    {
      ...{ resourceType: 'PlanDefinition', url: 'https://hospital.example/strict', version: '1' },
      ...{ status: 'active', title: 'Strict' },
      action: [
        {
          id: 'dressing-change-transparent',
          extension: [{ url: policyExtension.ruleScope, valueCode: 'exit-site' }],
          code: [{ coding: [{ system: codeSystem.lineCareActivity, code: 'dressing-change' }] }],
          documentation: [{ type: 'citation', citation: 'Our own' }],
          condition: [
            {
              kind: 'applicability',
              expression: {
                language: 'text/fhirpath',
                expression: "%line.dressing = 'transparent-dressing'",
              },
            },
          ],
          timingTiming: { repeat: { frequency: 1, period: 3, periodUnit: 'd' } },
        },
      ],
    },
  ]);
  if (!stricter.ok) throw new Error(JSON.stringify(stricter.findings));
  const days = (by: typeof policy, to: string, ...more: object[]) =>
    careAskedBy(records(...more), by, { from: '2026-06-01', to, zone })
      .filter(({ activity }) => activity === 'dressing-change')
      .map(({ at }) => Number(at.slice(8, 10)));

  it('is asked for at the moment it is due, had everything been done', () => {
    expect(days(policy, '2026-06-30')).toEqual([3, 10, 17, 24]);
    expect(days(stricter.policy, '2026-06-30')).toEqual([3, 6, 9, 12, 15, 18, 21, 24, 27, 30]);
  });

  it('does not depend on what was charted under another policy, and ends with the line and the period', () => {
    expect(days(policy, '2026-06-30', dressing(4), dressing(5))).toEqual([3, 10, 17, 24]);
    expect(days(policy, '2026-06-30', act('removal', june(12)))).toEqual([3, 10]);
    expect(days(policy, '2026-06-09')).toEqual([3]);
  });

  it('waits for the end of a hold, also where the record has nothing after it', () => {
    expect(days(heldForFiveDays(), '2026-06-30')).toEqual([6]);
  });

  it('comes to items, visits, openings of a lumen and supplies', () => {
    const period = { from: '2026-06-01', to: '2026-06-30', zone };
    const [before, after] = [policy, stricter.policy].map((by) =>
      burdenOf(careAskedBy(records(), by, period)),
    );
    const of = (burden = before) =>
      burden?.byActivity
        .filter(({ activity }) => activity === 'dressing-change')
        .reduce((sum, row) => sum + row.items, 0);
    expect([of(before), of(after)]).toEqual([4, 10]);
    expect((after?.items ?? 0) - (before?.items ?? 0)).toBe(6);
    expect(after?.openings).toBe(before?.openings);
    expect(
      (after?.supplies['sterile dressing set'] ?? 0) - (before?.supplies['sterile dressing set'] ?? 0),
    ).toBeLessThanOrEqual(6);
    expect(before?.visits).toBeLessThan(before?.items ?? 0);
    const none = { resourceType: 'Patient', id: 'p' };
    expect(careAskedBy(readRecords([{ resource: none }]), policy, period)).toEqual([]);
  });

  it('makes one visit of what falls due within an hour for one patient', () => {
    const [one] = careAskedBy(records(), policy, { from: '2026-06-01', to: '2026-06-03', zone });
    if (one === undefined) throw new Error('Nothing is asked.');
    const at = (time: string, patient = 'Patient/p') => ({
      ...one,
      patient,
      at: `2026-06-02T${time}:00+02:00`,
    });
    expect(burdenOf([at('08:00'), at('08:59'), at('09:30'), at('10:31')]).visits).toBe(3);
    expect(burdenOf([at('08:00'), at('08:10', 'Patient/q')]).visits).toBe(2);
  });

  it('refuses a period that is none', () => {
    expect(() => careAskedBy(records(), policy, { from: '2026-06-02', to: '2026-06-01', zone })).toThrow(
      /is wanted/,
    );
  });
});
