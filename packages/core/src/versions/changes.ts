import {
  conceptOf,
  each,
  hasCodeableReference,
  isCodeableReference,
  isObject,
  joinedConcepts,
  referenceOf,
  type Draft,
  type Json,
} from './draft.js';

// HL7 FHIR R5 5.0.0, “R4 Conversions” and “Changes” of each resource, and the StructureDefinitions of both versions:
// what of the elements that are read has another name, type or place. R4B has them as R4 has.

const isList = Array.isArray;

/** What becomes of each type of R5; types that are not here are alike as far as they are read. */
export const changes: Readonly<Record<string, (draft: Draft) => void>> = {
  Device: device,
  DeviceAssociation: deviceAssociation,
  DeviceUsage: deviceUsage,
  Procedure: procedure,
  MedicationAdministration: medicationAdministration,
  Medication: (draft) => draft.reshape('ingredient', hasItem, each(ingredient)),
  ServiceRequest: serviceRequest,
  Encounter: encounter,
  Location: (draft) => draft.move('form', 'physicalType'),
  Appointment: appointment,
  BodyStructure: bodyStructure,
};

/** Elements that R5 no longer has: beside one of R5 they say that two versions are mixed. */
export const onlyInR4: Readonly<Record<string, readonly string[]>> = {
  Device: ['deviceName', 'patient', 'statusReason', 'distinctIdentifier'],
  Procedure: [
    'performedDateTime',
    'performedPeriod',
    'performedString',
    'usedReference',
    'usedCode',
    'reasonCode',
  ],
  MedicationAdministration: [
    'medicationCodeableConcept',
    'medicationReference',
    'effectiveDateTime',
    'effectivePeriod',
    'context',
  ],
  ServiceRequest: ['reasonCode', 'reasonReference', 'locationCode'],
  Encounter: ['period', 'statusHistory', 'classHistory', 'hospitalization'],
  Location: ['physicalType'],
  Appointment: ['reasonCode', 'reasonReference'],
};

function device(draft: Draft): void {
  draft.reshape('type', isList, joinedConcepts);
  draft.move('name', 'deviceName', each(nameOfDevice));
  const names = draft.get('deviceName');
  const shown = draft.get('displayName');
  if (shown !== undefined) {
    draft.signs.push('displayName');
    draft.set('displayName', undefined);
    draft.set('deviceName', [{ name: shown }, ...(isList(names) ? names : [])]);
  }
  draft.reshape(
    'property',
    (list) => isList(list) && list.some(isNewProperty),
    each((one) => (isNewProperty(one) ? property(one as Json) : one)),
  );
  draft.move('availabilityStatus', 'statusReason', (reason) => [reason]);
  // Drafts of R5 and of later versions keep the patient at the Device: by itself, or in its association.
  draft.move('subject', 'patient');
  draft.move('association', 'patient', (list) => {
    const held = (isList(list) ? list : [list]).filter(isObject);
    return held.map((one) => one['humanSubject'] ?? one['subject']).find((one) => one !== undefined);
  });
}

function nameOfDevice(one: unknown): unknown {
  if (!isObject(one) || one['value'] === undefined) return one;
  const { value, ...more } = one;
  return { ...more, name: value };
}

function isNewProperty(one: unknown): boolean {
  if (!isObject(one)) return false;
  if (isObject(one['valueQuantity'])) return true;
  return ['valueCodeableConcept', 'valueString', 'valueBoolean', 'valueInteger', 'valueRange'].some(
    (name) => one[name] !== undefined,
  );
}

/** R4 has lists of quantities and of codes, and nothing else. */
function property(one: Json): unknown {
  const {
    valueQuantity,
    valueCodeableConcept,
    valueString,
    valueBoolean,
    valueInteger,
    valueRange,
    ...kept
  } = one;
  if (valueQuantity !== undefined) return { ...kept, valueQuantity: [valueQuantity] };
  if (valueInteger !== undefined) return { ...kept, valueQuantity: [{ value: valueInteger }] };
  if (valueCodeableConcept !== undefined) return { ...kept, valueCode: [valueCodeableConcept] };
  if (valueBoolean !== undefined)
    return { ...kept, valueCode: [{ coding: [{ code: String(valueBoolean) }] }] };
  if (valueString !== undefined) return { ...kept, valueCode: [{ text: valueString }] };
  // A range is no exact value, and is told as such.
  const { low, high } = isObject(valueRange) ? valueRange : {};
  return {
    ...kept,
    valueQuantity: [{ ...(isObject(low) ? low : isObject(high) ? high : {}), comparator: '>=' }],
  };
}

// R5, DeviceAssociation.status; R4 has no such resource, and tells the same as the use of a device.
const useByAssociation: Readonly<Record<string, string>> = {
  implanted: 'active',
  attached: 'active',
  explanted: 'completed',
  'entered-in-error': 'entered-in-error',
};

function deviceAssociation(draft: Draft): void {
  draft.signs.push('resourceType');
  draft.set('resourceType', 'DeviceUseStatement');
  const { coding } = (draft.get('status') ?? {}) as { coding?: unknown };
  const codes = (isList(coding) ? coding : []).filter(isObject).map(({ code }) => String(code));
  draft.set(
    'status',
    codes.map((code) => useByAssociation[code]).find((one) => one !== undefined) ?? codes[0],
  );
  draft.move('period', 'timingPeriod');
  const where = draft.get('bodyStructure');
  if (where !== undefined) draft.set('bodySite', pointingTo(where));
}

