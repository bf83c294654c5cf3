import { activityRow } from '@dwellward/profiles';
import { readAlerts } from './alerts.js';
import { readHeparin } from './heparin.js';
import { readLineDevices, type LineDevice } from './devices.js';
import { readEvents, readFindings, readInfusions, type OnDevice } from './events.js';
import { ResourceIndex, type Indexed } from './index-resources.js';
import { ownName, type ResourceEntry } from '../model/resource-entry.js';
import { IssueList } from './issues.js';
import type { Placed } from '../model/sentences/issues.js';
import { readMeasurements } from './measurements.js';
import { believedWeights } from './plausible.js';
import type { CareEvent, Finding, LineRecord, PatientRecord, Records, Ref } from '../model/record.js';
import { readOrders, reportLostOrders } from './orders.js';
import { readPlaces } from './places.js';
import { isPlanOf, plannedInsertionOf, readPlannedLines, type PlannedLine } from './planned-insertions.js';
import type { Shape } from './shapes.js';
import { readDrawnBlood } from './specimens.js';
import { readTemperatures } from './temperatures.js';
import { recordedTime, yearsOfBirth } from './times.js';
import { readUnitStays } from './unit-stays.js';
import { understood } from './understanding.js';
import { readUsePeriods } from './uses.js';
import { reportTimes } from './unread-times.js';
import { reportAssumptions } from './assumptions.js';
import { reportVersions } from './versions.js';
import type { CodeMaps } from '../mapping/code-maps.js';
import { toOurCodes, type InOurCodes } from '../mapping/to-our-codes.js';
import type { FhirVersion } from '../versions/fhir-version.js';
import { toR4 } from '../versions/to-r4.js';
import { addTo, grouped } from '../model/gather.js';

/** What is known of the input from outside. */
export interface ReadOptions {
  /** The version of FHIR that it is said to have; each resource tells by its elements where nothing is said. */
  readonly fhirVersion?: FhirVersion;
  /** What the hospital’s own codes mean: what `readCodeMaps` gives. */
  readonly maps?: CodeMaps;
  /**
   * That these are a part of a record in which other parts have lines: then what hangs on a Device that was not understood
   * is not suspected of being of a line, as it is where a whole record has none.
   */
  readonly linesElsewhere?: boolean;
}

/**
 * Reads every line among the resources, with what was done to it, what was seen, and what the laboratory says; and
 * every line that is planned, with what was done to prepare for it.
 *
 * Lenient: relative, absolute, `urn:uuid:`, versioned and contained references; missing `meta`; several codings;
 * lumens as Devices of their own or as a count; partial dates; the spellings of laboratories; R4, R4B and R5, also
 * side by side. What can’t be used is
 * an issue that names the resource and the path. Nothing throws, nothing is dropped in silence, the input is not
 * written to, and the order of the resources does not matter.
 * @example
 * ```ts
 * readRecords([{ resource: { resourceType: 'Device' } }]).lines; // []
 * readRecords(entry).lines.length === records.lines.length; // true
 * ```
 */
export function readRecords(given: Iterable<ResourceEntry>, options: ReadOptions = {}): Records {
  const entries = [...given];
  try {
    return readAll(entries, options);
  } catch {
    return readAll(entries.map(withoutThoseThatFail(options)), options);
  }
}

/** An error of ours must not take the list from everybody: a resource that can’t be read alone is named and left out. */
function withoutThoseThatFail(options: ReadOptions): (entry: ResourceEntry) => ResourceEntry {
  return (entry) => {
    try {
      readAll([entry], options);
      return entry;
    } catch (error) {
      const problem = `An error of the program itself: ${error instanceof Error ? error.message : String(error)}`;
      const fullUrl = entry.fullUrl ?? ownName(entry);
      return { ...entry, resource: undefined, problem, ...(fullUrl === undefined ? {} : { fullUrl }) };
    }
  };
}

