import { describe, expect, it } from 'vitest';
import {
  onFinding,
  afterEvent,
  berlin,
  care,
  days,
  dressing,
  event,
  every,
  finding,
  forbidAfter,
  forbidWhile,
  hours,
  itemOf,
  line,
  lumen,
  neutrophils,
  on,
  patient,
  policyOf,
  rule,
  said,
} from '../record.kit.js';

const inserted = event('insertion', '2026-11-01T10:00:00+01:00');
const base = [patient(), line(), inserted];
const gauze = dressing('gauze-dressing');
const noon = berlin('2026-11-25T12:00:00+01:00');

describe('what an interval counts from (2)', () => {
  const policy = policyOf(rule('gauze', every(days(2))));

  it('is the latest completed event', () => {
    const item = itemOf(
      [
        ...base,
        event('dressing-change', '2026-11-22T09:00:00+01:00'),
        event('dressing-change', '2026-11-24T08:00:00+01:00'),
      ],
      policy,
      noon,
    );
    expect(item.dueBy).toBe('2026-11-26T08:00:00+01:00');
    expect(item.countedFrom).toMatchObject({
      basis: 'event',
      ref: 'Procedure/dressing-change-20261124T0800000100',
    });
  });

  it.each(['not-done', 'entered-in-error', 'in-progress', 'stopped', 'preparation'])(
    'passes over an event that is %s',
    (status) => {
      const item = itemOf(
        [...base, event('dressing-change', '2026-11-24T08:00:00+01:00', { status })],
        policy,
        noon,
      );
      expect(item.countedFrom.basis).toBe('insertion');
      expect(item.dueBy).toBe('2026-11-03T10:00:00+01:00');
    },
  );

  it('is the insertion where it was never done', () => {
    expect(itemOf(base, policy, noon).countedFrom).toMatchObject({
      basis: 'insertion',
      at: '2026-11-01T10:00:00+01:00',
    });
  });

  it('is the earliest event, with an issue, where no insertion is on record', () => {
    const answer = care(
      [
        patient(),
        line(),
        event('flush', '2026-11-20T06:00:00+01:00'),
        event('flush', '2026-11-22T06:00:00+01:00'),
      ],
      policy,
      noon,
    );
    expect(answer.items[0]).toMatchObject({
      dueBy: '2026-11-22T06:00:00+01:00',
      countedFrom: { basis: 'earliest-event' },
    });
    expect(answer.issues.map(({ code }) => code)).toEqual(['no-insertion']);
  });

  it('is now where there is nothing at all', () => {
    const item = itemOf([patient(), line()], policy, noon);
    expect(item).toMatchObject({
      dueBy: '2026-11-25T12:00:00+01:00',
      state: 'due',
      countedFrom: { basis: 'nothing' },
    });
    expect(said(item.remarks).join(' ')).toContain('Nothing is on record');
  });

  it('is the end of a period', () => {
    const took = event('dressing-change', undefined, {
      performedPeriod: { start: '2026-11-24T08:00:00+01:00', end: '2026-11-24T08:40:00+01:00' },
    });
    expect(itemOf([...base, took], policy, noon).dueBy).toBe('2026-11-26T08:40:00+01:00');
  });

  it('does not see what is later than the moment', () => {
    const item = itemOf([...base, event('dressing-change', '2026-11-25T12:00:01+01:00')], policy, noon);
    expect(item.countedFrom.basis).toBe('insertion');
  });
});

