import type { Annotation, CarePlan, RequestGroup, RequestGroupAction, Task } from 'fhir/r4.js';
import type { Policy } from '@dwellward/policy';
import { coding } from '@dwellward/profiles';
import { dueCare } from '../due/due-care.js';
import type { AsOf, DueItem, LineCare } from '../model/care.js';
import type { Sentence } from '../model/sentences.js';
import { priorityOf } from '../rules/priority.js';
import { policyOfRule } from '../due/in-force.js';
import { planOf } from '../explain/explain.js';
import { referenceTo } from '../fhir/references.js';
import { taskOf } from '../fhir/task.js';
import type { Records, Ref } from '../model/record.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { speaker, type Say } from '../words/say.js';

/** Who a policy is applied to, and by whom: the parameters of the operation that are supported. */
export interface ApplyOptions {
  /** The one subject: a Patient, as `Patient/12`. */
  readonly subject: Ref;
  /** `Encounter/12`. */
  readonly encounter?: Ref;
  /** `Practitioner/12`: stands as author of the result. */
  readonly practitioner?: Ref;
  /** `Organization/12`: stands as a contributor to the result. */
  readonly organization?: Ref;
  /** Of what the result says to people; English where none is given. */
  readonly language?: Language;
}

/**
 * Applies a policy to a patient, as the operation PlanDefinition/$apply of HL7 FHIR R4 (4.0.1) describes it: a CarePlan
 * with a single activity, a RequestGroup, whose actions are the applicable actions of the plans with the Tasks that
 * their definitions give. RequestGroup and Tasks are contained; all are drafts and proposals, for a clinician to take
 * up. Nothing is stored.
 *
 * Supported: `subject` (one Patient), `encounter`, `practitioner`, `organization`; applicability conditions in
 * FHIRPath over the facts of the record; timing, triggers, relatedAction; contained ActivityDefinitions with their
 * `dynamicValue` for computed inputs, supplies and cautions; documentation.
 *
 * Not supported: several subjects or subjects of another type; `userType`, `userLanguage`, `userTaskContext`,
 * `setting`, `settingContext`; goals; nested actions and their grouping, selection and cardinality; libraries and CQL;
 * ActivityDefinitions outside of the plan. `readPolicy` reports each of these in a plan.
 *
 * Different from the operation’s text, because this is what the policy means: of several applicable actions of one
 * activity on one target the most protective makes the Task, and the others are named in its description. An action
 * that only holds an activity back is a note of the RequestGroup. Patients’ own orders are no part of a plan, but bring
 * a Task forward as they do in due care.
 *
 * Source: OperationDefinition/PlanDefinition-apply of HL7 FHIR R4, parameters and comment.
 * Throws a CoreError where `asOf` is not an instant with an offset or `zone` not an IANA zone. A subject without lines
 * in the record gives a CarePlan with nothing to do, which says so in a note.
 * @example
 * ```ts
 * const neutropenia = readPolicy([bundledPlan('neutropenia')]);
 * neutropenia.ok &&
 *   applyPlan(records, neutropenia.policy, { subject: records.lines[0]!.patient.ref }, when).intent; // 'proposal'
 * ```
 */
export function applyPlan(records: Records, policy: Policy, options: ApplyOptions, when: AsOf): CarePlan {
  const { subject, encounter, practitioner, organization, language = english } = options;
  const say = speaker(language, new Calendar(when.zone));
  const cares = records.lines
    .filter(({ patient }) => patient.ref === subject)
    .map((line) => dueCare(line, policy, when));
  const items = cares.flatMap((care) => care.items);
  const tasks = items.map((item, index) => draftOf(item, index, policy, options, when, say));
  const plans = canonicalsOf(items, policy);
  const head = {
    ...(plans.length > 0 ? { instantiatesCanonical: plans } : {}),
    status: 'draft' as const,
    intent: 'proposal' as const,
    subject: referenceTo(subject),
    ...(encounter ? { encounter: referenceTo(encounter) } : {}),
  };
  const notes = notesOf(cares, say);
  const group: RequestGroup = {
    resourceType: 'RequestGroup',
    id: 'requests',
    ...head,
    authoredOn: when.asOf,
    ...(practitioner ? { author: referenceTo(practitioner) } : {}),
    ...(notes.length > 0 ? { note: notes } : {}),
    ...(items.length > 0 ? { action: items.map((item, index) => actionOf(item, index, say)) } : {}),
  };
  return {
    resourceType: 'CarePlan',
    contained: [group, ...tasks],
    ...head,
    title: titleOf(policy, say),
    description: say({ code: 'proposals-not-orders' }),
    created: when.asOf,
    ...(practitioner ? { author: referenceTo(practitioner) } : {}),
    ...(organization ? { contributor: [referenceTo(organization)] } : {}),
    activity: [{ reference: { reference: '#requests' } }],
  };
}

