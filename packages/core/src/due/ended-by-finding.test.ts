import { describe, expect, it } from 'vitest';
import {
  said,
  berlin,
  care,
  days,
  event,
  every,
  finding,
  line,
  lumen,
  onFinding,
  patient,
  policyOf,
  type Resource,
  rule,
} from '../record.kit.js';

// A hold, or care at once, that begins with a finding and that any one of several findings ends.

const at = (time: string) => `2026-11-25T${time}:00+01:00`;
const from = onFinding('flush-resistance', ['blocked']);
const stopsIf = '%found.bloodReturn.brisk > %began or %found.flushResistance.none > %began';
const policy = policyOf(
  rule('flush', every(days(1)), { activity: 'flush', scope: 'lumen' }),
  rule('hold', from, { effect: 'forbid', stopsIf, activity: 'flush', scope: 'lumen', title: 'Blocked' }),
  rule('steps', from, { stopsIf, activity: 'blockage-response', scope: 'lumen' }),
  rule('stat', onFinding('bleeding'), { activity: 'flush', scope: 'lumen', priority: 'stat' }),
);
const red = { focus: [{ reference: 'Device/red' }] };
const record = [
  patient(),
  line(),
  lumen('red'),
  lumen('white'),
  event('insertion', '2026-11-20T10:00:00+01:00'),
  finding('flush-resistance', 'blocked', at('08:00'), red),
];
const looked = (when: string, ...more: Resource[]) => {
  const { holds, items } = care([...record, ...more], policy, berlin(at(when)));
  const state = (activity: string, name: string) =>
    items.find((one) => one.activity === activity && one.target.ref === `Device/${name}`);
  return {
    holds,
    red: state('flush', 'red'),
    white: state('flush', 'white'),
    steps: state('blockage-response', 'red'),
  };
};

describe('a hold that only a finding ends', () => {
  it('stands on that lumen alone, with no end of its own, and says what ends it', () => {
    const { holds, red: held, white, steps } = looked('09:00');
    expect(holds.map(({ target, from: since, until: end }) => [target.ref, since, end])).toEqual([
      ['Device/red', at('08:00'), undefined],
    ]);
    expect([held?.state, white?.state, steps?.state]).toEqual(['held', 'overdue', 'overdue']);
    expect(said(held?.remarks ?? []).join(' ')).toContain(
      'Held until blood return or flush resistance shows that it may end',
    );
  });

  it.each(['blood-return brisk', 'flush-resistance none'])(
    '%s ends it at once, and the steps with it',
    (sign) => {
      const [code = '', value = ''] = sign.split(' ');
      const { holds, red: open, steps } = looked('09:30', finding(code, value, at('09:30'), red));
      expect(holds).toEqual([]);
      expect([open?.state, steps]).toEqual(['overdue', undefined]);
    },
  );

  it.each([
    ['a little less resistance', finding('flush-resistance', 'some', at('09:30'), red)],
    [
      'what was seen of another lumen',
      finding('blood-return', 'brisk', at('09:30'), { focus: [{ reference: 'Device/white' }] }),
    ],
    ['what was charted at the same time', finding('blood-return', 'brisk', at('08:00'), red)],
    ['what was seen before', finding('blood-return', 'brisk', at('07:00'), red)],
  ])('%s does not end it', (_, seen) => {
    const { holds, red: held, steps } = looked('10:00', seen);
    expect(holds).toHaveLength(1);
    expect([held?.state, steps?.state]).toEqual(['held', 'overdue']);
  });

  it('never hides an emergency', () => {
    const { red: asked } = looked('09:00', finding('bleeding', 'present', at('08:30'), red));
    expect([asked?.state, asked?.heldBy]).toEqual(['overdue', undefined]);
  });

  it('begins again with the next such finding', () => {
    const open = finding('blood-return', 'brisk', at('09:00'), red);
    const again = finding('flush-resistance', 'blocked', at('10:00'), red);
    expect(looked('10:30', open, again).holds.map(({ from: since }) => since)).toEqual([at('10:00')]);
  });
});
