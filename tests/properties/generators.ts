import { codeSystem, lineTypes } from '@dwellward/profiles';
import fc from 'fast-check';
import { finding, infusion, laboratory, order, procedure } from './charts.js';
import {
  concept,
  defined,
  hour,
  instantText,
  iso,
  maybe,
  one,
  timeNear,
  zones,
  type Entry,
  type Resource,
} from './resources.js';

export { charted } from './charts.js';
export { instantText, zones, type Entry, type Resource } from './resources.js';

/** A generated unit: its resources, and the moment at which it is looked at. */
export interface Unit {
  readonly resources: readonly Resource[];
  readonly asOfMs: number;
  readonly zone: string;
}

/** Around both clock changes of 2026 in the zones above, and on plain days. */
const moments = fc
  .tuple(
    fc.constantFrom(
      '2026-03-29',
      '2026-04-05',
      '2026-10-25',
      '2026-11-01',
      '2026-11-25',
      '2026-06-30',
      '2026-02-28',
    ),
    fc.integer({ min: -48 * 60, max: 48 * 60 }),
  )
  .map(([day, minutes]) => Date.parse(`${day}T00:00:00Z`) + minutes * 60_000);

/** The plan of an insertion, its appointment, and what was done to prepare for it; each may be missing. */
function planned(asOfMs: number): fc.Arbitrary<Resource[]> {
  const subject = { reference: 'Patient/p0' };
  const code = concept(codeSystem.lineCareActivity, 'insertion');
  const ahead = fc.integer({ min: -48 * 60, max: 96 * 60 }).map((minutes) => asOfMs + minutes * 60_000);
  const time = fc.oneof(
    { weight: 6, arbitrary: ahead.map((ms) => instantText(ms, 60)) },
    { weight: 1, arbitrary: ahead.map((ms) => iso(ms).slice(0, 10)) },
    { weight: 1, arbitrary: fc.constantFrom(undefined, 'soon') },
  );
  const request = fc
    .record({
      status: fc.constantFrom('active', 'active', 'active', 'revoked', 'completed', 'draft'),
      occurrenceDateTime: time,
      authoredOn: timeNear(asOfMs),
      type: maybe(one(lineTypes)),
    })
    .map(({ type, ...rest }): Resource => ({
      resourceType: 'ServiceRequest',
      id: 'plan',
      ...defined({ ...rest, orderDetail: type && [concept(codeSystem.lineType, type)] }),
      intent: 'order',
      code,
      subject,
    }));
  const appointment = fc
    .record({
      status: fc.constantFrom('booked', 'booked', 'cancelled', 'fulfilled', 'noshow'),
      start: time,
      alone: fc.boolean(),
    })
    .map(({ alone, ...rest }): Resource => ({
      resourceType: 'Appointment',
      id: 'booked',
      ...defined(rest),
      ...(alone ? { reasonCode: [code] } : { basedOn: [{ reference: 'ServiceRequest/plan' }] }),
      participant: [{ actor: subject, status: 'accepted' }],
    }));
  const preparation = fc
    .record({
      activity: fc.constantFrom('teaching', 'bath', 'laboratory-review', 'skin-preparation'),
      performedDateTime: timeNear(asOfMs),
      named: fc.boolean(),
    })
    .map(({ activity, performedDateTime, named }): Resource => ({
      resourceType: 'Procedure',
      id: `prepared-${activity}`,
      status: 'completed',
      code: concept(codeSystem.lineCareActivity, activity),
      subject,
      ...defined({ performedDateTime }),
      ...(named ? { basedOn: [{ reference: 'ServiceRequest/plan' }] } : {}),
    }));
  return fc
    .tuple(maybe(request, 2), maybe(appointment, 1), maybe(preparation, 2))
    .map((all) => all.filter((resource) => resource !== undefined));
}

/** The Devices of one line: it, and lumens as Devices or as a count. */
function lineDevices(number: number): fc.Arbitrary<Resource[]> {
  const id = `line${number}`;
  return fc
    .record({
      type: fc.oneof(
        { weight: 9, arbitrary: one(lineTypes).filter((code) => code !== 'lumen') },
        { weight: 1, arbitrary: fc.constant('no-such-type') },
      ),
      status: fc.oneof(
        { weight: 15, arbitrary: fc.constant('active') },
        { weight: 1, arbitrary: fc.constant('entered-in-error') },
      ),
      lumens: fc.integer({ min: 0, max: 3 }),
      counted: fc.boolean(),
      priming: maybe(
        fc.constantFrom({ value: 0.7, unit: 'mL' }, { value: 700, unit: 'uL' }, { value: 1, unit: 'parsec' }),
      ),
    })
    .map(({ type, status, lumens, counted, priming }) => {
      const property = [
        ...(counted && lumens > 0
          ? [{ type: concept(codeSystem.lineProperty, 'lumen-count'), valueQuantity: [{ value: lumens }] }]
          : []),
        ...(priming
          ? [{ type: concept(codeSystem.lineProperty, 'priming-volume'), valueQuantity: [priming] }]
          : []),
      ];
      const line = {
        resourceType: 'Device',
        id,
        status,
        type: concept(codeSystem.lineType, type),
        patient: { reference: 'Patient/p0' },
        ...(property.length > 0 ? { property } : {}),
      };
      const children = counted
        ? []
        : Array.from({ length: lumens }, (_, i) => ({
            resourceType: 'Device',
            id: `${id}-lumen${i}`,
            type: concept(codeSystem.lineType, 'lumen'),
            parent: { reference: `Device/${id}` },
            deviceName: [{ name: `lumen ${i}`, type: 'user-friendly-name' }],
          }));
      return [line, ...children];
    });
}

