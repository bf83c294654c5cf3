import { createServer } from 'node:net';
import type { AddressInfo } from 'node:net';
import {
  FhirServer,
  loadPolicy,
  readConfig,
  realMachine,
  startService,
  type Service,
} from '@dwellward/adapter';
import { startBoard, type RunningBoard } from '@dwellward/board';
import { loadBundle, startDemoServer } from '@dwellward/demo-server';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { pino } from 'pino';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startRecordSystem, systemToken, type RecordSystem } from '../board/record-system.js';
import { isAccessible, launch, screenshot } from './page.js';

let demo: Awaited<ReturnType<typeof startDemoServer>>;
let system: RecordSystem;
let service: Service;
let board: RunningBoard;
let browser: Browser;

const freePort = () =>
  new Promise<number>((done) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => done(port));
    });
  });

beforeAll(async () => {
  demo = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), demoUnit());
  system = await startRecordSystem(demo.baseUrl);
  const config = readConfig({
    DWELLWARD_FHIR_URL: system.base,
    DWELLWARD_FHIR_TOKEN: systemToken,
    DWELLWARD_ZONE: demoZone,
    DWELLWARD_PORT: '0',
  });
  service = await startService({
    ...{ config, policy: await loadPolicy(config.policy), machine: realMachine },
    ...{ log: pino({ level: 'silent' }), asOf: () => demoInstant, board: { signIn: true } },
  });
  while (service.poller.lastRound === undefined) await new Promise((done) => setTimeout(done, 20));
  const port = await freePort();
  board = await startBoard({
    ...{ adapterUrl: service.url, port },
    signIn: {
      ...{ fhirBases: [system.base], client: { id: 'the-board' } },
      publicUrl: `http://127.0.0.1:${port}/`,
    },
  });
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
  await board?.close();
  await service?.stop();
  await system?.close();
  await demo?.close();
});

it('signs in with the record system, opens on the patient whose record it was, and forgets all on signing out', async () => {
  system.behave({ readable: ['spindle-wagtail'], patient: 'spindle-wagtail' });
  const context = await browser.newContext({ viewport: { width: 1280, height: 1000 } });
  const page = await context.newPage();
  await page.goto(board.url);
  await page.getByRole('heading', { name: 'Nobody is signed in' }).waitFor();
  await isAccessible(page);
  await screenshot(page, 'sign-in');
  await page.getByRole('link', { name: 'Sign in with the record system' }).click();
  await page.locator('.dwell').waitFor();
  expect(page.url()).toBe(`${board.url}#/line/Device/spindle-picc`);
  const kept = await page.evaluate(() =>
    JSON.stringify([document.cookie, { ...localStorage }, { ...sessionStorage }]),
  );
  expect(kept).toBe('["",{},{}]');
  await page.getByRole('link', { name: 'Now and next' }).click();
  await page.locator('.lane').first().waitFor();
  expect(await page.locator('.patient').count()).toBe(1);
  await isAccessible(page);
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.getByRole('heading', { name: 'Nobody is signed in' }).waitFor();
  expect(await page.locator('body').textContent()).not.toMatch(/Spindle/);
  await context.close();
});
