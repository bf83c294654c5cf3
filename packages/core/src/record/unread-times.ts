import type { ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { Ref } from '../model/record.js';
import { shortened } from './shortened.js';
import type { Reference, ShapeName } from './shapes.js';
import { readTime, yearsOfBirth, yearsOfCare } from './times.js';

/** The elements that hold a time, of every resource that is read; `[]` stands for each of a list. */
const timeElements: Readonly<Record<ShapeName, readonly string[]>> = {
  Patient: ['birthDate', 'deceasedDateTime'],
  Device: [],
  Procedure: ['performedDateTime', 'performedPeriod.start', 'performedPeriod.end'],
  Observation: ['effectiveDateTime', 'effectiveInstant', 'effectivePeriod.start', 'effectivePeriod.end'],
  MedicationAdministration: ['effectiveDateTime', 'effectivePeriod.start', 'effectivePeriod.end'],
  Medication: [],
  Encounter: ['period.start', 'period.end', 'location[].period.start', 'location[].period.end'],
  Location: [],
  BodyStructure: [],
  DeviceUseStatement: [
    'timingTiming.repeat.boundsPeriod.start',
    'timingTiming.repeat.boundsPeriod.end',
    'timingDateTime',
    'timingPeriod.start',
    'timingPeriod.end',
  ],
  ServiceRequest: ['occurrenceDateTime', 'occurrencePeriod.start', 'occurrencePeriod.end', 'authoredOn'],
  Specimen: [
    'collection.collectedDateTime',
    'collection.collectedPeriod.start',
    'collection.collectedPeriod.end',
  ],
  Appointment: ['start', 'created'],
  // An entry whose time can’t be read counts as one that always was: nothing is lost with it.
  AllergyIntolerance: [],
  Condition: [],
  Flag: [],
};

/**
 * Tells of every time that is given and can’t be used, of the patients who have a line: who reads the time by itself
 * only sees that there is none.
 */
export function reportTimes(index: ResourceIndex, patients: ReadonlySet<Ref>, issues: IssueList): void {
  for (const type of Object.keys(timeElements) as ShapeName[]) {
    if (timeElements[type].length === 0) continue;
    for (const { ref, value } of index.all(type)) {
      const subject =
        type === 'Patient' ? ref : index.nameOf((value as { subject?: Reference }).subject, ref);
      if (subject !== undefined && !patients.has(subject)) continue;
      for (const element of timeElements[type]) {
        for (const [path, given] of textsAt(value, element)) {
          const reading = readTime(given, type === 'Patient' ? yearsOfBirth : yearsOfCare);
          if ('time' in reading) continue;
          issues.add(
            'unreadable',
            ref,
            `${type}.${path}`,
            { code: 'time-not-used', given: shortened(given), reason: reading.reason },
            { severity: 'high', ...(subject === undefined ? {} : { patient: subject }) },
          );
        }
      }
    }
  }
}

function* textsAt(value: unknown, element: string, at = ''): Generator<[path: string, text: string]> {
  if (element === '') {
    if (typeof value === 'string' && value.trim() !== '') yield [at, value];
    return;
  }
  if (typeof value !== 'object' || value === null) return;
  const [, name = '', list, rest = ''] = /^([A-Za-z]+)(\[\])?\.?(.*)$/.exec(element) ?? [];
  const part = (value as Record<string, unknown>)[name];
  const path = at === '' ? name : `${at}.${name}`;
  if (list === undefined) yield* textsAt(part, rest, path);
  else if (Array.isArray(part))
    for (const [i, one] of part.entries()) yield* textsAt(one, rest, `${path}[${i}]`);
}
