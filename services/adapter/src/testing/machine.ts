import type { Machine } from '../machine.js';

/** A machine for tests: sleeping moves its clock and takes no time. */
export interface TestMachine extends Machine {
  readonly slept: number[];
  /** Makes the time limit of the n-th call (from 1) pass at once. */
  expireCall(n: number): void;
}

export function testMachine(startMs = 0): TestMachine {
  let nowMs = startMs;
  let calls = 0;
  const slept: number[] = [];
  const expired = new Set<number>();
  return {
    slept,
    expireCall: (n) => void expired.add(n),
    now: () => nowMs,
    random: () => 0.5,
    sleep: async (milliseconds) => {
      slept.push(milliseconds);
      nowMs += milliseconds;
    },
    timeLimit: () => (expired.has(++calls) ? AbortSignal.abort() : new AbortController().signal),
  };
}
