import type { FhirResource } from 'fhir/r4.js';

/** A resource that keeps its profile, and one fault put into it. */
export interface Variant {
  /** The id of the profile. */
  readonly of: string;
  readonly fault: string;
  readonly spoil: (resource: Loose) => void;
}

/** A resource as a fault needs it. */
export type Loose = Record<string, never> & FhirResource;

type Change = (resource: Record<string, never>) => void;

const list = (of: string, faults: Readonly<Record<string, Change>>): Variant[] =>
  Object.entries(faults).map(([fault, spoil]) => ({ of, fault, spoil: spoil as Variant['spoil'] }));
const drop =
  (...path: (string | number)[]): Change =>
  (resource) => {
    const last = path.at(-1) as string;
    const holder = at(resource, path.slice(0, -1)) as Record<string, unknown>;
    if (!(last in holder)) throw new Error(`There is no ${path.join('.')} to drop.`);
    Reflect.deleteProperty(holder, last);
  };
const put =
  (value: unknown, ...path: (string | number)[]): Change =>
  (resource) => {
    const holder = at(resource, path.slice(0, -1)) as Record<string, unknown>;
    holder[path.at(-1) as string] = value;
  };

function at(value: unknown, path: readonly (string | number)[]): unknown {
  return path.reduce<unknown>((found, key) => (found as Record<string, unknown>)[key], value);
}

const foreign = { coding: [{ system: 'https://hospital.example/codes', code: 'x' }] };
const ours = (system: string, code: string) => ({
  coding: [{ system: `https://dwellward.example/fhir/CodeSystem/${system}`, code }],
});
const elsewhere = { reference: 'Practitioner/p' };

/**
 * Faults of R4 itself, one in each element of a resource in turn: a value of another kind, and elements that there are none
 * of. Any validator has to see them.
 */
export function structuralVariants(of: string, resource: FhirResource): Variant[] {
  const elements = Object.entries(resource).filter(
    ([key]) => !['resourceType', 'id', 'meta', 'text', 'contained', 'extension'].includes(key),
  );
  const wrong = elements.map(([key, value]): [string, Change] => {
    const other = typeof value === 'object' ? 'text' : { text: 'text' };
    return [`${key} of another kind`, put(other, key)];
  });
  const unknown = ['colour', 'dueBy'].map((key): [string, Change] => [
    `an element ${key} that there is none of`,
    put('x', key),
  ]);
  return list(of, Object.fromEntries([...wrong, ...unknown]));
}

