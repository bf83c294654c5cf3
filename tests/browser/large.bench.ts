import { demoInstant, demoUnit } from '@dwellward/fixtures';
import type { Bundle, FhirResource } from 'fhir/r4.js';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { launch, open } from './page.js';
import { startUnit } from './unit.js';

// A board of 300 lines. The time of a frame is this machine’s: an empty page on it is measured in the same run, and the
// figure that counts is the one beside that of the empty page.

const copies = 16;
const frameMs = 50;

/** The demo unit so many times over, each copy with ids of its own. */
function largeUnit(): Bundle<FhirResource> {
  const unit = demoUnit();
  const own = new Set((unit.entry ?? []).map(({ resource }) => `${resource?.resourceType}/${resource?.id}`));
  const shared = /^(Location|Organization)\//;
  const entry = Array.from({ length: copies }, (_, copy) =>
    (unit.entry ?? []).flatMap(({ resource }) => {
      if (!resource) return [];
      const isShared = shared.test(`${resource.resourceType}/`);
      if (isShared && copy > 0) return [];
      const suffix = copy === 0 || isShared ? '' : `-${copy}`;
      const text = JSON.stringify({ ...resource, id: `${resource.id}${suffix}` }).replaceAll(
        /"reference":"([A-Z]\w+\/[^"#]+)/g,
        (whole, ref: string) =>
          own.has(ref) && !shared.test(ref) && copy > 0 ? `"reference":"${ref}-${copy}` : whole,
      );
      return [
        {
          fullUrl: `https://dwellward.example/fhir/${resource.resourceType}/${resource.id}${suffix}`,
          resource: JSON.parse(text) as FhirResource,
        },
      ];
    }),
  ).flat();
  return { resourceType: 'Bundle', type: 'collection', entry };
}

/** The longest and the usual frame while the page scrolls from top to end, milliseconds. */
function scrolled(page: Page): Promise<{ readonly longest: number; readonly usual: number }> {
  return page.evaluate(async () => {
    const frames: number[] = [];
    let last = performance.now();
    const step = Math.max(1, document.documentElement.scrollHeight / 120);
    for (let at = 0; at < 120; at += 1) {
      scrollBy(0, step);
      await new Promise(requestAnimationFrame);
      const now = performance.now();
      frames.push(now - last);
      last = now;
    }
    frames.sort((a, b) => a - b);
    return { longest: frames[Math.floor(frames.length * 0.98)] ?? 0, usual: frames[60] ?? 0 };
  });
}

/** The longest frame after each letter of a filter, milliseconds. */
function filtered(page: Page): Promise<number[]> {
  return page.evaluate(async () => {
    const input = document.querySelector<HTMLInputElement>('input[type=search]');
    if (!input) throw new Error('There is no filter.');
    const longest: number[] = [];
    for (const text of ['d', 'dr', 'dre', 'dres', 'dress', '']) {
      input.value = text;
      let last = performance.now();
      input.dispatchEvent(new Event('input', { bubbles: true }));
      let most = 0;
      for (let at = 0; at < 45; at += 1) {
        await new Promise(requestAnimationFrame);
        const now = performance.now();
        most = Math.max(most, now - last);
        last = now;
      }
      longest.push(most);
    }
    return longest;
  });
}

it('300 lines: scrolling and filtering stay below 50 ms a frame', async () => {
  const [unit, browser] = await Promise.all([startUnit(largeUnit(), demoInstant), launch()]);
  try {
    const { page } = await open(browser, unit.board.url);
    await expect.poll(() => page.locator('.lane').count(), { timeout: 120_000 }).toBeGreaterThanOrEqual(300);
    const lines = await page.locator('.lane').count();
    const empty = await browser.newPage();
    await empty.setContent('<body style="height:200000px"></body>');
    const [bare, board] = [await scrolled(empty), await scrolled(page)];
    const filtering = await filtered(page);
    const figure =
      `${lines} lines: scroll ${board.usual.toFixed(1)} ms a frame, 98 of 100 below ${board.longest.toFixed(1)} ms; ` +
      `an empty page ${bare.usual.toFixed(1)} and ${bare.longest.toFixed(1)} ms; ` +
      `filter: longest frame ${filtering.map((ms) => ms.toFixed(0)).join(', ')} ms`;
    console.log(figure);
    expect(board.longest - bare.longest, figure).toBeLessThan(frameMs);
    expect(Math.max(...filtering) - bare.longest, figure).toBeLessThan(frameMs);
  } finally {
    await browser.close();
    await unit.close();
  }
});
