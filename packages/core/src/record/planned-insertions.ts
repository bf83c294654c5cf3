import { activityRow, type LineType } from '@dwellward/profiles';
import { activityOf, lineTypeOf } from './codes.js';
import { deviceRefsOf } from './procedure-devices.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import { outcomeOf } from './outcomes.js';
import type { PlannedInsertion, RecordedTime, Ref } from '../model/record.js';
import type { Codeable, Reference } from './shapes.js';
import { compareTimes, recordedTime } from './times.js';
import { addTo, grouped } from '../model/gather.js';

/** A planned insertion with what it says of the line that is to come. */
export interface PlannedLine {
  readonly insertion: PlannedInsertion;
  readonly patient: Ref;
  readonly type?: LineType;
  /** The Device that is to be put in, where it is on record already. */
  readonly device?: Ref;
}

/** One resource that tells of a planned insertion. */
interface Source {
  readonly ref: Ref;
  readonly patient?: Ref;
  /** The request that it belongs to, which may be itself. */
  readonly request?: Ref;
  readonly at?: RecordedTime;
  readonly since?: RecordedTime;
  readonly state: 'open' | 'withdrawn' | 'completed';
  readonly types: readonly (LineType | undefined)[];
  readonly devices: readonly Ref[];
  /** Later kinds know the time better: a request wishes, an appointment books, a preparation is at hand. */
  readonly rank: 0 | 1 | 2;
}

/**
 * Every planned insertion: a ServiceRequest of an insertion with the Appointments and the Procedures in preparation that
 * are based on it, or one of these by itself. Where they name different times the one nearest to the act counts, of several of a kind the earliest. One
 * without a time is planned still, and its care can’t be counted back and is due at once.
 */
export function readPlannedLines(index: ResourceIndex, issues: IssueList): PlannedLine[] {
  const groups = new Map<Ref, Source[]>();
  for (const source of [...requests(index), ...appointments(index), ...preparations(index)]) {
    const key = source.request ?? source.ref;
    addTo(groups, key, source);
  }
  const insertions = grouped(completedInsertions(index), ({ patient }) => patient);
  const planned = [...groups]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([ref, sources]) => plannedLine(ref, sources, insertions, issues) ?? []);
  reportSeveral(planned, issues);
  return planned;
}

/** Two open planned insertions that may be of one line: everything would be prepared twice, and one of them is perhaps out of date. */
function reportSeveral(planned: readonly PlannedLine[], issues: IssueList): void {
  const open = planned.filter(({ insertion }) => isOpen(insertion));
  const ofPatient = grouped(open, ({ patient }) => patient);
  for (const one of open) {
    const own = ofPatient.get(one.patient) ?? [];
    const others = own.slice(own.indexOf(one) + 1).filter(({ type }) => fits(type, one.type));
    if (others.length === 0) continue;
    issues.add(
      'several-plans',
      one.insertion.ref,
      `${one.insertion.ref.split('/')[0]}.status`,
      { code: 'another-insertion-planned', others: others.map(({ insertion }) => insertion.ref) },
      { patient: one.patient, related: others.map(({ insertion }) => insertion.ref) },
    );
  }
}

function isOpen({ withdrawn, completed, at, insertions }: PlannedInsertion): boolean {
  const day = at?.text.slice(0, 10) ?? '';
  return (
    !withdrawn &&
    !completed &&
    !insertions.some((done) => done.named || (day !== '' && done.at.text.slice(0, 10) >= day))
  );
}

function plannedLine(
  ref: Ref,
  sources: readonly Source[],
  insertions: ReadonlyMap<Ref, readonly Done[]>,
  issues: IssueList,
): PlannedLine | undefined {
  const patient = sources.map((one) => one.patient).find((one) => one !== undefined);
  if (patient === undefined) {
    const path = `${ref.split('/')[0]}.${ref.startsWith('Appointment/') ? 'participant' : 'subject'}`;
    issues.add('unresolved-reference', ref, path, { code: 'planned-without-patient' }, { severity: 'high' });
    return undefined;
  }
  const own = sources.find((one) => one.ref === ref);
  const live = sources.filter(({ state }) => state !== 'withdrawn');
  const withdrawn = own?.state === 'withdrawn' || live.length === 0;
  const timed = live.flatMap((one) => (one.at ? [{ ...one, at: one.at }] : []));
  const [best] = timed.sort((a, b) => b.rank - a.rank || compareTimes(a.at, b.at));
  if (!withdrawn && best?.at === undefined) {
    issues.add(
      'missing-time',
      ref,
      `${ref.split('/')[0]}.${ref.startsWith('Appointment/') ? 'start' : ref.startsWith('Procedure/') ? 'performed' : 'occurrence'}`,
      { code: 'planned-without-time' },
      { patient },
    );
  }
  const lost = sources.filter(
    ({ state, ref: one }) => state === 'withdrawn' && one.startsWith('Appointment/'),
  );
  if (!withdrawn && lost.length > 0 && !live.some(({ ref: one }) => one.startsWith('Appointment/')))
    reportCancelled(
      ref,
      lost.map((one) => one.ref),
      patient,
      best?.at,
      issues,
    );
  const type = live.flatMap(({ types }) => types).find((one) => one !== undefined);
  const device = live.flatMap(({ devices }) => devices)[0];
  // What was written first made it known.
  const since = sources.map((one) => one.since).filter((one) => one !== undefined);
  const [first] = since.sort((a, b) => (a.text < b.text ? -1 : 1));
  return {
    insertion: {
      ref,
      refs: sources.map((one) => one.ref).sort(),
      ...(best?.at ? { at: best.at } : {}),
      ...(first && since.length === sources.length ? { since: first } : {}),
      withdrawn,
      completed: live.some(({ state }) => state === 'completed'),
      insertions: (insertions.get(patient) ?? [])
        .filter((done) => fits(done.type, type))
        .map(({ ref: done, at, basedOn }) => ({ ref: done, at, named: basedOn.includes(ref.split('#')[0]) })),
    },
    patient,
    ...(type ? { type } : {}),
    ...(device ? { device } : {}),
  };
}

