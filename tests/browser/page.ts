import { AxeBuilder } from '@axe-core/playwright';
import { chromium, type Browser, type Page } from 'playwright-core';
import { expect } from 'vitest';

/** Where Debian puts it; another place by CHROMIUM. */
const executablePath = process.env['CHROMIUM'] ?? '/usr/bin/chromium';

export const launch = (): Promise<Browser> => chromium.launch({ executablePath, headless: true });

/** What a page said that it should not have: errors, and what its policy refused. */
export interface Watched {
  readonly page: Page;
  readonly said: readonly string[];
}

/** A page that is watched. @param width of a ward computer where absent. */
export async function open(browser: Browser, url: string, width = 1280): Promise<Watched> {
  const context = await browser.newContext({ viewport: { width, height: 1000 } });
  context.setDefaultTimeout(10_000);
  const page = await context.newPage();
  const said: string[] = [];
  page.on('pageerror', (error) => said.push(error.message));
  page.on('dialog', (dialog) => {
    said.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('console', (message) => {
    // A question that the service asks is an answer of 409, which the browser takes for an error.
    if (message.type() === 'error' && !/status of 409/.test(message.text())) said.push(message.text());
  });
  await page.goto(url);
  await page
    .locator('.lane, .handover, .supplies, .dwell, .figures table')
    .first()
    .waitFor({ timeout: 60_000 });
  return { page, said };
}

/** No violation that axe-core finds, of WCAG 2.2 A and AA and of its best practices, computed contrast among them. */
export async function isAccessible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze();
  expect(
    violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`),
  ).toEqual([]);
}

/** A picture of the page for the documentation. */
export async function screenshot(page: Page, name: string): Promise<void> {
  await page.screenshot({
    path: new URL(`../../docs/screens/${name}.png`, import.meta.url).pathname,
    animations: 'disabled',
  });
}
