import type { DetectedIssue, Flag, Provenance } from 'fhir/r4.js';
import { coding, identifierSystem, standard, writtenProfile } from '@dwellward/profiles';
import { digest } from '../model/digest.js';
import { planOf } from '../explain/explain.js';
import type { LumenWarning } from '../lumens/warnings.js';
import type { AsOf, DueItem, Hold } from '../model/care.js';
import { issueKey } from '../record/issues.js';
import type { RecordIssue, Ref } from '../model/record.js';
import type { Say } from '../words/say.js';
import { ourName, withProfile, withWorkedOut } from './own.js';
import { isResource, referenceTo } from './references.js';

/** What must not be done until when, pointing to the line or lumen and to the event behind it. */
export function flagOf(hold: Hold, patient: Ref, say: Say): Flag {
  const details = [hold.target.device, ...(hold.because ? [hold.because] : [])];
  return withItsFacts(writtenProfile.holdFlag, {
    resourceType: 'Flag',
    extension: details.map((ref) => ({ url: standard.flagDetail, valueReference: referenceTo(ref) })),
    identifier: [{ system: identifierSystem.hold, value: hold.id }],
    status: 'active',
    code: {
      coding: [coding('hold', hold.activity)],
      text: say({
        code: 'flag-of-hold',
        activity: hold.activity,
        target: hold.target.name,
        title: hold.rule.title,
      }),
    },
    subject: referenceTo(patient),
    period: { start: hold.from, ...(hold.until ? { end: hold.until } : {}) },
  });
}

/** A damaged or blocked lumen, pointing to the lumen or the line and to what was found. */
export function lumenFlagOf({ id, fact, name, device }: LumenWarning, patient: Ref, say: Say): Flag {
  return withItsFacts(writtenProfile.lumenFlag, {
    resourceType: 'Flag',
    extension: [device, ...fact.because].map((ref) => ({
      url: standard.flagDetail,
      valueReference: referenceTo(ref),
    })),
    identifier: [{ system: identifierSystem.lumenWarning, value: id }],
    status: 'active',
    code: {
      coding: [coding('lumenState', fact.state)],
      text: say({ code: 'flag-of-lumen', state: fact.state, name, why: fact.why }),
    },
    subject: referenceTo(patient),
    ...(fact.since ? { period: { start: fact.since } } : {}),
  });
}

/** A Flag or an issue says what was worked out of it; when an issue was seen first is no part of that. */
function withItsFacts<Kind extends Flag | DetectedIssue>(profile: string, resource: Kind): Kind {
  const seen = resource.resourceType === 'DetectedIssue' ? { identifiedDateTime: undefined } : {};
  return withProfile(withWorkedOut(resource, JSON.stringify({ ...resource, ...seen })), profile);
}

/** The identity of an issue: the same issue of the same resource is the same DetectedIssue. */
export function issueId(issue: RecordIssue): string {
  return digest('issue', issueKey(issue));
}

/** A contradiction in the record, with the resource and the path. */
export function detectedIssueOf(issue: RecordIssue, when: AsOf, say: Say): DetectedIssue {
  const implicated = [issue.resource, ...(issue.line ? [issue.line] : []), ...issue.related];
  const refs = [...new Set(implicated.map((ref) => ref.split('#')[0] as string))].filter(isResource);
  return withItsFacts(writtenProfile.recordIssue, {
    resourceType: 'DetectedIssue',
    identifier: [{ system: identifierSystem.recordIssue, value: issueId(issue) }],
    status: 'final',
    code: { coding: [coding('recordIssue', issue.code)] },
    severity: issue.severity,
    ...(issue.patient && isResource(issue.patient) ? { patient: referenceTo(issue.patient) } : {}),
    identifiedDateTime: when.asOf,
    ...(refs.length > 0 ? { implicated: refs.map(referenceTo) } : {}),
    evidence: [{ code: [{ text: issue.path }] }],
    detail: say({ code: 'issue-at', resource: issue.resource, path: issue.path, issue: issue.sentence }),
  });
}

/** Every resource that an item was computed from. */
export function sourcesOf(item: DueItem): Ref[] {
  const refs = [
    ...(item.countedFrom.ref ? [item.countedFrom.ref] : []),
    ...item.movedBy,
    ...item.facts.flatMap(({ refs: used }) => used),
    ...(item.heldBy?.because ? [item.heldBy.because] : []),
    ...(item.basedOn ? [item.basedOn] : []),
    item.target.device,
  ];
  return [...new Set(refs.map((ref) => ref.split('#')[0] as string))].filter(isResource).sort();
}

/** Why a Task is as it is: the resources used and the version of the policy. */
export function provenanceOf(item: DueItem, task: string, when: AsOf, say: Say): Provenance {
  const sources = sourcesOf(item);
  const policy = planOf(item.rule);
  return {
    resourceType: 'Provenance',
    meta: {
      profile: [writtenProfile.provenance],
      tag: [
        {
          system: identifierSystem.provenance,
          code: digest(item.id, policy, item.opens, item.dueBy, ...sources),
        },
      ],
    },
    target: [{ reference: task }],
    recorded: when.asOf,
    ...(item.rule.origin.order ? {} : { policy: [policy] }),
    activity: { text: say({ code: 'worked-out' }) },
    agent: [
      {
        type: {
          coding: [
            {
              system: 'http://terminology.hl7.org/CodeSystem/provenance-participant-type',
              code: 'assembler',
              display: 'Assembler',
            },
          ],
        },
        who: { display: ourName },
      },
    ],
    entity: sources.map((ref) => ({ role: 'source', what: referenceTo(ref) })),
  };
}
