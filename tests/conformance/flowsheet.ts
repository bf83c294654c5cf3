import type { LineRecord } from '@dwellward/core';
import { codeSystem, type LineCareActivity } from '@dwellward/profiles';
import type { Bundle, ConceptMap, Observation, Patient } from 'fhir/r4.js';

// An intensive-care chart without any Device or Procedure: one code for each type of line and act, the value of the row is
// the time of the act, and its own time is when it was charted.

const chart = 'https://bellwether.example/flowsheet';

/** The acts that the chart has a row for. */
export const chartedActs = [
  'insertion',
  'removal',
  'dressing-change',
  'needleless-connector-change',
  'administration-set-change',
  'necessity-review',
] as const satisfies readonly LineCareActivity[];

export interface Flowsheet {
  readonly bundle: Bundle;
  readonly map: ConceptMap;
}

const rowOf = (type: string, what: string) => `${type}: ${what}`;

/** What such a chart would have of these lines, and the map that says what its rows mean. */
export function flowsheetOf(lines: readonly LineRecord[], patients: readonly Patient[]): Flowsheet {
  const rows = lines.flatMap((line, i): Observation[] => {
    const { type, patient, events } = line;
    if (type === undefined) return [];
    const stay = `stay-of-${patient.ref.split('/')[1]}`;
    const row = (what: string, n: number, value: Partial<Observation>, charted: string): Observation => ({
      resourceType: 'Observation',
      id: `row-${i}-${what.replaceAll(' ', '-')}-${n}`,
      status: 'final',
      code: { coding: [{ system: chart, code: rowOf(type, what), display: rowOf(type, what) }] },
      subject: { reference: patient.ref },
      encounter: { reference: `Encounter/${stay}` },
      effectiveDateTime: charted,
      ...value,
    });
    return events.flatMap(({ activity, status, at, dressing }, n) => {
      const what = chartedActs.find((one) => one === activity);
      if (what === undefined || status !== 'completed' || at === undefined) return [];
      const charted = new Date(Date.parse(at.text) + 45 * 60_000).toISOString();
      return [
        row(what, n, { valueDateTime: at.text }, charted),
        // On every shift the chart repeats the time of what was done on an earlier one.
        row(what, n + 1000, { valueDateTime: at.text }, new Date(Date.parse(charted) + 60_000).toISOString()),
        ...(dressing === undefined
          ? []
          : [
              row(
                'dressing type',
                n,
                { valueCodeableConcept: { coding: [{ system: chart, code: dressing }] } },
                charted,
              ),
            ]),
      ];
    });
  });
  const types = [...new Set(lines.flatMap(({ type }) => type ?? []))];
  const ofLine = (type: string) => ({ property: 'Device.type', system: codeSystem.lineType, value: type });
  const group = (target: string, element: object[]) => ({ source: chart, target, element });
  const map = {
    resourceType: 'ConceptMap',
    status: 'active',
    group: [
      group(
        codeSystem.lineCareActivity,
        types.flatMap((type) =>
          chartedActs.map((act) => ({
            code: rowOf(type, act),
            target: [
              {
                code: act,
                equivalence: 'wider',
                product: [ofLine(type), { property: 'Procedure.performed', value: 'Observation.value' }],
              },
            ],
          })),
        ),
      ),
      group(
        codeSystem.chartedItem,
        types.map((type) => ({
          code: rowOf(type, 'dressing type'),
          target: [{ code: 'dressing-in-place', equivalence: 'wider', product: [ofLine(type)] }],
        })),
      ),
      group(
        codeSystem.dressingType,
        ['gauze-dressing', 'transparent-dressing', 'chlorhexidine-dressing'].map((code) => ({
          code,
          target: [{ code, equivalence: 'equal' }],
        })),
      ),
    ],
  } as unknown as ConceptMap;
  const entry = [...patients, ...rows].map((resource) => ({ resource }));
  return { bundle: { resourceType: 'Bundle', type: 'collection', entry }, map };
}
