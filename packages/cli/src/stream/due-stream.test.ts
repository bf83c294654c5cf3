import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { run } from '../index.js';

const unit = fileURLToPath(new URL('../../../../fixtures/lanternfern-unit-ndjson', import.meta.url));
const at = ['--at', '2026-11-25T07:30:00+01:00', '--zone', 'Europe/Berlin'];
const made = mkdtempSync(join(tmpdir(), 'dwellward-'));

async function due(args: readonly string[], input = '') {
  let out = '';
  let err = '';
  const exit = await run(['due', ...args, ...at], {
    stdin: (async function* () {
      // In pieces that end within lines.
      for (let i = 0; i < input.length; i += 1000) yield Buffer.from(input.slice(i, i + 1000));
    })(),
    write: (text) => void (out += text),
    warn: (text) => void (err += text),
    colour: false,
    columns: 0,
    progress: false,
    now: () => '2026-11-25T06:30:00Z',
  });
  return { exit, out, err };
}

interface Answered {
  readonly resourceType: string;
  readonly id?: string;
}

/** The answer of all at once, as lines. */
async function atOnce(folder: string): Promise<string[]> {
  const { out } = await due([folder, '--format', 'fhir']);
  const { entry } = JSON.parse(out) as { entry: { fullUrl: string; resource: Answered }[] };
  return entry
    .filter(({ resource }) => resource.resourceType !== 'Provenance')
    .map(({ fullUrl, resource: { resourceType, ...rest } }) =>
      JSON.stringify({ resourceType, id: fullUrl.slice('urn:uuid:'.length), ...rest }),
    )
    .sort();
}

async function inParts(folder: string, input = '') {
  const { out, ...rest } = await due([folder, '--format', 'ndjson'], input);
  const lines = out.trimEnd().split('\n');
  return { ...rest, lines: lines.map((line) => JSON.stringify(JSON.parse(line))).sort() };
}

function folderOf(name: string, files: Readonly<Record<string, readonly unknown[]>>): string {
  const folder = join(made, name);
  mkdirSync(folder);
  for (const [file, resources] of Object.entries(files))
    writeFileSync(
      join(folder, `${file}.ndjson`),
      resources.map((one) => (typeof one === 'string' ? one : JSON.stringify(one))).join('\n'),
    );
  return folder;
}

const own = 'https://dwellward.example/fhir/CodeSystem';
const line = (id: string, more: object) => ({
  ...{ resourceType: 'Device', id, status: 'active' },
  type: { coding: [{ system: `${own}/line-type`, code: 'picc' }] },
  ...more,
});
const done = (id: string, code: string, device: string, more: object) => ({
  ...{ resourceType: 'Procedure', id, status: 'completed', performedDateTime: '2026-11-20T08:00:00+01:00' },
  code: { coding: [{ system: `${own}/line-care-activity`, code }] },
  focalDevice: [{ manipulated: { reference: device } }],
  ...more,
});
const of = (patient: string) => ({ subject: { reference: `Patient/${patient}` } });
const people = 'abcdefghijklmnopqrst'.split('').map((id) => ({ resourceType: 'Patient', id }));

