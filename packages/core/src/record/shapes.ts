import { z } from 'zod';

// Only what is read, and all of it optional: real servers leave out what the standard asks for. What has the wrong
// type is reported with its path and left out; the rest of the resource is still used.

const text = z.string().optional();
const coding = z.looseObject({ system: text, code: text, display: text });
const codeable = z.looseObject({ coding: z.array(coding).optional(), text });
const reference = z.looseObject({ reference: text, display: text, identifier: z.unknown().optional() });
const quantity = z.looseObject({
  value: z.number().optional(),
  comparator: z.string().optional(),
  unit: text,
  system: text,
  code: text,
});
const period = z.looseObject({ start: text, end: text });
const meta = z.looseObject({ versionId: text, lastUpdated: text });
const extension = z.looseObject({ url: text, valueReference: reference.optional() });
const common = { id: text, meta: meta.optional(), status: text };

export const shapes = {
  Patient: z.looseObject({
    ...common,
    birthDate: text,
    link: z.array(z.looseObject({ other: reference.optional(), type: text })).optional(),
    deceasedBoolean: z.boolean().optional(),
    deceasedDateTime: text,
    name: z
      .array(z.looseObject({ text, family: text, given: z.array(z.string()).optional(), use: text }))
      .optional(),
  }),
  Device: z.looseObject({
    ...common,
    type: codeable.optional(),
    patient: reference.optional(),
    parent: reference.optional(),
    statusReason: z.array(codeable).optional(),
    extension: z.array(extension).optional(),
    deviceName: z.array(z.looseObject({ name: text })).optional(),
    property: z
      .array(
        z.looseObject({
          type: codeable.optional(),
          valueQuantity: z.array(quantity).optional(),
          valueCode: z.array(codeable).optional(),
        }),
      )
      .optional(),
  }),
  Procedure: z.looseObject({
    ...common,
    identifier: z.array(z.looseObject({ system: text, value: text })).optional(),
    basedOn: z.array(reference).optional(),
    category: codeable.optional(),
    code: codeable.optional(),
    subject: reference.optional(),
    performedDateTime: text,
    performedPeriod: period.optional(),
    performedString: text,
    statusReason: codeable.optional(),
    reasonCode: z.array(codeable).optional(),
    focalDevice: z.array(z.looseObject({ manipulated: reference.optional() })).optional(),
    usedReference: z.array(reference).optional(),
    usedCode: z.array(codeable).optional(),
    bodySite: z.array(codeable).optional(),
    // As it came: an outcome that can’t be read must not pass for none.
    outcome: z.unknown().optional(),
  }),
  Observation: z.looseObject({
    ...common,
    code: codeable.optional(),
    subject: reference.optional(),
    category: z.array(codeable).optional(),
    focus: z.array(reference).optional(),
    device: reference.optional(),
    specimen: reference.optional(),
    effectiveDateTime: text,
    effectiveInstant: text,
    effectivePeriod: period.optional(),
    bodySite: codeable.optional(),
    valueQuantity: quantity.optional(),
    valueCodeableConcept: codeable.optional(),
    valueBoolean: z.boolean().optional(),
    valueString: text,
    valueInteger: z.number().optional(),
    component: z
      .array(
        z.looseObject({
          code: codeable.optional(),
          valueQuantity: quantity.optional(),
          valueCodeableConcept: codeable.optional(),
          valueBoolean: z.boolean().optional(),
          valueString: text,
          valueInteger: z.number().optional(),
        }),
      )
      .optional(),
  }),
  MedicationAdministration: z.looseObject({
    ...common,
    subject: reference.optional(),
    medicationCodeableConcept: codeable.optional(),
    medicationReference: reference.optional(),
    effectiveDateTime: text,
    effectivePeriod: period.optional(),
    device: z.array(reference).optional(),
    partOf: z.array(reference).optional(),
    dosage: z.looseObject({ dose: quantity.optional() }).optional(),
  }),
  Medication: z.looseObject({
    ...common,
    code: codeable.optional(),
    ingredient: z
      .array(
        z.looseObject({
          itemCodeableConcept: codeable.optional(),
          itemReference: reference.optional(),
          strength: z
            .looseObject({ numerator: quantity.optional(), denominator: quantity.optional() })
            .optional(),
        }),
      )
      .optional(),
  }),
  AllergyIntolerance: z.looseObject({
    ...common,
    clinicalStatus: codeable.optional(),
    verificationStatus: codeable.optional(),
    code: codeable.optional(),
    patient: reference.optional(),
    onsetDateTime: text,
    recordedDate: text,
    reaction: z.array(z.looseObject({ substance: codeable.optional() })).optional(),
  }),
  Condition: z.looseObject({
    ...common,
    clinicalStatus: codeable.optional(),
    verificationStatus: codeable.optional(),
    code: codeable.optional(),
    subject: reference.optional(),
    onsetDateTime: text,
    onsetPeriod: period.optional(),
    recordedDate: text,
  }),
  Flag: z.looseObject({
    ...common,
    identifier: z.array(z.looseObject({ system: text, value: text })).optional(),
    code: codeable.optional(),
    subject: reference.optional(),
    period: period.optional(),
  }),
  Encounter: z.looseObject({
    ...common,
    class: coding.optional(),
    subject: reference.optional(),
    period: period.optional(),
    location: z
      .array(z.looseObject({ location: reference.optional(), status: text, period: period.optional() }))
      .optional(),
  }),
  Location: z.looseObject({
    ...common,
    name: text,
    type: z.array(codeable).optional(),
    physicalType: codeable.optional(),
    partOf: reference.optional(),
  }),
  DeviceUseStatement: z.looseObject({
    ...common,
    subject: reference.optional(),
    device: reference.optional(),
    timingPeriod: period.optional(),
    timingDateTime: text,
    timingTiming: z
      .looseObject({ repeat: z.looseObject({ boundsPeriod: period.optional() }).optional() })
      .optional(),
    bodySite: codeable.and(z.looseObject({ extension: z.array(extension).optional() })).optional(),
  }),
  BodyStructure: z.looseObject({
    ...common,
    location: codeable.optional(),
    locationQualifier: z.array(codeable).optional(),
    description: text,
  }),
  ServiceRequest: z.looseObject({
    ...common,
    intent: text,
    doNotPerform: z.boolean().optional(),
    code: codeable.optional(),
    orderDetail: z.array(codeable).optional(),
    subject: reference.optional(),
    occurrenceDateTime: text,
    occurrencePeriod: period.optional(),
    occurrenceTiming: z.unknown().optional(),
    authoredOn: text,
    supportingInfo: z.array(reference).optional(),
  }),
  Specimen: z.looseObject({
    ...common,
    type: codeable.optional(),
    subject: reference.optional(),
    collection: z
      .looseObject({
        collectedDateTime: text,
        collectedPeriod: period.optional(),
        quantity: quantity.optional(),
      })
      .optional(),
    container: z.array(z.looseObject({ specimenQuantity: quantity.optional() })).optional(),
  }),
  Appointment: z.looseObject({
    ...common,
    serviceType: z.array(codeable).optional(),
    reasonCode: z.array(codeable).optional(),
    basedOn: z.array(reference).optional(),
    supportingInformation: z.array(reference).optional(),
    start: text,
    created: text,
    participant: z.array(z.looseObject({ actor: reference.optional() })).optional(),
  }),
} as const;

