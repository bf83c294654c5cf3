import { homeSheet, renderHomeHtml, renderHomeText } from '@dwellward/core';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { careOptions, computeCare, reportUnreadable } from './care.js';
import { patientOf } from './patient.js';

export const homeHelp = `dwellward home FILE|FOLDER|- --patient ID --at INSTANT --zone ZONE [options]

A sheet in plain words for a patient and the family: what to do on which of the next 14 days, what to watch
for and whom to call, what always and never to do, what to bring. Phone numbers are lines to fill in.

  --patient     the patient, as Patient/ID or ID
  --format      text (default) or html, one page that needs nothing else, to print
  --at, --zone, --policy, --without, --only-policy, --fhir-version: as for dwellward due

A nurse goes through it with the patient: it does not know what they were taught.

Example
  dwellward home unit.json --patient spindle-wagtail --at 2026-11-25T07:30:00+01:00 \\
    --zone Europe/Berlin --format html > home.html

Exit codes: as for dwellward due
`;

export async function home(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { ...careOptions, patient: { type: 'string' }, format: { type: 'string' } },
  });
  if (values.help) {
    io.write(homeHelp);
    return 'done';
  }
  const format = values.format ?? 'text';
  if (!['text', 'html'].includes(format))
    throw new CliError('usage', `--format ${format}: one of text, html.`);
  if (positionals.length > 1)
    throw new CliError('usage', `One input at a time; too many: ${positionals.slice(1).join(' ')}.`);
  const { records, cares, policy, when, unreadable } = await computeCare(positionals[0], values, io);
  const sheet = homeSheet(records, cares, policy, when, patientOf(values.patient, records));
  io.write(format === 'html' ? renderHomeHtml(sheet) : renderHomeText(sheet));
  return reportUnreadable(unreadable, io);
}
