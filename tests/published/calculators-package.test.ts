// What the package promises beyond its numbers: one source for what is said twice, and small bundles.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const scripts = new URL('../../packages/calculators/scripts/', import.meta.url);

interface Bundle {
  readonly name: string;
  readonly from: string;
  readonly bytes: number;
  readonly foreign: readonly string[];
}

describe('the calculators’ package', () => {
  it('says in doc comments, public face, catalog and exports what the calculators’ cards say', () => {
    const { status, stdout } = spawnSync(
      process.execPath,
      [fileURLToPath(new URL('sync.mjs', scripts)), '--check'],
      {
        encoding: 'utf8',
      },
    );
    expect(stdout).toContain('agree');
    expect(status).toBe(0);
  });
  it('brings in less than 12 kB minified with one calculator, and nothing that it does not use', async () => {
    const module = (await import(new URL('bundles.mjs', scripts).href)) as { bundles(): Promise<Bundle[]> };
    const bundles = await module.bundles();
    expect(bundles.length).toBeGreaterThan(80);
    expect(bundles.filter(({ bytes }) => bytes >= 12_000)).toEqual([]);
    expect(bundles.filter(({ foreign }) => foreign.length > 0)).toEqual([]);
  });
});
