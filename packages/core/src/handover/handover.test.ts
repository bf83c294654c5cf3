import { describe, expect, it } from 'vitest';
import type { Policy } from '@dwellward/policy';
import { dueCare } from '../due/due-care.js';
import {
  forbidAfter,
  forbidWhile,
  dressing,
  event,
  every,
  finding,
  hours,
  line,
  lumen,
  neutrophils,
  on,
  onFinding,
  patient,
  policyOf,
  read,
  type Resource,
  rule,
  said,
} from '../record.kit.js';
import { handover, renderHandover, type Handover, type LineHandover, type Shift } from './index.js';

const zone = 'Europe/Berlin';
const day: Shift = { from: '2026-11-25T07:00:00+01:00', to: '2026-11-25T19:00:00+01:00', zone };

function handOver(resources: readonly Resource[], policy: Policy, shift: Shift = day): Handover {
  const records = read(...resources);
  const cares = records.lines.map((one) => dueCare(one, policy, { asOf: shift.from, zone: shift.zone }));
  return handover(records, cares, policy, shift);
}

function lineOf(resources: readonly Resource[], policy: Policy, shift: Shift = day): LineHandover {
  const [first] = handOver([patient(), line(), ...resources], policy, shift).patients;
  const [only] = first?.lines ?? [];
  if (!only) throw new Error('no line was handed over');
  return only;
}

const times = (items: LineHandover['due']) =>
  items.map(({ kind, nth, dueBy }) => `${kind} ${nth} ${dueBy.slice(11, 16)}`);
const inserted = event('insertion', '2026-11-01T10:00:00+01:00');
const flush = (id = 'flush', span = hours(4), more = {}) =>
  rule(id, every(span), { activity: 'flush', scope: 'lumen', ...more });

