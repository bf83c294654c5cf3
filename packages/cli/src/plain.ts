import {
  allIssues,
  Calendar,
  english,
  explain,
  inWords,
  policyAt,
  priorityOf,
  speaker,
} from '@dwellward/core';
import type { Care } from './commands/care.js';

/** Due care as plain JSON, for scripts that don't speak FHIR. */
export function plainCare({ records, cares, policy, when }: Care): object {
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
    issues: allIssues(records, cares).map(plainIssue),
  };
  return inWords(answer, speaker(english, new Calendar(when.zone))) as object;
}

/** An issue with its message where the data have the sentence. */
function plainIssue(issue: object): object {
  return Object.fromEntries(
    Object.entries(issue).map(([name, value]) => [name === 'sentence' ? 'message' : name, value as unknown]),
  );
}