/** Faults that each profile has to let nobody make. */
export const variants: readonly Variant[] = [
  ...list('due-care-task', {
    'no status': drop('status'),
    'a status that is none': put('due', 'status'),
    'no intent': drop('intent'),
    'an intent that is none': put('wish', 'intent'),
    'no priority': drop('priority'),
    'a priority that is none': put('high', 'priority'),
    'no code': drop('code'),
    'a code of others': put(foreign, 'code'),
    'a code that is misspelt': put(ours('line-care-activity', 'flushing'), 'code'),
    'no description': drop('description'),
    'no focus': drop('focus'),
    'a focus that is a Practitioner': put(elsewhere, 'focus'),
    'nobody it is for': drop('for'),
    'it is for a Group': put({ reference: 'Group/g' }, 'for'),
    'no time of writing': drop('authoredOn'),
    'a time of writing that is none': put('25.11.2026', 'authoredOn'),
    'no time of change': drop('lastModified'),
    'a change before it was written': put('2020-01-01T00:00:00Z', 'lastModified'),
    'no reason': drop('reasonCode'),
    'a reason without words': put({ coding: [] }, 'reasonCode'),
    'no restriction': drop('restriction'),
    'no window': drop('restriction', 'period'),
    'no time by which it is due': drop('restriction', 'period', 'end'),
    'no identifier': drop('identifier'),
    'an identifier of another system': put('https://hospital.example/ids', 'identifier', 0, 'system'),
    'an identifier whose value is a number': put(7, 'identifier', 0, 'value'),
    'no extension': drop('extension'),
    'not what was worked out': (task) => {
      (task as unknown as { extension: { url: string }[] }).extension = (
        task as unknown as { extension: { url: string }[] }
      ).extension.filter(({ url }) => !url.endsWith('/worked-out'));
    },
    'no policy': (task) => {
      (task as unknown as { extension: { url: string }[] }).extension = (
        task as unknown as { extension: { url: string }[] }
      ).extension.filter(({ url }) => !url.endsWith('/care-policy'));
    },
    'an input without a type': drop('input', 0, 'type'),
    'an input of another type': put(foreign, 'input', 0, 'type'),
    'an input without a value': drop('input', 0, 'valueString'),
    'two business statuses': put([{ text: 'due' }, { text: 'held' }], 'businessStatus'),
    'an element that there is none of': put('2026-11-25', 'dueDate'),
    'a window that is text': put('tomorrow', 'restriction', 'period'),
    'two priorities': put(['routine', 'urgent'], 'priority'),
  }),
  ...list('hold-flag', {
    'no status': drop('status'),
    'a status that is none': put('on', 'status'),
    'no code': drop('code'),
    'a code of others': put(foreign, 'code'),
    'a code that is no hold': put({ ...ours('hold', 'eating'), text: 'No eating' }, 'code'),
    'a code without words': drop('code', 'text'),
    'no subject': drop('subject'),
    'a subject that is a Location': put({ reference: 'Location/l' }, 'subject'),
    'no period': drop('period'),
    'no beginning': drop('period', 'start'),
    'a beginning that is none': put('yesterday', 'period', 'start'),
    'no identifier': drop('identifier'),
    'an identifier of Tasks': put('https://dwellward.example/fhir/due-item', 'identifier', 0, 'system'),
    'an element that there is none of': put('high', 'severity'),
  }),
  ...list('lumen-flag', {
    'no code': drop('code'),
    'a state that is none': put({ ...ours('lumen-state', 'sleepy'), text: 'Sleepy' }, 'code'),
    'a subject that is a Device': put({ reference: 'Device/d' }, 'subject'),
    'an identifier of holds': put('https://dwellward.example/fhir/hold', 'identifier', 0, 'system'),
  }),
  ...list('record-issue', {
    'no status': drop('status'),
    'a status that is none': put('open', 'status'),
    'no code': drop('code'),
    'a code that is none': put(ours('record-issue', 'odd'), 'code'),
    'no severity': drop('severity'),
    'a severity that is none': put('grave', 'severity'),
    'no detail': drop('detail'),
    'no time': drop('identifiedDateTime'),
    'an implicated text': put(['Device/d'], 'implicated'),
  }),
  ...list('due-care-provenance', {
    'no target': drop('target'),
    'no time': drop('recorded'),
    'nobody who did it': drop('agent'),
    'an entity that is no source': put('quotation', 'entity', 0, 'role'),
  }),
  ...list('central-line', {
    'no type': drop('type'),
    'no patient': drop('patient'),
    'no status': drop('status'),
    'a status that is none': put('in', 'status'),
    'a patient that is a Group': put({ reference: 'Group/g' }, 'patient'),
  }),
  ...list('line-lumen', {
    'no name': drop('deviceName'),
    'no line': drop('parent'),
    'another type': put(ours('line-type', 'picc'), 'type'),
  }),
  ...list('line-care-event', {
    'no code': drop('code'),
    'no time': drop('performedDateTime'),
    'an age for a time': (event) => {
      drop('performedDateTime')(event);
      put({ value: 3, unit: 'd', system: 'http://unitsofmeasure.org', code: 'd' }, 'performedAge')(event);
    },
    'no line': drop('focalDevice'),
    'a status that is none': put('done', 'status'),
  }),
  ...list('line-finding', {
    'no code': drop('code'),
    nobody: drop('subject'),
    'no line': drop('focus'),
    'no time': drop('effectiveDateTime'),
    'a status that is none': put('seen', 'status'),
  }),
  ...list('care-policy-plan', {
    'no url': drop('url'),
    'no version': drop('version'),
    'no title': drop('title'),
    'no status': drop('status'),
    'no action': drop('action'),
    'an action that is text': put('flush', 'action'),
  }),
  ...list('care-activity', {
    'no kind': drop('kind'),
    'a kind that asks for nothing': put('Appointment', 'kind'),
    'no code': drop('code'),
    'a code of others': put(foreign, 'code'),
  }),
];
