// Runs what must not depend on the machine's zone with the process in four zones, nothing skipped.
import { spawnSync } from 'node:child_process';

const suites = ['packages/core', 'packages/policy', 'packages/calculators', 'tests/cases', 'tests/published'];
let failed = 0;
for (const zone of ['UTC', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu']) {
  console.log(`process zone ${zone}`);
  const { status } = spawnSync(
    'npx',
    ['vitest', 'run', '--reporter=default', '--reporter=./tests/summary-reporter.ts', ...suites],
    {
      stdio: 'inherit',
      env: { ...process.env, TZ: zone },
    },
  );
  if (status !== 0) failed += 1;
}
process.exitCode = failed === 0 ? 0 : 1;
