import { lumenStates as stateConcepts } from '@dwellward/profiles';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { closedBecause } from '../timeline/closed.js';
import type { AsOf, Hold, LumenFact, LumenState } from '../model/care.js';
import type { Moment } from '../facts/facts.js';
import { targetsOf } from '../timeline/targets.js';
import { timelineOf, type Timeline } from '../timeline/timeline.js';
import type { LineRecord, Ref } from '../model/record.js';
import { aboutWhatRuns, stopBy, whatRuns } from './stopping.js';
import { troublesOf } from './trouble.js';
import { usesOf } from './use.js';

/**
 * What each lumen of a line is like at a moment: not to be used, damaged, blocked, sluggish, infusing, to be flushed,
 * flushed, locked or not known, the most serious of what is so, with what else is, since when and by what. `trouble.ts`
 * and `use.ts` say how each is read. None of a line that is not in place.
 *
 * @param holds the holds in force, as `dueCare` gives them for the same moment.
 *
 * Pure. Throws a CoreError where `asOf` is not an instant with an offset or `zone` not an IANA zone.
 *
 * It tells what the record says and no more: look at the lumen before you use it. Local policy, the device's and the
 * drug's own instructions and the licensed clinician come first.
 */
export function lumenStates(line: LineRecord, holds: readonly Hold[], when: AsOf): LumenState[] {
  const calendar = new Calendar(when.zone);
  return lumenStatesOn(timelineOf(line, calendar, instantMs(when.asOf)), holds);
}

/** The same of a record that was placed in time already. */
export function lumenStatesOn(timeline: Timeline, holds: readonly Hold[]): LumenState[] {
  if (closedBecause(timeline) !== undefined) return [];
  return targetsOf(timeline.line, 'lumen').flatMap((target): LumenState[] => {
    // No state of a lumen asks for a laboratory value: how long one counts does not matter.
    const at = { timeline, target, ms: timeline.asOfMs, staleAfter: { value: 0, unit: 'd' } } as const;
    const held = heldBy(at, holds);
    const uses =
      held.length > 0 ? usesOf(at).map((use) => withHold(use, timeline, target.ref, holds)) : usesOf(at);
    const found = [...held, ...troublesOf(at), ...uses].sort((a, b) => rank(a) - rank(b));
    // That nothing is on record of its use is news only where nothing else is.
    const told = found.filter(({ state, because }) => state !== 'unknown' || because.length > 0);
    const [worst, ...also] = told.length > 0 ? told : found;
    return worst ? [{ lumen: target.ref, device: target.device, name: target.name, ...worst, also }] : [];
  });
}

function rank({ state }: LumenFact): number {
  return stateConcepts.findIndex(([code]) => code === state);
}

/** What runs through a lumen that must not be used is told as such. */
function withHold(use: LumenFact, timeline: Timeline, lumen: Ref, holds: readonly Hold[]): LumenFact {
  const { why } = use;
  if (why.code !== 'infusion-runs' && why.code !== 'infusion-was-connected') return use;
  const running = whatRuns(timeline).filter(({ ref }) => ref === lumen);
  const rules = holdsUse(timeline, lumen, holds).map(({ rule }) => rule);
  return { ...use, why: { code: 'runs-although-held', why, rest: aboutWhatRuns(running, stopBy(rules)) } };
}

/** The holds in force on connecting anything to a lumen, the earliest first. */
export function holdsUse({ asOfMs }: Timeline, lumen: Ref, holds: readonly Hold[]): Hold[] {
  return holds
    .filter(
      ({ activity, target: of, from, until }) =>
        activity === 'infusion-start' &&
        (of.scope === 'line' || (of.scope === 'lumen' && of.ref === lumen)) &&
        instantMs(from) <= asOfMs &&
        (until === undefined || asOfMs < instantMs(until)),
    )
    .sort((a, b) => instantMs(a.from) - instantMs(b.from) || (a.id < b.id ? -1 : 1));
}

/** A hold on connecting anything, of the line or of the lumen. */
function heldBy({ timeline, target }: Moment, holds: readonly Hold[]): LumenFact[] {
  const own = holdsUse(timeline, target.ref, holds);
  const [first] = own;
  if (!first) return [];
  return [
    {
      state: 'not-to-be-used',
      since: first.from,
      because: [...new Set(own.flatMap(({ because }) => because ?? []))],
      of: own.every(({ target: of }) => of.scope === 'line') ? 'line' : 'lumen',
      why: {
        code: 'holds-forbid-use',
        holds: own.map(({ rule: { title }, until }) => ({ title, ...(until ? { until } : {}) })),
      },
    },
  ];
}
