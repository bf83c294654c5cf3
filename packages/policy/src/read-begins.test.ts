import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  act,
  action,
  before,
  every,
  dataAdded,
  done,
  found,
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

const filter = (value: string, system: string = codeSystem.lineFinding) => ({
  path: 'code',
  code: [{ system, code: value }],
});
const x = (more: Json) => act('x', 'flush', more);
const onTrigger = (more: Json) => x({ trigger: [{ ...found('damage'), ...more }] });
const onData = (type: string, codeFilter: unknown[]) => x({ trigger: [dataAdded(type, codeFilter)] });
const repeat = (more: Json) =>
  action('x', { timingTiming: { repeat: { ...every(1, 'd').repeat, ...more } } });

describe('when a rule begins is refused, with path, code and cure:', () => {
  it.each<[string, Json, string, string, string]>([
    [
      'a timing with when',
      repeat({ when: ['AC'] }),
      'timingTiming.repeat.when[0]',
      'bad-timing',
      'timeOfDay',
    ],
    [
      'a range of lengths',
      repeat({ boundsRange: { low: span(1, 'h'), high: span(4, 'h') } }),
      'timingTiming.repeat.boundsRange',
      'bad-timing',
      'boundsDuration',
    ],
    [
      'a value of another system',
      onData('Observation', [
        filter('blood-return'),
        { path: 'value', code: [{ system: 'http://other.example', code: 'none' }] },
      ]),
      'trigger[0].data[0].codeFilter',
      'code-system',
      codeSystem.findingValue,
    ],
    [
      'an offset without when',
      repeat({ offset: 15 }),
      'timingTiming.repeat.offset',
      'bad-timing',
      'a trigger of type Procedure for the insertion, and timingDuration',
    ],
    [
      'a lone count',
      action('x', { timingTiming: { repeat: { count: 1 } } }),
      'timingTiming.repeat.period',
      'bad-timing',
      'interval',
    ],
    [
      'a fixed date',
      action('x', { timingTiming: undefined, timingDateTime: '2026-01-01' }),
      'timingDateTime',
      'timing-type',
      'timingTiming',
    ],
    [
      'two timings',
      action('x', { timingDuration: span(1, 'h') }),
      'timingDuration',
      'two-beginnings',
      'one timing',
    ],
    [
      'timing and trigger',
      action('x', { trigger: [found('damage')] }),
      'timingTiming',
      'two-beginnings',
      'an action of each',
    ],
    [
      'trigger and relatedAction',
      x({ trigger: [found('damage')], relatedAction: before('insertion', 1) }),
      '',
      'two-beginnings',
      'an action of each',
    ],
    [
      'a length of time after nothing',
      x({ timingDuration: span(48, 'h') }),
      'timingDuration',
      'duration-without-trigger',
      'trigger',
    ],
    [
      'a length of time with no unit',
      x({ trigger: [done('repair')], timingDuration: { value: 48 } }),
      'timingDuration.code',
      'bad-duration',
      '48 h',
    ],
    ['a bare action', x({}), '', 'bare-action', 'condition of kind applicability'],
    [
      'a start with no trigger',
      action('x', { condition: [when('true', 'start')] }),
      'condition[0].kind',
      'condition-without-trigger',
      'trigger',
    ],
    [
      'a stop of care that a condition begins',
      x({ condition: [when('%line.cuffed'), until('%line.used')] }),
      'condition[1].kind',
      'condition-without-trigger',
      'trigger',
    ],
  ])('%s', (_, wrong, path, code, cure) => {
    const error = refused(wrong);
    expect([error.path, error.code]).toEqual([path, code]);
    expect(error.cure).toContain(cure);
  });

  it.each<[string, Json, string, string, string]>([
    ['a named event', onTrigger({ type: 'named-event' }), 'type', 'trigger-type', 'data-added'],
    [
      'a trigger with a condition',
      onTrigger({ condition: {} }),
      'condition',
      'unread-element',
      'condition of kind start',
    ],
    [
      'a trigger with a timing',
      onTrigger({ timingDate: '2026-01-01' }),
      'timingDate',
      'unread-element',
      'on the action',
    ],
    [
      'a trigger without data',
      onTrigger({ data: undefined }),
      'data',
      'trigger-data',
      'one finding or one act',
    ],
    [
      'a trigger with two findings at once',
      onTrigger({ data: [...(found('damage')['data'] as Json[]), ...(found('fever')['data'] as Json[])] }),
      'data',
      'trigger-data',
      'several triggers',
    ],
    [
      'data of another type',
      onData('Condition', [filter('damage')]),
      'data[0].type',
      'trigger-data',
      'Procedure',
    ],
    [
      'a finding that is none',
      onData('Observation', [filter('damag')]),
      'data[0].codeFilter',
      'unknown-finding',
      'Did you mean damage?',
    ],
    ['no finding', onData('Observation', []), 'data[0].codeFilter', 'unknown-finding', 'Use one of'],
    [
      'a value that is none',
      x({ trigger: [found('dressing-condition', 'moist')] }),
      'data[0].codeFilter',
      'unknown-value',
      'damp',
    ],
    [
      'a value of a yes or no',
      x({ trigger: [found('incision-healed', 'true')] }),
      'data[0].codeFilter',
      'unknown-value',
      'kind start',
    ],
    [
      'a finding of another system',
      onData('Observation', [filter('damage', 'http://loinc.org')]),
      'data[0].codeFilter[0].code',
      'code-system',
      codeSystem.lineFinding,
    ],
    [
      'an act of the code system of findings',
      onData('Procedure', [filter('repair')]),
      'data[0].codeFilter[0].code',
      'code-system',
      codeSystem.lineCareActivity,
    ],
    [
      'an act that is none',
      onData('Procedure', [filter('repare', codeSystem.lineCareActivity)]),
      'data[0].codeFilter',
      'unknown-activity',
      'Did you mean repair?',
    ],
    [
      'an act with a value',
      onData('Procedure', [
        filter('repair', codeSystem.lineCareActivity),
        { path: 'value', code: [{ code: 'done' }] },
      ]),
      'data[0].codeFilter',
      'trigger-data',
      'path code only',
    ],
    [
      'a value set',
      onData('Observation', [
        filter('damage'),
        { path: 'value', code: [{ code: 'leak' }], valueSet: 'http://x' },
      ]),
      'data[0].codeFilter[1].valueSet',
      'unread-element',
      'one by one',
    ],
    [
      'a filter on something else',
      onData('Observation', [filter('damage'), { path: 'status', code: [{ code: 'final' }] }]),
      'data[0].codeFilter[1].path',
      'trigger-data',
      'path value',
    ],
  ])('%s', (_, wrong, path, code, cure) => {
    const error = refused(wrong);
    expect([error.path, error.code]).toEqual([`trigger[0].${path}`, code]);
    expect(error.cure).toContain(cure);
  });
});