describe('which rule wins (3)', () => {
  const last = event('dressing-change', '2026-11-24T08:00:00+01:00', gauze);

  it('is the one with the earliest time, and the others are kept', () => {
    const item = itemOf(
      [...base, last],
      policyOf(rule('week', every(days(7))), rule('gauze', every(days(2))), rule('daily', every(days(1)))),
      noon,
    );
    expect(item.rule.id).toBe('daily');
    expect(item.others.map((one) => one.rule.id)).toEqual(['gauze', 'week']);
  });

  it('is of equals the shorter interval', () => {
    // Both conditions began to hold at the same result, after both intervals had run out.
    const when = "%labs.anc < 0.2 '10*9/L'";
    const policy = policyOf(
      rule('a-two-days', every(days(2)), { when }),
      rule('z-daily', every(days(1)), { when }),
    );
    const counts = [
      neutrophils(0.5, '2026-11-19T08:00:00+01:00'),
      neutrophils(0.1, '2026-11-25T08:00:00+01:00'),
    ];
    const item = itemOf(
      [...base, event('dressing-change', '2026-11-20T08:00:00+01:00'), ...counts],
      policy,
      noon,
    );
    expect(item.dueBy).toBe('2026-11-25T08:00:00+01:00');
    expect(item.rule.id).toBe('z-daily');
  });

  it('is then the later layer, then the id in alphabetical order', () => {
    const plain = rule('b', every(days(1)));
    const sameLayer = rule('a', every(days(1)));
    expect(itemOf([...base, last], policyOf(plain, sameLayer), noon).rule.id).toBe('a');
    const later = { ...plain, origin: { ...plain.origin, layer: 1 } };
    expect(itemOf([...base, last], policyOf(sameLayer, later), noon).rule.id).toBe('b');
  });

  it('gives the lead and the spacing', () => {
    const soon = rule('soon', every(days(4)), { lead: hours(1) });
    const spaced = rule('spaced', every(days(7)), { minimumSpacing: days(6) });
    const item = itemOf([...base, last], policyOf(soon, spaced), noon);
    expect(item.opens).toBe('2026-11-28T07:00:00+01:00');
  });
});

describe('when it is due (4)', () => {
  const daily = policyOf(rule('daily', every(days(1)), { lead: hours(0) }));
  const exact = policyOf(rule('exact', every(hours(24)), { lead: hours(0) }));
  const zones = [
    // [zone, last done, same wall clock next day, 24 h later]
    ['Europe/Berlin', '2026-03-28T12:00:00+01:00', '2026-03-29T12:00:00+02:00', '2026-03-29T13:00:00+02:00'],
    ['Europe/Berlin', '2026-10-24T12:00:00+02:00', '2026-10-25T12:00:00+01:00', '2026-10-25T11:00:00+01:00'],
    [
      'America/New_York',
      '2026-03-07T12:00:00-05:00',
      '2026-03-08T12:00:00-04:00',
      '2026-03-08T13:00:00-04:00',
    ],
    [
      'America/New_York',
      '2026-10-31T12:00:00-04:00',
      '2026-11-01T12:00:00-05:00',
      '2026-11-01T11:00:00-05:00',
    ],
    [
      'Australia/Lord_Howe',
      '2026-04-04T12:00:00+11:00',
      '2026-04-05T12:00:00+10:30',
      '2026-04-05T11:30:00+10:30',
    ],
    [
      'Australia/Lord_Howe',
      '2026-10-03T12:00:00+10:30',
      '2026-10-04T12:00:00+11:00',
      '2026-10-04T12:30:00+11:00',
    ],
  ] as const;

  it.each(zones)(
    'keeps the wall clock for a day and the length for 24 h in %s after %s',
    (zone, done, sameClock, later) => {
      const record = [
        patient(),
        line(),
        event('insertion', '2026-01-01T12:00:00Z'),
        event('dressing-change', done),
      ];
      const when = { asOf: '2026-12-01T00:00:00Z', zone };
      expect(itemOf(record, daily, when).dueBy).toBe(sameClock);
      expect(itemOf(record, exact, when).dueBy).toBe(later);
    },
  );

  it('moves on by the gap where the clock skips the time', () => {
    const record = [patient(), line(), inserted, event('dressing-change', '2026-03-28T02:30:00+01:00')];
    expect(itemOf(record, daily, berlin('2026-03-29T12:00:00+02:00')).dueBy).toBe(
      '2026-03-29T03:30:00+02:00',
    );
  });

  it('takes the first where the time comes twice', () => {
    const record = [patient(), line(), inserted, event('dressing-change', '2026-10-24T02:30:00+02:00')];
    expect(itemOf(record, daily, berlin('2026-10-25T12:00:00+01:00')).dueBy).toBe(
      '2026-10-25T02:30:00+02:00',
    );
  });

  const layered = policyOf(
    rule('gauze', every(days(2))),
    rule('low-count', every(days(1)), { when: "%labs.anc < 0.2 '10*9/L'" }),
  );
  const done = event('dressing-change', '2026-11-23T20:00:00+01:00', gauze);

  it('is never before the rule began to hold', () => {
    const item = itemOf(
      [
        ...base,
        done,
        neutrophils(0.4, '2026-11-23T06:00:00+01:00'),
        neutrophils(0.15, '2026-11-25T06:00:00+01:00'),
      ],
      layered,
      noon,
    );
    expect(item).toMatchObject({
      dueBy: '2026-11-25T06:00:00+01:00',
      state: 'overdue',
      movedBy: ['Observation/lab-751-8-20261125T0600000100'],
    });
  });

  it('counts the run of low results from its first', () => {
    const low = [
      neutrophils(0.15, '2026-11-25T05:00:00+01:00'),
      neutrophils(0.1, '2026-11-25T09:00:00+01:00'),
    ];
    const item = itemOf(
      [...base, done, neutrophils(0.4, '2026-11-24T21:00:00+01:00'), ...low],
      layered,
      noon,
    );
    expect(item.dueBy).toBe('2026-11-25T05:00:00+01:00');
  });

  it('starts the run anew after a normal result in between', () => {
    const swings = [
      neutrophils(0.15, '2026-11-24T05:00:00+01:00'),
      neutrophils(0.4, '2026-11-24T21:00:00+01:00'),
      neutrophils(0.1, '2026-11-25T09:00:00+01:00'),
    ];
    expect(itemOf([...base, done, ...swings], layered, noon).dueBy).toBe('2026-11-25T09:00:00+01:00');
  });

  it('is not moved by a run that began before the last time', () => {
    const item = itemOf([...base, done, neutrophils(0.1, '2026-11-20T06:00:00+01:00')], layered, noon);
    expect(item.dueBy).toBe('2026-11-24T20:00:00+01:00');
  });
});

