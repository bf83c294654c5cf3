import { describe, expect, it } from 'vitest';
import {
  act,
  ban,
  before,
  done,
  every,
  found,
  lasting,
  onlyError,
  ordered,
  plan,
  span,
  until,
  when,
  type Json,
} from './plan.kit.js';

const insertion = act('insertion', 'insertion', { trigger: [ordered('insertion')] });

/** Refused as the second action of a plan, beside the insertion that an order plans. */
function refused(wrong: Json) {
  const error = onlyError(plan('a', [insertion, wrong]));
  expect(error.message).toMatch(/\S.*\.$/s);
  return { ...error, path: error.path.replace(/^PlanDefinition\.action\[1\]\.?/, '') };
}

const x = (more: Json) => act('x', 'flush', more);

describe('a ban, and what is counted back, are refused with path, code and cure:', () => {
  const b = (more: Json) => ban('x', 'infusion-start', more);
  it.each<[string, Json, string, string, string]>([
    [
      'a ban that nothing ends',
      b({ trigger: [found('damage')] }),
      '',
      'endless-ban',
      'condition of kind stop',
    ],
    ['a ban that begins with nothing', b({}), '', 'bare-action', 'condition of kind applicability'],
    [
      'a ban at intervals',
      b({ timingTiming: every(1, 'd') }),
      'timingTiming',
      'ban-timing',
      'begin with a trigger',
    ],
    [
      'a ban for a time from nothing',
      b({ timingTiming: lasting(2, 'h') }),
      'timingTiming',
      'ban-timing',
      'begin with a trigger',
    ],
    [
      'a ban that begins later',
      b({
        trigger: [found('damage')],
        timingDuration: span(2, 'h'),
        condition: [until('%answered.exists()')],
      }),
      'timingDuration',
      'ban-timing',
      'boundsDuration',
    ],
    [
      'a ban for a time with an interval',
      b({ trigger: [done('repair')], timingTiming: { repeat: { ...lasting(2, 'h').repeat, count: 1 } } }),
      'timingTiming.repeat.count',
      'ban-timing',
      'boundsDuration alone',
    ],
    [
      'a ban with an empty timing',
      b({ trigger: [done('repair')], timingTiming: { repeat: {} } }),
      'timingTiming.repeat.boundsDuration',
      'ban-timing',
      'how long it lasts',
    ],
    [
      'a ban for a time with no unit',
      b({ trigger: [done('repair')], timingTiming: { repeat: { boundsDuration: { value: 2 } } } }),
      'timingTiming.repeat.boundsDuration.code',
      'bad-duration',
      '2 h',
    ],
    [
      'a ban before an act',
      b({ relatedAction: before('insertion', 1) }),
      'relatedAction[0]',
      'ban-timing',
      'trigger',
    ],
    [
      'a ban from an order',
      { ...b({ trigger: [ordered('infusion-start')], condition: [until('%line.used')] }) },
      'trigger',
      'planned-act',
      'a finding or an act',
    ],
    [
      'a ban until what nothing puts right',
      b({ trigger: [found('fever')], condition: [until('%answered.exists()')] }),
      'condition[0].expression.expression',
      'never-answered',
      '>= %began',
    ],
    [
      'a ban of which one beginning is never put right',
      b({ trigger: [found('damage'), done('repair')], condition: [until('%answered.exists()')] }),
      'condition[0].expression.expression',
      'never-answered',
      '>= %began',
    ],
  ])('%s', (_, wrong, path, code, cure) => {
    const error = refused(wrong);
    expect([error.path, error.code]).toEqual([path, code]);
    expect(error.cure).toContain(cure);
  });

  it.each<[string, Json, string, string, string]>([
    [
      'before nothing',
      x({ relatedAction: before('insertin', 1) }),
      'relatedAction[0].actionId',
      'unknown-action',
      'Did you mean insertion?',
    ],
    [
      'before an act that no order plans',
      x({ relatedAction: before('x', 1) }),
      'relatedAction[0].actionId',
      'not-planned',
      'ServiceRequest',
    ],
    [
      'before another, with no offset',
      x({ relatedAction: before('insertion') }),
      'relatedAction[0].offsetDuration',
      'missing-offset',
      'how long before',
    ],
    [
      'while another is done',
      x({ relatedAction: [{ ...before('insertion', 1)[0], relationship: 'concurrent' }] }),
      'relatedAction[0].relationship',
      'bad-relationship',
      'before-start',
    ],
    [
      'before the end of another',
      x({ relatedAction: [{ ...before('insertion', 1)[0], relationship: 'before-end' }] }),
      'relatedAction[0].relationship',
      'bad-relationship',
      'before-start',
    ],
    [
      'a range of offsets',
      x({ relatedAction: [{ ...before('insertion', 1)[0], offsetRange: {} }] }),
      'relatedAction[0].offsetRange',
      'unread-element',
      'offsetDuration',
    ],
    [
      'before two others',
      x({ relatedAction: [...before('insertion', 1), ...before('insertion', 2)] }),
      'relatedAction',
      'two-beginnings',
      'an action for each',
    ],
    [
      'an interval before another',
      x({ relatedAction: before('insertion', 1), timingTiming: every(1, 'd') }),
      'timingTiming',
      'two-beginnings',
      'timeOfDay',
    ],
    [
      'a length of time beside an offset',
      x({ relatedAction: before('insertion', 1), timingDuration: span(1, 'h') }),
      'timingDuration',
      'two-beginnings',
      'offsetDuration',
    ],
    [
      'before itself',
      act('x', 'insertion', { relatedAction: before('insertion', 1) }),
      'relatedAction[0].actionId',
      'before-itself',
      'another activity',
    ],
    [
      'an order for another act',
      x({ trigger: [ordered('lock')] }),
      'trigger[0].data[0].codeFilter',
      'planned-act',
      'own code',
    ],
    [
      'an order or a finding',
      x({ trigger: [ordered('flush'), found('damage')] }),
      'trigger',
      'planned-act',
      'an action of each',
    ],
    [
      'an order with a condition that ends it',
      x({ trigger: [ordered('flush')], condition: [when('%line.used', 'stop')] }),
      'trigger',
      'planned-act',
      'counted back',
    ],
    [
      'an order with a timing',
      x({ trigger: [ordered('flush')], timingDuration: span(1, 'h') }),
      'trigger',
      'planned-act',
      'counted back',
    ],
  ])('%s', (_, wrong, path, code, cure) => {
    const error = refused(wrong);
    expect([error.path, error.code]).toEqual([path, code]);
    expect(error.cure).toContain(cure);
  });
});
