import { dueCareOfEach, readRecords, renderTable, unitView, type AsOf } from '@dwellward/core';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import type { Policy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { caseNames, readCase, type Entry } from '../cases/read-case.js';
import { wardPolicy } from '../harm/burden.js';
import { at, zone } from '../harm/scenarios/bed.js';
import { drugs } from '../harm/scenarios/drugs.js';
import { emergencies } from '../harm/scenarios/emergencies.js';
import { lives } from '../harm/scenarios/lives.js';

// The board and the table of a terminal are two ways to say one thing: nothing that stands in the table may be missing
// from what the board is given to draw.

/** All that is said, without how it is laid out. */
function textsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  return value !== null && typeof value === 'object' ? Object.values(value).flatMap(textsIn) : [];
}

/** The pieces of a table: its signs and the columns between them are layout. */
function piecesOf(table: string): string[] {
  return table
    .replace(/\b(overdue|due|held|upcoming) (?=(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun) )/g, '$1  ')
    .replace(/\b(now|ago|in \d+ (?:min|h|d|days?)) (?=[A-Z])/g, '$1  ')
    .split('\n')
    .flatMap((row) => row.split(/\s{2,}/))
    .map((piece) => piece.replace(/^(?:!!|->|\|\||\.\.|\d+\.)\s/, '').trim())
    .filter((piece) => piece !== '' && !/^(?:!!|->|\|\||\.\.)$/.test(piece));
}

function missing(entries: readonly Entry[], policy: Policy, when: AsOf): string[] {
  const records = readRecords(entries.map(({ resource }) => ({ resource })));
  const cares = dueCareOfEach(records.lines, policy, when);
  const loosened = policy.loosened ?? [];
  const table = renderTable(records, cares, when, { colour: false, columns: 0, loosened });
  const said = textsIn(unitView(records, cares, policy, when))
    .join('\n')
    .replace(/\s+/g, ' ');
  return piecesOf(table).filter((piece) =>
    // A row’s reasons are one text in the table; a patient’s head has the reference, the unit and the bed in brackets.
    piece.split(/(?<=[.)]) |: |, | \(|\)/).some((part) => !said.includes(part.replace(/\s+/g, ' ').trim())),
  );
}

describe('the board says as much as the table', () => {
  it('of the demo unit', () => {
    const when = { asOf: demoInstant, zone: demoZone };
    const entries = (demoUnit().entry ?? []).map(({ resource }) => ({ resource }));
    expect(missing(entries, wardPolicy(), when)).toEqual([]);
  });

  it.each(caseNames)('of the case %s', (name) => {
    const { entries, expected, policy } = readCase(name);
    expect(missing(entries, policy, { asOf: expected.asOf, zone: expected.zone })).toEqual([]);
  });

  it.each([...emergencies, ...drugs, ...lives])('of the scenario $name', ({ record, asOf = at }) => {
    const entries = record.map((resource) => ({ resource }));
    expect(missing(entries, wardPolicy(), { asOf, zone })).toEqual([]);
  });
});
