import {
  identifierSystem,
  noSuchAllergy,
  standard,
  substanceCodes,
  substanceRow,
  type SubstanceCode,
} from '@dwellward/profiles';
import { codesOf } from './codes.js';
import type { ResourceIndex } from './index-resources.js';
import { meansOneOf } from './texts.js';
import type { PatientAlert, Ref } from '../model/record.js';
import type { Codeable } from './shapes.js';
import { recordedTime, yearsOfBirth } from './times.js';
import { addTo } from '../model/gather.js';

/** An entry before it is known what it speaks against. */
type Entry = Omit<PatientAlert, 'substance' | 'sure' | 'text'> & {
  readonly concepts: readonly Codeable[];
};

const ours: ReadonlySet<string> = new Set(Object.values(identifierSystem));

/**
 * What speaks against something that a line’s care uses, by patient: allergies, problems and flags that are not
 * refuted and not entered in error. A code decides; a text, that of a code that is not known too, only gives a reason
 * to ask. An allergy that is resolved no longer counts; a problem that is over does, and is said to be over: heparin
 * is asked about for years after a heparin-induced thrombocytopenia (common practice, no source).
 */
export function readAlerts(index: ResourceIndex): ReadonlyMap<Ref, readonly PatientAlert[]> {
  const found = new Map<Ref, PatientAlert[]>();
  for (const { patient, ...entry } of [...allergies(index), ...problems(index), ...flags(index)]) {
    const alerts = alertsOf(entry);
    if (alerts.length > 0) addTo(found, patient, ...alerts);
  }
  return found;
}

type Whose<Of> = Of & { readonly patient: Ref };

function allergies(index: ResourceIndex): Whose<Entry>[] {
  return index.all('AllergyIntolerance').flatMap(({ ref, value }) => {
    const patient = index.nameOf(value.patient, ref);
    const over = said(value.clinicalStatus, 'inactive', 'resolved');
    if (patient === undefined || over || isWrong(value.verificationStatus)) return [];
    const concepts = [
      ...(value.code ? [value.code] : []),
      ...(value.reaction ?? []).flatMap(({ substance }) => (substance ? [substance] : [])),
    ];
    const at = recordedTime(value.recordedDate ?? value.onsetDateTime, yearsOfBirth);
    return [{ ref, kind: 'allergy', patient, concepts, ...(at ? { at } : {}) } as const];
  });
}

function problems(index: ResourceIndex): Whose<Entry>[] {
  return index.all('Condition').flatMap(({ ref, value }) => {
    const patient = index.nameOf(value.subject, ref);
    if (patient === undefined || isWrong(value.verificationStatus)) return [];
    const over = said(value.clinicalStatus, 'inactive', 'remission', 'resolved');
    const at = recordedTime(
      value.onsetDateTime ?? value.onsetPeriod?.start ?? value.recordedDate,
      yearsOfBirth,
    );
    return [
      {
        ref,
        kind: 'problem',
        patient,
        concepts: value.code ? [value.code] : [],
        ...(at ? { at } : {}),
        ...(over ? { over: true } : {}),
      } as const,
    ];
  });
}

function flags(index: ResourceIndex): Whose<Entry>[] {
  return index.all('Flag').flatMap(({ ref, value }) => {
    const patient = index.nameOf(value.subject, ref);
    // What we have written ourselves is no news.
    const own = (value.identifier ?? []).some(({ system }) => system !== undefined && ours.has(system));
    if (patient === undefined || own || value.status === 'entered-in-error' || value.status === 'inactive')
      return [];
    const at = recordedTime(value.period?.start);
    const concepts = value.code ? [value.code] : [];
    return [{ ref, kind: 'flag', patient, concepts, ...(at ? { at } : {}) } as const];
  });
}

function isWrong(verification: Codeable | undefined): boolean {
  return said(verification, 'refuted', 'entered-in-error');
}

function said(concept: Codeable | undefined, ...values: readonly string[]): boolean {
  return (concept?.coding ?? []).some(({ code }) => code !== undefined && values.includes(code));
}

function alertsOf({ concepts, ...entry }: Entry): PatientAlert[] {
  const counting = concepts.filter(
    (concept) => !noSuchAllergy.some(([system, code]) => codesOf(system, concept).includes(code)),
  );
  const texts = counting.flatMap(({ text, coding = [] }) =>
    [text, ...coding.map(({ display }) => display)].filter((one) => one !== undefined),
  );
  return substanceCodes.flatMap((substance): PatientAlert[] => {
    const sure = counting.some((concept) => isCodeOf(substance, concept));
    const { words, problems: own } = substanceRow(substance);
    // The text of a problem names more than what it speaks against: a cause, a treatment.
    const hint = meansOneOf(
      texts,
      entry.kind === 'problem' ? [...(own?.words ?? []), ...allergyTo(texts, words)] : words,
    );
    if (!sure && !hint) return [];
    return [{ ...entry, substance, sure, ...(texts[0] === undefined ? {} : { text: texts[0] }) }];
  });
}

/** Of a problem a substance counts by its name where the text speaks of an allergy. */
function allergyTo(texts: readonly string[], words: readonly string[]): readonly string[] {
  return meansOneOf(texts, [
    'allerg',
    'anaphyla',
    'hypersensitiv',
    'intoleran',
    'überempfindlich',
    'unverträglich',
  ])
    ? words
    : [];
}

/** Whether a concept names a substance by one of the codes that its row has. */
export function isCodeOf(substance: SubstanceCode, concept: Codeable): boolean {
  const row = substanceRow(substance);
  const begins = (given: readonly string[], known: readonly string[] = []) =>
    given.some((code) => known.some((one) => code.startsWith(one)));
  const among = (given: readonly string[], known: readonly string[] = []) =>
    given.some((code) => known.includes(code));
  const snomed = codesOf(standard.snomed, concept);
  const { problems: own } = row;
  return (
    among(snomed, row.snomed) ||
    begins(codesOf(standard.atc, concept), row.atc) ||
    among(codesOf(standard.rxnorm, concept), row.rxnorm) ||
    // Heparin-induced thrombocytopenia is charted among the allergies too.
    among(snomed, own?.snomed) ||
    begins(codesOf(standard.icd10cm, concept), own?.icd10cm) ||
    among(codesOf(standard.icd9cm, concept), own?.icd9cm) ||
    among(codesOf(standard.hpo, concept), own?.hpo)
  );
}
