import { codeSystem, identifierSystem } from '@dwellward/profiles';
import type { Bundle, BundleEntry, Resource, Task } from 'fhir/r4.js';
import type { Slice } from './care.js';
import type { Doubt } from './fhir-server/index.js';
import { isOpenTask, recordTypes } from './slice.js';
import { groups } from './write.js';

/** More than this share of the unit’s open Tasks closed in one round is held back: a fifth. common practice, no source. */
const massShare = 0.2;
/** Fewer closings than this are no mass, however small the unit. common practice, no source. */
const massAtLeast = 6;

/** Closings for which the record shows a reason; all others rest on something that is no longer found in it. */
const shownByRecord: ReadonlySet<string> = new Set([
  'line-removed',
  'line-inserted',
  'plan-withdrawn',
  'patient-deceased',
  'duplicate',
]);

/** Types of which the record of a patient with Tasks has some. */
const neverAllGone = ['Device', 'Procedure'] as const;

/** A patient whose Tasks were not closed though the record as it was read asks for it. */
export interface Held {
  /** `Patient/12`. */
  readonly patient: string;
  readonly closings: number;
  readonly because:
    /** More than a fifth of the unit’s open Tasks would be closed in one round. */
    | 'mass-closing'
    /** The patient’s record, or a part of it, is empty that was not. */
    | 'emptied-record'
    /** The server says, or its answers show, that something was left out. */
    | 'incomplete-reading';
  /** True where a later look can’t settle it: only the data, or a person’s word. */
  readonly needsWord: boolean;
  readonly detail: string;
}

/** What may be written of a patient’s difference. */
export interface Review {
  readonly bundle: Bundle | undefined;
  /** True where the patient waits until everybody of the round was looked at. */
  readonly aside: boolean;
}

/** What is known of a patient from the last look. */
interface Known {
  readonly openTasks: number;
  /** Resources in the record, by type. */
  readonly counts: ReadonlyMap<string, number>;
}

interface Aside {
  readonly tasks: readonly string[];
  /** Types that the record had and has no longer. */
  readonly emptied: readonly string[];
}

/**
 * Stops the mass closing of Tasks that follows from a record that was read wrongly: a scope that was lost answers like a
 * record in which nothing stands. A closing that rests on something no longer found in the record waits until everybody
 * of the round was looked at. Where they are too many, or a record is suddenly empty, nothing of these patients is
 * written, and a look in a later round has to agree. Where a type that every record has is empty for the whole unit no
 * look is evidence: that needs the data back, or a person’s word. A reading that is known to be incomplete closes nothing.
 */
export class Brake {
  readonly #accepted: ReadonlySet<string>;
  readonly #word: boolean;
  readonly #known = new Map<string, Known>();
  /** Asked in an earlier round: which Tasks would be closed. */
  readonly #asked = new Map<string, ReadonlySet<string>>();
  readonly #aside = new Map<string, Aside>();
  readonly #held = new Map<string, Held>();

  /**
   * @param accepted types of which the server is known to leave something out; their doubts count for nothing.
   * @param word a person’s word that mass closings are right.
   */
  constructor(accepted: readonly string[], word: boolean) {
    this.#accepted = new Set(accepted);
    this.#word = word;
  }

