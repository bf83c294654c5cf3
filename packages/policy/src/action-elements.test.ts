import { codeSystem, policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  act,
  action,
  ban,
  before,
  code,
  dataAdded,
  done,
  found,
  named,
  ordered,
  plan,
  read,
  ruleOf,
  span,
  until,
  when,
  type Json,
} from './plan.kit.js';

const said = (...actions: Json[]) => saidWith({}, ...actions);
const saidWith = (more: Json, ...actions: Json[]) =>
  read(plan('a', actions, more)).findings.map(({ severity, code: of, path }) =>
    `${severity} ${of} ${path.replace(/^PlanDefinition\.?/, '')}`.trim(),
  );
const triggered = (trigger: Json, more: Json = {}) => act('x', 'bath', { trigger: [trigger], ...more });
const about = (codeFilter: unknown[], more: Json = {}, type = 'Observation') =>
  triggered({ type: 'data-added', data: [{ type, codeFilter, ...more }] });
const damage = { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'damage' }] };
const told: Json = { id: 'a', extension: [] };
const insertion = act('insertion', 'insertion', { trigger: [ordered('insertion')] });
const ahead = (more: Json) =>
  act('x', 'bath', { relatedAction: [{ ...before('insertion', 6)[0], ...more }] });

// The elements of HL7 FHIR R4 that only tell: to warn of them would teach people to overlook warnings.
describe('goes by without a word', () => {
  it.each(['description', 'textEquivalent', 'prefix'])('%s of an action and of a group', (element) => {
    expect(said(action('x', { [element]: 'a' }))).toEqual([]);
    expect(said({ id: 'g', [element]: 'a', action: [action('x')] })).toEqual([]);
  });

  it.each<[string, Json[]]>([
    ['the reason of an action', [action('x', { reason: [{ text: 'a' }] })]],
    ['the reason of a group', [{ id: 'g', reason: [{ text: 'a' }], action: [action('x')] }]],
    ['what tells of a trigger', [triggered({ ...found('damage'), ...told, name: 'a' })]],
    ['what tells of its data', [about([damage], told)]],
    ['what tells of a filter', [about([{ ...damage, ...told }])]],
    ['the id of a condition', [action('x', { condition: [{ ...when('%line.cuffed'), id: 'a' }] })]],
    [
      'what tells of an expression',
      [
        action('x', {
          condition: [
            {
              kind: 'applicability',
              expression: { ...when('%line.cuffed').expression, id: 'a', name: 'a', description: 'cuffed' },
            },
          ],
        }),
      ],
    ],
    ['what tells of what comes after', [insertion, ahead(told)]],
    ['before in place of before-start', [insertion, ahead({ relationship: 'before' })]],
    ['a value without a system', [triggered(found('dressing-condition', 'damp'))]],
    ['a grade in words of a hospital', [triggered(found('redness', 'severe'))]],
  ])('%s', (_, actions) => {
    expect(said(...actions)).toEqual([]);
  });
});

