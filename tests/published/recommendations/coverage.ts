import { cdcAndShea } from './cdc-shea.js';
import { ins } from './ins.js';
import { kdoqiAndIdsa } from './kdoqi-idsa.js';
import { labels } from './labels.js';
import type { Recommendation } from './model.js';
import { others } from './others.js';
import { surveillance } from './surveillance.js';

/** Every numbered recommendation of the sources, in their order. */
export const recommendations: readonly Recommendation[] = [
  ...surveillance,
  ...labels,
  ...cdcAndShea,
  ...ins,
  ...kdoqiAndIdsa,
  ...others,
];

/** How many there have to be: NHSN 40, statistics 6, labels 10 and 6, CDC 24, SHEA 11, INS 30, KDOQI 10, ... */
export const recommendationCount = 183;

/** What became of each, with the failures of checks. */
export interface Coverage {
  readonly kept: readonly Recommendation[];
  readonly notComputable: readonly Recommendation[];
  readonly later: readonly Recommendation[];
  /** Missing, or kept no longer because its check fails. */
  readonly missing: readonly (Recommendation & { readonly failure: string })[];
  /** Kept, of those that are computable and are care policy or a calculator today, in percent. */
  readonly percentToday: number;
  /** Kept, of all computable ones, those of later parts included, in percent. */
  readonly percentComputable: number;
  /** Kept, of all. */
  readonly percentAll: number;
}

/** Runs every check. */
export function coverageOf(given: readonly Recommendation[]): Coverage {
  const kept: Recommendation[] = [];
  const missing: (Recommendation & { failure: string })[] = [];
  for (const one of given) {
    if (one.answer.is === 'missing') missing.push({ ...one, failure: one.answer.what });
    if (one.answer.is !== 'kept') continue;
    try {
      one.answer.check();
      kept.push(one);
    } catch (error) {
      missing.push({
        ...one,
        failure: `check fails: ${error instanceof Error ? error.message : String(error)}`,
      });
    }
  }
  const notComputable = given.filter(({ answer }) => answer.is === 'not-computable');
  const later = given.filter(({ answer }) => answer.is === 'later');
  const percent = (of: number) => (100 * kept.length) / of;
  return {
    kept,
    notComputable,
    later,
    missing,
    percentToday: percent(kept.length + missing.length),
    percentComputable: percent(kept.length + missing.length + later.length),
    percentAll: percent(given.length),
  };
}

// Down, never up: 94.96 is not 95.
const shown = (percent: number) => `${(Math.floor(percent * 10) / 10).toFixed(1)} %`;

/** The report as text; its last line is the figure for the README. */
export function coverageText({ kept, notComputable, later, missing, ...percent }: Coverage): string {
  const all = kept.length + notComputable.length + later.length + missing.length;
  const line = (one: Recommendation, why: string) =>
    `  ${one.source}, ${one.number}: ${one.text} [${one.mark}]\n      ${why}`;
  const list = (head: string, lines: readonly string[]) => [`${head}: ${lines.length}`, ...lines, ''];
  return [
    ...list(
      'Kept',
      kept.map((one) => line(one, one.answer.is === 'kept' ? one.answer.by.join('; ') : '')),
    ),
    ...list(
      'Not computable',
      notComputable.map((one) => line(one, one.answer.is === 'not-computable' ? one.answer.why : '')),
    ),
    ...list(
      'In a later part of the product',
      later.map((one) => line(one, one.answer.is === 'later' ? one.answer.part : '')),
    ),
    ...list(
      'Missing',
      missing.map((one) => line(one, one.failure)),
    ),
    `Of all ${all} recommendations ${kept.length} are kept (${shown(percent.percentAll)}): ${notComputable.length} are not computable, ${later.length} belong to later parts, ${missing.length} are missing; of all computable ones ${shown(percent.percentComputable)} are kept.`,
    `${kept.length} of ${kept.length + missing.length} computable recommendations of care policy and calculators kept: ${shown(percent.percentToday)}`,
  ].join('\n');
}
