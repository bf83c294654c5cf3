import {
  codeSystem,
  dressingTypes,
  findingCodes,
  findingRow,
  infusates,
  lineCareActivities,
  standard,
  valuesOf,
  type LineFinding,
} from '@dwellward/profiles';
import fc from 'fast-check';
import { concept, defined, hour, instantText, maybe, one, timeNear, type Resource } from './resources.js';

/** The same Device in one of the ways in which a reference can be written. */
function referenceTo(ref: string): fc.Arbitrary<{ reference: string }> {
  return fc.constantFrom(
    { reference: ref },
    { reference: ref },
    { reference: `https://ward.example/fhir/${ref}` },
    { reference: `${ref}/_history/3` },
  );
}

const statuses = fc.oneof(
  { weight: 8, arbitrary: fc.constant('completed') },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      'not-done',
      'entered-in-error',
      'in-progress',
      'stopped',
      'preparation',
      'unknown',
    ),
  },
);

/** Activities that a nurse charts; insertion and removal come from their own generators, so that lines stay in place. */
export const charted = lineCareActivities
  .map(([code]) => code)
  .filter((code) => code !== 'insertion' && code !== 'removal');

export function procedure(asOfMs: number, devices: readonly string[]): fc.Arbitrary<Resource> {
  const at = timeNear(asOfMs);
  return fc
    .record({
      activity: fc.oneof(
        { weight: 30, arbitrary: fc.constantFrom(...charted) },
        { weight: 2, arbitrary: fc.constantFrom('insertion', 'removal') },
      ),
      status: statuses,
      at,
      from: maybe(at, 5),
      targets: fc.array(fc.constantFrom(...devices, 'Device/unknown'), { minLength: 0, maxLength: 2 }),
      dressing: maybe(one(dressingTypes)),
      site: maybe(fc.constantFrom('exit-site', 'incision'), 4),
    })
    .chain(({ activity, status, at: end, from, targets, dressing, site }) =>
      fc.tuple(...targets.map(referenceTo)).map((references) => ({
        resourceType: 'Procedure',
        ...defined({
          status,
          code: concept(codeSystem.lineCareActivity, activity, [{ system: standard.snomed, code: '1' }]),
          subject: { reference: 'Patient/p0' },
          ...(from === undefined
            ? { performedDateTime: end }
            : { performedPeriod: defined({ start: from, end }) }),
          focalDevice: references.map((manipulated) => ({ manipulated })),
          usedCode: dressing && [concept(codeSystem.dressingType, dressing)],
          bodySite: site && [concept(codeSystem.lineSite, site)],
        }),
      })),
    );
}

const countUnits = [
  '10*9/L',
  '10*3/uL',
  'K/uL',
  '10^9/L',
  '/mm3',
  'cells/uL',
  'G/L',
  'g/L',
  '%',
  'x10^9/L',
] as const;

export function laboratory(asOfMs: number): fc.Arbitrary<Resource> {
  return fc
    .record({
      code: fc.constantFrom(
        '751-8',
        '753-4',
        '26499-4',
        '6690-2',
        '769-0',
        '764-1',
        '770-8',
        '768-2',
        '26507-4',
        '777-3',
        '29463-7',
      ),
      value: fc.oneof(
        fc.constantFrom(0, 0.1, 0.19, 0.2, 0.21, 0.5, 1, 20, 45, 80, 200, 800, -1, 99999),
        fc.double({ min: 0, max: 60, noNaN: true }),
      ),
      unit: maybe(fc.constantFrom(...countUnits, 'kg'), 8),
      comparator: maybe(fc.constantFrom('<', '<=', '>', '>=', '~'), 1),
      status: fc.constantFrom(
        'final',
        'final',
        'final',
        'preliminary',
        'corrected',
        'amended',
        'cancelled',
        'entered-in-error',
        'registered',
      ),
      at: timeNear(asOfMs),
      // Results of one specimen share its time.
      drawn: maybe(fc.integer({ min: -6, max: 0 }), 1),
    })
    .map(({ code, value, unit, comparator, status, at, drawn }) => ({
      resourceType: 'Observation',
      ...defined({
        status,
        code: concept(standard.loinc, code),
        subject: { reference: 'Patient/p0' },
        effectiveDateTime: drawn === undefined ? at : instantText(asOfMs + drawn * 12 * hour),
        valueQuantity: defined({ value, unit, comparator }),
      }),
    }));
}

/** The findings that rules begin or end with most often, and any other. */
const findingCode = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.constantFrom<LineFinding>(
      'dressing-condition',
      'connector-condition',
      'blood-return',
      'flush-resistance',
      'damage',
      'body-temperature',
      'incision-healed',
    ),
  },
  { weight: 1, arbitrary: fc.constantFrom(...findingCodes) },
);

