import { applyPlan, readRecords } from '@dwellward/core';
import { bundledPlan, bundledPlanNames, readPolicy, type Policy } from '@dwellward/policy';
import { readFileSync } from 'node:fs';
import type { Bundle, CarePlan, FhirResource, RequestGroup, Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { faultsOf } from './r4-validators.js';

const unit = JSON.parse(
  readFileSync(new URL('../../fixtures/lanternfern-unit.json', import.meta.url), 'utf8'),
) as Bundle;
const records = readRecords((unit.entry ?? []).map(({ resource }) => ({ resource })));
const when = { asOf: '2026-11-25T07:30:00+01:00', zone: 'Europe/Berlin' };
const patients = [...new Set(records.lines.map(({ patient }) => patient.ref))];

function policyOf(...plans: unknown[]): Policy {
  const reading = readPolicy(plans);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

const policy = policyOf(...bundledPlanNames.map(bundledPlan));
const context = {
  encounter: 'Encounter/larch-lapwing-stay',
  practitioner: 'Practitioner/someone',
  organization: 'Organization/hospital',
};

function parts(plan: CarePlan): { group: RequestGroup; tasks: readonly Task[] } {
  const [group, ...tasks] = (plan.contained ?? []) as [RequestGroup, ...Task[]];
  return { group, tasks };
}

/** A contained resource as it would be on its own: validators look into it only then. */
const alone = (resource: FhirResource): FhirResource =>
  JSON.parse(JSON.stringify(resource).replaceAll('"#', '"urn:uuid:')) as FhirResource;

describe('PlanDefinition/$apply', () => {
  // HL7 FHIR R4, OperationDefinition/PlanDefinition-apply: the result is a CarePlan with a single activity represented
  // by a RequestGroup; the RequestGroup has actions for each of the applicable actions of the plan.
  it.each(patients)('gives a CarePlan of one RequestGroup for %s, valid for both validators', (subject) => {
    const plan = applyPlan(records, policy, { subject, ...context }, when);
    const { group, tasks } = parts(plan);
    expect(plan.activity).toEqual([{ reference: { reference: '#requests' } }]);
    expect(group).toMatchObject({ resourceType: 'RequestGroup', status: 'draft', intent: 'proposal' });
    expect(group.action?.map(({ resource }) => resource?.reference) ?? []).toEqual(
      tasks.map(({ id }) => `#${id ?? ''}`),
    );
    for (const task of tasks) {
      expect(task).toMatchObject({
        resourceType: 'Task',
        status: 'draft',
        intent: 'proposal',
        for: { reference: subject },
      });
    }
    expect([plan, alone(group), ...tasks.map(alone)].flatMap(faultsOf)).toEqual([]);
  });

  it('would not be valid without its status, so that the validators do look', () => {
    const { group } = parts(applyPlan(records, policy, { subject: 'Patient/larch-lapwing' }, when));
    expect(faultsOf({ ...alone(group), status: undefined } as unknown as FhirResource)).not.toEqual([]);
  });

  it('names the plans with their versions, the subject and the context', () => {
    const plan = applyPlan(records, policy, { subject: 'Patient/larch-lapwing', ...context }, when);
    const canonicals = bundledPlanNames.map((name) => {
      const { url, version } = bundledPlan(name);
      return `${url ?? ''}|${version ?? ''}`;
    });
    expect(plan.instantiatesCanonical).toEqual(canonicals);
    expect(plan).toMatchObject({
      status: 'draft',
      intent: 'proposal',
      subject: { reference: 'Patient/larch-lapwing' },
      encounter: { reference: context.encounter },
      author: { reference: context.practitioner },
      contributor: [{ reference: context.organization }],
      created: when.asOf,
    });
  });

  it('evaluates the conditions: the plan for low counts has an action for who has one under gauze', () => {
    const neutropenia = policyOf(bundledPlan('neutropenia'));
    const actions = (subject: string) => {
      const { group } = parts(applyPlan(records, neutropenia, { subject }, when));
      return (group.action ?? []).filter(({ id }) => id?.startsWith('dressing-change-gauze-low-neutrophils'));
    };
    expect(actions('Patient/larch-lapwing')).toMatchObject([
      {
        timingPeriod: { start: '2026-11-25T03:00:00+01:00', end: '2026-11-25T09:00:00+01:00' },
        documentation: [{ type: 'citation' }],
      },
    ]);
    expect(actions('Patient/hemlock-heron')).toEqual([]);
    expect(actions('Patient/whitebeam-plover')).toEqual([]);
  });

  it('gives a hold as a note, and one that says so where there is no line', () => {
    const hornbeam = parts(applyPlan(records, policy, { subject: 'Patient/hornbeam-curlew' }, when));
    expect(hornbeam.group.note?.map(({ text }) => text).join(' ')).toMatch(
      /Hold: no infusion start on .* for now \(No infusion after a repair until/,
    );
    const nobody = applyPlan(records, policy, { subject: 'Patient/nobody' }, when);
    expect(parts(nobody).group).toMatchObject({
      note: [{ text: 'No line of the subject is on record: there is nothing to propose.' }],
    });
    expect(faultsOf(nobody)).toEqual([]);
  });

  it('gives the same twice, and leaves the record and the policy as they are', () => {
    const before = JSON.stringify([records, policy]);
    const once = JSON.stringify(applyPlan(records, policy, { subject: 'Patient/larch-lapwing' }, when));
    expect(JSON.stringify(applyPlan(records, policy, { subject: 'Patient/larch-lapwing' }, when))).toBe(once);
    expect(JSON.stringify([records, policy])).toBe(before);
  });
});
