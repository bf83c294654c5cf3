import { handover, readRecords, renderHandover, renderTable } from '@dwellward/core';
import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  at,
  careOf,
  event,
  finding,
  fromSkin,
  infusion,
  itemOf,
  lineOf,
  policyOf,
  zone,
  type Resources,
} from './line.js';
import { spoken } from '../../said.js';

// Nothing runs before the tip is confirmed: ASA 2020, INS (from memory), dialysis IFU (“verify by x-ray”, seen). A
// leaking line is clamped between damage and body: home sheet (seen). That what runs all the same has to be told:
// common practice, no source.

const policy = policyOf('common-practice', 'trouble', 'repair-care');
/** In since this morning: of an old line that is in use nobody asks for its tip. */
const withoutTip = lineOf().flatMap((one) =>
  one['id'] === 'confirmed'
    ? []
    : one['id'] === 'inserted'
      ? [event('inserted', 'insertion', at('08:00:00'))]
      : [one],
);
const leak = (time: string) => fromSkin(8, finding('leak', 'damage', at(time), 'leak', 'red'));
const told = (resources: Resources, when: string) =>
  spoken(careOf(resources, policy, at(when)).issues.filter(({ code }) => code === 'against-a-hold'));

describe('an infusion that was started while a hold forbade it', () => {
  it('before the tip was confirmed: high, with the infusion, the rule and its event', () => {
    expect(told([...withoutTip, infusion('run', 'red', at('09:00:00'))], '10:00:00')).toMatchObject([
      {
        severity: 'high',
        resource: 'MedicationAdministration/run',
        path: 'MedicationAdministration.effective',
        line: 'Device/line',
        sentence: expect.stringMatching(
          /^The infusion on red was started at Wed 25 Nov 2026 09:00 against the hold .*It runs\. Find out what runs: “electrolytes”\. .*Anything else: stop it and clamp, or say why\.$/,
        ) as string,
        related: ['Procedure/inserted'],
      },
    ]);
  });

  it('by its start alone, until it was stopped', () => {
    const start = event('start', 'infusion-start', at('09:00:00'), 'red');
    const stop = event('stop', 'infusion-stop', at('09:30:00'), 'red');
    const [running] = told([...withoutTip, start], '10:00:00');
    expect(running).toMatchObject({
      severity: 'high',
      resource: 'Procedure/start',
      path: 'Procedure.performed',
    });
    expect(running?.sentence).toContain('stop it and clamp');
    const [stopped] = told([...withoutTip, start, stop], '10:00:00');
    expect(stopped).toMatchObject({ severity: 'high', resource: 'Procedure/start' });
    expect(stopped?.sentence).not.toContain('stop it and clamp');
  });

  it('charted as a start and as an infusion is told once', () => {
    const both = [
      event('start', 'infusion-start', at('09:00:00'), 'red'),
      infusion('run', 'red', at('09:05:00')),
    ];
    expect(told([...withoutTip, ...both], '10:00:00').map(({ resource }) => resource)).toEqual([
      'MedicationAdministration/run',
    ]);
  });

  it('through a lumen that leaks', () => {
    const resources = [...lineOf(), leak('08:00:00'), infusion('run', 'red', at('09:00:00'))];
    expect(told(resources, '10:00:00')).toMatchObject([{ severity: 'high', related: ['Observation/leak'] }]);
    // The other lumen is not held.
    const other = [...lineOf(), leak('08:00:00'), infusion('run', 'white', at('09:00:00'))];
    expect(told(other, '10:00:00')).toEqual([]);
  });

  it('before the hold is no start against it; what runs on is told as moderate while it runs', () => {
    const ran = [...lineOf(), leak('08:00:00'), infusion('run', 'red', at('07:00:00'), at('09:00:00'))];
    // The hold is not known yet.
    expect(told(ran, '07:30:00')).toEqual([]);
    expect(told(ran, '08:30:00')).toMatchObject([
      { severity: 'moderate', sentence: expect.stringContaining('runs on while the hold') as string },
    ]);
    expect(told(ran, '09:30:00')).toEqual([]);
  });

  it('is none once the tip is confirmed, and none without a hold', () => {
    expect(told([...lineOf(), infusion('run', 'red', at('09:00:00'))], '10:00:00')).toEqual([]);
  });
});

