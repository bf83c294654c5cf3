import { dueBundle, dueCare, readRecords, renderTable, transactionFor, type Records } from '@dwellward/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs, units, whenOf, type Entry, type Resource, type Unit } from './generators.js';
import { widePolicy } from './policies.js';

const policy = widePolicy();

function everything(entries: readonly Entry[], when: ReturnType<typeof whenOf>): Records {
  const records = readRecords(entries);
  const cares = records.lines.map((line) => dueCare(line, policy, when));
  dueBundle(records, cares, policy, when);
  renderTable(records, cares, when, { colour: true, columns: 60 });
  transactionFor({ records, cares, policy, when, existing: [] });
  return records;
}

const noon = { asOf: '2026-11-25T12:00:00+01:00', zone: 'Europe/Berlin' };

const resourceTypes = [
  'Patient',
  'Device',
  'Procedure',
  'Observation',
  'MedicationAdministration',
  'Medication',
  'Encounter',
  'Location',
  'DeviceUseStatement',
  'ServiceRequest',
  'Appointment',
  'Specimen',
] as const;
const elements = [
  'id',
  'status',
  'code',
  'subject',
  'patient',
  'type',
  'parent',
  'property',
  'performedDateTime',
  'performedPeriod',
  'focalDevice',
  'usedCode',
  'bodySite',
  'focus',
  'effectiveDateTime',
  'valueQuantity',
  'component',
  'device',
  'location',
  'contained',
  'meta',
  'occurrenceTiming',
  'occurrenceDateTime',
  'orderDetail',
  'basedOn',
  'start',
  'participant',
  'collection',
  'container',
  'supportingInfo',
  'name',
  'birthDate',
  'deviceName',
  '__proto__',
  'constructor',
  'toString',
];

const anyResource = fc
  .tuple(
    fc.oneof(fc.constantFrom<string>(...resourceTypes), fc.string()),
    fc.dictionary(fc.oneof(fc.constantFrom(...elements), fc.string()), fc.anything({ maxDepth: 4 }), {
      maxKeys: 8,
    }),
  )
  .map(([resourceType, rest]) => ({ ...rest, resourceType }));

describe('any JSON at all', () => {
  it('is read without throwing', () => {
    fc.assert(
      fc.property(fc.array(fc.jsonValue(), { maxLength: 6 }), (values) => {
        const { lines, issues } = everything(
          values.map((resource) => ({ resource })),
          noon,
        );
        expect(lines).toEqual([]);
        // What is no resource is named, each entry by its place.
        const places = new Set(issues.map(({ path }) => /entry\[(\d+)\]/.exec(path)?.[1]));
        values.forEach((value, i) => {
          const isNamed = typeof value === 'object' && value !== null && 'resourceType' in value;
          if (!isNamed) expect(places.has(String(i)), `entry ${i}`).toBe(true);
        });
      }),
      runs(3),
    );
  });

  it('that calls itself a resource is read without throwing', () => {
    fc.assert(
      fc.property(fc.array(anyResource, { maxLength: 6 }), (resources) => {
        expect(() =>
          everything(
            resources.map((resource) => ({ resource })),
            noon,
          ),
        ).not.toThrow();
      }),
      runs(3),
    );
  });

  it('as entries with a full URL is read without throwing', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(anyResource, fc.string()), { maxLength: 4 }), (entries) => {
        expect(() =>
          everything(
            entries.map(([resource, fullUrl]) => ({ resource, fullUrl })),
            noon,
          ),
        ).not.toThrow();
      }),
      runs(),
    );
  });
});

type Path = readonly (string | number)[];

/** Every element of a resource, by its path. */
function pathsOf(value: unknown, at: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [at];
  return [
    ...(at.length > 0 ? [at] : []),
    ...Object.entries(value).flatMap(([key, part]) =>
      pathsOf(part, [...at, Array.isArray(value) ? Number(key) : key]),
    ),
  ];
}

const gone = Symbol('gone');

/** The resource with one element replaced, or taken out. */
function changed(value: unknown, path: Path, by: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return by;
  if (Array.isArray(value)) {
    return value.flatMap((part: unknown, i) => {
      if (i !== key) return [part];
      const next = changed(part, rest, by);
      return next === gone ? [] : [next];
    });
  }
  return Object.fromEntries(
    Object.entries(value as object).flatMap(([name, part]) => {
      if (name !== key) return [[name, part]];
      const next = changed(part, rest, by);
      return next === gone ? [] : [[name, next]];
    }),
  );
}

const bad = fc.oneof(
  fc.constantFrom<unknown>(
    gone,
    null,
    0,
    -1,
    true,
    '',
    'x',
    [],
    {},
    [null],
    ['x'],
    [[]],
    { coding: 'x' },
    { reference: 5 },
    { value: 'x' },
  ),
  fc.jsonValue({ maxDepth: 2 }),
);

