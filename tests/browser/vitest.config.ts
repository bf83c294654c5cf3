import { defineConfig } from 'vitest/config';
import base from '../../vitest.config.js';

/** `npm run test:browser`: a nurse’s shift in a real Chromium. It needs the browser, so `npm test` leaves it out. */
export default defineConfig({
  ...base,
  root: new URL('../..', import.meta.url).pathname,
  test: { ...base.test, include: ['tests/browser/*.browser.ts'], fileParallelism: false },
});
