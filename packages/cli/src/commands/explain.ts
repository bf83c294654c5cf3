import { parseArgs } from 'node:util';
import {
  explain as explainItem,
  repairsOn,
  type DueItem,
  type LineCare,
  type LumenFact,
} from '@dwellward/core';
import { activityCodes, displayOf } from '@dwellward/profiles';
import { CliError, type exitCodes } from '../errors.js';
import type { Io } from '../io.js';
import { careOptions, computeCare, reportUnreadable, type Care } from './care.js';

export const explainHelp = `dwellward explain FILE|FOLDER|- --line ID --at INSTANT --zone ZONE [options]

Why care is due: the rule, its source, the facts with their references, and what would change it.

  --line        the line's Device, as Device/ID or ID
  --activity    one activity only, such as dressing-change
  --at, --zone, --policy, --only-policy: as for dwellward due

Example
  dwellward explain unit.json --line Device/cvc-1 --activity dressing-change \\
    --at 2026-11-25T07:30:00+01:00 --zone Europe/Berlin
`;

export async function explain(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { ...careOptions, line: { type: 'string' }, activity: { type: 'string' } },
  });
  if (values.help) {
    io.write(explainHelp);
    return 'done';
  }
  if (!values.line) throw new CliError('usage', '--line is missing: the Device of the line to explain.');
  const activities = activityCodes;
  // A slip of the pen must not read as “nothing is asked for”.
  if (values.activity && !activities.some((code) => code === values.activity))
    throw new CliError('usage', `--activity ${values.activity}: one of ${activities.join(', ')}.`);
  const care = await computeCare(positionals[0], values, io);
  const found = care.cares.find(({ line }) => line === values.line || line === `Device/${values.line}`);
  if (!found) {
    const known = care.cares.map(({ line }) => line).join(', ');
    throw new CliError(
      'usage',
      `--line ${values.line}: no such line in the input. Lines: ${known || 'none'}.`,
    );
  }
  const items = found.items.filter(({ activity }) => !values.activity || activity === values.activity);
  const record = care.records.lines.find(({ ref }) => ref === found.line);
  io.write(`${record?.name ?? found.line} (${found.line}), ${found.patient}, at ${care.when.asOf}\n`);
  for (const { at, lumen, ref } of record ? repairsOn(record, care.when) : []) {
    const name = record?.lumens.find((one) => one.ref === lumen)?.name;
    io.write(`repaired ${at}${name === undefined ? '' : `, ${name}`} [${ref}]\n`);
  }
  if (!found.inPlace) {
    const still =
      found.closed === 'not-inserted-yet'
        ? 'What prepares the insertion is due.'
        : 'What follows the removal is still due.';
    const rest = found.items.length === 0 ? 'Nothing is due.' : still;
    const planned = found.plannedFor ? ` Planned for ${found.plannedFor}.` : '';
    io.write(`\nNot in place: ${found.closed?.replaceAll('-', ' ')}.${planned} ${rest}\n`);
  } else if (items.length === 0)
    io.write(`\nNothing is asked for${values.activity ? ` of ${values.activity}` : ''} by this policy.\n`);
  for (const item of items) io.write(`\n${itemText(item, care, found.lumens)}`);
  for (const issue of found.issues)
    io.write(`\nIn the record: ${issue.resource} ${issue.path}: ${issue.message}\n`);
  return reportUnreadable(care.unreadable, io);
}

function itemText(item: DueItem, { policy }: Care, lumens: LineCare['lumens']): string {
  const why = explainItem(item, policy, lumens);
  const list = (head: string, lines: readonly string[]) =>
    lines.length === 0 ? [] : [`  ${head}`, ...lines.map((line) => `    - ${line}`)];
  const steps = item.work.filter(({ kind }) => kind === 'step').map(({ text }) => text);
  return [
    `${displayOf('lineCareActivity', item.activity)}, ${item.target.name}: ${item.state}`,
    `  may be done from ${item.opens}, due by ${item.dueBy}`,
    `  rule ${why.rule.id}: ${why.rule.title} (${why.rule.schedule})`,
    `    ${why.rule.layer}, ${why.rule.plan}`,
    ...why.replaced.map(({ schedule, layer, plan }) => `    in place of ${schedule} of ${layer}, ${plan}`),
    ...(why.rule.condition ? [`    holds while ${why.rule.condition}`] : []),
    `  ${why.countedFrom}`,
    ...list(
      'source',
      why.sources.map(({ text, url }) => (url ? `${text} <${url}>` : text)),
    ),
    ...list('also published, or why it differs', why.notes),
    ...list(
      'facts',
      why.facts.map(
        ({ fact, value, refs, since, remark }) =>
          `${fact} = ${value}${since ? ` since ${since}` : ''}${refs.length > 0 ? ` [${refs.join(', ')}]` : ''}${remark ? `: ${remark}` : ''}`,
      ),
    ),
    ...list('the lumen', why.lumen ? [why.lumen, ...why.lumen.also].map(lumenText) : []),
    ...list(
      'other rules that hold',
      why.others.map(({ id, title, dueBy }) => `${id}: ${title}, due by ${dueBy}`),
    ),
    ...list(
      'switched off here',
      why.switchedOff.map(
        ({ id, title, schedule, by, notes }) =>
          `${id}: ${title} (${schedule}), by ${by}${notes.length > 0 ? `: ${notes.join(' ')}` : ''}`,
      ),
    ),
    ...list('mind', why.remarks),
    ...(steps.length > 0 ? ['  steps', ...steps.map((text, i) => `    ${i + 1}. ${text}`)] : []),
    ...list(
      'take',
      item.work.filter(({ kind }) => kind !== 'step').map(({ text }) => text),
    ),
    ...list('what would change it', why.wouldChange),
    '',
  ].join('\n');
}

function lumenText({ state, since, because, why }: LumenFact): string {
  const refs = because.length > 0 ? ` [${because.join(', ')}]` : '';
  return `${displayOf('lumenState', state).toLowerCase()}${since ? ` since ${since}` : ''}${refs}: ${why}`;
}
