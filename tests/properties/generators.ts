import {
  bundledPlan,
  bundledPlanNames,
  compileCondition,
  readPolicy,
  type Policy,
  type Rule,
} from '@dwellward/policy';
import {
  codeSystem,
  connectorConditions,
  dressingConditions,
  dressingTypes,
  infusates,
  lineCareActivities,
  lineTypes,
  standard,
} from '@dwellward/profiles';
import fc from 'fast-check';

/** A resource as it stands in JSON. */
export interface Resource {
  readonly resourceType: string;
  readonly id?: string;
  readonly [element: string]: unknown;
}
export interface Entry {
  readonly resource: unknown;
  readonly fullUrl?: string;
}
/** A generated unit: its resources, and the moment at which it is looked at. */
export interface Unit {
  readonly resources: readonly Resource[];
  readonly asOfMs: number;
  readonly zone: string;
}

export const zones = [
  'Europe/Berlin',
  'America/New_York',
  'Australia/Lord_Howe',
  'Asia/Kathmandu',
  'UTC',
] as const;

const hour = 3_600_000;
const iso = (ms: number) => new Date(ms).toISOString();

/** An instant with an offset of its own, which need not be the unit’s. */
export function instantText(ms: number, offsetMinutes = 0): string {
  if (offsetMinutes === 0) return iso(ms);
  const sign = offsetMinutes < 0 ? '-' : '+';
  const two = (value: number) => String(value).padStart(2, '0');
  const size = Math.abs(offsetMinutes);
  const local = iso(ms + offsetMinutes * 60_000).slice(0, 19);
  return `${local}${sign}${two(Math.floor(size / 60))}:${two(size % 60)}`;
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

/** A time near the moment: exact, a day, a month, without an offset, or none at all. */
function timeNear(asOfMs: number): fc.Arbitrary<string | undefined> {
  const ms = fc
    .oneof(fc.integer({ min: -72 * 60, max: 12 * 60 }), fc.integer({ min: -60 * 1440, max: 5 * 1440 }))
    .map((minutes) => asOfMs + minutes * 60_000);
  const exact = fc
    .tuple(ms, fc.constantFrom(0, 60, -300, 630, 345, 120))
    .map(([at, offset]) => instantText(at, offset));
  return fc.oneof(
    { weight: 12, arbitrary: exact },
    { weight: 2, arbitrary: ms.map((at) => iso(at).slice(0, 10)) },
    { weight: 1, arbitrary: ms.map((at) => iso(at).slice(0, 7)) },
    { weight: 1, arbitrary: ms.map((at) => iso(at).slice(0, 16)) },
    { weight: 1, arbitrary: fc.constantFrom('2026', '2026-02-30', 'yesterday', '', '2026-13-01T00:00:00Z') },
    { weight: 1, arbitrary: fc.constant(undefined) },
  );
}

const one = <Code extends string>(concepts: readonly (readonly [Code, ...unknown[]])[]) =>
  fc.constantFrom(...concepts.map(([code]) => code));
const concept = (system: string, code: string, more: readonly object[] = []) => ({
  coding: [...more, { system, code }],
});
const maybe = <Value>(arbitrary: fc.Arbitrary<Value>, freq = 3) =>
  fc.option(arbitrary, { nil: undefined, freq });
const defined = (object: Record<string, unknown>) =>
  Object.fromEntries(Object.entries(object).filter(([, value]) => value !== undefined));

/** The same Device in one of the ways in which a reference can be written. */
function referenceTo(ref: string): fc.Arbitrary<{ reference: string }> {
  return fc.constantFrom(
    { reference: ref },
    { reference: ref },
    { reference: `https://ward.example/fhir/${ref}` },
    { reference: `${ref}/_history/3` },
  );
}

const statuses = fc.oneof(
  { weight: 8, arbitrary: fc.constant('completed') },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      'not-done',
      'entered-in-error',
      'in-progress',
      'stopped',
      'preparation',
      'unknown',
    ),
  },
);

/** Activities that a nurse charts; insertion and removal come from their own generators, so that lines stay in place. */
export const charted = lineCareActivities
  .map(([code]) => code)
  .filter((code) => code !== 'insertion' && code !== 'removal');

