import { codeSystem, standard } from '@dwellward/profiles';
import type { Bundle, CodeableConcept, ConceptMap, Observation, Procedure } from 'fhir/r4.js';

// An invented hospital: every code of the demo unit becomes one of its own, and what it means stands in its ConceptMap.

type Json = Record<string, unknown>;

const hospital = 'https://larkspur.example/codes';

/** The systems of the invented hospital, by those that they are mapped to. */
const systems: Readonly<Record<string, string>> = {
  [codeSystem.lineType]: `${hospital}/devices`,
  [codeSystem.lineProperty]: `${hospital}/device-properties`,
  [codeSystem.lineCareActivity]: `${hospital}/acts`,
  [codeSystem.lineFinding]: `${hospital}/flowsheet`,
  [codeSystem.dressingType]: `${hospital}/materials`,
  [codeSystem.securementType]: `${hospital}/materials`,
  [codeSystem.dressingCondition]: `${hospital}/answers`,
  [codeSystem.connectorCondition]: `${hospital}/answers`,
  [codeSystem.lineSite]: `${hospital}/sites`,
  [standard.loinc]: `${hospital}/laboratory`,
  [standard.atc]: `${hospital}/pharmacy`,
  [standard.rxnorm]: `${hospital}/pharmacy`,
};

interface Mapped {
  readonly source: string;
  readonly code: string;
  readonly target: string;
  readonly to: string;
  readonly product?: readonly { readonly property: string; readonly value: string }[];
}

/** Acts that the hospital charts as rows of a flowsheet: an Observation whose value is the time of the act. */
const charted: ReadonlySet<string> = new Set([
  'site-assessment',
  'necessity-review',
  'external-length-measurement',
]);
const flushTexts = ['Line flushed', 'line FLUSHED.', ' Line  flushed'];

export interface Recoded {
  readonly bundle: Bundle;
  readonly map: ConceptMap;
  /** Every system and code that the hospital uses now, with the kind of resource it stands on. */
  readonly codes: readonly string[];
}

/** The unit as that hospital would have it, with the map that says what its codes mean. */
export function recoded(unit: Bundle): Recoded {
  const known = new Map<string, Mapped>();
  const used = new Set<string>();
  let flushes = 0;

  const own = (system: string, code: string, from: string, more: Partial<Mapped> = {}): Json | undefined => {
    const source = more.source ?? systems[system];
    if (source === undefined) return undefined;
    const key = JSON.stringify([system, code, more.source]);
    const before = known.get(key);
    const mapped = before ?? {
      source,
      code: `${source.slice(hospital.length + 1, hospital.length + 4).toUpperCase()}${String(known.size + 100)}`,
      target: system,
      to: code,
      ...more,
    };
    known.set(key, mapped);
    used.add(`${from} ${mapped.source} ${mapped.code}`);
    return { system: mapped.source, code: mapped.code, display: `Local ${mapped.code}` };
  };

  const snomedHome: Readonly<Record<string, string>> = {
    Device: `${hospital}/devices`,
    Procedure: `${hospital}/acts`,
    MedicationAdministration: `${hospital}/pharmacy`,
  };

  function walk(value: unknown, from: string): unknown {
    if (Array.isArray(value)) return value.map((one: unknown) => walk(one, from));
    if (typeof value !== 'object' || value === null) return value;
    const { system, code } = value as Json;
    if (typeof system === 'string' && typeof code === 'string') {
      const more = system === standard.snomed ? { source: snomedHome[from] ?? `${hospital}/other` } : {};
      return own(system, code, from, more) ?? value;
    }
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, walk(one, from)]));
  }

  function act(procedure: Procedure): Json {
    const code = procedure.code?.coding?.[0]?.code ?? '';
    if (code === 'flush') {
      flushes += 1;
      const text = flushTexts[flushes % flushTexts.length];
      return { ...(walk(procedure, 'Procedure') as Json), code: { text } };
    }
    if (!charted.has(code) || procedure.performedDateTime === undefined)
      return walk(procedure, 'Procedure') as Json;
    const coding = own(codeSystem.lineCareActivity, code, 'Observation', {
      source: `${hospital}/flowsheet`,
      product: [{ property: 'Procedure.performed', value: 'Observation.value' }],
    });
    const { id, subject, focalDevice = [], performedDateTime, identifier, basedOn } = procedure;
    return {
      resourceType: 'Observation',
      id,
      status: procedure.status === 'completed' ? 'final' : 'cancelled',
      code: { coding: [coding] },
      subject,
      focus: focalDevice.map(({ manipulated }) => manipulated),
      // Charted at the end of the shift, later than it was done.
      effectiveDateTime: '2026-11-25T06:59:00+01:00',
      valueDateTime: performedDateTime,
      ...(identifier ? { identifier } : {}),
      ...(basedOn ? { basedOn } : {}),
    } satisfies Json & Partial<Record<keyof Observation, unknown>>;
  }

  /** A value of a finding that stands without a system is one of ours all the same. */
  function answers(observation: Json): Json {
    const concept = observation['valueCodeableConcept'] as CodeableConcept | undefined;
    const [coding] = concept?.coding ?? [];
    if (coding?.code === undefined || coding.system !== undefined) return observation;
    const value = own(codeSystem.findingValue, coding.code, 'Observation', { source: `${hospital}/answers` });
    return { ...observation, valueCodeableConcept: { coding: [value] } };
  }

  const entry = (unit.entry ?? []).map(({ fullUrl, resource }) => {
    const type = resource?.resourceType ?? '';
    const changed =
      resource?.resourceType === 'Procedure'
        ? act(resource as Procedure)
        : ['Encounter', 'Location'].includes(type)
          ? (resource as unknown as Json)
          : (walk(type === 'Observation' ? answers(resource as unknown as Json) : resource, type) as Json);
    return {
      fullUrl: (fullUrl ?? '').replace(`/${type}/`, `/${String(changed['resourceType'])}/`),
      resource: changed,
    };
  });
  return {
    bundle: { ...unit, entry } as unknown as Bundle,
    map: mapOf([...known.values()]),
    codes: [...used].sort(),
  };
}

function mapOf(mapped: readonly Mapped[]): ConceptMap {
  const groups = new Map<string, Mapped[]>();
  for (const one of mapped) {
    const key = JSON.stringify([one.source, one.target]);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return {
    resourceType: 'ConceptMap',
    status: 'active',
    group: [
      ...[...groups.values()].map((group) => ({
        source: group[0]!.source,
        target: group[0]!.target,
        element: group.map(({ code, to, product }) => ({
          code,
          target: [
            { code: to, equivalence: 'equivalent' as const, ...(product ? { product: [...product] } : {}) },
          ],
        })),
      })),
      {
        source: codeSystem.chartedText,
        target: codeSystem.lineCareActivity,
        element: [{ code: 'Line flushed', target: [{ code: 'flush', equivalence: 'equivalent' as const }] }],
      },
    ],
  };
}
