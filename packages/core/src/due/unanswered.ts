import { readsFinding, type Rule, type Span } from '@dwellward/policy';
import { findingRow, saysWell } from '@dwellward/profiles';
import type { LineCare, UnansweredFinding } from '../model/care.js';
import type { Finding, RecordIssue } from '../model/record.js';
import type { Sentence } from '../model/sentences.js';
import { known } from '../facts/facts.js';
import { targetsOfRule } from '../rules/occurrences.js';
import { answeredMs } from '../timeline/damage.js';
import { standingBlockages } from '../timeline/patency.js';
import { targetsOf } from '../timeline/targets.js';
import type { Timed } from '../timeline/timed.js';
import { isOn, removedMs, type Timeline } from '../timeline/timeline.js';

/**
 * What was found wrong and stands, and what no rule of the policy in force answers: none has a trigger or a condition
 * that reads it, or that reads its value. Nothing would be due for it, and nothing forbidden.
 *
 * A finding stands until a later one of its kind on the same place says that all is well, until the act that puts it
 * right is done, or, of a lumen’s patency, until the lumen is found open. Of a quantity, whose limit is the policy’s
 * matter, the latest is told where no rule reads it; where it is judged by its change, only one that has changed. Of a
 * line that is out only what was found since then is told.
 *
 * @param rules those in force at the timeline’s moment that count for the line.
 */
export function unansweredOn(
  timeline: Timeline,
  closed: LineCare['closed'],
  rules: readonly Rule[],
  staleAfter: Span,
): UnansweredFinding[] {
  if (closed !== undefined && closed !== 'line-removed') return [];
  const outMs = removedMs(timeline) ?? -Infinity;
  const { calendar, line } = timeline;
  return timeline.findings.flatMap((found, at): UnansweredFinding[] => {
    const { fact, ms, latestMs } = found;
    if (latestMs < outMs || findingRow(fact.finding).component !== undefined) return [];
    const wrong = wrongIn(found, timeline, staleAfter);
    if (wrong === undefined || isAnswered(found, timeline.findings.slice(at + 1), timeline)) return [];
    const reading = rules.filter((rule) =>
      targetsOfRule(rule, timeline).some((target) => isOn(timeline, fact, target)),
    );
    const values = wrong.values.filter((value) => !readsFinding(reading, fact.finding, value));
    const unread = wrong.values.length > 0 ? values.length > 0 : !readsFinding(reading, fact.finding);
    if (!unread) return [];
    const lumen = line.lumens.length > 1 ? line.lumens.find(({ ref }) => ref === fact.lumen) : undefined;
    return [
      {
        finding: fact.finding,
        values,
        ...(fact.quantity ? { quantity: fact.quantity } : {}),
        ref: fact.ref,
        at: calendar.text(ms),
        ...(lumen ? { on: lumen.name } : {}),
      },
    ];
  });
}

/** What a finding says is wrong: the values that say so, none of a quantity or a yes or no; undefined where nothing is. */
function wrongIn(
  { fact, ms }: Timed<Finding>,
  timeline: Timeline,
  staleAfter: Span,
): { readonly values: readonly string[] } | undefined {
  const { wrongIf, judgedBy } = findingRow(fact.finding);
  const values = fact.values.filter((value) => !saysWell(fact.finding, value));
  if (values.length > 0) return { values };
  if (fact.values.length > 0) return undefined;
  if (fact.flag !== undefined) return (fact.flag ? 'yes' : 'no') === wrongIf ? { values } : undefined;
  if (fact.quantity === undefined) return undefined;
  if (judgedBy === undefined) return { values };
  const [target] = targetsOf(timeline.line, 'line');
  if (target === undefined) return undefined;
  const change = known(judgedBy as Parameters<typeof known>[0], { timeline, target, ms, staleAfter }).value;
  const changed = typeof change === 'object' && 'low' in change && Number(change.low) > 0;
  return changed ? { values } : undefined;
}

function isAnswered(found: Timed<Finding>, later: readonly Timed<Finding>[], timeline: Timeline): boolean {
  const { fact } = found;
  if (answeredMs(timeline, found) !== undefined) return true;
  if (findingRow(fact.finding).tellsPatency) {
    const lumens = targetsOf(timeline.line, 'lumen').filter((target) => isOn(timeline, fact, target));
    const stands = lumens.some((target) =>
      standingBlockages(timeline, target, timeline.asOfMs).some((one) => one.found === found),
    );
    if (lumens.length > 0 && !stands) return true;
  }
  // A later one of the same kind and place says how it is since.
  return later.some(
    (one) =>
      one.fact.finding === fact.finding &&
      one.fact.lumen === fact.lumen &&
      one.fact.site === fact.site &&
      one.ms >= found.latestMs,
  );
}

/** The sentences of what is not answered, in the order of time. */
export function unansweredSaid({
  unanswered,
}: Pick<LineCare, 'unanswered'>): Sentence<'finding-unanswered'>[] {
  return unanswered.map(({ finding, values, quantity, at, on }) => ({
    code: 'finding-unanswered',
    finding,
    values,
    ...(quantity ? { quantity } : {}),
    at,
    ...(on ? { on } : {}),
  }));
}

/** The same as issues of the record, for whoever is told of those. */
export function unansweredIssues({ line }: Timeline, all: readonly UnansweredFinding[]): RecordIssue[] {
  return all.flatMap((one) =>
    unansweredSaid({ unanswered: [one] }).map((sentence) => ({
      code: 'unanswered-finding',
      severity: 'high',
      resource: one.ref,
      path: 'Observation.value',
      sentence,
      patient: line.patient.ref,
      line: line.ref,
      related: [],
    })),
  );
}
