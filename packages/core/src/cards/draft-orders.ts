import { activitiesWhere, standard } from '@dwellward/profiles';
import type { CodeableConcept, FhirResource, MedicationRequest, ServiceRequest } from 'fhir/r4.js';
import type { NotUnderstood } from '../model/record.js';
import type { ResourceEntry } from '../model/resource-entry.js';
import { readRecords, type ReadOptions } from '../record/read-records.js';
import type { DraftOrder } from './model.js';

/** What orders that are about to be given are, as far as lines are concerned. */
export interface DraftReading {
  readonly orders: readonly DraftOrder[];
  /** What was not understood of those that name a line. */
  readonly notUnderstood: readonly NotUnderstood[];
}

/**
 * SNOMED CT routes of administration by which nothing goes through a central line. One that is missing here makes a
 * card too many, one too many hides a hold: so only what is beyond doubt.
 */
const notThroughALine: ReadonlySet<string> = new Set([
  '26643006', // oral
  '34206005', // subcutaneous
  '78421000', // intramuscular
  '6064005', // topical
  '46713006', // nasal
  '37161004', // rectal
  '37839007', // sublingual
  '45890007', // transdermal
  '54485002', // ophthalmic
  '10547007', // otic
  '16857009', // vaginal
]);

/** Statuses in which an order is not, or no longer, to be carried out. */
const over: ReadonlySet<string> = new Set([
  'completed',
  'revoked',
  'entered-in-error',
  'cancelled',
  'stopped',
]);

/**
 * Reads orders that are about to be given beside the record of their patient, as if they were given: line care that is
 * ordered, and drugs that may go through a line. Whatever else is ordered concerns no line. An order that the record
 * holds already, and that is given anew, is read as it is now.
 * @param record what is known of the patient. @param drafts the orders, each with an id.
 * @param asOf the moment for which an order without a time counts.
 * @example
 * ```ts
 * draftOrders([], [], when.asOf); // { orders: [], notUnderstood: [] }
 * ```
 */
export function draftOrders(
  record: readonly ResourceEntry[],
  drafts: readonly FhirResource[],
  asOf: string,
  options: ReadOptions = {},
): DraftReading {
  const live = drafts.filter((one) => !over.has((one as ServiceRequest).status));
  const services = live.filter((one): one is ServiceRequest => one.resourceType === 'ServiceRequest');
  const drugs = live.filter((one): one is MedicationRequest => one.resourceType === 'MedicationRequest');
  const refs = new Set(services.map(refOf));
  const before = record.filter(
    ({ resource }) => !refs.has(refOf(resource as { resourceType: string; id?: string })),
  );
  const entries = services.map((service) => ({ resource: asGiven(service, asOf) }));
  const read = readRecords([...before, ...entries], options);
  const orders = new Map(
    read.lines.flatMap((line) => line.orders.map((order) => [order.ref, order] as const)),
  );
  const texts = new Map(services.map((one) => [refOf(one), textOf(one.code)]));
  return {
    orders: [
      ...[...orders.values()]
        .filter(({ ref }) => refs.has(ref))
        .map(({ ref, activity, target }): DraftOrder => {
          const text = texts.get(ref);
          return {
            ref,
            activity,
            ...(target === undefined ? {} : { target }),
            ...(text === undefined ? {} : { text }),
          };
        }),
      ...drugs.filter(mayGoThroughALine).flatMap((drug) => {
        const text = textOf(drug.medicationCodeableConcept) ?? drug.medicationReference?.display;
        return connects.map((activity): DraftOrder => ({
          ref: refOf(drug),
          activity,
          ...(text === undefined ? {} : { text }),
        }));
      }),
    ],
    notUnderstood: read.notUnderstood.filter(
      ({ onLine, patients }) =>
        onLine && patients.some(({ resources }) => resources.some((ref) => refs.has(ref))),
    ),
  };
}

const connects = activitiesWhere(({ leavesLumen }) => leavesLumen === 'infusing');

function refOf({
  resourceType,
  id,
}: {
  readonly resourceType: string;
  readonly id?: string | undefined;
}): string {
  return `${resourceType}/${id}`;
}

/** The order as it will be once it is given; when it is to be done matters to no hold that is in force now. */
function asGiven(service: ServiceRequest, asOf: string): ServiceRequest {
  const given = { ...service, status: 'active' as const, occurrenceDateTime: asOf };
  delete given.occurrenceTiming;
  delete given.occurrencePeriod;
  return given;
}

/** Whether a drug may go through a line: also where nothing, or nothing that is known here, is said of its route. */
function mayGoThroughALine({ dosageInstruction }: MedicationRequest): boolean {
  const routes = (Array.isArray(dosageInstruction) ? dosageInstruction : []).map((one) => one?.route);
  const elsewhere = (route: (typeof routes)[number]) =>
    (route?.coding ?? []).some(
      ({ system, code }) => system === standard.snomed && notThroughALine.has(code ?? ''),
    );
  return routes.length === 0 || !routes.every(elsewhere);
}

function textOf(concept: CodeableConcept | undefined): string | undefined {
  return concept?.text ?? concept?.coding?.find(({ display }) => display !== undefined)?.display;
}