describe('opening and state (5)', () => {
  const done = event('dressing-change', '2026-11-20T08:00:00+01:00');
  const policy = policyOf(rule('four-days', every(days(4))));

  it('opens a quarter of the interval before where no lead is given', () => {
    expect(itemOf([...base, done], policy, noon).opens).toBe('2026-11-23T08:00:00+01:00');
  });

  it.each([
    ['2026-11-23T07:59:59+01:00', 'upcoming'],
    ['2026-11-23T08:00:00+01:00', 'due'],
    ['2026-11-24T08:00:00+01:00', 'due'],
    ['2026-11-24T08:00:01+01:00', 'overdue'],
  ])('at %s is %s', (asOf, state) => {
    expect(itemOf([...base, done], policy, berlin(asOf)).state).toBe(state);
  });

  it('moves the opening, not the due time, by the minimum spacing', () => {
    const spaced = policyOf(rule('connector', every(days(7)), { minimumSpacing: hours(160), lead: days(5) }));
    expect(itemOf([...base, done], spaced, noon)).toMatchObject({
      opens: '2026-11-27T00:00:00+01:00',
      dueBy: '2026-11-27T08:00:00+01:00',
    });
  });
});

describe('at-once rules (6)', () => {
  const policy = policyOf(
    rule('week', every(days(7))),
    rule('lifted', onFinding('dressing-condition', ['damp', 'loosened', 'soiled'])),
  );
  const done = event('dressing-change', '2026-11-24T08:00:00+01:00');

  it('are due at the time of the finding', () => {
    const item = itemOf(
      [...base, done, finding('dressing-condition', 'damp', '2026-11-25T07:00:00+01:00')],
      policy,
      noon,
    );
    expect(item).toMatchObject({
      dueBy: '2026-11-25T07:00:00+01:00',
      state: 'overdue',
      rule: { id: 'lifted' },
    });
  });

  it('keep the identity of the item that they bring forward', () => {
    const before = itemOf([...base, done], policy, noon);
    const after = itemOf(
      [...base, done, finding('dressing-condition', 'damp', '2026-11-25T07:00:00+01:00')],
      policy,
      noon,
    );
    expect(after.id).toBe(before.id);
  });

  it('are met by the next event after the finding', () => {
    const renewed = event('dressing-change', '2026-11-25T07:30:00+01:00');
    const item = itemOf(
      [...base, done, finding('dressing-condition', 'damp', '2026-11-25T07:00:00+01:00'), renewed],
      policy,
      noon,
    );
    expect(item.rule.id).toBe('week');
  });

  it('are not met by an event of the same day where the finding has no time', () => {
    const item = itemOf(
      [
        ...base,
        event('dressing-change', '2026-11-25T07:30:00+01:00'),
        finding('dressing-condition', 'soiled', '2026-11-25'),
      ],
      policy,
      noon,
    );
    expect(item.rule.id).toBe('lifted');
  });

  it('pass over other values and findings entered in error', () => {
    const wrong = finding('dressing-condition', 'damp', '2026-11-25T07:00:00+01:00', {
      status: 'entered-in-error',
    });
    const intact = finding('dressing-condition', 'intact', '2026-11-25T08:00:00+01:00');
    expect(itemOf([...base, done, wrong, intact], policy, noon).rule.id).toBe('week');
  });
});

