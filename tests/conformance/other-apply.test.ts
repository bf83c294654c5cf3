import { bundledPlan, bundledPlanNames, policyExamples } from '@dwellward/policy';
import type { LineCareActivity } from '@dwellward/profiles';
import type { PlanDefinition, PlanDefinitionAction } from 'fhir/r4.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { figure } from '../figure.js';
import {
  hasOrderFor,
  madeOf,
  otherApply,
  otherVersion,
  patients,
  rulesAtWork,
  rulesIn,
  type Made,
} from './other-apply.js';
import { elementsOf } from './r4-elements.js';

// Another reader of PlanDefinitions must never propose what the plans forbid. That is held against an $apply which
// nobody here wrote, as far as it goes: what it does not carry over stands below, each as an expected gap.

const activityOf = ({ code }: PlanDefinitionAction) => code?.[0]?.coding?.[0]?.code as LineCareActivity;
const named = ({ plan, patient, action }: Made) => `${plan}: ${action.id ?? ''} for ${patient}`;

/** Ids of the actions that forbid: those whose ActivityDefinition says doNotPerform. */
const forbids = ({ definitionCanonical = '' }: PlanDefinitionAction) =>
  /\/ActivityDefinition\/no-/.test(definitionCanonical);

// Every action of every plan for every patient, as though all conditions were true; and those alone that the library
// finds set going and not ended.
const all: Made[] = [];
const atWork: Made[] = [];
const both = [
  ['all actions', all],
  ['those at work', atWork],
] as const;

beforeAll(async () => {
  for (const name of bundledPlanNames) {
    for (const patient of patients) {
      all.push(...(await otherApply(bundledPlan(name), patient)));
      const ids = rulesAtWork(name, patient);
      atWork.push(...(await otherApply(bundledPlan(name), patient, (id) => ids.has(id))));
    }
  }
});

describe('an $apply that nobody here wrote', () => {
  it('is handed every action of every plan, and for a patient those at work', (context) => {
    const rules = bundledPlanNames.flatMap((name) => rulesIn(bundledPlan(name).action));
    expect(all).toHaveLength(rules.length * patients.length);
    expect(rules.filter(forbids).length).toBeGreaterThan(20);
    expect(atWork.length).toBeGreaterThan(200);
    expect(atWork.length).toBeLessThan(all.length / 5);
    // Hornbeam Curlew’s line was repaired within the last two hours.
    expect(atWork.filter(({ action }) => forbids(action)).map(named)).toContain(
      'repair-care: infusion-start-after-repair for Patient/hornbeam-curlew',
    );
    figure(
      context,
      `encender ${otherVersion}, ${bundledPlanNames.length} plans, ${patients.length} patients, ${all.length} actions, of them ${atWork.length} at work`,
    );
  });

  it.for(both)(
    'makes of what a plan forbids a request whose definition says doNotPerform: %s',
    ([, made], context) => {
      const bans = made.filter(({ action }) => forbids(action));
      expect(bans.length).toBeGreaterThan(0);
      for (const one of bans) {
        expect(one.definition?.doNotPerform, named(one)).toBe(true);
        expect(one.definition?.url, named(one)).toBe(one.action.definitionCanonical);
        // R4’s ServiceRequest can say it; its Task can’t.
        expect(one.request?.resourceType, named(one)).toBe('ServiceRequest');
        expect(one.request?.code?.coding?.[0]?.code, named(one)).toBe(activityOf(one.action));
      }
      figure(context, `${bans.length} bans, each by its definition`);
    },
  );

  it.for(both)('proposes nothing by an action that forbids: %s', ([, made], context) => {
    const proposed = made.filter(({ request, definition }) => request && definition?.doNotPerform !== true);
    expect(proposed.length).toBeGreaterThan(0);
    expect(proposed.filter(({ action }) => forbids(action)).map(named)).toEqual([]);
    for (const one of proposed) {
      expect(one.request?.resourceType, named(one)).toBe('Task');
      expect(one.request?.code?.coding?.[0]?.code, named(one)).toBe(activityOf(one.action));
    }
    figure(context, `${proposed.length} Tasks, none of what is forbidden`);
  });

  it('would say that a ServiceRequest is not to be done, and a Task never, by R4', () => {
    const [said] = elementsOf('ServiceRequest', { doNotPerform: true });
    expect(said?.definition.definition).toBe(
      'Set this to true if the record is saying that the service/procedure should NOT be performed.',
    );
    expect(() => elementsOf('Task', { doNotPerform: true })).toThrow('R4 has no Task.doNotPerform.');
  });
});

describe('an act that only a clinician orders', () => {
  const acts = bundledPlanNames.flatMap((name) =>
    rulesIn(bundledPlan(name).action)
      .filter((action) => isOrdered(action))
      .map((action) => [activityOf(action), name, action] as const),
  );

  it('is insertion, removal, repair and a blood draw', () => {
    expect([...new Set(acts.map(([activity]) => activity))].sort()).toEqual([
      'blood-sampling',
      'insertion',
      'removal',
      'repair',
    ]);
  });

  it.each(acts)('%s is by R4 no more than described until it is ordered', (activity, _, { trigger }) => {
    // R4: the trigger is a description of when the action should be triggered; data-added occurs whenever data of a
    // particular type is added. What is added is the order for the very act.
    expect(trigger).toEqual([
      {
        type: 'data-added',
        data: [
          {
            type: 'ServiceRequest',
            codeFilter: [{ path: 'code', code: [expect.objectContaining({ code: activity }) as unknown] }],
          },
        ],
      },
    ]);
  });

  it('is asked for by another action only once something was charted', () => {
    const others = bundledPlanNames.flatMap((name) =>
      rulesIn(bundledPlan(name).action)
        .filter((action) => !isOrdered(action) && !forbids(action))
        .filter((action) => acts.some(([activity]) => activity === activityOf(action)))
        .map(({ id, trigger }) => `${id ?? ''}: ${trigger?.[0]?.data?.[0]?.type ?? 'at any time'}`),
    );
    // CDC-HICPAC 2011: a line put in without asepsis is taken out or replaced within 48 hours. A damaged line is repaired.
    expect([...new Set(others)]).toEqual([
      'removal-after-insertion-without-asepsis: Procedure',
      'repair-after-damage: Observation',
    ]);
  });

  it('is proposed by the other $apply for nobody without the order, once triggers are judged as conditions are', () => {
    const proposed = atWork.filter(({ action }) => isOrdered(action));
    expect(proposed.map(({ patient, action }) => hasOrderFor(patient, activityOf(action)))).toEqual([true]);
    expect(proposed.filter(({ request }) => request).map(named)).toEqual([]);
  });
});

