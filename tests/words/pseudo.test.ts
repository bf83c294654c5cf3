import { dueCare, english, readRecords, type Language, type SentenceCode } from '@dwellward/core';
import { demoInstant, demoPolicyLayers, demoUnit, demoZone, oneLineSixtyDays } from '@dwellward/fixtures';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { pseudo } from '../../packages/core/src/words/pseudo.kit.js';
import { caseNames, readCase } from '../cases/read-case.js';
import { scenesOf } from '../story/play.js';
import { policyOf } from '../story/told.js';
import { faultsOf, forgotten, ownNames } from './outside.js';
import { outputsOf, previewOf, shiftOutputsOf, type Output, type Unit } from './outputs.js';

/** What is wrong with the outputs of a unit. */
function faultsIn(unit: Unit, outputs: readonly Output[]): string[] {
  const names = ownNames(unit);
  return outputs.flatMap((output) => faultsOf(output, names));
}

function demo(): Unit {
  const reading = readPolicy(demoPolicyLayers.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  const records = readRecords((demoUnit().entry ?? []).map(({ resource }) => ({ resource })));
  const when = { asOf: demoInstant, zone: demoZone };
  const cares = records.lines.map((line) => dueCare(line, reading.policy, when));
  return { records, cares, policy: reading.policy, when };
}

describe('in the pseudo-language nothing is said outside of its brackets, and all that is computed is the same', () => {
  it('of the demo unit', () => {
    const unit = demo();
    expect(faultsIn(unit, [...outputsOf(unit), ...shiftOutputsOf(unit), previewOf(unit)])).toEqual([]);
  }, 240_000);

  it('of sixty days of one line, at each of its moments', () => {
    const story = oneLineSixtyDays();
    const policy = policyOf(story);
    const scenes = scenesOf(story);
    const faults = scenes.flatMap(({ moment, record }, i) => {
      const records = readRecords(record.map((resource) => ({ resource })));
      const when = { asOf: moment.at, zone: story.zone };
      const cares = records.lines.map((line) => dueCare(line, policy, when));
      const unit = { records, cares, policy, when };
      // A shift and a sheet of 14 days take their time: of every tenth moment.
      const outputs = [...outputsOf(unit), ...(i % 10 === 0 ? shiftOutputsOf(unit) : [])];
      return faultsIn(unit, outputs).map((one) => `${moment.at}: ${one}`);
    });
    expect(faults).toEqual([]);
  }, 240_000);

  it.each(caseNames)('of the case %s', (name) => {
    const { entries, policy, expected } = readCase(name);
    const records = readRecords(entries);
    const when = { asOf: expected.asOf, zone: expected.zone };
    const cares = records.lines.map((line) => dueCare(line, policy, when));
    const unit = { records, cares, policy, when };
    expect(faultsIn(unit, [...outputsOf(unit), ...shiftOutputsOf(unit)])).toEqual([]);
  });
});

describe('a sentence that comes through no language', () => {
  const unit = demo();
  const names = ownNames(unit);
  const outputs = outputsOf(unit);

  /** The pseudo-language, which has forgotten one of its sentences. */
  const without = (code: SentenceCode): Language => ({
    ...pseudo,
    wordings: { ...pseudo.wordings, [code]: english.wordings[code] },
  });

  it.each([
    ['table-head', 'table', 'Line care due at'],
    ['things-to-put-right', 'table', 'things in the record'],
    ['due-state', 'table', 'overdue'],
    ['clock', 'table', 'Wed Nov'],
    ['activity-at', 'bundle', 'Dressing change'],
    ['item-is-due', 'bundle', 'counted from the last time'],
    ['feed-summary', 'calendar', 'Overdue'],
  ] as const)('%s is found in the %s', (code, name, words) => {
    const output = outputs.find((one) => one.name === name)!;
    expect(forgotten(output, output.in(pseudo), names)).toEqual([]);
    expect(forgotten(output, output.in(without(code)), names)).toEqual(
      expect.arrayContaining(words.split(' ')),
    );
  });

  it('is found where it was written beside the others', () => {
    const table = outputs.find((one) => one.name === 'table')!;
    const spoiled = `${table.in(pseudo)}Hold: no flush\n`;
    expect(forgotten(table, spoiled, names)).toEqual(['Hold', 'flush', 'no']);
  });
});
