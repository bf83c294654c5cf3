import { bundledPlan, defaultPolicy, readPolicy } from '@dwellward/policy';
import { findingCodes, findingRow, saysWell, valuesOf } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { homeSheet } from '../handover/home-sheet.js';
import { renderHomeText } from '../handover/home-text.js';
import { handover } from '../handover/handover.js';
import { renderHandover } from '../handover/render-handover.js';
import { dueBundle } from '../fhir/due-bundle.js';
import { renderTable } from '../table/render-table.js';
import { dueCare } from './due-care.js';
import { unansweredSaid } from './unanswered.js';
import {
  berlin,
  care,
  event,
  finding,
  line,
  lumen,
  on,
  onFinding,
  patient,
  policyOf,
  read,
  rule,
  said,
  type Resource,
} from '../record.kit.js';

const inserted = event('insertion', '2026-11-01T10:00:00+01:00');
const twoLumens = [patient(), line(), lumen('red'), lumen('white'), inserted];
const when = berlin('2026-11-25T12:00:00+01:00');
const seenOn = (id: string) => ({ focus: [{ reference: `Device/${id}` }] });
const at = '2026-11-25T09:00:00+01:00';
const later = '2026-11-25T11:00:00+01:00';

function base() {
  const reading = readPolicy([bundledPlan('base')]);
  if (!reading.ok) throw new Error('the base was refused');
  return reading.policy;
}

const quantity = (code: string, value: number, unit: string, time: string): Resource =>
  finding(code, '', time, { valueCodeableConcept: undefined, valueQuantity: { value, unit, code: unit } });

const told = (resources: readonly Resource[], policy = base()) =>
  care([...twoLumens, ...resources], policy, when).unanswered.map(
    ({ finding: code, values }) => `${code} ${values.join()}`,
  );

