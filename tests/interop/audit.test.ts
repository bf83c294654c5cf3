// What a write leaves of itself, where the hospital wants it told.
import { FhirServer } from '@dwellward/adapter';
import { startDemoServer } from '@dwellward/demo-server';
import type { AuditEvent } from 'fhir/r4.js';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { faultsOf } from '../conformance/r4-validators.js';
import { adapterOver, loadBundle, search, unitOf, wrote } from './support.js';

const heron = 'hemlock-heron';
let demo: Awaited<ReturnType<typeof startDemoServer>>;
beforeEach(async () => {
  demo = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), unitOf(heron));
});
afterEach(() => demo.close());

const events = () => search<AuditEvent>(demo.baseUrl, 'AuditEvent?_count=1000');

it('is an AuditEvent of the patient and the time, valid and with nothing of what was written, and one of each write', async () => {
  const adapter = await adapterOver(demo.baseUrl, { audit: true, fullEvery: 1 });
  await adapter.round();
  const [event, ...more] = await events();
  expect(more).toEqual([]);
  expect(event).toMatchObject({
    subtype: [{ code: 'transaction' }],
    agent: [{ who: { display: 'Dwellward' }, requestor: true }],
    entity: [{ what: { reference: `Patient/${heron}` } }],
  });
  expect(await faultsOf(event!)).toEqual([]);
  expect(JSON.stringify(event)).not.toMatch(/dressing|flush|lumen/i);
  expect(wrote(await adapter.round())).toBe(0);
  expect(await events()).toHaveLength(1);
});

it('is nothing where it is not wanted, or the server has none', async () => {
  await (await adapterOver(demo.baseUrl)).round();
  expect(await events()).toEqual([]);
});