/** An appointment that was cancelled, with no other: the order stands, and somebody has to know. */
export function reportCancelled(
  request: Ref,
  cancelled: readonly Ref[],
  patient: Ref,
  at: RecordedTime | undefined,
  issues: IssueList,
): void {
  issues.add(
    'appointment-cancelled',
    request,
    'ServiceRequest.status',
    { code: 'booking-cancelled', ...(at ? { orderedFor: at } : {}) },
    { patient, related: [...cancelled].sort() },
  );
}

/** Whether a line that was put in may be the one that was planned. */
function fits(put: LineType | undefined, planned: LineType | undefined): boolean {
  return put === undefined || planned === undefined || put === planned;
}

function requests(index: ResourceIndex): Source[] {
  return index.all('ServiceRequest').flatMap(({ ref, value }) => {
    if (activityOf(value.code) !== 'insertion') return [];
    const at = recordedTime(value.occurrenceDateTime ?? value.occurrencePeriod?.start);
    const since = recordedTime(value.authoredOn);
    return [
      {
        ref,
        request: ref,
        ...optional('patient', index.nameOf(value.subject, ref)),
        ...optional('at', at),
        ...optional('since', since),
        state: value.doNotPerform ? ('withdrawn' as const) : stateOf(value.status),
        types: typesOf(value.code, ...(value.orderDetail ?? [])),
        devices: devicesIn(value.supportingInfo, ref, index),
        rank: 0 as const,
      },
    ];
  });
}

function appointments(index: ResourceIndex): Source[] {
  return index.all('Appointment').flatMap(({ ref, value }) => {
    const concepts = [...(value.serviceType ?? []), ...(value.reasonCode ?? [])];
    const ofInsertion = concepts.some((one) => activityOf(one) === 'insertion');
    const patients = patientsIn(value.participant, ref, index);
    const requested = requestsOf(value.basedOn, ref, index);
    // A teaching or a list for several patients: each goes by their own request.
    return patientsOnRecord(patients, index).flatMap((patient): Source[] => {
      const [own] = requested.filter((one) => patients.length < 2 || one.patient === patient);
      if (own === undefined && !ofInsertion) return [];
      return [
        {
          // One Appointment plans as many lines as patients take part.
          ref: patients.length < 2 ? ref : `${ref}#${patient}`,
          ...optional('request', own?.ref),
          ...optional('patient', patient),
          ...optional('at', recordedTime(value.start)),
          ...optional('since', recordedTime(value.created)),
          state: stateOf(value.status),
          types: typesOf(...concepts),
          devices: devicesIn(value.supportingInformation, ref, index),
          rank: 1 as const,
        },
      ];
    });
  });
}

/** Every patient who takes part. */
function patientsIn(
  participants: readonly { readonly actor?: Reference | undefined }[] | undefined,
  ref: Ref,
  index: ResourceIndex,
): Ref[] {
  const actors = (participants ?? []).map(({ actor }) => index.nameOf(actor, ref));
  const patients = actors.filter(
    (one) => one?.startsWith('Patient/') || index.get('Patient', one) !== undefined,
  );
  return [...new Set(patients.filter((one) => one !== undefined))];
}

/** Of several patients those whose record this is; one alone is told by whatever names them, even by nothing. */
function patientsOnRecord(patients: readonly Ref[], index: ResourceIndex): (Ref | undefined)[] {
  if (patients.length < 2) return [patients[0]];
  const here = patients.filter((one) => index.get('Patient', one) !== undefined);
  return here.length > 0 ? here : [...patients];
}

