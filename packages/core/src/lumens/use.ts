import { activitiesWhere } from '@dwellward/profiles';
import { lumenUse, runningInfusions, unsureInfusions } from '../facts/lumen-use.js';
import type { LumenFact } from '../model/care.js';
import type { Moment } from '../facts/facts.js';
import type { Timed } from '../timeline/timed.js';
import { eventsOn } from '../timeline/timeline.js';
import type { CareEvent } from '../model/record.js';

/**
 * What a lumen is used for, by what was done to it last: infusing, to be flushed, flushed, locked, or not known. It
 * reads use as the fact `lumen.use` does, and asks for a flush where the rules after an infusion and a draw do; a lock
 * is no flush, so a lumen that was locked without one is both. The most serious first; at least one.
 */
export function usesOf(at: Moment): LumenFact[] {
  const { timeline, target } = at;
  const { calendar } = timeline;
  const last = (activity: CareEvent['activity']) =>
    eventsOn(timeline, activity, target)
      .filter(({ ms }) => ms <= at.ms)
      .at(-1);
  const flush = last('flush');
  const lock = last('lock');
  const byEvent = (
    state: LumenFact['state'],
    { fact, ms }: Timed<CareEvent>,
    why: LumenFact['why'],
  ): LumenFact => ({
    state,
    since: calendar.text(ms),
    because: [fact.ref],
    of: 'lumen',
    why,
  });
  const unmet = activitiesWhere(({ flushAfter }) => flushAfter)
    .flatMap((activity) => last(activity) ?? [])
    .filter((one) => !flush || flush.ms < one.latestMs)
    .sort((a, b) => a.ms - b.ms);
  const [first] = unmet;
  const toBeFlushed = first
    ? [
        {
          ...byEvent('to-be-flushed', first, {
            code: 'not-flushed-since',
            after: unmet.map(({ fact }) => fact.activity),
          }),
          because: unmet.map(({ fact }) => fact.ref),
        },
      ]
    : [];
  const use = lumenUse(at);
  if (use.value === 'infusing') {
    const charted = runningInfusions(at).length > 0;
    return [
      {
        state: 'infusing',
        ...(use.sinceMs === undefined ? {} : { since: calendar.text(use.sinceMs) }),
        because: use.refs,
        of: 'lumen',
        why: { code: charted ? 'infusion-runs' : 'infusion-was-connected' },
      },
      ...toBeFlushed,
    ];
  }
  const unsure = unsureInfusions(at);
  if (unsure.length > 0)
    return [
      ...toBeFlushed,
      {
        state: 'unknown',
        because: use.refs,
        of: 'lumen',
        why: { code: 'infusion-may-still-run' },
      },
    ];
  const locked = lock && (!flush || lock.ms >= flush.ms) && lock;
  if (locked && (!first || locked.ms >= first.ms)) {
    const code = first ? 'locked-without-flush' : 'locked-and-not-used';
    return [...toBeFlushed, byEvent('locked', locked, { code })];
  }
  if (first) return toBeFlushed;
  if (flush) return [byEvent('flushed', flush, { code: 'flushed-and-not-locked' })];
  return [
    {
      state: 'unknown',
      because: [],
      of: 'lumen',
      why: { code: 'use-not-on-record' },
    },
  ];
}
