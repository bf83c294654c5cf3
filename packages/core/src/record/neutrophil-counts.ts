import { absoluteNeutrophilCount, type AbsoluteNeutrophilCountInput } from '@dwellward/calculators';
import { convertUnit, type QuantityRange } from '@dwellward/policy';
import { Decimal } from 'decimal.js';
import type { IssueList } from './issues.js';
import type { Measurement, Ref } from '../model/record.js';
import type { Analyte } from '../model/basics.js';
import type { Result } from './results.js';

/** The most trusted of an analyte among results of one collection. */
function best(together: readonly Result[], analyte: Analyte): Result | undefined {
  return together
    .filter((one) => one.analyte === analyte)
    .sort((a, b) => b.trust - a.trust || (a.ref < b.ref ? -1 : 1))[0];
}

/** The neutrophil count from leucocytes and their differential; none where the shares pass 100 %. */
export function fromDifferential(
  leucocytes: Result,
  together: readonly Result[],
  patient: Ref,
  issues: IssueList,
): Measurement[] {
  if (best(together, 'leucocytes') !== leucocytes) return [];
  const all = best(together, 'neutrophilsPercent');
  const segmented = best(together, 'segmentedPercent');
  const bands = best(together, 'bandsPercent');
  const used = segmented ? [segmented, ...(bands ? [bands] : [])] : all ? [all] : [];
  if (used.length === 0) return [];
  const count = (pick: (range: QuantityRange) => string | undefined): string | undefined => {
    const leucocytesHere = pick(leucocytes.range);
    const [first, second] = used.map((one) => pick(one.range));
    if (leucocytesHere === undefined || first === undefined || (used.length > 1 && second === undefined))
      return undefined;
    // An upper limit of the shares may pass 100 % where the shares themselves don't.
    if (Number(first) + Number(second ?? 0) > 100) return undefined;
    return neutrophils(
      leucocytesHere,
      segmented
        ? { segmentedPercent: first, ...(second ? { bandsPercent: second } : {}) }
        : { neutrophilsPercent: first },
    );
  };
  if (used.reduce((sum, one) => sum + Number(one.range.low ?? 0), 0) > 100) {
    issues.add(
      'implausible-value',
      leucocytes.ref,
      'Observation.value',
      { code: 'shares-above-hundred' },
      {
        patient,
        severity: 'high',
        related: used.map((one) => one.ref),
      },
    );
    return [];
  }
  return [
    derived(
      [leucocytes, ...used],
      count((range) => range.low),
      count((range) => range.high),
    ),
  ];
}

/** What each part of a count needs beside it, of the same collection, to be one. */
const needs: Readonly<Partial<Record<Analyte, (has: (analyte: Analyte) => boolean) => boolean>>> = {
  neutrophilsPercent: (has) => has('leucocytes'),
  segmentedPercent: (has) => has('leucocytes'),
  bandsPercent: (has) => has('leucocytes') && (has('segmentedPercent') || has('neutrophilsPercent')),
  bands: (has) => has('segmented'),
};

/** Says of a part of a neutrophil count that nothing stands beside it to make a count of. */
export function reportAlone(
  { analyte, ref, asSent }: Result,
  together: readonly Result[],
  patient: Ref,
  issues: IssueList,
): void {
  const has = (wanted: Analyte) => together.some((other) => other.analyte === wanted);
  if (has('neutrophils') || (needs[analyte]?.(has) ?? true)) return;
  const sentence = { code: 'part-of-no-count', sent: asSent } as const;
  issues.add('part-of-no-count', ref, 'Observation.code', sentence, { patient, severity: 'low' });
}

type Shares = Pick<AbsoluteNeutrophilCountInput, 'segmentedPercent' | 'bandsPercent' | 'neutrophilsPercent'>;

/** In 10*9/L, from leucocytes in 10*9/L; exact. */
function neutrophils(leucocytes: string, shares: Shares): string | undefined {
  const perUl = absoluteNeutrophilCount({ leucocytes, leucocytesUnit: '10*9/L', ...shares });
  const converted = convertUnit(perUl.value, perUl.unit, '10*9/L');
  return converted.ok ? converted.value : undefined;
}

/** The neutrophil count from segmented neutrophils and, where they are given, bands. */
export function fromAbsolutes(segmented: Result, together: readonly Result[]): Measurement[] {
  if (best(together, 'segmented') !== segmented) return [];
  const bands = best(together, 'bands');
  if (!bands) return [derived([segmented], segmented.range.low, segmented.range.high)];
  const sum = (a: string | undefined, b: string | undefined) =>
    a === undefined || b === undefined ? undefined : new Decimal(a).plus(b).toFixed();
  return [
    derived(
      [segmented, bands],
      sum(segmented.range.low, bands.range.low),
      sum(segmented.range.high, bands.range.high),
    ),
  ];
}

function derived(from: readonly Result[], low: string | undefined, high: string | undefined): Measurement {
  const [first] = from as [Result, ...Result[]];
  return {
    kind: 'anc',
    refs: [...new Set(from.map((one) => one.ref))].sort(),
    trust: Math.min(...from.map((one) => one.trust)) as 3 | 2 | 1,
    at: first.at,
    value: {
      ...(low === undefined ? {} : { low }),
      lowIncluded: from.every((one) => one.range.lowIncluded),
      ...(high === undefined ? {} : { high }),
      highIncluded: from.every((one) => one.range.highIncluded),
      unit: '10*9/L',
    },
    asSent: from.flatMap((one) => one.asSent),
    derived: true,
  };
}