function procedure(asOfMs: number, devices: readonly string[]): fc.Arbitrary<Resource> {
  const at = timeNear(asOfMs);
  return fc
    .record({
      activity: fc.oneof(
        { weight: 30, arbitrary: fc.constantFrom(...charted) },
        { weight: 2, arbitrary: fc.constantFrom('insertion', 'removal') },
      ),
      status: statuses,
      at,
      from: maybe(at, 5),
      targets: fc.array(fc.constantFrom(...devices, 'Device/unknown'), { minLength: 0, maxLength: 2 }),
      dressing: maybe(one(dressingTypes)),
      site: maybe(fc.constantFrom('exit-site', 'incision'), 4),
    })
    .chain(({ activity, status, at: end, from, targets, dressing, site }) =>
      fc.tuple(...targets.map(referenceTo)).map((references) => ({
        resourceType: 'Procedure',
        ...defined({
          status,
          code: concept(codeSystem.lineCareActivity, activity, [{ system: standard.snomed, code: '1' }]),
          subject: { reference: 'Patient/p0' },
          ...(from === undefined
            ? { performedDateTime: end }
            : { performedPeriod: defined({ start: from, end }) }),
          focalDevice: references.map((manipulated) => ({ manipulated })),
          usedCode: dressing && [concept(codeSystem.dressingType, dressing)],
          bodySite: site && [concept(codeSystem.lineSite, site)],
        }),
      })),
    );
}

const countUnits = [
  '10*9/L',
  '10*3/uL',
  'K/uL',
  '10^9/L',
  '/mm3',
  'cells/uL',
  'G/L',
  'g/L',
  '%',
  'x10^9/L',
] as const;

function laboratory(asOfMs: number): fc.Arbitrary<Resource> {
  return fc
    .record({
      code: fc.constantFrom(
        '751-8',
        '753-4',
        '26499-4',
        '6690-2',
        '769-0',
        '764-1',
        '770-8',
        '768-2',
        '26507-4',
        '777-3',
        '29463-7',
      ),
      value: fc.oneof(
        fc.constantFrom(0, 0.1, 0.19, 0.2, 0.21, 0.5, 1, 20, 45, 80, 200, 800, -1, 99999),
        fc.double({ min: 0, max: 60, noNaN: true }),
      ),
      unit: maybe(fc.constantFrom(...countUnits, 'kg'), 8),
      comparator: maybe(fc.constantFrom('<', '<=', '>', '>=', '~'), 1),
      status: fc.constantFrom(
        'final',
        'final',
        'final',
        'preliminary',
        'corrected',
        'amended',
        'cancelled',
        'entered-in-error',
        'registered',
      ),
      at: timeNear(asOfMs),
      // Results of one specimen share its time.
      drawn: maybe(fc.integer({ min: -6, max: 0 }), 1),
    })
    .map(({ code, value, unit, comparator, status, at, drawn }) => ({
      resourceType: 'Observation',
      ...defined({
        status,
        code: concept(standard.loinc, code),
        subject: { reference: 'Patient/p0' },
        effectiveDateTime: drawn === undefined ? at : instantText(asOfMs + drawn * 12 * hour),
        valueQuantity: defined({ value, unit, comparator }),
      }),
    }));
}

function finding(asOfMs: number, devices: readonly string[]): fc.Arbitrary<Resource> {
  return fc
    .record({
      what: fc.oneof(
        one(dressingConditions).map(
          (code) => ['dressing-condition', concept(codeSystem.dressingCondition, code)] as const,
        ),
        one(connectorConditions).map(
          (code) => ['connector-condition', concept(codeSystem.connectorCondition, code)] as const,
        ),
        fc.boolean().map((flag) => ['incision-healed', flag] as const),
      ),
      status: fc.constantFrom('final', 'final', 'final', 'amended', 'preliminary', 'entered-in-error'),
      at: timeNear(asOfMs),
      on: maybe(fc.constantFrom(...devices), 9),
    })
    .map(({ what: [code, value], status, at, on }) => ({
      resourceType: 'Observation',
      ...defined({
        status,
        code: concept(codeSystem.lineFinding, code),
        subject: { reference: 'Patient/p0' },
        focus: on && [{ reference: on }],
        effectiveDateTime: at,
        ...(typeof value === 'boolean' ? { valueBoolean: value } : { valueCodeableConcept: value }),
      }),
    }));
}

function infusion(asOfMs: number, devices: readonly string[]): fc.Arbitrary<Resource> {
  return fc
    .record({
      status: fc.constantFrom(
        'in-progress',
        'completed',
        'stopped',
        'on-hold',
        'not-done',
        'entered-in-error',
      ),
      infusate: maybe(one(infusates)),
      start: timeNear(asOfMs),
      end: timeNear(asOfMs),
      on: fc.constantFrom(...devices),
    })
    .map(({ status, infusate, start, end, on }) => ({
      resourceType: 'MedicationAdministration',
      ...defined({
        status,
        subject: { reference: 'Patient/p0' },
        medicationCodeableConcept: infusate ? concept(codeSystem.infusate, infusate) : { text: 'something' },
        effectivePeriod: defined({ start, end: status === 'in-progress' ? undefined : end }),
        device: [{ reference: on }],
      }),
    }));
}