describe('while it runs', () => {
  const resources = [...lineOf(), leak('08:00:00'), infusion('run', 'red', at('09:00:00'))];
  const care = careOf(resources, policy, at('10:00:00'));
  // Damage: nothing may run on.
  const rest =
    'Find out what runs: “electrolytes” through red. If it keeps up the circulation, as a vasopressor does, or must not stop suddenly, never just stop it: call the responsible clinician now and move it to another line first. Anything else: stop it now and clamp.';
  const warning = `WARNING, red: an infusion runs against a hold. ${rest}`;
  const records = readRecords(resources.map((resource) => ({ resource })));
  const when = { asOf: at('10:00:00'), zone };

  it('the state of the lumen says so', () => {
    const infusing = care.lumens[0]?.also.find(({ state }) => state === 'infusing');
    expect(care.lumens[0]?.state).toBe('not-to-be-used');
    expect(spoken(infusing)?.why).toBe(`An infusion runs. It runs against a hold. ${rest}`);
  });

  it('the table warns on top of the line', () => {
    const rows = renderTable(records, [care], when, { colour: false, columns: 0 }).split('\n');
    const head = rows.findIndex((row) => row.includes('(Device/line), tunneled'));
    expect(rows[head + 1]).toBe(`    !! ${warning}`);
  });

  it('and so does the hand-over', () => {
    const text = renderHandover(
      handover(records, [care], policy, { from: at('10:00:00'), to: at('18:00:00'), zone }),
      { colour: false, columns: 2000 },
    );
    const rows = text.split('\n');
    const head = rows.findIndex((row) => row.includes('(Device/line), tunneled'));
    expect(rows[head + 1]).toBe(`    ${warning}`);
    expect(text).toContain(`It runs against a hold. ${rest}`);
  });
});

describe('an infusion that is ordered for a line', () => {
  const order = {
    resourceType: 'ServiceRequest',
    id: 'drip',
    status: 'active',
    intent: 'order',
    code: { coding: [{ system: codeSystem.lineCareActivity, code: 'infusion-start' }] },
    subject: { reference: 'Patient/maple' },
    occurrenceTiming: { repeat: { frequency: 1, period: 1, periodUnit: 'd' } },
    authoredOn: at('07:00:00'),
  };
  const blocked = (device: string) => ({
    ...finding('blocked', 'flush-resistance', at('09:00:00'), 'blocked', device),
    id: `blocked-${device}`,
  });
  const start = (resources: Resources) =>
    itemOf(careOf([...resources, order], policy, at('10:00:00')), 'infusion-start');
  const withoutLumens = lineOf().filter(({ id }) => id !== 'red' && id !== 'white');

  it('C11: waits while the only lumen is blocked, though the record counts no lumens', () => {
    expect(start(withoutLumens)?.state).not.toBe('held');
    expect(start([...withoutLumens, blocked('line')])).toMatchObject({
      state: 'held',
      heldBy: { rule: { id: 'infusion-start-while-blocked' } },
    });
  });

  it('C11: waits while every lumen is blocked, and not while one is open', () => {
    expect(start([...lineOf(), blocked('red')])?.state).not.toBe('held');
    expect(start([...lineOf(), blocked('red'), blocked('white')])?.state).toBe('held');
    const opened = finding('open', 'flush-resistance', at('09:30:00'), 'none', 'white');
    const returns = finding('returns', 'blood-return', at('09:30:00'), 'brisk', 'white');
    expect(start([...lineOf(), blocked('red'), blocked('white'), opened, returns])?.state).not.toBe('held');
  });
});
