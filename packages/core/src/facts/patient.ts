import { everyDay, atMeasurements, type FactGroup } from './definition.js';
import { fresh, latestMeasurement } from './labs.js';
import { nothing } from './moment.js';
import { compareText, type Timeline } from '../timeline/timeline.js';

/** Age in whole days; undefined where it is not on record, or the date of birth lies ahead. */
export function ageDaysAt(timeline: Timeline, ms: number): number | undefined {
  const { birthDate } = timeline.line.patient;
  if (!birthDate) return undefined;
  const days = timeline.calendar.daysBetween(timeline.calendar.earliest(birthDate), ms);
  return days < 0 ? undefined : days;
}

/** What is known of the patient. */
export const patientFacts: FactGroup<'patient'> = {
  'patient.ageDays': {
    read: ({ timeline, ms }) => {
      const { birthDate, ref } = timeline.line.patient;
      if (!birthDate) return nothing;
      const days = ageDaysAt(timeline, ms);
      return days === undefined
        ? { refs: [ref], remark: { code: 'birth-date-in-future' } }
        : { value: days, refs: [ref] };
    },
    changes: everyDay,
  },
  'patient.deceased': {
    read: ({ timeline, ms }) => {
      const { deceased, ref } = timeline.line.patient;
      // No line of a patient who is known to have died has any rule that could ask: it is closed.
      if (deceased === undefined) return { value: false, refs: [ref] };
      const sinceMs = deceased.at === undefined ? undefined : timeline.calendar.earliest(deceased.at);
      if (sinceMs === undefined) return { value: true, refs: [ref] };
      return sinceMs <= ms ? { value: true, refs: [ref], sinceMs } : { value: false, refs: [ref] };
    },
    changes: ({ line: { patient }, calendar }, note) =>
      note(patient.deceased?.at && calendar.earliest(patient.deceased.at)),
  },
  'patient.setting': {
    read: ({ timeline: { line, calendar }, ms }) => {
      const [stay] = line.patient.stays
        .map((one) => ({
          ...one,
          fromMs: one.from ? calendar.earliest(one.from) : -Infinity,
          untilMs: one.until ? calendar.latest(one.until) : Infinity,
        }))
        .filter(({ fromMs, untilMs }) => fromMs <= ms && ms < untilMs)
        // The place says more than the class of the Encounter, and the later stay more than the earlier.
        .sort(
          (a, b) =>
            Number(b.byPlace) - Number(a.byPlace) ||
            (a.fromMs === b.fromMs ? compareText(a.ref, b.ref) : b.fromMs > a.fromMs ? 1 : -1),
        );
      if (!stay) return nothing;
      const { value, ref, fromMs } = stay;
      return { value, refs: [ref], ...(Number.isFinite(fromMs) ? { sinceMs: fromMs } : {}) };
    },
    changes: ({ line, calendar }, note) => {
      for (const { from, until } of line.patient.stays) {
        if (from) note(calendar.earliest(from));
        if (until) note(calendar.latest(until));
      }
    },
  },
  'patient.weight': { read: (at) => fresh(latestMeasurement(at, 'weight')), changes: atMeasurements },
};
