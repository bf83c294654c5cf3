import { parseArgs } from 'node:util';
import { policyTemplate } from '@dwellward/policy';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';

export const policyNewHelp = `dwellward policy new [--title TITLE] [--url URL]

Writes a starting plan of your own to standard output: a PlanDefinition with an example of each kind of rule, each with
a comment in its documentation. Keep what your unit decides, delete the rest; no rule in it is a recommendation.

  --title   what people call it
  --url     its canonical url, your own and without a version

Example
  dwellward policy new --title "Line care of ward 3" --url https://hospital.example/fhir/PlanDefinition/ward-3 > ward-3.json
  dwellward policy check ward-3.json
`;

export function policyNew(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values } = parseArgs({
    args,
    options: {
      title: { type: 'string' },
      url: { type: 'string' },
      help: { type: 'boolean', short: 'h' },
    },
  });
  if (values.help) {
    io.write(policyNewHelp);
    return Promise.resolve('done');
  }
  if (values.url !== undefined && !/^(https?:\/\/|urn:)[^\s|]+$/.test(values.url)) {
    throw new CliError('usage', `--url ${values.url}: an absolute url without blanks and without a version.`);
  }
  const plan = policyTemplate({
    ...(values.title === undefined ? {} : { title: values.title }),
    ...(values.url === undefined ? {} : { url: values.url }),
  });
  io.write(`${JSON.stringify(plan, null, 2)}\n`);
  return Promise.resolve('done');
}