function readAll(given: readonly ResourceEntry[], options: ReadOptions): Records {
  const issues = new IssueList();
  const { entries, rows } = inOurWords(given, options, issues);
  const index = new ResourceIndex(entries, issues);
  const devices = readLineDevices(index, issues);
  const home = homesOf(devices);
  const planned = readPlannedLines(index, issues);
  for (const { insertion, patient, device } of planned)
    home.set(insertion.ref, {
      line: device !== undefined && home.has(device) ? device : insertion.ref,
      patient,
    });
  const haveLines = new Set(devices.flatMap(({ patient }) => patient ?? []));
  const patientsWithLines = new Set([...haveLines, ...planned.map(({ patient }) => patient)]);
  reportTimes(index, patientsWithLines, issues);
  const place = <Fact>(facts: readonly OnDevice<Fact>[], what: Placed, path: string) =>
    placeOnLines(facts, home, issues, what, path);

  const events = place(
    mergeUsePeriods(
      readEvents(
        index,
        issues,
        (one) => plannedInsertionOf(one, planned, haveLines, index),
        (device) => home.has(device),
      ),
      readUsePeriods(index, issues, (device) => home.has(device)),
    ),
    'event',
    'Procedure.focalDevice',
  );
  const findings = place(readFindings(index, issues), 'finding', 'Observation.focus');
  const infusions = place(readInfusions(index, issues), 'infusion', 'MedicationAdministration.device');
  const temperatures = readTemperatures(index, issues);
  const orders = readOrders(index, issues, (device) => home.has(device));
  const patients = patientReader(index, issues);
  const ordersOf = grouped(orders, ({ patient }) => patient);
  const plansOf = grouped(planned, ({ device }) => device);

  const lines = devices.map((device): LineRecord => {
    const patient = patients(device);
    const lineEvents = events(device.ref) as CareEvent[];
    reportUnsaidLumens(device, lineEvents, patient.ref, issues);
    const known = new Set([device.ref, ...device.lumens.map(({ ref }) => ref)]);
    const own = plansOf
      .get(device.ref)
      ?.find((one) => isPlanOf(one, device.ref, patient.ref, issues))?.insertion;
    return {
      ref: device.ref,
      name: device.name,
      ...(device.type ? { type: device.type } : {}),
      ...(device.cuffed === undefined ? {} : { cuffed: device.cuffed }),
      ...(device.clamp ? { clamp: device.clamp } : {}),
      ...(device.length ? { length: device.length } : {}),
      ...(device.bodySite ? { bodySite: device.bodySite } : {}),
      patient,
      lumens: device.lumens,
      valid: device.valid,
      events: lineEvents,
      findings: [...(findings(device.ref) as Finding[]), ...(temperatures.get(patient.ref) ?? [])],
      infusions: infusions(device.ref) as LineRecord['infusions'],
      orders: (ordersOf.get(patient.ref) ?? [])
        .filter(({ order }) => order.target === undefined || known.has(order.target))
        .map(({ order }) => order),
      ...(own ? { planned: own } : {}),
    };
  });
  reportLostOrders(orders, lines, patientsWithLines, issues);
  const cameTrue = new Set(lines.map((line) => line.planned));
  const toCome = planned
    .filter(({ insertion }) => !cameTrue.has(insertion))
    .map((one) => plannedRecord(one, patients, events(one.insertion.ref) as CareEvent[]));
  const rest = understood(index, {
    isLine: (device) => home.has(device),
    patients: patientsWithLines,
    none: lines.length + toCome.length === 0 && options.linesElsewhere !== true,
    rows,
  });
  const unitStays = readUnitStays(index);
  return { lines: [...ofPatients(lines), ...toCome], issues: issues.sorted(), ...rest, unitStays };
}

