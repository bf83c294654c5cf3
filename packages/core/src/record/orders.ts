import { readTiming, type Begins } from '@dwellward/policy';
import { activityOf } from './codes.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { LineRecord, Order, RecordedTime, Ref } from '../model/record.js';
import { reportCancelled, stateOf } from './planned-insertions.js';
import { compareTimes, recordedTime } from './times.js';
import { addTo } from '../model/gather.js';

/** When an order is to be done, and the bounds within which it counts. */
interface When {
  readonly begins: Begins;
  readonly from?: RecordedTime;
  readonly until?: RecordedTime;
}

/** An order and whose it is. */
export interface PatientOrder {
  readonly patient: Ref;
  readonly order: Order;
}

/** Says of every order that no line has why: there is none of the patient, or the Device that it names is none. */
export function reportLostOrders(
  orders: readonly PatientOrder[],
  lines: readonly LineRecord[],
  patients: ReadonlySet<Ref>,
  issues: IssueList,
): void {
  const used = new Set(lines.flatMap((line) => line.orders.map(({ ref }) => ref)));
  for (const { patient, order } of orders) {
    if (used.has(order.ref)) continue;
    const { ref, activity, target } = order;
    if (patients.has(patient) && target !== undefined)
      issues.add(
        'unknown-lumen',
        ref,
        'ServiceRequest.supportingInfo',
        { code: 'order-of-no-line', activity, device: target },
        { severity: 'high', patient },
      );
    else
      issues.add(
        'unknown-lumen',
        ref,
        'ServiceRequest.subject',
        { code: 'order-without-line', activity },
        { patient },
      );
  }
}

/**
 * The patients’ own orders of line care: active, and with a timing that can be kept. That of an insertion is a plan
 * (`planned-insertions.ts`): there is no line yet.
 */
export function readOrders(
  index: ResourceIndex,
  issues: IssueList,
  isLine: (device: Ref) => boolean,
): PatientOrder[] {
  const booked = appointmentsByRequest(index);
  return index.all('ServiceRequest').flatMap((request) => {
    const { ref, value } = request;
    const activity = activityOf(value.code);
    const patient = index.nameOf(value.subject, ref);
    if (!activity || activity === 'insertion' || value.status !== 'active') return [];
    const named = patient ? { patient } : {};
    const when = whenOf(request, booked.get(ref) ?? [], issues, named);
    if (!when) return [];
    if (!patient) {
      issues.add(
        'unresolved-reference',
        ref,
        'ServiceRequest.subject',
        { code: 'order-without-patient' },
        { severity: 'high' },
      );
      return [];
    }
    // An order may name a pump beside the line.
    const devices = (value.supportingInfo ?? []).flatMap((one) => {
      const device = index.nameOf(one, ref);
      return device !== undefined && index.get('Device', device) ? [device] : [];
    });
    const target = devices.find(isLine) ?? devices[0];
    return [{ patient, order: { ref, activity, ...(target ? { target } : {}), ...when } }];
  });
}

interface Booking {
  readonly ref: Ref;
  readonly live: boolean;
  readonly at?: RecordedTime;
}

/** The appointments that are based on each order. */
function appointmentsByRequest(index: ResourceIndex): ReadonlyMap<Ref, readonly Booking[]> {
  const byRequest = new Map<Ref, Booking[]>();
  for (const { ref, value } of index.all('Appointment')) {
    const at = recordedTime(value.start);
    const booking = { ref, live: stateOf(value.status) !== 'withdrawn', ...(at ? { at } : {}) };
    for (const one of value.basedOn ?? []) {
      const request = index.nameOf(one, ref);
      if (request !== undefined) addTo(byRequest, request, booking);
    }
  }
  return byRequest;
}

function whenOf(
  { ref, value }: Indexed<'ServiceRequest'>,
  appointments: readonly Booking[],
  issues: IssueList,
  details: { readonly patient?: Ref },
): When | undefined {
  const written = recordedTime(value.authoredOn);
  if (value.occurrenceTiming === undefined || value.occurrenceTiming === null) {
    // What is booked counts, as with a planned insertion; of several the earliest.
    const [booked] = appointments.flatMap(({ live, at }) => (live && at ? [at] : [])).sort(compareTimes);
    if (booked) return { begins: { kind: 'once', by: booked.text }, ...(written ? { from: written } : {}) };
    const from = recordedTime(value.occurrencePeriod?.start);
    const by = recordedTime(value.occurrenceDateTime ?? value.occurrencePeriod?.end) ?? from;
    if (appointments.length > 0 && !appointments.some(({ live }) => live) && details.patient !== undefined)
      reportCancelled(
        ref,
        appointments.map((one) => one.ref),
        details.patient,
        by,
        issues,
      );
    if (by) {
      const once = {
        kind: 'once',
        by: by.text,
        ...(from && from !== by ? { from: from.text } : {}),
      } as const;
      return { begins: once, ...(written ? { from: written } : {}) };
    }
    issues.add('unreadable-order', ref, 'ServiceRequest.occurrence', { code: 'order-without-time' }, details);
    return undefined;
  }
  const timing = readTiming(value.occurrenceTiming, { callerReadsBoundsPeriod: true });
  if (!timing.ok) {
    for (const problem of timing.problems) {
      issues.add(
        'unreadable-order',
        ref,
        `ServiceRequest.occurrenceTiming.${problem.path}`.replace('.Timing.', '.'),
        { code: 'order-timing-not-kept', reason: { code: 'outside-text', text: problem.message } },
        { severity: 'high', ...details },
      );
    }
    return undefined;
  }
  const bounds = boundsPeriodOf(value.occurrenceTiming);
  const from = recordedTime(bounds?.start) ?? written;
  const until = recordedTime(bounds?.end);
  return { begins: timing.begins, ...(from ? { from } : {}), ...(until ? { until } : {}) };
}

function boundsPeriodOf(timing: unknown): { readonly start?: string; readonly end?: string } | undefined {
  const period = (timing as { repeat?: { boundsPeriod?: { start?: unknown; end?: unknown } } } | null)?.repeat
    ?.boundsPeriod;
  if (!period) return undefined;
  const { start, end } = period;
  return { ...(typeof start === 'string' ? { start } : {}), ...(typeof end === 'string' ? { end } : {}) };
}
