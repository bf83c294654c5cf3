import {
  dueCare,
  handover,
  homeSheet,
  instantMs,
  readRecords,
  renderHandover,
  renderHomeHtml,
  renderHomeText,
  type Handover,
  type LineCare,
  type Records,
  type ShiftItem,
  type Supplies,
} from '@dwellward/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { entriesOf, instantText, runs, units, whenOf, type Unit } from '../properties/generators.js';
import { bundledPolicy, widePolicy } from '../properties/policies.js';
import { demo, elementsOf } from './support.js';
import { said } from '../said.js';

const policy = widePolicy();
const bundled = bundledPolicy();
const hour = 3_600_000;
const shiftHours = fc.constantFrom(1, 8, 12, 24);

interface Case {
  readonly records: Records;
  readonly cares: readonly LineCare[];
  readonly answer: Handover;
}

function caseOf(unit: Unit, hours: number): Case {
  const records = readRecords(entriesOf(unit.resources));
  const when = whenOf(unit);
  const cares = records.lines.map((line) => dueCare(line, policy, when));
  const shift = { from: when.asOf, to: instantText(unit.asOfMs + hours * hour), zone: unit.zone };
  return { records, cares, answer: handover(records, cares, policy, shift) };
}

const linesOf = ({ patients }: Handover) => patients.flatMap(({ lines }) => lines);
const counted = ({ overdue, due, held }: ReturnType<typeof linesOf>[number]) => [...overdue, ...due, ...held];

/** The same sums, worked out the slow way: in thousandths of a millilitre, from the items alone. */
function sumsOf(items: readonly ShiftItem[]) {
  const work = items.flatMap((item) => item.work);
  const volume = (kind: string) =>
    work
      .filter((one) => one.kind === kind)
      .reduce((sum, { value }) => sum + Math.round(Number(value) * 1000), 0);
  return {
    supplies: work.filter(({ kind }) => kind === 'supply' || kind === 'thrombolytic-dose').length,
    gloves: work.filter(({ kind, text }) => kind === 'supply' && said([text]).join() === 'gloves').length,
    syringes: work.filter(({ kind }) => kind === 'syringe-size').length,
    flushes: work.filter(({ kind }) => kind === 'flush-volume').length,
    locks: work.filter(({ kind }) => kind === 'lock-volume').length,
    flush: volume('flush-volume'),
    lock: volume('lock-volume'),
  };
}

function sumsIn({ counts, syringes, lumens, flushMl, lockMl }: Supplies): ReturnType<typeof sumsOf> {
  const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);
  const thousandths = (ml: string) => Math.round(Number(ml) * 1000);
  // The total is the sum of the lumens’ own.
  expect(thousandths(flushMl)).toBe(sum(lumens.map((one) => thousandths(one.flushMl))));
  expect(thousandths(lockMl)).toBe(sum(lumens.map((one) => thousandths(one.lockMl))));
  return {
    supplies: sum(counts.map(({ count }) => count)),
    gloves: sum(counts.filter(({ text }) => said([text]).join() === 'gloves').map(({ count }) => count)),
    syringes: sum(syringes.map(({ count }) => count)),
    flushes: sum(lumens.map((one) => one.flushes)),
    locks: sum(lumens.map((one) => one.locks)),
    flush: thousandths(flushMl),
    lock: thousandths(lockMl),
  };
}