describe('what no rule of the policy in force answers', () => {
  it('is told with the lumen that it was seen on', () => {
    const seen = finding('flush-resistance', 'blocked', at, seenOn('red'));
    const sentences = unansweredSaid(care([...twoLumens, seen], policyOf(), when));
    expect(said(sentences)).toEqual([expect.stringContaining('red')]);
  });

  it.each([
    ['air that entered', finding('air-entry', 'present', at)],
    ['an arm that is swollen', finding('arm-neck-swelling', 'present', at)],
    ['signs along the tunnel', finding('tunnel-signs', 'present', at)],
    ['a blocked lumen', finding('flush-resistance', 'blocked', at, seenOn('red'))],
    ['a grade in words of the hospital’s own', finding('bleeding', 'much', at)],
  ])('C7: is told where the base is alone: %s', (_, found) => {
    expect(told([found])).toHaveLength(1);
    expect(told([found], defaultPolicy())).toEqual([]);
  });

  it('C7: is told of a line that was pulled by 3 cm, and not of one that lies as it did', () => {
    const lengths = (cm: number) => [
      quantity('external-length', 12, 'cm', '2026-11-01T10:00:00+01:00'),
      quantity('external-length', cm, 'cm', at),
    ];
    expect(told(lengths(15))).toEqual(['external-length ']);
    expect(told(lengths(12))).toEqual([]);
    expect(told(lengths(15), defaultPolicy())).toEqual([]);
  });

  it('C7: is told of a value that the rules for others do not read', () => {
    const sluggish = finding('blood-return', 'sluggish', at, seenOn('red'));
    const forNone = policyOf(rule('none', onFinding('blood-return', ['none']), { scope: 'lumen' }));
    expect(told([sluggish], forNone)).toEqual(['blood-return sluggish']);
    expect(told([finding('blood-return', 'none', at, seenOn('red'))], forNone)).toEqual([]);
  });

  it('is told where the rules are of another part of the line', () => {
    const atIncision = policyOf(rule('incision', onFinding('bleeding'), { scope: 'incision' }));
    const bleeds = finding('bleeding', 'present', at);
    expect(told([bleeds], atIncision)).toEqual(['bleeding present']);
  });

  it('C7: is told of a lumen’s finding that does not say which lumen: it sets none of them going', () => {
    expect(told([finding('flush-resistance', 'blocked', at)], defaultPolicy())).toHaveLength(1);
  });

  it('is told until all is well again', () => {
    const swollen = finding('arm-neck-swelling', 'present', at);
    expect(told([swollen, finding('arm-neck-swelling', 'absent', later)])).toEqual([]);
    const blocked = finding('flush-resistance', 'blocked', at, seenOn('red'));
    expect(told([blocked, finding('blood-return', 'brisk', later, seenOn('red'))])).toEqual([]);
    expect(told([blocked, finding('blood-return', 'brisk', later, seenOn('white'))])).toHaveLength(1);
    const leak = finding('damage', 'leak', at, seenOn('red'));
    expect(told([leak])).toEqual(['damage leak']);
    expect(told([leak, event('repair', later, on('red'))])).toEqual([]);
  });

  it('is nothing that says that all is well', () => {
    expect(
      told([
        finding('blood-return', 'brisk', at, seenOn('red')),
        finding('dressing-condition', 'intact', at),
        finding('connector-condition', 'clear', at, seenOn('red')),
        finding('air-entry', 'absent', at),
        finding('fever', 'absent', at),
      ]),
    ).toEqual([]);
  });

  it('is nothing of a line that is out, but what was found since', () => {
    const out = event('removal', '2026-11-25T10:00:00+01:00');
    expect(told([out, finding('arm-neck-swelling', 'present', at)])).toEqual([]);
    expect(told([out, finding('arm-neck-swelling', 'present', later)])).toEqual([
      'arm-neck-swelling present',
    ]);
  });

  it('C7: stands first in every output', () => {
    const policy = base();
    const records = read(...twoLumens, finding('air-entry', 'present', at));
    const cares = records.lines.map((one) => dueCare(one, policy, when));
    const table = renderTable(records, cares, when, { colour: false, columns: 0 });
    expect(table.split('\n')[2]).toMatch(
      /^!! .*No rule of the policy in force answers this: air entry, found /,
    );
    const shift = { from: when.asOf, to: '2026-11-25T20:00:00+01:00', zone: when.zone };
    const text = renderHandover(handover(records, cares, policy, shift), { colour: false, columns: 0 });
    expect(text.indexOf('answers this: air entry')).toBeGreaterThan(0);
    expect(text.indexOf('answers this: air entry')).toBeLessThan(text.indexOf('(Device/line)'));
    const sheet = renderHomeText(homeSheet(records, cares, policy, when, 'Patient/p'));
    expect(sheet).toContain('Tell your nurse now: air entry');
    const issues = (dueBundle(records, cares, policy, when).entry ?? []).filter(
      ({ resource }) => resource?.resourceType === 'DetectedIssue',
    );
    expect(JSON.stringify(issues)).toContain('unanswered-finding');
  });

  // Each finding by itself, with each value that tells of something wrong.
  const wrong = findingCodes
    .filter((code) => findingRow(code).component === undefined)
    .flatMap((code) => {
      const { kind, values = {} } = findingRow(code);
      if (kind === 'boolean' || kind === 'quantity') return [];
      return (
        (valuesOf(code) ?? Object.keys(values))
          .filter((value) => !saysWell(code, value))
          // A piece that stayed in has its first steps in the layer of removals.
          .filter((value) => value !== 'incomplete')
          .map((value) => [code, value] as const)
      );
    });

  it.each(wrong)('is by the default policy none of these: %s %s', (code, value) => {
    const isPart = findingRow(code).kind === 'components';
    const found = isPart
      ? finding(code, '', at, {
          valueCodeableConcept: undefined,
          component: [{ code: { coding: [{ code: value }] }, valueBoolean: true }],
        })
      : finding(code, value, at, findingRow(code).scope === 'lumen' ? seenOn('red') : {});
    expect(told([found], defaultPolicy())).toEqual([]);
  });
});
