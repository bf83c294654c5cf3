import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  act,
  action,
  code,
  errors,
  every,
  found,
  plan,
  read,
  span,
  when,
  work,
  type Json,
} from './plan.kit.js';

// A layer as the first edition of the language had it is refused, each construct with the way to say it now.

const repair = act('repair', 'repair', { timingTiming: every(1, 'd') });
const after = (more: Json = {}) => ({
  relatedAction: [{ actionId: 'repair', relationship: 'after-end', ...more }],
});
const brisk = {
  type: 'Observation',
  codeFilter: [
    { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'blood-return' }] },
    { path: 'value', code: [{ code: 'brisk' }, { code: 'sluggish' }] },
  ],
};
const free = {
  type: 'Observation',
  codeFilter: [{ path: 'code', code: [{ system: codeSystem.lineFinding, code: 'flush-resistance' }] }],
};

describe('the first edition’s', () => {
  it.each<[string, Json, string, string, string]>([
    [
      'ban by requiredBehavior could',
      act('x', 'infusion-start', { requiredBehavior: 'could', ...after({ offsetDuration: span(2, 'h') }) }),
      'requiredBehavior',
      'required-behavior',
      'doNotPerform true and kind ServiceRequest',
    ],
    [
      'requiredBehavior must',
      action('x', { requiredBehavior: 'must' }),
      'requiredBehavior',
      'required-behavior',
      'Leave it out',
    ],
    [
      'requiredBehavior must-unless-documented',
      action('x', { requiredBehavior: 'must-unless-documented' }),
      'requiredBehavior',
      'required-behavior',
      'Leave it out',
    ],
    [
      'end by an output',
      act('x', 'patency-assessment', { trigger: [found('damage')], output: [brisk, free] }),
      'output',
      'output-as-end',
      'a condition of kind stop: %found.bloodReturn.brisk >= %began or %found.bloodReturn.sluggish >= %began or %found.flushResistance >= %began.',
    ],
    [
      'end by an output that can’t be read',
      act('x', 'patency-assessment', { trigger: [found('damage')], output: [] }),
      'output',
      'output-as-end',
      'such as %found.bloodReturn.brisk >= %began',
    ],
    [
      'chain by relatedAction after-end',
      act('x', 'splint-removal', after({ offsetDuration: span(48, 'h') })),
      'relatedAction[0].relationship',
      'chain-by-related-action',
      'data of type Procedure and the code of the other act, and timingDuration',
    ],
    [
      'chain by relatedAction after',
      act('x', 'splint-removal', {
        relatedAction: [{ actionId: 'repair', relationship: 'after', offsetDuration: span(48, 'h') }],
      }),
      'relatedAction[0].relationship',
      'chain-by-related-action',
      'timingDuration',
    ],
    [
      'bare action as an anchor',
      act('x', 'insertion'),
      '',
      'bare-action',
      'a trigger of theirs, of type Procedure',
    ],
    [
      'first time by boundsRange',
      action('x', {
        timingTiming: {
          repeat: { frequency: 1, period: 1, periodUnit: 'd', boundsRange: { low: span(24, 'h') } },
        },
      }),
      'timingTiming.repeat.boundsRange',
      'bad-timing',
      'a trigger of type Procedure for the insertion, and timingDuration',
    ],
    [
      'first time by offset',
      action('x', { timingTiming: { repeat: { frequency: 1, period: 1, periodUnit: 'd', offset: 15 } } }),
      'timingTiming.repeat.offset',
      'bad-timing',
      'timingDuration',
    ],
    [
      'ban in the action itself',
      action('x', { doNotPerform: true }),
      'doNotPerform',
      'ban-elsewhere',
      'name an ActivityDefinition with doNotPerform true',
    ],
    [
      'step in an action',
      action('x', { dynamicValue: [{ path: 'input:step', expression: {} }] }),
      'dynamicValue[0].path',
      'input-path',
      'work-step',
    ],
    ...(
      [
        ['%line.tipConfirmed.not()', '%last.tipConfirmation.empty()'],
        ['%line.incisionHealed', '%latest.incisionHealed'],
        ['%line.asepticInsertion', '%latest.asepticInsertion'],
        ['%line.signDwellDays > 2', 'kind start'],
        ['%lumen.lookMinutesAfterDose >= 120', '%began >= %last.occlusionTreatment + 120 minutes'],
      ] as const
    ).map(([expression, cure]): [string, Json, string, string, string] => [
      expression,
      action('x', { condition: [when(expression)] }),
      'condition[0].expression.expression',
      'fact-gone',
      cure,
    ]),
  ])('%s is refused with what says it now', (_, wrong, path, findingCode, cure) => {
    const wrongOnes = errors(read(plan('a', [repair, wrong])).findings);
    const at = path === '' ? 'PlanDefinition.action[1]' : `PlanDefinition.action[1].${path}`;
    const error = wrongOnes.find((one) => one.path === at);
    expect(error).toMatchObject({ code: findingCode, ruleId: 'x' });
    expect(error?.cure).toContain(cure);
  });

  it.each([
    ['step', "'Clamp it.'", 'work-step'],
    ['supply', "'gloves'", 'work-supply with valueString'],
    ['caution', "'Don’t force it.'", 'work-caution with valueString'],
    ['flush-volume', '%calculated.flushVolume', 'work-computed with valueCode flush-volume'],
  ])('input:%s of a definition is refused with what says it now', (name, expression, cure) => {
    const definition = {
      ...work('w', 'dressing-change'),
      dynamicValue: [{ path: `input:${name}`, expression: { language: 'text/fhirpath', expression } }],
    };
    const [error, ...others] = errors(
      read(plan('a', [action('x', { definitionCanonical: '#w' })], { contained: [definition] })).findings,
    );
    expect(others).toEqual([]);
    expect(error).toMatchObject({
      path: 'PlanDefinition.contained[0].dynamicValue[0].path',
      code: 'input-path',
      ruleId: 'x',
    });
    expect(error?.cure).toContain(cure);
  });

  it('citation without a source still counts as one without a source, and is told so', () => {
    const documentation = [{ type: 'citation', citation: 'Common practice, no source' }];
    const lower = plan('a', [action('x', { documentation })]);
    const reading = read(lower);
    expect(reading.ok && reading.policy.rules[0]?.citations).toEqual([
      { text: 'Common practice, no source', certainty: 'common-practice' },
    ]);
    expect(reading.findings.map((one) => one.code)).toEqual(['citation-without-source']);
    const longer = action('x', { documentation, timingTiming: { repeat: { period: 9, periodUnit: 'd' } } });
    expect(read(lower, plan('b', [longer])).ok).toBe(true);
  });

  it('ban and what it names are refused in a group as well', () => {
    const group = {
      id: 'g',
      requiredBehavior: 'could',
      output: [free],
      timingTiming: { repeat: { period: 1, periodUnit: 'd' } },
      action: [{ id: 'x', code: code('flush') }],
    };
    expect(errors(read(plan('a', [group])).findings).map(({ path, ruleId }) => [path, ruleId])).toEqual([
      ['PlanDefinition.action[0].requiredBehavior', 'g'],
      ['PlanDefinition.action[0].output', 'g'],
    ]);
  });
});
