import { standingDamages } from '../timeline/damage.js';
import type { LumenFact } from '../model/care.js';
import type { Moment } from '../facts/facts.js';
import type { Timed } from '../timeline/timed.js';
import { standingBlockages } from '../timeline/patency.js';
import type { Timeline } from '../timeline/timeline.js';
import type { Finding } from '../model/record.js';

/**
 * What was found wrong with a lumen and not put right since.
 *
 * Damage lasts until a repair that was of it, or until a later look says that there is none: `damage.ts` says which.
 * Damage that is on record of the line as a whole counts for every lumen: which of them it is, is not known.
 *
 * A lumen is blocked where the last blood return was none or the flush was blocked, sluggish where the one was sluggish
 * or the other met some resistance: `patency.ts` says until when.
 */
export function troublesOf(at: Moment): LumenFact[] {
  return [damaged(at), ...blockages(at)].filter((one) => one !== undefined);
}

function damaged(at: Moment): LumenFact | undefined {
  const standing = standingDamages(at.timeline, at.ms, at.target.ref);
  const found = standing.map((damage) => damage.found);
  if (found.length === 0) return undefined;
  const kinds = [...new Set(found.flatMap(({ fact }) => fact.values))];
  const whole = standing.every(({ lumen }) => lumen === undefined) && at.timeline.line.lumens.length > 1;
  return fact(at, 'damaged', found, whole ? 'line' : 'lumen', {
    code: 'damage-stands',
    kinds,
    wholeLine: whole,
  });
}

function blockages(at: Moment): LumenFact[] {
  const standing = standingBlockages(at.timeline, at.target, at.ms);
  for (const grade of [2, 1] as const) {
    const found = standing.filter((one) => one.grade === grade).map((one) => one.found);
    if (found.length === 0) continue;
    const looks = [...new Set(found.map(({ fact: { finding } }) => finding))];
    const state = grade === 2 ? 'blocked' : 'sluggish';
    return [fact(at, state, found, 'lumen', { code: 'not-found-open', grade: state, looks })];
  }
  return [];
}

function fact(
  { timeline }: { readonly timeline: Timeline },
  state: LumenFact['state'],
  found: readonly Timed<Finding>[],
  of: LumenFact['of'],
  why: LumenFact['why'],
): LumenFact {
  const [first] = found;
  return {
    state,
    ...(first ? { since: timeline.calendar.text(first.ms) } : {}),
    because: [...new Set(found.map(({ fact: { ref } }) => ref))],
    of,
    why,
  };
}