describe('what is due in the shift', () => {
  it('projects care that recurs in the shift, and says that it is expected', () => {
    const { due, overdue } = lineOf(
      [inserted, event('flush', '2026-11-25T04:00:00+01:00')],
      policyOf(flush()),
    );
    expect(overdue).toEqual([]);
    expect(times(due)).toEqual(['open 0 08:00', 'expected 1 12:00', 'expected 2 16:00']);
    expect(new Set(due.map(({ id }) => id)).size).toBe(1);
  });

  it('gives the first moment of the shift to it, and the last one to the next shift', () => {
    const policy = policyOf(flush());
    const at7 = lineOf([inserted, event('flush', '2026-11-25T03:00:00+01:00')], policy);
    // 07:00, 11:00, 15:00; 19:00 is the next shift’s.
    expect(times(at7.due)).toEqual(['open 0 07:00', 'expected 1 11:00', 'expected 2 15:00']);
    expect(at7.overdue).toEqual([]);
    const next = lineOf([inserted, event('flush', '2026-11-25T15:00:00+01:00')], policy, {
      from: day.to,
      to: '2026-11-26T07:00:00+01:00',
      zone,
    });
    expect(times(next.due)[0]).toBe('open 0 19:00');
  });

  it('takes what is overdue to be done when the shift begins', () => {
    const { due, overdue } = lineOf(
      [inserted, event('flush', '2026-11-25T01:00:00+01:00')],
      policyOf(flush()),
    );
    expect(times(overdue)).toEqual(['open 0 05:00']);
    expect(times(due)).toEqual(['expected 1 11:00', 'expected 2 15:00']);
  });

  it('knows nothing of what is charted after the shift began', () => {
    const policy = policyOf(
      rule('gauze', every(hours(4)), { when: "%line.dressing = 'gauze-dressing'" }),
      rule('film', every(hours(1)), { when: "%line.dressing = 'transparent-dressing'" }),
    );
    const { due } = lineOf(
      [
        inserted,
        event('dressing-change', '2026-11-25T06:00:00+01:00', dressing('gauze-dressing')),
        event('dressing-change', '2026-11-25T07:30:00+01:00', dressing('transparent-dressing')),
      ],
      policy,
    );
    expect(due.map(({ rule: { id }, dueBy }) => `${id} ${dueBy.slice(11, 16)}`)).toEqual([
      'gauze 10:00',
      'gauze 14:00',
      'gauze 18:00',
    ]);
  });

  it('stops where a rule has asked as often as it may', () => {
    const thrice = rule(
      'thrice',
      { kind: 'interval', every: hours(1), atMost: 3 },
      { activity: 'site-assessment' },
    );
    const { due } = lineOf([event('insertion', '2026-11-25T06:30:00+01:00')], policyOf(thrice));
    expect(times(due)).toEqual(['open 0 07:30', 'expected 1 08:30', 'expected 2 09:30']);
  });

  it('renews a dressing with one of its kind', () => {
    const policy = policyOf(
      rule('gauze', every(hours(4)), { when: "%line.dressing = 'gauze-dressing'" }),
      rule('film', every(hours(1)), { when: "%line.dressing = 'transparent-dressing'" }),
    );
    const { due } = lineOf(
      [inserted, event('dressing-change', '2026-11-25T06:00:00+01:00', dressing('gauze-dressing'))],
      policy,
    );
    expect(due.map(({ rule: { id }, dueBy }) => `${id} ${dueBy.slice(11, 16)}`)).toEqual([
      'gauze 10:00',
      'gauze 14:00',
      'gauze 18:00',
    ]);
  });

  it('expects what only the time makes due: a normal count that grows stale', () => {
    const low = rule('low-count', every({ value: 1, unit: 'd' }), { when: "%labs.anc < 0.5 '10*9/L'" });
    const weekly = rule('weekly', every({ value: 7, unit: 'd' }));
    // Stale after 7 d, at 10:00: from then on it is no longer known not to be low.
    const { due } = lineOf(
      [
        inserted,
        event('dressing-change', '2026-11-23T09:00:00+01:00'),
        neutrophils(2, '2026-11-18T10:00:00+01:00'),
      ],
      policyOf(low, weekly),
    );
    expect(times(due)).toEqual(['expected 0 10:00']);
  });

  it('keeps the wall-clock time over a clock change', () => {
    const { due } = lineOf(
      [inserted, event('site-assessment', '2026-10-24T05:00:00+02:00')],
      policyOf(rule('look', every({ value: 1, unit: 'd' }), { activity: 'site-assessment' })),
      { from: '2026-10-24T19:00:00+02:00', to: '2026-10-25T07:00:00+01:00', zone },
    );
    expect(due.map(({ dueBy }) => dueBy)).toEqual(['2026-10-25T05:00:00+01:00']);
  });

  it('lists what may be done early by itself, and takes nothing for it', () => {
    const { due, early, supplies } = lineOf(
      [inserted, event('flush', '2026-11-24T20:00:00+01:00')],
      policyOf(flush('flush', hours(24), { work: { computed: [], supplies: ['gloves'], cautions: [] } })),
    );
    expect(due).toEqual([]);
    expect(times(early)).toEqual(['open 0 20:00']);
    expect(supplies.counts).toEqual([]);
  });
});

describe('holds', () => {
  const hold = (lasts?: ReturnType<typeof hours>) =>
    rule('no-flush', lasts ? forbidAfter('repair', lasts) : forbidWhile('%last.repair.empty()'), {
      activity: 'flush',
      scope: 'lumen',
    });

  it('moves an item to the end of a hold that ends in the shift', () => {
    const { due, holds } = lineOf(
      [inserted, event('flush', '2026-11-25T03:00:00+01:00'), event('repair', '2026-11-25T06:30:00+01:00')],
      policyOf(flush(), hold(hours(2))),
    );
    expect(times(due)).toEqual(['open 0 08:30', 'expected 1 12:30', 'expected 2 16:30']);
    expect(holds.map(({ until }) => until)).toEqual(['2026-11-25T08:30:00+01:00']);
  });

  it('puts what an event must release by itself, without a time to come', () => {
    const one = lineOf([inserted, event('flush', '2026-11-25T03:00:00+01:00')], policyOf(flush(), hold()));
    expect(times(one.held)).toEqual(['open 0 07:00']);
    expect([...one.due, ...one.overdue, ...one.early]).toEqual([]);
  });
});

