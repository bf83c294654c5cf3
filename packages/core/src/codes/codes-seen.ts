import type { Ref } from '../model/basics.js';
import type { Records } from '../model/record.js';
import type { ResourceEntry } from '../model/resource-entry.js';
import type { CodeMaps } from '../mapping/code-maps.js';
import { isTranslated, translated } from '../mapping/translate.js';
import { isObject } from '../mapping/json.js';
import { ResourceIndex, type Indexed } from '../record/index-resources.js';
import { IssueList } from '../record/issues.js';
import { saidBy } from '../record/not-understood.js';
import { deviceRefsOf } from '../record/procedure-devices.js';
import { readRecords, type ReadOptions } from '../record/read-records.js';
import type { Reference, Shape } from '../record/shapes.js';
import { shortened } from '../record/shortened.js';
import { toR4 } from '../versions/to-r4.js';
import { conceptsOf, isPublished, type CodedType, type PlacedConcept } from './concepts-of.js';
import { concerns, type CodeSeen, type Standing } from '../model/codes.js';

const types = Object.keys(conceptsOf) as readonly CodedType[];
const mostExamples = 3;

/**
 * Every code that a record has at the elements by which lines are read, with what each is read as: of the patients who have a
 * line, of everybody where no line is known at all, and the rows of nursing charts of anybody. What concerns a line and is not
 * understood comes first, then what is passed over, then what is read; within each by what it would change, then by how
 * often it is there. A text that stands without a code goes by the text.
 *
 * It helps to say what the hospital’s own codes mean (`readCodeMaps`); it reads nothing into them by itself.
 * @param given the record @param options as for `readRecords`: with maps, codes are read as these say
 * @example
 * ```ts
 * codesSeen([{ resource: { resourceType: 'Device', id: 'd', type: { text: 'Hickman' } } }])[0]?.standing; // 'not-understood'
 * ```
 */
export function codesSeen(given: Iterable<ResourceEntry>, options: ReadOptions = {}): readonly CodeSeen[] {
  const entries = [...given];
  const records = readRecords(entries, options);
  const { entries: inR4 } = toR4(entries, options.fhirVersion);
  const index = new ResourceIndex(inR4, new IssueList());
  const mapped = new ResourceIndex(withMaps(inR4, options.maps), new IssueList());
  const seen = new Map<string, Occurrence[]>();
  for (const type of types)
    for (const one of occurrencesOf(type, index, mapped, records))
      seen.set(keyOf(one), [...(seen.get(keyOf(one)) ?? []), one]);
  return [...seen.values()].map(codeOf).sort(byWeight);
}

function withMaps(entries: Iterable<ResourceEntry>, maps: CodeMaps | undefined): Iterable<ResourceEntry> {
  if (maps === undefined) return entries;
  return [...entries].map((entry) => {
    const { resource } = entry;
    if (!isObject(resource) || !isTranslated(resource['resourceType'])) return entry;
    return { ...entry, resource: translated(resource, maps, () => undefined) };
  });
}

/** A concept in one resource. */
interface Occurrence extends Pick<CodeSeen, 'path' | 'concern' | 'standing'> {
  readonly resourceType: CodedType;
  readonly ref: Ref;
  readonly patient?: Ref;
  readonly said: ReturnType<typeof saidBy>;
  readonly readAs?: PlacedConcept['readAs'];
  readonly value?: string;
  readonly onLine: boolean;
}

function occurrencesOf<Type extends CodedType>(
  type: Type,
  index: ResourceIndex,
  mapped: ResourceIndex,
  records: Records,
): Occurrence[] {
  const patients = new Set(records.lines.map(({ patient }) => patient.ref));
  const lines = new Set(records.lines.flatMap(({ ref, lumens }) => [ref, ...lumens.map((one) => one.ref)]));
  const unclear = unclearIn(records);
  const read = conceptsOf[type] as (
    value: Shape<Type>,
    onLine: boolean,
    mapped: Shape<Type>,
  ) => readonly PlacedConcept[];
  return index.all(type).flatMap((one) => {
    const { ref, value } = one;
    const onLine = devicesOf(type, one, index).some((device) => lines.has(device));
    const { subject, patient } = value as { subject?: Reference; patient?: Reference };
    const whose = index.nameOf(subject ?? patient, ref);
    const inOurs = mapped.get(type, ref)?.value ?? value;
    const own = read(value, onLine, inOurs);
    const ours = read(inOurs, onLine, inOurs);
    const concerned =
      records.lines.length === 0 ||
      onLine ||
      (whose !== undefined && patients.has(whose)) ||
      type === 'Medication';
    return own.flatMap((placed, at) => {
      const said = saidBy(placed.concept);
      const { readAs } = sameElement(ours, placed, at) ?? placed;
      const standing = standingOf(readAs, unclear.has(placeKey(ref, placed.path, said)));
      if (standing !== 'not-understood' && !concerned && !isChartRow(placed)) return [];
      return [
        {
          ...{ path: placed.path, concern: placed.concern, resourceType: type, ref, said, standing, onLine },
          ...(whose === undefined ? {} : { patient: whose }),
          ...(readAs === undefined ? {} : { readAs }),
          ...(placed.value === undefined ? {} : { value: placed.value }),
        },
      ];
    });
  });
}

