import { stopAndClamp } from '../lumens/use-against-holds.js';
import { chartedTwiceMs } from '../timeline/charted-twice.js';
import type { TimedHold } from '../rules/bans.js';
import { lumenUse } from '../facts/lumen-use.js';
import type { Target } from '../model/care.js';
import type { Timed } from '../timeline/timed.js';
import { targetsOf } from '../timeline/targets.js';
import { eventsOn, isOn, type Timeline } from '../timeline/timeline.js';
import type { RecordIssue, Ref } from '../model/record.js';

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
  const { line, calendar, asOfMs } = timeline;
  const forbids = holds.filter(({ hold, fromMs }) => hold.activity === 'infusion-start' && fromMs <= asOfMs);
  if (forbids.length === 0) return [];
  return startedOn(timeline).flatMap((started): RecordIssue[] => {
    const of = forbids.filter(({ hold }) => isOn(timeline, started.fact, hold.target));
    const against = of.filter(({ fromMs, untilMs }) => fromMs <= started.ms && started.latestMs < untilMs);
    const meanwhile = of.filter(
      ({ fromMs, untilMs }) => started.runs && started.ms < fromMs && asOfMs < untilMs,
    );
    const found = against.length > 0 ? against : meanwhile;
    if (found.length === 0) return [];
    const rules = [...new Set(found.map(({ hold: { rule } }) => `“${rule.title}” (${rule.id})`))].join(', ');
    const name = line.lumens.find(({ ref }) => ref === started.fact.lumen)?.name;
    const where = name === undefined ? '' : ` on ${name}`;
    const since = calendar.text(Math.min(...found.map(({ fromMs }) => fromMs)));
    const when = Number.isFinite(started.ms) ? ` at ${calendar.text(started.ms)}` : '';
    const runs = `An infusion runs against a hold: ${stopAndClamp}.`;
    const message =
      against.length > 0
        ? `The infusion${where} was started${when} against the hold ${rules} of ${since}.${started.runs ? ` ${runs}` : ''}`
        : `The infusion${where} runs on while the hold ${rules} of ${since} forbids it. ${runs}`;
    return [
      {
        code: 'against-a-hold',
        severity: against.length > 0 ? 'high' : 'moderate',
        resource: started.fact.ref,
        path: started.path,
        message,
        patient: line.patient.ref,
        line: line.ref,
        related: [...new Set(found.flatMap(({ hold }) => hold.because ?? []))],
      },
    ];
  });
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
    .filter(({ fact }) => fact.activity === 'infusion-start')
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
  const stopped = eventsOn(timeline, 'infusion-stop', target).some((stop) => stop.ms >= ms);
  const at = { timeline, target, ms: timeline.asOfMs, staleAfter: { value: 0, unit: 'd' } } as const;
  return !stopped && lumenUse(at).value === 'infusing';
}
