import type { LineCareActivity, LumenStateCode } from '@dwellward/profiles';
import { lumenStates as concepts } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import type { LumenState } from '../model/care.js';
import type { Resource } from '../record.kit.js';
import {
  berlin,
  care,
  event,
  finding,
  forbidAfter,
  hours,
  line,
  lumen,
  on,
  patient,
  policyOf,
  readLine,
  rule,
  said,
} from '../record.kit.js';
import { lumenStates } from './lumen-states.js';

const at = (time: string) => `2026-11-25T${time}:00+01:00`;
const base = [
  patient(),
  line(),
  lumen('red'),
  lumen('white'),
  event('insertion', '2026-11-01T10:00:00+01:00'),
];
const noon = berlin(at('12:00'));

const done = (activity: LineCareActivity, time: string, device = 'red', more: object = {}) =>
  event(activity, at(time), { id: `${activity}-${time}-${device}`, ...on(device), ...more });
const found = (code: string, value: string, when: string, device = 'red', more: object = {}) =>
  finding(code, value, when.length === 5 ? at(when) : when, {
    id: `${code}-${when}-${device}`,
    focus: [{ reference: `Device/${device}` }],
    ...more,
  });
const infusion = (id: string, start: string, end?: string, more: object = {}): Resource => ({
  resourceType: 'MedicationAdministration',
  id,
  status: end === undefined ? 'in-progress' : 'completed',
  subject: { reference: 'Patient/p' },
  device: [{ reference: 'Device/red' }],
  effectivePeriod: { start: at(start), ...(end ? { end: at(end) } : {}) },
  ...more,
});

function states(resources: readonly Resource[], when = noon): readonly LumenState[] {
  return lumenStates(readLine(...base, ...resources), [], when);
}
function red(...resources: Resource[]): LumenState {
  const [first] = states(resources);
  if (!first) throw new Error('no state');
  return first;
}
const short = ({ state, also }: LumenState) => [state, ...also.map((one) => one.state)];

describe('what a lumen is used for', () => {
  it.each<[string, Resource[], LumenStateCode[], string | undefined]>([
    ['nothing on record', [], ['unknown'], undefined],
    ['an infusion that runs', [infusion('a', '08:00')], ['infusing'], at('08:00')],
    ['an infusion that was connected', [done('infusion-start', '08:00')], ['infusing'], at('08:00')],
    ['an infusion that ended', [infusion('a', '08:00', '09:00')], ['to-be-flushed'], at('09:00')],
    ['a blood draw', [done('blood-sampling', '08:00')], ['to-be-flushed'], at('08:00')],
    [
      'flushed after the draw',
      [done('blood-sampling', '08:00'), done('flush', '08:05')],
      ['flushed'],
      at('08:05'),
    ],
    [
      'flushed and locked after the draw',
      [done('blood-sampling', '08:00'), done('flush', '08:05'), done('lock', '08:06')],
      ['locked'],
      at('08:06'),
    ],
    [
      'all charted at one time',
      [
        done('lock', '08:00', 'red', { id: 'a' }),
        done('flush', '08:00', 'red', { id: 'b' }),
        done('blood-sampling', '08:00', 'red', { id: 'c' }),
      ],
      ['locked'],
      at('08:00'),
    ],
    [
      'locked without a flush: a lock is none',
      [infusion('a', '08:00', '09:00'), done('lock', '09:05')],
      ['to-be-flushed', 'locked'],
      at('09:00'),
    ],
    [
      'flushed and locked before the draw only',
      [done('flush', '07:00'), done('lock', '07:05'), done('blood-sampling', '08:00')],
      ['to-be-flushed'],
      at('08:00'),
    ],
    ['flushed after a lock', [done('lock', '07:00'), done('flush', '08:00')], ['flushed'], at('08:00')],
    [
      'drawn from while it infuses',
      [infusion('a', '08:00'), done('blood-sampling', '09:00')],
      ['infusing', 'to-be-flushed'],
      at('08:00'),
    ],
    [
      'an infusion without an end',
      [done('lock', '07:00'), infusion('a', '08:00', undefined, { status: 'stopped' })],
      ['unknown'],
      undefined,
    ],
    ['what was not done', [done('lock', '07:00', 'red', { status: 'not-done' })], ['unknown'], undefined],
  ])('%s', (_, resources, expected, since) => {
    const state = red(...resources);
    expect(short(state)).toEqual(expected);
    expect(state.since).toBe(since);
    expect(said([state.why]).join()).toMatch(/^[A-Z].*\.$/);
  });

  it('names what tells of it, by its reference', () => {
    expect(red(infusion('a', '08:00', '09:00')).because).toEqual(['MedicationAdministration/a']);
    expect(red(done('lock', '08:00')).because).toEqual(['Procedure/lock-08:00-red']);
    expect(red().because).toEqual([]);
    expect(said([red().why]).join()).toContain('may be in use');
  });

  it('is of each lumen by itself, in the order of the lumens', () => {
    expect(states([done('lock', '08:00', 'white')]).map((one) => [one.lumen, one.state])).toEqual([
      ['Device/red', 'unknown'],
      ['Device/white', 'locked'],
    ]);
  });

  it('at a moment, not later', () => {
    const [state] = states([done('lock', '08:00'), done('blood-sampling', '11:00')], berlin(at('10:59')));
    expect(state?.state).toBe('locked');
  });

  it('of an infusion that ended on a day is infusing until the day is over, and to be flushed then', () => {
    const dated = infusion('a', '08:00', undefined, {
      status: 'completed',
      effectivePeriod: { start: at('08:00'), end: '2026-11-25' },
    });
    expect(states([dated], berlin(at('23:59')))[0]?.state).toBe('infusing');
    const flushed = done('flush', '14:00');
    expect(states([dated, flushed], berlin('2026-11-26T00:00:00+01:00'))[0]?.state).toBe('to-be-flushed');
  });
});

