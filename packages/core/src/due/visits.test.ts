import type { Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { handover } from '../handover/handover.js';
import { renderHandover } from '../handover/render-handover.js';
import { calendarFeed } from '../handover/calendar-feed.js';
import { dueBundle } from '../fhir/due-bundle.js';
import { renderTable } from '../table/render-table.js';
import type { DueItem } from '../model/care.js';
import { dueCare } from './due-care.js';
import {
  berlin,
  event,
  every,
  forbidAfter,
  hours,
  line,
  lumen,
  on,
  patient,
  policyOf,
  read,
  rule,
  type Resource,
} from '../record.kit.js';

const of = (activity: 'flush' | 'lock' | 'bath', span: number, more: object = {}) =>
  rule(`${activity}-${span}`, every(hours(span)), {
    title: `Rule of the ${activity}`,
    activity,
    scope: activity === 'bath' ? 'line' : 'lumen',
    ...more,
  });
const policy = policyOf(of('flush', 24), of('lock', 24));
const named = (id: string) => lumen(id, { deviceName: [{ name: id, type: 'user-friendly-name' }] });
const base = [
  patient(),
  line(),
  named('red'),
  named('white'),
  event('insertion', '2026-11-01T10:00:00+01:00'),
];
const doneTo = (id: string, flushed: string, locked: string): Resource[] => [
  event('flush', flushed, { id: `flush-${id}`, ...on(id) }),
  event('lock', locked, { id: `lock-${id}`, ...on(id) }),
];
const evening = [
  ...base,
  ...doneTo('red', '2026-11-24T20:00:00+01:00', '2026-11-24T20:05:00+01:00'),
  ...doneTo('white', '2026-11-24T20:10:00+01:00', '2026-11-24T20:15:00+01:00'),
];
const when = berlin('2026-11-25T18:00:00+01:00');

function answer(resources: readonly Resource[], own = policy, moment = when) {
  const records = read(...resources);
  const cares = records.lines.map((one) => dueCare(one, own, moment));
  return { records, cares, items: cares.flatMap(({ items }) => items) };
}

const visits = (items: readonly DueItem[]) => new Set(items.map(({ visit }) => visit ?? 'none'));
const rowsOf = (table: string) =>
  table.split('\n').filter((row) => /^ {4}(!!|->|\|\||\.\.) \w+ +\w{3} /.test(row));

describe('a visit', () => {
  it('C16: flush and lock of a line’s lumens that are due together are one, with one row and one alarm', () => {
    const { records, cares, items } = answer(evening);
    expect(items).toHaveLength(4);
    expect(visits(items).size).toBe(1);
    expect([...visits(items)]).not.toContain('none');
    const table = renderTable(records, cares, when, { colour: false, columns: 0 });
    expect(rowsOf(table)).toHaveLength(1);
    expect(rowsOf(table)[0]).toContain('Flush: red, white; Lock: red, white');
    const feed = calendarFeed(items, { stamp: when.asOf, sequence: 0, zone: when.zone });
    expect(feed.match(/BEGIN:VEVENT/g)).toHaveLength(4);
    expect(feed.match(/BEGIN:VALARM/g)).toHaveLength(1);
  });

  it('C16: no rule is lost in it: each stands in the row of its visit, with a box of its own in the hand-over', () => {
    const { records, cares, items } = answer(evening);
    const table = renderTable(records, cares, when, { colour: false, columns: 0 });
    const shift = { from: when.asOf, to: '2026-11-26T06:00:00+01:00', zone: when.zone };
    const text = renderHandover(handover(records, cares, policy, shift), { colour: false, columns: 0 });
    for (const { rule: own } of items) {
      expect(table).toContain(own.title);
      expect(text).toContain(own.title);
    }
    expect(text.match(/\[ \]/g)!.length).toBeGreaterThanOrEqual(2);
  });

  it('C16: ties its Tasks by groupIdentifier, and they stay two', () => {
    const { records, cares } = answer(evening);
    const tasks = (dueBundle(records, cares, policy, when).entry ?? []).flatMap(({ resource }) =>
      resource?.resourceType === 'Task' ? [resource as unknown as Task] : [],
    );
    expect(tasks).toHaveLength(4);
    expect(new Set(tasks.map(({ groupIdentifier }) => groupIdentifier?.value)).size).toBe(1);
    expect(tasks[0]?.groupIdentifier?.system).toBe('https://dwellward.example/fhir/visit');
  });

  it('is none of what may be done only later, of what is held, and of what the table does not put together', () => {
    const later = [
      ...base,
      ...doneTo('red', '2026-11-24T20:00:00+01:00', '2026-11-25T15:00:00+01:00'),
      ...doneTo('white', '2026-11-24T20:00:00+01:00', '2026-11-25T15:00:00+01:00'),
    ];
    const { items } = answer(later, policyOf(of('flush', 24), of('lock', 24), of('bath', 24)));
    const byActivity = (activity: string) => visits(items.filter((one) => one.activity === activity));
    expect([...byActivity('flush')]).not.toEqual([...byActivity('lock')]);
    expect([...byActivity('bath')]).toEqual(['none']);
    const held = policyOf(
      of('flush', 24),
      of('lock', 24),
      rule('hold', forbidAfter('flush', hours(30)), { activity: 'lock', scope: 'lumen' }),
    );
    const { items: two } = answer(evening, held, berlin('2026-11-25T20:30:00+01:00'));
    const states = two.map(({ activity, state, visit }) => [activity, state, visit] as const);
    const visitsOf = (state: string) =>
      new Set(states.filter(([, one]) => one === state).map(([, , one]) => one));
    expect([...visitsOf('held')].some((one) => visitsOf('overdue').has(one))).toBe(false);
  });
});

describe('the alarms', () => {
  const triggers = (feed: string) => [...feed.matchAll(/TRIGGER;VALUE=DATE-TIME:(\S+)/g)].map(([, at]) => at);
  const dueAt = (flushed: string, more: object = {}) =>
    answer(
      [
        patient(),
        line(),
        named('red'),
        event('insertion', '2026-11-01T10:00:00+01:00'),
        event('flush', flushed, on('red')),
      ],
      policyOf(of('flush', 24, more)),
      berlin('2026-11-25T00:30:00+01:00'),
    ).items;
  const options = { stamp: '2026-11-25T00:30:00+01:00', sequence: 0, zone: 'Europe/Berlin' };

  it('C16: ring at waking hours alone, the evening before where need be, and the file says so', () => {
    const feed = calendarFeed(dueAt('2026-11-24T04:00:00+01:00'), options);
    expect(triggers(feed)).toEqual(['20261124T210000Z']);
    expect(feed.replace(/\r\n /g, '')).toContain('Rings between 07:00 and 22:00');
    const own = { ...options, waking: { from: '02:00', to: '23:00' } };
    expect(triggers(calendarFeed(dueAt('2026-11-24T04:00:00+01:00'), own))).toEqual(['20261125T020000Z']);
  });

  it('ring at any hour where care is pressing, when it may be done too', () => {
    const feed = calendarFeed(dueAt('2026-11-24T04:00:00+01:00', { priority: 'urgent' }), options);
    expect(triggers(feed)).toEqual(['20261124T210000Z', '20261125T020000Z']);
  });
});

describe('what is not known of a line', () => {
  it('C16: is said once for the line, not with each item', () => {
    const unknown = policyOf(
      of('flush', 24, { when: "%lumen.use != 'infusing'" }),
      of('bath', 24, { when: "%patient.setting = 'inpatient'" }),
    );
    const { records, cares } = answer(base, unknown);
    const table = renderTable(records, cares, when, { colour: false, columns: 0 });
    expect(table.match(/Not known/g)).toHaveLength(1);
    expect(table).toContain('The protective reading is taken.');
  });
});
