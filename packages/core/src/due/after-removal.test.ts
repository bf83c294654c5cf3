import { describe, expect, it } from 'vitest';
import {
  afterEvent,
  berlin,
  care,
  days,
  event,
  every,
  finding,
  forbidAfter,
  hours,
  line,
  onFinding,
  patient,
  policyOf,
  type Resource,
  rule,
} from '../record.kit.js';

const removed = event('removal', '2026-11-24T08:00:00+01:00');
const record = [patient(), line(), event('insertion', '2026-11-01T10:00:00+01:00'), removed];
const policy = policyOf(
  rule('daily', every(days(1)), { activity: 'site-assessment' }),
  rule('weekly', every(days(7)), { activity: 'flush', scope: 'lumen' }),
  rule('after', afterEvent('removal', hours(24)), { activity: 'site-assessment' }),
  rule('stays-on', forbidAfter('removal', hours(24))),
);
const noon = berlin('2026-11-24T12:00:00+01:00');

describe('a line that was removed', () => {
  it('is closed, and asks only for what counts from its removal', () => {
    const { inPlace, closed, items } = care(record, policy, noon);
    expect({ inPlace, closed }).toEqual({ inPlace: false, closed: 'line-removed' });
    expect(items.map(({ rule: { id }, dueBy, countedFrom }) => [id, dueBy, countedFrom.ref])).toEqual([
      ['after', '2026-11-25T08:00:00+01:00', 'Procedure/removal-20261124T0800000100'],
    ]);
    expect(items[0]?.others).toEqual([]);
  });

  it('has the hold that its removal began, until it is over', () => {
    const holds = (asOf: string) => care(record, policy, berlin(asOf)).holds.map(({ until }) => until);
    expect(holds('2026-11-25T07:59:59+01:00')).toEqual(['2026-11-25T08:00:00+01:00']);
    expect(holds('2026-11-25T08:00:00+01:00')).toEqual([]);
  });

  it('has met the check once it is done, which is no contradiction then', () => {
    const check = event('site-assessment', '2026-11-25T08:00:00+01:00');
    const { items, met, issues } = care([...record, check], policy, berlin('2026-11-25T09:00:00+01:00'));
    const [open] = care(record, policy, noon).items;
    expect(items).toEqual([]);
    expect(met.find(({ id }) => id === open?.id)?.by).toBe('Procedure/site-assessment-20261125T0800000100');
    expect(issues).toEqual([]);
  });

  it('is looked at again at its time: a look before the window opened tells nothing of then', () => {
    // A quarter of the 24 hours before: from 02:00 on.
    const asked = (at: string) =>
      care([...record, event('site-assessment', at)], policy, berlin('2026-11-25T09:00:00+01:00')).items.map(
        ({ rule: { id }, dueBy }) => `${id} ${dueBy}`,
      );
    expect(asked('2026-11-24T08:30:00+01:00')).toEqual(['after 2026-11-25T08:00:00+01:00']);
    expect(asked('2026-11-25T01:59:00+01:00')).toEqual(['after 2026-11-25T08:00:00+01:00']);
    expect(asked('2026-11-25T02:00:00+01:00')).toEqual([]);
  });

  it('twice is reported', () => {
    const again = event('removal', '2026-11-24T10:00:00+01:00');
    expect(care([...record, again], policy, noon).issues.map(({ code }) => code)).toEqual([
      'several-removals',
    ]);
    const twin = event('removal', '2026-11-24T08:05:00+01:00');
    expect(care([...record, twin], policy, noon).issues.map(({ code }) => code)).toEqual(['charted-twice']);
  });

  it('still reports what no rule asks for after a removal', () => {
    const flush = event('flush', '2026-11-25T08:00:00+01:00');
    const { issues } = care([...record, flush], policy, berlin('2026-11-25T09:00:00+01:00'));
    expect(issues.map(({ code, resource }) => `${code} ${resource}`)).toEqual([
      'event-after-removal Procedure/flush-20261125T0800000100',
    ]);
  });

  it('asks for nothing of the kind while it is in place, and all again once it is in anew', () => {
    expect(care(record.slice(0, 3), policy, noon).items.map(({ rule: { id } }) => id)).toEqual([
      'weekly',
      'daily',
    ]);
    const again = event('insertion', '2026-11-24T10:00:00+01:00');
    expect(care([...record, again], policy, noon).inPlace).toBe(true);
  });

  it('asks for the first steps of an emergency found at or after the removal, and of nothing else found', () => {
    const first = onFinding('bleeding');
    const byFinding = policyOf(
      rule('stat', first, { activity: 'bleeding-response', priority: 'stat' }),
      rule('soon', first, { activity: 'swelling-response', priority: 'asap' }),
    );
    const asked = (at: string, ...more: Resource[]) =>
      care([...record, finding('bleeding', 'present', at), ...more], byFinding, noon).items.map(
        ({ rule: { id }, dueBy }) => [id, dueBy],
      );
    expect(asked('2026-11-24T07:59:59+01:00')).toEqual([]);
    expect(asked('2026-11-24T08:00:00+01:00')).toEqual([['stat', '2026-11-24T08:00:00+01:00']]);
    // Known only by its day it may have been after the removal.
    expect(asked('2026-11-24')).toEqual([['stat', '2026-11-24T00:00:00+01:00']]);
    expect(
      asked('2026-11-24T09:00:00+01:00', event('bleeding-response', '2026-11-24T09:10:00+01:00')),
    ).toEqual([]);
  });

  it('asks for nothing where the Device was entered in error', () => {
    const { closed, items, holds } = care(
      [patient(), line('tunneled-cvc', { status: 'entered-in-error' }), ...record.slice(2)],
      policy,
      noon,
    );
    expect({ closed, items, holds }).toEqual({ closed: 'entered-in-error', items: [], holds: [] });
  });

  it('stops asking where the rule’s bound since the removal has passed', () => {
    const bounded = policyOf(
      rule('after', afterEvent('removal', hours(24)), {
        activity: 'site-assessment',
        when: '%line.removedDays.exists() and %line.removedDays <= 2',
      }),
    );
    const count = (asOf: string) => care(record, bounded, berlin(asOf)).items.length;
    expect(count('2026-11-26T23:59:00+01:00')).toBe(1);
    expect(count('2026-11-27T00:00:00+01:00')).toBe(0);
  });
});
