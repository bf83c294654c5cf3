import { describe, expect, it } from 'vitest';
import { event, finding, line, patient, readLine, said, type Resource } from '../record.kit.js';
import { readRecords } from './read-records.js';

const both = (...resources: Resource[]) =>
  readRecords([patient(), line(), ...resources].map((resource) => ({ resource })));
const change = (at: string, more: object = {}) => event('dressing-change', at, { id: 'c', ...more });
const monday = '2026-11-23T08:00:00+01:00';
const tuesday = '2026-11-24T08:00:00+01:00';

describe('two resources of one id', () => {
  it('I3: that differ, and of which none is known to be the newer, are told of, and neither counts as done', () => {
    const { lines, issues } = both(change(monday), change(tuesday));
    expect(lines[0]?.events).toMatchObject([{ ref: 'Procedure/c', status: 'completed' }]);
    expect(lines[0]?.events[0]).not.toHaveProperty('at');
    expect(said(issues.map(({ sentence }) => sentence))).toContain(
      'There are 2 of this type and id, and they differ in performedDateTime. None of them counts as the right one: what they disagree on is not known. Put right which one holds.',
    );
  });

  it('I3: one completed and one not was not done', () => {
    const { lines } = both(change(monday), change(monday, { status: 'not-done' }));
    expect(lines[0]?.events.map(({ status }) => status)).toEqual(['unknown']);
  });

  it('I3: keep what either of them has seen: one of it may call for care', () => {
    const seen = (value: string) => finding('damage', value, monday, { id: 'f' });
    const { lines } = both(seen('leak'), seen('cut'));
    expect(lines[0]?.findings.map(({ values }) => values)).toEqual([['cut', 'leak']]);
  });

  it('are the same in whatever order they come', () => {
    const one = both(change(monday), change(tuesday), change(tuesday, { status: 'stopped' }));
    const other = both(change(tuesday, { status: 'stopped' }), change(tuesday), change(monday));
    expect(other).toEqual(one);
  });

  it('that are copies are one, and nothing is said', () => {
    const { lines, issues } = both(change(monday), change(monday, { meta: { versionId: '2' } }));
    expect(lines[0]?.events.map(({ at }) => at?.text)).toEqual([monday]);
    expect(issues).toEqual([]);
  });

  it.each<[string, object, object]>([
    ['by its time', { lastUpdated: '2026-11-24T09:00:00+01:00' }, { lastUpdated: '2026-11-24T08:30:00Z' }],
    ['by its number', { versionId: '9' }, { versionId: '10' }],
    [
      'by its number at one time',
      { lastUpdated: '2026-11-24T09:00:00Z', versionId: '1' },
      { lastUpdated: '2026-11-24T09:00:00Z', versionId: '2' },
    ],
  ])('that are versions of one are the newest, %s', (_, older, newer) => {
    const { events } = readLine(
      patient(),
      line(),
      change(monday, { meta: older }),
      change(tuesday, { meta: newer }),
    );
    expect(events.map(({ at }) => at?.text)).toEqual([tuesday]);
  });
});

describe('one id on two servers', () => {
  const of = (base: string, ...resources: Resource[]) =>
    resources.map((resource) => ({ resource, fullUrl: `${base}/${resource.resourceType}/${resource.id}` }));
  const [north, south] = ['https://north.example/fhir', 'https://south.example/fhir'];
  const unit = (base: string, name: string, at: string) =>
    of(base, patient({ name: [{ text: name }] }), { ...line(), deviceName: [{ name }] }, change(at));

  it('I5: is two patients, each with the own line and its care: full URLs keep them apart', () => {
    const { lines, issues } = readRecords([
      ...unit(north, 'Ann Alder', monday),
      ...unit(south, 'Bea Birch', tuesday),
    ]);
    expect(
      lines.map(({ ref, patient: whose, events }) => [
        ref,
        whose.ref,
        whose.name,
        events.map(({ at }) => at?.text),
      ]),
    ).toEqual([
      [`${north}/Device/line`, `${north}/Patient/p`, 'Ann Alder', [monday]],
      [`${south}/Device/line`, `${south}/Patient/p`, 'Bea Birch', [tuesday]],
    ]);
    expect(issues).toEqual([]);
  });

  it('I5: that is one resource by two addresses stays one', () => {
    const { lines } = readRecords([...unit(north, 'Ann Alder', monday), ...unit(south, 'Ann Alder', monday)]);
    expect(lines.map(({ ref, events }) => [ref, events.length])).toEqual([['Device/line', 1]]);
  });

  it('I5: keeps two Devices that read alike apart where their patients are not the same', () => {
    const alike = (base: string, name: string) => of(base, patient({ name: [{ text: name }] }), line());
    const { lines } = readRecords([...alike(north, 'Ann Alder'), ...alike(south, 'Bea Birch')]);
    expect(lines.map(({ ref, patient: whose }) => [ref, whose.name])).toEqual([
      [`${north}/Device/line`, 'Ann Alder'],
      [`${south}/Device/line`, 'Bea Birch'],
    ]);
  });

  it('I5: is one Device where all that it points to is the same', () => {
    const alike = (base: string, at: string) => [...of(base, patient(), line()), ...of(base, change(at))];
    const { lines } = readRecords([...alike(north, monday), ...alike(south, tuesday)]);
    expect(lines.map(({ ref, events }) => [ref, events.length])).toEqual([['Device/line', 2]]);
  });

  it('I5: does not take the Device of one server for that which another server means and does not have', () => {
    const absolute = event('flush', monday, { id: 'f', focalDevice: [{ manipulated: { reference: `${south}/Device/line` } }] }); // prettier-ignore
    const { lines, issues } = readRecords([
      ...of(north, patient(), line(), absolute),
      ...of(south, change(tuesday)),
    ]);
    expect(lines.flatMap(({ events }) => events)).toEqual([]);
    expect(issues.map(({ resource, sentence }) => [resource, sentence])).toEqual([
      [
        'Procedure/c',
        expect.objectContaining({ code: 'on-no-line-of-record', device: `${south}/Device/line` }),
      ],
      [
        'Procedure/f',
        expect.objectContaining({ code: 'on-no-line-of-record', device: `${south}/Device/line` }),
      ],
    ]);
  });

  it('follows an address that nobody here has to the one resource of that type and id: a server has several names', () => {
    const outside = 'https://outside.example/r4/Device/line';
    const one = event('flush', monday, { focalDevice: [{ manipulated: { reference: outside } }] });
    const { lines } = readRecords(of(north, patient(), line(), one));
    expect(lines[0]?.events).toHaveLength(1);
  });
});
