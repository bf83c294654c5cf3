import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { variables } from '@dwellward/adapter';
import { expect, it } from 'vitest';

const page = readFileSync(fileURLToPath(new URL('../../docs/hospital-engineer.md', import.meta.url)), 'utf8');

/** The row that a setting must have. */
const row = ([name, { help, allowed, preset, optional }]: [string, (typeof variables)[string]]) => {
  const absent = preset === undefined ? (optional ? 'optional' : '**required**') : `\`${preset}\``;
  return `| \`${name}\` | ${absent} | ${help} | ${allowed}. |`;
};

it('the page for the hospital engineer lists every setting as the adapter reads it, and no other', () => {
  const listed = page.split('\n').filter((line) => line.startsWith('| `DWELLWARD_'));
  expect(listed).toEqual(Object.entries(variables).map(row));
});
