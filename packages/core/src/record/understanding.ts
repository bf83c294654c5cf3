import {
  activityRow,
  connectorConditions,
  dressingConditions,
  dressingTypes,
  findingRow,
  lineCareActivities,
  lineFindings,
  securementTypes,
  standard,
  valuesOf,
  wordsForNo,
  type LineFinding,
} from '@dwellward/profiles';
import {
  activityOf,
  codesOf,
  findingOf,
  isChartedItem,
  isOtherBusiness,
  isOtherDevice,
  lineTypeOf,
  ownCodes,
  unknownOwnCode,
} from './codes.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import { counted, gathered, saidBy, type Unclear } from './not-understood.js';
import { deviceRefsOf } from './procedure-devices.js';
import { isResultCode } from './results.js';
import type { Codeable, Reference, Shape } from './shapes.js';
import { isTemperatureCode } from './temperatures.js';
import type { NotUnderstood, OtherBusiness, Ref } from '../model/record.js';

/** What the reading of the lines knows, and what stands in the record beside it is judged by. */
export interface KnownLines {
  /** Whether a Device is a line or a lumen. */
  readonly isLine: (device: Ref) => boolean;
  /** Who has a line, or is to get one. */
  readonly patients: ReadonlySet<Ref>;
  /** True where no line was found at all. */
  readonly none: boolean;
  /** The Observations that a map reads as rows of a chart: by themselves our codes of lines and rows say nothing there. */
  readonly rows: ReadonlySet<Ref>;
}

/** One resource: understood, of other business, or what of it was not understood. */
type Verdict = 'understood' | 'other' | readonly Omit<Unclear, 'ref' | 'patient' | 'resourceType'>[];

/**
 * What was given of lines and not understood, and how much is plainly of other business.
 *
 * A resource concerns a line where it points to the line or a lumen, whatever its code. Of a patient who has a line, a
 * Procedure concerns it unless its category says otherwise (a nurse charts a flush without naming the line), and an
 * Observation where its category is procedure, examination or therapy, or it has neither a category nor a LOINC code
 * (results and vital signs have one, and line care has none there). A Device of any patient that is no known line may be
 * one: the gravest silence is a line that is none. Everything else is counted, and no more: a drug that went in another way,
 * a result that nobody asked for, a patient without a line. What its status withdraws tells of nothing.
 */
export function understood(
  index: ResourceIndex,
  lines: KnownLines,
): { readonly notUnderstood: NotUnderstood[]; readonly otherBusiness: OtherBusiness[] } {
  const unclear: Unclear[] = [];
  const other = new Map<string, number>(index.unread);
  const judge = <Name extends NotUnderstood['resourceType']>(
    type: Name,
    verdictOf: (one: Indexed<Name>, subject: Ref | undefined) => Verdict,
  ) => {
    for (const one of index.all(type)) {
      const { subject, patient } = one.value as { subject?: Reference; patient?: Reference };
      const whose = index.nameOf(subject ?? patient, one.ref);
      const verdict = verdictOf(one, whose);
      if (verdict === 'other') other.set(type, (other.get(type) ?? 0) + 1);
      else if (verdict !== 'understood')
        unclear.push(
          ...verdict.map((what) => ({ ...what, ref: one.ref, patient: whose, resourceType: type })),
        );
    }
  };
  const concerns = (subject: Ref | undefined) => subject !== undefined && lines.patients.has(subject);
  // Where no line was found at all, what hangs on a Device that was not understood may be of a line.
  const suspects = new Set<Ref>();
  const isLine = (device: Ref) => lines.isLine(device) || suspects.has(device);
  const toLine = (references: readonly (Reference | undefined)[], from: Ref) =>
    references.map((one) => index.nameOf(one, from)).some((one) => one !== undefined && isLine(one));

  const whereOf = (devices: readonly Ref[]): Where =>
    devices.some(lines.isLine) ? 'on-line' : devices.some(isLine) ? 'on-suspect' : 'elsewhere';

  judge('Device', (one, patient) => ofDevice(one, patient, lines, toLine));
  if (lines.none) for (const { ref } of unclear) suspects.add(ref);
  judge('Procedure', (one, subject) =>
    ofProcedure(one, whereOf(deviceRefsOf(one, index)), concerns(subject)),
  );
  judge('Observation', (one, subject) =>
    ofObservation(
      one,
      toLine([...(one.value.focus ?? []), one.value.device], one.ref),
      concerns(subject),
      lines.rows.has(one.ref),
    ),
  );
  judge('MedicationAdministration', ({ ref, value }) =>
    toLine(value.device ?? [], ref)
      ? ofStatus('MedicationAdministration', value.status, administrationStates)
      : (value.device ?? []).length > 0
        ? 'understood'
        : 'other',
  );
  judge('ServiceRequest', ({ ref, value }) => {
    if (activityOf(value.code) !== undefined) return ofStatus('ServiceRequest', value.status, requestStates);
    if (activityOf(value.code, true) !== undefined) return 'understood';
    if (!toLine(value.supportingInfo ?? [], ref) || withdrawn.has(value.status ?? '')) return 'other';
    return [{ path: 'ServiceRequest.code', ...saidBy(value.code), onLine: true }];
  });
  return { notUnderstood: gathered(unclear), otherBusiness: counted(other) };
}

