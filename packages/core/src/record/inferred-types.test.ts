import { standard } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { event, line, patient, read, said, type Resource } from '../record.kit.js';

const at = '2026-11-20T09:00:00+01:00';
const snomed = (code: string) => ({ coding: [{ system: standard.snomed, code }] });
const device = (code?: string) => line('', { type: code === undefined ? undefined : snomed(code) });
const put = (code: string, more: object = {}) => event('insertion', at, { code: snomed(code), ...more });
const typeOf = (...resources: Resource[]) => {
  const { lines, issues } = read(patient(), ...resources);
  return { types: lines.map(({ type }) => type), issues };
};

describe('the type of a line', () => {
  it.each([
    ['449859004', 'nontunneled-cvc', 1],
    ['1396546006', 'tunneled-cvc', 1],
    ['1396570005', 'tunneled-cvc', 2],
    ['1396538005', 'tunneled-cvc', 3],
    ['1396531004', 'midline', 1],
    ['1396527005', 'midline', 2],
    ['1396526001', 'picc', 1],
    ['1396489007', 'picc', 2],
  ])('I11: SNOMED CT %s is a line, %s with %d lumens', (code, type, lumens) => {
    const { lines } = read(patient(), device(code));
    expect(lines.map((one) => [one.type, one.lumens.length])).toEqual([[type, lumens]]);
  });

  it.each([
    ['445085009', '736919006', 'tunneled-dialysis-catheter'],
    ['445085009', '61740001', 'tunneled-dialysis-catheter'],
    ['445085009', '736922008', 'tunneled-dialysis-catheter'],
    ['449859004', '736919006', 'nontunneled-dialysis-catheter'],
    ['52124006', '736922008', 'tunneled-dialysis-catheter'],
    ['52124006', '736919006', 'nontunneled-dialysis-catheter'],
    [undefined, '736922008', 'tunneled-dialysis-catheter'],
    [undefined, '425196008', 'picc'],
    [undefined, '80402001', 'implanted-port'],
    ['52124006', '442309004', 'tunneled-cvc'],
    ['52124006', '449860009', 'nontunneled-cvc'],
  ])(
    'I11: a Device that says %s and an insertion that says %s are a %s, said as read from the insertion: a dialysis line taken for another one is flushed with its lock in it',
    (own, insertion, type) => {
      const { types, issues } = typeOf(device(own), put(insertion));
      expect(types).toEqual([type]);
      expect(issues).toMatchObject([
        { resource: 'Device/line', path: 'Device.type', sentence: { code: 'type-by-insertion', type } },
      ]);
      expect(issues[0]?.related).toHaveLength(1);
      expect(said(issues.map(({ sentence }) => sentence))[0]).toContain('Find out which line it is');
    },
  );

  it('I11: that the Device says is believed where the insertion says another, and both are told', () => {
    const { types, issues } = typeOf(device('398176008'), put('80402001'));
    expect(types).toEqual(['picc']);
    expect(issues).toMatchObject([{ code: 'conflicting-values', severity: 'high', path: 'Device.type' }]);
  });

  it.each([
    ['445085009', '442309004'],
    ['445085009', '233527006'],
    ['398176008', '425196008'],
  ])('stands without a word where %s and %s agree', (own, insertion) => {
    expect(typeOf(device(own), put(insertion)).issues).toEqual([]);
  });

  it('is not taken from an insertion that was not done', () => {
    const { types } = typeOf(device('445085009'), put('736922008', { status: 'not-done' }));
    expect(types[0]).toBe('tunneled-cvc');
  });
});

describe('what is charted in standard codes', () => {
  const on = (code: string, more: object = {}) =>
    read(patient(), line(), event('x', at, { id: 'x', code: snomed(code), ...more }));

  it.each([
    ['175853000', 'removal'],
    ['103715008', 'removal'],
    ['439377004', 'removal'],
    ['1230246000', 'dressing-change'],
    ['18949003', 'dressing-change'],
    ['225199003', 'administration-set-change'],
    ['397958003', 'access-needle-change'],
  ])('I11: SNOMED CT %s on the line is its %s', (code, activity) => {
    expect(on(code).lines[0]?.events.map((one) => one.activity)).toEqual([activity]);
  });

  it('I11: the code of any catheter’s removal does not remove a line that it does not name', () => {
    const { lines, issues } = on('103715008', { focalDevice: [] });
    expect(lines[0]?.events).toEqual([]);
    expect(issues.map(({ sentence }) => sentence.code)).not.toContain('activity-on-no-line');
    expect(on('225749003').lines[0]?.events).toEqual([]);
  });
});