describe('damage', () => {
  const damage = found('damage', 'leak', '08:00');
  const locked = done('lock', '07:00');

  it('stands before what the lumen is used for', () => {
    const state = red(locked, damage);
    expect(short(state)).toEqual(['damaged', 'locked']);
    expect(state).toMatchObject({
      since: at('08:00'),
      because: ['Observation/damage-08:00-red'],
      of: 'lumen',
    });
    expect(said([state.why]).join()).toContain('leak');
  });

  it('lasts since it was first found, with every finding', () => {
    const again = found('damage', 'cut', '09:00');
    const state = red(damage, again);
    expect(state.since).toBe(at('08:00'));
    expect(state.because).toHaveLength(2);
  });

  it.each([
    ['a repair of the lumen', done('repair', '09:00')],
    ['a repair of the line', done('repair', '09:00', 'line')],
    ['a later look that finds none', found('damage', 'absent', '09:00')],
  ])('ends with %s', (_, end) => {
    expect(short(red(locked, damage, end))).toEqual(['locked']);
  });

  it.each([
    ['an earlier repair', done('repair', '07:30')],
    ['a repair of the other lumen', done('repair', '09:00', 'white')],
    ['a repair that was not done', done('repair', '09:00', 'red', { status: 'not-done' })],
    ['a look at the same time', found('damage', 'absent', '08:00', 'red', { id: 'other' })],
  ])('does not end with %s', (_, end) => {
    expect(red(locked, damage, end).state).toBe('damaged');
  });

  it('of the line as a whole counts for every lumen, until it is repaired', () => {
    const whole = found('damage', 'cut', '08:00', 'line');
    for (const state of states([whole])) expect(state).toMatchObject({ state: 'damaged', of: 'line' });
    // Protective, no source: that one lumen was repaired does not tell that the others were whole.
    const white = [whole, done('repair', '09:00', 'white')];
    for (const state of states(white)) expect(state).toMatchObject({ state: 'damaged', of: 'line' });
    expect(states([...white, done('repair', '09:30', 'red')]).map(({ state }) => state)).toEqual([
      'unknown',
      'unknown',
    ]);
    expect(states([whole, done('repair', '09:00', 'line')]).map(({ state }) => state)).toEqual([
      'unknown',
      'unknown',
    ]);
  });

  it('that is known by its day is not answered by a repair of that day', () => {
    const dated = found('damage', 'leak', '2026-11-25');
    const [state] = states([dated, done('repair', '09:00')]);
    expect(state?.state).toBe('damaged');
    const yesterday = found('damage', 'leak', '2026-11-24');
    expect(red(yesterday, done('repair', '09:00')).state).toBe('unknown');
  });
});

