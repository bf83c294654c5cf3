import {
  codeSystem,
  coding,
  findingRow,
  identifierSystem,
  standard,
  valueSystemOf,
  writtenProfile,
} from '@dwellward/profiles';
import type { Bundle, BundleEntry, Observation, Procedure } from 'fhir/r4.js';
import type { LineRecord } from '../model/record.js';
import type { Charted, ChartedFinding } from './model.js';

/**
 * What was charted as FHIR: a Procedure and an Observation a finding, in one transaction. Each is created only where its
 * identifier is not on the server yet, so that the same act sent twice is there once.
 * @example
 * ```ts
 * const act = { id: 'a', line: records.lines[0]!.ref, activity: 'site-assessment', findings: [], at: when.asOf } as const;
 * chartedBundle(act, records.lines[0]!).entry?.length; // 1
 * ```
 */
export function chartedBundle(charted: Charted, line: LineRecord): Bundle {
  const { activity, findings } = charted;
  return {
    resourceType: 'Bundle',
    type: 'transaction',
    entry: [
      ...(activity === undefined ? [] : [entryOf(procedureOf({ ...charted, activity }, line))]),
      ...findings.map((finding, at) => entryOf(observationOf(finding, at, charted, line))),
    ],
  };
}

function entryOf(resource: Procedure | Observation): BundleEntry {
  const [identifier] = resource.identifier ?? [];
  return {
    resource,
    request: {
      method: 'POST',
      url: resource.resourceType,
      ifNoneExist: `identifier=${encodeURIComponent(`${identifier?.system}|${identifier?.value}`)}`,
    },
  };
}

function procedureOf(
  { id, activity, at, by, putOn, note, lumen }: Charted & { readonly activity: string },
  line: LineRecord,
): Procedure {
  return {
    resourceType: 'Procedure',
    meta: { profile: [writtenProfile.careEvent] },
    identifier: [{ system: identifierSystem.charted, value: id }],
    status: 'completed',
    code: { coding: [coding('lineCareActivity', activity)] },
    subject: { reference: line.patient.ref },
    performedDateTime: at,
    ...(by === undefined ? {} : { performer: [{ actor: { display: by } }] }),
    focalDevice: [{ manipulated: { reference: deviceOf(line, lumen) } }],
    ...(putOn === undefined ? {} : { usedCode: [{ coding: [coding('dressingType', putOn)] }] }),
    ...(note === undefined ? {} : { note: [{ text: note }] }),
  };
}

function observationOf(
  found: ChartedFinding,
  at: number,
  { id, at: effectiveDateTime, by, note, activity, lumen }: Charted,
  line: LineRecord,
): Observation {
  return {
    resourceType: 'Observation',
    meta: { profile: [writtenProfile.finding] },
    identifier: [{ system: identifierSystem.charted, value: `${id}.${at + 1}` }],
    status: 'final',
    code: { coding: [coding('lineFinding', found.finding)] },
    subject: { reference: line.patient.ref },
    focus: [{ reference: findingRow(found.finding).scope === 'lumen' ? deviceOf(line, lumen) : line.ref }],
    effectiveDateTime,
    ...(by === undefined ? {} : { performer: [{ display: by }] }),
    ...valueOf(found),
    ...(note === undefined || activity !== undefined ? {} : { note: [{ text: note }] }),
  };
}

function deviceOf(line: LineRecord, lumen: string | undefined): string {
  return line.lumens.find(({ ref }) => ref === lumen)?.device ?? line.ref;
}

type Value = Pick<Observation, 'valueCodeableConcept' | 'valueBoolean' | 'valueQuantity' | 'component'>;

function valueOf({ finding, value, flag, quantity }: ChartedFinding): Value {
  const { kind, unit } = findingRow(finding);
  if (kind === 'components')
    return {
      component: [{ code: { coding: [coding('lineFinding', value ?? finding)] }, valueBoolean: true }],
    };
  if (quantity !== undefined)
    return {
      valueQuantity: {
        value: Number(quantity),
        ...(unit === undefined ? {} : { unit, code: unit, system: standard.ucum }),
      },
    };
  if (value !== undefined)
    return { valueCodeableConcept: { coding: [{ system: valueSystemOf(finding), code: value }] } };
  if (kind === 'boolean') return { valueBoolean: flag ?? true };
  return {
    valueCodeableConcept: {
      coding: [{ system: codeSystem.findingValue, code: flag === false ? 'absent' : 'present' }],
    },
  };
}
