import { codeSystem, policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import type { Rule } from './model.js';
import {
  act,
  action,
  ban,
  before,
  cited,
  code,
  done,
  every,
  found,
  lasting,
  onlyError,
  ordered,
  plan,
  policyOf,
  read,
  reason,
  ruleOf,
  rulesOf,
  scope,
  span,
  uncited,
  until,
  when,
  type Json,
} from './plan.kit.js';

describe('an action becomes a rule', () => {
  it('with every part of it', () => {
    const rule = ruleOf(
      action('x', {
        title: 'Change it',
        priority: 'urgent',
        extension: [
          scope('exit-site'),
          { url: policyExtension.ruleLead, valueDuration: span(1, 'd') },
          { url: policyExtension.ruleMinimumSpacing, valueDuration: span(96, 'h') },
          { url: policyExtension.ruleWhenUnknown, valueCode: 'default' },
        ],
        condition: [when("%line.type = 'picc'"), when('%line.dwellDays > 1')],
        documentation: [{ ...cited, url: 'https://guideline.example' }, uncited, reason],
        participant: [{ type: 'practitioner', role: { text: 'nurse' } }, { type: 'patient' }],
      }),
    );
    expect(rule).toMatchObject({
      id: 'x',
      title: 'Change it',
      effect: 'ask',
      activity: 'dressing-change',
      scopes: ['exit-site'],
      begins: { kind: 'interval', every: { value: 7, unit: 'd' } },
      whenUnknown: 'default',
      lead: { value: 1, unit: 'd' },
      minimumSpacing: { value: 96, unit: 'h' },
      priority: 'urgent',
      participants: [{ type: 'practitioner', role: 'nurse' }, { type: 'patient' }],
      citations: [
        { text: cited.citation, url: 'https://guideline.example', certainty: 'seen' },
        { text: uncited.display, certainty: 'common-practice' },
      ],
      notes: [reason.display],
      origin: { url: 'https://hospital.example/a', version: '1', title: 'a', layer: 0 },
    });
    expect(rule.applicability.text).toBe("(%line.type = 'picc') and (%line.dwellDays > 1)");
    for (const absent of ['group', 'start', 'stop', 'lasts']) expect(rule).not.toHaveProperty(absent);
  });

  it('with scope line, protective reading and routine priority where it states none', () => {
    const rule = ruleOf(action('x'));
    expect(rule).toMatchObject({
      scopes: ['line'],
      whenUnknown: 'protective',
      priority: 'routine',
      title: 'x',
    });
    for (const absent of ['lead', 'participants']) expect(rule).not.toHaveProperty(absent);
    expect(rule.applicability.evaluate({})).toEqual({ is: 'true' });
  });

  it('with several scopes', () => {
    expect(ruleOf(action('x', { extension: [scope('line'), scope('lumen')] })).scopes).toEqual([
      'line',
      'lumen',
    ]);
  });

  const begins = (more: Json): Rule['begins'] =>
    ruleOf(act('x', 'patency-assessment', { timingTiming: undefined, ...more })).begins;

  it('that begins with any of several findings and acts, at once or so long after', () => {
    expect(begins({ trigger: [found('dressing-condition', 'damp', 'soiled')] })).toEqual({
      kind: 'triggered',
      by: [{ kind: 'finding', finding: 'dressing-condition', values: ['damp', 'soiled'] }],
    });
    expect(begins({ trigger: [done('repair')], timingDuration: span(48, 'h') })).toEqual({
      kind: 'triggered',
      by: [{ kind: 'event', activity: 'repair' }],
      after: { value: 48, unit: 'h' },
    });
    expect(begins({ trigger: [found('damage'), found('migration'), done('repair')] })).toEqual({
      kind: 'triggered',
      by: [
        { kind: 'finding', finding: 'damage', values: [] },
        { kind: 'finding', finding: 'migration', values: [] },
        { kind: 'event', activity: 'repair' },
      ],
    });
  });

  it('that asks while a condition is true', () => {
    const rule = ruleOf(act('x', 'patency-assessment', { condition: [when('%line.cuffed')] }));
    expect(rule).toMatchObject({ effect: 'ask', begins: { kind: 'while' } });
    expect(rule.applicability.text).toBe('%line.cuffed');
  });

  it('that comes before an act that an order plans, with or without a time of day', () => {
    const rules = rulesOf(
      act('in', 'insertion', { trigger: [ordered('insertion')] }),
      act('talk', 'teaching', { relatedAction: before('in', 24) }),
      act('wash', 'bath', {
        relatedAction: before('in', 6),
        timingTiming: { repeat: { timeOfDay: ['20:00:00'] } },
      }),
    );
    expect(rules['in']?.begins).toEqual({ kind: 'planned' });
    expect(rules['talk']?.begins).toEqual({
      kind: 'before',
      of: 'insertion',
      offset: { value: 24, unit: 'h' },
    });
    expect(rules['wash']?.begins).toEqual({
      kind: 'before',
      of: 'insertion',
      offset: { value: 6, unit: 'h' },
      timesOfDay: ['20:00:00'],
    });
  });

  it('that forbids for a time, until something, while something, or until the first of two', () => {
    const rules = rulesOf(
      ban('time', 'infusion-start', { trigger: [done('repair')], timingTiming: lasting(2, 'h') }),
      ban('until', 'infusion-start', {
        trigger: [found('damage')],
        condition: [until('%last.repair >= %began')],
      }),
      ban('while', 'infusion-start', { condition: [when('%last.tipConfirmation.empty()')] }),
      ban('either', 'infusion-start', {
        trigger: [found('damage')],
        timingTiming: lasting(2, 'h'),
        condition: [until('%answered.exists()')],
      }),
    );
    expect(Object.values(rules).map(({ effect }) => effect)).toEqual(Array(4).fill('forbid'));
    expect(rules['time']).toMatchObject({
      begins: { kind: 'triggered', by: [{ kind: 'event', activity: 'repair' }] },
      lasts: { value: 2, unit: 'h' },
    });
    expect(rules['until']?.stop).toMatchObject({ ends: [{ done: 'repair' }] });
    expect(rules['until']).not.toHaveProperty('lasts');
    expect(rules['while']?.begins).toEqual({ kind: 'while' });
    expect(rules['either']?.stop?.ends).toEqual([{ answered: true }]);
    expect(rules['either']?.lasts).toEqual({ value: 2, unit: 'h' });
  });

  it('with its conditions apart by what they are for, those of one kind joined by and', () => {
    const rule = ruleOf(
      act('x', 'patency-assessment', {
        trigger: [done('occlusion-treatment')],
        condition: [
          when('%line.dwellDays > 2', 'start'),
          when('%line.cuffed'),
          until('%found.bloodReturn.brisk >= %began'),
          when('%line.used', 'start'),
        ],
      }),
    );
    expect(rule.start?.text).toBe('(%line.dwellDays > 2) and (%line.used)');
    expect(rule.applicability.text).toBe('%line.cuffed');
    expect(rule.stop).toMatchObject({
      text: '%found.bloodReturn.brisk >= %began',
      ends: [{ found: 'blood-return', value: 'brisk' }],
    });
  });

  it('with the shortest limit for stale results that any layer states, 7 days where none does', () => {
    const stale = (value: number, unit: string) => ({
      extension: [{ url: policyExtension.labStaleAfter, valueDuration: span(value, unit) }],
    });
    expect(policyOf(plan('a', [action('x')])).labStaleAfter).toEqual({ value: 7, unit: 'd' });
    expect(
      policyOf(
        plan('a', [action('x')], stale(7, 'd')),
        plan('b', [action('y')], stale(48, 'h')),
        plan('c', [action('z')], stale(3, 'd')),
      ).labStaleAfter,
    ).toEqual({ value: 48, unit: 'h' });
  });
});

describe('how sure a source is', () => {
  const certainty = (value: string) => ({
    extension: [{ url: policyExtension.sourceCertainty, valueCode: value }],
  });
  const citations = (...documentation: Json[]) => ruleOf(action('x', { documentation })).citations;

  it.each<[string, Json, string]>([
    ['seen, where nothing else is said', cited, 'seen'],
    ['seen', { ...cited, ...certainty('seen') }, 'seen'],
    ['from memory', { ...cited, ...certainty('from-memory') }, 'from-memory'],
    ['from memory by its words', { ...cited, citation: 'Guideline 2011; from memory' }, 'from-memory'],
    [
      'seen, whatever its words',
      { ...cited, citation: 'Learned from memory 2011', ...certainty('seen') },
      'seen',
    ],
    ['common practice', uncited, 'common-practice'],
  ])('%s', (_, documentation, expected) => {
    expect(citations(documentation)[0]?.certainty).toBe(expected);
  });

  it('is none of documentation that is a note, a reason or says nothing', () => {
    const note = { type: 'documentation', display: 'A note.' };
    const rule = ruleOf(action('x', { documentation: [cited, note, reason] }));
    expect(rule.citations).toHaveLength(1);
    expect(rule.notes).toEqual(['A note.', reason.display]);
  });

  it.each<[string, Json, string, string]>([
    [
      'a citation of what has no source',
      { type: 'citation', citation: 'Common practice, no source: ours.' },
      'type',
      'citation-without-source',
    ],
    [
      'a citation said to have no source',
      { ...cited, ...certainty('common-practice') },
      'type',
      'citation-without-source',
    ],
    ['documentation without words', { type: 'citation', url: 'https://x.example' }, '', 'no-text'],
    [
      'a note that is sure',
      { type: 'documentation', display: 'A note.', ...certainty('seen') },
      'extension',
      'unused-element',
    ],
    [
      'another extension',
      { ...cited, extension: [{ url: 'https://x.example' }] },
      'extension[0].url',
      'unused-extension',
    ],
  ])('%s is pointed out', (_, documentation, path, findingCode) => {
    const { ok, findings } = read(plan('a', [action('x', { documentation: [uncited, documentation] })]));
    expect(ok).toBe(true);
    const at = `PlanDefinition.action[0].documentation[1]${path === '' ? '' : `.${path}`}`;
    expect(findings).toMatchObject([{ severity: 'warning', path: at, code: findingCode, ruleId: 'x' }]);
  });

  it.each([
    ['that is none', [{ url: policyExtension.sourceCertainty, valueCode: 'sure' }], 0],
    [
      'given twice',
      [
        { url: policyExtension.sourceCertainty, valueCode: 'seen' },
        { url: policyExtension.sourceCertainty, valueCode: 'from-memory' },
      ],
      1,
    ],
  ])('%s is refused', (_, extension, index) => {
    const error = onlyError(plan('a', [action('x', { documentation: [{ ...cited, extension }] })]));
    expect(error).toMatchObject({
      code: 'bad-extension',
      path: `PlanDefinition.action[0].documentation[0].extension[${index}].valueCode`,
    });
    expect(error.cure).toContain('from-memory');
  });
});

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