export type ShapeName = keyof typeof shapes;

/** The types of R4 that are read; DeviceUsage of R5 is read as the DeviceUseStatement that it was. */
export const readResourceTypes: readonly string[] = [...Object.keys(shapes), 'DeviceUsage'];

export type Shape<Name extends ShapeName> = z.infer<(typeof shapes)[Name]>;
export type Codeable = z.infer<typeof codeable>;
export type Reference = z.infer<typeof reference>;
export type Quantity = z.infer<typeof quantity>;

/** A CodeableConcept, or undefined where the element is none. */
export function asCodeable(element: unknown): Codeable | undefined {
  const read = codeable.safeParse(element);
  return read.success ? read.data : undefined;
}

/** A wrong element: its place as keys from the top of the resource. */
export interface BadElement {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}

/**
 * Reads a resource by its shape. Elements of the wrong type are left out of the copy that comes back and named in
 * `bad`; the input is not written to.
 */
export function readShape<Name extends ShapeName>(
  name: Name,
  resource: object,
): { readonly value: Shape<Name>; readonly bad: readonly BadElement[] } {
  const first = shapes[name].safeParse(resource);
  if (first.success) return { value: first.data as Shape<Name>, bad: [] };
  const copy = structuredCloneJson(resource);
  const bad = first.error.issues.map(({ path, message }) => ({ path, message }));
  // From the last to the first, so that taking one element out of an array doesn't move those still to go.
  for (const { path } of [...bad].sort((a, b) => comparePaths(b.path, a.path))) removeAt(copy, path);
  const second = shapes[name].safeParse(copy);
  return {
    value: (second.success ? second.data : { id: (resource as { id?: string }).id }) as Shape<Name>,
    bad,
  };
}

/** FHIRPath of an element, for example `Procedure.focalDevice[0].manipulated`. */
export function fhirPathOf(resourceType: string, path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key}]` : `${text}.${String(key)}`),
    resourceType,
  );
}

function structuredCloneJson(value: object): Record<PropertyKey, unknown> {
  return JSON.parse(JSON.stringify(value)) as Record<PropertyKey, unknown>;
}

function comparePaths(a: readonly PropertyKey[], b: readonly PropertyKey[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const [x, y] = [a[i], b[i]];
    if (x === y) continue;
    if (typeof x === 'number' && typeof y === 'number') return x - y;
    return String(x) < String(y) ? -1 : 1;
  }
  return a.length - b.length;
}

function removeAt(root: Record<PropertyKey, unknown>, path: readonly PropertyKey[]): void {
  let at: unknown = root;
  for (const key of path.slice(0, -1)) at = (at as Record<PropertyKey, unknown> | undefined)?.[key];
  const last = path.at(-1);
  if (last === undefined || typeof at !== 'object' || at === null) return;
  if (Array.isArray(at) && typeof last === 'number') at.splice(last, 1);
  else Reflect.deleteProperty(at, last);
}
