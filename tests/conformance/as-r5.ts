import type {
  Bundle,
  BundleEntry,
  Device,
  DeviceUseStatement,
  Encounter,
  FhirResource,
  Location,
  MedicationAdministration,
  Procedure,
  ServiceRequest,
} from 'fhir/r4.js';

// HL7 FHIR R5 5.0.0: the differences of its StructureDefinitions to those of R4, written from there for the tests alone.

type R5 = Record<string, unknown>;

const finished: Record<string, string> = { finished: 'completed', onleave: 'on-hold' };

/** The resources of an R4 Bundle as an R5 server would have them: one may become two. */
export function asR5(bundle: Bundle<FhirResource>): { readonly resource: R5; readonly fullUrl: string }[] {
  return (bundle.entry ?? []).flatMap(({ resource, fullUrl }: BundleEntry<FhirResource>) => {
    if (resource === undefined) return [];
    const own = { resource: resourceAsR5(resource), fullUrl: nameInR5(fullUrl ?? '') };
    if (resource.resourceType !== 'Device' || resource.patient === undefined) return [own];
    const id = `${resource.id}-on-patient`;
    const association = {
      resourceType: 'DeviceAssociation',
      id,
      device: { reference: `Device/${resource.id}` },
      subject: resource.patient,
      status: {
        coding: [{ system: 'http://hl7.org/fhir/deviceassociation-status', code: 'attached' }],
      },
    };
    return [
      own,
      { resource: association, fullUrl: (fullUrl ?? '').replace(/[^/]+\/[^/]+$/, `DeviceAssociation/${id}`) },
    ];
  });
}

function nameInR5(fullUrl: string): string {
  return fullUrl.replace('/DeviceUseStatement/', '/DeviceUsage/');
}

function resourceAsR5(resource: FhirResource): R5 {
  const { contained, ...own } = turned(resource) as R5 & { contained?: FhirResource[] };
  return contained === undefined ? own : { ...own, contained: contained.map(resourceAsR5) };
}

function turned(resource: FhirResource): R5 {
  switch (resource.resourceType) {
    case 'Device':
      return device(resource);
    case 'DeviceUseStatement':
      return use(resource);
    case 'Procedure':
      return procedure(resource);
    case 'MedicationAdministration':
      return administration(resource);
    case 'Medication': {
      const { ingredient, ...kept } = resource;
      if (ingredient === undefined) return { ...kept };
      return {
        ...kept,
        ingredient: ingredient.map(({ itemCodeableConcept, itemReference, ...more }) => ({
          ...more,
          item: codeable(itemCodeableConcept, itemReference),
        })),
      };
    }
    case 'ServiceRequest':
      return request(resource);
    case 'Encounter':
      return encounter(resource);
    case 'Location': {
      const { physicalType, ...kept } = resource satisfies Location;
      return { ...kept, ...(physicalType === undefined ? {} : { form: physicalType }) };
    }
    default:
      return { ...resource };
  }
}

function codeable(concept: unknown, reference: unknown): R5 {
  return concept === undefined ? { reference } : { concept };
}

function device({ type, deviceName, property, patient: _, ...kept }: Device): R5 {
  return {
    ...kept,
    ...(type === undefined ? {} : { type: [type] }),
    ...(deviceName === undefined
      ? {}
      : { name: deviceName.map(({ name, type: kind }) => ({ value: name, type: kind })) }),
    ...(property === undefined
      ? {}
      : {
          property: property.flatMap(({ type: kind, valueQuantity = [], valueCode = [] }) => [
            ...valueQuantity.map((one) => ({ type: kind, valueQuantity: one })),
            ...valueCode.map((one) => ({ type: kind, valueCodeableConcept: one })),
          ]),
        }),
  };
}

function use({ subject, device: used, bodySite, recordedOn, ...kept }: DeviceUseStatement): R5 {
  return {
    ...kept,
    resourceType: 'DeviceUsage',
    patient: subject,
    device: { reference: used },
    ...(bodySite === undefined ? {} : { bodySite: { concept: bodySite } }),
    ...(recordedOn === undefined ? {} : { dateAsserted: recordedOn }),
  };
}

function procedure(resource: Procedure): R5 {
  const { performedDateTime, performedPeriod, usedCode, usedReference, category, ...kept } = resource;
  const used = [
    ...(usedReference ?? []).map((reference) => ({ reference })),
    ...(usedCode ?? []).map((concept) => ({ concept })),
  ];
  return {
    ...kept,
    ...(category === undefined ? {} : { category: [category] }),
    ...(performedDateTime === undefined ? {} : { occurrenceDateTime: performedDateTime }),
    ...(performedPeriod === undefined ? {} : { occurrencePeriod: performedPeriod }),
    ...(used.length === 0 ? {} : { used }),
  };
}

function administration(resource: MedicationAdministration): R5 {
  const {
    medicationCodeableConcept,
    medicationReference,
    effectiveDateTime,
    effectivePeriod,
    device: devices,
    ...kept
  } = resource;
  return {
    ...kept,
    medication: codeable(medicationCodeableConcept, medicationReference),
    ...(effectiveDateTime === undefined ? {} : { occurenceDateTime: effectiveDateTime }),
    ...(effectivePeriod === undefined ? {} : { occurencePeriod: effectivePeriod }),
    ...(devices === undefined ? {} : { device: devices.map((reference) => ({ reference })) }),
  };
}

function request({ code, orderDetail, supportingInfo, ...kept }: ServiceRequest): R5 {
  return {
    ...kept,
    ...(code === undefined ? {} : { code: { concept: code } }),
    ...(orderDetail === undefined
      ? {}
      : {
          orderDetail: orderDetail.map((one) => ({
            parameter: [{ code: { text: 'detail' }, valueCodeableConcept: one }],
          })),
        }),
    ...(supportingInfo === undefined
      ? {}
      : { supportingInfo: supportingInfo.map((reference) => ({ reference })) }),
  };
}

function encounter({ status, class: kind, period, ...kept }: Encounter): R5 {
  return {
    ...kept,
    status: finished[status] ?? status,
    class: [{ coding: [kind] }],
    ...(period === undefined ? {} : { actualPeriod: period }),
  };
}
