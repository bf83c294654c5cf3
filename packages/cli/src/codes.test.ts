import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demoUnit } from '@dwellward/fixtures';
import { describe, expect, it } from 'vitest';
import { exitCodes, run } from './index.js';

async function codes(...args: string[]) {
  let [out, err] = ['', ''];
  const exit = await run(['codes', ...args], {
    stdin: (async function* () {})(),
    write: (text) => void (out += text),
    warn: (text) => void (err += text),
    colour: false,
    columns: 0,
    progress: false,
    now: () => '',
  });
  return { exit, out, err };
}

const folder = mkdtempSync(join(tmpdir(), 'dwellward-codes-'));
const file = (name: string, value: unknown) => {
  const path = join(folder, name);
  writeFileSync(path, JSON.stringify(value));
  return path;
};
const url = 'https://hospital.example/ConceptMap/lines';
const act = { system: 'https://hospital.example/codes', code: 'ACT7', display: '=Dressing, "changed"' };
const unit = demoUnit();
const strange = file('strange.json', {
  ...unit,
  entry: [
    ...(unit.entry ?? []),
    {
      resource: {
        resourceType: 'Procedure',
        id: 'strange',
        status: 'completed',
        subject: { reference: 'Patient/alder-nuthatch' },
        focalDevice: [{ manipulated: { reference: 'Device/alder-tunneled' } }],
        performedDateTime: '2026-11-24T08:00:00+01:00',
        code: { coding: [act] },
      },
    },
  ],
});

describe('dwellward codes', () => {
  it('lists the codes that concern a line and are not understood on top, and ends with 5', async () => {
    const { exit, out } = await codes(strange);
    expect(exit).toBe(exitCodes['partly-unreadable']);
    expect(out.split('\n').slice(0, 2)).toEqual([
      expect.stringMatching(/^Not understood.*: 1$/),
      expect.stringMatching(/1 × of 1 patient, Procedure\.code, https:\/\/hospital\.example\/codes\|ACT7/),
    ]);
    expect(out).toMatch(/Read: \d+/);
  });

  it('ends with 0 where all of them are understood', async () => {
    const { exit, out } = await codes(file('unit.json', unit));
    expect(exit).toBe(exitCodes.done);
    expect(out).toContain('Every code that concerns a line is understood.');
  });

  it('starts a map, which changes nothing before it is filled in, and by which the code then is read', async () => {
    const { out } = await codes(strange, '--start', url);
    const map = JSON.parse(out) as {
      url: string;
      group: { element: { code: string; target: Record<string, string>[] }[] }[];
    };
    expect(map.url).toBe(url);
    const started = file('started.json', map);
    expect((await codes(strange, '--map', started)).exit).toBe(exitCodes['partly-unreadable']);
    const [element] = map.group.flatMap((group) => group.element);
    element!.target = [{ code: 'dressing-change', equivalence: 'equivalent' }];
    const filled = file('filled.json', map);
    const { exit, out: listed } = await codes(strange, '--map', filled, '--all');
    expect(exit).toBe(exitCodes.done);
    expect(listed).toMatch(/ACT7.*read as Dressing change/);
  });

  it('gives JSON, and CSV that no spreadsheet takes for a formula', async () => {
    const { codes: listed } = JSON.parse((await codes(strange, '--format', 'json')).out) as {
      codes: object[];
    };
    expect(listed[0]).toMatchObject({ code: 'ACT7', standing: 'not-understood', count: 1 });
    const [header, first] = (await codes(strange, '--format', 'csv')).out.split('\r\n');
    expect(header).toMatch(/^standing,concern,on_line,count,patients,path,system,code,text,/);
    expect(first).toContain(`,ACT7,"'=Dressing, ""changed""",`);
  });

  it.each([
    [[], /One input is wanted/],
    [['x.json', 'y.json'], /One input is wanted/],
    [['x.json', '--format', 'xml'], /one of table, json, csv/],
    [['x.json', '--start', 'lines'], /canonical URL/],
  ])('refuses %j with what is wanted', async (args, message) => {
    const { exit, err } = await codes(...args);
    expect(exit).toBe(exitCodes.usage);
    expect(err).toMatch(message);
  });
});