function insertionOf(line: Resource, asOfMs: number): fc.Arbitrary<Resource[]> {
  const event = fc.tuple(fc.integer({ min: 1, max: 90 * 24 }), fc.boolean()).map(([hours, exact]) => [
    {
      resourceType: 'Procedure',
      id: `insertion-${line.id ?? ''}`,
      status: 'completed',
      code: concept(codeSystem.lineCareActivity, 'insertion'),
      subject: { reference: 'Patient/p0' },
      performedDateTime: exact
        ? instantText(asOfMs - hours * hour, 60)
        : iso(asOfMs - hours * hour).slice(0, 10),
      focalDevice: [{ manipulated: { reference: `Device/${line.id ?? ''}` } }],
    },
  ]);
  const use = fc.integer({ min: 1, max: 2000 }).map((hours) => [
    {
      resourceType: 'DeviceUseStatement',
      id: `use-${line.id ?? ''}`,
      status: 'active',
      subject: { reference: 'Patient/p0' },
      device: { reference: `Device/${line.id ?? ''}` },
      timingPeriod: { start: instantText(asOfMs - hours * hour) },
    },
  ]);
  return fc.oneof(
    { weight: 6, arbitrary: event as fc.Arbitrary<Resource[]> },
    { weight: 2, arbitrary: use as fc.Arbitrary<Resource[]> },
    { weight: 1, arbitrary: fc.constant<Resource[]>([]) },
  );
}

const place: readonly Resource[] = [
  {
    resourceType: 'Location',
    id: 'ward',
    name: 'Ward',
    physicalType: {
      coding: [{ system: 'http://terminology.hl7.org/CodeSystem/location-physical-type', code: 'wa' }],
    },
  },
  {
    resourceType: 'Encounter',
    id: 'stay',
    status: 'in-progress',
    subject: { reference: 'Patient/p0' },
    location: [{ location: { reference: 'Location/ward' } }],
  },
];

/** A unit of one patient with one or two lines, and whatever was charted on them. */
export const units: fc.Arbitrary<Unit> = fc
  .tuple(moments, fc.constantFrom(...zones), fc.integer({ min: 1, max: 2 }))
  .chain(([asOfMs, zone, lines]) =>
    fc.tuple(...Array.from({ length: lines }, (_, i) => lineDevices(i))).chain((perLine) => {
      const devices = perLine.flat();
      const refs = devices.map(({ id }) => `Device/${id ?? ''}`);
      return fc
        .tuple(
          fc.tuple(...perLine.map(([line]) => insertionOf(line!, asOfMs))),
          fc.array(procedure(asOfMs, refs), { maxLength: 12 }),
          fc.array(laboratory(asOfMs), { maxLength: 6 }),
          fc.array(finding(asOfMs, refs), { maxLength: 4 }),
          fc.array(infusion(asOfMs, refs), { maxLength: 3 }),
          fc.array(order(asOfMs, refs), { maxLength: 2 }),
          fc.oneof({ weight: 2, arbitrary: fc.constant<Resource[]>([]) }, planned(asOfMs)),
          maybe(fc.constantFrom('1980-05-05', '2026-10-20', '1950'), 9),
          // A second, newer or older copy of one of them; and some that have no id.
          maybe(fc.nat(30)),
          fc.boolean(),
        )
        .map(
          ([
            insertions,
            procedures,
            labs,
            findings,
            infusions,
            orders,
            plans,
            birthDate,
            twice,
            nameless,
          ]) => {
            const charts = [...procedures, ...labs, ...findings, ...infusions, ...orders].map(
              (resource, i) => (nameless && i % 5 === 0 ? resource : { ...resource, id: `r${i}` }),
            );
            const copied = twice === undefined ? undefined : charts[twice];
            const resources: Resource[] = [
              ...devices,
              ...insertions.flat(),
              ...plans,
              ...charts,
              ...(birthDate
                ? [{ resourceType: 'Patient', id: 'p0', birthDate, name: [{ family: 'Invented' }] }]
                : []),
              ...place,
              ...(copied?.id
                ? [
                    {
                      ...copied,
                      meta: { versionId: '2', lastUpdated: iso(asOfMs) },
                      status: 'entered-in-error',
                    },
                  ]
                : []),
            ];
            return { resources, asOfMs, zone };
          },
        );
    }),
  );

export const entriesOf = (resources: readonly unknown[]): Entry[] =>
  resources.map((resource) => ({ resource }));

export const whenOf = ({ asOfMs, zone }: Pick<Unit, 'asOfMs' | 'zone'>) => ({
  asOf: instantText(asOfMs),
  zone,
});

/** How many times the usual number of cases is tried: `DWELLWARD_PROPERTY_RUNS=5 npm test` looks longer. */
const times = Number(process.env['DWELLWARD_PROPERTY_RUNS'] ?? 1);

/** How many cases a property tries; the heavier ones ask for a part of it. */
export const runs = (part = 1) => ({ numRuns: Math.max(5, Math.round(60 * part * times)) });
