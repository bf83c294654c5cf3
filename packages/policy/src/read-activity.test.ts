import { base, policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { lintPlan, readPolicy } from './index.js';
import { act, action, code, errors, no, plan, ruleOf, when, work, type Json } from './plan.kit.js';

const computed = (valueCode: unknown) => ({ url: policyExtension.workComputed, valueCode });
const step = (valueString: unknown) => ({ url: policyExtension.workStep, valueString });
const steps = (expression: string) => ({
  url: policyExtension.workStep,
  valueExpression: { language: 'text/fhirpath', expression },
});
const substance = (...parts: unknown[]) => ({
  url: policyExtension.workSubstance,
  extension: parts,
});
const supply = (valueString: unknown) => ({ url: policyExtension.workSupply, valueString });
const caution = (valueString: unknown) => ({ url: policyExtension.workCaution, valueString });

const url = (id: string) => `https://hospital.example/ActivityDefinition/${id}`;
const contained = (definition: Json) => ({ contained: [definition] });
const named = action('x', { definitionCanonical: '#w' });

describe('the work of an ActivityDefinition', () => {
  it('is what its extensions say, in their order', () => {
    const definition = work(
      'w',
      'dressing-change',
      computed('lock-volume'),
      step('Clamp the line.'),
      supply('gloves'),
      steps("'Flush with ' & %calculated.flushVolume & '.'"),
      computed('syringe-size'),
      caution('Don’t force it.'),
      supply('antiseptic'),
    );
    expect(ruleOf(named, contained(definition)).work).toEqual({
      computed: ['lock-volume', 'syringe-size'],
      steps: [['Clamp the line.'], ['Flush with ', { calculated: 'flushVolume' }, '.']],
      supplies: ['gloves', 'antiseptic'],
      cautions: ['Don’t force it.'],
    });
  });

  it('is none where the action names no definition', () => {
    expect(ruleOf(action('x')).work).toEqual({ computed: [], supplies: [], cautions: [] });
  });

  it.each<[string, Json, string, string, string]>([
    [
      'a volume that is none',
      computed('flush-volum'),
      'valueCode',
      'bad-extension',
      'Did you mean flush-volume?',
    ],
    ['no text', step(' '), 'valueString', 'bad-extension', 'text'],
    ['a supply that is no text', supply(3), 'valueString', 'bad-extension', 'text'],
    [
      'a step in another language',
      { ...steps('x'), valueExpression: { language: 'text/cql', expression: 'x' } },
      'valueExpression.language',
      'not-fhirpath',
      'valueString',
    ],
    [
      'a substance that is none',
      substance({ url: 'substance', valueCode: 'hepari' }),
      'extension',
      'bad-extension',
      'heparin',
    ],
    [
      'a computed value of a substance that is none',
      substance({ url: 'substance', valueCode: 'heparin' }, { url: 'computed', valueCode: 'lock-volum' }),
      'extension',
      'bad-extension',
      'lock-volume',
    ],
    [
      'a supply of a substance that is no text',
      substance({ url: 'substance', valueCode: 'heparin' }, { url: 'supply', valueCode: 'syringe' }),
      'extension[1].valueString',
      'bad-extension',
      'as it is to be read',
    ],
    [
      'a part of a substance that is none',
      substance({ url: 'substance', valueCode: 'heparin' }, { url: 'suply', valueString: 'a syringe' }),
      'extension[1].url',
      'bad-extension',
      'supply',
    ],
    [
      'a part of a substance that is nothing',
      substance({ url: 'substance', valueCode: 'heparin' }, null),
      'extension[1].url',
      'bad-extension',
      'supply',
    ],
    ['a step that is none', steps('12'), 'valueExpression.expression', 'bad-step', '&'],
    [
      'a step that is not FHIRPath',
      steps("'open"),
      'valueExpression.expression',
      'not-fhirpath',
      'single quotes',
    ],
    [
      'a value that is none',
      steps("'Flush ' & %calculated.flushVolum"),
      'valueExpression.expression',
      'unknown-calculated',
      'calculated.flushVolume',
    ],
    [
      'a step said twice',
      { ...steps("'x'"), valueString: 'x' },
      'valueExpression',
      'bad-extension',
      'one of the two',
    ],
  ])('is refused with %s', (_, extension, path, findingCode, cure) => {
    const layer = plan('a', [named], contained(work('w', 'dressing-change', step('First.'), extension)));
    const wrong = errors(lintPlan(layer));
    expect(wrong).toMatchObject([
      { path: `PlanDefinition.contained[0].extension[1].${path}`, code: findingCode, ruleId: 'x' },
    ]);
    expect(wrong[0]?.cure).toContain(cure);
  });
});

describe('an ActivityDefinition', () => {
  it('may be given beside the layers, with or without its version', () => {
    const activities = [{ ...work('w', 'dressing-change', supply('gloves')), version: '2' }];
    for (const canonical of [url('w'), `${url('w')}|2`]) {
      const reading = readPolicy([plan('a', [action('x', { definitionCanonical: canonical })])], {
        activities,
      });
      expect(reading.ok && reading.policy.rules[0]?.work.supplies).toEqual(['gloves']);
    }
    const other = readPolicy([plan('a', [action('x', { definitionCanonical: `${url('w')}|1` })])], {
      activities,
    });
    expect(errors(other.findings)).toMatchObject([
      { code: 'unknown-definition', path: 'PlanDefinition.action[0].definitionCanonical' },
    ]);
    expect(errors(other.findings)[0]?.message).toContain('Version 1 of');
  });

  it.each<[string, Json, string, string, string]>([
    [
      'that is not there',
      action('x', { definitionCanonical: '#v' }),
      'action[0].definitionCanonical',
      'unknown-definition',
      'Did you mean #w?',
    ],
    [
      'that is nowhere',
      action('x', { definitionCanonical: url('w') }),
      'action[0].definitionCanonical',
      'unknown-definition',
      'beside the layers',
    ],
    [
      'of another activity',
      act('x', 'flush', { definitionCanonical: '#w', condition: [when('%line.cuffed')] }),
      'contained[0].code',
      'definition-code',
      'own activity',
    ],
  ])('%s is refused', (_, one, path, findingCode, cure) => {
    const wrong = errors(lintPlan(plan('a', [one], contained(work('w', 'dressing-change')))));
    expect(wrong).toMatchObject([{ path: `PlanDefinition.${path}`, code: findingCode, ruleId: 'x' }]);
    expect(wrong[0]?.cure).toContain(cure);
  });

  it.each<[string, Json, string, string]>([
    ['that forbids as a Task', { ...no('dressing-change'), id: 'w', kind: 'Task' }, 'kind', 'ban-kind'],
    ['that forbids as nothing', { ...no('dressing-change'), id: 'w', kind: undefined }, 'kind', 'ban-kind'],
    [
      'that forbids what it does not name',
      { ...no('dressing-change'), id: 'w', code: undefined },
      'code',
      'definition-code',
    ],
    [
      'that forbids and carries work',
      { ...no('dressing-change'), id: 'w', extension: [caution('x')] },
      'extension',
      'ban-with-work',
    ],
    [
      'with a modifier',
      { ...work('w', 'dressing-change'), modifierExtension: [] },
      'modifierExtension',
      'unknown-modifier',
    ],
    [
      'that says neither yes nor no',
      { ...work('w', 'dressing-change'), doNotPerform: 'yes' },
      'doNotPerform',
      'not-fhir',
    ],
    [
      'of another type',
      { ...work('w', 'dressing-change'), resourceType: 'PlanDefinition' },
      'resourceType',
      'not-fhir',
    ],
  ])('%s is refused', (_, definition, path, findingCode) => {
    const layer = plan(
      'a',
      [act('x', 'dressing-change', { definitionCanonical: '#w', condition: [when('%line.cuffed')] })],
      contained(definition),
    );
    expect(errors(lintPlan(layer))).toMatchObject([
      { path: `PlanDefinition.contained[0].${path}`, code: findingCode, ruleId: 'x' },
    ]);
  });

  it.each<[string, Json, string, string]>([
    ['of another kind', { kind: 'ServiceRequest' }, 'kind', 'not-a-task'],
    ['of no kind', { kind: undefined }, 'kind', 'not-a-task'],
    ['that orders', { intent: 'order' }, 'intent', 'not-a-plan-intent'],
    ['of no activity of ours', { code: { text: 'x' } }, 'code', 'definition-code'],
    ['with a timing', { timingTiming: {} }, 'timingTiming', 'unused-element'],
    [
      'with another path',
      { dynamicValue: [{ path: 'description', expression: {} }] },
      'dynamicValue[0]',
      'unused-element',
    ],
    [
      'with another extension',
      { extension: [{ url: `${base}/StructureDefinition/work-steps` }] },
      'extension[0].url',
      'unused-extension',
    ],
  ])('%s is read, and told what is not used', (_, more, path, findingCode) => {
    const reading = readPolicy([plan('a', [named], contained({ ...work('w', 'dressing-change'), ...more }))]);
    expect(reading).toMatchObject({
      ok: true,
      findings: [{ severity: 'warning', path: `PlanDefinition.contained[0].${path}`, code: findingCode }],
    });
  });

  it('says doNotPerform false of what asks', () => {
    const definition = { ...work('w', 'dressing-change'), doNotPerform: false };
    expect(ruleOf(named, contained(definition)).effect).toBe('ask');
  });

  it.each<[string, unknown[], string]>([
    ['none', [{ resourceType: 'PlanDefinition', url: 'x' }], 'not-an-activity'],
    ['nothing', [null], 'not-an-activity'],
    ['one without a url', [{ ...work('w', 'flush'), url: undefined }], 'missing-url'],
    ['two of one url', [work('w', 'flush'), work('w', 'flush')], 'same-url'],
  ])('given beside the layers must be one: %s is refused', (_, activities, findingCode) => {
    const wrong = errors(readPolicy([plan('a', [action('x')])], { activities }).findings);
    expect(wrong).toMatchObject([{ code: findingCode }]);
    expect(wrong[0]?.path).toMatch(/^ActivityDefinition/);
  });

  it('is spoken of by its url where it stands outside of the plan', () => {
    const activities = [{ ...work('w', 'flush'), code: code('lock')[0] }];
    const layer = plan('a', [action('x', { definitionCanonical: url('w') })]);
    expect(errors(readPolicy([layer], { activities }).findings)).toMatchObject([
      { path: `ActivityDefinition.where(url = '${url('w')}').code`, layer: 0, ruleId: 'x' },
    ]);
  });

  it('in the plan that no action names is told so, also by an action of a group', () => {
    const definition = work('w', 'flush');
    const group = {
      id: 'g',
      documentation: [{ type: 'citation', citation: 'x' }],
      condition: [when('%line.cuffed')],
      action: [{ id: 'x', code: code('flush'), definitionCanonical: '#w' }],
    };
    expect(readPolicy([plan('a', [group], contained(definition))]).findings).toEqual([]);
    expect(readPolicy([plan('a', [action('x')], contained(definition))]).findings).toMatchObject([
      { severity: 'warning', code: 'unused-definition', path: 'PlanDefinition.contained[0]' },
    ]);
  });

  it.each([
    ['retired', 'retired'],
    ['fever', 'bad-status'],
    [7, 'bad-status'],
  ])('of status %j is used with a warning', (status, findingCode) => {
    const definition = { ...work('w', 'dressing-change', caution('Mind it.')), status };
    const reading = readPolicy([plan('a', [named], contained(definition))]);
    expect(reading.findings).toMatchObject([
      { severity: 'warning', code: findingCode, path: 'PlanDefinition.contained[0].status' },
    ]);
    expect(reading.ok && reading.policy.rules[0]?.work.cautions).toEqual(['Mind it.']);
  });
});
