import { calculators } from '@dwellward/calculators/catalog';
import { apply } from './commands/apply.js';
import { calc } from './commands/calc.js';
import { calendar } from './commands/calendar.js';
import { draw } from './commands/draw.js';
import { due } from './commands/due.js';
import { explain } from './commands/explain.js';
import { handover } from './commands/handover.js';
import { home } from './commands/home.js';
import { policy } from './commands/policy.js';
import { repair } from './commands/repair.js';
import { CliError, exitCodes } from './errors.js';
import type { Io } from './io.js';

export { CliError, exitCodes, type CliErrorCode } from './errors.js';
export type { Io } from './io.js';

const help = `dwellward: what care every central venous line needs, when, and why

  dwellward due FILE        due care of a FHIR Bundle or a bulk export
  dwellward explain FILE    why care of one line is due, and what would change it
  dwellward handover FILE   what one shift hands to the next, with supplies
  dwellward home FILE       a plain sheet for one patient and the family
  dwellward calendar FILE   due care of one patient as a calendar file
  dwellward draw FILE       the steps of a blood draw through a line, with their volumes
  dwellward repair FILE     whether a damaged line can be repaired, and the checklist
  dwellward policy VERB     show, check, diff, preview or begin a care policy
  dwellward apply PLAN      the CarePlan that PlanDefinition/$apply gives for one patient
  dwellward calc NAME       flush and lock volumes, counts, doses, ratios, with the working

dwellward COMMAND --help tells more, with examples.

It advises and never orders: local policy, the instructions of device and drug, and the licensed clinician come first.
`;

const commands = { apply, calc, calendar, draw, due, explain, handover, home, policy, repair } as const;

/** Runs the command and gives its exit code. Never throws. */
export async function run(args: readonly string[], io: Io): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    io.write(help);
    return name === undefined ? exitCodes.usage : exitCodes.done;
  }
  try {
    const command = Object.hasOwn(commands, name) ? commands[name as keyof typeof commands] : undefined;
    if (!command)
      throw new CliError('usage', `There is no command ${name}: ${Object.keys(commands).join(', ')}.`);
    return exitCodes[await command(rest, io)];
  } catch (error) {
    if (error instanceof CliError) {
      io.warn(`dwellward: ${error.message}\n`);
      if (error.code === 'usage') io.warn(`${helpCommand(args)} tells how.\n`);
      return exitCodes[error.code];
    }
    if (isArgumentError(error)) {
      io.warn(`dwellward ${name}: ${error.message}\n${helpCommand(args)} tells how.\n`);
      return exitCodes.usage;
    }
    io.warn(
      `dwellward: this should not have happened: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    );
    return exitCodes['internal-error'];
  }
}

/** The help that fits: the calculator's own for one that exists, else the command's. */
function helpCommand([name = '', next = '']: readonly string[]): string {
  const command = Object.hasOwn(commands, name) ? [name] : [];
  const calculator = name === 'calc' && Object.hasOwn(calculators, next) ? [next] : [];
  return ['dwellward', ...command, ...calculator, '--help'].join(' ');
}

function isArgumentError(error: unknown): error is Error {
  return error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS');
}
