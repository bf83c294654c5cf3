import type { Bundle, BundleEntry, DetectedIssue, FhirResource, Flag, Identifier, Task } from 'fhir/r4.js';
import type { Policy } from '@dwellward/policy';
import { identifierSystem } from '@dwellward/profiles';
import { digest } from '../model/digest.js';
import type { AsOf, DueItem, LineCare } from '../model/care.js';
import type { RecordIssue, Records } from '../model/record.js';
import { allIssues } from './due-bundle.js';
import { lumenWarnings } from '../lumens/warnings.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { speaker, type Say } from '../words/say.js';
import { detectedIssueOf, flagOf, issueId, lumenFlagOf, provenanceOf } from './others.js';
import { issuesNotUnderstood } from './issues-not-understood.js';
import { withoutLinesNotComputed } from './left-alone.js';
import { Met } from './met.js';
import {
  carePolicies,
  closedHereMark,
  ownIdentity,
  policiesOf,
  policyKey,
  withOwnExtensions,
  withPolicies,
  withProfile,
  withWorkedOut,
  workedOutIn,
} from './own.js';
import { afterPeople } from './peoples-word.js';
import { reconcileTasks, type TaskChange } from './reconcile-tasks.js';
import { uuidUrn } from './references.js';
import { isEarlier, saysTheSame } from './same.js';
import { placesOf, taskOf } from './task.js';

/** What a patient's Tasks, Flags and DetectedIssues are to be brought in step with. */
export interface Reconciliation {
  readonly records: Records;
  readonly cares: readonly LineCare[];
  readonly policy: Policy;
  readonly when: AsOf;
  /** The Tasks, Flags and DetectedIssues of the patient that are on the server; those of others are left alone. */
  readonly existing: readonly FhirResource[];
  /**
   * Policies by which others keep the same patient, each as `policyKey` names it. What they ask for and what is asked for
   * here is then both kept: the earlier time stands, and nothing is closed that they have written. None where absent.
   */
  readonly contested?: ReadonlySet<string>;
  /** Of what the resources say to people; English where none is given. */
  readonly language?: Language;
}

/**
 * The difference between what is on the server and what should be, as one FHIR transaction: new resources by
 * conditional create on their identifier, changed ones by an update on their version. Undefined where there is none,
 * so that a second run writes nothing.
 * @example
 * ```ts
 * transactionFor({ records, cares, policy, when, existing: [] })?.type; // 'transaction'
 * ```
 */
export function transactionFor(given: Reconciliation): Bundle | undefined {
  const { records, cares, policy, when, contested = new Set(), language = english } = given;
  const say = speaker(language, new Calendar(when.zone));
  const { lines } = records;
  const said = new Set(allIssues(records, cares).map(issueId));
  const existing = withoutLinesNotComputed(given.existing, cares, lines, ({ resourceType, ...one }) =>
    resourceType === 'DetectedIssue' && 'identifier' in one
      ? (one.identifier as Identifier[]).some(({ value = '' }) => said.has(value))
      : false,
  );
  const tasks = existing.filter(
    (one): one is Task => one.resourceType === 'Task' && ownIdentity(one) !== undefined,
  );
  const met = new Met(cares, lines, tasks, say);
  const after = afterPeople({ lines, cares, policy, when, tasks, met, say });
  const places = placesOf(lines);
  const wanted = after.items.map((item) => ({
    item,
    task: taskOf(item, policy, when, say, places.get(item.line)),
  }));
  const changes = reconcileTasks(wanted, tasks, { cares, lines, met, when, say, contested });
  const ours = carePolicies(policy, when);
  const issues = [
    ...allIssues(records, cares),
    ...issuesNotUnderstood(records.notUnderstood),
    ...after.issues,
    ...twoPolicies(contested, tasks, ours),
  ];
  const standing = new Standings(existing, contested, ours);
  const entries = [
    ...changes.flatMap((change) => taskEntries(change, ours, when, say)),
    ...flagEntries(cares, standing, when, say),
    ...issueEntries(issues, standing, when, say),
  ];
  return entries.length === 0 ? undefined : { resourceType: 'Bundle', type: 'transaction', entry: entries };
}

function taskEntries(
  { task, existing: before, item }: TaskChange,
  ours: readonly string[],
  when: AsOf,
  say: Say,
): BundleEntry[] {
  const entry = before ? update(withPolicies(task, ours), before) : create(task, identifierSystem.dueItem);
  return item
    ? [entry, provenanceEntry(item, before ? `Task/${before.id}` : (entry.fullUrl ?? ''), when, say)]
    : [entry];
}