describe('what was done and missed in the shift before', () => {
  const policy = policyOf(flush());

  it('says how late something was, by the item that was open then', () => {
    const { done } = lineOf(
      [
        inserted,
        event('flush', '2026-11-24T16:00:00+01:00'),
        event('flush', '2026-11-24T20:00:00+01:00'),
        event('flush', '2026-11-25T01:30:00+01:00'),
      ],
      policy,
    );
    expect(done.map(({ at, timing }) => [at.slice(11, 16), timing])).toEqual([
      ['20:00', { is: 'on-time', dueBy: '2026-11-24T20:00:00+01:00' }],
      ['01:30', { is: 'late', dueBy: '2026-11-25T00:00:00+01:00', byMinutes: 90 }],
    ]);
  });

  it('calls nothing late that is only the first on record', () => {
    const { done } = lineOf([inserted, event('flush', '2026-11-24T20:00:00+01:00')], policy);
    expect(done.map(({ timing }) => timing)).toEqual([
      { is: 'not-known', dueBy: '2026-11-01T14:00:00+01:00', because: 'first-on-record' },
    ]);
  });

  it('says so where an event has a day and no time', () => {
    const daily = policyOf(flush('flush', { value: 1, unit: 'd' } as ReturnType<typeof hours>));
    const { done } = lineOf(
      [inserted, event('flush', '2026-11-23T12:00:00+01:00'), event('flush', '2026-11-24')],
      daily,
    );
    expect(done.map(({ imprecise, timing }) => [imprecise?.text, timing])).toEqual([
      ['2026-11-24', { is: 'not-known', dueBy: '2026-11-24T12:00:00+01:00', because: 'no-exact-time' }],
    ]);
  });

  it('lists what nobody asked for, and leaves out what was not done', () => {
    const { done } = lineOf(
      [
        inserted,
        event('repair', '2026-11-25T05:00:00+01:00'),
        event('blood-sampling', '2026-11-25T05:30:00+01:00', { status: 'not-done' }),
        event('blood-sampling', '2026-11-25T08:30:00+01:00'),
      ],
      policy,
    );
    expect(done.map(({ activity, timing }) => [activity, timing.is])).toEqual([['repair', 'not-asked-for']]);
  });

  it('calls missed what fell due in the shift before and is open, and not what was overdue before', () => {
    const missed = lineOf([inserted, event('flush', '2026-11-25T01:00:00+01:00')], policy);
    expect(times(missed.missed)).toEqual(['open 0 05:00']);
    const older = lineOf([inserted, event('flush', '2026-11-24T12:00:00+01:00')], policy);
    expect(times(older.overdue)).toEqual(['open 0 16:00']);
    expect(older.missed).toEqual([]);
  });
});

