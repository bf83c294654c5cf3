import type { Calendar, ResourceEntry } from '@dwellward/core';
import type { LeftOut } from '../left-out.js';
import type { BloodCulture, OrganismKind } from './propose.js';

/** The user’s own lists of organisms: FHIR ValueSets, of which `compose.include.concept` and `expansion` are read. */
export interface OrganismLists {
  readonly pathogens?: readonly object[];
  readonly commensals?: readonly object[];
  readonly excluded?: readonly object[];
}

const loinc = 'http://loinc.org';
const bloodCulture = '600-7';
const noResult = new Set(['entered-in-error', 'cancelled', 'registered', 'unknown']);

/** Blood cultures of the record by patient, and those that can’t be used. */
export function readCultures(
  entries: Iterable<ResourceEntry>,
  lists: OrganismLists,
  calendar: Calendar,
): {
  readonly byPatient: ReadonlyMap<string, readonly BloodCulture[]>;
  readonly leftOut: readonly LeftOut[];
} {
  const kinds = kindsOf(lists);
  const byPatient = new Map<string, BloodCulture[]>();
  const leftOut: LeftOut[] = [];
  for (const { resource } of entries) {
    const one = asObject(resource);
    if (one['resourceType'] !== 'Observation') continue;
    if (!codings(one['code']).some(({ system, code }) => system === loinc && code === bloodCulture)) continue;
    const ref = `Observation/${text(one['id']) ?? '(no id)'}`;
    const left = (reason: string) => leftOut.push({ ref, counted: false, reason });
    const status = text(one['status']) ?? 'unknown';
    const patient = text(asObject(one['subject'])['reference'])?.split('/').slice(-2).join('/');
    const at = text(one['effectiveDateTime']) ?? text(asObject(one['effectivePeriod'])['start']);
    const values = [one, ...asList(one['component'])].map((part) => asObject(part)['valueCodeableConcept']);
    const organisms = values.filter((value) => value !== undefined);
    const collected = at === undefined ? undefined : dayOf(at, calendar);
    if (noResult.has(status)) left(`a blood culture of status ${status}`);
    else if (patient === undefined) left('a blood culture of no patient');
    else if (collected === undefined) left('a blood culture without a day of collection that can be read');
    else if (organisms.length === 0) left('a blood culture without a coded organism');
    else
      for (const organism of organisms)
        byPatient.set(patient, [
          ...(byPatient.get(patient) ?? []),
          cultureOf(ref, collected, organism, one, kinds),
        ]);
  }
  return { byPatient, leftOut };
}

function cultureOf(
  ref: string,
  collected: string,
  organism: unknown,
  whole: Readonly<Record<string, unknown>>,
  kinds: ReadonlyMap<string, OrganismKind>,
): BloodCulture {
  const own = codings(organism);
  const kind = own.flatMap(({ system, code }) => kinds.get(`${system}|${code}`) ?? [])[0];
  const [first] = own;
  const occasion = text(asObject(whole['specimen'])['reference']);
  return {
    ...{ ref, collected, kind: kind ?? 'not-listed' },
    organism: text(asObject(organism)['text']) ?? first?.display ?? first?.code ?? '(no name)',
    ...(occasion === undefined ? {} : { occasion }),
  };
}

// One that stands on several lists is what the strictest of them says: a pathogen.
function kindsOf({
  pathogens = [],
  commensals = [],
  excluded = [],
}: OrganismLists): Map<string, OrganismKind> {
  const all = [
    ...excluded.flatMap(conceptsOf).map((key) => [key, 'excluded'] as const),
    ...commensals.flatMap(conceptsOf).map((key) => [key, 'common-commensal'] as const),
    ...pathogens.flatMap(conceptsOf).map((key) => [key, 'pathogen'] as const),
  ];
  return new Map(all);
}

function conceptsOf(valueSet: object): string[] {
  const whole = asObject(valueSet);
  const include = asList(asObject(whole['compose'])['include']).map(asObject);
  return [
    ...include.flatMap((part) =>
      asList(part['concept']).map((one) => `${text(part['system'])}|${text(asObject(one)['code'])}`),
    ),
    ...asList(asObject(whole['expansion'])['contains']).map(
      (one) => `${text(asObject(one)['system'])}|${text(asObject(one)['code'])}`,
    ),
  ];
}

function dayOf(at: string, calendar: Calendar): string | undefined {
  const dateOnly = /^\d{4}-\d\d-\d\d$/.test(at);
  if (!dateOnly && !at.includes('T')) return undefined;
  try {
    const ms = calendar.earliest({ text: at, precision: dateOnly ? 'day' : 'instant' });
    return calendar.text(ms).slice(0, 10);
  } catch {
    return undefined;
  }
}

type Loose = Readonly<Record<string, unknown>>;
const asObject = (value: unknown): Loose =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Loose) : {};
const asList = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const text = (value: unknown) => (typeof value === 'string' && value.trim() !== '' ? value : undefined);
const codings = (concept: unknown) =>
  asList(asObject(concept)['coding']).map((one) => ({
    system: text(asObject(one)['system']),
    code: text(asObject(one)['code']),
    display: text(asObject(one)['display']),
  }));
