import { describe, expect, it } from 'vitest';
import {
  berlin,
  care,
  event,
  every,
  forbidWhile,
  hours,
  line,
  patient,
  policyOf,
  rule,
} from '../record.kit.js';

const when = berlin('2026-11-25T12:00:00+01:00');
const record = [patient(), line(), event('insertion', '2026-11-20T10:00:00+01:00')];

describe('a hold of one part of the line', () => {
  it.each([
    ['exit-site', 'incision'],
    ['incision', 'exit-site'],
  ] as const)(
    'T8: on the %s does not hold the %s, whose dressing would then wait for nothing',
    (held, free) => {
      const policy = policyOf(
        rule('daily', every(hours(24)), { scopes: ['exit-site', 'incision'] }),
        rule('stays', forbidWhile('%line.lumenCount >= 1'), { scope: held }),
      );
      const states = care(record, policy, when).items.map(({ target, state }) => [target.scope, state]);
      expect(Object.fromEntries(states)).toEqual({ [held]: 'held', [free]: 'overdue' });
    },
  );
});
