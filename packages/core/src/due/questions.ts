import type { ComputedInput, Rule, WorkSubstance } from '@dwellward/policy';
import { activityRow, type SubstanceCode } from '@dwellward/profiles';
import type { DueItem } from '../model/care.js';
import type { PatientAlert } from '../model/record.js';
import { compareText, type Timeline } from '../timeline/timeline.js';

/** What the record speaks against in some work: what to ask first, and what is kept back until it is answered. */
export interface Questions {
  readonly questions: DueItem['questions'];
  readonly computed: ReadonlySet<ComputedInput>;
  /** Supplies in the words of the policy. */
  readonly supplies: ReadonlySet<string>;
}

/**
 * The questions to the responsible clinician that some work raises: one for each entry of the record, an allergy, a
 * problem or a flag, that speaks against something the work uses or may use. The values that are worked out for it, a
 * lock volume or a dose, and its supplies are withheld; the care itself stays due.
 *
 * It asks and never decides: whether something may be used all the same is the clinician’s to say.
 */
export function questionsOf(rule: Pick<Rule, 'activity' | 'work'>, timeline: Timeline): Questions {
  const alerts = alertsAt(timeline);
  const used = alerts.length === 0 ? [] : substancesOf(rule);
  const computed = new Set<ComputedInput>();
  const supplies = new Set<string>();
  const questions = used.flatMap((one) =>
    alerts
      .filter(({ substance }) => substance === one.substance)
      .map((alert) => {
        one.computed.forEach((input) => computed.add(input));
        one.supplies.forEach((supply) => supplies.add(supply));
        const { substance, ref, kind, sure, text, at, over } = alert;
        return {
          code: 'may-it-be-used',
          substance,
          entry: {
            ref,
            kind,
            sure,
            ...(text === undefined ? {} : { text }),
            ...(at ? { at } : {}),
            ...(over ? { over } : {}),
          },
          withheld: one.computed.length > 0 || one.supplies.length > 0,
        } as const;
      }),
  );
  return { questions, computed, supplies };
}

/** The questions of all rules that ask for one thing at once, none of them twice. */
export function joinedQuestions(
  rules: readonly Pick<Rule, 'activity' | 'work'>[],
  timeline: Timeline,
): DueItem['questions'] {
  const all = rules.flatMap((rule) => questionsOf(rule, timeline).questions);
  const once = new Map<string, DueItem['questions'][number]>();
  for (const one of all) {
    const key = [one.substance, one.entry.ref].join('\u0000');
    if (!once.get(key)?.withheld) once.set(key, one);
  }
  return [...once.values()].sort((a, b) => compareText(a.substance, b.substance));
}

/** The entries that are known by then; an undated one always was. */
function alertsAt({ line: { patient }, calendar, asOfMs }: Timeline): readonly PatientAlert[] {
  return patient.alerts.filter(({ at }) => at === undefined || calendar.earliest(at) <= asOfMs);
}

/** What the work uses by its ActivityDefinition; by the table of activities where that names nothing. */
function substancesOf({ activity, work }: Pick<Rule, 'activity' | 'work'>): readonly WorkSubstance[] {
  if (work.substances !== undefined) return work.substances;
  const { mayUse = {} } = activityRow(activity);
  return (Object.entries(mayUse) as [SubstanceCode, readonly ComputedInput[]][]).map(
    ([substance, computed]) => ({ substance, computed, supplies: [] }),
  );
}
