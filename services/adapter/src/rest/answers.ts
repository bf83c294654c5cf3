import {
  Calendar,
  dueBundle,
  english,
  handover,
  instantMs,
  inWords,
  itemOf,
  lineView,
  plainCare,
  previewPolicy,
  renderExplanation,
  renderHandover,
  renderPreview,
  speaker,
  type DueItem,
} from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import type { Bundle, OperationOutcome } from 'fhir/r4.js';
import type { Unit } from '../board-api/index.js';
import type { PatientCare } from '../hooks/index.js';

/** Due care of one patient as plain JSON, with what the reading may lack. */
export function dueJson({ records, cares, when, doubts }: PatientCare, policy: Policy): object {
  return { ...plainCare({ records, cares, policy, when }), doubts };
}

/** The same as a FHIR Bundle; what the reading may lack is an OperationOutcome in it. */
export function dueFhir({ records, cares, when, doubts }: PatientCare, policy: Policy): Bundle {
  const bundle = dueBundle(records, cares, policy, when);
  if (doubts.length === 0) return bundle;
  const outcome: OperationOutcome = {
    resourceType: 'OperationOutcome',
    issue: doubts.map((text) => ({ severity: 'warning', code: 'incomplete', details: { text } })),
  };
  return { ...bundle, entry: [...(bundle.entry ?? []), { resource: outcome }] };
}

/** Why care of a line is due, under headings and as a page of text; undefined where the patient has no such line. */
export function explanationJson(
  { records, cares, when, doubts, patient }: PatientCare,
  ref: string,
  policy: Policy,
): object | undefined {
  const care = cares.find(({ line }) => line === ref);
  if (!care) return undefined;
  const line = records.lines.find((one) => one.ref === ref);
  const { whys, issues } = lineView(records, care, policy, when);
  const text = renderExplanation({ care, ...(line ? { line } : {}), policy, when });
  return { asOf: when.asOf, zone: when.zone, patient, line: ref, whys, issues, text, doubts };
}

/** The hand-over of the unit for the next hours. */
export function handoverJson(
  unit: Unit,
  hours: number,
  ofUnit: string | undefined,
  doubts: readonly string[],
): object {
  const { records, when } = unit;
  const calendar = new Calendar(when.zone);
  const to = calendar.text(instantMs(when.asOf) + hours * 3_600_000);
  const given = handover(
    records,
    unit.cares,
    unit.policy,
    { from: when.asOf, to, zone: when.zone },
    ofUnit === undefined ? {} : { unit: ofUnit },
  );
  const say = speaker(english, calendar);
  return {
    from: given.from,
    to: given.to,
    zone: given.zone,
    text: renderHandover(given, { colour: false, columns: 96 }),
    patients: given.patients.map(({ patient, name, unit: ward, bed, emergency, supplies }) => ({
      patient,
      ...(name === undefined ? {} : { name }),
      ...(ward === undefined ? {} : { unit: ward }),
      ...(bed === undefined ? {} : { bed }),
      emergency,
      supplies: inWords(supplies, say),
    })),
    supplies: inWords(given.supplies, say),
    doubts,
  };
}

/** What would change for whom on the unit with another policy. */
export function previewJson(unit: Unit, after: Policy, plan: string, doubts: readonly string[]): object {
  const { records, when } = unit;
  const preview = previewPolicy(records, unit.policy, after, when);
  const say = speaker(english, new Calendar(when.zone));
  const window = ({ opens, dueBy, state, rule }: DueItem) => ({ opens, dueBy, state, rule: rule.id });
  return {
    asOf: when.asOf,
    zone: when.zone,
    same: preview.same,
    changedPatients: preview.changedPatients,
    unchangedPatients: preview.unchangedPatients,
    changes: preview.changes.map((change) => ({
      kind: change.kind,
      patient: change.patient,
      line: change.line,
      activity: itemOf(change).activity,
      target: say(itemOf(change).target.name),
      ...(change.before ? { before: window(change.before) } : {}),
      ...(change.after ? { after: window(change.after) } : {}),
      rule: { id: change.rule.id, title: change.rule.title },
      notKnown: change.notKnown,
    })),
    holds: preview.holds.map(({ kind, patient, hold }) => ({
      kind,
      patient,
      activity: hold.activity,
      target: say(hold.target.name),
      from: hold.from,
      ...(hold.until === undefined ? {} : { until: hold.until }),
      rule: hold.rule.id,
    })),
    text: renderPreview(preview, records, { plan, zone: when.zone, columns: 0 }),
    doubts,
  };
}
