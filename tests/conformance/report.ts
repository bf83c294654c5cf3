import type { Reporter, TestModule } from 'vitest/node';

/** The records that were never made for us, each in a file of its own. */
const records = ['code-maps', 'codes-start', 'flowsheet', 'fhir-versions'];

/** What was checked, counted by the tests themselves, and what fails: `npm run conformance`. */
export default class ConformanceReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    const counts: Record<string, number> = {};
    let failed = errors.length;
    for (const module of modules) {
      failed += module.errors().length;
      for (const error of module.errors()) console.error(`${module.moduleId}: ${error.message}`);
      for (const test of module.children.allTests()) {
        for (const [name, value] of Object.entries(test.meta()))
          if (typeof value === 'number') counts[name] = (counts[name] ?? 0) + value;
        if (test.result().state !== 'failed') continue;
        failed += 1;
        console.error(`FAILS: ${test.fullName}\n  ${test.result().errors?.[0]?.message ?? ''}`);
      }
    }
    for (const error of errors) console.error(error);
    for (const name of records) {
      const module = modules.find(({ moduleId }) => moduleId.endsWith(`/${name}.test.ts`));
      const tests = [...(module?.children.allTests() ?? [])];
      const passed = tests.filter((test) => test.result().state === 'passed').length;
      const [about] = tests[0]?.fullName.split(' > ') ?? [];
      const state = passed === tests.length && passed > 0 ? 'holds  ' : 'FALLS  ';
      console.log(`${state} ${about ?? name}: ${passed} of ${tests.length}`);
      for (const test of tests) console.log(`          ${test.name}`);
    }
    const {
      packed = 0,
      written = 0,
      plans = 0,
      variants = 0,
      structural = 0,
      both = 0,
      first = 0,
      second = 0,
      profile = 0,
    } = counts;
    console.log(
      [
        `${packed} profiles, code systems, value sets and examples; ${written} resources that were written, ${plans} bundled plans: each by 2 validators and its profile`,
        `${structural} broken variants of R4: both validators agree on ${both}, one of them sees each of the rest`,
        `${variants} broken variants of the profiles: ${first} seen by the first validator, ${second} by the second, ${profile} by the profile; ${failed === 0 ? variants : 'not all'} of ${variants} caught`,
        `${failed} errors`,
      ].join('\n'),
    );
  }
}
