import { applyPlan } from '@dwellward/core';
import { parseArgs } from '../args.js';
import { CliError, type exitCodes } from '../errors.js';
import { readRecord, recordHelp, recordOptions } from '../record.js';
import type { Io } from '../io.js';
import { loadPolicy, reportNotInForce } from '../policies.js';
import { placesUnread, reportUnreadable, whenOf } from './care.js';

export const applyHelp = `dwellward apply PLAN --on FILE|FOLDER|- --patient ID --at INSTANT --zone ZONE [options]

What the operation PlanDefinition/$apply of FHIR R4 gives for a patient: a CarePlan with one RequestGroup, whose actions
are the applicable actions of the plan, each with a Task. RequestGroup and Tasks are contained; all are drafts and
proposals. Nothing is stored.

  PLAN           a PlanDefinition file or a bundled policy by its name, applied by itself
  --on           a FHIR Bundle, a folder of NDJSON files, or - for a Bundle from standard input
  --patient      the subject, as Patient/ID or ID
  --at, --zone   the moment to compute for and the unit's IANA time zone
  --policy       a plan to lay PLAN over, such as base, where PLAN is a layer; may be repeated
${recordHelp}
  --encounter, --practitioner, --organization
                 references of the context

Example
  dwellward apply neutropenia --policy base --on unit.json --patient larch-lapwing \\
    --at 2026-11-25T07:30:00+01:00 --zone Europe/Berlin

Supported of the operation: one Patient as subject, encounter, practitioner, organization; conditions in FHIRPath over
the facts of the record; timing, triggers, relatedAction; contained ActivityDefinitions; documentation.
Not supported: several subjects or another type of subject; userType, userLanguage, userTaskContext, setting,
settingContext; goals; nested actions and how they are grouped and selected; libraries and CQL; definitions outside of
the plan. dwellward policy check names each of them in a plan.
Of several applicable actions of one activity on one target the most protective makes the Task; the others are named in
the action's description. Holds are notes of the RequestGroup.

Exit codes are those of dwellward due.
`;

export async function apply(args: string[], io: Io): Promise<keyof typeof exitCodes> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      on: { type: 'string' },
      patient: { type: 'string' },
      at: { type: 'string' },
      zone: { type: 'string' },
      policy: { type: 'string', multiple: true },
      encounter: { type: 'string' },
      practitioner: { type: 'string' },
      organization: { type: 'string' },
      ...recordOptions,
      help: { type: 'boolean', short: 'h' },
    },
  });
  if (values.help) {
    io.write(applyHelp);
    return 'done';
  }
  const [plan, ...more] = positionals;
  if (plan === undefined || more.length > 0) throw new CliError('usage', 'apply takes one plan.');
  if (values.on === undefined)
    throw new CliError('usage', '--on is missing: a Bundle file, a folder of NDJSON files, or -.');
  if (values.patient === undefined) throw new CliError('usage', '--patient is missing: the subject.');
  const when = whenOf(values, io);
  const policy = await loadPolicy([...(values.policy ?? []), plan], { 'only-policy': true }, io);
  reportNotInForce(policy, when, io);
  const records = await readRecord(values.on, values, io);
  const patients = [...new Set(records.lines.map(({ patient }) => patient.ref))];
  const subject = patients.find((ref) => ref === values.patient || ref === `Patient/${values.patient ?? ''}`);
  if (subject === undefined) {
    throw new CliError(
      'usage',
      `--patient ${values.patient}: no line of such a patient is in the input. Patients with lines: ${patients.join(', ') || 'none'}.`,
    );
  }
  const encounter = referenceOf(values.encounter, 'Encounter');
  const practitioner = referenceOf(values.practitioner, 'Practitioner');
  const organization = referenceOf(values.organization, 'Organization');
  const carePlan = applyPlan(
    records,
    policy,
    {
      subject,
      ...(encounter ? { encounter } : {}),
      ...(practitioner ? { practitioner } : {}),
      ...(organization ? { organization } : {}),
    },
    when,
  );
  io.write(`${JSON.stringify(carePlan, null, 2)}\n`);
  return reportUnreadable(placesUnread(records), io);
}

function referenceOf(value: string | undefined, type: string): string | undefined {
  return value === undefined || value.includes('/') ? value : `${type}/${value}`;
}
