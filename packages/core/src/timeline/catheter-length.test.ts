import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import type { Finding, LineLength } from '../model/record.js';
import { event, finding, line, patient, readLine, said, type Resource } from '../record.kit.js';
import { Calendar, instantMs } from './calendar.js';
import { readRemovedCatheter } from './catheter-length.js';
import { timelineOf } from './timeline.js';

// More than 1 cm shorter than on record is incomplete: common practice, no source.

const exactly = (cm: string) => ({ low: cm, high: cm, lowIncluded: true, highIncluded: true, unit: 'cm' });
const found = (more: Partial<Finding> = {}): Finding => ({
  ref: 'Observation/f',
  finding: 'removed-catheter',
  status: 'final',
  site: 'exit-site',
  values: [],
  ...more,
});
const onRecord = (wholeCm: string, more: Partial<LineLength> = {}): LineLength => ({
  ref: 'Device/line',
  wholeCm,
  ...more,
});

describe('a removed catheter that is only measured', () => {
  it.each([
    ['42', '41', 'whole'],
    ['42', '40.99', 'incomplete'],
    // Not a hair more than 1 cm, though 42.1 - 41.1 is in floating point.
    ['42.1', '41.1', 'whole'],
    ['42', '45', 'whole'],
    ['42', '0', 'incomplete'],
  ])('on record %s cm, came out %s cm: %s', (wholeCm, cm, value) => {
    const read = readRemovedCatheter(found({ quantity: exactly(cm) }), onRecord(wholeCm));
    expect(read.values).toEqual([value]);
    const text = said(read.reading ? [read.reading] : []).join();
    expect(text).toContain(`${cm} cm came out; on record: ${wholeCm} cm whole`);
    expect(text).toContain(`Read as ${value}`);
  });
  it('of a length that is only known from above the shortest counts', () => {
    const below = { high: '42', lowIncluded: false, highIncluded: false, unit: 'cm' };
    expect(readRemovedCatheter(found({ quantity: below }), onRecord('42')).values).toEqual(['incomplete']);
  });
  it.each([
    ['what a person says stands', found({ values: ['whole'], quantity: exactly('10') }), onRecord('42')],
    ['no length came with it', found(), onRecord('42')],
    ['no length is on record', found({ quantity: exactly('10') }), undefined],
    ['only the outside is', found({ quantity: exactly('10') }), { ref: 'Device/line', externalCm: '6' }],
    ['it is another finding', found({ finding: 'damage', quantity: exactly('4') }), onRecord('42')],
  ])('is left as it is where %s', (_, fact, length) => {
    expect(readRemovedCatheter(fact, length)).toBe(fact);
  });
});

describe('the length on record', () => {
  const text = (length: LineLength | undefined) =>
    said([{ code: 'length-on-record', ...(length ? { length } : {}) }]).join();
  const cm = (value: number) => ({
    valueCodeableConcept: undefined,
    valueQuantity: { value, unit: 'cm', system: 'http://unitsofmeasure.org', code: 'cm' },
  });
  const property = (code: string, value: number) => ({
    type: { coding: [{ system: codeSystem.lineProperty, code }] },
    valueQuantity: [cm(value).valueQuantity],
  });
  const device = line('picc', { property: [property('length', 42), property('external-length', 6)] });
  const inserted = event('insertion', '2026-11-01T10:00:00+01:00');
  const measured = (value: number, at: string) => finding('catheter-length', '', at, cm(value));
  const at = (asOf: string, ...more: Resource[]) =>
    timelineOf(readLine(patient(), device, inserted, ...more), new Calendar('Europe/Berlin'), instantMs(asOf))
      .line.length;
  const noon = '2026-11-24T12:00:00+01:00';

  it('is what the Device says, until it is measured', () => {
    expect(at(noon)).toEqual({ ref: 'Device/line', wholeCm: '42', externalCm: '6' });
    const later = measured(40, '2026-11-20T09:00:00+01:00');
    expect(at(noon, later)).toMatchObject({
      wholeCm: '40',
      at: '2026-11-20T09:00:00+01:00',
      externalCm: '6',
    });
    expect(at('2026-11-20T08:59:59+01:00', later)?.wholeCm).toBe('42');
  });
  it('is not what came out', () => {
    const out = event('removal', '2026-11-24T08:00:00+01:00');
    expect(at(noon, out, measured(30, '2026-11-24T08:05:00+01:00'))?.wholeCm).toBe('42');
    expect(at(noon, out, measured(40, '2026-11-24T07:55:00+01:00'))?.wholeCm).toBe('40');
  });
  it('names a repair since then, and none before it', () => {
    const repair = event('repair', '2026-11-15T09:00:00+01:00');
    expect(at(noon, repair)?.repairedAt).toBe('2026-11-15T09:00:00+01:00');
    expect(at(noon, repair, measured(40, '2026-11-15T09:30:00+01:00'))?.repairedAt).toBeUndefined();
  });
  it('is never a gap in a sentence', () => {
    expect(text(undefined)).toMatch(/^no whole length; read it from the papers/);
    expect(text({ ref: 'Device/line', externalCm: '6' })).toMatch(/^no whole length.*, 6 cm of it outside/);
    expect(text(onRecord('42', { repairedAt: noon }))).toMatch(
      /^42 cm whole \(Device\/line\); repaired since/,
    );
  });
});
