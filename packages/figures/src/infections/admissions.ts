import { activityRow } from '@dwellward/profiles';
import type { Calendar, LineRecord, RecordedTime, Records } from '@dwellward/core';
import { addDays, within, type Day } from '../days/calendar-days.js';
import { placedStays } from '../days/line-days.js';
import { presenceOf } from '../days/line-presence.js';
import type { LeftOut } from '../left-out.js';
import type { Admission, BloodCulture, Sign } from './propose.js';
import type { LineTime } from './windows.js';

// NHSN Patient Safety Component Manual, January 2026, chapter 4: fever is above 38.0 degrees Celsius.
const feverAbove = 38;

/** Every admission with a blood culture; a culture of no admission is left out, with the reason. */
export function admissionsOf(
  { lines, unitStays }: Records,
  cultures: ReadonlyMap<string, readonly BloodCulture[]>,
  calendar: Calendar,
  until: Day,
): { readonly admissions: readonly Admission[]; readonly leftOut: readonly LeftOut[] } {
  const leftOut: LeftOut[] = [];
  const stays = placedStays(unitStays, calendar, []);
  const admissions: Admission[] = [];
  for (const [patient, own] of cultures) {
    const theirs = lines.filter((line) => line.patient.ref === patient);
    const byEncounter = new Map<string, (typeof placed)[number][]>();
    const placed = stays.get(patient) ?? [];
    for (const stay of placed)
      byEncounter.set(stay.encounter, [...(byEncounter.get(stay.encounter) ?? []), stay]);
    const taken = new Set<string>();
    for (const places of byEncounter.values()) {
      const admitted = places.reduce((first, { from }) => (from < first ? from : first), until);
      const last = places.reduce((end, { to }) => (to > end ? to : end), admitted);
      const discharged = last > until ? undefined : last;
      const end = discharged ?? until;
      // What is found the day after discharge still belongs to the stay; two days before, it was brought along.
      const span = { from: addDays(admitted, -2), to: addDays(end, 1) };
      const found = own.filter(({ ref, collected }) => !taken.has(ref) && within(collected, span));
      for (const { ref } of found) taken.add(ref);
      if (found.length === 0) continue;
      admissions.push({
        ...{ patient, admitted, until, cultures: found },
        ...(discharged === undefined ? {} : { discharged }),
        signs: theirs.flatMap((line) => feversOf(line, calendar)).filter(isFirst),
        lines: theirs.flatMap((line) => lineTime(line, calendar, admitted)),
        stays: places.map(({ unit, from, to }) => ({ location: unit, from, to })),
      });
    }
    for (const { ref } of own.filter((one) => !taken.has(one.ref)))
      leftOut.push({ ref, counted: false, reason: 'no Encounter says that its patient was admitted then' });
  }
  return { admissions, leftOut };
}

/** The same temperature stands on every line of a patient. */
const isFirst = ({ ref }: Sign, at: number, all: readonly Sign[]) =>
  all.findIndex((one) => one.ref === ref) === at;

function feversOf({ findings }: LineRecord, calendar: Calendar): Sign[] {
  return findings.flatMap(({ ref, finding, status, at, quantity }): Sign[] => {
    if (finding !== 'body-temperature' || status === 'entered-in-error' || !at || !quantity?.low) return [];
    return Number(quantity.low) > feverAbove ? [{ ref, on: dayOf(at, calendar), sign: 'fever' }] : [];
  });
}

/** Accessed: placed, entered, infused or drawn from, during this admission. */
function lineTime(line: LineRecord, calendar: Calendar, admitted: Day): LineTime[] {
  const { presence } = presenceOf(line, calendar);
  if (presence === undefined) return [];
  const { fromDay: inserted, untilDay: removed } = presence;
  const uses = [
    ...line.events
      .filter(({ activity, status }) => status === 'completed' && activityRow(activity).throughLumen)
      .flatMap(({ at }) => at ?? []),
    ...line.infusions.flatMap(({ from }) => from ?? []),
  ].map((at) => dayOf(at, calendar));
  const accesses = [...uses, inserted].filter((at) => at >= admitted);
  const accessed = accesses.reduce<Day | undefined>(
    (first, at) => (first === undefined || at < first ? at : first),
    undefined,
  );
  return [
    {
      inserted,
      ...(accessed === undefined ? {} : { accessed }),
      ...(removed === undefined ? {} : { removed }),
    },
  ];
}

function dayOf(at: RecordedTime, calendar: Calendar): Day {
  return calendar.text(calendar.earliest(at)).slice(0, 10);
}
