import { standard } from '@dwellward/profiles';
import { convertUnit } from '@dwellward/policy';
import { Decimal } from 'decimal.js';
import { codesOf } from './codes.js';
import type { ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { Finding, Ref } from '../model/record.js';
import { asSent, decimalText, sentOf, sentUnit } from './quantities.js';
import { noResult } from './results.js';
import type { Quantity, Shape } from './shapes.js';
import { recordedTime } from './times.js';

/**
 * From here on a body temperature is a fever, °C; 100.4 °F. Home care sheets of two hospitals (seen): call for 100.5 °F
 * or 38.0 °C; the lower of the two is taken. Other limits are in use, 38.3 °C once among them (from memory).
 */
export const feverFromCel = '38.0';

// A value outside of these, °C, is a unit or a digit that was mistaken, not a patient: common practice, no source.
const least = 25;
const most = 45;

// LOINC: body temperature (seen); oral, axillary, rectal, tympanic (from memory).
const temperatureCodes: ReadonlySet<string> = new Set(['8310-5', '8331-1', '8328-7', '8332-9', '8333-7']);

// Written out, because some of them mean another thing in UCUM: `C` is coulomb, `F` is farad.
const spellings: Readonly<Record<'Cel' | '[degF]', readonly string[]>> = {
  Cel: ['Cel', '°C', '℃', 'C', 'degC', 'deg C', 'Celsius'],
  '[degF]': ['[degF]', '°F', '℉', 'F', 'degF', 'deg F', 'Fahrenheit'],
};

/**
 * The temperatures of every patient that are a fever, as findings that concern every line in place at that time. Lower
 * ones say nothing: they end no fever. What can’t be read, or can’t be, is an issue.
 */
export function readFevers(index: ResourceIndex, issues: IssueList): Map<Ref, Finding[]> {
  const byPatient = new Map<Ref, Finding[]>();
  for (const { ref, value } of index.all('Observation')) {
    if (noResult.has(value.status ?? '')) continue;
    for (const { quantity, path } of temperaturesIn(value)) {
      const patient = index.nameOf(value.subject, ref);
      const details = { severity: 'high' as const, ...(patient ? { patient } : {}) };
      if (!patient) {
        issues.add('unresolved-reference', ref, 'Observation.subject', {
          code: 'temperature-without-patient',
        });
        continue;
      }
      if (!quantity) {
        if (!('dataAbsentReason' in value))
          issues.add('unreadable', ref, path, { code: 'temperature-without-quantity' }, details);
        continue;
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
        continue;
      }
      if (cel.lt(least) || cel.gt(most)) {
        issues.add(
          'implausible-value',
          ref,
          path,
          { code: 'temperature-impossible', sent: sentOf(quantity) },
          details,
        );
        continue;
      }
      // Less than so much may be anything below it.
      if (cel.lt(feverFromCel) || quantity.comparator?.startsWith('<')) continue;
      const at = recordedTime(
        value.effectiveDateTime ??
          value.effectiveInstant ??
          value.effectivePeriod?.end ??
          value.effectivePeriod?.start,
      );
      if (!at) {
        issues.add(
          'missing-time',
          ref,
          'Observation.effective',
          { code: 'temperature-without-time' },
          details,
        );
        continue;
      }
      const fever: Finding = {
        ref,
        finding: 'fever',
        status: value.status ?? 'unknown',
        at,
        site: 'exit-site',
        values: ['present'],
        ofPatient: true,
        reading: { code: 'read-as-fever', sent: asSent(quantity), fromCel: feverFromCel, fromDegF: '100.4' },
      };
      byPatient.set(patient, [...(byPatient.get(patient) ?? []), fever]);
    }
  }
  return byPatient;
}

/** One temperature of an Observation, or of each place among its components. */
function temperaturesIn({
  code,
  valueQuantity,
  component,
}: Shape<'Observation'>): { readonly quantity: Quantity | undefined; readonly path: string }[] {
  const isTemperature = (concept: typeof code) =>
    codesOf(standard.loinc, concept).some((one) => temperatureCodes.has(one));
  return [
    ...(isTemperature(code) && (valueQuantity || !component?.length)
      ? [{ quantity: valueQuantity, path: 'Observation.valueQuantity' }]
      : []),
    ...(component ?? []).flatMap((one, i) =>
      isTemperature(one.code)
        ? [{ quantity: one.valueQuantity, path: `Observation.component[${i}].valueQuantity` }]
        : [],
    ),
  ];
}

function inCelsius(quantity: Quantity): Decimal | undefined {
  const sent = sentUnit(quantity);
  if (sent === undefined || quantity.value === undefined) return undefined;
  const unit = (['Cel', '[degF]'] as const).find((known) => spellings[known].includes(sent));
  const converted = unit && convertUnit(decimalText(quantity.value), unit, 'Cel');
  return converted?.ok ? new Decimal(converted.value) : undefined;
}
