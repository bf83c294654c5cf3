import type { Reporter, TestModule } from 'vitest/node';
import type { Outcome } from './play.js';

declare module 'vitest' {
  interface TaskMeta {
    /** What came of every moment of the story. */
    story?: readonly Outcome[];
  }
}

/** Prints the story: a line for each moment, below it what differs; the figure last. Other failures before it. */
export default class StoryReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    for (const error of errors) console.error(error);
    for (const module of modules) {
      for (const error of module.errors()) console.error(`${module.moduleId}: ${error.message}`);
      const tests = [...module.children.allTests()];
      for (const test of tests.filter((one) => one.result().state === 'failed' && !one.meta().story)) {
        console.error(`FAILS: ${test.fullName}\n  ${test.result().errors?.[0]?.message ?? ''}`);
      }
      for (const test of tests) if (test.meta().story) tell(test.meta().story ?? []);
    }
  }
}

function tell(outcomes: readonly Outcome[]): void {
  for (const outcome of outcomes) {
    console.log(`${outcome.differences.length === 0 ? 'ok     ' : 'DIFFERS'} ${linesOf(outcome)}`);
  }
  const right = outcomes.filter(({ differences }) => differences.length === 0).length;
  console.log('\nEvery moment was asked of the library, and of the adapter over an embedded FHIR server.');
  console.log(`${right} of ${outcomes.length} moments as expected`);
}

/** A moment, and what differs. */
export function linesOf({ moment, differences }: Outcome): string {
  const when = moment.at.replace('T', ' ').replace(':00+', ' +');
  return [`${when}  ${moment.title}`, ...differences.map((text) => `        ${text}`)].join('\n');
}