/** A unit, which of its resources is spoiled, and how. */
const spoiled = units.chain((unit) =>
  fc.tuple(fc.constant(unit), fc.nat(unit.resources.length - 1)).chain(([, at]) => {
    const resource = unit.resources[at]!;
    const paths = pathsOf(resource);
    return fc
      .tuple(fc.constantFrom(...paths), bad)
      .map(([path, by]): [Unit, number, Path, unknown, Resource] => [
        unit,
        at,
        path,
        by,
        changed(resource, path, by) as Resource,
      ]);
  }),
);

/**
 * What the record has from a resource, without which it would count for nothing; undefined where it has nothing. One that
 * named two devices and now names one counts still: that it was ever two can’t be told.
 */
function contribution({ lines }: Records, ref: string): string | undefined {
  const said = lines.flatMap(({ events, findings, infusions, orders, patient }) => [
    ...events
      .filter((one) => one.ref === ref)
      .map(({ at, status }) => [status !== 'completed' || at !== undefined]),
    ...findings
      .filter((one) => one.ref === ref)
      .map(({ at, values, flag, quantity }) => [
        true,
        at !== undefined,
        values.length > 0 || flag !== undefined || quantity !== undefined,
      ]),
    ...infusions.filter((one) => one.ref === ref).map(() => [true]),
    ...orders.filter((one) => one.ref === ref).map(() => [true]),
    ...patient.measurements.filter(({ refs }) => refs.includes(ref)).map(() => [true]),
  ]);
  return said.length === 0
    ? undefined
    : JSON.stringify([...new Set(said.map((one) => JSON.stringify(one)))].sort());
}

function isNamed({ issues }: Records, ref: string): boolean {
  return issues.some(({ resource, related }) => resource === ref || related.includes(ref));
}

describe('a valid record with one element spoiled', () => {
  it('is read without throwing', () => {
    fc.assert(
      fc.property(spoiled, ([unit, at, , , resource]) => {
        const entries = unit.resources.map((one, i) => ({ resource: i === at ? resource : one }));
        expect(() => everything(entries, whenOf(unit))).not.toThrow();
      }),
      runs(2),
    );
  });

  // What makes a resource another one, or another kind of thing, can’t be told from a resource that was never meant: its
  // type and id, its code, its status, whose it is, and its version.
  const another = new Set(['resourceType', 'id', 'code', 'status', 'meta', 'subject', 'type']);

  it('loses nothing in silence: what no longer counts is named in an issue', () => {
    let tried = 0;
    fc.assert(
      fc.property(spoiled, ([unit, at, path, , resource]) => {
        const original = unit.resources[at]!;
        const charts = ['Procedure', 'Observation', 'MedicationAdministration', 'ServiceRequest'];
        fc.pre(
          original.id !== undefined &&
            charts.includes(original.resourceType) &&
            !another.has(String(path[0])),
        );
        // An infusion that names no device runs through no line that could be known.
        fc.pre(!(original.resourceType === 'MedicationAdministration' && path[0] === 'device'));
        const ref = `${original.resourceType}/${original.id}`;
        // A second copy of it would stand in.
        fc.pre(unit.resources.filter(({ id }) => id === original.id).length === 1);
        const before = readRecords(unit.resources.map((one) => ({ resource: one })));
        fc.pre(contribution(before, ref) !== undefined);
        tried += 1;
        const after = readRecords(unit.resources.map((one, i) => ({ resource: i === at ? resource : one })));
        if (!isNamed(after, ref))
          expect(contribution(after, ref), `${ref} ${path.join('.')}`).toBe(contribution(before, ref));
      }),
      { ...runs(3), maxSkipsPerRun: 60 },
    );
    expect(tried).toBeGreaterThan(runs(1).numRuns);
  });

  it('loses nothing else: every other resource counts as before or is named', () => {
    fc.assert(
      fc.property(spoiled, ([unit, at, , , resource]) => {
        fc.pre(!['Device', 'Patient'].includes(unit.resources[at]!.resourceType));
        const before = readRecords(unit.resources.map((one) => ({ resource: one })));
        const after = readRecords(unit.resources.map((one, i) => ({ resource: i === at ? resource : one })));
        for (const [i, { resourceType, id }] of unit.resources.entries()) {
          if (i === at || id === undefined || unit.resources.filter((one) => one.id === id).length > 1)
            continue;
          const ref = `${resourceType}/${id}`;
          // A DeviceUseStatement tells of an insertion or a removal only where no Procedure does any more.
          if (resourceType === 'DeviceUseStatement' && contribution(before, ref) === undefined) continue;
          if (!isNamed(after, ref)) expect(contribution(after, ref), ref).toBe(contribution(before, ref));
        }
      }),
      runs(),
    );
  });
});
