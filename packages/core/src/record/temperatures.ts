import { standard, temperatureCodes } from '@dwellward/profiles';
import type { QuantityRange } from '@dwellward/policy';
import { codesOf, findingOf } from './codes.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { Finding, Ref } from '../model/record.js';
import { readRange, sentOf, sentUnit } from './quantities.js';
import { noResult } from './results.js';
import type { Codeable, Quantity, Shape } from './shapes.js';
import { recordedTime } from './times.js';
import { addTo } from '../model/gather.js';

// A value outside of these, °C, is a unit or a digit that was mistaken, not a patient: common practice, no source.
const leastCel = 25;
const mostCel = 45;

// Written out, because some of them mean another thing in UCUM: `C` is coulomb, `F` is farad.
const spellings: Readonly<Record<'Cel' | '[degF]', readonly string[]>> = {
  Cel: ['Cel', '°C', '℃', 'C', 'degC', 'deg C', 'Celsius'],
  '[degF]': ['[degF]', '°F', '℉', 'F', 'degF', 'deg F', 'Fahrenheit'],
};

/**
 * The temperatures of every patient, as findings that concern every line in place at that time: from where on one is a
 * fever is the policy’s to say. What can’t be read, or can’t be, is an issue.
 */
export function readTemperatures(index: ResourceIndex, issues: IssueList): Map<Ref, Finding[]> {
  const byPatient = new Map<Ref, Finding[]>();
  for (const observation of index.all('Observation')) {
    if (noResult.has(observation.value.status ?? '')) continue;
    for (const one of temperaturesIn(observation.value)) {
      const read = readTemperature(observation, one, index, issues);
      if (read) addTo(byPatient, read.patient, read.finding);
    }
  }
  return byPatient;
}

interface Temperature {
  readonly quantity: Quantity | undefined;
  readonly path: string;
}

function readTemperature(
  { ref, value }: Indexed<'Observation'>,
  { quantity, path }: Temperature,
  index: ResourceIndex,
  issues: IssueList,
): { readonly patient: Ref; readonly finding: Finding } | undefined {
  const patient = index.nameOf(value.subject, ref);
  if (!patient) {
    issues.add('unresolved-reference', ref, 'Observation.subject', { code: 'temperature-without-patient' });
    return undefined;
  }
  const details = { severity: 'high' as const, patient };
  if (!quantity) {
    if (!('dataAbsentReason' in value))
      issues.add('unreadable', ref, path, { code: 'temperature-without-quantity' }, details);
    return undefined;
  }
  const cel = inCelsius(quantity);
  if (cel === undefined) {
    issues.add(
      'unknown-unit',
      ref,
      path,
      { code: 'temperature-in-unknown-unit', sent: sentOf(quantity) },
      details,
    );
    return undefined;
  }
  if (Number(cel.high ?? cel.low) < leastCel || Number(cel.low ?? cel.high) > mostCel) {
    issues.add(
      'implausible-value',
      ref,
      path,
      { code: 'temperature-impossible', sent: sentOf(quantity) },
      details,
    );
    return undefined;
  }
  const at = recordedTime(
    value.effectiveDateTime ??
      value.effectiveInstant ??
      value.effectivePeriod?.end ??
      value.effectivePeriod?.start,
  );
  if (!at) {
    issues.add('missing-time', ref, 'Observation.effective', { code: 'temperature-without-time' }, details);
    return undefined;
  }
  const finding: Finding = {
    ref,
    finding: 'body-temperature',
    status: value.status ?? 'unknown',
    at,
    site: 'exit-site',
    values: [],
    quantity: cel,
    ofPatient: true,
    reading: { code: 'body-temperature', sent: sentOf(quantity) },
  };
  return { patient, finding };
}

/** Whether a code is that of a body temperature. */
export function isTemperatureCode(concept: Codeable | undefined): boolean {
  return (
    codesOf(standard.loinc, concept).some((one) => temperatureCodes.has(one)) ||
    findingOf(concept) === 'body-temperature'
  );
}

/** One temperature of an Observation, or of each place among its components. */
function temperaturesIn({ code, valueQuantity, component }: Shape<'Observation'>): Temperature[] {
  return [
    ...(isTemperatureCode(code) && (valueQuantity || !component?.length)
      ? [{ quantity: valueQuantity, path: 'Observation.valueQuantity' }]
      : []),
    ...(component ?? []).flatMap((one, i) =>
      isTemperatureCode(one.code)
        ? [{ quantity: one.valueQuantity, path: `Observation.component[${i}].valueQuantity` }]
        : [],
    ),
  ];
}

function inCelsius(quantity: Quantity): QuantityRange | undefined {
  const sent = sentUnit(quantity);
  if (sent === undefined || quantity.value === undefined) return undefined;
  const unit = (['Cel', '[degF]'] as const).find((known) => spellings[known].includes(sent));
  if (unit === undefined) return undefined;
  const read = readRange(quantity, unit, 'Cel');
  return read.ok ? read.range : undefined;
}