/** Which line a Device is, or is a lumen of. */
function homesOf(devices: readonly LineDevice[]): Map<Ref, Home> {
  const home = new Map<Ref, Home>();
  for (const line of devices) {
    const of = line.patient ? { patient: line.patient } : {};
    home.set(line.ref, { line: line.ref, ...of });
    for (const lumen of line.lumens)
      if (lumen.ref !== line.ref) home.set(lumen.ref, { line: line.ref, lumen: lumen.ref, ...of });
  }
  return home;
}

/** The resources in R4's elements and our codes, whichever they came in. */
function inOurWords(
  given: Iterable<ResourceEntry>,
  options: ReadOptions,
  issues: IssueList,
): Pick<InOurCodes, 'entries' | 'rows'> {
  const { entries: inR4, ...doubtful } = toR4(given, options.fhirVersion);
  reportVersions(doubtful, issues);
  const { assumptions, ...read } = toOurCodes(inR4, options.maps);
  reportAssumptions(assumptions, issues);
  return read;
}

/** What is done for a patient as a whole, whichever line it was charted on, is done for the other lines too. */
function ofPatients(lines: readonly LineRecord[]): LineRecord[] {
  const shared = lines.flatMap(({ ref, patient, events }) =>
    events
      .filter(({ activity }) => activityRow(activity).ofPatient)
      .map(({ lumen: _, ...event }) => ({ line: ref, patient: patient.ref, event })),
  );
  if (shared.length === 0) return [...lines];
  const ofPatient = grouped(shared, ({ patient }) => patient);
  return lines.map((line) => {
    const others = (ofPatient.get(line.patient.ref) ?? []).filter((one) => one.line !== line.ref);
    const known = new Set(line.events.map(({ ref }) => ref));
    const added = others.flatMap(({ event }): CareEvent[] =>
      known.has(event.ref) ? [] : [{ ...event, ofPatient: true }],
    );
    return added.length === 0 ? line : { ...line, events: [...line.events, ...added] };
  });
}

/** A line that is only planned: it goes by its request, and its one lumen stands for all it will have. */
function plannedRecord(
  { insertion, patient, type }: PlannedLine,
  patients: (of: Pick<LineDevice, 'ref' | 'patient'>) => PatientRecord,
  events: readonly CareEvent[],
): LineRecord {
  return {
    ref: insertion.ref,
    name: { code: 'planned-line' },
    ...(type ? { type } : {}),
    patient: patients({ ref: insertion.ref, patient }),
    lumens: [{ ref: insertion.ref, device: insertion.ref, name: { code: 'the-lumen' } }],
    valid: true,
    events,
    findings: [],
    infusions: [],
    orders: [],
    planned: insertion,
  };
}

/** A DeviceUseStatement tells of an insertion or a removal only where no Procedure does. */
function mergeUsePeriods(
  events: readonly OnDevice<CareEvent>[],
  uses: readonly OnDevice<CareEvent>[],
): OnDevice<CareEvent>[] {
  const told = new Set(
    events
      // One without a time that can be read leaves the time to the use.
      .filter(({ fact }) => fact.status === 'completed' && fact.at !== undefined)
      .map(({ device, fact }) => `${device}\u0000${fact.activity}`),
  );
  return [...events, ...uses.filter(({ device, fact }) => !told.has(`${device}\u0000${fact.activity}`))];
}

/** Where a Device belongs. */
interface Home {
  readonly line: Ref;
  readonly lumen?: Ref;
  readonly patient?: Ref;
}

