import type { Annotation, CarePlan, RequestGroup, RequestGroupAction, Task } from 'fhir/r4.js';
import type { Policy } from '@dwellward/policy';
import { coding, displayOf } from '@dwellward/profiles';
import { dueCare } from '../due/due-care.js';
import type { AsOf, DueItem, Hold, LineCare } from '../model/care.js';
import { priorityOf } from '../rules/priority.js';
import { policyOfRule } from '../due/in-force.js';
import { planOf } from '../explain/explain.js';
import { referenceTo } from '../fhir/references.js';
import { taskOf } from '../fhir/task.js';
import type { Records, Ref } from '../model/record.js';

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
 * Throws a RangeError where `asOf` is not an instant with an offset or `zone` not an IANA zone. A subject without lines
 * in the record gives a CarePlan with nothing to do, which says so in a note.
 */
export function applyPlan(records: Records, policy: Policy, options: ApplyOptions, when: AsOf): CarePlan {
  const { subject, encounter, practitioner, organization } = options;
  const cares = records.lines
    .filter(({ patient }) => patient.ref === subject)
    .map((line) => dueCare(line, policy, when));
  const items = cares.flatMap((care) => care.items);
  const tasks = items.map((item, index) => draftOf(item, index, policy, options, when));
  const plans = canonicalsOf(items, policy);
  const head = {
    ...(plans.length > 0 ? { instantiatesCanonical: plans } : {}),
    status: 'draft' as const,
    intent: 'proposal' as const,
    subject: referenceTo(subject),
    ...(encounter ? { encounter: referenceTo(encounter) } : {}),
  };
  const notes = notesOf(cares);
  const group: RequestGroup = {
    resourceType: 'RequestGroup',
    id: 'requests',
    ...head,
    authoredOn: when.asOf,
    ...(practitioner ? { author: referenceTo(practitioner) } : {}),
    ...(notes.length > 0 ? { note: notes } : {}),
    ...(items.length > 0 ? { action: items.map((item, index) => actionOf(item, index)) } : {}),
  };
  return {
    resourceType: 'CarePlan',
    contained: [group, ...tasks],
    ...head,
    title: policy.layers.at(-1)?.title ?? 'Line care',
    description:
      'Advice, not an order: proposals for a clinician to take up, worked out from the record and the policy.',
    created: when.asOf,
    ...(practitioner ? { author: referenceTo(practitioner) } : {}),
    ...(organization ? { contributor: [referenceTo(organization)] } : {}),
    activity: [{ reference: { reference: '#requests' } }],
  };
}

/** The plans behind the result with their versions: all layers in force, and older versions that still have an item. */
function canonicalsOf(items: readonly DueItem[], policy: Policy): string[] {
  const ofItems = items.filter(({ rule }) => rule.origin.order === undefined);
  const layers = policy.layers.map(({ url, version }) => (version === '' ? url : `${url}|${version}`));
  const inUse = ofItems.map(({ rule }) => planOf(rule));
  return [...new Set(policy.versions === undefined ? [...layers, ...inUse] : inUse)];
}

function draftOf(item: DueItem, index: number, policy: Policy, options: ApplyOptions, when: AsOf): Task {
  const { encounter } = options;
  return {
    ...taskOf(item, policyOfRule(policy, item.rule), when),
    id: taskId(index),
    status: 'draft',
    intent: 'proposal',
    ...(encounter ? { encounter: referenceTo(encounter) } : {}),
  };
}

function taskId(index: number): string {
  return `task-${index + 1}`;
}

function actionOf(item: DueItem, index: number): RequestGroupAction {
  const { rule } = item;
  const others = item.others.map(({ rule: other, dueBy }) => `${other.title}, due by ${dueBy}`);
  const also = others.length > 0 ? ` Also applicable: ${others.join('; ')}.` : '';
  return {
    id: `${rule.id.slice(0, 50)}-${index + 1}`,
    title: rule.title,
    description: `${displayOf('lineCareActivity', item.activity)}, ${item.target.name}.${also}`,
    priority: priorityOf(item),
    code: [{ coding: [coding('lineCareActivity', item.activity)] }],
    ...(rule.citations.length > 0
      ? {
          documentation: rule.citations.map(({ text, url }) => ({
            type: 'citation' as const,
            citation: text,
            ...(url === undefined ? {} : { url }),
          })),
        }
      : {}),
    ...(rule.applicability.text === ''
      ? {}
      : {
          condition: [
            {
              kind: 'applicability' as const,
              expression: { language: 'text/fhirpath', expression: rule.applicability.text },
            },
          ],
        }),
    timingPeriod: { start: item.opens, end: item.dueBy },
    resource: { reference: `#${taskId(index)}` },
  };
}

function notesOf(cares: readonly LineCare[]): Annotation[] {
  if (cares.length === 0)
    return [{ text: 'No line of the subject is on record: there is nothing to propose.' }];
  const holds = cares.flatMap((care) => care.holds.map((hold) => ({ text: holdText(hold) })));
  const closed = cares
    .filter(({ inPlace }) => !inPlace)
    .map(({ line, closed: why }) => ({
      text: `${line} is not in place: ${(why ?? '').replaceAll('-', ' ')}.`,
    }));
  const issues = cares.flatMap((care) => care.issues).length;
  const flawed =
    issues > 0 ? [{ text: `${issues} things in the record of the lines are to be put right.` }] : [];
  return [...holds, ...closed, ...flawed];
}

function holdText({ activity, target, until, rule }: Hold): string {
  const what = displayOf('lineCareActivity', activity).toLowerCase();
  return `Hold: no ${what} on ${target.name} ${until ? `until ${until}` : 'for now'} (${rule.title}).`;
}