/** The same element after mapping: a value that was a text may have become a concept of its own. */
function sameElement(
  ours: readonly PlacedConcept[],
  { path }: PlacedConcept,
  at: number,
): PlacedConcept | undefined {
  const there = ours[at];
  return there?.path === path ? there : ours.find((one) => one.path === path);
}

/** A row of a nursing chart has no code of a published system. */
function isChartRow({ concern, concept, readAs }: PlacedConcept): boolean {
  return concern === 'finding' && readAs === undefined && !isPublished(concept);
}

function standingOf(readAs: PlacedConcept['readAs'], unclear: boolean): Standing {
  if (unclear) return 'not-understood';
  return readAs === undefined ? 'passed-over' : 'read';
}

/** What the reading says that it did not understand: by resource, element and code. */
function unclearIn({ notUnderstood }: Records): ReadonlySet<string> {
  return new Set(
    notUnderstood.flatMap(({ path, system, code, text, patients }) =>
      patients.flatMap(({ resources }) =>
        resources.map((ref) => placeKey(ref, path, { system, code, text })),
      ),
    ),
  );
}

function placeKey(ref: Ref, path: string, { system, code, text }: ReturnType<typeof saidBy>): string {
  const short = (one: string | undefined) => (one === undefined ? '' : shortened(one));
  return JSON.stringify([ref, path, short(system), short(code), code === undefined ? short(text) : '']);
}

function devicesOf<Type extends CodedType>(
  type: Type,
  one: Indexed<Type>,
  index: ResourceIndex,
): readonly Ref[] {
  if (type === 'Procedure') return deviceRefsOf(one as Indexed<'Procedure'>, index);
  const { parent, focus, device, supportingInfo } = one.value as {
    parent?: Reference;
    focus?: readonly Reference[];
    device?: Reference | readonly Reference[];
    supportingInfo?: readonly Reference[];
  };
  return [parent, ...(focus ?? []), ...[device].flat(), ...(supportingInfo ?? [])].flatMap(
    (reference) => index.nameOf(reference, one.ref) ?? [],
  );
}

function keyOf({ path, said: { system, code, text } }: Occurrence): string {
  return JSON.stringify([path, system, code, code === undefined ? text : '']);
}

function codeOf(all: readonly Occurrence[]): CodeSeen {
  const [{ resourceType, path, concern, said }] = all as [Occurrence, ...Occurrence[]];
  // Withdrawn, or of a patient without a line, the same code is passed over: what it is elsewhere counts.
  const standing = (['not-understood', 'read'] as const).find((one) =>
    all.some((other) => other.standing === one),
  );
  const readAs = standing === 'read' ? all.find((one) => one.readAs !== undefined)?.readAs : undefined;
  const refs = [...new Set(all.map(({ ref }) => ref))].sort();
  const text = all.map((one) => one.said.text).find((one) => one !== undefined);
  const values = [...new Set(all.flatMap(({ value }) => value ?? []))].sort();
  return {
    resourceType,
    path,
    ...(said.system === undefined ? {} : { system: said.system }),
    ...(said.code === undefined ? {} : { code: said.code }),
    ...(text === undefined ? {} : { text }),
    standing: standing ?? 'passed-over',
    concern,
    ...(readAs === undefined ? {} : { readAs }),
    count: refs.length,
    patients: new Set(all.flatMap(({ patient }) => patient ?? [])).size,
    onLine: all.some(({ onLine }) => onLine),
    examples: refs.slice(0, mostExamples),
    values: values.slice(0, mostExamples),
  };
}

const standings: readonly Standing[] = ['not-understood', 'passed-over', 'read'];

function byWeight(a: CodeSeen, b: CodeSeen): number {
  return (
    standings.indexOf(a.standing) - standings.indexOf(b.standing) ||
    Number(b.onLine) - Number(a.onLine) ||
    concerns.indexOf(a.concern) - concerns.indexOf(b.concern) ||
    b.count - a.count ||
    (nameOf(a) < nameOf(b) ? -1 : 1)
  );
}

const nameOf = ({ path, system = '', code = '', text = '' }: CodeSeen) =>
  JSON.stringify([path, system, code, text]);
