// The demo unit in the codes of an invented hospital, on the router of @medplum/fhir-router: with the hospital’s map the
// adapter finds its lines and asks for the same care as of the demo unit; without it, it finds none and says so.
import { dueCareBy, FhirServer, loadPolicy, type PollerOptions } from '@dwellward/adapter';
import { lineTokens, readCodeMaps } from '@dwellward/core';
import { loadBundle, startDemoServer } from '@dwellward/demo-server';
import { demoPolicyLayers, demoZone } from '@dwellward/fixtures';
import type { Bundle, Observation, Task } from 'fhir/r4.js';
import { afterEach, describe, expect, it } from 'vitest';
import { recoded } from '../conformance/recode.js';
import { adapterOver, base, search, unitOf } from './support.js';

const unit = unitOf('hemlock-heron', 'buckthorn-bittern', 'alder-nuthatch');
const { bundle, map } = recoded(unit);
const reading = readCodeMaps([{ name: 'larkspur.json', resource: map }]);
if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
const { maps } = reading;

const running: { close(): Promise<void> }[] = [];
afterEach(async () => {
  for (const one of running.splice(0)) await one.close();
});

async function tasksOf(record: Bundle, more: Partial<Omit<PollerOptions, 'asOf'>> = {}) {
  const server = await startDemoServer();
  running.push(server);
  await loadBundle(new FhirServer({ baseUrl: server.baseUrl }), record);
  const poller = await adapterOver(server.baseUrl, more);
  const { failed } = await poller.round();
  expect(failed).toBe(0);
  const tasks = await search<Task>(server.baseUrl, 'Task');
  return {
    patients: poller.patients,
    // Identities are left out: they name the event that was counted from, which is charted as another resource here.
    tasks: tasks
      .map(({ status, code, focus, restriction }) =>
        JSON.stringify([status, code?.coding?.[0]?.code, focus?.reference, restriction?.period]),
      )
      .sort(),
  };
}

describe('an adapter over a hospital with codes of its own', () => {
  const byMap = async () => ({
    care: dueCareBy(await loadPolicy([...demoPolicyLayers]), demoZone, undefined, maps),
    tokens: lineTokens(maps),
  });

  it('writes the Tasks of the demo unit with the hospital’s map', async () => {
    const expected = await tasksOf(unit);
    expect(expected.tasks.length).toBeGreaterThan(20);
    expect(await tasksOf(bundle, await byMap())).toEqual(expected);
  });

  it('finds nobody with a line without it', async () => {
    expect(await tasksOf(bundle)).toEqual({ patients: 0, tasks: [] });
  });

  it('writes no Tasks for a line that only a chart tells of, and fails for nobody', async () => {
    const row: Observation = {
      resourceType: 'Observation',
      id: 'chart-row',
      status: 'final',
      subject: { reference: 'Patient/alder-nuthatch' },
      encounter: { reference: 'Encounter/another-stay' },
      effectiveDateTime: '2026-11-24T08:00:00+01:00',
      code: { coding: [{ system: 'https://larkspur.example/chart', code: 'MIDLINE-DRESSING' }] },
      valueDateTime: '2026-11-24T07:00:00+01:00',
    };
    const chart: Bundle = { ...bundle, entry: [...bundle.entry!, { resource: row }] };
    const rows = readCodeMaps([
      { name: 'larkspur.json', resource: map },
      {
        name: 'chart.json',
        resource: {
          resourceType: 'ConceptMap',
          status: 'active',
          group: [
            {
              source: 'https://larkspur.example/chart',
              target: `${base}/CodeSystem/line-care-activity`,
              element: [
                {
                  code: 'MIDLINE-DRESSING',
                  target: [
                    {
                      code: 'dressing-change',
                      equivalence: 'wider',
                      product: [
                        { property: 'Device.type', system: `${base}/CodeSystem/line-type`, value: 'midline' },
                        { property: 'Procedure.performed', value: 'Observation.value' },
                      ],
                    },
                  ],
                },
              ],
            },
          ],
        },
      },
    ]);
    if (!rows.ok) throw new Error(JSON.stringify(rows.findings));
    const told: string[] = [];
    const care = dueCareBy(
      await loadPolicy([...demoPolicyLayers]),
      demoZone,
      (_, { chartedOnly }) => void told.push(...chartedOnly),
      rows.maps,
    );
    const is = await tasksOf(chart, { care, tokens: lineTokens(rows.maps) });
    expect(told).toHaveLength(1);
    const { tasks } = await tasksOf(bundle, await byMap());
    expect(is.tasks).toEqual(tasks);
  });
});
