import { Decimal } from 'decimal.js';
import { compareText } from '../timeline/timeline.js';
import { sentenceKey } from '../words/keys.js';
import type { LumenVolumes, ShiftItem, Supplies, SupplyCount } from './model.js';

/** What a list of items takes, each counted for itself. Volumes are added in decimals; nothing is rounded. */
export function suppliesOf(items: readonly ShiftItem[]): Supplies {
  const counts = new Map<string, SupplyCount>();
  const syringes = new Map<string, number>();
  const lumens = new Map<string, LumenVolumes>();
  const notWorkedOut = new Map<string, Missing>();
  for (const { line, target, work } of items) {
    for (const { kind, text, value } of work) {
      switch (kind) {
        case 'supply':
        case 'thrombolytic-dose':
          count(counts, text, 1);
          break;
        case 'syringe-size':
          if (value !== undefined) syringes.set(value, (syringes.get(value) ?? 0) + 1);
          break;
        case 'flush-volume':
        case 'lock-volume': {
          if (value === undefined) break;
          const key = `${line}\u0000${target.ref}`;
          const before = lumens.get(key) ?? {
            line,
            lumen: target.ref,
            name: target.name,
            ...{ flushMl: '0', flushes: 0, lockMl: '0', locks: 0 },
          };
          lumens.set(
            key,
            kind === 'flush-volume'
              ? { ...before, flushMl: added(before.flushMl, value), flushes: before.flushes + 1 }
              : { ...before, lockMl: added(before.lockMl, value), locks: before.locks + 1 },
          );
          break;
        }
        case 'caution':
          if (text.code === 'not-worked-out')
            miss(notWorkedOut, { code: 'missing-for', target: target.name, caution: text });
      }
    }
  }
  return ordered({ counts, syringes, lumens, notWorkedOut });
}

/** The sum of several lists. */
export function addSupplies(parts: readonly Supplies[]): Supplies {
  const counts = new Map<string, SupplyCount>();
  const syringes = new Map<string, number>();
  const lumens = new Map<string, LumenVolumes>();
  const notWorkedOut = new Map<string, Missing>();
  for (const part of parts) {
    for (const one of part.counts) count(counts, one.text, one.count);
    for (const one of part.syringes) syringes.set(one.sizeMl, (syringes.get(one.sizeMl) ?? 0) + one.count);
    for (const one of part.notWorkedOut) miss(notWorkedOut, one);
    for (const one of part.lumens) {
      const key = `${one.line}\u0000${one.lumen}`;
      const before = lumens.get(key);
      lumens.set(
        key,
        before
          ? {
              ...before,
              flushMl: added(before.flushMl, one.flushMl),
              flushes: before.flushes + one.flushes,
              lockMl: added(before.lockMl, one.lockMl),
              locks: before.locks + one.locks,
            }
          : one,
      );
    }
  }
  return ordered({ counts, syringes, lumens, notWorkedOut });
}

type Missing = Supplies['notWorkedOut'][number];

function count(counts: Map<string, SupplyCount>, text: SupplyCount['text'], more: number): void {
  const key = sentenceKey(text);
  counts.set(key, { text, count: (counts.get(key)?.count ?? 0) + more });
}

function miss(missing: Map<string, Missing>, one: Missing): void {
  missing.set(sentenceKey(one), one);
}

function ordered(gathered: {
  readonly counts: ReadonlyMap<string, SupplyCount>;
  readonly syringes: ReadonlyMap<string, number>;
  readonly lumens: ReadonlyMap<string, LumenVolumes>;
  readonly notWorkedOut: ReadonlyMap<string, Missing>;
}): Supplies {
  const lumens = byKey(gathered.lumens);
  return {
    counts: byKey(gathered.counts),
    syringes: [...gathered.syringes]
      .map(([sizeMl, number]) => ({ sizeMl, count: number }))
      .sort((a, b) => new Decimal(a.sizeMl).comparedTo(b.sizeMl)),
    lumens,
    flushMl: lumens.reduce((sum, { flushMl }) => added(sum, flushMl), '0'),
    lockMl: lumens.reduce((sum, { lockMl }) => added(sum, lockMl), '0'),
    notWorkedOut: byKey(gathered.notWorkedOut),
  };
}

function byKey<Value>(found: ReadonlyMap<string, Value>): Value[] {
  return [...found].sort(([a], [b]) => compareText(a, b)).map(([, one]) => one);
}

function added(a: string, b: string): string {
  return new Decimal(a).plus(b).toFixed();
}
