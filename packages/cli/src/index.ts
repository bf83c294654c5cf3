import { readFile } from 'node:fs/promises';
import { forTerminal, oneLine, safeJson } from '@dwellward/core/safe-text';
import { CliError, exitCodes } from './exit-codes.js';
import type { Io } from './io.js';
import { systemRefusal } from './system-errors.js';

export { CliError, exitCodes, type CliErrorCode } from './exit-codes.js';
export type { Io } from './io.js';
export { systemRefusal, type SystemRefusal } from './system-errors.js';

const help = `dwellward: what care every central venous line needs, when, and why

  dwellward due FILE        due care of a FHIR Bundle or a bulk export
  dwellward explain FILE    why care of one line is due, and what would change it
  dwellward handover FILE   what one shift hands to the next, with supplies
  dwellward home FILE       a plain sheet for one patient and the family
  dwellward calendar FILE   due care of one patient as a calendar file
  dwellward draw FILE       the steps of a blood draw through a line, with their volumes
  dwellward repair FILE     whether a damaged line can be repaired, and the checklist
  dwellward policy VERB     show, check, diff, preview or begin a care policy
  dwellward figures FILE    line days, proposed infections and rates of a unit over a time
  dwellward codes FILE      every code of a record, what each is read as, and a map of the rest to fill in
  dwellward apply PLAN      the CarePlan that PlanDefinition/$apply gives for one patient
  dwellward calc NAME       flush and lock volumes, counts, doses, ratios, with the working

dwellward COMMAND --help tells more, with examples; dwellward --version says which it is.

It advises and never orders: local policy, the instructions of device and drug, and the licensed clinician come first.
`;

type Command = (args: string[], io: Io) => Promise<keyof typeof exitCodes>;

// Each is loaded when it is asked for: the whole of it takes most of a second.
const commands = {
  apply: async (): Promise<Command> => (await import('./commands/apply.js')).apply,
  calc: async (): Promise<Command> => (await import('./commands/calc.js')).calc,
  calendar: async (): Promise<Command> => (await import('./commands/calendar.js')).calendar,
  codes: async (): Promise<Command> => (await import('./commands/codes.js')).codes,
  draw: async (): Promise<Command> => (await import('./commands/draw.js')).draw,
  due: async (): Promise<Command> => (await import('./commands/due.js')).due,
  explain: async (): Promise<Command> => (await import('./commands/explain.js')).explain,
  figures: async (): Promise<Command> => (await import('./commands/figures.js')).figures,
  handover: async (): Promise<Command> => (await import('./commands/handover.js')).handover,
  home: async (): Promise<Command> => (await import('./commands/home.js')).home,
  policy: async (): Promise<Command> => (await import('./commands/policy.js')).policy,
  repair: async (): Promise<Command> => (await import('./commands/repair.js')).repair,
} as const;

/** The same outside world, to which nothing goes that a terminal would obey, whatever the input holds. */
function guarded(io: Io): Io {
  return {
    ...io,
    stdin: io.stdin,
    // JSON is data: what it holds is escaped, and nothing of it changed.
    write: (text) => io.write(forTerminal(text.startsWith('{') ? safeJson(text) : text, io.colour)),
    // Progress begins its line anew.
    warn: (text) => io.warn(text.startsWith('\r') ? `\r${forTerminal(text.slice(1))}` : forTerminal(text)),
  };
}

/** Runs the command and gives its exit code. Never throws. */
export async function run(args: readonly string[], given: Io): Promise<number> {
  const io = guarded(given);
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    io.write(help);
    return name === undefined ? exitCodes.usage : exitCodes.done;
  }
  try {
    if (name === '--version' || name === '-V') {
      io.write(`dwellward ${await version()}\n`);
      return exitCodes.done;
    }
    if (!Object.hasOwn(commands, name)) {
      const { meant } = await import('./args.js');
      throw new CliError('usage', `There is no command ${name}. ${meant(name, Object.keys(commands))}`);
    }
    const command = await commands[name as keyof typeof commands]();
    return exitCodes[await command(rest, io)];
  } catch (error) {
    return ended(error, args, io);
  }
}

async function version(): Promise<string> {
  const text = await readFile(new URL('../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { readonly version: string }).version;
}

/** The same message, with what was typed on one line wherever it is named: a file may be called anything. */
function onOneLine(message: string, args: readonly string[]): string {
  const typed = args.flatMap((arg) => [arg, arg.slice(arg.indexOf('=') + 1), arg.replace(/^--?/, '')]);
  return typed.reduce(
    (text, one) => (one === oneLine(one) ? text : text.replaceAll(one, oneLine(one))),
    message,
  );
}

/** Says what went wrong in plain words, and gives the exit code of it. */
async function ended(error: unknown, args: readonly string[], given: Io): Promise<number> {
  const [name = ''] = args;
  const io = { ...given, warn: (text: string) => given.warn(onOneLine(text, args)) };
  if (error instanceof CliError) {
    io.warn(`dwellward: ${error.message}\n`);
    if (error.code === 'usage') io.warn(`${await helpCommand(args)} tells how.\n`);
    return exitCodes[error.code];
  }
  if (isArgumentError(error)) {
    io.warn(`dwellward ${name}: ${error.message}\n${await helpCommand(args)} tells how.\n`);
    return exitCodes.usage;
  }
  const refused = systemRefusal(error);
  if (refused) {
    io.warn(`dwellward: ${refused.words}\n`);
    return exitCodes[refused.code];
  }
  io.warn(
    `dwellward: this should not have happened: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
  );
  return exitCodes['internal-error'];
}

/** The help that fits: the calculator's own for one that exists, else the command's. */
async function helpCommand([name = '', next = '']: readonly string[]): Promise<string> {
  const command = Object.hasOwn(commands, name) ? [name] : [];
  const calculators = name === 'calc' ? (await import('@dwellward/calculators/catalog')).calculators : {};
  return ['dwellward', ...command, ...(Object.hasOwn(calculators, next) ? [next] : []), '--help'].join(' ');
}

function isArgumentError(error: unknown): error is Error {
  return error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS');
}
