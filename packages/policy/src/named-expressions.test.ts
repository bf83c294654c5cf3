import { policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { compile, compileCondition } from './condition-compile.js';
import { action, errors, named as extension, plan, read, ruleOf, when, type Json } from './plan.kit.js';

describe('named expressions', () => {
  const named = new Map([
    ['isArmLine', "%line.type in ('picc' | 'midline')"],
    ['limit', "38.0 'Cel'"],
    ['armLines', "('picc' | 'midline')"],
  ]);

  it('are written out, in parentheses, and the text is kept as it is written', () => {
    const reading = compileCondition(['%isArmLine.not() or %line.cuffed', '%isArmLine'], { named });
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    expect(reading.condition.text).toBe('(%isArmLine.not() or %line.cuffed) and (%isArmLine)');
    expect(reading.condition.meaning).toBe(
      "((%line.type in ('picc' | 'midline')).not() or %line.cuffed) and ((%line.type in ('picc' | 'midline')))",
    );
    expect(reading.condition.uses).toEqual(['line.cuffed', 'line.type']);
    expect(reading.condition.evaluate({ 'line.type': 'picc', 'line.cuffed': true })).toEqual({ is: 'true' });
    expect(reading.condition.evaluate({ 'line.type': 'picc', 'line.cuffed': false })).toEqual({
      is: 'false',
    });
  });

  it.each([
    ['%latest.bodyTemperature >= %limit', '38', 'true'],
    ['%latest.bodyTemperature >= %limit', '37.99', 'false'],
    ['%limit <= %latest.bodyTemperature', '38', 'true'],
  ])('may be a limit: %s of %s Cel is %s', (text, value, expected) => {
    const temperature = { low: value, lowIncluded: true, high: value, highIncluded: true, unit: 'Cel' };
    for (const way of ['fastest', 'engine'] as const) {
      const reading = compile([text], way, { named });
      if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
      expect(reading.condition.evaluate({ 'latest.bodyTemperature': temperature }).is).toBe(expected);
    }
  });

  it('may be a list, over several lines, and may stand in quotation marks', () => {
    const reading = compileCondition(
      ["%line.cuffed or\n  '%armLines' = 'x' or\n  %line.type in %`armLines`"],
      { named },
    );
    expect(reading.ok && reading.condition.meaning).toBe(
      "%line.cuffed or\n  '%armLines' = 'x' or\n  %line.type in (('picc' | 'midline'))",
    );
    expect(reading.ok && reading.condition.evaluate({ 'line.type': 'midline' }).is).toBe('true');
  });

  it('that are not known are refused, with the nearest that is', () => {
    const reading = compileCondition(['%isArmLin'], { named });
    expect(reading.ok ? [] : reading.problems).toMatchObject([
      { code: 'unknown-fact', message: '%isArmLin is not known.', cure: 'Did you mean %isArmLine?' },
    ]);
  });
});

describe('the named expressions of a plan', () => {
  const onArm = extension('isArmLine', "%line.type in ('picc' | 'midline')");
  const withNames = (expression: string, ...extensions: Json[]) =>
    read(plan('a', [action('x', { condition: [when(expression)] })], { extension: extensions }));

  it('may be asked for in any condition, and in what stands below', () => {
    const rule = ruleOf(action('x', { condition: [when('%isOldArmLine')] }), {
      extension: [onArm, extension('isOldArmLine', '%isArmLine and %line.dwellDays > 30')],
    });
    expect(rule.applicability).toMatchObject({
      text: '%isOldArmLine',
      meaning: "((%line.type in ('picc' | 'midline')) and %line.dwellDays > 30)",
    });
    expect(rule.applicability.evaluate({ 'line.type': 'picc', 'line.dwellDays': 31 })).toEqual({
      is: 'true',
    });
    expect(rule.applicability.evaluate({ 'line.type': 'midline' })).toEqual({
      is: 'unknown',
      missing: ['line.dwellDays'],
    });
  });

  it('do not stand for what a value in quotes says, and are no facts of another plan', () => {
    const reading = read(
      plan('a', [action('x', { condition: [when('%isArmLine')] })], { extension: [onArm] }),
      plan('b', [action('y', { condition: [when('%isArmLine')] })]),
    );
    expect(errors(reading.findings)).toMatchObject([
      { layer: 1, code: 'unknown-fact', message: '%isArmLine is not known.' },
    ]);
  });

  it.each<[string, Json[], string, string, string]>([
    ['of no name', [extension('', 'true')], 'valueExpression.name', 'bad-name', 'isArmLine'],
    [
      'with a name that is none',
      [extension('is arm', 'true')],
      'valueExpression.name',
      'bad-name',
      'letters',
    ],
    [
      'with the name of a fact group',
      [extension('line', 'true')],
      'valueExpression.name',
      'bad-name',
      'lumen',
    ],
    ['with the name of a fact', [extension('began', 'true')], 'valueExpression.name', 'bad-name', 'answered'],
    [
      'with a name of FHIRPath’s own',
      [extension('resource', 'true')],
      'valueExpression.name',
      'bad-name',
      'context',
    ],
    [
      'that is nothing',
      [{ url: policyExtension.namedExpression }],
      'valueExpression.name',
      'bad-name',
      'isArmLine',
    ],
    ['without a text', [extension('n', ' ')], 'valueExpression.expression', 'empty-condition', 'condition'],
    [
      'that is not FHIRPath',
      [extension('n', '%line.type =')],
      'valueExpression.expression',
      'not-fhirpath',
      'condition',
    ],
    [
      'that asks for itself',
      [extension('n', '%n')],
      'valueExpression.expression',
      'circular-name',
      'above it',
    ],
    [
      'with a fact that is none',
      [extension('n', '%line.typ')],
      'valueExpression.expression',
      'unknown-fact',
      '%line.type',
    ],
    [
      'that ask for a name that is none',
      [extension('n', '%m')],
      'valueExpression.expression',
      'unknown-fact',
      'Use one of',
    ],
  ])('%s are refused', (_, extensions, path, code, cure) => {
    const wrong = errors(withNames('%line.cuffed', ...extensions).findings);
    expect(wrong).toMatchObject([{ path: `PlanDefinition.extension[0].${path}`, code }]);
    expect(wrong[0]?.cure).toContain(cure);
  });

  it('in another language are refused', () => {
    const cql = { ...onArm, valueExpression: { ...onArm.valueExpression, language: 'text/cql' } };
    expect(errors(withNames('%line.cuffed', cql).findings)).toMatchObject([
      { path: 'PlanDefinition.extension[0].valueExpression.language', code: 'not-fhirpath' },
    ]);
  });

  it('that ask for one another, or for what stands below, are refused, and nothing else is said of it', () => {
    const circle = [extension('a', '%b and %line.cuffed'), extension('b', '%c'), extension('c', '%a')];
    expect(errors(withNames('%a', ...circle).findings).map(({ code, path }) => [code, path])).toEqual([
      ['circular-name', 'PlanDefinition.extension[0].valueExpression.expression'],
      ['circular-name', 'PlanDefinition.extension[1].valueExpression.expression'],
      ['circular-name', 'PlanDefinition.extension[2].valueExpression.expression'],
    ]);
    expect(errors(withNames('%a', extension('a', '%isArmLine'), onArm).findings)).toMatchObject([
      { code: 'named-below', message: '%isArmLine stands below %a.', cure: 'Put %isArmLine above it.' },
    ]);
  });

  it('with one name twice are refused', () => {
    expect(errors(withNames('%isArmLine', onArm, onArm).findings)).toMatchObject([
      { path: 'PlanDefinition.extension[1].valueExpression.name', code: 'doubled-name' },
    ]);
  });

  it('that nothing asks for are told so', () => {
    const reading = withNames('%isArmLine', onArm, extension('lost', '%line.cuffed'));
    expect(reading).toMatchObject({
      ok: true,
      findings: [
        { severity: 'warning', code: 'unused-named-expression', path: 'PlanDefinition.extension[1]' },
      ],
    });
  });

  it('are checked where they are used for what only a trigger gives', () => {
    const since = extension('sinceThen', '%last.repair >= %began');
    expect(errors(withNames('%sinceThen', since).findings)).toMatchObject([
      { path: 'PlanDefinition.action[0].condition[0].expression.expression', code: 'trigger-fact' },
    ]);
  });
});