function titleOf({ layers }: Policy, say: Say): string {
  const top = layers.at(-1);
  return say(top ? { code: 'policy-text', text: top.title } : { code: 'line-care' });
}

/** The plans behind the result with their versions: all layers in force, and older versions that still have an item. */
function canonicalsOf(items: readonly DueItem[], policy: Policy): string[] {
  const ofItems = items.filter(({ rule }) => rule.origin.order === undefined);
  const layers = policy.layers.map(({ url, version }) => (version === '' ? url : `${url}|${version}`));
  const inUse = ofItems.map(({ rule }) => planOf(rule));
  return [...new Set(policy.versions === undefined ? [...layers, ...inUse] : inUse)];
}

function draftOf(
  item: DueItem,
  index: number,
  policy: Policy,
  options: ApplyOptions,
  when: AsOf,
  say: Say,
): Task {
  const { encounter } = options;
  return {
    ...taskOf(item, policyOfRule(policy, item.rule), when, say),
    id: taskId(index),
    status: 'draft',
    intent: 'proposal',
    ...(encounter ? { encounter: referenceTo(encounter) } : {}),
  };
}

function taskId(index: number): string {
  return `task-${index + 1}`;
}

function actionOf(item: DueItem, index: number, say: Say): RequestGroupAction {
  const { rule, activity, target } = item;
  const others = item.others.map(({ rule: { title }, dueBy }) => ({ title, dueBy }));
  return {
    id: `${rule.id.slice(0, 50)}-${index + 1}`,
    title: say({ code: 'policy-text', text: rule.title }),
    description: say({ code: 'proposed', activity, target: target.name, others }),
    priority: priorityOf(item),
    code: [{ coding: [coding('lineCareActivity', activity)] }],
    ...(rule.citations.length > 0
      ? {
          documentation: rule.citations.map(({ text, url }) => ({
            type: 'citation' as const,
            citation: text,
            ...(url === undefined ? {} : { url }),
          })),
        }
      : {}),
    ...(rule.applicability.meaning === ''
      ? {}
      : {
          condition: [
            {
              kind: 'applicability' as const,
              expression: { language: 'text/fhirpath', expression: rule.applicability.meaning },
            },
          ],
        }),
    timingPeriod: { start: item.opens, end: item.dueBy },
    resource: { reference: `#${taskId(index)}` },
  };
}

function notesOf(cares: readonly LineCare[], say: Say): Annotation[] {
  const note = (sentence: Sentence): Annotation => ({ text: say(sentence) });
  if (cares.length === 0) return [note({ code: 'no-line-of-subject' })];
  const holds = cares.flatMap((care) =>
    care.holds.map(({ activity, target, until, rule }) =>
      note({
        code: 'held-back',
        activity,
        target: target.name,
        ...(until === undefined ? {} : { until }),
        title: rule.title,
      }),
    ),
  );
  const closed = cares.flatMap(({ line, closed: because }) =>
    because === undefined ? [] : [note({ code: 'line-is-not-in-place', line, because })],
  );
  const count = cares.flatMap((care) => care.issues).length;
  return [...holds, ...closed, ...(count > 0 ? [note({ code: 'lines-to-put-right', count })] : [])];
}