describe('emergencies, warnings, lines that are out', () => {
  const at = '2026-11-25T06:00:00+01:00';
  const policy = policyOf(
    flush(),
    rule('clamp', onFinding('damage'), {
      activity: 'repair',
      scope: 'line',
      priority: 'stat',
      title: 'The line leaks: first steps',
      work: {
        computed: [],
        steps: [['Clamp it first.'], ['Then call.']],
        supplies: [],
        cautions: [],
      },
    }),
  );

  it('puts the patient and the item of an emergency first', () => {
    const other = (resource: Resource): Resource =>
      JSON.parse(
        JSON.stringify(resource).replaceAll('Patient/p', 'Patient/a').replaceAll('Device/line', 'Device/a'),
      ) as Resource;
    const answer = handOver(
      [
        patient(),
        line(),
        inserted,
        event('flush', '2026-11-25T01:00:00+01:00'),
        finding('damage', 'leak', at),
        { ...patient(), id: 'a' },
        other({ ...line(), id: 'a' }),
        other({ ...event('flush', '2026-11-24T05:00:00+01:00'), id: 'fa' }),
      ],
      policy,
    );
    expect(answer.patients.map((one) => [one.patient, one.emergency])).toEqual([
      ['Patient/p', true],
      ['Patient/a', false],
    ]);
    expect(answer.patients[0]?.lines[0]?.overdue.map(({ priority }) => priority)).toEqual([
      'stat',
      'routine',
    ]);
    const text = renderHandover(answer, { colour: false, columns: 0 });
    expect(text).toMatch(
      /EMERGENCIES, before all else\n.*first steps\.\n {4}1\. Clamp it first\.\n {4}2\. Then call\./,
    );
    expect(text.indexOf('EMERGENCIES, before all else')).toBeLessThan(text.indexOf('Overdue'));
  });

  it('warns of contradictions and of every reading that was taken because something is not known', () => {
    const { warnings } = lineOf([event('flush', '2026-11-24')], policyOf(flush()));
    expect(warnings.map((one) => (one.kind === 'record' ? one.code : said([one.text]).join()))).toEqual(
      expect.arrayContaining([
        'no-insertion',
        'Counted from the start of 24 Nov 2026: the record gives no exact time.',
      ]),
    );
  });

  it('names who may belong to the unit, and what nobody can be named for', () => {
    const records = read(patient(), line(), inserted, { resourceType: 'Procedure', id: 'odd' });
    const none = handover(records, [], policyOf(flush()), day, { unit: 'Lanternfern Unit' });
    expect(none.patients).toEqual([]);
    expect(none.withoutUnit).toEqual(['Patient/p']);
    const text = renderHandover(none, { colour: false, columns: 0 });
    expect(text).toContain('Not on this list, because their unit is not on record: Patient/p.');
    expect(handOver([patient(), line(), inserted], policyOf(flush())).withoutUnit).toEqual([]);
    const nameless = records.issues.filter((one) => one.patient === undefined && one.line === undefined);
    expect(none.warnings.map((one) => one.kind === 'record' && one.code)).toEqual(
      nameless.map(({ code }) => code),
    );
  });

  it('tells of a removal once: in the shift after it', () => {
    const out = event('removal', '2026-11-25T05:00:00+01:00');
    const told = lineOf([inserted, out], policyOf(flush()));
    expect(told.closed).toBe('line-removed');
    expect(told.done.map(({ activity }) => activity)).toEqual(['removal']);
    expect([...told.due, ...told.overdue, ...told.early]).toEqual([]);
    const later = { from: day.to, to: '2026-11-26T07:00:00+01:00', zone };
    expect(handOver([patient(), line(), inserted, out], policyOf(flush()), later).patients).toEqual([]);
  });

  it.each([
    [
      { ...day, to: day.from },
      { code: 'empty-shift', given: day.from },
    ],
    [
      { ...day, previousFrom: day.from },
      { code: 'empty-shift', given: day.from },
    ],
    [
      { ...day, from: '2026-11-25' },
      { code: 'no-instant', given: '2026-11-25' },
    ],
    [
      { ...day, zone: 'Mars/Base' },
      { code: 'no-zone', given: 'Mars/Base' },
    ],
  ])('refuses a shift that is none: %j', (shift, told) => {
    const records = read(patient(), line(), inserted);
    expect(() => handover(records, [], policyOf(flush()), shift)).toThrow(expect.objectContaining(told));
  });
});