describe('is refused or warned of where it stands', () => {
  const value = (code: Json) =>
    about([
      { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'dressing-condition' }] },
      { path: 'value', code: [code] },
    ]);
  it.each<[string, Json[], string[]]>([
    [
      'data with a date',
      [about([damage], { dateFilter: [] })],
      ['error unread-element action[0].trigger[0].data[0].dateFilter'],
    ],
    [
      'a filter without a code',
      [about([damage, { path: 'value' }])],
      ['error trigger-data action[0].trigger[0].data[0].codeFilter[1].code'],
    ],
    [
      'two findings in one trigger',
      [about([{ ...damage, code: [...damage.code, { system: codeSystem.lineFinding, code: 'fever' }] }])],
      ['error unknown-finding action[0].trigger[0].data[0].codeFilter'],
    ],
    [
      'one of two codes of another system',
      [about([{ ...damage, code: [...damage.code, { system: 'urn:own', code: 'damage' }] }])],
      [
        'error code-system action[0].trigger[0].data[0].codeFilter[0].code',
        'error unknown-finding action[0].trigger[0].data[0].codeFilter',
      ],
    ],
    [
      'two acts in one trigger',
      [
        triggered(
          dataAdded('Procedure', [
            { path: 'code', code: [...(code('flush')[0]?.coding ?? []), ...(code('lock')[0]?.coding ?? [])] },
          ]),
        ),
      ],
      ['error unknown-activity action[0].trigger[0].data[0].codeFilter'],
    ],
    [
      'no act at all',
      [triggered(dataAdded('Procedure', []))],
      ['error unknown-activity action[0].trigger[0].data[0].codeFilter'],
    ],
    [
      'a value of a temperature',
      [triggered(found('body-temperature', 'high'))],
      ['error unknown-value action[0].trigger[0].data[0].codeFilter'],
    ],
    [
      'a value of another system',
      [value({ system: 'urn:own', code: 'damp' })],
      ['error code-system action[0].trigger[0].data[0].codeFilter'],
    ],
    [
      'a condition’s modifier',
      [action('x', { condition: [{ ...when('true'), modifierExtension: [] }] })],
      ['error unknown-modifier action[0].condition[0].modifierExtension'],
    ],
    [
      'what relates with more',
      [insertion, ahead({ targetId: 'y' })],
      ['error unread-element action[1].relatedAction[0].targetId'],
    ],
    [
      'a condition without an expression',
      [action('x', { condition: [{ kind: 'applicability' }] })],
      ['error not-fhirpath action[0].condition[0].expression.language'],
    ],
    [
      'all of a group, which all rules are anyway',
      [{ id: 'g', selectionBehavior: 'all', action: [action('x')] }],
      ['warning unused-element action[0].selectionBehavior'],
    ],
    [
      'one of a group',
      [{ id: 'g', selectionBehavior: 'any', action: [action('x')] }],
      ['error unread-element action[0].selectionBehavior'],
    ],
    ['an action without an id', [action('x', { id: undefined })], ['error bad-id action[0].id']],
    ['an action with an id of blanks', [action('two words')], ['error bad-id action[0].id']],
    ['no source', [action('x', { documentation: undefined })], ['warning no-source action[0].documentation']],
    [
      'a member of a group that is none',
      [{ id: 'g', action: [action('x'), 'nothing'] }],
      ['error not-fhir action[0].action[1]'],
    ],
    [
      'a spacing longer than the interval',
      [
        action('x', {
          extension: [{ url: policyExtension.ruleMinimumSpacing, valueDuration: span(8, 'd') }],
        }),
      ],
      ['warning window-too-long action[0].extension'],
    ],
    [
      'a lead of part of a minute',
      [action('x', { extension: [{ url: policyExtension.ruleLead, valueDuration: span(90, 's') }] })],
      ['information shorter-reading action[0].extension[0].valueDuration'],
    ],
    [
      'a spacing of a ban',
      [
        ban('x', 'bath', {
          condition: [when('%line.cuffed')],
          extension: [{ url: policyExtension.ruleMinimumSpacing, valueDuration: span(1, 'd') }],
        }),
      ],
      ['warning unused-extension action[0].extension'],
    ],
    [
      'a lead of what an order plans',
      [
        { ...insertion, extension: [{ url: policyExtension.ruleLead, valueDuration: span(1, 'd') }] },
        ahead({}),
      ],
      ['warning unused-extension action[0].extension'],
    ],
    [
      'an end by an answer that no act gives',
      [triggered(done('repair'), { condition: [until('%answered.exists()')] })],
      ['error never-answered action[0].condition[0].expression.expression'],
    ],
  ])('%s', (_, actions, expected) => {
    expect(said(...actions)).toEqual(expected);
  });

  it('by name, where an answer never ends it', () => {
    const stopped = (...trigger: Json[]) =>
      read(
        plan('a', [
          act('x', 'bath', { trigger, condition: [when('%line.cuffed'), until('%answered.exists()')] }),
        ]),
      ).findings.map(({ message, path }) => `${path} ${message}`);
    const at = 'PlanDefinition.action[0].condition[1].expression.expression %answered is never known of';
    expect(stopped(done('repair'))).toEqual([expect.stringContaining(`${at} repair:`)]);
    expect(stopped(done('repair'), found('fever'))).toEqual([
      expect.stringContaining(`${at} repair, fever:`),
    ]);
    expect(stopped(found('damage'))).toEqual([]);
  });
});

