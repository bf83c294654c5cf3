import { factSubject } from '@dwellward/policy';
import type { RecordIssue } from '../model/record.js';
import type { TimedHold } from '../rules/bans.js';
import { saysNothingOfLine, type Timeline } from '../timeline/timeline.js';

/**
 * Findings that were charted on one of several lumens, and would end a hold on the whole line had they named it: the hold
 * goes on, and whoever charted it has to know.
 * @param holds every hold, over or not, as `holdsOf` gives them.
 */
export function endedByOneLumen(timeline: Timeline, holds: readonly TimedHold[]): RecordIssue[] {
  const { line, asOfMs } = timeline;
  return timeline.findings.flatMap((one): RecordIssue[] => {
    if (!saysNothingOfLine(timeline, one)) return [];
    const { ref, finding } = one.fact;
    const goOn = holds.filter(
      ({ hold: { rule, target }, fromMs, untilMs }) =>
        target.scope === 'line' && fromMs <= one.ms && asOfMs < untilMs && endsWith(rule.stop?.uses, finding),
    );
    if (goOn.length === 0) return [];
    return [
      {
        code: 'unknown-lumen',
        severity: 'high',
        resource: ref,
        path: 'Observation.focus',
        sentence: { code: 'finding-must-name-line', finding },
        patient: line.patient.ref,
        line: line.ref,
        related: [...new Set(goOn.flatMap(({ hold }) => hold.because ?? []))],
      },
    ];
  });
}

function endsWith(uses: readonly string[] = [], finding: string): boolean {
  return uses.some((name) => {
    const subject = factSubject(name);
    return subject !== undefined && 'finding' in subject && subject.finding === finding;
  });
}