/** What is wrong where another policy keeps the Tasks of the patient, too; the same by whichever of the two it is told. */
function twoPolicies(
  contested: ReadonlySet<string>,
  tasks: readonly Task[],
  ours: readonly string[],
): RecordIssue[] {
  const [first] = tasks;
  if (!first || contested.size === 0) return [];
  const patient = first.for?.reference;
  return [
    {
      code: 'two-policies',
      severity: 'high',
      resource: patient ?? `Task/${first.id}`,
      path: 'Task.extension',
      sentence: { code: 'kept-by-two-policies', policies: [...contested, policyKey(ours)].sort() },
      ...(patient ? { patient } : {}),
      related: [],
    },
  ];
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

function flagEntries(cares: readonly LineCare[], standing: Standings, when: AsOf, say: Say): BundleEntry[] {
  const holds = new Map(
    cares.flatMap((care) => care.holds.map((hold) => [hold.id, flagOf(hold, care.patient, say)] as const)),
  );
  const warnings = new Map(
    cares.flatMap((care) =>
      lumenWarnings(care).map((warning) => [warning.id, lumenFlagOf(warning, care.patient, say)] as const),
    ),
  );
  const close = (flag: Flag): Flag | undefined => {
    if (flag.status !== 'active') return undefined;
    const end = flag.period?.end ?? when.asOf;
    return withWorkedOut({ ...flag, status: 'inactive', period: { ...flag.period, end } }, closedHereMark);
  };
  return [
    ...standing.entries('Flag', holds, identifierSystem.hold, close),
    ...standing.entries('Flag', warnings, identifierSystem.lumenWarning, close),
  ];
}

function issueEntries(
  issues: readonly RecordIssue[],
  standing: Standings,
  when: AsOf,
  say: Say,
): BundleEntry[] {
  const wanted = new Map(
    issues.map((issue) => {
      const resource = detectedIssueOf(issue, when, say);
      return [resource.identifier?.[0]?.value ?? '', resource] as const;
    }),
  );
  return standing.entries('DetectedIssue', wanted, identifierSystem.recordIssue, (issue) =>
    issue.status === 'cancelled' || issue.status === 'entered-in-error'
      ? undefined
      : withWorkedOut({ ...issue, status: 'cancelled' }, closedHereMark),
  );
}

type Standing = Flag | DetectedIssue;

/** The Flags and DetectedIssues on a server, and what is to become of them. */
class Standings {
  readonly #existing: readonly FhirResource[];
  readonly #contested: ReadonlySet<string>;
  readonly #ours: readonly string[];

  constructor(existing: readonly FhirResource[], contested: ReadonlySet<string>, ours: readonly string[]) {
    this.#existing = existing;
    this.#contested = contested;
    this.#ours = ours;
  }

  /**
   * Creates what is wanted and not there, brings back what was closed here, and closes what is there and not wanted.
   * What a person has closed or edited stays as it is for as long as the facts are the same; what another policy has
   * written stays for as long as it is open.
   */
  entries<Kind extends Standing>(
    type: Kind['resourceType'],
    wanted: ReadonlyMap<string, Kind>,
    system: string,
    close: (found: Kind) => Kind | undefined,
  ): BundleEntry[] {
    const entries: BundleEntry[] = [];
    const seen = new Set<string>();
    const all = this.#existing.filter((one): one is Kind => one.resourceType === type);
    for (const found of all.sort((a, b) => ((a.id ?? '') < (b.id ?? '') ? -1 : 1))) {
      const id = found.identifier?.find((one) => one.system === system)?.value;
      if (id === undefined) continue;
      const want = wanted.get(id);
      const next = want && !seen.has(id) ? standingAs(found, want) : close(found);
      seen.add(id);
      if (next && !saysTheSame(found, next) && !this.#isTheirs(found))
        entries.push(update(withPolicies(next, this.#ours), found));
    }
    for (const [id, resource] of wanted)
      if (!seen.has(id)) entries.push(create(withPolicies(resource, this.#ours), system));
    return entries;
  }

  /** Open, and last written by another policy that keeps the same patient. */
  #isTheirs(found: Standing): boolean {
    const open = found.status === 'active' || found.status === 'final';
    return open && this.#contested.has(policyKey(policiesOf(found)));
  }
}

function standingAs<Kind extends Standing>(found: Kind, want: Kind): Kind {
  if (workedOutIn(found) === workedOutIn(want)) return found;
  const next = {
    ...found,
    ...want,
    ...withOwnExtensions(found.extension, want.extension),
    ...keptTime(found),
  };
  return found.meta === undefined
    ? next
    : withProfile({ ...next, meta: found.meta }, ...(want.meta?.profile ?? []));
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