function order(asOfMs: number, devices: readonly string[]): fc.Arbitrary<Resource> {
  return fc
    .record({
      activity: fc.constantFrom(...charted),
      repeat: fc.constantFrom(
        { frequency: 2, period: 1, periodUnit: 'd' },
        { frequency: 1, period: 12, periodUnit: 'h' },
        { timeOfDay: ['08:00:00', '20:00:00'] },
        { frequency: 1, period: 3, periodUnit: 'wk' },
        { when: ['HS'] },
      ),
      status: fc.constantFrom('active', 'active', 'revoked'),
      authoredOn: timeNear(asOfMs),
      on: maybe(fc.constantFrom(...devices)),
    })
    .map(({ activity, repeat, status, authoredOn, on }) => ({
      resourceType: 'ServiceRequest',
      ...defined({
        status,
        intent: 'order',
        code: concept(codeSystem.lineCareActivity, activity),
        subject: { reference: 'Patient/p0' },
        occurrenceTiming: { repeat },
        authoredOn,
        supportingInfo: on && [{ reference: on }],
      }),
    }));
}

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
          fc.array(finding(asOfMs, refs), { maxLength: 3 }),
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

/** The base with every bundled layer over it. */
export function bundledPolicy(): Policy {
  const reading = readPolicy(bundledPlanNames.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

/** A rule of the test’s own, plain in everything that is not said. */
export function ruleOf(
  id: string,
  more: Partial<Rule> & Pick<Rule, 'activity' | 'scope' | 'schedule'>,
  when?: string,
): Rule {
  const compiled = compileCondition(when ? [when] : []);
  if (!compiled.ok) throw new Error(JSON.stringify(compiled.problems));
  return {
    id,
    title: id,
    condition: compiled.condition,
    whenUnknown: 'protective',
    priority: 'routine',
    citations: [{ text: 'invented for a test', unsourced: true }],
    notes: [],
    work: { computed: [], supplies: [], cautions: [] },
    origin: { url: 'https://test.example/PlanDefinition/extra', version: '1', title: 'Extra', layer: 9 },
    ...more,
  };
}

/** The bundled policy, with a rule of every kind of schedule that it has none of. */
export function widePolicy(): Policy {
  const bundled = bundledPolicy();
  const extra = [
    ruleOf('wide-bath', {
      activity: 'bath',
      scope: 'line',
      schedule: { kind: 'fixed-times', daysOfWeek: [], timesOfDay: ['02:30:00', '14:00:00'] },
    }),
    ruleOf('wide-sampling', {
      activity: 'blood-sampling',
      scope: 'lumen',
      schedule: {
        kind: 'interval',
        every: { value: 8, unit: 'h' },
        firstAfterInsertion: { value: 1, unit: 'h' },
        untilAfterInsertion: { value: 2, unit: 'd' },
      },
    }),
    ruleOf('wide-teaching', {
      activity: 'teaching',
      scope: 'line',
      schedule: { kind: 'interval', every: { value: 1, unit: 'mo' }, atMost: 2 },
    }),
    ruleOf(
      'wide-incision',
      {
        activity: 'site-assessment',
        scope: 'incision',
        schedule: { kind: 'interval', every: { value: 12, unit: 'h' } },
      },
      '%line.incisionHealed.not()',
    ),
    ruleOf('wide-suture', {
      activity: 'suture-removal',
      scope: 'exit-site',
      schedule: { kind: 'chain', after: 'insertion', offset: { value: 3, unit: 'wk' } },
    }),
    ruleOf('wide-no-bath', {
      activity: 'bath',
      scope: 'line',
      schedule: { kind: 'hold', after: 'dressing-change', offset: { value: 6, unit: 'h' } },
    }),
    ruleOf(
      'wide-no-infusion',
      { activity: 'flush', scope: 'lumen', schedule: { kind: 'hold', after: 'tip-confirmation' } },
      '%line.tipConfirmed.not()',
    ),
    ruleOf('wide-emergency', {
      activity: 'flush',
      scope: 'lumen',
      priority: 'stat',
      schedule: { kind: 'at-once', finding: 'connector-condition', values: ['blood-residue'] },
    }),
  ];
  return { ...bundled, rules: [...bundled.rules, ...extra] };
}

/** How many times the usual number of cases is tried: `DWELLWARD_PROPERTY_RUNS=5 npm test` looks longer. */
const times = Number(process.env['DWELLWARD_PROPERTY_RUNS'] ?? 1);

/** How many cases a property tries; the heavier ones ask for a part of it. */
export const runs = (part = 1) => ({ numRuns: Math.max(5, Math.round(60 * part * times)) });
