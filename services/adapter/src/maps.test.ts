import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { lineTokens, readCodeMaps } from '@dwellward/core';
import { expect, it } from 'vitest';
import { ConfigError, readConfig } from './config.js';
import { loadMaps } from './maps.js';

const folder = await mkdtemp(join(tmpdir(), 'dwellward-maps-'));
const base = 'https://dwellward.example/fhir/CodeSystem';
const written = async (name: string, text: string) => {
  const file = join(folder, name);
  await writeFile(file, text);
  return file;
};
const mapTo = (target: string, code: string, source = 'https://hospital.example/devices', own = 'CVC3') => ({
  resourceType: 'ConceptMap',
  status: 'active',
  group: [{ source, target, element: [{ code: own, target: [{ code, equivalence: 'equivalent' }] }] }],
});
const problemsOf = (files: string[]) =>
  loadMaps(files).then(
    () => [],
    (error: unknown) => (error instanceof ConfigError ? error.problems : [String(error)]),
  );

it('the setting names files, each once', () => {
  const settings = { DWELLWARD_FHIR_URL: 'https://fhir.example', DWELLWARD_ZONE: 'Europe/Berlin' };
  expect(readConfig(settings).maps).toEqual([]);
  expect(readConfig({ ...settings, DWELLWARD_MAPS: 'a.json, b.json' }).maps).toEqual(['a.json', 'b.json']);
  expect(() => readConfig({ ...settings, DWELLWARD_MAPS: 'a.json,a.json' })).toThrow(/DWELLWARD_MAPS/);
});

it('a map that can’t be read, or that leads nowhere, is refused with file and element', async () => {
  const none = join(folder, 'none.json');
  const broken = await written('broken.json', '{');
  expect(await problemsOf([none, broken])).toEqual([
    `DWELLWARD_MAPS: “${none}” can’t be read.`,
    expect.stringMatching(/broken\.json” is not JSON/),
  ]);
  const wrong = await written('wrong.json', JSON.stringify(mapTo(`${base}/line-type`, 'piccc')));
  expect(await problemsOf([wrong])).toEqual([
    expect.stringMatching(/wrong\.json”, ConceptMap\.group\[0\]\.element\[0\]\.target\[0\]\.code: piccc/),
  ]);
});

it('the server is asked for the hospital’s codes of lines and insertions, and for all Devices where only a text says it', () => {
  const tokens = (...resources: object[]) => {
    const reading = readCodeMaps(resources.map((resource, at) => ({ name: `${at}.json`, resource })));
    if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
    return lineTokens(reading.maps);
  };
  const own = tokens(
    mapTo(`${base}/line-type`, 'picc'),
    mapTo(`${base}/line-care-activity`, 'insertion', 'https://hospital.example/acts', 'PUT-IN'),
    mapTo(`${base}/line-care-activity`, 'flush', 'https://hospital.example/acts', 'RINSE'),
  );
  expect(own.devices).toContain('https://hospital.example/devices|CVC3');
  expect(own.insertions).toContain('https://hospital.example/acts|PUT-IN');
  expect([...own.devices, ...own.insertions].join()).not.toContain('RINSE');
  expect(own.devices.slice(0, lineTokens().devices.length)).toEqual(lineTokens().devices);
  expect(own.texts).toEqual([]);
  expect(tokens(mapTo(`${base}/line-type`, 'picc', `${base}/charted-text`, 'Long line')).texts).toEqual([
    'long line',
  ]);
});
