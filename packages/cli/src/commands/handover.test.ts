import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from '../index.js';

const unit = fileURLToPath(new URL('../../../../fixtures/lanternfern-unit.json', import.meta.url));
const zone = ['--zone', 'Europe/Berlin'];
const at = ['--at', '2026-11-25T07:30:00+01:00', ...zone];
const layers = ['--policy', 'neutropenia'];
const folder = mkdtempSync(join(tmpdir(), 'dwellward-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function dwellward(...args: string[]) {
  let out = '';
  let err = '';
  const exit = await run(args, {
    stdin: (async function* () {})(),
    write: (text) => void (out += text),
    warn: (text) => void (err += text),
    colour: false,
    columns: 0,
    progress: false,
    now: () => '2026-11-25T06:30:00Z',
  });
  return { exit, out, err };
}

describe('handover', () => {
  it('prints the shift of the unit: overdue first, supplies at the end, 90 columns', async () => {
    const { exit, out, err } = await dwellward('handover', unit, ...at, ...layers);
    expect([exit, err]).toEqual([0, '']);
    expect(out).toMatch(
      /^Shift hand-over, Wed 25 Nov 07:30 to Wed 25 Nov 19:30 \(Europe\/Berlin\)\nThe shift before began Tue 24 Nov 19:30\.\n15 patients, 18 lines in place: [1-9]\d* overdue/,
    );
    expect(out).toMatch(
      /Bed 04: Spindle Wagtail[^]*?Overdue\n {6}\[ \] Wed 25 Nov 06:30 {2}1 h ago {2}Dressing change: exit site/,
    );
    expect(out.trimEnd().split('\n').at(-2)).toMatch(/^Advice, not an order\./);
    expect(out.indexOf('Supplies for everybody')).toBeGreaterThan(out.lastIndexOf('Bed 15'));
    expect(Math.max(...out.split('\n').map(({ length }) => length))).toBeLessThanOrEqual(90);
  });

  it('takes the shift as a length or as an interval', async () => {
    const byInterval = await dwellward(
      'handover',
      unit,
      ...zone,
      '--shift',
      '2026-11-25T07:30:00+01:00/2026-11-25T15:30:00+01:00',
    );
    expect(byInterval.exit).toBe(0);
    for (const shift of ['8h', 'PT8H', 'PT7H60M', 'PT480M'])
      expect(await dwellward('handover', unit, ...at, '--shift', shift)).toEqual(byInterval);
    expect(await dwellward('handover', unit, ...zone, '--shift', '2026-11-25T07:30:00+01:00/PT8H')).toEqual(
      byInterval,
    );
  });

  it('for one patient, or for one unit, as a table or as JSON', async () => {
    const { out } = await dwellward(
      'handover',
      unit,
      ...at,
      '--patient',
      'spindle-wagtail',
      '--format',
      'json',
    );
    const answer = JSON.parse(out) as {
      patients: { patient: string; lines: { due: { rule: object }[] }[] }[];
    };
    expect(answer.patients.map(({ patient }) => patient)).toEqual(['Patient/spindle-wagtail']);
    expect(Object.keys(answer.patients[0]!.lines[0]!.due[0]!.rule)).toEqual(['id', 'title', 'sources']);
    const whole = await dwellward('handover', unit, ...at);
    expect(await dwellward('handover', unit, ...at, '--unit', 'lanternfern unit')).toEqual(whole);
  });

  it.each([
    [['--shift', '12'], '--shift 12:'],
    [['--shift', '0h'], '--shift 0h:'],
    [['--shift', '2026-11-25T07:30:00+01:00/2026-11-25T07:30:00+01:00'], '--shift 2026'],
    [['--shift', 'a/b/c'], '--shift a/b/c:'],
    [['--shift', '2026-11-25T07:30:00+01:00/PT8H'], 'leave --at out'],
    [['--unit', 'Elsewhere'], 'Units: Lanternfern Unit.'],
    [['--patient', 'nobody'], 'Patients: Patient/alder-nuthatch'],
    [['--format', 'fhir'], 'one of table, json'],
    [[unit], 'One input at a time'],
  ])('refuses %j', async (args, message) => {
    const { exit, out, err } = await dwellward('handover', unit, ...at, ...args);
    expect([exit, out]).toEqual([2, '']);
    expect(err).toContain(message);
    expect(err).toContain('dwellward handover --help tells how.');
  });
});

describe('home', () => {
  it('prints a sheet as text or as a page', async () => {
    const text = await dwellward('home', unit, ...at, ...layers, '--patient', 'Patient/spindle-wagtail');
    expect([text.exit, text.err]).toEqual([0, '']);
    expect(text.out).toMatch(/^YOUR LINE AT HOME\n\nFor Spindle Wagtail\. Made Wed 25 Nov, 07:30\./);
    expect(Math.max(...text.out.split('\n').map(({ length }) => length))).toBeLessThanOrEqual(66);
    const page = await dwellward('home', unit, ...at, '--patient', 'spindle-wagtail', '--format', 'html');
    expect(page.out).toMatch(/^<!DOCTYPE html>\n<html lang="en">/);
  });

  it.each([
    [[], '--patient is missing'],
    [['--patient', 'nobody'], '--patient nobody'],
    [['--patient', 'spindle-wagtail', '--format', 'pdf'], 'one of text, html'],
    [['--patient', 'spindle-wagtail', unit], 'One input at a time'],
  ])('refuses %j', async (args, message) => {
    const { exit, err } = await dwellward('home', unit, ...at, ...args);
    expect(exit).toBe(2);
    expect(err).toContain(message);
  });
});

describe('calendar', () => {
  const patient = ['--patient', 'spindle-wagtail'];
  const sequences = (text: string) =>
    [...text.matchAll(/^SEQUENCE:(\d+)/gm)].map(([, value]) => Number(value));
  const uids = (text: string) => [...text.matchAll(/^UID:(\S+)/gm)].map(([, uid]) => uid);

  it('gives a file that a later one updates, with what was done as cancelled', async () => {
    const first = await dwellward('calendar', unit, ...at, ...layers, ...patient);
    expect([first.exit, first.err]).toEqual([0, '']);
    expect(first.out).toMatch(/^BEGIN:VCALENDAR\r\nVERSION:2\.0\r\n/);
    // 2026-11-25T06:30:00Z is 29926470 minutes after 1970.
    expect(new Set(sequences(first.out))).toEqual(new Set([29_926_470]));
    expect(await dwellward('calendar', unit, ...at, ...layers, ...patient)).toEqual(first);

    const file = join(folder, 'first.ics');
    writeFileSync(file, first.out);
    const later = ['--at', '2026-11-25T08:30:00+01:00', ...zone];
    const plain = await dwellward('calendar', unit, ...later, ...patient, '--previous', file);
    expect(plain.exit).toBe(0);
    expect(uids(plain.out)).toEqual(uids(first.out));
    expect(new Set(sequences(plain.out))).toEqual(new Set([29_926_530]));
    const other = await dwellward(
      'calendar',
      unit,
      ...later,
      '--patient',
      'larch-lapwing',
      '--previous',
      file,
    );
    expect(other.out.match(/^STATUS:CANCELLED/gm)).toHaveLength(uids(first.out).length);
    const much = ['--at', '2027-03-01T08:30:00+01:00', ...zone];
    const past = await dwellward('calendar', unit, ...much, '--patient', 'larch-lapwing', '--previous', file);
    expect(past.out).not.toContain('STATUS:CANCELLED');
  });

  it('names nobody unless it is told to', async () => {
    const args = ['calendar', unit, ...at, ...patient];
    expect((await dwellward(...args)).out).not.toMatch(/Spindle|Wagtail/);
    expect((await dwellward(...args, '--tells', 'name')).out).toContain('SUMMARY:Spindle Wagtail: ');
  });

  it.each([
    [['--tells', 'all'], 'one of care, name, full'],
    [['--sequence', '-1'], '--sequence'],
    [['--sequence', '2147483648'], '--sequence 2147483648'],
    [['--alarm', '0'], '--alarm 0'],
    [['--alarm', '1.5'], '--alarm 1.5'],
    [['--previous', 'none.ics'], '--previous none.ics: there is no such file'],
    [[unit], 'One input at a time'],
  ])('refuses %j', async (args, message) => {
    const { exit, err } = await dwellward('calendar', unit, ...at, ...patient, ...args);
    expect(exit).toBe(2);
    expect(err).toContain(message);
  });

  it('refuses a sequence that is not higher than that of the file before', async () => {
    const file = join(folder, 'same.ics');
    writeFileSync(file, (await dwellward('calendar', unit, ...at, ...patient)).out);
    const again = await dwellward('calendar', unit, ...at, ...patient, '--previous', file);
    expect(again.exit).toBe(2);
    expect(again.err).toContain('give a higher --sequence, or a later --at');
  });
});

it.each(['handover', 'home', 'calendar'])(
  '%s --help shows an example, and the help of all names it',
  async (name) => {
    const { exit, out } = await dwellward(name, '--help');
    expect(exit).toBe(0);
    expect(out).toContain(`dwellward ${name} unit.json`);
    expect((await dwellward('--help')).out).toContain(`dwellward ${name} FILE`);
  },
);
