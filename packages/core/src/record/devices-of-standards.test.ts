import { standard } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { event, line, patient, read, said, type Resource } from '../record.kit.js';

// Devices as the US Core profile of implantable devices and the International Patient Summary have them: a type in SNOMED
// CT, no name, no insertion; the use of a device tells when and where (HL7 FHIR R4, DeviceUseStatement).

const snomed = (code: string, more: object = {}) => ({
  coding: [{ system: standard.snomed, code, ...more }],
});
const device = (more: object = {}): Resource => ({
  resourceType: 'Device',
  id: 'line',
  status: 'active',
  type: snomed('398176008', { display: 'Peripherally inserted central catheter' }),
  patient: { reference: 'Patient/p' },
  udiCarrier: [{ deviceIdentifier: 'invented', carrierHRF: '(01)invented' }],
  expirationDate: '2030-01-01',
  ...more,
});
const use = (more: object = {}): Resource => ({
  resourceType: 'DeviceUseStatement',
  id: 'use',
  status: 'active',
  subject: { reference: 'Patient/p' },
  device: { reference: 'Device/line' },
  ...more,
});
const [start, end] = ['2026-11-20T08:00:00Z', '2026-11-24T08:00:00Z'];
const sentences = (...resources: Resource[]) =>
  said(read(patient(), ...resources).issues.map(({ sentence }) => sentence));
const lineOf = (...resources: Resource[]) => read(patient(), ...resources).lines[0];
const activities = (...resources: Resource[]) => lineOf(...resources)?.events.map(({ activity }) => activity);

describe('a Device of a registry or a summary', () => {
  it('is read by its type, without a name and an insertion', () => {
    const { lines, issues } = read(patient(), device());
    expect(issues).toEqual([]);
    expect(lines).toMatchObject([
      {
        type: 'picc',
        name: { name: 'Peripherally inserted central catheter' },
        patient: { ref: 'Patient/p' },
      },
    ]);
  });

  it.each([
    ['79834000', 'tunneled-cvc'],
    ['102318003', undefined],
  ])('%s of the value set of devices is a line', (code, type) => {
    expect(lineOf(device({ type: snomed(code) }))).toMatchObject({ ref: 'Device/line' });
    expect(lineOf(device({ type: snomed(code) }))?.type).toBe(type);
  });

  it.each(['82449006', '23973005', '30610008', '787483001'])('%s is no line, and other business', (code) => {
    const { lines, notUnderstood, otherBusiness } = read(patient(), device({ type: snomed(code) }));
    expect([lines, notUnderstood]).toEqual([[], []]);
    expect(otherBusiness).toContainEqual({ resourceType: 'Device', count: 1 });
  });
});

describe('the use of a Device', () => {
  it.each<[string, object, string[]]>([
    [
      'completed, with an end',
      { status: 'completed', timingPeriod: { start, end } },
      ['insertion', 'removal'],
    ],
    ['in use', { timingPeriod: { start } }, ['insertion']],
    [
      'within the bounds of a Timing',
      { timingTiming: { repeat: { boundsPeriod: { start } } } },
      ['insertion'],
    ],
    ['that is only meant to be', { status: 'intended', timingPeriod: { start } }, []],
    ['entered in error', { status: 'entered-in-error', timingPeriod: { start } }, []],
  ])('%s tells what was done', (_, more, wanted) => {
    expect(activities(device(), use(more))).toEqual(wanted);
  });

  it.each<[string, object, string]>([
    [
      'an end while it is active',
      { timingPeriod: { start, end } },
      'The use of this line has an end, and its status is “active”',
    ],
    ['completed without an end', { status: 'completed' }, 'and when it ended is not said'],
    ['one time alone', { timingDateTime: start }, 'Since when it is in place is not known by that'],
  ])('%s leaves the line in place, and says so', (_, more, sentence) => {
    expect(activities(device(), use(more))).not.toContain('removal');
    expect(sentences(device(), use(more)).join()).toContain(sentence);
  });

  it('says whose line it is, and where two patients have it that is said', () => {
    const nobodys = device({ patient: undefined });
    expect(lineOf(nobodys, use())?.patient.ref).toBe('Patient/p');
    const other = use({ id: 'other', subject: { reference: 'Patient/q' } });
    expect(sentences(nobodys, use(), other).join()).toContain('names several (Patient/q, Patient/p)');
  });

  it('of another patient than the Device’s puts nothing in', () => {
    const other = use({ subject: { reference: 'Patient/q' }, timingPeriod: { start } });
    expect(activities(device(), other)).toEqual([]);
    expect(sentences(device(), other).join()).toContain('the line belongs to Patient/p; it is not used');
  });

  it('in an extension of the Device alone says whose it is', () => {
    const url = 'http://hl7.org/fhir/5.0/StructureDefinition/extension-Device.association';
    const one = device({
      patient: undefined,
      extension: [{ url, valueReference: { reference: 'Patient/p' } }],
    });
    expect(lineOf(one)?.patient.ref).toBe('Patient/p');
    expect(sentences(one).join()).toContain(`only in the extension ${url}`);
  });
});

