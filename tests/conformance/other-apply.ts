import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dueCare, readRecords } from '@dwellward/core';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import {
  bundledActivities,
  bundledPlan,
  bundledPlanNames,
  readPolicy,
  type BundledPlanName,
} from '@dwellward/policy';
import { applyPlan, simpleResolver } from 'encender';
import type {
  ActivityDefinition,
  FhirResource,
  PlanDefinition,
  PlanDefinitionAction,
  RequestGroupAction,
  ServiceRequest,
  Task,
} from 'fhir/r4.js';

// PlanDefinition/$apply as the package encender does it, which nobody here wrote, on the patients of the demo unit.
//
// It evaluates conditions of text/cql only and takes those of every kind for applicability. So the plan is handed to it
// with the conditions judged and taken away.

const manifest = createRequire(import.meta.url).resolve('encender/package.json');
/** The version of the package. */
export const otherVersion = (JSON.parse(readFileSync(manifest, 'utf8')) as { version: string }).version;

const entries = demoUnit().entry ?? [];
const unit = entries.flatMap(({ resource }) => resource ?? []);
const resolver = simpleResolver([...unit, ...bundledActivities]);
const records = readRecords(unit.map((resource) => ({ resource })));

export const patients = unit.flatMap(({ resourceType, id }) =>
  resourceType === 'Patient' ? [`Patient/${id ?? ''}`] : [],
);

/** What came of one action of the plan. */
export interface Made {
  readonly plan: string;
  readonly patient: string;
  readonly action: PlanDefinitionAction;
  /** The action of the RequestGroup. */
  readonly requested: RequestGroupAction;
  /** What it is to be done by, or is not to be done by; absent where the action has no definition. */
  readonly request?: Task | ServiceRequest;
  /** The ActivityDefinition that the request says it comes from. */
  readonly definition?: ActivityDefinition;
}

/** All actions of a plan that are rules, those of groups among them. */
export function rulesIn(actions: readonly PlanDefinitionAction[] = []): PlanDefinitionAction[] {
  return actions.flatMap((one) => (one.action === undefined ? [one] : rulesIn(one.action)));
}

/** Without the conditions; with the actions that `applies` takes, where a group is left without any not that either. */
function judged(
  actions: readonly PlanDefinitionAction[] = [],
  applies: (id: string) => boolean,
): PlanDefinitionAction[] {
  return actions.flatMap(({ condition, action, ...others }): PlanDefinitionAction[] => {
    void condition;
    if (action === undefined) return applies(others.id ?? '') ? [others] : [];
    const rules = judged(action, applies);
    return rules.length === 0 ? [] : [{ ...others, action: rules }];
  });
}

/** In place of its thread: says the same to every expression. With no condition left it is asked nothing. */
function workerThatSays(result: boolean) {
  interface Worker {
    onmessage?: (event: { readonly data: { readonly expression: string; readonly result: boolean } }) => void;
    postMessage(message: { readonly expression: string }): void;
    terminate(): void;
  }
  return (): Worker => ({
    postMessage({ expression }) {
      queueMicrotask(() => this.onmessage?.({ data: { expression, result } }));
    },
    terminate: () => undefined,
  });
}

/** What the package makes of a plan for a patient, of the actions that apply; of all where nothing is said. */
export function otherApply(
  plan: PlanDefinition,
  patient: string,
  applies: (id: string) => boolean = () => true,
): Promise<Made[]> {
  return madeOf({ ...plan, action: judged(plan.action, applies) }, patient);
}

/** What the package makes of a plan as it stands; every condition is `answer`. */
export async function madeOf(plan: PlanDefinition, patient: string, answer = true): Promise<Made[]> {
  let last = 0;
  const [, group, ...resources] = await applyPlan(plan, patient, resolver, {
    WorkerFactory: workerThatSays(answer),
    getId: () => String(++last),
  });
  const rules = new Map(rulesIn(plan.action).map((rule) => [rule.id, rule]));
  return requestsIn(group.action).map((requested): Made => {
    const action = rules.get(requested.id);
    if (action === undefined) throw new Error(`${plan.id ?? ''} has no action ${requested.id ?? ''}.`);
    const request = resources.find(
      ({ resourceType, id }) => `${resourceType}/${id ?? ''}` === requested.resource?.reference,
    ) as Task | ServiceRequest | undefined;
    const definition = definitionOf(request);
    return {
      ...{ plan: plan.id ?? '', patient, action, requested },
      ...(request === undefined ? {} : { request }),
      ...(definition === undefined ? {} : { definition }),
    };
  });
}

function requestsIn(actions: readonly RequestGroupAction[] = []): RequestGroupAction[] {
  return actions.flatMap((one) => (one.action === undefined ? [one] : requestsIn(one.action)));
}

function definitionOf(request: Task | ServiceRequest | undefined): ActivityDefinition | undefined {
  const [found] = resolver(request?.basedOn?.[0]?.reference ?? 'none') as FhirResource[];
  return found?.resourceType === 'ActivityDefinition' ? found : undefined;
}

const policies = new Map(
  bundledPlanNames.map((name) => {
    const reading = readPolicy([bundledPlan(name)]);
    if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
    return [name, reading.policy] as const;
  }),
);

/** Whether the patient has an order of this activity on record. */
export function hasOrderFor(patient: string, activity: string | undefined): boolean {
  return unit.some(
    (one) =>
      one.resourceType === 'ServiceRequest' &&
      one.subject.reference === patient &&
      one.code?.coding?.[0]?.code === activity,
  );
}

/** The ids of the rules of a plan, taken by itself, that the library finds set going and not ended for a patient. */
export function rulesAtWork(name: BundledPlanName, patient: string): ReadonlySet<string> {
  const policy = policies.get(name);
  if (policy === undefined) throw new Error(`There is no plan ${name}.`);
  const cares = records.lines
    .filter((line) => line.patient.ref === patient)
    .map((line) => dueCare(line, policy, { asOf: demoInstant, zone: demoZone }));
  return new Set([
    ...cares.flatMap(({ items, holds }) => [
      ...items.flatMap(({ rule, others }) => [rule.id, ...others.map((other) => other.rule.id)]),
      ...holds.map(({ rule }) => rule.id),
    ]),
    ...policy.rules
      .filter(({ begins, activity }) => begins.kind === 'planned' && hasOrderFor(patient, activity))
      .map(({ id }) => id),
  ]);
}
