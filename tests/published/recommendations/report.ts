import type { Reporter, TestModule } from 'vitest/node';

/** Says nothing but what fails: the report itself is printed by the test, and its figure is the last line. */
export default class CoverageReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    for (const module of modules) {
      for (const error of module.errors()) console.error(`${module.moduleId}: ${error.message}`);
      for (const test of module.children.allTests()) {
        if (test.result().state === 'failed') {
          console.error(`FAILS: ${test.fullName}\n  ${test.result().errors?.[0]?.message ?? ''}`);
        }
      }
    }
    for (const error of errors) console.error(error);
  }
}
