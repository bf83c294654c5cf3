import { describe, expect, it } from 'vitest';
import { event, line, neutrophils, patient, read, type Resource } from '../record.kit.js';

const link = (type: string, ...ids: string[]) => ({
  link: ids.map((id) => ({ type, other: { reference: `Patient/${id}` } })),
});
const other = (id: string, more: object = {}): Resource => ({ ...patient(), id, ...more });
const old = (more: object) => ({ ...patient(), ...more });
const patientsOf = (...resources: Resource[]) =>
  read(line(), event('insertion', '2026-11-20T10:00:00+01:00'), ...resources).lines.map(
    (one) => one.patient.ref,
  );
const said = (...resources: Resource[]) =>
  read(line(), ...resources)
    .issues.filter(({ code }) => code === 'merged-record')
    .map(({ resource, severity, sentence }) => [resource, severity, sentence.code]);

describe('the record of a merged patient', () => {
  it('is read as that of the patient that it was merged into, whichever of the two says so', () => {
    for (const two of [
      [old(link('replaced-by', 'q')), other('q')],
      [patient(), other('q', link('replaces', 'p'))],
      [old(link('replaced-by', 'q')), other('q', link('replaces', 'p'))],
    ]) {
      expect(patientsOf(...two)).toEqual(['Patient/q']);
      expect(said(...two)).toEqual([['Patient/p', 'low', 'merged-into']]);
    }
  });

  it('brings its results along, and finds those of the other', () => {
    const at = '2026-11-24T06:00:00+01:00';
    const count = neutrophils(0.2, at, { subject: { reference: 'Patient/q' } });
    const [one] = read(line(), old(link('replaced-by', 'q')), other('q'), count).lines;
    expect(one?.patient.measurements.map(({ kind }) => kind)).toContain('anc');
  });

  it('is followed to the end of a chain', () => {
    const chain = [old(link('replaced-by', 'q')), other('q', link('replaced-by', 'r')), other('r')];
    expect(patientsOf(...chain)).toEqual(['Patient/r']);
    expect(said(...chain)).toEqual([
      ['Patient/p', 'low', 'merged-into'],
      ['Patient/q', 'low', 'merged-into'],
    ]);
  });

  it('is not followed, and that is said, where the other is not there, where there are two, or in a circle', () => {
    for (const unclear of [
      [old(link('replaced-by', 'q'))],
      [old(link('replaced-by', 'q', 'r')), other('q'), other('r')],
      [old(link('replaced-by', 'q')), other('q', link('replaced-by', 'p'))],
    ]) {
      expect(patientsOf(...unclear)).toEqual(['Patient/p']);
      expect(said(...unclear)).toContainEqual(['Patient/p', 'high', 'merged-not-followed']);
    }
  });

  it('is no other’s for links that say less, nor for one to itself', () => {
    for (const type of ['refer', 'seealso']) {
      expect(patientsOf(old(link(type, 'q')), other('q'))).toEqual(['Patient/p']);
      expect(said(old(link(type, 'q')), other('q'))).toEqual([]);
    }
    expect(said(old(link('replaced-by', 'p')))).toEqual([]);
  });
});
