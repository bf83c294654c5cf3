import { bloodDraw, drawTests, hasDrawSteps, renderDraw, type DrawOptions } from '@dwellward/core';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { careOptions, reportUnreadable } from './care.js';
import { lumenOf, readOneLine, refused, plainText } from './one-line.js';

export const drawHelp = `dwellward draw FILE|FOLDER|- --line ID --tests LIST --at INSTANT --zone ZONE [options]

The steps of a blood draw through a line, in order, with their volumes: what stops, the discard, the tubes in the
order of draw, flush and lock, and the blood loss against the patient’s limit.

  --line            the line's Device, as Device/ID or ID
  --lumen           the lumen to draw from, by its name or its Device; needed where the line has several
  --tests           what is drawn, each with the mL of its tubes where known: coagulation=2.7,culture=10
                    one of ${drawTests.join(', ')}
  --drawn           an earlier draw, as INSTANT=ML, discard included; may be given several times
  --daily-percent   the unit's limit of blood loss in 24 hours, in percent of the blood volume
  --monthly-percent the same in 30 days
  --format          text (default) or json
  --at, --zone, --policy, --without, --only-policy, --fhir-version: as for dwellward due

Example
  dwellward draw unit.json --line cvc-1 --lumen red --tests culture=10,coagulation=2.7,blood-count=2.7 \\
    --drawn 2026-11-25T06:00:00+01:00=12 --at 2026-11-25T07:30:00+01:00 --zone Europe/Berlin

Exit codes: as for dwellward due, and
  6  worked out, but the draw takes more than may still be drawn today: the first line says so
`;

export async function draw(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      ...careOptions,
      line: { type: 'string' },
      lumen: { type: 'string' },
      tests: { type: 'string' },
      drawn: { type: 'string', multiple: true },
      'daily-percent': { type: 'string' },
      'monthly-percent': { type: 'string' },
      format: { type: 'string' },
    },
  });
  if (values.help) {
    io.write(drawHelp);
    return 'done';
  }
  const format = values.format ?? 'text';
  if (!['text', 'json'].includes(format))
    throw new CliError('usage', `--format ${format}: one of text, json.`);
  const tests = testsOf(values.tests);
  const draws = (values.drawn ?? []).map(drawnOf);
  const limit = limitOf(values['daily-percent'], values['monthly-percent']);
  const { line, policy, when, unreadable } = await readOneLine(
    positionals[0],
    values,
    'blood-sampling',
    hasDrawSteps,
    io,
  );
  const lumen = lumenOf(values.lumen, line);
  const options = { tests, draws, ...(lumen ? { lumen } : {}), ...(limit ? { limit } : {}) };
  const draw = refused(() => bloodDraw(line, options, policy, when), when);
  io.write(format === 'json' ? plainText(draw, when) : renderDraw(draw, line.name, when.zone));
  const read = reportUnreadable(unreadable, io);
  return draw.loss.within === false ? 'above-limit' : read;
}

function testsOf(given: string | undefined): DrawOptions['tests'] {
  if (!given) throw new CliError('usage', `--tests is missing: what is drawn, of ${drawTests.join(', ')}.`);
  return given.split(',').map((part) => {
    const [name = '', volumeMl, ...more] = part.trim().split('=');
    const test = drawTests.find((known) => known === name);
    if (!test || more.length > 0)
      throw new CliError('usage', `--tests ${part}: one of ${drawTests.join(', ')}, with =mL where known.`);
    return { test, ...(volumeMl === undefined ? {} : { volumeMl: numberOf('--tests', part, volumeMl) }) };
  });
}

function drawnOf(given: string): NonNullable<DrawOptions['draws']>[number] {
  const cut = given.lastIndexOf('=');
  if (cut < 0)
    throw new CliError('usage', `--drawn ${given}: an instant and mL, such as 2026-11-25T06:00:00+01:00=12.`);
  return { at: given.slice(0, cut), drawnMl: numberOf('--drawn', given, given.slice(cut + 1)) };
}

function numberOf(option: string, given: string, text: string): string {
  if (/^\d+(\.\d+)?$/.test(text)) return text;
  throw new CliError('usage', `${option} ${given}: “${text}” is not a volume in mL, such as 2.7.`);
}

function limitOf(daily: string | undefined, monthly: string | undefined): DrawOptions['limit'] {
  if (daily === undefined && monthly === undefined) return undefined;
  if (daily === undefined || monthly === undefined)
    throw new CliError('usage', '--daily-percent and --monthly-percent go together: give both or neither.');
  return { dailyPercent: daily, monthlyPercent: monthly };
}