describe('a lumen that does not work', () => {
  it.each<[string, Resource[], LumenStateCode[]]>([
    ['no blood return', [found('blood-return', 'none', '08:00')], ['blocked']],
    ['a blocked flush', [found('flush-resistance', 'blocked', '08:00')], ['blocked']],
    ['slow blood return', [found('blood-return', 'sluggish', '08:00')], ['sluggish']],
    ['some resistance', [found('flush-resistance', 'some', '08:00')], ['sluggish']],
    ['brisk', [found('blood-return', 'brisk', '08:00')], ['unknown']],
    [
      'blocked and then brisk',
      [found('flush-resistance', 'blocked', '08:00'), found('blood-return', 'brisk', '09:00')],
      ['unknown'],
    ],
    [
      'no blood, then a free flush: blood may still not come',
      [found('blood-return', 'none', '08:00'), found('flush-resistance', 'none', '09:00')],
      ['blocked'],
    ],
    [
      'a blocked flush, then a free one',
      [found('flush-resistance', 'blocked', '08:00'), found('flush-resistance', 'none', '09:00')],
      ['unknown'],
    ],
    [
      'no blood, then slow blood',
      [found('blood-return', 'none', '08:00'), found('blood-return', 'sluggish', '09:00')],
      ['sluggish'],
    ],
    [
      'brisk and blocked at one time',
      [found('flush-resistance', 'blocked', '08:00'), found('blood-return', 'brisk', '08:00')],
      ['blocked'],
    ],
    [
      'brisk the day that is all that is known of the trouble',
      [found('blood-return', 'none', '2026-11-25'), found('blood-return', 'brisk', '09:00')],
      ['blocked'],
    ],
    [
      'of the treatment alone it is not known whether it helped',
      [found('blood-return', 'none', '08:00'), done('occlusion-treatment', '09:00')],
      ['blocked'],
    ],
    [
      'blocked and damaged',
      [found('damage', 'leak', '08:00'), found('blood-return', 'none', '08:30')],
      ['damaged', 'blocked'],
    ],
  ])('%s', (_, resources, expected) => {
    expect(short(red(...resources))).toEqual(expected);
  });

  it('has been so since the first of the unbroken run', () => {
    const state = red(
      found('blood-return', 'none', '06:00'),
      found('blood-return', 'brisk', '07:00'),
      found('blood-return', 'none', '08:00'),
      found('flush-resistance', 'blocked', '09:00'),
    );
    expect(state.since).toBe(at('08:00'));
    expect(said([state.why]).join()).toBe(
      'There was no blood return and the flush did not go in; it was not found open since.',
    );
  });

  it('leaves the other lumen as it is', () => {
    expect(states([found('blood-return', 'none', '08:00')])[1]?.state).toBe('unknown');
  });
});

describe('a hold', () => {
  const afterRepair = rule('no infusion after a repair', forbidAfter('repair', hours(2)), {
    activity: 'infusion-start',
    scopes: ['line', 'lumen'],
  });
  const lumensOf = (when: string, repaired = 'line') =>
    care(
      [...base, done('lock', '07:00'), done('repair', '11:00', repaired)],
      policyOf(afterRepair),
      berlin(at(when)),
    ).lumens;

  it('of the line on infusions makes every lumen one that is not to be used, with its name and its end', () => {
    const [first, second] = lumensOf('12:00');
    expect(short(first!)).toEqual(['not-to-be-used', 'locked']);
    expect(first).toMatchObject({ since: at('11:00'), because: ['Procedure/repair-11:00-line'], of: 'line' });
    expect(said(first ? [first.why] : []).join()).toBe(
      `no infusion after a repair, until Wed 25 Nov 2026 13:00.`,
    );
    expect(second?.state).toBe('not-to-be-used');
  });

  it('of the line after the repair of one lumen is on that lumen: the other has no adhesive that must set', () => {
    expect(lumensOf('12:00', 'red')).toMatchObject([
      { state: 'not-to-be-used', because: ['Procedure/repair-11:00-red'], of: 'lumen' },
      { state: 'unknown' },
    ]);
  });

  it('is over when it is over', () => {
    expect(lumensOf('12:59')[0]?.state).toBe('not-to-be-used');
    expect(lumensOf('13:00')[0]?.state).toBe('locked');
  });

  it('of one lumen leaves the other, and one on another activity leaves both', () => {
    const ofLumen = { ...afterRepair, scopes: ['lumen' as const] };
    const resources = [...base, done('repair', '11:00')];
    expect(care(resources, policyOf(ofLumen), noon).lumens.map(({ state }) => state)).toEqual([
      'not-to-be-used',
      'unknown',
    ]);
    const flush = { ...afterRepair, activity: 'flush' as const };
    expect(care(resources, policyOf(flush), noon).lumens.map(({ state }) => state)).toEqual([
      'unknown',
      'unknown',
    ]);
  });
});

it('a line that is not in place has none', () => {
  const removed = event('removal', at('10:00'));
  expect(states([removed])).toEqual([]);
  expect(states([removed], berlin(at('09:59')))).toHaveLength(2);
});

it('a line that states no lumens has the state of its one', () => {
  const record = readLine(patient(), line(), done('lock', '08:00', 'line'));
  expect(lumenStates(record, [], noon)).toMatchObject([{ lumen: 'Device/line', state: 'locked' }]);
});

it('stands in the order of the code system, the most serious first', () => {
  expect(concepts.map(([code]) => code)).toEqual([
    'not-to-be-used',
    'damaged',
    'blocked',
    'sluggish',
    'infusing',
    'to-be-flushed',
    'flushed',
    'locked',
    'unknown',
  ]);
});