// HL7 FHIR R4, event-status, observation-status, medication-admin-status and request-status; what withdraws a resource; `unknown` says that it isn’t known.
const procedureStates = new Set(
  'preparation in-progress not-done on-hold stopped completed entered-in-error'.split(' '),
);
const observationStates = new Set(
  'registered preliminary final amended corrected cancelled entered-in-error'.split(' '),
);
const administrationStates = new Set(
  'in-progress not-done on-hold completed entered-in-error stopped'.split(' '),
);
const requestStates = new Set('draft active on-hold revoked completed entered-in-error unknown'.split(' '));
const withdrawn = new Set(['inactive', 'entered-in-error', 'cancelled', 'revoked', 'not-done', 'registered']);

function ofStatus(type: string, status: string | undefined, states: ReadonlySet<string>): Verdict {
  if (states.has(status ?? '')) return 'understood';
  return [{ path: `${type}.status`, ...(status === undefined ? {} : { code: status }), onLine: true }];
}

function ofDevice(
  { ref, value }: Indexed<'Device'>,
  patient: Ref | undefined,
  lines: KnownLines,
  toLine: (references: readonly (Reference | undefined)[], from: Ref) => boolean,
): Verdict {
  if (lines.isLine(ref) || lineTypeOf(value.type) === 'lumen') return 'understood';
  const onLine = toLine([value.parent], ref);
  const past = withdrawn.has(value.status ?? '') && !(lines.none && value.status === 'inactive');
  if (past || isOtherDevice(value.type) || isOtherBusiness(value.type)) return 'other';
  if (!onLine && patient === undefined && !lines.none) return 'other';
  return [{ path: 'Device.type', ...saidBy(value.type), onLine }];
}

// SNOMED CT, R4’s value set procedure-category: counselling, education, psychiatric, social service and diagnostic
// procedure. An X-ray of the tip is one of the last: where it names no line it confirms none.
const otherProcedures = new Set(['409063005', '409073007', '24642003', '410606002', '103693007']);

/** Whether something was done to a line, to a Device that may be one, or to none. */
type Where = 'on-line' | 'on-suspect' | 'elsewhere';

function ofProcedure({ value }: Indexed<'Procedure'>, where: Where, concerned: boolean): Verdict {
  const onLine = where !== 'elsewhere';
  // A code that means care of a line only where it was done to one was read of none on a Device that is not known as one.
  const activity = activityOf(value.code, where === 'on-line');
  // A code of ours that is misspelt means a line, whoever’s.
  const own = unknownOwnCode('lineCareActivity', lineCareActivities, value.code) !== undefined;
  if (!onLine && !concerned && !own) return activity === undefined ? 'other' : 'understood';
  if (withdrawn.has(value.status ?? '')) return activity === undefined ? 'other' : 'understood';
  if (activity === undefined) {
    if (isOtherBusiness(value.code)) return 'other';
    const elsewhere = codesOf(standard.snomed, value.category).some((code) => otherProcedures.has(code));
    return !onLine && !own && elsewhere
      ? 'other'
      : [{ path: 'Procedure.code', ...saidBy(value.code), onLine }];
  }
  const status = ofStatus('Procedure', value.status, procedureStates);
  return status === 'understood' && onLine && activityRow(activity).putsDressingOn === 'always'
    ? ofDressing(value.usedCode)
    : status;
}

