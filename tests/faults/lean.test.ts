// What a hospital installs with the adapter.
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import adapter from '../../services/adapter/package.json' with { type: 'json' };

interface Locked {
  readonly packages: Readonly<
    Record<
      string,
      { readonly link?: boolean; readonly resolved?: string; readonly dependencies?: Record<string, string> }
    >
  >;
}

const lock = JSON.parse(readFileSync(new URL('../../package-lock.json', import.meta.url), 'utf8')) as Locked;

/** Where npm finds a package for another: in its own folder, or in one of those around it. */
function placeOf(name: string, from: string): string | undefined {
  for (let at = from; ; at = at.slice(0, Math.max(0, at.lastIndexOf('/node_modules/')))) {
    const place = `${at === '' ? '' : `${at}/`}node_modules/${name}`;
    const found = lock.packages[place];
    if (found) return found.link ? found.resolved : place;
    if (at === '') return undefined;
    if (!at.includes('/node_modules/')) at = '';
  }
}

/** Every package that comes with these, by name. */
function closure(dependencies: Readonly<Record<string, string>>): Set<string> {
  const places = new Set<string>();
  const names = new Set<string>();
  const add = (wanted: readonly string[], from: string) => {
    for (const name of wanted) {
      const place = placeOf(name, from) ?? `missing ${name}`;
      if (places.has(place)) continue;
      places.add(place);
      names.add(name);
      add(Object.keys(lock.packages[place]?.dependencies ?? {}), place);
    }
  };
  add(Object.keys(dependencies), 'services/adapter');
  return names;
}

it('A14: brings no demo server, no invented patients and no other server along', () => {
  const names = [...closure(adapter.dependencies)];
  expect(names).toContain('express');
  expect(names.filter((name) => /^@dwellward\/(demo|fixtures)|^@medplum\//.test(name))).toEqual([]);
});