describe('where in the body a line is', () => {
  const site = (bodySite: object, ...more: Resource[]) =>
    lineOf(device(), use({ bodySite }), ...more)?.bodySite;

  it.each<[string, object, object]>([
    ['a code', snomed('19715009'), { text: 'basilic vein' }],
    ['code and side', { coding: [...snomed('19715009').coding, ...snomed('24028007').coding] }, { text: 'right basilic vein', side: 'right' }], // prettier-ignore
    ['a post-coordinated code', snomed('12123001:272741003=7771000'), { text: 'left internal jugular vein', side: 'left' }], // prettier-ignore
    ['a text', { text: 'rechter Unterarm' }, { text: 'rechter Unterarm', side: 'right' }],
    ['both sides', { text: 'left or right arm' }, { text: 'left or right arm' }],
  ])('is read of %s', (_, bodySite, wanted) => {
    expect(site(bodySite)).toEqual({ ref: 'DeviceUseStatement/use', ...wanted });
  });

  it('is read of a BodyStructure', () => {
    const pointing = {
      extension: [
        {
          url: 'http://hl7.org/fhir/StructureDefinition/bodySite',
          valueReference: { reference: 'BodyStructure/b' },
        },
      ],
    };
    const structure: Resource = {
      resourceType: 'BodyStructure',
      id: 'b',
      location: snomed('83419000'),
      locationQualifier: [snomed('419161000')],
    };
    expect(site(pointing, structure)).toMatchObject({ text: 'left femoral vein', side: 'left' });
  });

  it('names a line that has no name, so that two of one patient can be told apart', () => {
    expect(lineOf(device(), use({ bodySite: { text: 'right arm' } }))?.name).toEqual({
      code: 'named',
      name: 'Peripherally inserted central catheter, right arm',
    });
  });

  it('on both sides is told', () => {
    const put = event('insertion', start, { bodySite: [{ text: 'left basilic vein' }] });
    expect(site({ text: 'right arm' }, put)).toMatchObject({ side: 'left' });
    expect(sentences(device(), use({ bodySite: { text: 'right arm' } }), put).join()).toContain(
      'on both sides of the body (left basilic vein; right arm)',
    );
  });
});

describe('a Device that is no longer active', () => {
  const inactive = (more: object = {}) => line('picc', { status: 'inactive', ...more });

  it('stays in place until its removal is charted, and that is said', () => {
    const one = inactive({ statusReason: [{ coding: [{ code: 'off', display: 'Off' }] }] });
    expect(lineOf(one)?.valid).toBe(true);
    expect(sentences(one)).toEqual([
      'The Device is marked “inactive” (Off), and no removal is on record: its care goes on until the removal is charted. If the line is out, chart when.',
    ]);
  });

  it('is not told of once the removal is on record, by a Procedure or by its use', () => {
    expect(sentences(inactive(), event('removal', end))).toEqual([]);
    expect(sentences(inactive(), use({ status: 'completed', timingPeriod: { start, end } }))).toEqual([]);
  });

  it('by the reason of its status alone is told of too', () => {
    const lost = line('picc', { statusReason: [{ coding: [{ code: 'lost' }] }] });
    expect(sentences(lost).join()).toContain('marked “active” (lost)');
  });
});