function preparations(index: ResourceIndex): Source[] {
  return index.all('Procedure').flatMap((procedure) => {
    const { ref, value } = procedure;
    if (activityOf(value.code) !== 'insertion' || value.status === 'completed') return [];
    const state = stateOf(value.status);
    const devices = deviceRefsOf(procedure, index).filter((one) => index.get('Device', one));
    // One that came to nothing tells of no line, unless its Device is on record.
    if (state === 'withdrawn' && devices.length === 0) return [];
    return [
      {
        ref,
        ...optional('request', requestsOf(value.basedOn, ref, index)[0]?.ref),
        ...optional('patient', index.nameOf(value.subject, ref)),
        ...optional('at', recordedTime(value.performedDateTime ?? value.performedPeriod?.start)),
        state,
        types: typesOf(...(value.usedCode ?? [])),
        devices,
        rank: 2 as const,
      },
    ];
  });
}

interface Done {
  readonly ref: Ref;
  readonly patient: Ref;
  readonly at: RecordedTime;
  readonly basedOn: readonly (Ref | undefined)[];
  readonly type?: LineType;
}

function completedInsertions(index: ResourceIndex): Done[] {
  return index.all('Procedure').flatMap((procedure) => {
    const { ref, value } = procedure;
    if (activityOf(value.code) !== 'insertion' || value.status !== 'completed') return [];
    if (outcomeOf('insertion', value.outcome) !== 'counts') return [];
    const patient = index.nameOf(value.subject, ref);
    const at = recordedTime(
      value.performedDateTime ?? value.performedPeriod?.end ?? value.performedPeriod?.start,
    );
    if (patient === undefined || at === undefined) return [];
    const [type] = deviceRefsOf(procedure, index).flatMap((one) =>
      typesOf(index.get('Device', one)?.value.type),
    );
    const basedOn = (value.basedOn ?? []).map((one) => index.nameOf(one, ref));
    return [{ ref, patient, at, basedOn, ...optional('type', type) }];
  });
}

/** The requests of an insertion that something is based on, each with its patient. */
function requestsOf(
  basedOn: readonly Reference[] | undefined,
  ref: Ref,
  index: ResourceIndex,
): { readonly ref: Ref; readonly patient: Ref | undefined }[] {
  return (basedOn ?? []).flatMap((one) => {
    const request = index.get('ServiceRequest', index.nameOf(one, ref));
    if (request === undefined || activityOf(request.value.code) !== 'insertion') return [];
    return [{ ref: request.ref, patient: index.nameOf(request.value.subject, request.ref) }];
  });
}

const withdrawnStates = new Set([
  'revoked',
  'entered-in-error',
  'cancelled',
  'noshow',
  'not-done',
  'stopped',
]);

export function stateOf(status: string | undefined): Source['state'] {
  if (withdrawnStates.has(status ?? '')) return 'withdrawn';
  return status === 'completed' || status === 'fulfilled' ? 'completed' : 'open';
}

function typesOf(...concepts: readonly (Codeable | undefined)[]): (LineType | undefined)[] {
  return concepts
    .map((one) => lineTypeOf(one))
    .filter((one) => one !== 'unknown' && one !== 'lumen' && one !== undefined);
}

function devicesIn(references: readonly Reference[] | undefined, ref: Ref, index: ResourceIndex): Ref[] {
  return (references ?? [])
    .map((one) => index.nameOf(one, ref))
    .filter((one) => one !== undefined)
    .filter((one) => {
      const type = lineTypeOf(index.get('Device', one)?.value.type);
      return type !== undefined && type !== 'lumen';
    });
}

function optional<Key extends string, Value>(key: Key, value: Value | undefined): { [K in Key]?: Value } {
  return (value === undefined ? {} : { [key]: value }) as { [K in Key]?: Value };
}

/**
 * Which planned insertion a Procedure without a Device belongs to: the one it is based on; else, of a patient with no line on record,
 * the only one there is.
 */
export function plannedInsertionOf(
  procedure: Indexed<'Procedure'>,
  planned: readonly PlannedLine[],
  linesOf: ReadonlySet<Ref>,
  index: ResourceIndex,
): Ref | undefined {
  const { ref, value } = procedure;
  const activity = activityOf(value.code);
  if (activity !== undefined && activityRow(activity).role !== undefined) return undefined;
  const basedOn = (value.basedOn ?? []).map((one) => index.nameOf(one, ref));
  const patient = index.nameOf(value.subject, ref);
  const all = planned.filter(({ insertion }) =>
    insertion.refs.some((one) => basedOn.includes(one.split('#')[0])),
  );
  const named = all.find((one) => one.patient === patient) ?? all[0];
  if (named) return named.insertion.ref;
  if (patient === undefined || linesOf.has(patient)) return undefined;
  const own = planned.filter((one) => one.patient === patient);
  return own.length === 1 ? own[0]?.insertion.ref : undefined;
}

/** Whether a plan is of a line. One that names the Device of another patient is not, and that is said. */
export function isPlanOf(plan: PlannedLine, device: Ref, owner: Ref, issues: IssueList): boolean {
  const { insertion, patient } = plan;
  if (plan.device !== device) return false;
  if (patient === owner) return true;
  issues.add(
    'conflicting-values',
    insertion.ref,
    'subject',
    { code: 'planned-with-anothers-device', patient, device, owner },
    { severity: 'high', patient, line: device },
  );
  return false;
}
