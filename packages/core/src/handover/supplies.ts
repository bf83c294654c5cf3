import { Decimal } from 'decimal.js';
import { compareText } from '../timeline/timeline.js';
import type { LumenVolumes, ShiftItem, Supplies } from './model.js';

/** What a list of items takes, each counted for itself. Volumes are added in decimals; nothing is rounded. */
export function suppliesOf(items: readonly ShiftItem[]): Supplies {
  const counts = new Map<string, number>();
  const syringes = new Map<string, number>();
  const lumens = new Map<string, LumenVolumes>();
  const notWorkedOut = new Set<string>();
  for (const { line, target, work } of items) {
    for (const { kind, text, value } of work) {
      switch (kind) {
        case 'supply':
        case 'thrombolytic-dose':
          counts.set(text, (counts.get(text) ?? 0) + 1);
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
          // The work says so itself where a volume could not be worked out.
          if (/ not worked out: /.test(text)) notWorkedOut.add(`${target.name}: ${text}`);
      }
    }
  }
  return ordered({ counts, syringes, lumens, notWorkedOut });
}

/** The sum of several lists. */
export function addSupplies(parts: readonly Supplies[]): Supplies {
  const counts = new Map<string, number>();
  const syringes = new Map<string, number>();
  const lumens = new Map<string, LumenVolumes>();
  const notWorkedOut = new Set<string>();
  for (const part of parts) {
    for (const { text, count } of part.counts) counts.set(text, (counts.get(text) ?? 0) + count);
    for (const { sizeMl, count } of part.syringes) syringes.set(sizeMl, (syringes.get(sizeMl) ?? 0) + count);
    for (const text of part.notWorkedOut) notWorkedOut.add(text);
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

function ordered(gathered: {
  readonly counts: ReadonlyMap<string, number>;
  readonly syringes: ReadonlyMap<string, number>;
  readonly lumens: ReadonlyMap<string, LumenVolumes>;
  readonly notWorkedOut: ReadonlySet<string>;
}): Supplies {
  const lumens = [...gathered.lumens].sort(([a], [b]) => compareText(a, b)).map(([, one]) => one);
  return {
    counts: [...gathered.counts]
      .map(([text, count]) => ({ text, count }))
      .sort((a, b) => compareText(a.text, b.text)),
    syringes: [...gathered.syringes]
      .map(([sizeMl, count]) => ({ sizeMl, count }))
      .sort((a, b) => new Decimal(a.sizeMl).comparedTo(b.sizeMl)),
    lumens,
    flushMl: lumens.reduce((sum, { flushMl }) => added(sum, flushMl), '0'),
    lockMl: lumens.reduce((sum, { lockMl }) => added(sum, lockMl), '0'),
    notWorkedOut: [...gathered.notWorkedOut].sort(compareText),
  };
}

function added(a: string, b: string): string {
  return new Decimal(a).plus(b).toFixed();
}
