import { standingDamages } from '../timeline/damage.js';
import type { LumenFact } from '../model/care.js';
import type { Moment } from '../facts/moment.js';
import type { Timed } from '../timeline/timed.js';
import { isOn, type Timeline } from '../timeline/timeline.js';
import type { Finding } from '../model/record.js';

/**
 * What was found wrong with a lumen and not put right since.
 *
 * Damage lasts until a repair that was of it, or until a later look says that there is none: `damage.ts` says which.
 * Damage that is on record of the line as a whole counts for every lumen: which of them it is, is not known.
 *
 * A lumen is blocked where the last blood return was none or the flush was blocked, sluggish where the one was sluggish
 * or the other met some resistance. Brisk blood return ends both; a flush that meets less resistance ends only what was
 * found of the flush. What is charted at the same time as a trouble, or may have been before it, does not end it.
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

const bloodReturn: Readonly<Record<string, 0 | 1 | 2>> = {
  brisk: 0,
  sluggish: 1,
  none: 2,
};
const resistance: Readonly<Record<string, 0 | 1 | 2>> = { none: 0, some: 1, blocked: 2 };

function levelOf({ finding, values }: Finding): 0 | 1 | 2 | undefined {
  const levels = values
    .map((value) => (finding === 'blood-return' ? bloodReturn : resistance)[value])
    .filter((one) => one !== undefined);
  return levels.length > 0 ? (Math.max(...levels) as 0 | 1 | 2) : undefined;
}

function blockages(at: Moment): LumenFact[] {
  const { timeline, target, ms } = at;
  const looks = timeline.findings
    .filter(
      ({ fact, ms: when }) =>
        when <= ms &&
        (fact.finding === 'blood-return' || fact.finding === 'flush-resistance') &&
        isOn(timeline, fact, target),
    )
    .flatMap((found) => {
      const grade = levelOf(found.fact);
      return grade === undefined ? [] : [{ found, grade }];
    });
  const standing = looks.filter(
    ({ found, grade }) =>
      grade > 0 &&
      !looks.some(
        (later) =>
          isAfter(later.found, found) &&
          (later.found.fact.finding === found.fact.finding
            ? later.grade < grade
            : later.grade === 0 && later.found.fact.finding === 'blood-return'),
      ),
  );
  for (const grade of [2, 1] as const) {
    const found = standing.filter((one) => one.grade === grade).map((one) => one.found);
    if (found.length === 0) continue;
    const looks = [...new Set(found.map(({ fact: { finding } }) => lookOf(finding)))];
    const state = grade === 2 ? 'blocked' : 'sluggish';
    return [fact(at, state, found, 'lumen', { code: 'not-found-open', grade: state, looks })];
  }
  return [];
}

function lookOf(finding: Finding['finding']): 'blood-return' | 'flush-resistance' {
  return finding === 'blood-return' ? finding : 'flush-resistance';
}

/** Surely later: what may have been before, or is charted at the same time, is not. */
function isAfter(later: Timed<Finding>, earlier: Timed<Finding>): boolean {
  return later.ms > earlier.ms && later.ms >= earlier.latestMs;
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
