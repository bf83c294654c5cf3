import { describe, expect, it } from 'vitest';
import { dressing, event, finding, lab, line, patient, type Resource } from '../record.kit.js';
import { codesSeen, renderCodes, startMap } from './index.js';

const at = '2026-11-24T08:00:00+01:00';
const seen = (...resources: Resource[]) => codesSeen(resources.map((resource) => ({ resource })));
const rows = (...resources: Resource[]) =>
  seen(...resources).map(({ path, code, text, standing, readAs }) => [
    path,
    code ?? text,
    standing,
    ...(readAs === undefined ? [] : [`${readAs.kind} ${readAs.code}`]),
  ]);
const hospital = (code: string, display?: string) => ({
  coding: [{ system: 'https://hospital.example/codes', code, ...(display ? { display } : {}) }],
});
const onLine = { focalDevice: [{ manipulated: { reference: 'Device/line' } }] };
const done = (id: string, code: object, more: object = {}): Resource => ({
  resourceType: 'Procedure',
  id,
  status: 'completed',
  subject: { reference: 'Patient/p' },
  performedDateTime: at,
  code,
  ...more,
});
const row = (id: string, code: object, more: object = {}): Resource => ({
  resourceType: 'Observation',
  id,
  status: 'final',
  subject: { reference: 'Patient/p' },
  effectiveDateTime: at,
  code,
  ...more,
});

describe('the codes of a record', () => {
  it('are said with what each is read as', () => {
    expect(
      rows(
        patient(),
        line('picc'),
        event('dressing-change', at, dressing('gauze-dressing')),
        finding('blood-return', 'none', at),
        lab('751-8', 0.4, '10*9/L', at),
      ),
    ).toEqual(
      expect.arrayContaining([
        ['Device.type', 'picc', 'read', 'line-type picc'],
        ['Procedure.code', 'dressing-change', 'read', 'activity dressing-change'],
        ['Procedure.usedCode', 'gauze-dressing', 'read', 'dressing gauze-dressing'],
        ['Observation.code', 'blood-return', 'read', 'finding blood-return'],
        ['Observation.value', 'none', 'read', 'finding-value none'],
      ]),
    );
  });

  it('that concern a line and are not understood come first, by what they would change, then by how often', () => {
    const codes = rows(
      patient(),
      line(),
      { resourceType: 'Device', id: 'other', patient: { reference: 'Patient/p' }, type: hospital('CVC3') },
      done('a', hospital('A')),
      done('b', hospital('B'), onLine),
      done('c', hospital('C')),
      done('c2', hospital('C')),
      row('r', hospital('R'), { focus: [{ reference: 'Device/line' }] }),
    );
    expect(codes.slice(0, 5)).toEqual([
      ['Procedure.code', 'B', 'not-understood'],
      ['Observation.code', 'R', 'not-understood'],
      ['Device.type', 'CVC3', 'not-understood'],
      ['Procedure.code', 'C', 'not-understood'],
      ['Procedure.code', 'A', 'not-understood'],
    ]);
  });

  it('are counted by resource and by patient, with examples and values; a text without a code goes by the text', () => {
    const codes = seen(
      patient(),
      line(),
      row('r1', { text: 'Cap changed' }, { valueString: 'yes' }),
      row('r2', { text: 'Cap changed' }, { valueString: 'no' }),
      row('r3', { text: 'Cap changed' }, { valueQuantity: { value: 2, unit: 'cm' } }),
    );
    expect(codes.find(({ text }) => text === 'Cap changed')).toMatchObject({
      count: 3,
      patients: 1,
      onLine: false,
      standing: 'not-understood',
      examples: ['Observation/r1', 'Observation/r2', 'Observation/r3'],
      values: ['2 cm', 'no', 'yes'],
    });
  });

  it('of somebody without a line are left out, but for the rows of a chart', () => {
    const other = { subject: { reference: 'Patient/other' } };
    const codes = rows(
      patient(),
      line(),
      done('a', hospital('A'), other),
      row('r', hospital('PICC: dressing change'), other),
      row('l', { coding: [{ system: 'http://loinc.org', code: '8867-4' }] }, other),
    ).map(([, code]) => code);
    expect(codes).toContain('PICC: dressing change');
    expect(codes).not.toContain('A');
    expect(codes).not.toContain('8867-4');
  });

  it('are all there where no line is known at all', () => {
    const codes = rows(patient(), done('a', hospital('A')), row('r', hospital('R'))).map(([, code]) => code);
    expect(codes).toEqual(expect.arrayContaining(['A', 'R']));
  });
});

describe('a map that was just started', () => {
  const started = startMap(
    seen(
      patient(),
      line(),
      done('a', hospital('ACT1', 'Dressing change, central line'), onLine),
      done('b', { text: 'Line flushed' }, onLine),
      row('s', { coding: [{ system: 'http://loinc.org', code: '8867-4' }] }),
    ),
    'https://hospital.example/ConceptMap/lines',
  );

  it('has what is not understood, by system or as text, and names no target', () => {
    expect(
      started.group?.map(({ source, target, element }) => [source, target, element.map(({ code }) => code)]),
    ).toEqual([
      [
        'https://dwellward.example/fhir/CodeSystem/charted-text',
        'https://dwellward.example/fhir/CodeSystem/line-care-activity',
        ['Line flushed'],
      ],
      [
        'https://hospital.example/codes',
        'https://dwellward.example/fhir/CodeSystem/line-care-activity',
        ['ACT1'],
      ],
    ]);
    const targets = started.group?.flatMap(({ element }) => element.flatMap(({ target }) => target ?? []));
    expect(targets?.every(({ code, equivalence }) => code === undefined && equivalence === 'unmatched')).toBe(
      true,
    );
  });

  it('tells what a person needs to fill it in, and what its words are most like', () => {
    expect(started.group?.[1]?.element[0]?.target?.[0]?.comment).toBe(
      '1 × Procedure.code, on a line. By its words most like dressing-change (Dressing change).',
    );
  });
});

it('a table of codes lists every code that is not understood, and twenty of the others unless all are asked for', () => {
  const many = Array.from({ length: 30 }, (_, at30) => row(`r${at30}`, hospital(`R${at30}`)));
  const others = Array.from({ length: 30 }, (_, at30) =>
    row(`l${at30}`, { coding: [{ system: 'http://loinc.org', code: `${at30}-0` }] }),
  );
  const codes = seen(patient(), line(), ...many, ...others);
  const text = renderCodes(codes, { columns: 0 });
  expect(text.match(/hospital\.example/g)).toHaveLength(30);
  expect(text.match(/loinc\.org/g)).toHaveLength(20);
  expect(text).toContain('and 10 more');
  expect(renderCodes(codes, { columns: 0, all: true }).match(/loinc\.org/g)).toHaveLength(30);
});
