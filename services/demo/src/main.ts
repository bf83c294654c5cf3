import { parseArgs } from 'node:util';
import { runDemo, type DemoOptions } from './demo.js';

/** What the command has to do with the world outside. */
export interface Outside extends Omit<DemoOptions, 'serve' | 'port'> {
  /** Whether somebody sits before it, who can end it. */
  readonly interactive: boolean;
  readonly printError: (text: string) => void;
}

const helpText = `dwellward-demo: see the adapter and the unit’s board work, on an embedded FHIR server and an invented unit; nothing to
set up.

Dwellward advises and never orders. Local policy, the device’s and the drug’s own instructions and the licensed
clinician come first.

Examples
  The unit’s due care, then an hour later with a low count and a dressing change; then the board, until Ctrl+C:
    dwellward-demo
  The same, and end where the board would begin:
    dwellward-demo --once
  Keep server, adapter and board running where no terminal is attached, too:
    dwellward-demo --serve --port 8080

Options
  --once    end after the two rounds, also in a terminal
  --serve   keep running until interrupted, also without a terminal
  --port N  where the board listens; a free one where absent
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
  const port = Number(options.port);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    outside.printError(`--port ${options.port}: a whole number from 0 to 65535.\nSee dwellward-demo --help.`);
    return 2;
  }
  const { interactive, ...rest } = outside;
  return runDemo({ ...rest, serve: options.serve || (interactive && !options.once), port });
}

function readOptions(args: readonly string[]) {
  const flag = { type: 'boolean', default: false } as const;
  try {
    const port = { type: 'string', default: '0' } as const;
    return parseArgs({
      args: [...args],
      options: { help: { ...flag, short: 'h' }, serve: flag, once: flag, port },
    }).values;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