describe('holds (7)', () => {
  const repaired = event('repair', '2026-11-25T11:00:00+01:00');
  const hold = rule('no-dressing-yet', forbidAfter('repair', hours(2)), { scope: 'line' });

  it('make an item due when they end, and say so', () => {
    const item = itemOf(
      [...base, event('dressing-change', '2026-11-23T12:30:00+01:00'), repaired],
      policyOf(hold, rule('gauze', every(days(2)))),
      noon,
    );
    expect(item).toMatchObject({
      opens: '2026-11-25T13:00:00+01:00',
      dueBy: '2026-11-25T13:00:00+01:00',
      state: 'held',
      dueByUnheld: '2026-11-25T12:30:00+01:00',
    });
    expect(said(item.remarks).join(' ')).toContain('Held until Wed 25 Nov 2026 13:00');
  });

  it('hold what was overdue too while they last', () => {
    const item = itemOf([...base, repaired], policyOf(hold, rule('gauze', every(days(2)))), noon);
    expect(item).toMatchObject({
      state: 'held',
      dueBy: '2026-11-25T13:00:00+01:00',
      dueByUnheld: '2026-11-03T10:00:00+01:00',
    });
  });

  it('leave what was overdue before them overdue when they are over', () => {
    const item = itemOf(
      [...base, repaired],
      policyOf(hold, rule('gauze', every(days(2)))),
      berlin('2026-11-25T14:00:00+01:00'),
    );
    expect(item).toMatchObject({ state: 'overdue', dueBy: '2026-11-03T10:00:00+01:00' });
  });

  it('leave alone what opens after them', () => {
    const item = itemOf(
      [...base, event('dressing-change', '2026-11-25T10:00:00+01:00'), repaired],
      policyOf(hold, rule('gauze', every(days(2)))),
      noon,
    );
    expect(item.heldBy).toBeUndefined();
    expect(item.state).toBe('upcoming');
  });

  it('never hold an emergency', () => {
    const stat = rule('now', every(days(2)), { priority: 'stat' });
    expect(itemOf([...base, repaired], policyOf(hold, stat), noon).state).toBe('overdue');
  });

  it('without an offset last until the event', () => {
    const until = policyOf(
      rule('tip-first', forbidWhile('%last.tipConfirmation.empty()'), { scope: 'line' }),
      rule('gauze', every(days(2))),
    );
    expect(care(base, until, noon)).toMatchObject({
      holds: [{ activity: 'dressing-change' }],
      items: [{ state: 'held' }],
    });
    const confirmed = event('tip-confirmation', '2026-11-01T11:00:00+01:00');
    expect(care([...base, confirmed], until, noon)).toMatchObject({
      holds: [],
      items: [{ state: 'overdue' }],
    });
  });
});

describe('imprecise times (8)', () => {
  it('count from the start of the day in the unit’s zone, and say so', () => {
    const item = itemOf(
      [...base, event('dressing-change', '2026-11-24')],
      policyOf(rule('gauze', every(days(2)))),
      noon,
    );
    expect(item.dueBy).toBe('2026-11-26T00:00:00+01:00');
    expect(said(item.remarks).join(' ')).toContain('24 Nov 2026');
  });

  it('count from the start of the month', () => {
    const item = itemOf(
      [patient(), line(), event('insertion', '2026-10')],
      policyOf(rule('gauze', every(days(2)))),
      noon,
    );
    expect(item.dueBy).toBe('2026-10-03T00:00:00+02:00');
  });
});

