import * as calculators from '@dwellward/calculators';
import * as core from '@dwellward/core';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import * as figures from '@dwellward/figures';
import * as policy from '@dwellward/policy';
import * as profiles from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { publicFunctions, runExample } from './examples.js';

// Examples of core go on from README’s: these are its names, over the demo unit.
const { entry = [] } = demoUnit();
const ours = policy.defaultPolicy();
const when = { asOf: demoInstant, zone: demoZone };
const records = core.readRecords(entry);
const cares = records.lines.map((line) => core.dueCare(line, ours, when));
const readme = { entry, policy: ours, when, records, cares };

const packages = {
  calculators: { ...calculators },
  profiles: { ...profiles },
  policy: { ...profiles, ...policy },
  core: { ...profiles, ...policy, ...core, ...readme },
  figures: { ...figures },
};

const offered = publicFunctions(Object.keys(packages));

describe.each(Object.entries(packages))('%s', (name, scope) => {
  const functions = offered.get(name) ?? [];

  it('has an example for every public function', () => {
    expect(functions.length).toBeGreaterThan(10);
    expect(functions.filter(({ example }) => example === undefined).map((one) => one.name)).toEqual([]);
  });

  it.each(functions.filter(({ example }) => example !== undefined))(
    '$name: its example does what it says',
    async ({ name: called, example = '' }) => {
      expect(example).toContain(called);
      const held = await runExample(example, scope, (value, said) => expect(value).toEqual(said));
      expect(held, 'a value that is said').toBeGreaterThan(0);
    },
  );
});
