// What the mutation tester does with each package: the score that is wanted, the tests that its mutants meet, what is not
// mutated, and in how many parts a whole run is cut. A mutant that tests meet as they run costs milliseconds; one that is
// met while a module loads has it loaded anew, for three to fifteen seconds.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../..', import.meta.url));

/**
 * Random properties are left out everywhere: they take most of the time, and a mutant that only a lucky number finds is
 * better found by a case written down. So are records of wordings: a test that repeats every sentence finds every mutant
 * of one and says nothing about the numbers.
 */
export const packages = {
  calculators: {
    wanted: 95,
    parts: 6,
    tests: ['packages/calculators/src/**/*.test.ts'],
    withoutTests: ['packages/calculators/src/properties.test.ts', 'packages/calculators/src/wordings/**'],
    notMutated: [],
  },
  core: {
    wanted: 85,
    parts: 48,
    // Blood draws, repairs and life with a line are tested where their published sources stand.
    tests: [
      'packages/core/src/**/*.test.ts',
      'tests/cases/*.test.ts',
      'tests/harm/scenarios/*.test.ts',
      'tests/published/life/*.test.ts',
      // What the servers of hospitals hold, what people are handed, and what the command prints, stand where they are used.
      'tests/conformance/apply-plan.test.ts',
      'tests/conformance/code-maps.test.ts',
      'tests/conformance/codes-start.test.ts',
      'tests/conformance/demo-unit.test.ts',
      'tests/conformance/due-output.test.ts',
      'tests/conformance/fhir-versions.test.ts',
      'tests/conformance/flowsheet.test.ts',
      'tests/handover/calendar.test.ts',
      'tests/handover/home.test.ts',
      'tests/harm/burden.test.ts',
      'tests/harm/hostile-names.test.ts',
      'packages/cli/src/**/*.test.ts',
    ],
    withoutTests: [],
    notMutated: [],
  },
  policy: {
    wanted: 85,
    parts: 20,
    // What of two sources was taken is tested where the recommendations stand.
    tests: [
      'packages/policy/src/**/*.test.ts',
      'tests/policy/*.test.ts',
      'tests/published/recommendations/choices.test.ts',
    ],
    withoutTests: [],
    // Made from the plans by a script; what they say is tested by what the plans ask for.
    notMutated: ['packages/policy/src/generated/'],
  },
};

/** The sources of a package that are mutated, as paths from the root, in the order of the alphabet. */
export function mutatedFiles(name) {
  return readdirSync(join(root, 'packages', name, 'src'), { recursive: true })
    .map((file) => `packages/${name}/src/${file}`)
    .filter((file) => file.endsWith('.ts') && !/\.(test|kit|d)\.ts$/.test(file))
    .filter((file) => !packages[name].notMutated.some((folder) => file.startsWith(folder)))
    .sort();
}
