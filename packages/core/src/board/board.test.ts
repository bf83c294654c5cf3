import { activityCodes, findingCodes } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { dueCare } from '../due/due-care.js';
import {
  berlin,
  days,
  event,
  every,
  finding,
  forbidAfter,
  hours,
  line,
  lumen,
  neutrophils,
  on,
  onFinding,
  patient,
  policyOf,
  read,
  rule,
  type Resource,
} from '../record.kit.js';
import { lineView } from './line-view.js';
import { otherCare } from './other-care.js';
import { unitView } from './unit-view.js';

const when = berlin('2026-11-25T12:00:00+01:00');
const policy = policyOf(
  rule('Gauze dressing', every(days(2))),
  rule('Daily gauze', every(days(1)), { when: "%labs.anc < 0.2 '10*9/L'" }),
  rule('Flush', every(days(1)), { activity: 'flush', scope: 'lumen' }),
  rule('Fever: first steps', onFinding('fever'), {
    activity: 'fever-response',
    scope: 'line',
    priority: 'stat',
    work: { computed: [], steps: [['Call the clinician.'], ['Take cultures.']], supplies: [], cautions: [] },
  }),
  rule('Rest after repair', forbidAfter('repair', hours(2)), { activity: 'flush', scope: 'line' }),
);
const small: readonly Resource[] = [
  patient({ name: [{ family: 'Alder', given: ['Ann'] }] }),
  line('picc', { deviceName: [{ name: 'Right arm' }] }),
  lumen('red', { deviceName: [{ name: 'red' }] }),
  lumen('white', { deviceName: [{ name: 'white' }] }),
  event('insertion', '2026-11-20T09:00:00+01:00'),
  event('dressing-change', '2026-11-24T10:00:00+01:00'),
  event('flush', '2026-11-24T14:00:00+01:00', { id: 'f1', ...on('red') }),
  event('flush', '2026-11-24T14:00:00+01:00', { id: 'f2', ...on('white') }),
];

function unit(resources: readonly Resource[], minutes = {}) {
  const records = read(...resources);
  const cares = records.lines.map((one) => dueCare(one, policy, when));
  return { records, cares, view: unitView(records, cares, policy, when, { minutes }) };
}

describe('the unit as a page draws it', () => {
  it('has a row of lumens together, with all that it stands for, and its window as instants', () => {
    const { view } = unit(small);
    const [own] = view.patients;
    expect(own).toMatchObject({ name: 'Ann Alder', patient: 'Patient/p' });
    const flush = own?.lines[0]?.rows.find(({ text }) => /Flush/.test(text));
    expect(flush).toMatchObject({
      state: 'due',
      text: 'Flush: red, white',
      relativeText: 'in 2 h',
      dueBy: '2026-11-25T14:00:00+01:00',
    });
    expect(flush?.ids).toHaveLength(2);
    expect(flush?.parts[0]?.targets.map(({ ref }) => ref)).toEqual(['Device/red', 'Device/white']);
  });

  it('puts an emergency on top with its first steps, whatever else is overdue', () => {
    const { view } = unit([...small, finding('fever', 'present', '2026-11-25T11:50:00+01:00')]);
    expect(view.notices[0]).toMatchObject({
      kind: 'emergency',
      more: ['Call the clinician.', 'Take cultures.'],
      line: 'Device/line',
    });
    expect(view.notices[0]?.text).toMatch(/^Ann Alder, Right arm: EMERGENCY: Fever response: line/);
    expect(view.counts.emergencies).toBe(1);
    expect(view.patients[0]?.lines[0]?.rows[0]?.emergency).toBe(true);
  });

  it('says on top what no rule answers and what was not understood', () => {
    const { view } = unit([
      ...small,
      finding('bleeding', 'present', '2026-11-25T11:00:00+01:00'),
      { ...event('flush', '2026-11-25T09:00:00+01:00', { id: 'odd' }), code: { coding: [{ code: 'FL-7' }] } },
    ]);
    expect(view.notices.map(({ kind }) => kind)).toEqual(['unanswered', 'not-understood']);
    expect(view.notices[1]?.more.join(' ')).toMatch(/FL-7/);
  });

  it('counts the load by the hour in which it falls due; what is late stands in the first', () => {
    const late = small.filter(({ resourceType, code }) =>
      resourceType === 'Procedure' ? !/dressing-change/.test(JSON.stringify(code)) : true,
    );
    const { view } = unit(late, { flush: 4 });
    const busy = view.load.filter(({ items }) => items > 0);
    expect(view.load).toHaveLength(24);
    expect(
      busy.map(({ clock, items, minutes, withoutMinutes }) => [clock, items, minutes, withoutMinutes]),
    ).toEqual([
      ['12', 1, 0, 1],
      ['14', 1, 8, 0],
    ]);
  });

  it('shows where an item would end without what moved it: the count, or the hold', () => {
    const low = unit([...small, neutrophils(0.1, '2026-11-25T06:00:00+01:00')]).view;
    const dressing = low.patients[0]?.lines[0]?.rows.find(({ text }) => /Dressing/.test(text));
    expect(dressing).toMatchObject({
      dueBy: '2026-11-25T10:00:00+01:00',
      unmovedDueBy: '2026-11-26T10:00:00+01:00',
    });
    const held = unit([...small, event('repair', '2026-11-25T11:30:00+01:00')]).view;
    const lane = held.patients[0]?.lines[0];
    expect(lane?.holds).toMatchObject([{ ofLine: true, until: '2026-11-25T13:30:00+01:00' }]);
    expect(
      unit(small).view.patients[0]?.lines[0]?.rows.every(({ unmovedDueBy }) => unmovedDueBy === undefined),
    ).toBe(true);
  });
});

