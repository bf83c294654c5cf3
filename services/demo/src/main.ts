import { parseArgs } from 'node:util';
import { runDemo, type DemoOptions } from './demo.js';

/** What the command has to do with the world outside. */
export interface Outside extends Omit<DemoOptions, 'serve'> {
  readonly printError: (text: string) => void;
}

const helpText = `dwellward-demo: see the adapter work, on an embedded FHIR server and an invented unit; nothing to set up.

Dwellward advises and never orders. Local policy, the device’s and the drug’s own instructions and the licensed
clinician come first.

Examples
  The unit’s due care, then an hour later with a low count and a dressing change:
    dwellward-demo
  The same, and keep server and adapter running to look around:
    dwellward-demo --serve

Options
  --serve   keep running until interrupted
  --help    this text

Exit codes
  0  done, or stopped by a signal
  1  a patient could not be brought in step, or a second run wrote something
  2  an option can’t be used
`;

/**
 * The command of the demonstration.
 * @returns the exit code: 0 done, 1 not everything could be brought in step, 2 wrong options.
 */
export async function main(args: readonly string[], outside: Outside): Promise<number> {
  const options = readOptions(args);
  if (typeof options === 'string') {
    outside.printError(`${options}\nSee dwellward-demo --help.`);
    return 2;
  }
  if (options.help) {
    outside.print(helpText);
    return 0;
  }
  return runDemo({ ...outside, serve: options.serve });
}

function readOptions(args: readonly string[]) {
  const flag = { type: 'boolean', default: false } as const;
  try {
    return parseArgs({ args: [...args], options: { help: { ...flag, short: 'h' }, serve: flag } }).values;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
