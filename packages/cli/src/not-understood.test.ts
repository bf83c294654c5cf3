import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { run } from './index.js';

const folder = mkdtempSync(join(tmpdir(), 'dwellward-'));
const at = ['--at', '2026-11-25T07:30:00+01:00', '--zone', 'Europe/Berlin'];
const picc = [
  { resourceType: 'Patient', id: 'p', birthDate: '1980-01-01', name: [{ text: 'Ann Alder' }] },
  {
    resourceType: 'Device',
    id: 'line',
    type: { coding: [{ code: 'picc' }] },
    patient: { reference: 'Patient/p' },
  },
  {
    resourceType: 'Procedure',
    id: 'in',
    status: 'completed',
    code: { coding: [{ code: 'insertion' }] },
    subject: { reference: 'Patient/p' },
    performedDateTime: '2026-11-20T09:00:00+01:00',
    focalDevice: [{ manipulated: { reference: 'Device/line' } }],
  },
];
const tip = {
  ...picc[2],
  id: 'tip',
  code: { coding: [{ code: 'tip-confirmation' }] },
  performedDateTime: '2026-11-20T10:00:00+01:00',
};
const local = {
  resourceType: 'Procedure',
  id: 'f',
  status: 'completed',
  code: { coding: [{ system: 'http://ward.example/acts', code: 'LF-1' }], text: 'Line flush' },
  subject: { reference: 'Patient/p' },
  performedDateTime: '2026-11-25T06:00:00+01:00',
};

function bundle(name: string, ...resources: object[]): string {
  const path = join(folder, name);
  const entry = resources.map((resource) => ({ resource }));
  writeFileSync(path, JSON.stringify({ resourceType: 'Bundle', type: 'collection', entry }));
  return path;
}

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

const kind = '1 × Procedure.code “Line flush” (http://ward.example/acts|LF-1), Procedure/f';

it.each([
  ['due', []],
  ['due', ['--format', 'json']],
  ['due', ['--format', 'fhir']],
  ['handover', []],
  ['home', ['--patient', 'p']],
  ['calendar', ['--patient', 'p']],
  ['draw', ['--line', 'line', '--tests', 'blood-count']],
])(
  'I2: %s %j ends with exit code 5 where something was not understood, and names it',
  async (command, more) => {
    const args = [command, bundle('local.json', ...picc, tip, local), ...more, ...at];
    const { exit, err } = await dwellward(...args);
    expect(err).toContain(kind);
    expect(exit).toBe(5);
  },
);

it('I2: the JSON answer has all of it, and what is of other business', async () => {
  const { out } = await dwellward(
    'due',
    bundle('json.json', ...picc, local, { resourceType: 'CarePlan' }),
    '--format',
    'json',
    ...at,
  );
  expect(JSON.parse(out)).toMatchObject({
    notUnderstood: [
      { path: 'Procedure.code', code: 'LF-1', count: 1, patients: [{ resources: ['Procedure/f'] }] },
    ],
    otherBusiness: [{ resourceType: 'CarePlan', count: 1 }],
  });
});

it('I2: a Device with a code of the ward’s own is no empty list with exit code 0', async () => {
  const device = {
    ...picc[1],
    type: { coding: [{ system: 'http://ward.example/devices', code: 'D-7' }], text: 'Hickory' },
  };
  const { exit, err } = await dwellward('due', bundle('device.json', picc[0]!, device), ...at);
  expect(exit).toBe(5);
  expect(err).toContain('No line was found, so nothing is asked for anybody. The input has 1 Device');
  expect(err).toContain('1 × Device.type “Hickory” (http://ward.example/devices|D-7), Device/line');
});
