import { demoUpdate } from '@dwellward/fixtures';
import { identifierSystem } from '@dwellward/profiles';
import type { Browser, Locator, Page } from 'playwright-core';
import type { Flag, Observation, Procedure, Task } from 'fhir/r4.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isAccessible, launch, open, screenshot, type Watched } from './page.js';
import { startUnit, type RunningUnit } from './unit.js';

// A nurse’s shift on the unit’s board, in a real Chromium, over an independent FHIR server that keeps what was recorded.
// Rules of accessibility: WCAG 2.2 A and AA as axe-core (another’s) checks them, contrast computed among them.

let unit: RunningUnit;
let browser: Browser;
let shift: Watched;
let page: Page;

beforeAll(async () => {
  [unit, browser] = await Promise.all([startUnit(), launch()]);
  shift = await open(browser, unit.board.url);
  ({ page } = shift);
});

afterAll(async () => {
  await browser?.close();
  await unit?.close();
});

const lane = (line: string) => page.locator(`[data-line="Device/${line}"]`);
const row = (of: Locator, text: RegExp) => of.locator('.row').filter({ hasText: text });
const charted = async (patient: string) =>
  ((await unit.held(`Procedure?patient=${patient}&_count=500`)) as Procedure[]).filter(({ identifier }) =>
    identifier?.some(({ system }) => system === identifierSystem.charted),
  );

