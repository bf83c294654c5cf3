import { parseArgs as parse } from 'node:util';
import { nearest } from '@dwellward/policy';
import { CliError } from './exit-codes.js';

/** Reads options as `parseArgs` of Node does; of one that is not known it says which is meant. */
export const parseArgs = ((config) => {
  try {
    return parse(config);
  } catch (cause) {
    const unknown = unknownOption(config?.args ?? [], Object.keys(config?.options ?? {}));
    if (unknown === undefined) throw cause;
    const known = Object.keys(config?.options ?? {}).map((name) => `--${name}`);
    throw new CliError('usage', `There is no option ${unknown}. ${meant(unknown, known)}`, { cause });
  }
}) as typeof parse;

function unknownOption(args: readonly string[], known: readonly string[]): string | undefined {
  const end = args.indexOf('--');
  return args
    .slice(0, end < 0 ? args.length : end)
    .map((arg) => arg.split('=')[0] ?? arg)
    .find((arg) => {
      if (!arg.startsWith('--') || arg === '--') return false;
      const name = arg.slice(2);
      return !known.includes(name) && !(name.startsWith('no-') && known.includes(name.slice(3)));
    });
}

const mostNames = 20;

/** What was meant by a name that is not known, or which names there are. */
export function meant(given: string, known: readonly string[], what = 'There are'): string {
  // A reference is often given without its type.
  const tails = known.map((one) => one.slice(one.lastIndexOf('/') + 1));
  const close = nearest(given, known) ?? nearest(given, tails);
  if (close !== undefined) return `Did you mean ${close}?`;
  if (known.length === 0) return `${what} none.`;
  const rest = known.length - mostNames;
  return `${what} ${known.slice(0, mostNames).join(', ')}${rest > 0 ? ` and ${rest} more` : ''}.`;
}
