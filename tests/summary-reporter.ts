import type { Reporter, TestModule } from 'vitest/node';

/** Ends a run with one plain line that any log reader understands. */
export default class SummaryReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    let [passed, failed, skipped] = [0, 0, 0];
    for (const module of modules) {
      // A file that could not be loaded holds no test and must not pass for none failed.
      if (module.state() === 'failed' && module.errors().length > 0) failed += 1;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed') passed += 1;
        else if (state === 'failed') failed += 1;
        else skipped += 1;
      }
    }
    console.log(`${passed} passed, ${failed + errors.length} failed, ${skipped} skipped`);
  }
}