describe('one line as a page draws it', () => {
  it('has its events and counts up to the moment, its limit, and why for every item', () => {
    const { records, cares } = unit([
      ...small,
      neutrophils(0.1, '2026-11-25T06:00:00+01:00'),
      event('site-assessment', '2026-11-25T18:00:00+01:00', { id: 'later' }),
    ]);
    const view = lineView(records, cares[0]!, policy, when);
    expect(view.insertedAt).toBe('2026-11-20T09:00:00+01:00');
    expect(view.events.map(({ text }) => text)).toEqual(['Insertion', 'Dressing change', 'Flush', 'Flush']);
    expect(view.events[2]?.on).toBe('red');
    expect(view.neutrophils.map(({ value }) => value)).toEqual([0.1]);
    expect(view.neutrophilLimits).toEqual([0.2]);
    expect(view.whys.map(({ id }) => id)).toEqual(cares[0]?.items.map(({ id }) => id));
    expect(view.whys.flatMap(({ sections }) => sections).every(({ lines }) => lines.length > 0)).toBe(true);
  });

  it('says amounts with the limits that they are known by', () => {
    const { records, cares } = unit([
      ...small,
      neutrophils(0.5, '2026-11-25T06:00:00+01:00', {
        valueQuantity: { value: 0.5, comparator: '<', code: '10*9/L', unit: '10*9/L' },
      }),
      neutrophils(1.2, '2026-11-24T06:00:00+01:00'),
      finding('external-length', '', '2026-11-24T10:00:00+01:00', {
        valueCodeableConcept: undefined,
        valueQuantity: { value: 4.5, code: 'cm', unit: 'cm' },
      }),
      finding('incision-healed', '', '2026-11-24T10:05:00+01:00', {
        valueCodeableConcept: undefined,
        valueBoolean: false,
      }),
    ]);
    const view = lineView(records, cares[0]!, policy, when);
    expect(view.neutrophils.map(({ text }) => text)).toEqual(['1.2 10^9/L', 'below 0.5 10^9/L']);
    expect(view.externalLength).toBe('4.5 cm');
    expect(view.events.map(({ text }) => text)).toEqual(
      expect.arrayContaining(['External length: 4.5 cm', 'Incision healed: no']),
    );
  });

  it('is the same whatever the order of the resources, and an act charted twice stands once', () => {
    const twice = event('dressing-change', '2026-11-24T10:00:30+01:00', { id: 'twin' });
    const views = [[...small, twice], [...small, twice].reverse()].map((resources) => {
      const { records, cares } = unit(resources);
      return lineView(records, cares[0]!, policy, when);
    });
    expect(views[0]).toEqual(views[1]);
    expect(views[0]?.events.filter(({ activity }) => activity === 'dressing-change')).toHaveLength(1);
    const later = event('insertion', '2026-11-10T09:00:00+01:00', { id: 'zz' });
    const { records, cares } = unit([...small, later]);
    expect(lineView(records, cares[0]!, policy, when).insertedAt).toBe('2026-11-10T09:00:00+01:00');
  });
});

