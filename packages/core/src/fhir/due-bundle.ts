import type { Bundle, BundleEntry, FhirResource } from 'fhir/r4.js';
import type { Policy } from '@dwellward/policy';
import { digest } from '../model/digest.js';
import type { AsOf, LineCare } from '../model/care.js';
import type { RecordIssue, Records } from '../model/record.js';
import { lumenWarnings } from '../lumens/warnings.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { speaker, type Say } from '../words/say.js';
import { detectedIssueOf, flagOf, issueId, lumenFlagOf, provenanceOf } from './others.js';
import { uuidUrn } from './references.js';
import { issuesNotUnderstood } from './issues-not-understood.js';
import { placesOf, taskOf } from './task.js';

/**
 * Every issue of the record and of the lines, each once.
 * @example
 * ```ts
 * allIssues(records, cares).length >= records.issues.length; // true
 * ```
 */
export function allIssues(records: Records, cares: readonly LineCare[]): RecordIssue[] {
  const byId = new Map(
    [...records.issues, ...cares.flatMap(({ issues }) => issues)].map((issue) => [issueId(issue), issue]),
  );
  return [...byId].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, issue]) => issue);
}

/**
 * Due care as one FHIR Bundle (collection): a Task for each open item with its Provenance, a Flag for each hold and
 * for each damaged or blocked lumen, a DetectedIssue for each contradiction. Entries are in the order of their identities.
 * @param language of what the resources say to people; English where none is given. Identities are the same in each.
 * @example
 * ```ts
 * dueBundle(records, cares, policy, when).entry?.some(({ resource }) => resource?.resourceType === 'Task'); // true
 * ```
 */
export function dueBundle(
  records: Records,
  cares: readonly LineCare[],
  policy: Policy,
  when: AsOf,
  language: Language = english,
): Bundle {
  const say = speaker(language, new Calendar(when.zone));
  const entry = (identity: string, resource: FhirResource): BundleEntry => ({
    fullUrl: uuidUrn(identity),
    resource,
  });
  const places = placesOf(records.lines);
  const tasks = cares.flatMap(({ items }) =>
    items.flatMap((item) => {
      const task = entry(item.id, taskOf(item, policy, when, say, places.get(item.line)));
      return [task, entry(digest('provenance', item.id), provenanceOf(item, task.fullUrl ?? '', when, say))];
    }),
  );
  const flags = flagsOf(cares, say).map(([id, flag]) => entry(id, flag));
  const issues = issuesOf(records, cares, when, say).map(([id, issue]) => entry(id, issue));
  const entries = [...tasks, ...flags, ...issues];
  return {
    resourceType: 'Bundle',
    type: 'collection',
    timestamp: when.asOf,
    // FHIR’s JSON knows no empty arrays.
    ...(entries.length > 0 ? { entry: entries } : {}),
  };
}

/**
 * The same Tasks, Flags and DetectedIssues as single resources, for NDJSON: each has the `id` that its `urn:uuid:` in
 * the Bundle has. There is no Provenance: it says of each Task once more what the Task was computed from.
 * @param language of what the resources say to people; English where none is given. Identities are the same in each.
 * @example
 * ```ts
 * dueResources(records, cares, policy, when).every(({ id }) => id !== undefined); // true
 * ```
 */
export function dueResources(
  records: Records,
  cares: readonly LineCare[],
  policy: Policy,
  when: AsOf,
  language: Language = english,
): FhirResource[] {
  const say = speaker(language, new Calendar(when.zone));
  const places = placesOf(records.lines);
  const tasks = cares.flatMap(({ items }) =>
    items.map((item): Identified => [item.id, taskOf(item, policy, when, say, places.get(item.line))]),
  );
  return [...tasks, ...flagsOf(cares, say), ...issuesOf(records, cares, when, say)].map(withId);
}

/** A resource, and what its identity is made from. */
type Identified = readonly [identity: string, resource: FhirResource];

function flagsOf(cares: readonly LineCare[], say: Say): Identified[] {
  return cares.flatMap((care) => [
    ...care.holds.map((hold): Identified => [hold.id, flagOf(hold, care.patient, say)]),
    ...lumenWarnings(care).map((warning): Identified => [
      warning.id,
      lumenFlagOf(warning, care.patient, say),
    ]),
  ]);
}

function issuesOf(records: Records, cares: readonly LineCare[], when: AsOf, say: Say): Identified[] {
  return [...allIssues(records, cares), ...issuesNotUnderstood(records.notUnderstood)].map((issue) => [
    issueId(issue),
    detectedIssueOf(issue, when, say),
  ]);
}

function withId([identity, { resourceType, ...rest }]: Identified): FhirResource {
  return { resourceType, id: uuidUrn(identity).slice('urn:uuid:'.length), ...rest } as FhirResource;
}
