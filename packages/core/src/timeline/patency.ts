import { findingRow, gradeOf } from '@dwellward/profiles';
import type { Target } from '../model/care.js';
import type { Finding } from '../model/record.js';
import type { Timed } from './timed.js';
import { isOn, type Timeline } from './timeline.js';

/** A finding that tells how far from open a lumen is: 0 open, 1 sluggish, 2 blocked. */
export interface PatencyLook {
  readonly found: Timed<Finding>;
  readonly grade: 0 | 1 | 2;
}

/** Every look at whether a lumen is open, up to a moment, in the order of time; of several values the worst counts. */
function looksOn(timeline: Timeline, target: Target, ms: number): PatencyLook[] {
  return timeline.findings
    .filter(
      ({ fact, ms: when }) =>
        when <= ms && findingRow(fact.finding).tellsPatency && isOn(timeline, fact, target),
    )
    .flatMap((found) => {
      const { finding, values } = found.fact;
      const grades = values.map((value) => gradeOf(finding, value)).filter((one) => one !== undefined);
      return grades.length === 0 ? [] : [{ found, grade: Math.max(...grades) as 0 | 1 | 2 }];
    });
}

/**
 * What was found wrong with the patency of a lumen and not put right since. Brisk blood return ends all of it: that a
 * lumen works is, by the US label of alteplase, that blood can be drawn. A flush that meets less resistance ends only
 * what was found of the flush. What is charted at the same time as a trouble, or may have been before it, does not end
 * it.
 */
export function standingBlockages(timeline: Timeline, target: Target, ms: number): PatencyLook[] {
  return standing(looksOn(timeline, target, ms));
}

function standing(looks: readonly PatencyLook[]): PatencyLook[] {
  return looks.filter(
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
}

/** The first look at or after a moment that found a lumen open. */
export function foundOpenAfter(timeline: Timeline, target: Target, ms: number): Timed<Finding> | undefined {
  return looksOn(timeline, target, timeline.asOfMs).find(({ found, grade }) => grade === 0 && found.ms >= ms)
    ?.found;
}

/** The last look that found a lumen open, nothing being wrong with it then; undefined where none did. */
export function lastFoundOpen(timeline: Timeline, target: Target, ms: number): Timed<Finding> | undefined {
  const looks = looksOn(timeline, target, ms);
  const open = looks.filter(
    ({ found, grade }) =>
      grade === 0 && standing(looks.filter((one) => one.found.ms <= found.ms)).length === 0,
  );
  return open.at(-1)?.found;
}

/** Surely later: what may have been before, or is charted at the same time, is not. */
function isAfter(later: Timed<Finding>, earlier: Timed<Finding>): boolean {
  return later.ms > earlier.ms && later.ms >= earlier.latestMs;
}
