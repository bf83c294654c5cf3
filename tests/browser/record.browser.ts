import { identifierSystem } from '@dwellward/profiles';
import type { Browser, Locator, Page } from 'playwright-core';
import type { Observation, Procedure } from 'fhir/r4.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isAccessible, launch, open, screenshot, type Watched } from './page.js';
import { startUnit, type RunningUnit } from './unit.js';

// What is recorded beside the act itself, and what was not asked for, in a real Chromium over an independent FHIR server.

let unit: RunningUnit;
let browser: Browser;
let watched: Watched;
let page: Page;

beforeAll(async () => {
  [unit, browser] = await Promise.all([startUnit(), launch()]);
  watched = await open(browser, unit.board.url);
  ({ page } = watched);
});

afterAll(async () => {
  await browser?.close();
  await unit?.close();
});

const lane = (line: string) => page.locator(`[data-line="Device/${line}"]`);
const row = (of: Locator, text: RegExp) => of.locator('.row').filter({ hasText: text });
const record = (of: Locator) => of.getByRole('button', { name: /^Record/ }).first();
const charted = async <Type extends Procedure | Observation>(type: string, patient: string) =>
  ((await unit.held(`${type}?patient=${patient}&_count=500`)) as Type[]).filter(({ identifier }) =>
    identifier?.some(({ system }) => system === identifierSystem.charted),
  );

describe('what is seen with an act', () => {
  it('is asked of each lumen by itself, and stands on that lumen', async () => {
    await row(lane('medlar-subclavian'), /Flush/)
      .first()
      .getByRole('button', { name: /^Record/ })
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Blood return, brown').selectOption('sluggish');
    await isAccessible(page);
    await dialog.getByRole('button', { name: 'Save' }).click();
    await page.getByText(/^Recorded: /).waitFor();
    const found = await charted<Observation>('Observation', 'medlar-moorhen');
    expect(found).toMatchObject([
      {
        code: { coding: [{ code: 'blood-return' }] },
        focus: [{ reference: 'Device/medlar-subclavian-brown' }],
        valueCodeableConcept: { coding: [{ code: 'sluggish' }] },
      },
    ]);
  });

  it('without a time is not taken as now', async () => {
    await record(row(lane('hemlock-tunneled'), /./).first()).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Earlier, at').check();
    await dialog.locator('input[type="datetime-local"]').fill('');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await dialog.getByText('Say when it was done, or choose now.').waitFor();
    expect(await charted('Procedure', 'hemlock-heron')).toEqual([]);
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
  });

  it('that somebody else has recorded meanwhile is told before it is written again', async () => {
    const own = row(lane('spindle-picc'), /Dressing change/).first();
    await record(own).click();
    const dialog = page.getByRole('dialog');
    const answer = await fetch(`${unit.service.url}/board-api/charted`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        id: crypto.randomUUID(),
        line: 'Device/spindle-picc',
        activity: 'dressing-change',
        at: new Date(Date.parse(unit.now()) - 600_000).toISOString(),
      }),
    });
    expect(answer.status).toBe(201);
    await expect
      .poll(() => row(lane('spindle-picc'), /Dressing change/).allTextContents(), { timeout: 20_000 })
      .not.toContainEqual(expect.stringContaining('overdue'));
    await dialog.getByRole('button', { name: 'Save' }).click();
    await dialog.getByText(/^Somebody has recorded this/).waitFor();
    expect(await charted('Procedure', 'spindle-wagtail')).toHaveLength(1);
    await isAccessible(page);
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
  });
});

describe('what was not asked for', () => {
  it('is recorded too: an act on the lumen that is chosen', async () => {
    await lane('medlar-subclavian')
      .getByRole('button', { name: /^Record something else/ })
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Care, or what was seen').waitFor();
    await isAccessible(page);
    await dialog.getByLabel('Care, or what was seen').selectOption({ label: 'Blood sampling' });
    await dialog.getByRole('button', { name: 'Save' }).click();
    await dialog.getByText('Choose something that was done.').waitFor();
    await dialog.getByLabel('Blood sampling: brown').check();
    await screenshot(page, 'other');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await page.getByText(/^Recorded: Blood sampling: brown/).waitFor();
    const done = await charted<Procedure>('Procedure', 'medlar-moorhen');
    expect(done.find(({ code }) => code?.coding?.[0]?.code === 'blood-sampling')).toMatchObject({
      focalDevice: [{ manipulated: { reference: 'Device/medlar-subclavian-brown' } }],
    });
  });

  it('what was seen or measured by itself: nothing is written before a value is given', async () => {
    await lane('hemlock-tunneled')
      .getByRole('button', { name: /^Record something else/ })
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Care, or what was seen').selectOption({ label: 'External length' });
    await dialog.getByRole('button', { name: 'Save' }).click();
    await dialog.getByText('Choose something that was done.').waitFor();
    await dialog.getByLabel('External length, line, cm').fill('11.5');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await page.getByText(/^Recorded: External length/).waitFor();
    expect(await charted('Observation', 'hemlock-heron')).toMatchObject([
      { focus: [{ reference: 'Device/hemlock-tunneled' }], valueQuantity: { value: 11.5, code: 'cm' } },
    ]);
  });

  it('said no error', () => {
    expect(watched.said.filter((text) => !/409/.test(text))).toEqual([]);
  });
});

it('a board whose service is gone says how old it is', async () => {
  const { page: own } = await open(browser, unit.board.url);
  await own.clock.install();
  await own.reload();
  await own.locator('.lane').first().waitFor();
  await own.route('**/api/**', (route) => route.abort());
  await own.clock.runFor(100_000);
  await own.locator('.too-old').waitFor();
  expect(await own.locator('.too-old').innerText()).toMatch(/do not rely on it/);
  await isAccessible(own);
  await screenshot(own, 'silent');
  await own.context().close();
});