  get held(): readonly Held[] {
    return [...this.#held.values()];
  }

  /** Ids of the patients whose closings a look in the next round can settle. */
  get waiting(): string[] {
    return this.held.filter(({ needsWord }) => !needsWord).map(({ patient }) => idOf(patient));
  }

  /** Ids of all patients of whom something is held back. */
  get heldIds(): string[] {
    return this.held.map(({ patient }) => idOf(patient));
  }

  /** Open Tasks of ours in the unit, as far as they were read. */
  get openTasks(): number {
    return [...this.#known.values()].reduce((sum, { openTasks }) => sum + openTasks, 0);
  }

  /** A round begins: who was put aside in one that came to no end is looked at anew. */
  begin(): void {
    this.#aside.clear();
  }

  /**
   * Looks over a difference before it is written.
   * @param agreed true where the round has decided that this patient’s closings are right.
   */
  review(slice: Slice, bundle: Bundle | undefined, agreed: boolean): Review {
    const { patient } = slice;
    const before = this.#known.get(patient);
    const counts = countsOf(slice.record.map(({ resource }) => resource));
    const open = openTasksOf(slice);
    this.#aside.delete(patient);
    const moved = movedIn(bundle, slice.existing);
    const closings = closingsIn(bundle, open, slice.elsewhere ?? new Set(), moved);
    const doubts = (slice.doubts ?? []).filter((doubt) => this.#counts(doubt));
    if (doubts.length > 0) {
      this.#known.set(patient, { openTasks: open.size, counts: before?.counts ?? counts });
      return { bundle: this.#withoutClosings(patient, bundle, doubts, moved), aside: false };
    }
    if (closings.length === 0 || agreed || this.#word) {
      this.#settle(patient);
      this.#known.set(patient, { openTasks: open.size, counts });
      return { bundle, aside: false };
    }
    this.#known.set(patient, { openTasks: open.size, counts: before?.counts ?? counts });
    const emptied = emptiedPart(slice, counts, before?.counts);
    this.#aside.set(patient, { tasks: closings, emptied });
    return { bundle: undefined, aside: true };
  }

  /** Decides on everybody who was put aside in this round. @returns ids of the patients whose closings are right. */
  decide(): string[] {
    const all = [...this.#aside].sort(([a], [b]) => (a < b ? -1 : 1));
    const closings = all.reduce((sum, [, { tasks }]) => sum + tasks.length, 0);
    const mass = all.length > 1 && closings >= massAtLeast && closings > massShare * this.openTasks;
    const gone = neverAllGone.filter(
      (type) => all.some(([, { emptied }]) => emptied.includes(type)) && this.#nobodyHas(type, all),
    );
    const right: string[] = [];
    for (const [patient, { tasks, emptied }] of all) {
      const asked = this.#asked.get(patient);
      const agreed = asked !== undefined && tasks.every((task) => asked.has(task));
      const suspect = mass || emptied.length > 0;
      const needsWord = suspect && gone.length > 0;
      if (!suspect || (agreed && !needsWord)) {
        this.#settle(patient);
        right.push(idOf(patient));
        continue;
      }
      this.#asked.set(patient, new Set(tasks));
      this.#held.set(patient, {
        patient,
        closings: tasks.length,
        because: emptied.length === 0 ? 'mass-closing' : 'emptied-record',
        needsWord,
        detail: detailOf(emptied, gone, closings, this.openTasks),
      });
    }
    this.#aside.clear();
    return right;
  }

  #settle(patient: string): void {
    this.#asked.delete(patient);
    this.#held.delete(patient);
  }

  #counts({ code, resourceType }: Doubt): boolean {
    return code !== 'hint' && !this.#accepted.has(resourceType);
  }

  #withoutClosings(
    patient: string,
    bundle: Bundle | undefined,
    doubts: readonly Doubt[],
    moved: ReadonlySet<string>,
  ): Bundle | undefined {
    const ends = (entry: BundleEntry) => closes(entry) || moved.has(entry.request?.url ?? '');
    const kept = groups(bundle?.entry ?? []).filter((group) => !group.some(ends));
    const entry = kept.flat();
    const closings = (bundle?.entry ?? []).filter(ends).length;
    this.#held.set(patient, {
      patient,
      closings,
      because: 'incomplete-reading',
      needsWord: true,
      detail: doubts
        .map(({ detail }) => detail)
        .join(' ')
        .slice(0, 500),
    });
    return bundle === undefined || entry.length === 0 ? undefined : { ...bundle, entry };
  }

  /** Whether no record of the unit has a resource of this type: as now read of those aside, as last read of the others. */
  #nobodyHas(type: string, aside: readonly (readonly [string, Aside])[]): boolean {
    const now = new Map(aside);
    return [...this.#known].every(([patient, { openTasks, counts }]) => {
      const emptied = now.get(patient)?.emptied ?? [];
      return openTasks === 0 || (counts.get(type) ?? 0) === 0 || emptied.includes(type);
    });
  }
}

