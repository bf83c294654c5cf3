import { activitiesWhere } from '@dwellward/profiles';
import { chartedTwiceMs } from '../timeline/charted-twice.js';
import type { TimedHold } from '../rules/bans.js';
import { lumenUse } from '../facts/lumen-use.js';
import type { Target } from '../model/care.js';
import type { Timed } from '../timeline/timed.js';
import { targetsOf } from '../timeline/targets.js';
import { eventsOn, isOn, type Timeline } from '../timeline/timeline.js';
import type { RecordIssue, Ref } from '../model/record.js';
import type { ForbiddenBy } from '../model/sentences.js';

const connects = activitiesWhere(({ leavesLumen }) => leavesLumen === 'infusing');
const disconnects = activitiesWhere(({ impliedBy }) => impliedBy === 'end-of-infusion');

/** An infusion, with what is needed to hold it against the holds. */
interface Started extends Timed<{ readonly ref: Ref; readonly lumen?: Ref }> {
  readonly path: string;
  readonly runs: boolean;
}

/**
 * Infusions that were started while a hold forbade it (high), and those that run on while one that began later forbids
 * it (moderate). What began, or may have begun, before the hold was not started against it. Only holds that are known at
 * the timeline’s moment count; an infusion is reported once, with every hold that it goes against.
 *
 * @param holds every hold, over or not, as `holdsOf` gives them.
 */
export function againstHolds(timeline: Timeline, holds: readonly TimedHold[]): RecordIssue[] {
  const { line, asOfMs } = timeline;
  const forbids = holds.filter(({ hold, fromMs }) => connects.includes(hold.activity) && fromMs <= asOfMs);
  if (forbids.length === 0) return [];
  return startedOn(timeline).flatMap((started): RecordIssue[] => {
    const of = forbids.filter(({ hold }) => isOn(timeline, started.fact, hold.target));
    const against = of.filter(({ fromMs, untilMs }) => fromMs <= started.ms && started.latestMs < untilMs);
    const meanwhile = of.filter(
      ({ fromMs, untilMs }) => started.runs && started.ms < fromMs && asOfMs < untilMs,
    );
    const found = against.length > 0 ? against : meanwhile;
    if (found.length === 0) return [];
    const name = line.lumens.find(({ ref }) => ref === started.fact.lumen)?.name;
    const said = {
      ...(name === undefined ? {} : { lumen: name }),
      by: forbidding(found),
      since: Math.min(...found.map(({ fromMs }) => fromMs)),
    };
    const sentence: RecordIssue['sentence'] =
      against.length > 0
        ? {
            code: 'started-against-hold',
            ...said,
            ...(Number.isFinite(started.ms) ? { at: started.ms } : {}),
            runs: started.runs,
          }
        : { code: 'runs-against-hold', ...said };
    return [
      {
        code: 'against-a-hold',
        severity: against.length > 0 ? 'high' : 'moderate',
        resource: started.fact.ref,
        path: started.path,
        sentence,
        patient: line.patient.ref,
        line: line.ref,
        related: [...new Set(found.flatMap(({ hold }) => hold.because ?? []))],
      },
    ];
  });
}

/** The rules of some holds, each once. */
function forbidding(holds: readonly TimedHold[]): ForbiddenBy[] {
  const rules = new Map(holds.map(({ hold: { rule } }) => [`${rule.title}\u0000${rule.id}`, rule]));
  return [...rules.values()].map(({ title, id }) => ({ title, id }));
}

/** Every infusion; a start that was charted beside the infusion itself is the same one. */
function startedOn(timeline: Timeline): Started[] {
  const { infusions, asOfMs } = timeline;
  const administered = infusions.map((one): Started => {
    const { running } = one.fact;
    // Without an end it may still run.
    const runs = running || one.untilMs === undefined || asOfMs < one.untilMs;
    return { ...one, path: 'MedicationAdministration.effective', runs };
  });
  const charted = timeline.events
    .filter(({ fact }) => connects.includes(fact.activity))
    .filter(
      ({ fact, ms }) =>
        !infusions.some((one) => one.fact.lumen === fact.lumen && Math.abs(one.ms - ms) <= chartedTwiceMs),
    )
    .map((one): Started => ({
      ...one,
      path: 'Procedure.performed',
      runs: targetsOf(timeline.line, 'lumen').some((target) => stillRuns(timeline, one, target)),
    }));
  return [...administered, ...charted];
}

function stillRuns(
  timeline: Timeline,
  { fact, ms }: Timed<{ readonly ref: Ref; readonly lumen?: Ref }>,
  target: Target,
): boolean {
  if (!isOn(timeline, fact, target)) return false;
  const stopped = disconnects.some((activity) =>
    eventsOn(timeline, activity, target).some((stop) => stop.ms >= ms),
  );
  const at = { timeline, target, ms: timeline.asOfMs, staleAfter: { value: 0, unit: 'd' } } as const;
  return !stopped && lumenUse(at).value === 'infusing';
}
