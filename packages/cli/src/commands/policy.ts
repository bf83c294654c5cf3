import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { policyCheck } from './policy-check.js';
import { policyDiff } from './policy-diff.js';
import { policyList } from './policy-list.js';
import { policyNew } from './policy-new.js';
import { policyPreview } from './policy-preview.js';
import { policyReplay } from './policy-replay.js';
import { policyShow } from './policy-show.js';

export const policyHelp = `dwellward policy VERB

  policy show [PLAN ...]        every rule: what, on what, how often, when it holds, source, layer
  policy check PLAN             what is wrong with a plan, with path and cure
  policy diff A B               the rules that differ between two policies
  policy preview PLAN --on FILE which items of which patients a plan would move
  policy replay PLAN --on FILE  what a plan would have asked over a past period, beside the policy in use
  policy list                   the bundled policies and choices, with what each does
  policy new                    a starting plan of your own, or an example of each kind of rule

PLAN is a PlanDefinition file or the name of a bundled policy, laid over the bundled base.
dwellward policy VERB --help tells more, with examples.
`;

const verbs = {
  show: policyShow,
  check: policyCheck,
  diff: policyDiff,
  preview: policyPreview,
  replay: policyReplay,
  list: policyList,
  new: policyNew,
} as const;

export async function policy(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const [verb, ...rest] = args;
  if (verb === undefined || verb === '--help' || verb === '-h') {
    io.write(policyHelp);
    return verb === undefined ? 'usage' : 'done';
  }
  const command = Object.hasOwn(verbs, verb) ? verbs[verb as keyof typeof verbs] : undefined;
  if (!command) throw new CliError('usage', `There is no policy ${verb}: ${Object.keys(verbs).join(', ')}.`);
  return command(rest, io);
}