describe('a shift', () => {
  it('begins with the unit: what is overdue says so in words, and the load of the day stands above', async () => {
    const dressing = row(lane('spindle-picc'), /Dressing change/);
    expect(await dressing.first().textContent()).toMatch(/overdue[^]*06:30, 1 h ago/);
    expect(await page.locator('.load svg').getAttribute('aria-labelledby')).toBe('load-head');
    expect(await page.title()).toMatch(/Now and next/);
    await isAccessible(page);
    await screenshot(page, 'unit');
  });

  it('says why: rule, source, facts and what would change it', async () => {
    await row(lane('spindle-picc'), /Dressing change/)
      .getByRole('button', { name: /^Why/ })
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.locator('.why').waitFor();
    const text = await dialog.innerText();
    expect(text).toMatch(/daily while neutrophils are very low/);
    expect(text).toMatch(/0\.18/);
    await isAccessible(page);
    await screenshot(page, 'why');
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
  });

  it('records the dressing in two clicks, shows the next window, and the FHIR server holds it', async () => {
    await row(lane('spindle-picc'), /Dressing change/)
      .getByRole('button', { name: /^Record/ })
      .click();
    const dialog = page.getByRole('dialog');
    await isAccessible(page);
    await screenshot(page, 'record');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await page.getByText(/^Recorded: Dressing change/).waitFor();
    await expect
      .poll(() => row(lane('spindle-picc'), /Dressing change/).allTextContents(), { timeout: 20_000 })
      .not.toContainEqual(expect.stringContaining('overdue'));
    const [done] = await charted('spindle-wagtail');
    expect(done).toMatchObject({
      status: 'completed',
      code: { coding: [{ code: 'dressing-change' }] },
      focalDevice: [{ manipulated: { reference: 'Device/spindle-picc' } }],
    });
    const met = (await unit.held('Task?patient=spindle-wagtail&status=completed&_count=500')) as Task[];
    expect(
      met.some(({ output }) =>
        output?.some((one) => one.valueReference?.reference === `Procedure/${done?.id}`),
      ),
    ).toBe(true);
    await isAccessible(page);
  });

  it('takes it back: it stays on record as entered in error, and is overdue again', async () => {
    await page.getByRole('button', { name: 'Take it back' }).click();
    await page.getByText(/^Taken back/).waitFor();
    await expect
      .poll(
        () =>
          row(lane('spindle-picc'), /Dressing change/)
            .first()
            .innerText(),
        { timeout: 20_000 },
      )
      .toMatch(/overdue/);
    expect((await charted('spindle-wagtail')).map(({ status }) => status)).toEqual(['entered-in-error']);
  });

  it('moves an item in front of the eyes when a low count arrives, and leaves its old end visible', async () => {
    const dressing = row(lane('hemlock-tunneled'), /Dressing change/);
    const before = await dressing.first().textContent();
    const [count] = demoUpdate().entry ?? [];
    await unit.load({
      resourceType: 'Bundle',
      type: 'collection',
      entry: [{ ...count, resource: { ...(count?.resource as Observation), effectiveDateTime: unit.now() } }],
    });
    await expect
      .poll(() => dressing.first().textContent(), { timeout: 30_000, interval: 200 })
      .not.toBe(before);
    expect(await dressing.first().textContent()).toMatch(/very low/);
    expect(await lane('hemlock-tunneled').locator('.ghost').count()).toBeGreaterThan(0);
  });

  it('shows first steps in trouble; a break that is recorded brings its hold at once', async () => {
    await lane('spindle-picc')
      .getByRole('button', { name: /^Trouble/ })
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.locator('summary').first().waitFor();
    await isAccessible(page);
    const damage = dialog
      .locator('details')
      .filter({ has: page.locator('summary', { hasText: /^Damage$/i }) });
    await damage.locator('summary').click();
    expect(await damage.innerText()).toMatch(/clamp/i);
    await screenshot(page, 'trouble');
    await damage.getByRole('button', { name: /^Record that it was found/ }).click();
    await page.getByText(/^Recorded: /).waitFor();
    await lane('spindle-picc').locator('.hold-text').first().waitFor({ timeout: 20_000 });
    expect(await lane('spindle-picc').textContent()).toMatch(/Hold: no .*flush/);
    await page.locator('.on-top').waitFor();
    expect(await page.locator('.on-top').innerText()).toMatch(/EMERGENCY|Breakage/i);
    const flags = (await unit.held('Flag?patient=spindle-wagtail&_count=500')) as Flag[];
    expect(flags.some(({ status }) => status === 'active')).toBe(true);
    await isAccessible(page);
    await page.evaluate(() => scrollTo(0, 0));
    expect(await page.locator('.alarm').textContent()).toMatch(/1 EMERGENCY/);
    await screenshot(page, 'emergency');
  });

  it('asks before it records what is held, and nothing is written until it is answered', async () => {
    const before = (await charted('alder-nuthatch')).length;
    await row(lane('alder-tunneled'), /Flush/)
      .first()
      .getByRole('button', { name: /^Record/ })
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await dialog.locator('.question').first().waitFor();
    expect(await dialog.locator('.question').first().innerText()).toMatch(/Was it done all the same\?/);
    expect(await charted('alder-nuthatch')).toHaveLength(before);
    await isAccessible(page);
    await screenshot(page, 'question');
    await page.keyboard.press('Escape');
  });

  it('refuses a time that is still to come', async () => {
    await row(lane('hemlock-tunneled'), /Dressing change/)
      .first()
      .getByRole('button', { name: /^Record/ })
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.locator('input[type="datetime-local"]').fill('2026-11-26T08:00');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await dialog.locator('.question').first().waitFor();
    expect(await dialog.innerText()).toMatch(/still to come/);
    expect(await dialog.getByLabel('Yes, it was done').count()).toBe(0);
    await page.keyboard.press('Escape');
  });

  it('tells of the shifts, and shows one alone', async () => {
    const shifts = page.locator('.shifts li');
    expect(await shifts.first().innerText()).toMatch(/^This shift, until 19:00: \d+ due$/);
    expect(await page.locator('.bands rect').count()).toBeGreaterThan(0);
    const before = await page.locator('.row').count();
    await page.locator('.filters select').nth(1).selectOption({ label: 'In this shift, and late' });
    await expect.poll(() => page.locator('.row').count()).toBeLessThan(before);
    const latest = () =>
      page
        .locator('.row:not(.emergency) time')
        .evaluateAll((all) => Math.max(...all.map((one) => Date.parse(one.getAttribute('datetime') ?? ''))));
    await expect.poll(latest).toBeLessThan(Date.parse('2026-11-25T19:00:00+01:00'));
    await page.locator('.filters select').nth(1).selectOption({ index: 0 });
  });

  it('filters by words and urgency, and hides no emergency', async () => {
    await page.getByRole('searchbox').fill('Bed 14');
    await expect
      .poll(() => page.locator('.patient > h2').allTextContents())
      .toEqual([expect.stringContaining('Spindle'), expect.stringContaining('Hemlock')]);
    await page.getByRole('searchbox').fill('');
  });

  it('said no error, and nothing that the page’s policy refuses', () => {
    expect(shift.said).toEqual([]);
  });
});

