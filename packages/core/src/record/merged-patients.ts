import type { Ref } from '../model/record.js';
import type { IssueList } from './issues.js';
import type { Reference, Shape } from './shapes.js';

/**
 * By the name of each patient whose record was merged into another’s: that other, at the end of the chain. HL7 FHIR R4,
 * Patient.link: `replaced-by` stands in the record that is used no longer, `replaces` in the one that took its place; the
 * other two types say nothing of that.
 *
 * What can’t be followed is read as it stands, and said: a record that is not there, two that each took the place, a circle.
 * @param nameOf the name of the patient that a reference points to.
 */
export function mergedPatients(
  patients: readonly { readonly ref: Ref; readonly value: Shape<'Patient'> }[],
  nameOf: (reference: Reference | undefined, from: Ref) => Ref | undefined,
  issues: IssueList,
): ReadonlyMap<Ref, Ref> {
  const there = new Set(patients.map(({ ref }) => ref));
  const into = new Map<Ref, Set<Ref>>();
  for (const { ref, value } of patients) {
    for (const { other, type } of value.link ?? []) {
      const named = nameOf(other, ref);
      if (named === undefined || named === ref) continue;
      if (type === 'replaced-by') into.set(ref, (into.get(ref) ?? new Set()).add(named));
      if (type === 'replaces') into.set(named, (into.get(named) ?? new Set()).add(ref));
    }
  }
  const merged = new Map<Ref, Ref>();
  for (const patient of [...into.keys()].sort()) {
    const end = endOf(patient, into);
    const lost = end === undefined || !there.has(end);
    if (!lost) merged.set(patient, end);
    if (!lost || there.has(patient))
      issues.add(
        'merged-record',
        patient,
        'Patient.link',
        lost
          ? { code: 'merged-not-followed', into: [...(into.get(patient) ?? [])].sort() }
          : { code: 'merged-into', into: end },
        { severity: lost ? 'high' : 'low', patient: lost ? patient : end },
      );
  }
  return merged;
}

/** Where the chain of merges from a patient ends; undefined where it forks or runs in a circle. */
function endOf(patient: Ref, into: ReadonlyMap<Ref, ReadonlySet<Ref>>): Ref | undefined {
  const seen = new Set<Ref>();
  let at = patient;
  while (!seen.has(at)) {
    seen.add(at);
    const [next, ...others] = into.get(at) ?? [];
    if (others.length > 0) return undefined;
    if (next === undefined) return at;
    at = next;
  }
  return undefined;
}
