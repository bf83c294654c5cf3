import { identifierSystem } from '@dwellward/profiles';
import { createHash } from 'node:crypto';
import type { AuditEvent, Bundle } from 'fhir/r4.js';

/**
 * The same difference with an AuditEvent of it: that Dwellward wrote for this patient, when, and nothing of what. Its tag is
 * made from what is written, so that the same transaction sent twice leaves one.
 * @param patient `Patient/12`.
 * @param recorded an instant, ISO 8601.
 */
export function audited(bundle: Bundle, patient: string, recorded: string): Bundle {
  const written = JSON.stringify([patient, bundle.entry]);
  const code = createHash('sha256').update(written).digest('hex').slice(0, 32);
  const tag = { system: identifierSystem.provenance, code };
  const resource: AuditEvent = {
    resourceType: 'AuditEvent',
    meta: { tag: [tag] },
    type: { system: 'http://terminology.hl7.org/CodeSystem/audit-event-type', code: 'rest' },
    subtype: [{ system: 'http://hl7.org/fhir/restful-interaction', code: 'transaction' }],
    action: 'E',
    recorded,
    outcome: '0',
    agent: [{ who: { display: dwellward }, requestor: true }],
    source: { observer: { display: dwellward } },
    entity: [
      {
        what: { reference: patient },
        type: { system: 'http://terminology.hl7.org/CodeSystem/audit-entity-type', code: '1' },
        role: { system: 'http://terminology.hl7.org/CodeSystem/object-role', code: '1' },
      },
    ],
  };
  const request = {
    method: 'POST',
    url: 'AuditEvent',
    ifNoneExist: `_tag=${encodeURIComponent(`${tag.system}|${tag.code}`)}`,
  } as const;
  return { ...bundle, entry: [...(bundle.entry ?? []), { resource, request }] };
}

const dwellward = 'Dwellward';
