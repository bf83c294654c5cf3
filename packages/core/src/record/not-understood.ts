import type { NotUnderstood, OtherBusiness, Ref } from '../model/record.js';
import { shortened } from './shortened.js';
import type { Codeable } from './shapes.js';
import { addTo } from '../model/gather.js';

/** One resource, of which one code, value or status was not understood. */
export interface Unclear {
  readonly ref: Ref;
  readonly patient?: Ref | undefined;
  readonly resourceType: NotUnderstood['resourceType'];
  /** FHIRPath of the element. */
  readonly path: string;
  readonly system?: string | undefined;
  readonly code?: string | undefined;
  readonly text?: string | undefined;
  /** Whether it points to a line or a lumen by itself. */
  readonly onLine: boolean;
}

const mostExamples = 3;

/**
 * Gathers what was not understood by kind of resource, element, system, code and text: what points to a line first, then
 * what there is most of.
 */
export function gathered(unclear: readonly Unclear[]): NotUnderstood[] {
  const groups = new Map<string, Unclear[]>();
  for (const one of unclear) {
    const key = JSON.stringify([
      one.path,
      one.system ?? '',
      one.code ?? '',
      one.code === undefined ? (one.text ?? '') : '',
    ]);
    addTo(groups, key, one);
  }
  return [...groups]
    .map(([key, all]) => ({ key, group: groupOf(all) }))
    .sort(
      (a, b) =>
        Number(b.group.onLine) - Number(a.group.onLine) ||
        b.group.count - a.group.count ||
        (a.key < b.key ? -1 : 1),
    )
    .map(({ group }) => group);
}

function groupOf(all: readonly Unclear[]): NotUnderstood {
  const sorted = [...all].sort((a, b) => (a.ref < b.ref ? -1 : 1));
  const [{ resourceType, path, system, code }] = sorted as [Unclear, ...Unclear[]];
  const text = sorted.map((one) => one.text).find((one) => one !== undefined);
  const byPatient = new Map<Ref | undefined, Set<Ref>>();
  for (const { patient, ref } of sorted)
    byPatient.set(patient, (byPatient.get(patient) ?? new Set()).add(ref));
  const refs = [...new Set(sorted.map(({ ref }) => ref))];
  return {
    resourceType,
    path,
    ...(system === undefined ? {} : { system: shortened(system) }),
    ...(code === undefined ? {} : { code: shortened(code) }),
    ...(text === undefined ? {} : { text: shortened(text) }),
    onLine: sorted.some(({ onLine }) => onLine),
    count: refs.length,
    examples: refs.slice(0, mostExamples),
    patients: [...byPatient]
      .map(([patient, own]) => ({ ...(patient === undefined ? {} : { patient }), resources: [...own] }))
      .sort((a, b) => ((a.patient ?? '') < (b.patient ?? '') ? -1 : 1)),
  };
}

/** What a concept says of itself, for whoever has to map it: its first coding, else its text. */
export function saidBy(concept: Codeable | undefined): Pick<Unclear, 'system' | 'code' | 'text'> {
  const coding =
    concept?.coding?.find(({ code }) => code !== undefined && code !== '') ?? concept?.coding?.[0];
  const text = concept?.text?.trim() || coding?.display?.trim();
  return {
    ...(coding?.system === undefined ? {} : { system: coding.system }),
    ...(coding?.code === undefined ? {} : { code: coding.code }),
    ...(text ? { text } : {}),
  };
}

/** How many resources of each type are of other business. */
export function counted(types: Iterable<readonly [type: string, count: number]>): OtherBusiness[] {
  const counts = new Map<string, number>();
  for (const [type, count] of types) counts.set(type, (counts.get(type) ?? 0) + count);
  return [...counts]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([resourceType, count]) => ({ resourceType, count }));
}