/** Whether the action waits for an order of its own act. */
function isOrdered({ trigger = [] }: PlanDefinitionAction): boolean {
  return trigger.some(({ data = [] }) => data.some(({ type }) => type === 'ServiceRequest'));
}

describe(`what encender ${otherVersion} does not do of R4’s $apply`, () => {
  const flush = 'https://dwellward.example/fhir/ActivityDefinition/flush';
  const made = async (over: Partial<PlanDefinitionAction>, answer = true): Promise<Made | undefined> => {
    const plan: PlanDefinition = {
      ...{ resourceType: 'PlanDefinition', url: 'https://gap.example/PlanDefinition/gap', status: 'active' },
      action: [{ id: 'flush', definitionCanonical: flush, ...over }],
    };
    return (await madeOf(plan, patients[0]!, answer))[0];
  };
  const condition = (kind: 'applicability' | 'start' | 'stop', language = 'text/cql') => ({
    condition: [{ kind, expression: { language: language as 'text/cql', expression: 'Something' } }],
  });

  // Each with what R4 says (PlanDefinition and ActivityDefinition, their $apply), and whether it is done. None is: where a
  // newer version does it, the gap goes from this list and the checks above go so far.
  const gaps: readonly (readonly [string, string, () => Promise<boolean>])[] = [
    [
      'doNotPerform',
      'apply the structural elements of the ActivityDefinition such as code, timing, doNotPerform',
      () => Promise.resolve(all.some(({ request }) => request !== undefined && 'doNotPerform' in request)),
    ],
    [
      'trigger',
      'a description of when the action should be triggered',
      async () =>
        (await made({ trigger: [{ type: 'data-added', data: [{ type: 'ServiceRequest' }] }] }))?.request ===
        undefined,
    ],
    [
      'timing',
      'apply the elements of the action such as title, description, textEquivalent, timing',
      async () =>
        (await made({ timingTiming: { repeat: { frequency: 1 } } }))?.requested.timingTiming !== undefined,
    ],
    [
      'code, priority and relatedAction',
      'apply the elements of the action to the corresponding elements of the action of the RequestGroup',
      async () => {
        const requested = (
          await made({
            ...{ priority: 'stat', code: [{ text: 'Flush' }] },
            relatedAction: [{ actionId: 'other', relationship: 'before-start' }],
          })
        )?.requested;
        return [requested?.priority, requested?.code, requested?.relatedAction].some(
          (value) => value !== undefined,
        );
      },
    ],
    [
      'start and stop conditions carried forward',
      'carry any start and stop conditions defined in the plan action forward to the request group action',
      async () => (await made(condition('stop')))?.requested.condition !== undefined,
    ],
    [
      'kinds of conditions told apart',
      'determine applicability by evaluating the applicability conditions',
      // A stop that is not true yet does not make an action inapplicable.
      async () => (await made(condition('stop'), false)) !== undefined,
    ],
    [
      'conditions in FHIRPath',
      'the language of an expression may be text/cql, text/fhirpath or application/x-fhir-query',
      () =>
        made(condition('applicability', 'text/fhirpath')).then(
          () => true,
          (error: unknown) => !String(error).includes('unsupported expression language'),
        ),
    ],
    [
      'a contained definition',
      'definitionCanonical may name a contained resource by #id',
      async () =>
        (await otherApply(policyExamples(), patients[0]!)).some(
          ({ action, request }) => action.definitionCanonical?.startsWith('#') && request !== undefined,
        ),
    ],
  ];

  it.each(gaps)('not yet: %s', async (_, __, isDone) => {
    expect(await isDone()).toBe(false);
  });

  it('does otherwise apply such an action, where its condition is true', async () => {
    expect((await made({}))?.request?.resourceType).toBe('Task');
    expect((await made(condition('stop')))?.request?.resourceType).toBe('Task');
    expect((await made(condition('applicability')))?.request?.resourceType).toBe('Task');
    expect(await made(condition('applicability'), false)).toBeUndefined();
    const template = await otherApply(policyExamples(), patients[0]!);
    expect(template.filter(({ action }) => action.definitionCanonical?.startsWith('#'))).toHaveLength(1);
  });

  it('proposes what nobody ordered, since it reads no trigger', () => {
    const proposed = all.filter(({ action, request }) => isOrdered(action) && request !== undefined);
    expect([...new Set(proposed.map(({ action }) => activityOf(action)))].sort()).toEqual([
      'blood-sampling',
      'removal',
      'repair',
    ]);
    // The insertion has no definition: there is nothing to carry out.
    expect(
      all
        .filter(({ action }) => activityOf(action) === 'insertion' && !forbids(action))
        .map(({ request }) => request),
    ).toEqual(patients.map(() => undefined));
  });
});
