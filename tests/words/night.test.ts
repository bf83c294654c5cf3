import { dueCare, english, readRecords } from '@dwellward/core';
import { demoInstant, demoPolicyLayers, demoUnit, demoZone, oneLineSixtyDays } from '@dwellward/fixtures';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { caseNames, readCase } from '../cases/read-case.js';
import { scenesOf } from '../story/play.js';
import { policyOf } from '../story/told.js';
import { humanTexts, ownNames } from './outside.js';
import { outputsOf, previewOf, shiftOutputsOf, type Output, type Unit } from './outputs.js';

// What a nurse reads at three in the morning holds no word of a machine. Each row: what must not be seen, and why.
const machineWords: readonly (readonly [string, RegExp])[] = [
  ['a time with T and offset', /\d{4}-\d\d-\d\dT\d\d/],
  ['a date as a machine writes it', /(?<![\w/.-])\d{4}-\d\d-\d\d(?![\w-])/],
  ['a unit in UCUM', /\bCel\b|\[degF\]|10\*\d|\{\w+\}|\[Ch\]/],
  ['an expression', /%\w+\.\w|\.exists\(\)|\.not\(\)/],
  ['an empty place', /\bundefined\b|\bnull\b|\bNaN\b|, ,|: ;|\(\)|for ,|: \.|\[object/],
  ['the name of a lumen said twice', /\b[Ll]umen (?:the )?lumen\b/],
  ['a negative that asks for something', /Irrigate and clamp no other/],
];

/** A word with a capital in it, or two words tied by a hyphen that are a code: not where the record or a plan is named. */
const code = /\b[a-z]+[a-z0-9]*[A-Z]\w*\b/;

/** A text without references, canonical urls, and what stands in brackets behind “rule”. */
function withoutNames(text: string): string {
  return text
    .replace(/<[^>\n]*>/g, ' ')
    .replace(/https?:\/\/\S+/g, ' ')
    .replace(/\b[A-Z][A-Za-z]+\/[A-Za-z0-9\-.]+/g, ' ')
    .replace(/\b[A-Z][A-Za-z]+(?:\.[A-Za-z[\]x\d]+)+/g, ' ')
    .replace(/\brule [a-z0-9-]+/g, ' ');
}

function faultsOf(unit: Unit, outputs: readonly Output[]): string[] {
  const names = ownNames(unit);
  return outputs.flatMap((output) =>
    humanTexts(output.kind, output.in(english)).flatMap((given) => {
      const text = withoutNames(given);
      return [
        ...machineWords.flatMap(([what, pattern]) => {
          const found = pattern.exec(text);
          return found ? [`${output.name}: ${what}: ${around(text, found.index)}`] : [];
        }),
        ...[...text.matchAll(new RegExp(code, 'g'))]
          .filter(([word]) => !names.has(word) && !known.has(word))
          .map(({ index }) => `${output.name}: a name of a program: ${around(text, index)}`),
      ];
    }),
  );
}

/** Words of the trade that have a capital within. */
const known: ReadonlySet<string> = new Set(['mL', 'pH', 'mmHg', 'mOsm', 'epic3']);

function around(text: string, at: number): string {
  return text.slice(Math.max(0, at - 40), at + 40).replace(/\s+/g, ' ');
}

describe('C19: what a nurse reads at three in the morning holds no word of a machine', () => {
  it('C19: over the demo unit', () => {
    const reading = readPolicy(demoPolicyLayers.map((name) => bundledPlan(name)));
    if (!reading.ok) throw new Error('The layers of the demo are refused.');
    const records = readRecords((demoUnit().entry ?? []).map(({ resource }) => ({ resource })));
    const when = { asOf: demoInstant, zone: demoZone };
    const cares = records.lines.map((line) => dueCare(line, reading.policy, when));
    const unit = { records, cares, policy: reading.policy, when };
    expect(faultsOf(unit, [...outputsOf(unit), ...shiftOutputsOf(unit), previewOf(unit)])).toEqual([]);
  }, 240_000);

  it('C19: over sixty days of one line, at each of its moments', () => {
    const story = oneLineSixtyDays();
    const policy = policyOf(story);
    const faults = scenesOf(story).flatMap(({ moment, record }) => {
      const records = readRecords(record.map((resource) => ({ resource })));
      const when = { asOf: moment.at, zone: story.zone };
      const cares = records.lines.map((line) => dueCare(line, policy, when));
      const unit = { records, cares, policy, when };
      return faultsOf(unit, outputsOf(unit)).map((one) => `${moment.at}: ${one}`);
    });
    expect(faults).toEqual([]);
  }, 240_000);

  it.each(caseNames)('C19: of the case %s', (name) => {
    const { entries, policy, expected } = readCase(name);
    const records = readRecords(entries);
    const when = { asOf: expected.asOf, zone: expected.zone };
    const cares = records.lines.map((line) => dueCare(line, policy, when));
    const unit = { records, cares, policy, when };
    expect(faultsOf(unit, [...outputsOf(unit), ...shiftOutputsOf(unit)])).toEqual([]);
  });
});