function detailOf(
  emptied: readonly string[],
  gone: readonly string[],
  closings: number,
  open: number,
): string {
  const what =
    emptied.length === 0
      ? `${closings} of the unit’s ${open} open Tasks would be closed in one round.`
      : `The record has no ${emptied.join(' and no ')} any more.`;
  const whole = gone.length > 0 ? ` Nobody’s record has any ${gone.join(' or ')}.` : '';
  return `${what}${whole}`;
}

function idOf(patient: string): string {
  return patient.slice('Patient/'.length);
}

/** Types that a patient’s record had and has no longer. */
function emptiedPart(
  { existing }: Slice,
  counts: ReadonlyMap<string, number>,
  before: ReadonlyMap<string, number> | undefined,
): string[] {
  const had = new Set([...(before ?? [])].filter(([, count]) => count > 0).map(([type]) => type));
  // Our own Tasks tell what there was before this process started.
  for (const task of existing) for (const type of neverAllGone) if (pointsTo(task, type)) had.add(type);
  return [...had].filter((type) => (counts.get(type) ?? 0) === 0).sort();
}

function pointsTo(resource: Resource, type: string): boolean {
  const { focus, output } = resource as Task;
  const references = [focus?.reference, ...(output ?? []).map((one) => one.valueReference?.reference)];
  return references.some((reference) => reference?.startsWith(`${type}/`));
}

function countsOf(record: readonly Resource[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { resourceType } of record)
    if ((recordTypes as readonly string[]).includes(resourceType))
      counts.set(resourceType, (counts.get(resourceType) ?? 0) + 1);
  return counts;
}

function openTasksOf({ existing }: Slice): ReadonlySet<string> {
  return new Set(existing.filter(isOpenTask).map(({ id }) => `Task/${id}`));
}

/**
 * Tasks that would take another identity: the event that they counted from is no longer found. It is no closing, but
 * rests on the same, and would have the whole unit’s care due at once.
 */
function movedIn(bundle: Bundle | undefined, existing: readonly Resource[]): ReadonlySet<string> {
  const identityOf = (task: Resource | undefined) =>
    (task as Task | undefined)?.identifier?.find(({ system }) => system === identifierSystem.dueItem)?.value;
  const before = new Map(existing.filter(isOpenTask).map((task) => [`Task/${task.id}`, identityOf(task)]));
  return new Set(
    (bundle?.entry ?? []).flatMap(({ request, resource }) => {
      const url = request?.url ?? '';
      return before.has(url) && resource !== undefined && identityOf(resource) !== before.get(url)
        ? [url]
        : [];
    }),
  );
}

/** Open Tasks that would be cancelled, or take another identity, because something is no longer found. */
function closingsIn(
  bundle: Bundle | undefined,
  open: ReadonlySet<string>,
  elsewhere: ReadonlySet<string>,
  moved: ReadonlySet<string>,
): string[] {
  return (bundle?.entry ?? []).flatMap(({ request, resource }) => {
    const url = request?.url ?? '';
    if (!open.has(url)) return [];
    if (moved.has(url)) return [url];
    const task = resource as Task | undefined;
    if (task !== undefined && (task.status !== 'cancelled' || isShown(task, elsewhere))) return [];
    return [url];
  });
}

function isShown({ statusReason, focus }: Task, elsewhere: ReadonlySet<string>): boolean {
  const code = statusReason?.coding?.find(({ system }) => system === codeSystem.closingReason)?.code;
  return (
    shownByRecord.has(code ?? '') || elsewhere.has((focus?.reference ?? '').split('/').slice(-2).join('/'))
  );
}

/** Whether an entry ends something that stands because the record no longer asks for it; what was done is on record. */
function closes({ resource, request }: BundleEntry): boolean {
  if (request?.method === 'DELETE') return true;
  const status = (resource as { status?: string } | undefined)?.status ?? '';
  return request?.method === 'PUT' && (status === 'cancelled' || status === 'inactive');
}