describe('an action tells', () => {
  it('who takes part, and as what', () => {
    const participant = [
      { type: 'related-person', role: { text: 'parent' } },
      { type: 'device', role: { coding: [{ code: 'pump', display: 'Pump' }] } },
      { type: 'practitioner', role: { coding: [{ code: 'nurse' }] } },
      { type: 'patient', role: {} },
      { type: 'patient' },
    ];
    expect(ruleOf(action('x', { participant })).participants).toEqual([
      { type: 'related-person', role: 'parent' },
      { type: 'device', role: 'Pump' },
      { type: 'practitioner', role: 'nurse' },
      { type: 'patient' },
      { type: 'patient' },
    ]);
  });

  it('with an activity beside codes of other systems', () => {
    const coding = [{ system: 'urn:own', code: 'y' }, ...(code('bath')[0]?.coding ?? [])];
    expect(ruleOf(action('x', { code: [{ coding }, { text: 'wash' }] })).activity).toBe('bath');
  });

  it('a condition in words of its own, or of what it names, and not in blanks', () => {
    const of = (description: unknown, text = '%isArmLine') => ({
      kind: 'applicability',
      expression: { ...when(text).expression, description },
    });
    const onArm = named('isArmLine', "%line.type in ('picc' | 'midline')");
    const extension = [{ ...onArm, valueExpression: { ...onArm.valueExpression, description: 'in an arm' } }];
    const worded = (condition: unknown) =>
      ruleOf(action('x', { condition: [condition] }), { extension }).applicability.description;
    expect(worded(of('of the arm'))).toBe('of the arm');
    expect([worded(of('  ')), worded(of(undefined)), worded(of(undefined, ' %isArmLine '))]).toEqual(
      Array.from({ length: 3 }, () => 'in an arm'),
    );
    expect(worded(of(undefined, '%isArmLine and %line.cuffed'))).toBeUndefined();
    expect(worded(of(undefined, '%line.cuffed and %isArmLine'))).toBeUndefined();
  });

  it('what ends it, as far as its stop is a list of it', () => {
    const ends = (text: string) =>
      ruleOf(triggered(found('damage'), { condition: [until(text)] })).stop?.ends;
    const answered = { answered: true };
    const repaired = { done: 'repair' };
    expect(ends('%answered.exists()')).toEqual([answered]);
    expect(ends('(%last.repair >= %began) or %answered.exists()')).toEqual([repaired, answered]);
    expect(ends('%began <= %last.repair')).toEqual([repaired]);
    expect(ends('%began < %found.bloodReturn.brisk')).toEqual([{ found: 'blood-return', value: 'brisk' }]);
    expect(ends('%found.fever > %began')).toEqual([{ found: 'fever' }]);
    for (const other of [
      '%last.repair <= %began',
      '%last.repair >= %began + 24 hours',
      '%last.repair + 24 hours >= %began',
      '%last.repair >= %last.flush',
      '%last.repair >= %began and %answered.exists()',
      '%last.repair >= %began or %line.cuffed',
      '%line.cuffed or %last.repair >= %began',
      '%last.repair.exists()',
      '%line.dwellDays >= 3',
    ])
      expect([other, ends(other)]).toEqual([other, undefined]);
  });
});

describe('named expressions', () => {
  const asks = action('x', { condition: [when('%n')] });
  const withN = (more: Json, text = '%line.cuffed') => {
    const one = named('n', text);
    return saidWith({ extension: [{ ...one, valueExpression: { ...one.valueExpression, ...more } }] }, asks);
  };
  const at = 'extension[0].valueExpression';

  it.each(['context', 'resource', 'rootResource', 'ucum', 'sct', 'loinc', 'calculated', 'labs', 'answered'])(
    'may not be called %s',
    (name) => {
      expect(saidWith({ extension: [named(name, '%line.cuffed')] }, action('x'))).toEqual([
        `error bad-name ${at}.name`,
      ]);
    },
  );

  it('have an id, a name, words, a language and a text, and nothing else', () => {
    expect(withN({ id: 'a', description: 'cuffed' })).toEqual([]);
    expect(withN({ reference: 'urn:a' })).toEqual([`error unread-element ${at}.reference`]);
    expect(withN({ expression: 7 })).toEqual([`error empty-condition ${at}.expression`]);
  });

  it('that are wrong are said once, whoever asks for them', () => {
    expect(withN({}, "%line.type = 'none'")).toEqual([`error unknown-value ${at}.expression`]);
    const [n, m] = [named('n', '%line.nothing'), named('m', '%line.cuffed and %n')];
    expect(saidWith({ extension: [n, m] }, action('x', { condition: [when('%m')] }))).toEqual([
      `error unknown-fact ${at}.expression`,
    ]);
  });
});
