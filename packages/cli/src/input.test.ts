import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { bundledPlan } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { run } from './index.js';

const top = mkdtempSync(join(tmpdir(), 'dwellward-'));
let folders = 0;
const at = ['--at', '2026-11-25T07:30:00+01:00', '--zone', 'Europe/Berlin'];
const patient = { resourceType: 'Patient', id: 'p', birthDate: '1980-01-01', name: [{ text: 'Ann Älder' }] };
const line = {
  resourceType: 'Device',
  id: 'line',
  type: { coding: [{ code: 'picc' }] },
  patient: { reference: 'Patient/p' },
};
const insertion = {
  resourceType: 'Procedure',
  id: 'in',
  status: 'completed',
  code: { coding: [{ code: 'insertion' }] },
  subject: { reference: 'Patient/p' },
  performedDateTime: '2026-11-20T09:00:00+01:00',
  focalDevice: [{ manipulated: { reference: 'Device/line' } }],
};
const all = [patient, line, insertion];
const bundle = (more: object = {}, ...resources: object[]) => ({
  resourceType: 'Bundle',
  type: 'searchset',
  entry: [...all, ...resources].map((resource) => ({ resource })),
  ...more,
});
const ndjson = (...resources: object[]) => resources.map((one) => JSON.stringify(one)).join('\n');
const outcome = {
  resourceType: 'OperationOutcome',
  issue: [{ severity: 'error', code: 'processing', diagnostics: 'Procedures failed' }],
};

function folder(files: Readonly<Record<string, string | Uint8Array>>): string {
  const path = join(top, String((folders += 1)));
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(join(path, name, '..'), { recursive: true });
    writeFileSync(join(path, name), content);
  }
  return path;
}

