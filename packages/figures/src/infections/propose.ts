import { addDays, day, within, type Day, type DaySpan } from '../days/calendar-days.js';
import {
  attributedTo,
  dateOfEvent,
  eligibleDays,
  infectionWindow,
  onsetOf,
  repeatTimeframe,
  type LineTime,
  type LocationStay,
} from './windows.js';

/** What the user’s own value sets say of an organism. */
export type OrganismKind = 'pathogen' | 'common-commensal' | 'excluded' | 'not-listed';

/** A blood specimen in which an organism was found. */
export interface BloodCulture {
  readonly ref: string;
  readonly collected: Day;
  readonly organism: string;
  readonly kind: OrganismKind;
  /** The same in two specimens says they were drawn on one occasion. */
  readonly occasion?: string;
  /** The infection elsewhere that a person found it secondary to. */
  readonly secondaryTo?: string;
}

/** A sign that the second criterion asks for. */
export interface Sign {
  readonly ref: string;
  readonly on: Day;
  readonly sign: 'fever' | 'chills' | 'hypotension';
}

/** One admission of one patient. */
export interface Admission {
  readonly patient: string;
  readonly admitted: Day;
  readonly discharged?: Day;
  /** The last day that is looked at. */
  readonly until: Day;
  readonly cultures: readonly BloodCulture[];
  readonly signs: readonly Sign[];
  readonly lines: readonly LineTime[];
  readonly stays: readonly LocationStay[];
  /** Why a person has found that no line can be the cause (the manual lists the reasons). */
  readonly notLineBecause?: string;
}

/** A bloodstream infection that is proposed: a person confirms it. */
export interface ProposedInfection {
  readonly standing: 'proposed';
  readonly patient: string;
  readonly criterion: 'LCBI-1' | 'LCBI-2';
  readonly window: DaySpan;
  readonly dateOfEvent: Day;
  readonly timeframe: DaySpan;
  readonly onset: ReturnType<typeof onsetOf>;
  readonly location?: string;
  readonly lineAssociated: boolean;
  readonly organisms: readonly string[];
  readonly refs: readonly string[];
  /** Each decision with what it rests on. */
  readonly because: readonly string[];
}

/** What is proposed of an admission, and what became of every culture that made no infection. */
export interface Proposals {
  readonly infections: readonly ProposedInfection[];
  readonly others: readonly { readonly ref: string; readonly because: string }[];
  readonly cautions: readonly string[];
}

const cautions = [
  'Proposed by the definition of January 2026; a person who knows the definition confirms each one.',
  'Not judged here: infections of mucosal barrier injury, the criterion for infants, tests without a culture, group B streptococci in the first days of life, and whether blood is secondary to another site.',
];

/**
 * Bloodstream infections by the surveillance definition, proposed from blood cultures, signs, lines and stays of an admission.
 *
 * - Units: calendar days of the unit. Which organism is what comes from the user’s own value sets; one that they do not list
 *   makes no infection, and is told.
 * - Errors: throws a {@link FiguresError} where a day is none.
 * - Cautions: it proposes; a person confirms. What is not judged is said with every answer. For surveillance, not for treatment.
 * - Source: NHSN Patient Safety Component Manual, January 2026, chapters 2 and 4 (LCBI-1, LCBI-2).
 *
 * @example
 * ```ts
 * const culture = { ref: 'Observation/1', collected: '2026-06-06', organism: 'S. aureus', kind: 'pathogen' } as const;
 * const stay = { patient: 'Patient/1', admitted: '2026-06-01', until: '2026-06-30', signs: [], lines: [], stays: [] };
 * proposeInfections({ ...stay, cultures: [culture] }).infections.map(({ dateOfEvent }) => dateOfEvent); // ['2026-06-06']
 * ```
 */
export function proposeInfections(admission: Admission): Proposals {
  const infections: ProposedInfection[] = [];
  const others: { ref: string; because: string }[] = [];
  const cultures = [...admission.cultures].sort(
    (a, b) => compare(day('collected', a.collected), day('collected', b.collected)) || compare(a.ref, b.ref),
  );
  const used = new Set<string>();
  for (const culture of cultures) {
    if (used.has(culture.ref)) continue;
    const aside = setAside(culture);
    if (aside !== undefined) {
      others.push({ ref: culture.ref, because: aside });
      continue;
    }
    const within14 = infections.findIndex(({ timeframe }) => within(culture.collected, timeframe));
    const found = infections[within14];
    if (found && (culture.kind === 'pathogen' || found.organisms.includes(culture.organism))) {
      infections[within14] = added(found, culture);
      continue;
    }
    const met =
      culture.kind === 'pathogen'
        ? { with: [culture], signs: [] }
        : secondCriterion(culture, cultures, admission);
    if (typeof met === 'string') {
      others.push({ ref: culture.ref, because: met });
      continue;
    }
    for (const { ref } of met.with) used.add(ref);
    const next = proposal(culture, met.with, met.signs, admission);
    const known = infections.findIndex(({ timeframe }) => within(next.dateOfEvent, timeframe));
    const before = infections[known];
    if (before) infections[known] = met.with.reduce(added, before);
    else infections.push(next);
  }
  return { infections, others, cautions };
}

