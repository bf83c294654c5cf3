import { policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { action, cited, onlyError, plan, read, reason, ruleOf, uncited, type Json } from './plan.kit.js';

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
