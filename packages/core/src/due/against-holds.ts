import { activitiesWhere } from '@dwellward/profiles';
import { chartedTwiceMs } from '../timeline/charted-twice.js';
import type { TimedHold } from '../rules/bans.js';
import { aboutWhatRuns, stopBy, stoppingOf } from '../lumens/stopping.js';
import { lumenUse } from '../facts/lumen-use.js';
import type { Target } from '../model/care.js';
import type { Timed } from '../timeline/timed.js';
import { targetsOf } from '../timeline/targets.js';
import { eventsOn, isOn, type Timeline } from '../timeline/timeline.js';
import type { RecordIssue, Ref, RunningDrug } from '../model/record.js';
import type { ForbiddenBy } from '../model/sentences.js';

const connects = activitiesWhere(({ leavesLumen }) => leavesLumen === 'infusing');
const disconnects = activitiesWhere(({ impliedBy }) => impliedBy === 'end-of-infusion');

/** An infusion, with what is needed to hold it against the holds. */
interface Started extends Timed<{ readonly ref: Ref; readonly lumen?: Ref; readonly drug?: RunningDrug }> {
  readonly path: string;
  readonly runs: boolean;
}

/**
 * What was done although a hold forbade it: infusions, and everything else that was charted while a hold forbids it that
 * is still in force.
 * @param holds every hold, over or not, as `holdsOf` gives them.
 */
export function againstHolds(timeline: Timeline, holds: readonly TimedHold[]): RecordIssue[] {
  return [...infusionsAgainstHolds(timeline, holds), ...doneAgainstHolds(timeline, holds)];
}

/**
 * Flushes, locks, draws and all else that was done on a target while a hold in force now forbade it there. What is
 * charted for the moment at which the hold began is what brought it about, and not against it.
 */
function doneAgainstHolds(timeline: Timeline, holds: readonly TimedHold[]): RecordIssue[] {
  const { line, asOfMs } = timeline;
  const inForce = holds.filter(
    ({ hold, fromMs, untilMs }) => !connects.includes(hold.activity) && fromMs <= asOfMs && asOfMs < untilMs,
  );
  return timeline.events.flatMap((event): RecordIssue[] => {
    const { fact, ms } = event;
    const found = inForce.filter(
      ({ hold, fromMs }) =>
        hold.activity === fact.activity &&
        fromMs < ms &&
        hold.because !== fact.ref &&
        isOn(timeline, fact, hold.target),
    );
    if (found.length === 0) return [];
    const lumen = line.lumens.find(({ ref }) => ref === fact.lumen)?.name;
    return [
      {
        code: 'against-a-hold',
        severity: 'high',
        resource: fact.ref,
        path: 'Procedure.performed',
        sentence: {
          code: 'done-against-hold',
          activity: fact.activity,
          on: lumen ?? found[0]?.hold.target.name ?? { code: 'the-line' },
          at: ms,
          by: forbidding(found),
          since: Math.min(...found.map(({ fromMs }) => fromMs)),
        },
        patient: line.patient.ref,
        line: line.ref,
        related: [...new Set(found.flatMap(({ hold }) => hold.because ?? []))],
      },
    ];
  });
}

/**
 * Infusions that were started while a hold forbade it (high), and those that run on while one that began later forbids
 * it (moderate). What began, or may have begun, before the hold was not started against it. Only holds that are known at
 * the timeline’s moment count; an infusion is reported once, with every hold that it goes against.
 */
function infusionsAgainstHolds(timeline: Timeline, holds: readonly TimedHold[]): RecordIssue[] {
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
    const { drug } = started.fact;
    const running = [{ ...(drug ? { drug } : {}), stopping: stoppingOf(drug) }];
    const rest = aboutWhatRuns(running, stopBy(found.map(({ hold }) => hold.rule)));
    const sentence: RecordIssue['sentence'] =
      against.length > 0
        ? {
            code: 'started-against-hold',
            ...said,
            ...(Number.isFinite(started.ms) ? { at: started.ms } : {}),
            ...(started.runs ? { rest } : {}),
          }
        : { code: 'runs-against-hold', ...said, rest };
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
