import { dueCare, readCodeMaps, readRecords, type CodeMaps, type LineCare } from '@dwellward/core';
import { demoInstant, demoPolicyLayers, demoZone } from '@dwellward/fixtures';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import type { Bundle } from 'fhir/r4.js';

function policy() {
  const reading = readPolicy(demoPolicyLayers.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

const applied = policy();

export const entriesOf = ({ entry = [] }: Bundle) =>
  entry.map(({ fullUrl, resource }) => ({ resource, ...(fullUrl === undefined ? {} : { fullUrl }) }));

/** Due care of a Bundle by the policy of the demo unit. */
export function careOf(bundle: Bundle, maps?: CodeMaps) {
  const records = readRecords(entriesOf(bundle), maps === undefined ? {} : { maps });
  const cares = records.lines.map((line) => dueCare(line, applied, { asOf: demoInstant, zone: demoZone }));
  return { records, cares };
}

export function mapsOf(resource: unknown): CodeMaps {
  const reading = readCodeMaps([{ name: 'larkspur.json', resource }]);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings, null, 1));
  return reading.maps;
}

/** What is compared of due care. */
export const itemsOf = (cares: readonly LineCare[]) =>
  cares.flatMap(({ items }) =>
    items.map(({ line, activity, target, state, opens, dueBy, work }) => ({
      line,
      activity,
      target,
      state,
      opens,
      dueBy,
      work,
    })),
  );
