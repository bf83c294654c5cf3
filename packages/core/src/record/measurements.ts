import { standard, type RecordIssueCode } from '@dwellward/profiles';
import { absoluteNeutrophilCount, type AbsoluteNeutrophilCountInput } from '@dwellward/calculators';
import { convertUnit, type QuantityRange } from '@dwellward/policy';
import { Decimal } from 'decimal.js';
import { codesOf } from './codes.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import { sentence, type IssueList } from './issues.js';
import type { Measurement, RecordedTime, Ref } from './model.js';
import { asSent, countUnit, readRange, sentUnit } from './quantities.js';
import type { Codeable, Quantity, Shape } from './shapes.js';
import { momentKey, recordedTime } from './times.js';

// LOINC. Names and numbers as in the published code lists; those marked (m) are from memory.
const loinc = {
  neutrophils: ['751-8', '753-4', '26499-4'],
  leucocytes: ['6690-2', '26464-8' /* m */, '804-5' /* m */],
  /** Usually include the bands: bands are never added to these. */
  neutrophilsPercent: ['770-8', '26511-6'],
  segmentedPercent: ['769-0' /* m */],
  bandsPercent: ['764-1', '26508-2'],
  segmented: ['768-2', '30451-9'],
  bands: ['26507-4', '763-3' /* m */],
  platelets: ['777-3', '26515-7' /* m */],
  weight: ['29463-7', '3141-9' /* m */],
  inr: ['6301-6' /* m */, '34714-6' /* m */],
} as const;
type Analyte = keyof typeof loinc;

const unitOf: Readonly<Record<Analyte, string>> = {
  neutrophils: '10*9/L',
  leucocytes: '10*9/L',
  segmented: '10*9/L',
  bands: '10*9/L',
  platelets: '10*9/L',
  neutrophilsPercent: '%',
  segmentedPercent: '%',
  bandsPercent: '%',
  weight: 'kg',
  inr: '1',
};

const analyteWords: Readonly<Record<Analyte, string>> = {
  neutrophils: 'neutrophil count',
  leucocytes: 'leucocyte count',
  neutrophilsPercent: 'share of neutrophils',
  segmentedPercent: 'share of segmented neutrophils',
  bandsPercent: 'share of bands',
  segmented: 'count of segmented neutrophils',
  bands: 'count of bands',
  platelets: 'platelet count',
  weight: 'weight',
  inr: 'INR',
};

// A value above these is a unit that was mistaken, not a patient.
const highest: Readonly<Record<string, number>> = { '10*9/L': 5000, '%': 100, kg: 500, '1': 100 };

// A ratio has no unit; laboratories write its name in the unit’s place, or nothing.
const ratioSpellings = new Set(['', '1', 'inr', '{inr}', 'ratio', '{ratio}']);

const trusts: Readonly<Record<string, 3 | 2 | 1>> = {
  corrected: 3,
  amended: 3,
  final: 2,
  preliminary: 1,
  unknown: 1,
};
/** Statuses that say there is no result: they are not counted and not an error. */
const noResult = new Set(['cancelled', 'entered-in-error', 'registered']);

interface Result {
  readonly analyte: Analyte;
  readonly ref: Ref;
  readonly specimen?: Ref;
  readonly at: RecordedTime;
  readonly trust: 3 | 2 | 1;
  readonly range: QuantityRange;
  readonly asSent: string;
}

/** The counts and weights of every patient, each in the unit of its fact, and what could not be used. */
export function readMeasurements(index: ResourceIndex, issues: IssueList): Map<Ref, Measurement[]> {
  const byPatient = new Map<Ref, Result[]>();
  for (const observation of index.all('Observation')) {
    const patient = index.nameOf(observation.value.subject, observation.ref);
    const results = resultsOf(observation, index, issues, patient);
    if (results.length === 0) continue;
    if (!patient) {
      issues.add(
        'unresolved-reference',
        observation.ref,
        'Observation.subject',
        'The result names no patient; it is not used.',
      );
      continue;
    }
    byPatient.set(patient, [...(byPatient.get(patient) ?? []), ...results]);
  }
  return new Map(
    [...byPatient].map(([patient, results]) => [patient, measurementsOf(results, patient, issues)]),
  );
}

function* parts(value: Shape<'Observation'>): Generator<{
  code: Codeable | undefined;
  quantity: Quantity | undefined;
  text: string | undefined;
  path: string;
}> {
  const text = value.valueString;
  yield { code: value.code, quantity: value.valueQuantity, text, path: 'Observation.valueQuantity' };
  for (const [i, component] of (value.component ?? []).entries()) {
    yield {
      code: component.code,
      quantity: component.valueQuantity,
      text: component.valueString,
      path: `Observation.component[${i}].valueQuantity`,
    };
  }
}

