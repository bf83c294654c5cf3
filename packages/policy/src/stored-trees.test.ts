import fhirpath from 'fhirpath';
import { describe, expect, it } from 'vitest';
import { bundledPlan, bundledPlanNames, defaultLayerNames } from './bundled.js';
import { conditionParts } from './condition-parts.js';
import { treeTexts } from './generated/trees.js';
import { lintPlan, readPolicy } from './read-policy.js';
import { storedTree } from './stored-trees.js';

describe('trees that were parsed when the package was built', () => {
  const texts = Object.keys(treeTexts);

  it('are those of the reference engine, every one', () => {
    expect(texts.length).toBeGreaterThan(150);
    for (const text of texts) expect(storedTree(text), text).toStrictEqual(fhirpath.parse(text));
  });

  it('are of the bundled plans alone', () => {
    expect(storedTree("%line.dressing = 'no-such-dressing'")).toBeUndefined();
    expect(storedTree('toString')).toBeUndefined();
  });

  it('are all that the bundled plans need, alone and over the default', () => {
    // Quantities and times in the shapes that the plans have are closures: the engine would show as `engine`.
    for (const name of bundledPlanNames) {
      lintPlan(bundledPlan(name));
      for (const names of [[name], [...new Set([...defaultLayerNames, name])]]) {
        const reading = readPolicy(names.map((one) => bundledPlan(one)));
        for (const { applicability, start, stop } of reading.ok ? reading.policy.rules : []) {
          for (const condition of [applicability, start, stop]) {
            if (condition === undefined || condition.text === '') continue;
            expect(condition.via, condition.text).toBe('closure');
            expect(texts, condition.text).toContain(condition.meaning);
            expect(conditionParts(condition), condition.text).toBeDefined();
          }
        }
      }
    }
  });
});