describe('what is asked with an act', () => {
  const rowOf = (resources: readonly Resource[], text: RegExp) =>
    unit(resources).view.patients[0]?.lines[0]?.rows.find((row) => text.test(row.text));

  it('is asked of each lumen by itself', () => {
    const flush = rowOf(small, /Flush/);
    expect(flush?.asks.map(({ finding: code, on: name }) => `${code} ${name}`)).toEqual([
      'blood-return red',
      'flush-resistance red',
      'blood-return white',
      'flush-resistance white',
    ]);
    expect(flush?.asks[0]?.choices).toContainEqual({ value: 'sluggish', name: 'Sluggish' });
    expect(flush?.asks.map(({ of }) => of)).toEqual(flush?.parts[0]?.targets.flatMap(({ id }) => [id, id]));
    expect(flush?.dressings).toEqual([]);
  });

  it('of a dressing is what was put on and how long the line is outside', () => {
    const dressing = rowOf(small, /Dressing/);
    expect(dressing?.parts[0]?.putsDressingOn).toBe(true);
    expect(dressing?.dressings.map(({ value }) => value)).toContain('gauze-dressing');
    expect(dressing?.asks).toMatchObject([
      { finding: 'external-length', kind: 'amount', unitText: 'cm', choices: [] },
    ]);
  });
});

describe('a line that is not in place', () => {
  it('says why on its lane, where care of it is still to be done, and at the foot', () => {
    const { view } = unit([...small, event('removal', '2026-11-25T10:00:00+01:00')]);
    expect(view.notInPlace).toEqual([expect.stringMatching(/Right arm.*removed/)]);
    const kept = unit(small).view.patients[0]?.lines[0];
    expect(kept?.closedText).toBeUndefined();
    expect(kept?.lumens.map(({ stateText }) => stateText.length > 0)).toEqual([true, true]);
  });
});

describe('care that nobody asked for', () => {
  it('is every activity and every finding, on each lumen where it is a lumen’s', () => {
    const { care, findings } = otherCare(unit(small).records.lines[0]!);
    expect(care.map(({ parts }) => parts[0]?.activity)).toEqual(activityCodes);
    const draw = care.find(({ parts }) => parts[0]?.activity === 'blood-sampling');
    expect(draw?.parts[0]?.targets.map(({ ref }) => ref)).toEqual(['Device/red', 'Device/white']);
    expect(new Set(findings.map(({ finding: code }) => code))).toEqual(new Set(findingCodes));
    const kinds = Object.fromEntries(findings.map(({ finding: code, kind }) => [code, kind]));
    expect(kinds).toMatchObject({
      'exit-site': 'several',
      'blood-return': 'one',
      'incision-healed': 'yes-or-no',
      fever: 'yes-or-no',
      'external-length': 'amount',
    });
    expect(findings.filter(({ finding: code }) => code === 'blood-return').map(({ of }) => of)).toEqual([
      'Device/red',
      'Device/white',
    ]);
  });
});

describe('the shifts', () => {
  it('begin at their hours by the clock of the unit; what is late stands in the one that runs', () => {
    const late = small.filter(({ code }) => !/dressing-change/.test(JSON.stringify(code ?? '')));
    const { view } = unit(late);
    expect(view.shifts.map(({ from, until, runs, items }) => [from, until, runs, items])).toEqual([
      ['2026-11-24T19:00:00+01:00', '2026-11-25T07:00:00+01:00', false, 0],
      ['2026-11-25T07:00:00+01:00', '2026-11-25T19:00:00+01:00', true, 2],
      ['2026-11-25T19:00:00+01:00', '2026-11-26T07:00:00+01:00', false, 0],
      ['2026-11-26T07:00:00+01:00', '2026-11-26T19:00:00+01:00', false, 0],
    ]);
    expect(view.shifts[1]?.text).toBe('This shift, until 19:00: 2 due');
    expect(view.shifts[2]?.text).toBe('19:00 to 07:00: 0 due');
  });

  it('stay at their hours when the clock changes', () => {
    const { records, cares } = unit(small);
    const night = berlin('2026-10-24T22:00:00+02:00');
    const shifts = unitView(records, cares, policy, night, { shifts: [6, 14, 22] }).shifts;
    expect(shifts.map(({ from, runs }) => [from, runs])).toEqual([
      ['2026-10-24T14:00:00+02:00', false],
      ['2026-10-24T22:00:00+02:00', true],
      ['2026-10-25T06:00:00+01:00', false],
      ['2026-10-25T14:00:00+01:00', false],
    ]);
  });
});
