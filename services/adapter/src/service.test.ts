import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readConfig } from './config.js';
import { startDemoServer } from '@dwellward/demo-server';
import { realMachine } from './machine.js';
import { loadPolicy } from './policy.js';
import { startService } from './service.js';
import { countingCare } from './testing/care.js';

let demo: Awaited<ReturnType<typeof startDemoServer>>;
beforeAll(async () => {
  demo = await startDemoServer();
});
afterAll(() => demo.close());

const put = async (path: string, resource: object) => {
  const headers = { 'content-type': 'application/fhir+json' };
  const response = await fetch(`${demo.baseUrl}/${path}`, {
    method: 'PUT',
    headers,
    body: JSON.stringify(resource),
  });
  expect(response.status).toBe(200);
};
const until = async (isSo: () => boolean | Promise<boolean>) => {
  while (!(await isSo())) await new Promise((resolve) => setImmediate(resolve));
};

it('keeps polling, writes what becomes due, says so at /readyz, and stops when asked', async () => {
  const config = readConfig({
    DWELLWARD_FHIR_URL: demo.baseUrl,
    DWELLWARD_ZONE: 'Europe/Berlin',
    DWELLWARD_PORT: '0',
  });
  let pauses = 0;
  const machine = {
    ...realMachine,
    sleep: (milliseconds: number) => {
      if (milliseconds === config.pollSeconds * 1000) pauses += 1;
      return new Promise<void>((resolve) => setImmediate(resolve));
    },
  };
  const policy = await loadPolicy(config.policy);
  const log = pino({ level: 'silent' });
  const service = await startService({ config, policy, machine, log, care: countingCare });
  const ready = async () => (await fetch(`${service.url}/readyz`)).status;
  await until(async () => (await ready()) === 200);

  await put('Patient/p1', { resourceType: 'Patient', id: 'p1' });
  const type = { coding: [{ code: 'picc' }] };
  await put('Device/d1', { resourceType: 'Device', id: 'd1', type, patient: { reference: 'Patient/p1' } });
  await until(() => demo.repository.count('Task') > 0);
  expect(demo.repository.count('Task')).toBe(1);
  expect(pauses).toBeGreaterThan(0);

  await service.stop();
  const rounds = service.poller.counters.rounds;
  await expect(ready()).rejects.toThrow();
  await new Promise((resolve) => setImmediate(resolve));
  expect(service.poller.counters.rounds).toBe(rounds);
});