const measured: Readonly<Record<string, readonly object[]>> = {
  Cel: [
    { value: 36.6, unit: 'Cel' },
    { value: 38, unit: 'Cel' },
    { value: 39.2, unit: 'Cel', comparator: '>' },
    { value: 101, unit: '[degF]' },
    { value: 39, unit: 'furlong' },
  ],
  cm: [
    { value: 3, unit: 'cm' },
    { value: 41, unit: 'mm' },
    { value: 4.5, unit: 'cm', comparator: '<' },
    { value: 42, unit: 'cm' },
  ],
};

/** A value of a finding’s own kind; a grade in a hospital’s words among them. */
function valueOf(code: LineFinding): fc.Arbitrary<object> {
  const { kind, unit = '', valuesFrom } = findingRow(code);
  const coded = (system: string, values: readonly string[]) =>
    fc.constantFrom(...values).map((value) => ({ valueCodeableConcept: concept(system, value) }));
  const flag = fc.boolean().map((valueBoolean) => ({ valueBoolean }));
  switch (kind) {
    case 'boolean':
      return flag;
    case 'presence':
      return fc.oneof(flag, coded(codeSystem.lineFinding, ['present', 'absent', 'grade2']));
    case 'quantity':
      return fc.constantFrom(...(measured[unit] ?? [])).map((valueQuantity) => ({ valueQuantity }));
    case 'components':
      return fc
        .subarray([...(valuesOf(code) ?? [])], { minLength: 1 })
        .chain((parts) =>
          fc.tuple(
            ...parts.map((part) =>
              flag.map((value) => ({ code: concept(codeSystem.lineFinding, part), ...value })),
            ),
          ),
        )
        .map((component) => ({ component }));
    case 'coded':
      return coded(codeSystem[valuesFrom ?? 'lineFinding'], valuesOf(code) ?? []);
  }
}

export function finding(asOfMs: number, devices: readonly string[]): fc.Arbitrary<Resource> {
  return fc
    .record({
      what: findingCode.chain((code) => valueOf(code).map((value) => [code, value] as const)),
      status: fc.constantFrom('final', 'final', 'final', 'amended', 'preliminary', 'entered-in-error'),
      at: timeNear(asOfMs),
      on: maybe(fc.constantFrom(...devices), 9),
    })
    .map(({ what: [code, value], status, at, on }) => ({
      resourceType: 'Observation',
      ...defined({
        status,
        code: concept(codeSystem.lineFinding, code),
        subject: { reference: 'Patient/p0' },
        focus: on && [{ reference: on }],
        effectiveDateTime: at,
        ...value,
      }),
    }));
}

export function infusion(asOfMs: number, devices: readonly string[]): fc.Arbitrary<Resource> {
  return fc
    .record({
      status: fc.constantFrom(
        'in-progress',
        'completed',
        'stopped',
        'on-hold',
        'not-done',
        'entered-in-error',
      ),
      infusate: maybe(one(infusates)),
      start: timeNear(asOfMs),
      end: timeNear(asOfMs),
      on: fc.constantFrom(...devices),
    })
    .map(({ status, infusate, start, end, on }) => ({
      resourceType: 'MedicationAdministration',
      ...defined({
        status,
        subject: { reference: 'Patient/p0' },
        medicationCodeableConcept: infusate ? concept(codeSystem.infusate, infusate) : { text: 'something' },
        effectivePeriod: defined({ start, end: status === 'in-progress' ? undefined : end }),
        device: [{ reference: on }],
      }),
    }));
}

export function order(asOfMs: number, devices: readonly string[]): fc.Arbitrary<Resource> {
  return fc
    .record({
      activity: fc.constantFrom(...charted),
      repeat: fc.constantFrom(
        { frequency: 2, period: 1, periodUnit: 'd' },
        { frequency: 1, period: 12, periodUnit: 'h' },
        { timeOfDay: ['08:00:00', '20:00:00'] },
        { frequency: 1, period: 3, periodUnit: 'wk' },
        { when: ['HS'] },
      ),
      status: fc.constantFrom('active', 'active', 'revoked'),
      authoredOn: timeNear(asOfMs),
      on: maybe(fc.constantFrom(...devices)),
    })
    .map(({ activity, repeat, status, authoredOn, on }) => ({
      resourceType: 'ServiceRequest',
      ...defined({
        status,
        intent: 'order',
        code: concept(codeSystem.lineCareActivity, activity),
        subject: { reference: 'Patient/p0' },
        occurrenceTiming: { repeat },
        authoredOn,
        supportingInfo: on && [{ reference: on }],
      }),
    }));
}
