import { codeSystem, policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { action, ban, code, every, onlyError, plan, read, scope, span, when, type Json } from './plan.kit.js';

describe('refused of an action, with path, code and cure', () => {
  it.each<[string, unknown, string, string, string]>([
    [
      'an activity that is none',
      action('x', { code: code('dresing-change') }),
      'code',
      'unknown-activity',
      'Did you mean dressing-change?',
    ],
    ['no activity', action('x', { code: undefined }), 'code', 'no-activity', codeSystem.lineCareActivity],
    [
      'two activities',
      action('x', { code: [...code('flush'), ...code('lock')] }),
      'code',
      'no-activity',
      codeSystem.lineCareActivity,
    ],
    [
      'a scope that is none',
      action('x', { extension: [scope('arm')] }),
      'extension[0].valueCode',
      'bad-extension',
      'exit-site',
    ],
    [
      'a scope twice',
      action('x', { extension: [scope('line'), scope('line')] }),
      'extension[1].url',
      'doubled-extension',
      'Keep one',
    ],
    [
      'a lead with no unit',
      action('x', { extension: [{ url: policyExtension.ruleLead, valueDuration: { value: 1 } }] }),
      'extension[0].valueDuration.code',
      'bad-duration',
      'Duration',
    ],
    [
      'another reading of unknown facts',
      action('x', { extension: [{ url: policyExtension.ruleWhenUnknown, valueCode: 'true' }] }),
      'extension[0].valueCode',
      'bad-extension',
      'protective',
    ],
    [
      'a modifier',
      action('x', { modifierExtension: [] }),
      'modifierExtension',
      'unknown-modifier',
      'Leave it out',
    ],
    ['a priority that is none', action('x', { priority: 'soon' }), 'priority', 'not-fhir', 'R4'],
    [
      'a participant that is none',
      action('x', { participant: [{ type: 'robot' }] }),
      'participant[0].type',
      'participant-type',
      'practitioner',
    ],
    ['an id that is none', action('x y'), 'id', 'bad-id', 'letters'],
    ['no id', { code: code('flush'), timingTiming: every(1, 'd') }, 'id', 'bad-id', 'letters'],
    ['no action', 'x', '', 'not-fhir', 'R4'],
    [
      'a fact that is none',
      action('x', { condition: [when('%labs.ank < 1')] }),
      'condition[0].expression.expression',
      'unknown-fact',
      '%labs.anc',
    ],
    [
      'a unit that is none',
      action('x', { condition: [when("%labs.anc < 1 'kg'")] }),
      'condition[0].expression.expression',
      'bad-unit',
      '10*9/L',
    ],
    [
      'the second condition',
      action('x', { condition: [when('true'), when('%line.typ')] }),
      'condition[1].expression.expression',
      'unknown-fact',
      '%line.type',
    ],
    [
      'another language',
      action('x', {
        condition: [{ kind: 'applicability', expression: { language: 'text/cql', expression: 'true' } }],
      }),
      'condition[0].expression.language',
      'not-fhirpath',
      'text/fhirpath',
    ],
    [
      'a reference to a condition',
      action('x', {
        condition: [{ kind: 'applicability', expression: { language: 'text/fhirpath', reference: 'x' } }],
      }),
      'condition[0].expression.expression',
      'empty-condition',
      'the condition itself',
    ],
    [
      'a condition of no kind',
      action('x', { condition: [when('true', 'end')] }),
      'condition[0].kind',
      'condition-kind',
      'stop',
    ],
    [
      'a lumen fact of a line rule',
      action('x', { condition: [when("%lumen.use = 'locked'")] }),
      'condition',
      'lumen-fact',
      'lumen',
    ],
    [
      'the moment it began of a rule that nothing began',
      action('x', { condition: [when('%began > %last.repair')] }),
      'condition[0].expression.expression',
      'trigger-fact',
      'beside a trigger',
    ],
  ])('%s', (_, wrong, path, findingCode, cure) => {
    const error = onlyError(plan('a', [action('first'), wrong]));
    expect(error.path).toBe(path === '' ? 'PlanDefinition.action[1]' : `PlanDefinition.action[1].${path}`);
    expect(error.code).toBe(findingCode);
    expect(error.cure).toContain(cure);
    expect(error.message).toMatch(/\S.*\.$/s);
  });

  it('two actions with one id', () => {
    expect(onlyError(plan('a', [action('x'), action('x')]))).toMatchObject({
      path: 'PlanDefinition.action[1].id',
      code: 'doubled-id',
      ruleId: 'x',
    });
  });
});

describe('not used of an action, and said so', () => {
  it.each<[string, Json]>([
    ['cardinalityBehavior', { cardinalityBehavior: 'multiple' }],
    ['selectionBehavior', { selectionBehavior: 'all' }],
    ['goalId', { goalId: ['x'] }],
    ['documentation', { documentation: [] }],
    ['dynamicValue[0]', { dynamicValue: [{ path: 'description', expression: {} }] }],
    ['dynamicValue', { dynamicValue: [] }],
    ['extension[0].url', { extension: [{ url: `${policyExtension.ruleScope}s`, valueCode: 'lumen' }] }],
    ['condition[0].extension', { condition: [{ ...when('true'), extension: [] }] }],
    [
      'condition[0].expression.reference',
      { condition: [{ kind: 'applicability', expression: { ...when('true').expression, reference: 'x' } }] },
    ],
  ])('%s', (path, more) => {
    const reading = read(plan('a', [action('x', more)]));
    expect(reading.ok).toBe(true);
    expect(reading.findings).toMatchObject([
      { severity: 'warning', path: `PlanDefinition.action[0].${path}`, ruleId: 'x' },
    ]);
  });

  it('a lead as long as the interval, and one of a ban', () => {
    const lead = { extension: [{ url: policyExtension.ruleLead, valueDuration: span(7, 'd') }] };
    const said = (one: Json) =>
      read(plan('a', [one])).findings.map((finding) => [finding.code, finding.path]);
    expect(said(action('x', lead))).toEqual([['window-too-long', 'PlanDefinition.action[0].extension']]);
    expect(said(ban('x', 'bath', { ...lead, condition: [when('%line.cuffed')] }))).toEqual([
      ['unused-extension', 'PlanDefinition.action[0].extension'],
    ]);
  });

  it('a reading of unknown facts as false for which no reason is given', () => {
    const extension = [{ url: policyExtension.ruleWhenUnknown, valueCode: 'default' }];
    expect(read(plan('a', [action('x', { extension })])).findings).toMatchObject([{ code: 'no-reason' }]);
  });

  it('the reading that was taken of a range, also in the notes of the rule', () => {
    const range = { repeat: { frequency: 1, period: 5, periodMax: 7, periodUnit: 'd' } };
    const reading = read(plan('a', [action('x', { timingTiming: range })]));
    expect(reading.findings).toMatchObject([
      { severity: 'information', code: 'shorter-reading', path: 'PlanDefinition.action[0].timingTiming' },
    ]);
    if (reading.ok) expect(reading.policy.rules[0]?.notes.join()).toContain('read as 5 d');
  });
});
