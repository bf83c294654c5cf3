import { draftOrders, notWholeCard, orderCards, type CardHook, type CareCard } from '@dwellward/core';
import type { FhirResource, Resource } from 'fhir/r4.js';
import { patientIdsOf } from '../references.js';
import { NotRead, type PatientCare } from './patient-reader.js';
import type { HookCall } from './request.js';

/** The types of orders that can concern a line. */
const types: readonly string[] = ['ServiceRequest', 'MedicationRequest'];

/**
 * The orders of a call that can concern a line: of `order-select` those that were selected, all where it does not say
 * which. Each has an id and its patient afterwards.
 * @throws NotRead where one is about another patient: then it is not known whose lines are meant.
 */
export function ordersOf({ context }: HookCall, hook: CardHook, baseUrl: string): FhirResource[] {
  const { draftOrders: drafts, selections, patientId } = context;
  const all = (drafts?.entry ?? []).map(({ resource }) => resource as unknown as Resource);
  const selected = (one: Resource) =>
    hook !== 'order-select' ||
    selections === undefined ||
    selections.some((ref) => ref === `${one.resourceType}/${one.id}` || ref === one.id);
  return all
    .filter((one) => types.includes(one.resourceType) && selected(one))
    .map((one, at) => {
      const named = patientIdsOf(one, baseUrl);
      if (named.length > 0 && !named.includes(patientId)) throw new NotRead('several-patients');
      const subject = named.length > 0 ? {} : { subject: { reference: `Patient/${patientId}` } };
      return { ...one, id: one.id ?? `draft-${at + 1}`, ...subject } as FhirResource;
    });
}

/** The cards of orders: what they go against, and that the record may lack something where any concerns a line. */
export function cardsOfOrders(
  orders: readonly FhirResource[],
  { records, cares, when, doubts, entries, readOptions }: PatientCare,
): CareCard[] {
  const reading = draftOrders(entries, orders, when.asOf, readOptions);
  const concerns = reading.orders.length > 0 && records.lines.length > 0;
  return [
    ...(concerns && doubts.length > 0 ? [notWholeCard(doubts, when)] : []),
    ...orderCards({ ...reading, lines: records.lines, cares, when }),
  ];
}
