import { parseArgs } from 'node:util';
import { startBoard } from './server.js';

/** What the command has to do with the world outside. */
export interface Outside {
  readonly print: (text: string) => void;
  readonly printError: (text: string) => void;
  /** Resolves when the process is asked to end. */
  readonly interrupted: Promise<void>;
}

const help = `dwellward-board: the unit’s page in the browser, over an adapter that answers it (DWELLWARD_BOARD=on).

It advises and never orders. Local policy, the device’s and the drug’s own instructions and the licensed clinician
come first. It has no access control of its own: it listens on 127.0.0.1, for the browser of this machine.

Examples
  DWELLWARD_BOARD=on DWELLWARD_FHIR_URL=https://fhir.example/r4 DWELLWARD_ZONE=Europe/Berlin dwellward-adapter &
  dwellward-board --adapter http://127.0.0.1:8080 --port 8081

Options
  --adapter URL  where the adapter answers (default http://127.0.0.1:8080)
  --port N       where to listen; 0 takes a free one (default 8081)
  --help         this text

Exit codes
  0  ended by a signal
  2  an option can’t be used, or the port can’t be listened on
`;

/** The command: serves the board until it is interrupted. @returns the exit code. */
export async function main(
  args: readonly string[],
  { print, printError, interrupted }: Outside,
): Promise<number> {
  const options = readOptions(args);
  if (typeof options === 'string') {
    printError(`${options}\nSee dwellward-board --help.`);
    return 2;
  }
  if (options.help) {
    print(help);
    return 0;
  }
  try {
    const board = await startBoard(options);
    print(`The unit’s board: ${board.url}`);
    await interrupted;
    await board.close();
    return 0;
  } catch (error) {
    const { code } = error as { code?: unknown };
    if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error;
    printError(`--port ${options.port}: can’t listen there (${String(code)}).`);
    return 2;
  }
}

const protocols: ReadonlySet<string> = new Set(['http:', 'https:']);

function readOptions(args: readonly string[]) {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: {
        adapter: { type: 'string', default: 'http://127.0.0.1:8080' },
        port: { type: 'string', default: '8081' },
        help: { type: 'boolean', short: 'h', default: false },
      },
    });
    const { adapter, port, help: asked } = values;
    if (!/^\d{1,5}$/.test(port) || Number(port) > 65_535)
      return `--port ${port}: a number from 0 to 65535 is wanted.`;
    if (!URL.canParse(adapter) || !protocols.has(new URL(adapter).protocol))
      return `--adapter ${adapter}: an http or https address is wanted.`;
    return { adapterUrl: adapter, port: Number(port), help: asked };
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