function placeOnLines<Fact>(
  facts: readonly OnDevice<Fact>[],
  home: ReadonlyMap<Ref, Home>,
  issues: IssueList,
  what: Placed,
  path: string,
): (line: Ref) => unknown[] {
  const byLine = new Map<Ref, (Omit<Fact, 'lumen'> & { lumen?: Ref })[]>();
  for (const { device, fact, subject } of facts) {
    const at = home.get(device);
    if (!at) {
      const { ref } = fact as unknown as { ref: Ref };
      issues.add(
        'unknown-lumen',
        ref,
        path,
        { code: 'on-no-line-of-record', what, device },
        {
          severity: 'high',
          ...(subject ? { patient: subject } : {}),
        },
      );
      continue;
    }
    if (subject && at.patient && subject !== at.patient) {
      // Charted on the wrong line, or for the wrong patient: it can’t be known, so it counts as not done.
      const { ref } = fact as unknown as { ref: Ref };
      issues.add(
        'conflicting-values',
        ref,
        path.replace(/\..*/, '.subject'),
        { code: 'on-line-of-another-patient', what, subject, owner: at.patient },
        { severity: 'high', patient: subject, line: at.line },
      );
      continue;
    }
    const placed = { ...fact, ...(at.lumen ? { lumen: at.lumen } : {}) };
    addTo(byLine, at.line, placed);
  }
  return (line) => byLine.get(line) ?? [];
}

function reportUnsaidLumens(
  device: LineDevice,
  events: readonly CareEvent[],
  patient: Ref,
  issues: IssueList,
): void {
  if (device.lumens.length < 2) return;
  for (const event of events) {
    if (event.lumen !== undefined || !activityRow(event.activity).namesLumen || event.status !== 'completed')
      continue;
    issues.add(
      'unknown-lumen',
      event.ref,
      'Procedure.focalDevice',
      { code: 'lumen-not-said', activity: event.activity, lumens: device.lumens.length },
      {
        patient,
        line: device.ref,
      },
    );
  }
}

function patientReader(
  index: ResourceIndex,
  issues: IssueList,
): (device: Pick<LineDevice, 'ref' | 'patient'>) => PatientRecord {
  const places = readPlaces(index);
  const measurements = readMeasurements(index, issues);
  const drawn = readDrawnBlood(index, issues);
  const alerts = readAlerts(index);
  const heparin = readHeparin(index);
  const known = new Map<Ref, PatientRecord>();
  return (device) => {
    const ref = device.patient ?? `${device.ref}#patient-not-given`;
    if (!device.patient) {
      issues.add(
        'unresolved-reference',
        device.ref,
        'Device.patient',
        { code: 'line-without-patient' },
        { severity: 'high', line: device.ref },
      );
    }
    const before = known.get(ref);
    if (before) return before;
    const resource = index.get('Patient', ref);
    if (device.patient && !resource) {
      issues.add(
        'unresolved-reference',
        device.ref,
        'Device.patient',
        { code: 'patient-not-in-record', patient: ref },
        { line: device.ref, patient: ref },
      );
    }
    const name = nameOf(resource?.value);
    const birthDate = recordedTime(resource?.value.birthDate, yearsOfBirth);
    const patient: PatientRecord = {
      ref,
      ...(name ? { name } : {}),
      ...(birthDate ? { birthDate } : {}),
      stays: [],
      ...places.get(ref),
      measurements: believedWeights(measurements.get(ref) ?? [], birthDate, ref, issues),
      drawn: drawn.get(ref) ?? [],
      heparin: heparin.get(ref) ?? [],
      alerts: alerts.get(ref) ?? [],
      ...deceasedOf(resource),
    };
    known.set(ref, patient);
    return patient;
  };
}

/** That the patient has died, and when, as far as it is said. */
function deceasedOf(patient: Indexed<'Patient'> | undefined): Pick<PatientRecord, 'deceased'> {
  const { deceasedBoolean, deceasedDateTime } = patient?.value ?? {};
  if (patient === undefined || (deceasedDateTime === undefined && deceasedBoolean !== true)) return {};
  const at = recordedTime(deceasedDateTime, yearsOfBirth);
  return { deceased: { ref: patient.ref, ...(at ? { at } : {}) } };
}

function nameOf(patient: Shape<'Patient'> | undefined): string | undefined {
  const name = patient?.name?.find(({ use }) => use === 'official') ?? patient?.name?.[0];
  return name?.text ?? ([...(name?.given ?? []), name?.family].filter(Boolean).join(' ') || undefined);
}