function setAside({ kind, organism, secondaryTo }: BloodCulture): string | undefined {
  if (secondaryTo !== undefined)
    return `A person found it secondary to ${secondaryTo}: no primary bloodstream infection, and no timeframe of one.`;
  if (kind === 'excluded') return `${organism} is on the list of organisms that the definition excludes.`;
  if (kind === 'not-listed')
    return `${organism} is on none of the lists that were given: a person has to say what it is.`;
  return undefined;
}

interface Met {
  readonly with: readonly BloodCulture[];
  readonly signs: readonly Sign[];
}

/** A commensal needs a second specimen of another occasion, on the same or the next day, and a sign in the window. */
function secondCriterion(
  first: BloodCulture,
  cultures: readonly BloodCulture[],
  { signs }: Admission,
): Met | string {
  const same = cultures.filter(
    (one) =>
      one.ref !== first.ref &&
      one.organism === first.organism &&
      one.secondaryTo === undefined &&
      one.collected >= first.collected &&
      one.collected <= addDays(first.collected, 1),
  );
  if (same.length === 0)
    return `${first.organism} is a common commensal, found in one specimen only: taken as a contaminant.`;
  const second = same.find(({ occasion }) => occasion === undefined || occasion !== first.occasion);
  if (second === undefined)
    return `${first.organism} is a common commensal, and its specimens were drawn on one occasion.`;
  const window = infectionWindow(first.collected);
  const seen = signs.filter(({ on }) => within(day('on', on), window));
  if (seen.length === 0)
    return `${first.organism} is a common commensal, and no fever, chills or hypotension is on record from ${window.from} to ${window.to}.`;
  return { with: [first, second], signs: seen };
}

function proposal(
  first: BloodCulture,
  cultures: readonly BloodCulture[],
  signs: readonly Sign[],
  admission: Admission,
): ProposedInfection {
  const window = infectionWindow(first.collected);
  const earliest = dateOfEvent(first.collected, [
    ...cultures.map(({ collected }) => collected),
    ...signs.map(({ on }) => on),
  ]);
  const onset = onsetOf(earliest, admission.admitted);
  // What lies in the two days before admission counts for its first day.
  const early = onset === 'present-on-admission' && earliest < admission.admitted;
  const event = early ? admission.admitted : earliest;
  const timeframe = repeatTimeframe(event, admission.discharged);
  const location = onset === 'healthcare-associated' ? attributedTo(event, admission.stays) : undefined;
  const line = ofLine(event, onset, admission);
  return {
    standing: 'proposed',
    patient: admission.patient,
    criterion: signs.length > 0 ? 'LCBI-2' : 'LCBI-1',
    window,
    dateOfEvent: event,
    timeframe,
    onset,
    ...(location === undefined ? {} : { location }),
    lineAssociated: line.associated,
    organisms: [first.organism],
    refs: [...cultures, ...signs].map(({ ref }) => ref),
    because: [
      signs.length > 0
        ? `${first.organism}, a common commensal, in specimens of ${cultures.map(({ collected }) => collected).join(' and ')}, with ${signs.map(({ sign, on }) => `${sign} on ${on}`).join(', ')}.`
        : `${first.organism} in a specimen of ${first.collected}.`,
      `Infection window period ${window.from} to ${window.to}: the first positive specimen with three days before and after it.`,
      `Date of event ${event}: ${early ? `the first element, ${earliest}, lies before admission and counts for its first day` : 'the first element in the window'}.`,
      `Repeat infection timeframe ${timeframe.from} to ${timeframe.to}.`,
      onset === 'healthcare-associated'
        ? `Day 3 or later of the admission of ${admission.admitted}: associated with health care.`
        : `Not later than the day after the admission of ${admission.admitted}: present on admission.`,
      ...(onset !== 'healthcare-associated'
        ? []
        : [
            location === undefined
              ? 'Nothing says where the patient was.'
              : `Attributed to ${location} by the transfer rule.`,
          ]),
      line.because,
    ],
  };
}

function ofLine(
  event: Day,
  onset: ProposedInfection['onset'],
  { lines, until, discharged, notLineBecause }: Admission,
): { readonly associated: boolean; readonly because: string } {
  if (onset !== 'healthcare-associated')
    return { associated: false, because: 'Present on admission: not of a central line of this stay.' };
  if (notLineBecause !== undefined)
    return { associated: false, because: `A person found that no line is the cause: ${notLineBecause}.` };
  const eligible = eligibleDays(lines, { until, ...(discharged === undefined ? {} : { discharged }) });
  const found = eligible.find((span) => within(event, span));
  return found
    ? {
        associated: true,
        because: `A central line was eligible from ${found.from} to ${found.to}, on the date of event or the day before.`,
      }
    : { associated: false, because: 'No central line was eligible on the date of event or the day before.' };
}

function added(to: ProposedInfection, culture: BloodCulture): ProposedInfection {
  return {
    ...to,
    organisms: to.organisms.includes(culture.organism) ? to.organisms : [...to.organisms, culture.organism],
    refs: [...to.refs, culture.ref],
    because: [
      ...to.because,
      `${culture.organism} of ${culture.collected} lies in its timeframe: added to it, with no new date, line or place.`,
    ],
  };
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