describe('laboratory facts (9)', () => {
  const policy = policyOf(
    rule('week', every(days(7))),
    rule('low-count', every(days(1)), { when: "%labs.anc < 0.2 '10*9/L'" }),
  );
  const done = event('dressing-change', '2026-11-24T08:00:00+01:00');
  const winner = (...labs: ReturnType<typeof neutrophils>[]) =>
    itemOf([...base, done, ...labs], policy, noon).rule.id;
  const at = '2026-11-24T06:00:00+01:00';

  it('count by trust within a collection', () => {
    const final = neutrophils(0.5, at, { id: 'final' });
    expect(winner(final, neutrophils(0.1, at, { id: 'early', status: 'preliminary' }))).toBe('week');
    expect(winner(final, neutrophils(0.1, at, { id: 'corrected', status: 'corrected' }))).toBe('low-count');
    expect(winner(final, neutrophils(0.1, at, { id: 'wrong', status: 'entered-in-error' }))).toBe('week');
  });

  it('honour comparators', () => {
    const less = (value: number) =>
      neutrophils(value, at, { valueQuantity: { value, comparator: '<', unit: '10*9/L' } });
    expect(winner(less(0.1))).toBe('low-count');
    expect(winner(less(0.2))).toBe('low-count');
    const item = itemOf([...base, done, less(0.5)], policy, noon);
    expect(item.rule.id).toBe('low-count');
    expect(said(item.remarks).join(' ')).toContain('protective');
  });

  it('do not call the limit itself low', () => {
    expect(winner(neutrophils(0.2, at))).toBe('week');
    expect(winner(neutrophils(200, at, { valueQuantity: { value: 200, unit: 'cells/uL' } }))).toBe('week');
    expect(winner(neutrophils(199, at, { valueQuantity: { value: 199, unit: '/mm3' } }))).toBe('low-count');
  });

  it('stay low when stale, and become unknown when they were normal', () => {
    const old = '2026-11-17T12:00:00+01:00';
    const low = itemOf([...base, done, neutrophils(0.1, old)], policy, noon);
    expect(low.rule.id).toBe('low-count');
    const normal = itemOf([...base, done, neutrophils(3, old)], policy, noon);
    expect(normal.rule.id).toBe('low-count');
    expect(said(normal.remarks).join(' ')).toMatch(/older than the policy.*|protective/);
    expect(itemOf([...base, done, neutrophils(3, '2026-11-18T12:00:01+01:00')], policy, noon).rule.id).toBe(
      'week',
    );
  });

  it('take the reading that the rule states where nothing is known', () => {
    const byDefault = policyOf(
      rule('week', every(days(7))),
      rule('low-count', every(days(1)), { when: "%labs.anc < 0.2 '10*9/L'", whenUnknown: 'default' }),
    );
    expect(itemOf([...base, done], byDefault, noon).rule.id).toBe('week');
    expect(itemOf([...base, done], policy, noon).rule.id).toBe('low-count');
  });
});

describe('facts of an item (10)', () => {
  it('carry the resources that they came from', () => {
    const policy = policyOf(
      rule('low-count', every(days(1)), {
        when: "%line.dressing = 'gauze-dressing' and %labs.anc < 0.2 '10*9/L'",
      }),
    );
    const item = itemOf(
      [
        ...base,
        event('dressing-change', '2026-11-24T08:00:00+01:00', gauze),
        neutrophils(0.1, '2026-11-24T06:00:00+01:00'),
      ],
      policy,
      noon,
    );
    expect(item.facts).toEqual([
      {
        fact: 'labs.anc',
        value: '0.1 10*9/L',
        since: '2026-11-24T06:00:00+01:00',
        refs: ['Observation/lab-751-8-20261124T0600000100'],
      },
      {
        fact: 'line.dressing',
        value: 'gauze-dressing',
        since: '2026-11-24T08:00:00+01:00',
        refs: ['Procedure/dressing-change-20261124T0800000100'],
      },
    ]);
  });
});