describe('the other pages', () => {
  it('the line: its picture, its dwell, why, and what is worked out', async () => {
    const { page: own, said } = await open(browser, `${unit.board.url}#/line/Device/alder-tunneled`);
    expect(await own.locator('.line-picture svg').getAttribute('aria-label')).toMatch(
      /blue: not to be used/i,
    );
    expect(await own.locator('.hold-text').first().innerText()).toMatch(/on blue/);
    expect(await own.locator('.dwell .track.care rect').count()).toBeGreaterThan(3);
    await own.locator('.dwell .windows rect').first().waitFor();
    expect(await own.locator('.dwell .windows .missed, .dwell .windows .late').count()).toBeGreaterThan(0);
    await isAccessible(own);
    await screenshot(own, 'line');
    await own.locator('.dwell').scrollIntoViewIfNeeded();
    await own.locator('.dwell').evaluate((section) => section.scrollIntoView());
    await screenshot(own, 'dwell');
    await own.evaluate(() => scrollTo(0, 0));
    await own.getByRole('button', { name: /^Draw blood/ }).click();
    await own.locator('.calculators pre').waitFor();
    expect(await own.locator('.calculators pre').innerText()).toMatch(/mL/);
    await isAccessible(own);
    expect(said.filter((text) => !/422/.test(text))).toEqual([]);
    await own.context().close();
  });

  it('the hand-over prints on A4, the supplies too', async () => {
    for (const [hash, name] of [
      ['#/handover', 'handover'],
      ['#/supplies', 'supplies'],
    ] as const) {
      const { page: own, said } = await open(browser, `${unit.board.url}${hash}`);
      await isAccessible(own);
      await screenshot(own, name);
      const pdf = await own.pdf({ format: 'A4' });
      expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
      expect(pdf.length).toBeGreaterThan(10_000);
      expect(said).toEqual([]);
      await own.context().close();
    }
  });

  it('the figures: tables, charts as pictures that say all in words, and what a person has to confirm', async () => {
    const { page: own, said } = await open(browser, `${unit.board.url}#/figures`);
    expect(await own.locator('h1').innerText()).toMatch(/^Figures from 2025-01-01 to 2025-12-31/);
    expect(await own.locator('table').count()).toBeGreaterThanOrEqual(2);
    const chart = own.locator('.chart img').first();
    expect(await chart.getAttribute('alt')).toMatch(/infections of central lines by month\. Centre [\d.]+/);
    expect(
      await chart.evaluate((image) => (image as unknown as { naturalWidth: number }).naturalWidth),
    ).toBeGreaterThan(0);
    expect(await own.locator('#proposals').count()).toBe(1);
    await isAccessible(own);
    await screenshot(own, 'figures');
    expect(said).toEqual([]);
    await own.context().close();
  });

  it('a tablet shows the same, below each other, with nothing beyond its edge', async () => {
    const { page: own } = await open(browser, unit.board.url, 768);
    await isAccessible(own);
    await screenshot(own, 'tablet');
    const beyond = await own.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(beyond).toBeLessThanOrEqual(0);
    await own.context().close();
  });
});

describe('two people at once', () => {
  it('both record the same dressing: one is written, the other is asked; with a yes both are there', async () => {
    const [one, two] = await Promise.all([open(browser, unit.board.url), open(browser, unit.board.url)]);
    const dialogs = await Promise.all(
      [one.page, two.page].map(async (own) => {
        const item = own
          .locator('[data-line="Device/medlar-subclavian"] .row')
          .filter({ hasText: /Dressing change/ });
        await item
          .first()
          .getByRole('button', { name: /^Record/ })
          .click();
        return own.getByRole('dialog');
      }),
    );
    await Promise.all(dialogs.map((dialog) => dialog.getByRole('button', { name: 'Save' }).click()));
    const asked = async () =>
      Promise.all(dialogs.map(async (dialog) => (await dialog.locator('.question').count()) > 0));
    await expect.poll(asked, { timeout: 20_000 }).toContain(true);
    expect((await asked()).filter(Boolean)).toHaveLength(1);
    expect(await charted('medlar-moorhen')).toHaveLength(1);
    const second = dialogs[(await asked()).indexOf(true)];
    await second?.getByLabel('Yes, it was done').check();
    await second?.getByRole('button', { name: 'Save' }).click();
    await expect.poll(async () => (await charted('medlar-moorhen')).length, { timeout: 20_000 }).toBe(2);
    await Promise.all([one, two].map(({ page: own }) => own.context().close()));
  });
});

describe('by keyboard alone', () => {
  it('the list is reached by its link, an item recorded, and the focus comes back', async () => {
    const { page: own } = await open(browser, unit.board.url);
    await own.keyboard.press('Tab');
    expect(await own.evaluate(() => document.activeElement?.textContent)).toBe('Go to the list');
    await own.keyboard.press('Enter');
    expect(await own.evaluate(() => document.activeElement?.id)).toBe('list');
    const focusedText = () => own.evaluate(() => document.activeElement?.textContent ?? '');
    for (let at = 0; at < 12 && !(await focusedText()).startsWith('Record'); at += 1)
      await own.keyboard.press('Tab');
    const opener = await focusedText();
    expect(opener).toMatch(/^Record/);
    await own.keyboard.press('Enter');
    await own.getByRole('dialog').waitFor();
    await own.keyboard.press('Escape');
    await own.getByRole('dialog').waitFor({ state: 'detached' });
    expect(await focusedText()).toBe(opener);
    await own.context().close();
  });
});
