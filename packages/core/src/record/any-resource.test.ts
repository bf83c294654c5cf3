import { describe, expect, it } from 'vitest';
import { readRecords } from './read-records.js';
import {
  berlin,
  event,
  every,
  days,
  line,
  patient,
  policyOf,
  rule,
  said,
  type Resource,
} from '../record.kit.js';
import { dueCare } from '../due/due-care.js';

const policy = policyOf(rule('Dressing', every(days(7))));
const when = berlin('2026-11-25T12:00:00+01:00');

/** One resource that can’t be read among those of a line that can. */
function withBad(resource: unknown) {
  const records = readRecords(
    [patient(), line(), event('insertion', '2026-11-20T09:00:00+01:00'), resource].map((one) => ({
      resource: one,
    })),
  );
  const [care] = records.lines.map((one) => dueCare(one, policy, when));
  return { records, due: care?.items.map(({ dueBy }) => dueBy) };
}

function nested(levels: number): unknown {
  let value: unknown = 'x';
  for (let i = 0; i < levels; i++) value = [value];
  return value;
}

const order = (repeat: unknown): Resource => ({
  resourceType: 'ServiceRequest',
  id: 'order',
  status: 'active',
  intent: 'order',
  code: { coding: [{ code: 'flush' }] },
  subject: { reference: 'Patient/p' },
  occurrenceTiming: { repeat },
});

describe('one bad resource never blanks the list of the unit', () => {
  it('I4: nested twenty thousand deep is named, and everything else is computed', () => {
    const { records, due } = withBad({ ...event('flush', '2026-11-24T08:00:00Z'), note: nested(20_000) });
    expect(due).toEqual(['2026-11-27T09:00:00+01:00']);
    expect(said(records.issues.map(({ sentence }) => sentence))).toEqual([
      'It is nested too deeply to be a resource of FHIR. Nothing of it was used.',
    ]);
  });

  it.each(['constructor', '__proto__', 'toString', 'hasOwnProperty', 'valueOf'])(
    'I4: an order whose timing has an element %s is named, and everything else is computed',
    (key) => {
      const repeat: unknown = JSON.parse(`{"frequency":1,"period":1,"periodUnit":"d","${key}":"x"}`);
      const { records, due } = withBad(order(repeat));
      expect(due).toContain('2026-11-27T09:00:00+01:00');
      expect(records.issues.map(({ resource }) => resource)).toContain('ServiceRequest/order');
    },
  );

  it.each(['constructor', '__proto__', 'toString'])(
    'I4: a status, a unit or a code that reads %s is no key of a table of ours',
    (word) => {
      const count = {
        resourceType: 'Observation',
        id: 'anc',
        status: word,
        code: { coding: [{ system: 'http://loinc.org', code: '751-8' }] },
        subject: { reference: 'Patient/p' },
        effectiveDateTime: '2026-11-24T08:00:00Z',
        valueQuantity: { value: 1, unit: word },
      };
      const stay = {
        resourceType: 'Encounter',
        id: 'e',
        status: 'in-progress',
        class: { code: word },
        subject: { reference: 'Patient/p' },
      };
      expect(withBad(count).due).toEqual(['2026-11-27T09:00:00+01:00']);
      expect(withBad(stay).records.lines[0]?.patient.stays).toEqual([]);
    },
  );
});
