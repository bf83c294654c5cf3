import { resultCodes, standard, type RecordIssueCode } from '@dwellward/profiles';
import type { QuantityRange } from '@dwellward/policy';
import type { Analyte, AsSent } from '../model/basics.js';
import { codesOf } from './codes.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { RecordedTime, RecordIssue, Ref } from '../model/record.js';
import { countUnit, readRange, sentOf, sentUnit } from './quantities.js';
import type { Codeable, Quantity, Shape } from './shapes.js';
import { recordedTime } from './times.js';

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

// A value above these is a unit that was mistaken, not a patient. What a rule asks for is judged in plausible.ts: there it
// becomes unknown, so that an older value does not take its place.
const highest: Readonly<Partial<Record<Analyte, number>>> = {
  leucocytes: 5000,
  segmented: 5000,
  bands: 5000,
  neutrophilsPercent: 100,
  segmentedPercent: 100,
  bandsPercent: 100,
};

// A ratio has no unit; laboratories write its name in the unit’s place, or nothing.
const ratioSpellings = new Set(['', '1', 'inr', '{inr}', 'ratio', '{ratio}']);

const trusts: ReadonlyMap<string, 3 | 2 | 1> = new Map(
  Object.entries<3 | 2 | 1>({
    corrected: 3,
    amended: 3,
    final: 2,
    preliminary: 1,
    unknown: 1,
  }),
);
/** Statuses that say there is no result: they are not counted and not an error. */
export const noResult: ReadonlySet<string> = new Set(['cancelled', 'entered-in-error', 'registered']);

/** One laboratory result, or a weight, in the unit of its analyte. */
export interface Result {
  readonly analyte: Analyte;
  readonly ref: Ref;
  readonly specimen?: Ref;
  readonly at: RecordedTime;
  readonly trust: 3 | 2 | 1;
  readonly range: QuantityRange;
  readonly asSent: AsSent;
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

/** The results of an Observation and its components; what can’t be used is an issue. */
export function resultsOf(
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
    const report = (issue: RecordIssueCode, where: string, sentence: RecordIssue['sentence']) =>
      issues.add(issue, ref, where, sentence, { ...details, severity: 'high' });
    const at = recordedTime(
      value.effectiveDateTime ?? value.effectiveInstant ?? value.effectivePeriod?.start,
    );
    if (!at) {
      report('missing-time', 'Observation.effective', { code: 'result-without-time' });
      continue;
    }
    if (!quantity) {
      if (!('dataAbsentReason' in value))
        report(
          'unreadable',
          path,
          text === undefined
            ? { code: 'result-without-quantity', analyte }
            : { code: 'result-charted-as-text', analyte, text },
        );
      continue;
    }
    const unit = unitAsSent(analyte, quantity);
    const reading = readRange(quantity, unit, unitOf[analyte]);
    if (!reading.ok) {
      report(reading.code, path, { code: 'result-not-used', sent: sentOf(quantity), reason: reading.reason });
      continue;
    }
    if (Number(reading.range.high ?? reading.range.low) > (highest[analyte] ?? Infinity)) {
      report('implausible-value', path, { code: 'result-too-high', sent: sentOf(quantity) });
      continue;
    }
    const specimen = index.nameOf(value.specimen, ref);
    results.push({
      analyte,
      ref,
      ...(specimen ? { specimen } : {}),
      at,
      trust: trusts.get(value.status ?? 'unknown') ?? 1,
      range: reading.range,
      asSent: [sentOf(quantity)],
    });
  }
  return results;
}

function unitAsSent(analyte: Analyte, quantity: Quantity): string | undefined {
  const sent = unitOf[analyte] === '10*9/L' ? countUnit(quantity) : sentUnit(quantity);
  return analyte === 'inr' && ratioSpellings.has((sent ?? '').toLowerCase()) ? '1' : sent;
}

/** Whether a code is one of the results that are read. */
export function isResultCode(code: Codeable | undefined): boolean {
  return analyteOf(code) !== undefined;
}

/** Which result a code stands for. */
export function analyteOf(code: Codeable | undefined): Analyte | undefined {
  const codes = codesOf(standard.loinc, code);
  return (Object.keys(resultCodes) as Analyte[]).find((analyte) =>
    resultCodes[analyte].some((known) => codes.includes(known)),
  );
}
