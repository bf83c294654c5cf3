import { standard } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  berlin,
  care,
  event,
  forbidWhile,
  line,
  onFinding,
  patient,
  policyOf,
  read,
  type Resource,
  rule,
} from '../record.kit.js';

// SNOMED CT, R4’s value set procedure-outcome: 385669000 successful, 385670004 partially successful, 385671000 unsuccessful. That a tip that
// was not found in its place is not confirmed: ASA 2020, INS (from memory), dialysis IFU (“verify by x-ray”, seen).

const snomed = (code: string) => ({ coding: [{ system: standard.snomed, code }] });
const done = (activity: string, outcome?: unknown): Resource =>
  event(activity, '2026-11-25T08:30:00+01:00', { id: 'act', ...(outcome === undefined ? {} : { outcome }) });

function counted(act: Resource): { readonly counts: boolean; readonly issues: readonly string[] } {
  const { lines, issues } = read(patient(), line(), event('insertion', '2026-11-25T08:00:00+01:00'), act);
  return {
    counts:
      lines[0]?.events.some(({ ref, status }) => ref === 'Procedure/act' && status === 'completed') === true,
    issues: issues.map(({ code, severity, resource, path }) => `${code} ${severity} ${resource} ${path}`),
  };
}

const unread = ['unknown-code high Procedure/act Procedure.outcome'];

describe('a tip confirmation counts by its outcome', () => {
  it.each<[string, unknown, boolean, string[]]>([
    ['none', undefined, true, []],
    ['an empty one', {}, true, []],
    ['successful', snomed('385669000'), true, []],
    ['successful, with a text', { ...snomed('385669000'), text: 'lower third' }, true, []],
    ['partially successful', snomed('385670004'), false, []],
    ['unsuccessful', snomed('385671000'), false, []],
    ['both', { coding: [...snomed('385669000').coding, ...snomed('385671000').coding] }, false, []],
    ['a text alone', { text: 'malposition, tip in the jugular vein' }, false, unread],
    ['another code', snomed('12345'), false, unread],
    ['a code of another system', { coding: [{ code: '385669000', system: 'urn:other' }] }, false, unread],
    ['no CodeableConcept', 'malposition', false, unread],
  ])('%s', (_, outcome, counts, issues) => {
    expect(counted(done('tip-confirmation', outcome))).toEqual({ counts, issues });
  });
});

describe('any other event', () => {
  it.each<[string, unknown, boolean]>([
    ['flush', snomed('385671000'), false],
    ['flush', snomed('385670004'), true],
    ['flush', { text: 'as usual' }, true],
    ['repair', snomed('385671000'), false],
    // The drug is in the lumen, blood was in it: what follows from that must not be lifted.
    ['occlusion-treatment', snomed('385671000'), true],
    ['blood-sampling', snomed('385671000'), true],
  ])('%s, %j', (activity, outcome, counts) => {
    expect(counted(done(activity, outcome))).toEqual({ counts, issues: [] });
  });

  it('an insertion that did not succeed puts no line in', () => {
    const asked = policyOf(rule('daily', { kind: 'interval', every: { value: 1, unit: 'd' } }));
    const failed = event('insertion', '2026-11-25T08:00:00+01:00', { outcome: snomed('385671000') });
    const { issues } = care([patient(), line(), failed], asked, berlin('2026-11-25T09:00:00+01:00'));
    expect(issues.map(({ code }) => code)).toEqual(['no-insertion']);
  });
});

it('a hold until the tip is confirmed stands after a confirmation that found it elsewhere', () => {
  const confirm = rule('confirm', onFinding('migration'), { activity: 'tip-confirmation', scope: 'line' });
  const hold = rule('hold', forbidWhile('%last.tipConfirmation.empty()'), {
    activity: 'infusion-start',
    scope: 'line',
  });
  const holdsWith = (outcome: unknown) =>
    care(
      [patient(), line(), event('insertion', '2026-11-25T08:00:00+01:00'), done('tip-confirmation', outcome)],
      policyOf(confirm, hold),
      berlin('2026-11-25T09:00:00+01:00'),
    ).holds.length;
  expect(holdsWith({ text: 'malposition, tip in the jugular vein' })).toBe(1);
  expect(holdsWith(snomed('385671000'))).toBe(1);
  expect(holdsWith(snomed('385669000'))).toBe(0);
});