describe('due --format ndjson', () => {
  it('answers line by line what all at once answers, of a unit', async () => {
    const { exit, lines } = await inParts(unit);
    expect(exit).toBe(0);
    expect(lines.length).toBeGreaterThan(100);
    expect(lines).toEqual(await atOnce(unit));
  });

  it('passes over what nothing reads, says how much, and answers the same, however it is written', async () => {
    const all = readdirSync(unit).flatMap((name) =>
      readFileSync(join(unit, name), 'utf8').trimEnd().split('\n'),
    );
    const pulse = (i: number) =>
      JSON.stringify({
        ...{ resourceType: 'Observation', id: `pulse-${i}`, status: 'final' },
        code: { coding: [{ system: 'http://loinc.org', code: '8867-4', display: 'Heart rate' }] },
        subject: { reference: 'Patient/nobody-here' },
        valueQuantity: { value: i, unit: '/min' },
        note: [{ text: 'gemessen, µ' }],
      });
    const mixed = all.flatMap((one, i) => [one, pulse(3 * i), pulse(3 * i + 1), pulse(3 * i + 2)]);
    const said = `Passed over, since nothing of a line stands in them: ${3 * all.length} Observation`;
    const expected = await atOnce(unit);
    for (const [name, bytes] of [
      ['plain', Buffer.from(mixed.join('\n'))],
      ['with-returns', Buffer.from(`${mixed.join('\r\n')}\r\n`)],
      ['with-its-mark', Buffer.from(`\ufeff${mixed.join('\n')}`)],
      ['in-utf-16', Buffer.from(`\ufeff${mixed.join('\n')}`, 'utf16le')],
    ] as const) {
      const folder = join(made, name);
      mkdirSync(folder);
      writeFileSync(join(folder, 'all.ndjson'), bytes);
      const { exit, err, lines } = await inParts(folder);
      expect([exit, lines]).toEqual([0, expected]);
      expect(err).toContain(said);
    }
  });

  it('answers the same from packed files, and from standard input in any order', async () => {
    const packed = join(made, 'packed');
    cpSync(unit, packed, { recursive: true });
    const all: string[] = [];
    for (const name of readdirSync(unit)) {
      const text = readFileSync(join(unit, name), 'utf8');
      all.push(...text.trimEnd().split('\n').reverse());
      writeFileSync(join(packed, `${name}.gz`), gzipSync(text));
      writeFileSync(join(packed, name), '');
    }
    const expected = await atOnce(unit);
    expect((await inParts(packed)).lines).toEqual(expected);
    expect((await inParts('-', all.reverse().join('\n'))).lines).toEqual(expected);
  });

  it('keeps together whose records touch: a line of nobody, a merge, care on the line of another', async () => {
    const folder = folderOf('touching', {
      Device: [
        line('owned', { patient: { reference: 'Patient/a' } }),
        line('by-procedure', {}),
        { ...line('red', { parent: { reference: 'Device/owned' } }), type: { coding: [{ code: 'lumen' }] } },
        line('of-merged', { patient: { reference: 'https://other.example/fhir/Patient/c/_history/2' } }),
      ],
      Patient: [
        ...people.slice(0, 3),
        { resourceType: 'Patient', id: 'd', link: [{ other: { reference: 'Patient/c' }, type: 'replaces' }] },
      ],
      Procedure: [
        done('1', 'insertion', 'Device/by-procedure', of('b')),
        done('2', 'flush', 'Device/owned', of('d')),
        done('3', 'flush', 'Device/red', {}),
        done('4', 'dressing-change', 'Device/not-here', of('b')),
        done('5', 'insertion', 'Device/of-merged', of('c')),
      ],
    });
    const expected = await atOnce(folder);
    expect(expected.filter((one) => one.includes('"Task"')).length).toBeGreaterThan(3);
    expect((await inParts(folder)).lines).toEqual(expected);
  });

  it('makes no one patient of all who use one Device of the ward, and finds places by their own name', async () => {
    const ward = { resourceType: 'Location', id: 'ward', name: 'Fernlight Ward' };
    const bed = { resourceType: 'Location', id: 'bed', name: 7, partOf: { reference: 'Location/ward' } };
    const folder = folderOf('ward', {
      Device: [
        { resourceType: 'Device', id: 'monitor', status: 'active' },
        ...people.map(({ id }) => line(`line-${id}`, { patient: { reference: `Patient/${id}` } })),
      ],
      Encounter: people.map(({ id }) => ({
        ...{ resourceType: 'Encounter', id, status: 'in-progress', ...of(id) },
        location: [{ location: { reference: 'Location/bed' } }],
      })),
      Location: [ward, bed],
      Observation: people.map(({ id }) => ({
        ...{ resourceType: 'Observation', id, status: 'final', ...of(id) },
        ...{ device: { reference: 'Device/monitor' }, effectiveDateTime: '2026-11-24' },
        code: { coding: [{ system: 'http://loinc.org', code: '8867-4' }] },
      })),
      Patient: people,
    });
    expect((await inParts(folder)).lines).toEqual(await atOnce(folder));
  });

  it('names file and line of what can’t be read, computes the rest, and counts what is passed over', async () => {
    const folder = folderOf('spoiled', {
      Device: [line('owned', { patient: { reference: 'Patient/a' } }), '{"resourceType":"Device",'],
      Patient: ['not JSON', people[0]],
      Practitioner: [{ resourceType: 'Practitioner', id: '1' }],
      Procedure: [{ ...done('1', 'insertion', 'Device/owned', of('a')) }],
    });
    const { exit, err, lines } = await inParts(folder);
    expect(exit).toBe(5);
    expect(err).toContain('Device.ndjson, line 2');
    expect(err).toContain('Patient.ndjson, line 1');
    expect(err).toContain('1 Practitioner');
    expect(lines).toEqual(await atOnce(folder));
  });

  it('leaves nothing of a patient on the disk', async () => {
    const work = mkdtempSync(join(tmpdir(), 'dwellward-'));
    await due([unit, '--format', 'ndjson', '--work', work]);
    expect(readdirSync(work)).toEqual([]);
  });

  it('refuses an input without any resource, and a Bundle', async () => {
    expect((await due(['-', '--format', 'ndjson'], 'nothing\n')).exit).toBe(3);
    expect((await due(['bundle.json', '--format', 'ndjson'])).exit).toBe(2);
  });
});
