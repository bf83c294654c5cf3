import { describe, expect, it } from 'vitest';
import {
  berlin,
  care,
  days,
  dressing,
  event,
  every,
  itemOf,
  line,
  lumen,
  on,
  patient,
  policyOf,
  rule,
} from '../record.kit.js';

const policy = policyOf(rule('gauze', every(days(2))));
const base = [patient(), line(), event('insertion', '2026-11-01T10:00:00+01:00')];
const noon = berlin('2026-11-25T12:00:00+01:00');
const changed = (at: string, more: object = {}) => event('dressing-change', at, more);

describe('an event that was charted twice', () => {
  const first = changed('2026-11-24T08:00:00+01:00', { id: 'b' });
  const again = changed('2026-11-24T08:07:00+01:00', { id: 'a' });

  it('counts once, from the earlier time, and is reported', () => {
    const answer = care([...base, first, again], policy, noon);
    expect(answer.met).toHaveLength(1);
    expect(answer.items).toMatchObject([{ dueBy: '2026-11-26T08:00:00+01:00' }]);
    expect(answer.issues).toMatchObject([
      { code: 'charted-twice', severity: 'low', resource: 'Procedure/b' },
    ]);
  });

  it('keeps the Task of the next cycle findable by whichever record came first', () => {
    const alone = [first, again].map((one) => itemOf([...base, one], policy, noon).id);
    const both = itemOf([...base, first, again], policy, noon);
    expect([both.id, ...(both.otherIds ?? [])].sort()).toEqual([...alone].sort());
  });

  it.each([
    ['ten minutes apart are one', '2026-11-24T08:10:00+01:00', {}, 1],
    ['more than ten minutes apart are two', '2026-11-24T08:10:01+01:00', {}, 2],
    ['with different dressings are two', '2026-11-24T08:05:00+01:00', dressing('gauze-dressing'), 2],
    ['a date alone is never taken to be near', '2026-11-24', {}, 2],
  ])('%s', (_, at, more, count) => {
    const transparent = changed('2026-11-24T08:00:00+01:00', {
      id: 'x',
      ...dressing('transparent-dressing'),
    });
    expect(care([...base, transparent, changed(at, { id: 'y', ...more })], policy, noon).met).toHaveLength(
      count,
    );
  });

  it('is within ten minutes of the first record: the third of three eight minutes apart is another', () => {
    const third = changed('2026-11-24T08:16:00+01:00', { id: 'c' });
    const second = changed('2026-11-24T08:08:00+01:00', { id: 'a' });
    const answer = care([...base, first, second, third], policy, noon);
    expect(answer.met.map(({ at }) => at).sort()).toEqual([
      '2026-11-24T08:00:00+01:00',
      '2026-11-24T08:16:00+01:00',
    ]);
    expect(answer.items).toMatchObject([{ dueBy: '2026-11-26T08:16:00+01:00' }]);
  });

  it('under one identifier is one, however far apart', () => {
    const identifier = [{ system: 'https://chart.example', value: '7' }];
    const pair = [
      changed('2026-11-24T08:00:00+01:00', { id: 'x', identifier }),
      changed('2026-11-24T09:00:00+01:00', { id: 'y', identifier }),
    ];
    const answer = care([...base, ...pair], policy, noon);
    expect(answer.met).toHaveLength(1);
    expect(answer.issues).toMatchObject([{ code: 'charted-twice', severity: 'moderate' }]);
  });

  it('is two on two lumens, and two where the lumen was used in between', () => {
    const flush = policyOf(rule('flush', every(days(1)), { activity: 'flush', scope: 'lumen' }));
    const two = [
      patient(),
      line(),
      lumen('red'),
      lumen('white'),
      event('insertion', '2026-11-01T10:00:00+01:00'),
    ];
    const at = (minute: string) => `2026-11-25T08:0${minute}:00+01:00`;
    const red = event('flush', at('0'), { id: 'r', ...on('red') });
    expect(
      care([...two, red, event('flush', at('2'), { id: 'w', ...on('white') })], flush, noon).met,
    ).toHaveLength(2);
    const drawn = event('blood-sampling', at('1'), on('red'));
    const after = event('flush', at('3'), { id: 's', ...on('red') });
    expect(care([...two, red, after], flush, noon).met).toHaveLength(1);
    expect(care([...two, red, drawn, after], flush, noon).met).toHaveLength(2);
  });
});