describe('for any record', () => {
  it('supplies are the sums of their parts: of items, lines, patients', () => {
    let syringes = 0;
    fc.assert(
      fc.property(units, shiftHours, (unit, hours) => {
        const { answer } = caseOf(unit, hours);
        for (const line of linesOf(answer)) expect(sumsIn(line.supplies)).toEqual(sumsOf(counted(line)));
        for (const one of answer.patients)
          expect(sumsIn(one.supplies)).toEqual(sumsOf(one.lines.flatMap(counted)));
        expect(sumsIn(answer.supplies)).toEqual(sumsOf(linesOf(answer).flatMap(counted)));
        syringes += sumsIn(answer.supplies).syringes;
      }),
      runs(0.35),
    );
    expect(syringes).toBeGreaterThan(20);
  });

  it('nothing that is due in the shift is missing, and nothing stands in two lists', () => {
    let expected = 0;
    fc.assert(
      fc.property(units, shiftHours, (unit, hours) => {
        const { cares, answer } = caseOf(unit, hours);
        const toMs = unit.asOfMs + hours * hour;
        for (const care of cares) {
          const line = linesOf(answer).find((one) => one.line === care.line);
          const open = care.items.filter(({ dueBy }) => instantMs(dueBy) < toMs).map(({ id }) => id);
          if (!care.inPlace) continue;
          const listed = counted(line!).filter(({ kind }) => kind === 'open');
          expect(listed.map(({ id }) => id).sort()).toEqual(open.sort());
          for (const { dueBy } of line!.overdue) expect(instantMs(dueBy)).toBeLessThan(unit.asOfMs);
          for (const { dueBy } of line!.due) {
            expect(instantMs(dueBy)).toBeGreaterThanOrEqual(unit.asOfMs);
            expect(instantMs(dueBy)).toBeLessThan(toMs);
          }
          const missed = new Set(line!.missed.map(({ id }) => id));
          expect(line!.overdue.filter(({ id }) => missed.has(id))).toEqual(line!.missed);
          expect(line!.holds).toEqual(care.holds);
          expected += line!.due.filter(({ kind }) => kind === 'expected').length;
        }
      }),
      runs(0.35),
    );
    expect(expected).toBeGreaterThan(10);
  });

  it('emergencies stand before all else', () => {
    let seen = 0;
    fc.assert(
      fc.property(units, (unit) => {
        const { answer } = caseOf(unit, 12);
        const urgent = answer.patients.map(({ emergency }) => emergency);
        expect(urgent).toEqual([...urgent].sort((a, b) => Number(b) - Number(a)));
        for (const { overdue, due } of linesOf(answer))
          for (const list of [overdue, due]) {
            const stat = list.map(({ priority }) => priority === 'stat');
            expect(stat).toEqual([...stat].sort((a, b) => Number(b) - Number(a)));
            seen += stat.filter(Boolean).length;
          }
      }),
      runs(1.5),
    );
    expect(seen).toBeGreaterThan(0);
  });

  it('the order of the resources changes nothing', () => {
    fc.assert(
      fc.property(units, (unit) => {
        const text = renderHandover(caseOf(unit, 12).answer, { colour: false, columns: 0 });
        const turned = caseOf({ ...unit, resources: [...unit.resources].reverse() }, 12);
        expect(renderHandover(turned.answer, { colour: false, columns: 0 })).toBe(text);
        expect(Math.max(...text.split('\n').map(({ length }) => length))).toBeLessThanOrEqual(90);
      }),
      runs(0.2),
    );
  });

  it('a sheet for home can be made of it, the same whatever the order', () => {
    fc.assert(
      fc.property(units, (unit) => {
        const sheetOf = (resources: Unit['resources']) => {
          const records = readRecords(entriesOf(resources));
          const cares = records.lines.map((line) => dueCare(line, bundled, whenOf(unit)));
          return homeSheet(records, cares, bundled, whenOf(unit), records.lines[0]!.patient.ref);
        };
        const sheet = sheetOf(unit.resources);
        expect(sheetOf([...unit.resources].reverse())).toEqual(sheet);
        expect(elementsOf(renderHomeHtml(sheet)).length).toBeGreaterThan(40);
        expect(renderHomeText(sheet)).toContain('If you are not sure, call the unit.');
      }),
      runs(0.06),
    );
  });
});

it('two shifts of 12 h take what one of 24 h takes, where all is done when it is due', () => {
  const { records, cares, policy: ward, when } = demo();
  const day = handover(records, cares, ward, {
    from: when.asOf,
    to: '2026-11-26T07:30:00+01:00',
    zone: when.zone,
  });
  const first = handover(records, cares, ward, {
    from: when.asOf,
    to: '2026-11-25T19:30:00+01:00',
    zone: when.zone,
  });
  const cut = Date.parse('2026-11-25T19:30:00+01:00');
  const listed = (answer: Handover) =>
    linesOf(answer)
      .flatMap(counted)
      .filter(({ dueBy }) => Date.parse(dueBy) < cut)
      .map(({ line, activity, target, dueBy, nth }) => [line, activity, target.ref, dueBy, nth].join(' '))
      .sort();
  expect(listed(day)).toEqual(listed(first));
  expect(listed(first).length).toBeGreaterThan(20);
});