function resultsOf(
  observation: Indexed<'Observation'>,
  index: ResourceIndex,
  issues: IssueList,
  patient: Ref | undefined,
): Result[] {
  const { ref, value } = observation;
  if (noResult.has(value.status ?? '')) return [];
  const details = patient ? { patient } : {};
  const results: Result[] = [];
  for (const { code, quantity, text, path } of parts(value)) {
    const analyte = analyteOf(code);
    if (!analyte) continue;
    const report = (issue: RecordIssueCode, where: string, message: string) =>
      issues.add(issue, ref, where, message, { ...details, severity: 'high' });
    const at = recordedTime(
      value.effectiveDateTime ?? value.effectiveInstant ?? value.effectivePeriod?.start,
    );
    if (!at) {
      report(
        'missing-time',
        'Observation.effective',
        'The result has no time that can be read; it is not used.',
      );
      continue;
    }
    if (!quantity) {
      if (!('dataAbsentReason' in value))
        report(
          'unreadable',
          path,
          text === undefined
            ? `The ${analyteWords[analyte]} has no quantity; it is not used.`
            : `The ${analyteWords[analyte]} is charted as text, “${text}”, not as a quantity; it is not used.`,
        );
      continue;
    }
    const unit = unitAsSent(analyte, quantity);
    const reading = readRange(quantity, unit, unitOf[analyte]);
    if (!reading.ok) {
      report(reading.code, path, `The value ${asSent(quantity)} can’t be used: ${sentence(reading.reason)}`);
      continue;
    }
    if (Number(reading.range.high ?? reading.range.low) > (highest[unitOf[analyte]] ?? Infinity)) {
      report(
        'implausible-value',
        path,
        `The value ${asSent(quantity)} is more than there can be; it is not used.`,
      );
      continue;
    }
    const specimen = index.nameOf(value.specimen, ref);
    results.push({
      analyte,
      ref,
      ...(specimen ? { specimen } : {}),
      at,
      trust: trusts[value.status ?? 'unknown'] ?? 1,
      range: reading.range,
      asSent: asSent(quantity),
    });
  }
  return results;
}

function unitAsSent(analyte: Analyte, quantity: Quantity): string | undefined {
  const sent = unitOf[analyte] === '10*9/L' ? countUnit(quantity) : sentUnit(quantity);
  return analyte === 'inr' && ratioSpellings.has((sent ?? '').toLowerCase()) ? '1' : sent;
}

function analyteOf(code: Codeable | undefined): Analyte | undefined {
  const codes = codesOf(standard.loinc, code);
  return (Object.keys(loinc) as Analyte[]).find((analyte) =>
    loinc[analyte].some((known) => codes.includes(known)),
  );
}

function measurementsOf(results: readonly Result[], patient: Ref, issues: IssueList): Measurement[] {
  const found: Measurement[] = [];
  const direct = { neutrophils: 'anc', platelets: 'platelets', weight: 'weight', inr: 'inr' } as const;
  for (const result of results) {
    if (result.analyte in direct) {
      found.push({
        kind: direct[result.analyte as keyof typeof direct],
        refs: [result.ref],
        trust: result.trust,
        at: result.at,
        value: result.range,
        asSent: result.asSent,
        derived: false,
      });
    }
  }
  for (const result of results) {
    const together = results.filter((other) => sameCollection(other, result));
    if (result.analyte === 'leucocytes') found.push(...fromDifferential(result, together, patient, issues));
    if (result.analyte === 'segmented') found.push(...fromAbsolutes(result, together));
  }
  return settle(found, patient, issues);
}

function sameCollection(a: Result, b: Result): boolean {
  return a.specimen !== undefined && b.specimen !== undefined
    ? a.specimen === b.specimen
    : momentKey(a.at) === momentKey(b.at);
}

/** The most trusted of an analyte among results of one collection. */
function best(together: readonly Result[], analyte: Analyte): Result | undefined {
  return together
    .filter((one) => one.analyte === analyte)
    .sort((a, b) => b.trust - a.trust || (a.ref < b.ref ? -1 : 1))[0];
}

function fromDifferential(
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
      'The percentages of this differential count add up to more than 100; no neutrophil count was worked out.',
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

type Shares = Pick<AbsoluteNeutrophilCountInput, 'segmentedPercent' | 'bandsPercent' | 'neutrophilsPercent'>;

/** In 10*9/L, from leucocytes in 10*9/L; exact. */
function neutrophils(leucocytes: string, shares: Shares): string | undefined {
  const perUl = absoluteNeutrophilCount({ leucocytes, leucocytesUnit: '10*9/L', ...shares });
  const converted = convertUnit(perUl.value, perUl.unit, '10*9/L');
  return converted.ok ? converted.value : undefined;
}

function fromAbsolutes(segmented: Result, together: readonly Result[]): Measurement[] {
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
    asSent: from.map((one) => one.asSent).join(' × '),
    derived: true,
  };
}

/**
 * One measurement for each kind and collection time: the most trusted, of equals the one measured directly. Where
 * equals disagree the lower is kept, because low counts and low weights are the ones that bring protection; of the
 * INR the higher.
 */
function settle(found: readonly Measurement[], patient: Ref, issues: IssueList): Measurement[] {
  const groups = new Map<string, Measurement[]>();
  for (const one of found) {
    const key = `${one.kind}\u0000${momentKey(one.at)}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, group]) => {
      const trust = Math.max(...group.map((one) => one.trust));
      const equals = group
        .filter((one) => one.trust === trust)
        .sort(
          (a, b) =>
            (a.kind === 'inr' ? upper(b) - upper(a) : upper(a) - upper(b)) ||
            Number(a.derived) - Number(b.derived) ||
            (a.refs.join() < b.refs.join() ? -1 : 1),
        );
      const [kept] = equals as [Measurement, ...Measurement[]];
      if (equals.some((one) => differs(one, kept))) {
        issues.add(
          'conflicting-values',
          kept.refs[0] ?? patient,
          'Observation.value',
          `Results of one collection disagree (${equals.map((one) => one.asSent).join('; ')}); the ${kept.kind === 'inr' ? 'highest' : 'lowest'} is used.`,
          {
            patient,
            severity: 'high',
            related: equals.flatMap((one) => one.refs).sort(),
          },
        );
      }
      return kept;
    });
}

function upper(one: Measurement): number {
  return Number(one.value.high ?? Infinity);
}

// Rounding in the laboratory makes a count and its product differ in the second place; that is no contradiction.
function differs(a: Measurement, b: Measurement): boolean {
  const gap = Math.abs(upper(a) - upper(b));
  return Number.isFinite(gap) && gap > 0.05 && gap > 0.1 * Math.max(upper(a), upper(b));
}
