import type { Bundle, BundleEntry, DetectedIssue, FhirResource, Flag, Task } from 'fhir/r4.js';
import type { Policy } from '@dwellward/policy';
import { identifierSystem } from '@dwellward/profiles';
import { digest } from '../model/digest.js';
import type { AsOf, DueItem, LineCare } from '../model/care.js';
import type { Records } from '../model/record.js';
import { allIssues } from './due-bundle.js';
import { lumenWarnings } from '../lumens/warnings.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { speaker, type Say } from '../words/say.js';
import { detectedIssueOf, flagOf, lumenFlagOf, provenanceOf } from './others.js';
import { issuesNotUnderstood } from './issues-not-understood.js';
import { reconcileTasks } from './reconcile-tasks.js';
import { uuidUrn } from './references.js';
import { isEarlier, saysTheSame } from './same.js';
import { taskOf } from './task.js';

/** What a patient's Tasks, Flags and DetectedIssues are to be brought in step with. */
export interface Reconciliation {
  readonly records: Records;
  readonly cares: readonly LineCare[];
  readonly policy: Policy;
  readonly when: AsOf;
  /** The Tasks, Flags and DetectedIssues of the patient that are on the server; those of others are left alone. */
  readonly existing: readonly FhirResource[];
  /** Of what the resources say to people; English where none is given. */
  readonly language?: Language;
}

/**
 * The difference between what is on the server and what should be, as one FHIR transaction: new resources by
 * conditional create on their identifier, changed ones by an update on their version. Undefined where there is none,
 * so that a second run writes nothing.
 */
export function transactionFor({
  records,
  cares,
  policy,
  when,
  existing,
  language = english,
}: Reconciliation): Bundle | undefined {
  const say = speaker(language, new Calendar(when.zone));
  const entries = [
    ...taskEntries(records, cares, policy, existing, when, say),
    ...flagEntries(cares, existing, when, say),
    ...issueEntries(records, cares, existing, when, say),
  ];
  return entries.length === 0 ? undefined : { resourceType: 'Bundle', type: 'transaction', entry: entries };
}

function taskEntries(
  records: Records,
  cares: readonly LineCare[],
  policy: Policy,
  existing: readonly FhirResource[],
  when: AsOf,
  say: Say,
): BundleEntry[] {
  const wanted = cares.flatMap(({ items }) =>
    items.map((item) => ({ item, task: taskOf(item, policy, when, say) })),
  );
  const tasks = existing.filter((one): one is Task => one.resourceType === 'Task');
  return reconcileTasks(wanted, cares, tasks, when, records.lines, say).flatMap(
    ({ task, existing: before, item }) => {
      const entry = before ? update(task, before) : create(task, identifierSystem.dueItem);
      return item
        ? [entry, provenanceEntry(item, before ? `Task/${before.id}` : (entry.fullUrl ?? ''), when, say)]
        : [entry];
    },
  );
}

function provenanceEntry(item: DueItem, task: string, when: AsOf, say: Say): BundleEntry {
  const provenance = provenanceOf(item, task, when, say);
  const tag = provenance.meta?.tag?.[0];
  return {
    fullUrl: uuidUrn(digest('provenance', item.id)),
    resource: provenance,
    request: {
      method: 'POST',
      url: 'Provenance',
      ifNoneExist: `_tag=${encodeURIComponent(`${tag?.system}|${tag?.code}`)}`,
    },
  };
}

