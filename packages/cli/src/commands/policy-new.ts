import { oneLine } from '@dwellward/core/safe-text';
import { policyExamples, policyExamplesFsh, policyTemplate, policyTemplateFsh } from '@dwellward/policy';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';

export const policyNewHelp = `dwellward policy new [--examples] [--format fsh|json] [--title TITLE] [--url URL]

Writes a starting plan of your own to standard output: a PlanDefinition without a rule, which changes nothing until you
write one. It is a draft, and the sidecar refuses drafts.

  --examples  an example of each kind of rule instead, to copy from; each has a comment in its documentation. As they
              stand they are refused: sources and reasons are still to be written, and none is a recommendation
  --format    fsh (FHIR Shorthand, to be compiled; the default) or json (as FHIR has it)
  --title     what people call it
  --url       its canonical url, your own and without a version

In FSH a rule is about ten lines. The file holds the words that its rules are written in and compiles by itself: put it
into input/fsh/ of a folder, with the sushi-config.yaml that its first lines give.

Examples
  dwellward policy new --examples
  dwellward policy new --title "Line care of ward 3" > ward-3.fsh
  dwellward policy new --format json --url https://hospital.example/fhir/PlanDefinition/ward-3 > ward-3.json
  dwellward policy check ward-3.json
`;

export function policyNew(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values } = parseArgs({
    args,
    options: {
      examples: { type: 'boolean', default: false },
      format: { type: 'string', default: 'fsh' },
      title: { type: 'string' },
      url: { type: 'string' },
      help: { type: 'boolean', short: 'h' },
    },
  });
  if (values.help) {
    io.write(policyNewHelp);
    return Promise.resolve('done');
  }
  const { examples, format, title, url } = values;
  if (format !== 'fsh' && format !== 'json')
    throw new CliError('usage', `--format ${format}: use fsh or json.`);
  if (url !== undefined && !/^(https?:\/\/|urn:)[^\s|]+$/.test(url)) {
    throw new CliError('usage', `--url ${url}: an absolute url without blanks and without a version.`);
  }
  const named = {
    ...(title === undefined ? {} : { title: oneLine(title) }),
    ...(url === undefined ? {} : { url }),
  };
  const asFsh = examples ? policyExamplesFsh : policyTemplateFsh;
  const asJson = examples ? policyExamples : policyTemplate;
  io.write(format === 'fsh' ? asFsh(named) : `${JSON.stringify(asJson(named), null, 2)}\n`);
  return Promise.resolve('done');
}