/** Of a dressing change: which dressing was put on, where it is said and none of it is known. */
function ofDressing(used: readonly Codeable[] | undefined): Verdict {
  const all = (used ?? []).filter((one) => unknownOwnCode('dressingType', dressingTypes, one) === undefined);
  if (ownCodes('dressingType', dressingTypes, ...all).length > 0) return 'understood';
  const unknown = all.filter((one) => ownCodes('securementType', securementTypes, one).length === 0);
  return unknown.map((one) => ({ path: 'Procedure.usedCode', ...saidBy(one), onLine: true }));
}

// HL7 FHIR R4, observation-category: of these a line’s signs can be charted under.
const categorySystem = 'http://terminology.hl7.org/CodeSystem/observation-category';
const ofCare = new Set(['procedure', 'exam', 'therapy']);

function ofObservation(
  { value }: Indexed<'Observation'>,
  onLine: boolean,
  concerned: boolean,
  isRow: boolean,
): Verdict {
  const finding = findingOf(value.code);
  if (finding !== undefined) {
    if (!onLine) return 'understood';
    const status = ofStatus('Observation', value.status, observationStates);
    if (status !== 'understood') return status;
    return [...unknownValues(finding, value), ...unknownComponents(value)];
  }
  if (isOtherBusiness(value.code)) return 'other';
  if (isRow && isChartedItem(value.code)) return 'understood';
  const codes = [value.code, ...(value.component ?? []).map(({ code }) => code)];
  // A result of a patient without a line is one of many.
  if (codes.some((code) => isResultCode(code) || isTemperatureCode(code))) {
    if (concerned && value.status !== 'unknown')
      return ofStatus('Observation', value.status, observationStates);
    return withdrawn.has(value.status ?? '') || value.subject === undefined ? 'understood' : 'other';
  }
  const own = unknownOwnCode('lineFinding', lineFindings, value.code) !== undefined;
  if (withdrawn.has(value.status ?? '')) return 'other';
  if (!onLine && !own && !(concerned && isOfCare(value))) return 'other';
  return [{ path: 'Observation.code', ...saidBy(value.code), onLine }];
}

function isOfCare({ category = [], code }: Shape<'Observation'>): boolean {
  const said = category.flatMap((one) => codesOf(categorySystem, one));
  if (said.length > 0) return said.some((one) => ofCare.has(one));
  return codesOf(standard.loinc, code).length === 0;
}

/** The value of a coded finding where none of its codes is one that the finding can have. */
function unknownValues(finding: LineFinding, value: Shape<'Observation'>) {
  const concept = value.valueCodeableConcept;
  const text = value.valueString?.trim();
  if (findingRow(finding).kind !== 'coded' || (concept === undefined && !text)) return [];
  const allowed = new Set(valuesOf(finding) ?? []);
  const said = [...(concept?.coding ?? []).flatMap(({ code }) => code ?? []), ...(text ? [text] : [])];
  // A misspelt one of ours is an issue of its own.
  const misspelt =
    unknownOwnCode('dressingCondition', dressingConditions, concept) ??
    unknownOwnCode('connectorCondition', connectorConditions, concept);
  if (misspelt !== undefined || said.some((one) => allowed.has(one) || wordsForNo.has(one))) return [];
  return [
    {
      path: 'Observation.value',
      ...(concept === undefined ? { ...(text ? { code: text } : {}) } : saidBy(concept)),
      onLine: true,
    },
  ];
}

function unknownComponents({ component = [] }: Shape<'Observation'>) {
  return component
    .filter(({ code }) => findingOf(code) === undefined)
    .map(({ code }) => ({ path: 'Observation.component.code', ...saidBy(code), onLine: true }));
}