async function due(input: string, stdin: Uint8Array | string = '', ...more: string[]) {
  let out = '';
  let err = '';
  const exit = await run(['due', input, ...at, ...more], {
    stdin: (async function* () {
      yield typeof stdin === 'string' ? Buffer.from(stdin) : stdin;
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

const whole = '1 line in place, 1 patient';
const utf16 = (text: string) => Buffer.from(text, 'utf16le');
const swapped = (bytes: Buffer) => Buffer.from(bytes).swap16();

describe('input that is only a part', () => {
  it.each<[string, object, string]>([
    [
      'a next page',
      bundle({ link: [{ relation: 'next', url: 'http://ward.example?page=2' }] }),
      'Bundle.link: It is one page of a search, and there is a next one',
    ],
    ['more matches than entries', bundle({ total: 25 }), 'Bundle.total: The search found 25, and 3 are here'],
    [
      'a server that tells of an error',
      bundle({}, outcome),
      'Bundle.entry[3].resource.issue[0]: Who sent this says so (error): Procedures failed',
    ],
  ])('I3: is computed, told and ends with exit code 5: %s', async (_, content, said) => {
    const { exit, out, err } = await due('-', JSON.stringify(content));
    expect(out).toContain(whole);
    expect(err).toContain(said);
    expect(exit).toBe(5);
  });

  it('is whole where it has all matches, whatever came with them, and what only informs', async () => {
    const included = { ...bundle({ total: 3 }), link: [{ relation: 'self', url: 'x' }] };
    included.entry.push({
      resource: { ...patient, id: 'q' },
      search: { mode: 'include' },
    } as (typeof included.entry)[number]);
    included.entry.push({
      resource: { ...outcome, issue: [{ severity: 'information', code: 'informational' }] },
    });
    expect(await due('-', JSON.stringify(included))).toMatchObject({ exit: 0, err: '' });
  });

  it('I3: the error file of an export is told, and ends with exit code 5', async () => {
    const path = folder({ 'all.ndjson': ndjson(...all), 'error.ndjson': ndjson(outcome) });
    const { exit, out, err } = await due(path);
    expect(out).toContain(whole);
    expect(err).toContain('error.ndjson, line 1.issue[0]: Who sent this says so (error): Procedures failed');
    expect(exit).toBe(5);
  });

  it('I3: packed files are read, also in a folder of the folder and with a name in capitals', async () => {
    const path = folder({
      'Patient.NDJSON': ndjson(patient),
      'more/Device.ndjson': ndjson(line),
      'more/deep/Procedure.ndjson.gz': gzipSync(ndjson(insertion)),
    });
    expect(await due(path)).toMatchObject({
      exit: 0,
      err: '',
      out: expect.stringContaining(whole) as string,
    });
  });

  it('I3: a packed file that breaks off is told', async () => {
    const packed = gzipSync(ndjson(...all));
    const path = folder({ 'Patient.ndjson': ndjson(...all), 'Procedure.ndjson.gz': packed.subarray(0, -12) });
    const { exit, err } = await due(path);
    expect(err).toContain('The rest of the file can’t be read');
    expect(exit).toBe(5);
  });

  it('I3: a file of the folder that is not read is told', async () => {
    const path = folder({
      'all.ndjson': ndjson(...all),
      'Observation.parquet': 'x',
      '.hidden.json': '{}',
      LICENSE: 'x',
    });
    const { exit, err } = await due(path);
    expect(err).toContain('Observation.parquet: The file stands in the folder and is not read');
    expect(err).toContain('(1)');
    expect(exit).toBe(5);
  });

  it('I3: signs that are not UTF-8 are told, and what stands beside them is read', async () => {
    const path = folder({ 'all.ndjson': Buffer.from(ndjson(...all), 'latin1') });
    const { exit, out, err } = await due(path);
    expect(out).toContain(whole);
    expect(err).toContain('all.ndjson, line 1: Signs in it can’t be read');
    expect(exit).toBe(5);
  });
});

describe('input as machines write it', () => {
  const text = JSON.stringify(bundle());
  it.each<[string, Uint8Array]>([
    ['UTF-8 with a mark', Buffer.from(`\uFEFF${text}`)],
    ['UTF-16 with a mark', utf16(`\uFEFF${text}`)],
    ['UTF-16 the other way round', swapped(utf16(`\uFEFF${text}`))],
    ['UTF-16 without a mark', utf16(text)],
    ['lines of resources', Buffer.from(ndjson(...all))],
    ['lines that end as in DOS', Buffer.from(ndjson(...all).replace(/\n/g, '\r\n'))],
  ])('I8: is read from standard input: %s', async (_, bytes) => {
    const { exit, out, err } = await due('-', bytes);
    expect({ exit, err }).toEqual({ exit: 0, err: '' });
    expect(out).toContain(whole);
    expect(out).toContain('Ann Älder');
  });

  it('I8: lines in UTF-16 with a mark are read from a folder', async () => {
    const path = folder({ 'all.ndjson': utf16(`\uFEFF${ndjson(...all)}`) });
    expect(await due(path)).toMatchObject({
      exit: 0,
      err: '',
      out: expect.stringContaining('Ann Älder') as string,
    });
  });

  it('I8: a Bundle in another writing is refused with the cure', async () => {
    const { exit, err } = await due('-', Buffer.from(text, 'latin1'));
    expect(exit).toBe(3);
    expect(err).toContain('it is not text in UTF-8 or UTF-16; save or export it as UTF-8');
  });

  it('I8: a policy in UTF-16 or with a mark is read as any other', async () => {
    const plan = JSON.stringify(bundledPlan('neutropenia'));
    const path = folder({
      'one.json': utf16(`\uFEFF${plan}`),
      'two.json': `\uFEFF${plan}`,
      'three.json': Buffer.from('{"title":"\u00e9"}', 'latin1'),
    });
    for (const name of ['one.json', 'two.json'])
      expect((await due('-', text, '--policy', join(path, name))).exit, name).toBe(0);
    const refused = await due('-', text, '--policy', join(path, 'three.json'));
    expect(refused.exit).toBe(4);
    expect(refused.err).toContain('save or export it as UTF-8');
  });

  it('I8: a folder with a Bundle and no lines says how a Bundle is given', async () => {
    const { exit, err } = await due(folder({ 'unit.json': text }));
    expect(exit).toBe(3);
    expect(err).toContain('Give a Bundle by the name of its file.');
  });
});
