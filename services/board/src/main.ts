import { parseArgs } from 'node:util';
import { startBoard } from './server.js';
import { isSafe } from './sign-in/index.js';

/** What the command has to do with the world outside. */
export interface Outside {
  /** For what may stand in no list of processes: DWELLWARD_BOARD_CLIENT_SECRET. */
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly print: (text: string) => void;
  readonly printError: (text: string) => void;
  /** Resolves when the process is asked to end. */
  readonly interrupted: Promise<void>;
}

const help = `dwellward-board: the unit’s page in the browser, over an adapter that answers it (DWELLWARD_BOARD=on).

It advises and never orders. Local policy, the device’s and the drug’s own instructions and the licensed clinician
come first. Without --fhir it has no access control of its own: it listens on 127.0.0.1, for the browser of this machine.

Examples
  DWELLWARD_BOARD=on DWELLWARD_FHIR_URL=https://fhir.example/r4 DWELLWARD_ZONE=Europe/Berlin dwellward-adapter &
  dwellward-board --adapter http://127.0.0.1:8080 --port 8081

  With users signed in to the record system (SMART App Launch), behind a proxy that speaks TLS; the adapter beside it
  has DWELLWARD_BOARD_SIGN_IN=smart. The launch address is https://board.example/launch, the redirect address
  https://board.example/callback:
    dwellward-board --fhir https://fhir.example/r4 --client-id board --public-url https://board.example/

Options
  --adapter URL  where the adapter answers (default http://127.0.0.1:8080)
  --adapter-token FILE
                 the token that the adapter’s guard asks for (scopes board.read and board.write), read anew each time
  --port N       where to listen; 0 takes a free one (default 8081)
  --fhir URL     the FHIR server whose users sign in; may be repeated, the first is that of a launch from elsewhere
  --client-id ID what the board is called there; a secret of it in DWELLWARD_BOARD_CLIENT_SECRET
  --public-url   where browsers reach the board
  --scope TEXT   what is asked for, where the record system names it otherwise
  --host HOST    where to listen (default 127.0.0.1); only with --fhir
  --help         this text

Exit codes
  0  ended by a signal
  2  an option can’t be used, or the port can’t be listened on
`;

/** The command: serves the board until it is interrupted. @returns the exit code. */
export async function main(
  args: readonly string[],
  { environment, print, printError, interrupted }: Outside,
): Promise<number> {
  const options = readOptions(args, environment);
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

function readOptions(args: readonly string[], environment: Outside['environment']) {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: {
        adapter: { type: 'string', default: 'http://127.0.0.1:8080' },
        'adapter-token': { type: 'string' },
        port: { type: 'string', default: '8081' },
        fhir: { type: 'string', multiple: true },
        'client-id': { type: 'string' },
        'public-url': { type: 'string' },
        scope: { type: 'string' },
        host: { type: 'string' },
        help: { type: 'boolean', short: 'h', default: false },
      },
    });
    const { adapter, port, fhir = [], host, scope, help: asked } = values;
    if (!/^\d{1,5}$/.test(port) || Number(port) > 65_535)
      return `--port ${port}: a number from 0 to 65535 is wanted.`;
    for (const url of [adapter, ...fhir])
      if (!isAddress(url)) return `${url}: an http or https address is wanted.`;
    const [first, ...others] = fhir;
    const file = values['adapter-token'];
    // Tokens go there: of users, or of the board.
    if ((file !== undefined || fhir.length > 0) && !isSafe(new URL(adapter)))
      return `--adapter ${adapter}: tokens are sent there, so https, or a loopback address, is wanted.`;
    const basic = {
      ...{ adapterUrl: adapter, port: Number(port), help: asked },
      ...(file === undefined ? {} : { adapterTokenFile: file }),
    };
    const [id, publicUrl] = [values['client-id'], values['public-url']];
    if (first === undefined) {
      const idle = [id, publicUrl, scope, host].some((one) => one !== undefined);
      return idle ? '--client-id, --public-url, --scope, --host: they go with --fhir.' : basic;
    }
    if (id === undefined || publicUrl === undefined || !isAddress(publicUrl))
      return '--fhir: --client-id and --public-url, an http or https address, are wanted with it.';
    if (!isSafe(new URL(publicUrl)))
      return `--public-url ${publicUrl}: users sign in there, so https, or a loopback address, is wanted.`;
    const secret = environment['DWELLWARD_BOARD_CLIENT_SECRET'];
    const signIn = {
      fhirBases: [first, ...others] as const,
      client: { id, ...(secret ? { secret } : {}) },
      publicUrl,
      ...(scope === undefined ? {} : { scope }),
      ...(host === undefined ? {} : { host }),
    };
    return { ...basic, signIn };
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

function isAddress(text: string): boolean {
  return URL.canParse(text) && protocols.has(new URL(text).protocol);
}
