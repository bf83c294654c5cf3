import type { Hold, LineCare, LumenFact, LumenState } from '../model/care.js';
import { aboutWhatRuns, type Running } from '../lumens/stopping.js';
import { keepsFromUse } from '../lumens/use-against-holds.js';
import type { Lumen } from '../model/record.js';
import type { Sentence, StepPart } from '../model/sentences.js';
import type { NamedLumen } from '../model/sentences/draw.js';
import { Refusal } from '../words/refusal.js';
import type { BloodDraw } from './model.js';

/** What is done with each lumen of the line for a draw from one of them, and how the steps say it. */
export interface DrawLumens extends Pick<BloodDraw, 'stop' | 'irrigate' | 'leave'> {
  readonly infusing: StepPart;
  readonly idle: StepPart;
  readonly cautions: readonly Sentence<'lumen-is-sluggish'>[];
}

/**
 * By the lumens’ states: what runs through any lumen stops; the other lumens are irrigated and clamped too unless they
 * are infusing (common practice, no source), and unless they keep a lock that must not reach the blood; one that is
 * blocked, damaged or not to be used is left alone.
 *
 * Throws a CoreError where the line is not in place, or where the lumen to draw from is itself blocked, damaged or not
 * to be used; the message names why and which lumen can be used instead.
 */
export function drawLumens(
  { line, closed, lumens }: LineCare,
  /** Everything that runs, or may run, through the line. */
  running: readonly Running[],
  { ref }: Lumen,
  /** The other lumens keep their lock: irrigating them would push it into the patient. */
  keepsLock: boolean,
  /** Holds on drawing blood from it, in force now. */
  held: readonly Hold[],
): DrawLumens {
  if (closed) throw new Refusal({ code: 'no-draw-from-line', line, because: closed });
  const own = lumens.find(({ lumen }) => lumen === ref);
  if (own && keepsFromUse(own)) throw new Refusal(refusal(own, lumens, held));
  const stop = lumens.flatMap((state) => {
    const sure = says(state, 'infusing');
    return sure || says(state, 'unknown') ? [{ ref: state.lumen, name: state.name, sure }] : [];
  });
  const idle = lumens.filter((state) => state.lumen !== ref && !says(state, 'infusing'));
  const irrigate = idle
    .filter((state) => !keepsFromUse(state) && !keepsLock)
    .map(({ lumen, name }) => ({ ref: lumen, name }));
  const leave = idle
    .filter((state) => keepsFromUse(state))
    .map(({ lumen, name, state, why }) => ({ ref: lumen, name, state, why }));
  return {
    stop,
    irrigate,
    leave,
    infusing: aboutWhatRuns(running, 'for-draw'),
    idle: {
      code: 'lumens-to-irrigate',
      lumens: irrigate.map(({ name }) => name),
      keepsLock,
      leave: leave.map(({ name, state }) => ({ name, state })),
    },
    cautions: own && says(own, 'sluggish') ? sluggish(own) : [],
  };
}

function sluggish(own: LumenState): DrawLumens['cautions'] {
  const found = fact(own, 'sluggish');
  return found ? [{ code: 'lumen-is-sluggish', why: found.why }] : [];
}

function refusal(
  own: LumenState,
  lumens: readonly LumenState[],
  held: readonly Hold[],
): Sentence<'no-draw-from-lumen'> {
  const others = lumens.filter((state) => state.lumen !== own.lumen && !keepsFromUse(state));
  const found = own.state === 'damaged' ? undefined : fact(own, 'damaged');
  return {
    code: 'no-draw-from-lumen',
    lumen: namedLumen(own),
    state: own.state,
    ...(own.since === undefined ? {} : { since: own.since }),
    // What holds the draw itself says more than what else is held; and what is wrong with the lumen more than either.
    holds: held.map(({ rule: { title }, until }) => ({ title, ...(until === undefined ? {} : { until }) })),
    why: [...(held.length > 0 ? [] : [own.why]), ...(found ? [found.why] : [])],
    others: others.map(namedLumen),
  };
}

function namedLumen({ name, lumen }: LumenState): NamedLumen {
  return { name, ref: lumen };
}

function fact({ also, ...first }: LumenState, state: LumenFact['state']): LumenFact | undefined {
  return [first, ...also].find((one) => one.state === state);
}

/** Whether the record tells so: that nothing at all is on record of a lumen is no sign that something runs. */
function says(lumen: LumenState, state: 'infusing' | 'unknown' | 'sluggish'): boolean {
  return (fact(lumen, state)?.because ?? []).length > 0;
}