describe('supplies', () => {
  it('are summed over the shift for each lumen, patient and unit', () => {
    const priming = (ml: number) => ({
      property: [
        {
          type: {
            coding: [
              { system: 'https://dwellward.example/fhir/CodeSystem/line-property', code: 'priming-volume' },
            ],
          },
          valueQuantity: [{ value: ml, unit: 'mL', system: 'http://unitsofmeasure.org', code: 'mL' }],
        },
      ],
    });
    const work = { computed: ['flush-volume', 'syringe-size'] as const, supplies: ['gloves'], cautions: [] };
    const policy = policyOf(
      flush('flush', hours(4), { work }),
      rule('lock', every(hours(24)), {
        activity: 'lock',
        scope: 'lumen',
        work: { computed: ['lock-volume', 'syringe-size'], supplies: ['gloves'], cautions: [] },
      }),
    );
    const { supplies } = lineOf(
      [
        lumen('red', priming(0.8)),
        lumen('white', priming(1)),
        inserted,
        event('flush', '2026-11-25T04:00:00+01:00', { id: 'f1', ...on('red') }),
        event('flush', '2026-11-25T06:00:00+01:00', { id: 'f2', ...on('white') }),
        event('lock', '2026-11-24T10:00:00+01:00', { id: 'l1', ...on('red') }),
        event('lock', '2026-11-25T06:00:00+01:00', { id: 'l2', ...on('white') }),
      ],
      policy,
    );
    // Red: flushes 08:00, 12:00, 16:00, each twice 0.8 mL; a lock 10:00 of 0.8 mL and 20 %, up to the mark of the syringe.
    // White: flushes 10:00, 14:00, 18:00, each twice 1 mL; its lock is due tomorrow.
    expect(
      supplies.lumens.map(({ lumen: ref, flushMl, flushes, lockMl, locks }) => [
        ref,
        Number(flushMl),
        flushes,
        Number(lockMl),
        locks,
      ]),
    ).toEqual([
      ['Device/red', 4.8, 3, 1, 1],
      ['Device/white', 6, 3, 0, 0],
    ]);
    expect([Number(supplies.flushMl), Number(supplies.lockMl)]).toEqual([10.8, 1]);
    expect(supplies.counts).toEqual([{ text: { code: 'policy-text', text: 'gloves' }, count: 7 }]);
    expect(supplies.syringes).toEqual([{ sizeMl: '10', count: 7 }]);
    expect(supplies.notWorkedOut).toEqual([]);
  });

  it('say which volume could not be worked out', () => {
    const work = { computed: ['flush-volume'] as const, supplies: [], cautions: [] };
    const { supplies } = lineOf(
      [inserted, event('flush', '2026-11-25T04:00:00+01:00')],
      policyOf(flush('flush', hours(4), { work })),
    );
    expect(supplies.lumens).toEqual([]);
    expect(supplies.notWorkedOut).toHaveLength(1);
    expect(said(supplies.notWorkedOut).join()).toMatch(/Flush volume not worked out: .*priming volume/);
  });
});

describe('the text', () => {
  it('fits an A4 page, has its parts in order, and needs no colour', () => {
    const answer = handOver(
      [
        patient({ name: [{ text: 'Invented Person' }] }),
        line(),
        inserted,
        event('flush', '2026-11-25T01:00:00+01:00'),
        event('repair', '2026-11-25T02:00:00+01:00'),
      ],
      policyOf(flush('flush', hours(4), { work: { computed: [], supplies: ['gloves'], cautions: [] } })),
    );
    const plain = renderHandover(answer, { colour: false, columns: 0 });
    expect(Math.max(...plain.split('\n').map(({ length }) => length))).toBeLessThanOrEqual(90);
    const parts = [
      'Shift hand-over, Wed 25 Nov 07:00 to Wed 25 Nov 19:00 (Europe/Berlin)',
      '1 overdue (1 missed in the shift before), 2 due in the shift',
      'Invented Person (Patient/p)',
      'Lumens',
      'Lumen: flushed, no lock since Wed 25 Nov 01:00.',
      '    Overdue',
      '[ ] Wed 25 Nov 05:00  2 h ago  Flush: lumen, missed in the shift before',
      'Due in this shift',
      '( ) Wed 25 Nov 11:00  Flush: lumen, expected',
      'Done in the shift before',
      'Repair: line',
      '3 x gloves',
      'Supplies for everybody',
      'Advice, not an order.',
    ];
    const places = parts.map((part) => plain.indexOf(part));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(Math.min(...places)).toBeGreaterThanOrEqual(0);
    const coloured = renderHandover(answer, { colour: true, columns: 0 });
    // eslint-disable-next-line no-control-regex
    expect(coloured.replace(/\u001b\[[0-9;]*m/g, '').replace(/\s+/g, ' ')).toBe(plain.replace(/\s+/g, ' '));
  });
});

describe('care that was charted twice', () => {
  it('stands once in what was done, judged by the Task that it met', () => {
    const policy = policyOf(rule('gauze', every({ value: 2, unit: 'd' })));
    const change = (at: string, id: string) => event('dressing-change', at, { id });
    const before = change('2026-11-22T20:00:00+01:00', 'before');
    const pair = [change('2026-11-25T01:00:00+01:00', 'b'), change('2026-11-25T01:07:00+01:00', 'a')];
    const { done } = lineOf([inserted, before, ...pair], policy);
    expect(done.map(({ by, at, timing }) => [by, at, timing.is])).toEqual([
      ['Procedure/a', '2026-11-25T01:00:00+01:00', 'late'],
    ]);
  });
});
