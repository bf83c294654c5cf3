import {
  anything,
  both,
  list,
  number,
  object,
  optional,
  shaped,
  text as string,
  yesNo,
  type Shaped,
} from '@dwellward/policy/shape';

// Only what is read, and all of it optional: real servers leave out what the standard asks for. What has the wrong
// type is reported with its path and left out; the rest of the resource is still used.

const text = optional(string);
const coding = object({ system: text, code: text, display: text });
const codeable = object({ coding: optional(list(coding)), text });
const reference = object({ reference: text, display: text, identifier: optional(anything) });
const quantity = object({
  value: optional(number),
  comparator: optional(string),
  unit: text,
  system: text,
  code: text,
});
const period = object({ start: text, end: text });
const meta = object({ versionId: text, lastUpdated: text });
const extension = object({ url: text, valueReference: optional(reference) });
const common = { id: text, meta: optional(meta), status: text };

export const shapes = {
  Patient: object({
    ...common,
    birthDate: text,
    link: optional(list(object({ other: optional(reference), type: text }))),
    deceasedBoolean: optional(yesNo),
    deceasedDateTime: text,
    name: optional(list(object({ text, family: text, given: optional(list(string)), use: text }))),
  }),
  Device: object({
    ...common,
    type: optional(codeable),
    patient: optional(reference),
    parent: optional(reference),
    statusReason: optional(list(codeable)),
    extension: optional(list(extension)),
    deviceName: optional(list(object({ name: text }))),
    property: optional(
      list(
        object({
          type: optional(codeable),
          valueQuantity: optional(list(quantity)),
          valueCode: optional(list(codeable)),
        }),
      ),
    ),
  }),
  Procedure: object({
    ...common,
    identifier: optional(list(object({ system: text, value: text }))),
    basedOn: optional(list(reference)),
    category: optional(codeable),
    code: optional(codeable),
    subject: optional(reference),
    performedDateTime: text,
    performedPeriod: optional(period),
    performedString: text,
    statusReason: optional(codeable),
    reasonCode: optional(list(codeable)),
    focalDevice: optional(list(object({ manipulated: optional(reference) }))),
    usedReference: optional(list(reference)),
    usedCode: optional(list(codeable)),
    bodySite: optional(list(codeable)),
    // As it came: an outcome that can’t be read must not pass for none.
    outcome: optional(anything),
  }),
  Observation: object({
    ...common,
    code: optional(codeable),
    subject: optional(reference),
    category: optional(list(codeable)),
    focus: optional(list(reference)),
    device: optional(reference),
    specimen: optional(reference),
    effectiveDateTime: text,
    effectiveInstant: text,
    effectivePeriod: optional(period),
    bodySite: optional(codeable),
    valueQuantity: optional(quantity),
    valueCodeableConcept: optional(codeable),
    valueBoolean: optional(yesNo),
    valueString: text,
    valueInteger: optional(number),
    component: optional(
      list(
        object({
          code: optional(codeable),
          valueQuantity: optional(quantity),
          valueCodeableConcept: optional(codeable),
          valueBoolean: optional(yesNo),
          valueString: text,
          valueInteger: optional(number),
        }),
      ),
    ),
  }),
  MedicationAdministration: object({
    ...common,
    subject: optional(reference),
    medicationCodeableConcept: optional(codeable),
    medicationReference: optional(reference),
    effectiveDateTime: text,
    effectivePeriod: optional(period),
    device: optional(list(reference)),
    partOf: optional(list(reference)),
    dosage: optional(object({ dose: optional(quantity) })),
  }),
  Medication: object({
    ...common,
    code: optional(codeable),
    ingredient: optional(
      list(
        object({
          itemCodeableConcept: optional(codeable),
          itemReference: optional(reference),
          strength: optional(object({ numerator: optional(quantity), denominator: optional(quantity) })),
        }),
      ),
    ),
  }),
  AllergyIntolerance: object({
    ...common,
    clinicalStatus: optional(codeable),
    verificationStatus: optional(codeable),
    code: optional(codeable),
    patient: optional(reference),
    onsetDateTime: text,
    recordedDate: text,
    reaction: optional(list(object({ substance: optional(codeable) }))),
  }),
  Condition: object({
    ...common,
    clinicalStatus: optional(codeable),
    verificationStatus: optional(codeable),
    code: optional(codeable),
    subject: optional(reference),
    onsetDateTime: text,
    onsetPeriod: optional(period),
    recordedDate: text,
  }),
  Flag: object({
    ...common,
    identifier: optional(list(object({ system: text, value: text }))),
    code: optional(codeable),
    subject: optional(reference),
    period: optional(period),
  }),
  Encounter: object({
    ...common,
    class: optional(coding),
    subject: optional(reference),
    period: optional(period),
    location: optional(
      list(object({ location: optional(reference), status: text, period: optional(period) })),
    ),
  }),
  Location: object({
    ...common,
    name: text,
    type: optional(list(codeable)),
    physicalType: optional(codeable),
    partOf: optional(reference),
  }),
  DeviceUseStatement: object({
    ...common,
    subject: optional(reference),
    device: optional(reference),
    timingPeriod: optional(period),
    timingDateTime: text,
    timingTiming: optional(object({ repeat: optional(object({ boundsPeriod: optional(period) })) })),
    bodySite: optional(both(codeable, object({ extension: optional(list(extension)) }))),
  }),
  BodyStructure: object({
    ...common,
    location: optional(codeable),
    locationQualifier: optional(list(codeable)),
    description: text,
  }),
  ServiceRequest: object({
    ...common,
    intent: text,
    doNotPerform: optional(yesNo),
    code: optional(codeable),
    orderDetail: optional(list(codeable)),
    subject: optional(reference),
    occurrenceDateTime: text,
    occurrencePeriod: optional(period),
    occurrenceTiming: optional(anything),
    authoredOn: text,
    supportingInfo: optional(list(reference)),
  }),
  Specimen: object({
    ...common,
    type: optional(codeable),
    subject: optional(reference),
    collection: optional(
      object({
        collectedDateTime: text,
        collectedPeriod: optional(period),
        quantity: optional(quantity),
      }),
    ),
    container: optional(list(object({ specimenQuantity: optional(quantity) }))),
  }),
  Appointment: object({
    ...common,
    serviceType: optional(list(codeable)),
    reasonCode: optional(list(codeable)),
    basedOn: optional(list(reference)),
    supportingInformation: optional(list(reference)),
    start: text,
    created: text,
    participant: optional(list(object({ actor: optional(reference) }))),
  }),
} as const;

export type ShapeName = keyof typeof shapes;

/** The types of R4 that are read; DeviceUsage of R5 is read as the DeviceUseStatement that it was. */
export const readResourceTypes: readonly string[] = [...Object.keys(shapes), 'DeviceUsage'];

export type Shape<Name extends ShapeName> = Shaped<(typeof shapes)[Name]>;
export type Codeable = Shaped<typeof codeable>;
export type Reference = Shaped<typeof reference>;
export type Quantity = Shaped<typeof quantity>;

/** A CodeableConcept, or undefined where the element is none. */
export function asCodeable(element: unknown): Codeable | undefined {
  const read = shaped(codeable, element);
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
  const first = shaped<unknown>(shapes[name], resource);
  if (first.success) return { value: first.data as Shape<Name>, bad: [] };
  const copy = structuredCloneJson(resource);
  const bad = first.error.issues.map(({ path, message }) => ({ path, message }));
  // From the last to the first, so that taking one element out of an array doesn't move those still to go.
  for (const { path } of [...bad].sort((a, b) => comparePaths(b.path, a.path))) removeAt(copy, path);
  const second = shaped<unknown>(shapes[name], copy);
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
