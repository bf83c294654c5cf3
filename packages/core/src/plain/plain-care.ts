import type { Policy } from '@dwellward/policy';
import { policyAt } from '../due/in-force.js';
import { explain } from '../explain/explain.js';
import { allIssues } from '../fhir/due-bundle.js';
import type { AsOf, LineCare } from '../model/care.js';
import type { Records } from '../model/record.js';
import { priorityOf } from '../rules/priority.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import { inWords } from '../words/in-words.js';
import type { Language } from '../words/language.js';
import { speaker, type Say } from '../words/say.js';

/** Due care with what it was computed from. */
export interface ComputedCare {
  readonly records: Records;
  readonly cares: readonly LineCare[];
  readonly policy: Policy;
  readonly when: AsOf;
}

/**
 * Due care as plain JSON, for scripts that don't speak FHIR: data with every sentence put into words.
 * @example
 * ```ts
 * Object.keys(plainCare({ records, cares, policy, when })).includes('lines'); // true
 * ```
 */
export function plainCare(
  { records, cares, policy, when }: ComputedCare,
  language: Language = english,
): object {
  const say = speaker(language, new Calendar(when.zone));
  const answer = {
    asOf: when.asOf,
    zone: when.zone,
    loosened: policyAt(policy, when).loosened ?? [],
    lines: cares.map((care) => ({
      line: care.line,
      patient: care.patient,
      inPlace: care.inPlace,
      ...(care.unanswered.length > 0 ? { unanswered: care.unanswered } : {}),
      ...(care.closed ? { closed: care.closed } : {}),
      ...(care.plannedFor === undefined ? {} : { plannedFor: care.plannedFor }),
      items: care.items.map((item) => {
        const { rule, sources, countedFrom, sentence } = explain(item, policy);
        return {
          id: item.id,
          activity: item.activity,
          target: { scope: item.target.scope, device: item.target.device, name: item.target.name },
          state: item.state,
          priority: priorityOf(item),
          opens: item.opens,
          dueBy: item.dueBy,
          rule,
          sources: sources.map(({ text }) => text),
          countedFrom,
          why: sentence,
          movedBy: item.movedBy,
          work: item.work,
          facts: item.facts,
          remarks: item.remarks,
        };
      }),
      holds: care.holds.map(({ activity, target, from, until, because, rule }) => ({
        activity,
        target: target.name,
        from,
        ...(until ? { until } : {}),
        ...(because ? { because } : {}),
        rule: rule.id,
        title: rule.title,
      })),
      lumens: care.lumens,
    })),
    notUnderstood: records.notUnderstood,
    otherBusiness: records.otherBusiness,
  };
  // By themselves: the code of an issue may be that of a sentence, and the issue is none.
  const issues = allIssues(records, cares).map((issue) => plainIssue(issue, say));
  return { ...(inWords(answer, say) as object), issues };
}

/** An issue with its message where the data have the sentence. */
function plainIssue(issue: ReturnType<typeof allIssues>[number], say: Say): object {
  return Object.fromEntries(
    Object.entries(issue).map(([name, value]: [string, unknown]) =>
      name === 'sentence' ? ['message', say(issue.sentence)] : [name, value],
    ),
  );
}
