// Runs what must not depend on the machine's zone with the process in four zones, nothing skipped; with `--others` without
// the zone of this process, which `npm test` ran them in.
import { spawnSync } from 'node:child_process';

const suites = [
  'packages/core',
  'packages/policy',
  'packages/calculators',
  'tests/cases',
  'tests/published',
  'tests/figures',
];
let failed = 0;
const own = process.argv.includes('--others') ? Intl.DateTimeFormat().resolvedOptions().timeZone : undefined;
for (const zone of ['UTC', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu']) {
  if (zone === own) continue;
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
