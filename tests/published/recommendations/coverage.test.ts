import { bundledPlanNames, type Begins, type Rule, type Span } from '@dwellward/policy';
import { calculators } from '@dwellward/calculators/catalog';
import { describe, expect, it } from 'vitest';
import { coverageOf, coverageText, recommendationCount, recommendations } from './coverage.js';
import type { Recommendation } from './model.js';
import { policyOf, withSpoiledRules } from './situation.js';

// Every numbered recommendation of the published sources: kept by a rule, a layer, a calculator or code, with a check
// that runs; or why it can’t be; or to which later part it belongs; or missing. `npm run policy:coverage` prints it.

const coverage = coverageOf(recommendations);

describe('the published recommendations', () => {
  it('are all in the table, each source with as many as it has', () => {
    expect(recommendations).toHaveLength(recommendationCount);
    const counts = new Map<string, number>();
    for (const { source } of recommendations) counts.set(source, (counts.get(source) ?? 0) + 1);
    expect([...counts.values()]).toEqual([40, 6, 10, 6, 24, 11, 30, 10, 6, 9, 4, 2, 3, 1, 3, 5, 2, 2, 9]);
  });

  const keepable = recommendations.flatMap((one) =>
    one.answer.is === 'kept' ? [{ ...one, check: one.answer.check }] : [],
  );
  it.each(keepable.map((one) => [one.source, one.number, one.text, one.check] as const))(
    '%s, %i: %s',
    (_, __, ___, check) => {
      check();
    },
  );

  it('that are said to be kept by a layer, a calculator or a rule name one that exists', () => {
    const layers = bundledPlanNames as readonly string[];
    const rules = new Set(policyOf().rules.map(({ id }) => id));
    for (const { by } of keepable.map(
      ({ answer }) => answer as Extract<Recommendation['answer'], { is: 'kept' }>,
    )) {
      for (const name of by.flatMap((one) => one.split(', '))) {
        const [kind, word] = name.split(' ');
        if (kind === 'layer') expect(layers).toContain(word);
        else if (kind === 'calculator') expect(Object.keys(calculators)).toContain(word);
        else if (!name.includes(' ') && !name.endsWith('-work')) expect([...rules]).toContain(name);
      }
    }
  });

  it('are kept to at least 95 % of those that are computable and care policy or calculators today', () => {
    process.stdout.write(`${coverageText(coverage)}\n`);
    expect(coverage.percentToday).toBeGreaterThanOrEqual(95);
  });
});

describe('a check', () => {
  const longer = ({ value, unit }: Span): Span => ({ value: value * 2 + 1, unit });
  /** What a ban begins with is left as it is: what is asked for has another time. */
  const mistimedBegins = ({ begins, effect }: Rule): Begins => {
    if (begins.kind === 'interval') return { ...begins, every: longer(begins.every) };
    if (begins.kind === 'fixed-times') return { ...begins, timesOfDay: ['03:00:00'] };
    if (begins.kind !== 'triggered' || effect === 'forbid') return begins;
    const by = begins.by.map((one) =>
      one.kind === 'finding' ? { ...one, values: ['nothing-of-the-kind'] } : one,
    );
    if (by.every(({ kind }) => kind === 'finding')) return { ...begins, by };
    return { ...begins, by, after: longer(begins.after ?? { value: 0, unit: 'min' }) };
  };
  /** Another time than the rule’s own, whatever kind it is. */
  const mistimed = (rule: Rule): Rule => {
    const spacing = rule.minimumSpacing;
    return { ...rule, begins: mistimedBegins(rule), ...(spacing ? { minimumSpacing: longer(spacing) } : {}) };
  };
  const silenced = (rule: Rule): Rule => ({ ...rule, work: { computed: [], supplies: [], cautions: [] } });
  const byRule = recommendations.flatMap((one) =>
    one.answer.is === 'kept' && one.answer.by.some((name) => !/^(calculator|no rule|code) /.test(name))
      ? [{ ...one, check: one.answer.check }]
      : [],
  );

  it.each(byRule.map((one) => [one.source, one.number, one.text, one.check] as const))(
    'notices when the rules are changed: %s, %i: %s',
    (_, __, ___, check) => {
      const failures = [mistimed, silenced].filter((spoiler) => {
        try {
          withSpoiledRules(spoiler, check);
          return false;
        } catch {
          return true;
        }
      });
      expect(failures.length).toBeGreaterThan(0);
    },
  );
});

describe('the report', () => {
  const row = (number: number, answer: Recommendation['answer']): Recommendation => ({
    source: 's',
    number,
    text: 't',
    mark: 'seen',
    answer,
  });

  it('counts a check that fails as missing, and what comes later not as kept', () => {
    const made = coverageOf([
      row(1, { is: 'kept', by: ['x'], check: () => undefined }),
      row(2, {
        is: 'kept',
        by: ['x'],
        check: () => {
          throw new Error('no longer so');
        },
      }),
      row(3, { is: 'later', part: 'p' }),
      row(4, { is: 'not-computable', why: 'w' }),
      row(5, { is: 'missing', what: 'm' }),
    ]);
    expect(made.missing.map(({ failure }) => failure)).toEqual(['check fails: no longer so', 'm']);
    expect([made.percentToday, made.percentComputable, made.percentAll]).toEqual([100 / 3, 25, 20]);
    expect(coverageText(made).split('\n').at(-1)).toBe(
      '1 of 3 computable recommendations of care policy and calculators kept: 33.3 %',
    );
  });
});
