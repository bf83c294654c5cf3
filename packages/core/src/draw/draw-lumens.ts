import { displayOf } from '@dwellward/profiles';
import type { Hold, LineCare, LumenFact, LumenState } from '../model/care.js';
import { keepsFromUse } from '../lumens/use-against-holds.js';
import type { Lumen } from '../model/record.js';
import type { DrawPlan } from './model.js';

/** What is done with each lumen of the line for a draw from one of them, and how the steps say it. */
export interface DrawLumens extends Pick<DrawPlan, 'stop' | 'irrigate' | 'leave'> {
  readonly infusingText: string;
  readonly idleText: string;
  readonly cautions: readonly string[];
}

/**
 * By the lumens’ states: what runs through any lumen stops; the other lumens are irrigated and clamped too unless they
 * are infusing (common practice, no source), and unless they keep a lock that must not reach the blood; one that is
 * blocked, damaged or not to be used is left alone.
 *
 * Throws a RangeError where the line is not in place, or where the lumen to draw from is itself blocked, damaged or not
 * to be used; the message names why and which lumen can be used instead.
 */
export function drawLumens(
  { line, closed, lumens }: LineCare,
  { ref }: Lumen,
  /** The other lumens keep their lock: irrigating them would push it into the patient. */
  keepsLock: boolean,
  /** Holds on drawing blood from it, in force now. */
  held: readonly Hold[],
): DrawLumens {
  if (closed)
    throw new RangeError(
      `${line} is not in place (${closed.replaceAll('-', ' ')}): no blood is drawn from it.`,
    );
  const own = lumens.find(({ lumen }) => lumen === ref);
  if (own && keepsFromUse(own)) throw new RangeError(refusal(own, lumens, held));
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
    infusingText:
      stop.length === 0
        ? 'nothing is on record as running; look'
        : `${stop
            .map(({ name, sure }) => (sure ? name : `${name} (whether anything runs is not known: look)`))
            .join(', ')}. ${askFirst}`,
    idleText: [
      irrigate.length > 0
        ? irrigate.map(({ name }) => name).join(', ')
        : keepsLock
          ? 'no other lumen: the lock of a dialysis catheter stays where it is'
          : leave.length > 0
            ? 'no other lumen'
            : 'no other lumen: none is idle',
      ...leave.map(({ name, state }) => `leave ${name}, which is ${word(state)}`),
    ].join('; '),
    cautions:
      own && says(own, 'sluggish')
        ? [`This lumen is sluggish: do not force it. ${fact(own, 'sluggish')?.why ?? ''}`.trim()]
        : [],
  };
}

/** Common practice, no source. */
const askFirst =
  'Ask first whether it may stop: a drug that keeps up the circulation, such as a vasopressor, must not; where one runs, draw from a vein';

function refusal(own: LumenState, lumens: readonly LumenState[], held: readonly Hold[]): string {
  const others = lumens.filter((state) => state.lumen !== own.lumen && !keepsFromUse(state));
  const instead =
    others.length > 0
      ? `Draw from ${others.map(({ name, lumen }) => `${name} (${lumen})`).join(' or ')} instead, or from a vein.`
      : 'No other lumen of the line can be used: draw from a vein.';
  const since = own.since === undefined ? '' : ` since ${own.since}`;
  // What holds the draw itself says more than what else is held; and what is wrong with the lumen more than either.
  const titles = [
    ...new Set(held.map(({ rule, until }) => `${rule.title}${until ? `, until ${until}` : ''}.`)),
  ];
  const found = own.state === 'damaged' ? undefined : fact(own, 'damaged')?.why;
  const why = [...(titles.length > 0 ? titles : [own.why]), ...(found ? [found] : [])].join(' ');
  return `No blood is drawn from ${own.name} (${own.lumen}): it is ${word(own.state)}${since}. ${why} ${instead}`;
}

function word(state: LumenFact['state']): string {
  return displayOf('lumenState', state).toLowerCase();
}

function fact({ also, ...first }: LumenState, state: LumenFact['state']): LumenFact | undefined {
  return [first, ...also].find((one) => one.state === state);
}

/** Whether the record tells so: that nothing at all is on record of a lumen is no sign that something runs. */
function says(lumen: LumenState, state: 'infusing' | 'unknown' | 'sluggish'): boolean {
  return (fact(lumen, state)?.because ?? []).length > 0;
}