function flagEntries(
  cares: readonly LineCare[],
  existing: readonly FhirResource[],
  when: AsOf,
  say: Say,
): BundleEntry[] {
  const holds = new Map(
    cares.flatMap((care) => care.holds.map((hold) => [hold.id, flagOf(hold, care.patient, say)] as const)),
  );
  const warnings = new Map(
    cares.flatMap((care) =>
      lumenWarnings(care).map((warning) => [warning.id, lumenFlagOf(warning, care.patient, say)] as const),
    ),
  );
  const found = existing.filter((one): one is Flag => one.resourceType === 'Flag');
  const close = (flag: Flag): Flag | undefined => {
    if (flag.status !== 'active') return undefined;
    const end = flag.period?.end ?? when.asOf;
    return { ...flag, status: 'inactive', period: { ...flag.period, end } };
  };
  return [
    ...standing(holds, found, identifierSystem.hold, close),
    ...standing(warnings, found, identifierSystem.lumenWarning, close),
  ];
}

function issueEntries(
  records: Records,
  cares: readonly LineCare[],
  existing: readonly FhirResource[],
  when: AsOf,
  say: Say,
): BundleEntry[] {
  const wanted = new Map(
    [...allIssues(records, cares), ...issuesNotUnderstood(records.notUnderstood)].map((issue) => {
      const resource = detectedIssueOf(issue, when, say);
      return [resource.identifier?.[0]?.value ?? '', resource] as const;
    }),
  );
  const found = existing.filter((one): one is DetectedIssue => one.resourceType === 'DetectedIssue');
  return standing(wanted, found, identifierSystem.recordIssue, (issue) =>
    issue.status === 'cancelled' || issue.status === 'entered-in-error'
      ? undefined
      : { ...issue, status: 'cancelled' },
  );
}

type Standing = Flag | DetectedIssue;

/** Creates what is wanted and not there, brings back what was closed, and closes what is there and not wanted. */
function standing<Kind extends Standing>(
  wanted: ReadonlyMap<string, Kind>,
  existing: readonly Kind[],
  system: string,
  close: (found: Kind) => Kind | undefined,
): BundleEntry[] {
  const entries: BundleEntry[] = [];
  const seen = new Set<string>();
  for (const found of [...existing].sort((a, b) => ((a.id ?? '') < (b.id ?? '') ? -1 : 1))) {
    const id = found.identifier?.find((one) => one.system === system)?.value;
    if (id === undefined) continue;
    const want = wanted.get(id);
    const next = want && !seen.has(id) ? { ...found, ...want, ...keptTime(found) } : close(found);
    seen.add(id);
    if (next && !saysTheSame(found, next)) entries.push(update(next, found));
  }
  for (const [id, resource] of wanted) if (!seen.has(id)) entries.push(create(resource, system));
  return entries;
}

/** When an issue was first seen stays as it was. */
function keptTime(found: Standing): object {
  return found.resourceType === 'DetectedIssue' && found.identifiedDateTime
    ? { identifiedDateTime: found.identifiedDateTime }
    : {};
}

function create(resource: Task | Standing, system: string): BundleEntry {
  const value = resource.identifier?.find((one) => one.system === system)?.value ?? '';
  return {
    fullUrl: uuidUrn(value),
    resource,
    request: {
      method: 'POST',
      url: resource.resourceType,
      ifNoneExist: `identifier=${encodeURIComponent(`${system}|${value}`)}`,
    },
  };
}

function update(resource: Task | Standing, before: Task | Standing): BundleEntry {
  const version = before.meta?.versionId;
  return {
    resource: resource.resourceType === 'Task' ? notBeforeWritten(resource) : resource,
    request: {
      method: 'PUT',
      url: `${before.resourceType}/${before.id}`,
      // A server that gives no versions can't be asked to check one.
      ...(version ? { ifMatch: `W/"${version}"` } : {}),
    },
  };
}

/**
 * A Task that was written by a clock that was ahead: R4 has `lastModified` not before `authoredOn` (invariant inv-1),
 * and servers that hold it to that would refuse every change until our clock has come as far.
 */
function notBeforeWritten(task: Task): Task {
  const { authoredOn, lastModified } = task;
  if (authoredOn === undefined || lastModified === undefined) return task;
  return isEarlier(lastModified, authoredOn) ? { ...task, lastModified: authoredOn } : task;
}