describe('targets and lines', () => {
  const flush = policyOf(rule('flush', every(days(1)), { activity: 'flush', scope: 'lumen' }));
  const two = [patient(), line(), lumen('red'), lumen('white'), inserted];

  it('are each lumen of its own', () => {
    const answer = care([...two, event('flush', '2026-11-25T08:00:00+01:00', on('red'))], flush, noon);
    expect(answer.items.map(({ target, state }) => [target.ref, state])).toEqual([
      ['Device/red', 'upcoming'],
      ['Device/white', 'overdue'],
    ]);
  });

  it('an event on the line counts for no lumen where there are several, and for the only one where there is one', () => {
    const onLine = event('flush', '2026-11-25T08:00:00+01:00');
    expect(care([...two, onLine], flush, noon).items.map(({ state }) => state)).toEqual([
      'overdue',
      'overdue',
    ]);
    expect(care([...base, onLine], flush, noon).items.map(({ state }) => state)).toEqual(['upcoming']);
    expect(
      care([patient(), line(), lumen('only'), inserted, onLine], flush, noon).items.map(({ state }) => state),
    ).toEqual(['upcoming']);
  });

  it('a removed line needs nothing, and one removed in error needs care again', () => {
    const removal = event('removal', '2026-11-20T08:00:00+01:00');
    expect(care([...base, removal], flush, noon)).toMatchObject({
      inPlace: false,
      closed: 'line-removed',
      items: [],
    });
    expect(care([...base, { ...removal, status: 'entered-in-error' }], flush, noon).items).toHaveLength(1);
  });

  it('a chain is due after the event before it and met by its own', () => {
    const splint = policyOf(
      rule('splint', afterEvent('repair', hours(48)), {
        activity: 'splint-removal',
        scope: 'line',
        lead: hours(0),
      }),
    );
    const repaired = event('repair', '2026-11-24T10:00:00+01:00');
    expect(itemOf([...base, repaired], splint, noon)).toMatchObject({
      dueBy: '2026-11-26T10:00:00+01:00',
      state: 'upcoming',
    });
    expect(
      care([...base, repaired, event('splint-removal', '2026-11-25T10:00:00+01:00')], splint, noon).items,
    ).toEqual([]);
    expect(care(base, splint, noon).items).toEqual([]);
  });

  it('a first time, a last time and a number of times count from the insertion', () => {
    const young = [patient(), line(), event('insertion', '2026-11-25T08:00:00+01:00')];
    expect(itemOf(young, policyOf(rule('first', afterEvent('insertion', days(1)))), noon).dueBy).toBe(
      '2026-11-26T08:00:00+01:00',
    );
    const checks = { kind: 'interval', every: hours(1), untilAfterInsertion: hours(4) } as const;
    expect(care(young, policyOf(rule('checks', checks)), noon).items).toHaveLength(1);
    const late = event('dressing-change', '2026-11-25T11:30:00+01:00');
    expect(care([...young, late], policyOf(rule('checks', checks)), noon).items).toEqual([]);
    expect(
      care([...young, late], policyOf(rule('once', { kind: 'interval', every: days(1), atMost: 1 })), noon)
        .items,
    ).toEqual([]);
  });

  it('I10: what counts days since the insertion is due from the insertion, and not from the midnight after it', () => {
    const young = [patient(), line(), event('insertion', '2026-11-24T10:00:00+01:00')];
    const firstDays = policyOf(
      rule(
        'first-days',
        { kind: 'interval', every: hours(4) },
        // Before the insertion there were no days to count: read as unknown, it held since ever, and hid what is asked here.
        { when: '%line.dwellDays <= 1', whenUnknown: 'default' },
      ),
    );
    const when = { asOf: '2026-11-25T00:30:00+01:00', zone: 'Europe/Berlin' };
    expect(itemOf(young, firstDays, when).dueBy).toBe('2026-11-24T14:00:00+01:00');
  });

  it('fixed times are the next after the last time', () => {
    const slots = { kind: 'fixed-times', daysOfWeek: [1, 3, 5], timesOfDay: ['08:00:00'] } as const;
    const item = itemOf(
      [...base, event('dressing-change', '2026-11-25T08:00:00+01:00')],
      policyOf(rule('mwf', slots)),
      noon,
    );
    expect(item.dueBy).toBe('2026-11-27T08:00:00+01:00');
  });

  it('what was met has the identity that the open item had', () => {
    const policy = policyOf(rule('gauze', every(days(2))));
    const open = itemOf(base, policy, noon);
    const done = event('dressing-change', '2026-11-25T08:00:00+01:00');
    const after = care([...base, done], policy, noon);
    expect(after.met).toMatchObject([{ id: open.id, by: 'Procedure/dressing-change-20261125T0800000100' }]);
    expect(after.items[0]?.id).not.toBe(open.id);
  });
});
