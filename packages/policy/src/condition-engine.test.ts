import { expect, it } from 'vitest';
import { checkTree } from './condition-check.js';
import { forEngine } from './condition-engine.js';
import { parse } from './tree.js';

it.each([
  ["%labs.anc < 200 '{cells}/uL'", "%`labs.anc` < 0.2 '10*9/L'"],
  [
    "%labs.anc<200'/uL' and\n  %patient.weight >=\n 3000 'g'",
    "%`labs.anc`<0.2 '10*9/L' and\n  %`patient.weight` >=\n 3 'kg'",
  ],
  ["(%labs.anc + 100 '/uL') < 400 '/uL'", "(%`labs.anc` + 0.1 '10*9/L') < 0.4 '10*9/L'"],
  [
    "%line.type = '200 kg' and %labs.anc < 200 '/mm3'",
    "%`line.type` = '200 kg' and %`labs.anc` < 0.2 '10*9/L'",
  ],
  ['%line.dwellDays > 3', '%`line.dwellDays` > 3'],
  ["'%line.type' = %line.type", "'%line.type' = %`line.type`"],
  [
    '%found.bloodReturn.brisk >= %began - 2 hours or %found . bloodReturn.exists()',
    '%`found.bloodReturn.brisk` >= %`began` - 2 hours or %`found.bloodReturn`.exists()',
  ],
])('%j reaches the engine with its facts by name and in their units', (text, expected) => {
  expect(forEngine(text, checkTree(parse(text), 'stop').thresholds)).toBe(expected);
});
