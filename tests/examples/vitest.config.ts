import { defineConfig } from 'vitest/config';
import base from '../../vitest.config.js';

/** `npm run examples`: everything that HL7 publishes as an example. Its packages are installed by `npm ci` here. */
export default defineConfig({
  ...base,
  root: new URL('../..', import.meta.url).pathname,
  test: {
    ...base.test,
    include: ['tests/examples/*.check.ts'],
    testTimeout: 1_200_000,
    hookTimeout: 600_000,
  },
});