function deviceUsage(draft: Draft): void {
  draft.signs.push('resourceType');
  draft.set('resourceType', 'DeviceUseStatement');
  draft.move('patient', 'subject');
  draft.reshape('device', isCodeableReference, referenceOf);
  draft.reshape('bodySite', isCodeableReference, (site) => {
    const { concept, reference } = site as Json;
    return isObject(concept) ? concept : pointingTo(reference);
  });
}

/** A place that a BodyStructure says: R4’s standard extension for it. */
function pointingTo(reference: unknown): unknown {
  return {
    extension: [{ url: 'http://hl7.org/fhir/StructureDefinition/bodySite', valueReference: reference }],
  };
}

function procedure(draft: Draft): void {
  draft.reshape('category', isList, joinedConcepts);
  happened(draft, 'occurrence', 'performed');
  const used = draft.get('used');
  if (used === undefined) return;
  draft.signs.push('used');
  draft.set('used', undefined);
  draft.put('used', 'usedReference', each(referenceOf)(used));
  draft.put('used', 'usedCode', each((one) => (isObject(one) ? one['concept'] : undefined))(used));
}

function medicationAdministration(draft: Draft): void {
  const given = draft.get('medication');
  if (isObject(given)) {
    draft.signs.push('medication');
    draft.set('medication', undefined);
    draft.put('medication', 'medicationCodeableConcept', given['concept']);
    draft.put(
      'medication',
      'medicationReference',
      given['concept'] === undefined ? given['reference'] : undefined,
    );
  }
  // R5 5.0.0 spells it with one r; later builds do not.
  happened(draft, 'occurence', 'effective');
  happened(draft, 'occurrence', 'effective');
  draft.reshape('device', hasCodeableReference, each(referenceOf));
}

/** When it happened; of a Timing, which R4 does not have here, the one moment or the period it names. */
function happened(draft: Draft, from: string, to: string): void {
  for (const kind of ['DateTime', 'Period', 'String']) draft.move(`${from}${kind}`, `${to}${kind}`);
  const timing = draft.get(`${from}Timing`);
  if (timing === undefined) return;
  draft.signs.push(`${from}Timing`);
  draft.set(`${from}Timing`, undefined);
  const { event, repeat } = isObject(timing) ? timing : {};
  const [one, ...more] = isList(event) ? (event as unknown[]) : [];
  if (one !== undefined && more.length === 0) draft.put(`${from}Timing`, `${to}DateTime`, one);
  else if (one === undefined && isObject(repeat) && isObject(repeat['boundsPeriod']))
    draft.put(`${from}Timing`, `${to}Period`, repeat['boundsPeriod']);
}

function hasItem(list: unknown): boolean {
  return isList(list) && list.some((one) => isObject(one) && one['item'] !== undefined);
}

function ingredient(one: unknown): unknown {
  if (!isObject(one) || !isObject(one['item'])) return one;
  const { item, ...kept } = one;
  const { concept, reference } = item as Json;
  return {
    ...kept,
    ...(concept === undefined ? { itemReference: reference } : { itemCodeableConcept: concept }),
  };
}

function serviceRequest(draft: Draft): void {
  draft.reshape('code', isCodeableReference, conceptOf);
  draft.reshape('orderDetail', hasParameter, (list) => {
    const parameters = (list as unknown[]).filter(isObject).flatMap(({ parameter }) => parameter ?? []);
    const values = parameters.filter(isObject).flatMap((one) => [one['valueCodeableConcept'], one['code']]);
    return values.filter((one) => one !== undefined);
  });
  draft.reshape('supportingInfo', hasCodeableReference, each(referenceOf));
}

function hasParameter(list: unknown): boolean {
  return isList(list) && list.some((one) => isObject(one) && isList(one['parameter']));
}

// R5 and R4, Encounter.status; the others are spelt alike. One that was broken off took place.
const encounterStatus: Readonly<Record<string, string>> = {
  'on-hold': 'onleave',
  discharged: 'finished',
  completed: 'finished',
  discontinued: 'finished',
};
const actCode = 'http://terminology.hl7.org/CodeSystem/v3-ActCode';

function encounter(draft: Draft): void {
  const status = draft.get('status');
  if (typeof status === 'string' && Object.hasOwn(encounterStatus, status)) {
    draft.signs.push('status');
    draft.set('status', encounterStatus[status]);
  }
  draft.reshape('class', isList, (list) => {
    const joined = joinedConcepts(list);
    const coding = isObject(joined) && isList(joined['coding']) ? (joined['coding'] as unknown[]) : [];
    const codings = coding.filter(isObject);
    // What is no class at all stays as it is, so that it is told.
    return codings.find(({ system }) => system === actCode) ?? codings[0] ?? list;
  });
  draft.move('actualPeriod', 'period');
}

function appointment(draft: Draft): void {
  draft.reshape('serviceType', hasCodeableReference, each(conceptOf));
  draft.move('reason', 'reasonCode', each(conceptOf));
  const subject = draft.get('subject');
  if (!isObject(subject)) return;
  draft.signs.push('subject');
  draft.set('subject', undefined);
  const list = draft.get('participant');
  const others = isList(list) ? (list as unknown[]) : [];
  const named = others.some(
    (one) => isObject(one) && isObject(one['actor']) && one['actor']['reference'] === subject['reference'],
  );
  if (!named) draft.set('participant', [...others, { actor: subject }]);
}

function bodyStructure(draft: Draft): void {
  const included = draft.get('includedStructure');
  const [first] = isList(included) ? (included as unknown[]) : [];
  if (!isObject(first)) return;
  draft.signs.push('includedStructure');
  draft.set('includedStructure', undefined);
  draft.put('includedStructure', 'location', first['structure']);
  const { laterality } = first;
  if (laterality !== undefined) draft.put('includedStructure', 'locationQualifier', [laterality]);
}
