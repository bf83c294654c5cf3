import type { NotUnderstood } from '@dwellward/core';

const mostExamples = 3;
const mostOfPatient = 5;

type Patient = NotUnderstood['patients'][number];

/** What was not understood, gathered by kind over all groups as it is where all is read at once. */
export class Kinds {
  readonly #byKey = new Map<string, NotUnderstood & { readonly patients: Patient[] }>();

  add(found: readonly NotUnderstood[]): void {
    for (const one of found) {
      const key = JSON.stringify([
        one.path,
        one.system ?? '',
        one.code ?? '',
        one.code ? '' : (one.text ?? ''),
      ]);
      const before = this.#byKey.get(key);
      const patients = before?.patients ?? [];
      for (const { patient, resources } of one.patients) {
        const same = patient === undefined ? patients.findIndex((p) => p.patient === undefined) : -1;
        const own = [...(patients[same]?.resources ?? []), ...resources].sort().slice(0, mostOfPatient);
        const made = { ...(patient === undefined ? {} : { patient }), resources: own };
        if (same < 0) patients.push(made);
        else patients[same] = made;
      }
      const earlier = before === undefined || (one.examples[0] ?? '') < (before.examples[0] ?? '');
      const text = earlier ? (one.text ?? before?.text) : (before.text ?? one.text);
      this.#byKey.set(key, {
        ...one,
        ...(text === undefined ? {} : { text }),
        onLine: one.onLine || before?.onLine === true,
        count: one.count + (before?.count ?? 0),
        examples: [...(before?.examples ?? []), ...one.examples].sort().slice(0, mostExamples),
        patients,
      });
    }
  }

  all(): NotUnderstood[] {
    return [...this.#byKey]
      .sort(
        ([a, one], [b, other]) =>
          Number(other.onLine) - Number(one.onLine) || other.count - one.count || (a < b ? -1 : 1),
      )
      .map(([, one]) => one);
  }
}
