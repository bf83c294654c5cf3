import { defineConfig } from 'vitest/config';
import base from '../../vitest.config.js';

/**
 * `npm run test:browser`: a nurse’s shift in a real Chromium. It needs the browser, so `npm test` leaves it out.
 * `npm run bench:board`: the time of a frame with 320 lines, which is a figure of the machine it runs on.
 */
export default defineConfig({
  ...base,
  root: new URL('../..', import.meta.url).pathname,
  test: {
    ...base.test,
    include: [process.env['DWELLWARD_BENCH'] ? 'tests/browser/*.bench.ts' : 'tests/browser/*.browser.ts'],
    fileParallelism: false,
  },
});
