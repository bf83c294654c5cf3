import { identifierSystem } from '@dwellward/profiles';
import type { BundleEntry, Device, Task } from 'fhir/r4.js';
import type { Care } from '../care.js';

/** A care for tests of what is around it: one Task per line, whose description counts the patient’s Procedures. */
export const countingCare: Care = {
  difference({ patient, record, existing }) {
    const of = (type: string) =>
      record.map(({ resource }) => resource).filter(({ resourceType }) => resourceType === type);
    const description = `${of('Procedure').length} procedures, ${of('Device').length} devices`;
    const entry = of('Device').flatMap((device): BundleEntry[] => {
      if ((device as Device).parent !== undefined) return [];
      const value = `task-of-${device.id}`;
      const task: Task = {
        resourceType: 'Task',
        identifier: [{ system: identifierSystem.dueItem, value }],
        status: 'requested',
        intent: 'plan',
        description,
        focus: { reference: `Device/${device.id}` },
        for: { reference: patient },
      };
      const old = existing.find((one) => (one as Task).identifier?.[0]?.value === value);
      if (old?.id === undefined) {
        const ifNoneExist = `identifier=${identifierSystem.dueItem}|${value}`;
        return [
          {
            fullUrl: `urn:uuid:${value}`,
            resource: task,
            request: { method: 'POST', url: 'Task', ifNoneExist },
          },
        ];
      }
      if ((old as Task).description === description) return [];
      const ifMatch = `W/"${old.meta?.versionId}"`;
      return [
        { resource: { ...task, id: old.id }, request: { method: 'PUT', url: `Task/${old.id}`, ifMatch } },
      ];
    });
    return {
      bundle: entry.length === 0 ? undefined : { resourceType: 'Bundle', type: 'transaction', entry },
    };
  },
};
