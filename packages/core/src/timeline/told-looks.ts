import { findingRow } from '@dwellward/profiles';
import type { CareEvent, Finding } from '../model/record.js';
import { chartedTwiceMs } from './charted-twice.js';
import type { Timed } from './timed.js';

/**
 * The looks that only a finding tells of: who charts what was found has looked, whether or not the look was charted by
 * itself. A look on record of the same place within `chartedTwiceMs` is the same one. What was found at one time on one
 * place tells of one look; the first by its reference stands for it, the others are its `twins`.
 */
export function toldLooks(
  findings: readonly Timed<Finding>[],
  events: readonly Timed<CareEvent>[],
): Timed<CareEvent>[] {
  const looks = new Map<string, Timed<CareEvent>>();
  for (const { fact, ms, latestMs, imprecise } of findings) {
    const { toldBy: activity } = findingRow(fact.finding);
    if (activity === undefined || fact.ofPatient) continue;
    const onRecord = events.some(
      (one) =>
        one.fact.activity === activity &&
        one.fact.lumen === fact.lumen &&
        one.fact.site === fact.site &&
        Math.abs(one.ms - ms) <= chartedTwiceMs,
    );
    if (onRecord) continue;
    const key = [activity, fact.lumen ?? '', fact.site, ms].join('\u0000');
    const same = looks.get(key);
    if (same) {
      looks.set(key, { ...same, twins: [...(same.twins ?? []), fact.ref] });
      continue;
    }
    looks.set(key, {
      fact: {
        ref: fact.ref,
        activity,
        status: 'completed',
        ...(fact.lumen === undefined ? {} : { lumen: fact.lumen }),
        site: fact.site,
      },
      ms,
      latestMs,
      ...(imprecise ? { imprecise } : {}),
    });
  }
  return [...looks.values()];
}
