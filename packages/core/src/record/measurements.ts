import type { ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { Measurement, Ref } from '../model/record.js';
import { Collections } from './collections.js';
import { fromAbsolutes, fromDifferential, reportAlone } from './neutrophil-counts.js';
import { believedCount } from './plausible.js';
import { resultsOf, type Result } from './results.js';
import { momentKey } from './times.js';
import { addTo } from '../model/gather.js';

/** The counts and weights of every patient, each in the unit of its fact, and what could not be used. */
export function readMeasurements(index: ResourceIndex, issues: IssueList): Map<Ref, Measurement[]> {
  const byPatient = new Map<Ref, Result[]>();
  for (const observation of index.all('Observation')) {
    const patient = index.nameOf(observation.value.subject, observation.ref);
    const results = resultsOf(observation, index, issues, patient);
    if (results.length === 0) continue;
    if (!patient) {
      issues.add('unresolved-reference', observation.ref, 'Observation.subject', {
        code: 'result-without-patient',
      });
      continue;
    }
    addTo(byPatient, patient, ...results);
  }
  return new Map(
    [...byPatient].map(([patient, results]) => [patient, measurementsOf(results, patient, issues)]),
  );
}

function measurementsOf(results: readonly Result[], patient: Ref, issues: IssueList): Measurement[] {
  const found: Measurement[] = [];
  const direct = {
    neutrophils: 'anc',
    leucocytes: 'leucocytes',
    platelets: 'platelets',
    weight: 'weight',
    inr: 'inr',
  } as const;
  for (const result of results) {
    if (result.analyte in direct) {
      found.push({
        kind: direct[result.analyte as keyof typeof direct],
        refs: [result.ref],
        trust: result.trust,
        at: result.at,
        value: result.range,
        asSent: result.asSent,
        derived: false,
      });
    }
  }
  const collections = new Collections(results);
  for (const result of results) {
    const together = collections.with(result);
    if (result.analyte === 'leucocytes') found.push(...fromDifferential(result, together, patient, issues));
    if (result.analyte === 'segmented') found.push(...fromAbsolutes(result, together));
    reportAlone(result, together, patient, issues);
  }
  return settle(
    found.map((one) => believedCount(one, collections, patient, issues)),
    patient,
    issues,
  );
}

/**
 * One measurement for each kind and collection time: the most trusted, of equals the one measured directly. Where
 * equals disagree the lower is kept, because low counts and low weights are the ones that bring protection; of the
 * INR the higher.
 */
function settle(found: readonly Measurement[], patient: Ref, issues: IssueList): Measurement[] {
  const groups = new Map<string, Measurement[]>();
  for (const one of found) {
    const key = `${one.kind}\u0000${momentKey(one.at)}`;
    addTo(groups, key, one);
  }
  return [...groups]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, group]) => {
      const trust = Math.max(...group.map((one) => one.trust));
      const equals = group
        .filter((one) => one.trust === trust)
        .sort(
          (a, b) =>
            (a.kind === 'inr' ? upper(b) - upper(a) : upper(a) - upper(b)) ||
            Number(a.derived) - Number(b.derived) ||
            (a.refs.join() < b.refs.join() ? -1 : 1),
        );
      const [kept] = equals as [Measurement, ...Measurement[]];
      if (equals.some((one) => differs(one, kept))) {
        issues.add(
          'conflicting-values',
          kept.refs[0] ?? patient,
          'Observation.value',
          {
            code: 'results-disagree',
            sent: equals.map((one) => one.asSent),
            used: kept.kind === 'inr' ? 'highest' : 'lowest',
          },
          {
            patient,
            severity: 'high',
            related: equals.flatMap((one) => one.refs).sort(),
          },
        );
      }
      return kept;
    });
}

function upper(one: Measurement): number {
  return Number(one.value.high ?? Infinity);
}

// Rounding in the laboratory makes a count and its product differ in the second place; that is no contradiction.
function differs(a: Measurement, b: Measurement): boolean {
  const gap = Math.abs(upper(a) - upper(b));
  return Number.isFinite(gap) && gap > 0.05 && gap > 0.1 * Math.max(upper(a), upper(b));
}
