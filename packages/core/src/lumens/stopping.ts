import { drugRow, findingRow } from '@dwellward/profiles';
import type { Rule } from '@dwellward/policy';
import { lumenUse, runningInfusions, unsureInfusions } from '../facts/lumen-use.js';
import type { Moment } from '../facts/facts.js';
import type { Ref, RunningDrug } from '../model/record.js';
import type { RunningSaid, Stopping, WhatRunsSentences } from '../model/sentences/drugs.js';
import { targetsOf } from '../timeline/targets.js';
import type { Timeline } from '../timeline/timeline.js';

/**
 * Whether what runs may just be stopped, by the table of drugs: one that keeps up the circulation must not be, nor one
 * that harms when it stops suddenly. Only a code lets anything be stopped: what is not known has to be found out first.
 */
export function stoppingOf(drug: RunningDrug | undefined): Stopping {
  if (!drug?.known) return 'find-out';
  const harms = drug.codes.flatMap((code) => drugRow(code).ifStopped ?? []);
  if (harms.includes('circulation')) return 'circulation';
  return harms.includes('harm') ? 'harm' : 'may-stop';
}

/** Everything that runs, or may run, through a line, one entry an infusion. */
export interface Running extends RunningSaid {
  /** Absent where it is not said of which lumen it is. */
  readonly ref?: Ref;
  readonly of: Ref;
}

/** Everything that runs, or may run, through a line; of a line with one lumen no lumen is named. */
export function whatRuns(timeline: Timeline): Running[] {
  const { line } = timeline;
  const at = (target: Moment['target']) =>
    ({ timeline, target, ms: timeline.asOfMs, staleAfter: { value: 0, unit: 'd' } }) as const;
  const several = line.lumens.length > 1;
  const lumens = targetsOf(line, 'lumen');
  const nameOf = (ref: Ref | undefined) => {
    const lumen = several ? lumens.find((one) => one.ref === ref) : undefined;
    return lumen ? { lumen: lumen.name } : {};
  };
  const [only] = several ? [] : lumens;
  const infusions = targetsOf(line, 'line').flatMap((whole) => [
    ...runningInfusions(at(whole)).map((one) => ({ ...one, sure: true })),
    ...unsureInfusions(at(whole)).map((one) => ({ ...one, sure: false })),
  ]);
  const through = infusions.map(({ fact: { ref, drug, lumen = only?.ref }, sure }): Running => ({
    ...nameOf(lumen),
    ...(lumen === undefined ? {} : { ref: lumen }),
    of: ref,
    ...(drug ? { drug } : {}),
    ...(sure ? {} : { unsure: true }),
    stopping: stoppingOf(drug),
  }));
  // Connected, as far as is charted, and nobody has said what.
  const connected = lumens.flatMap((target): Running[] => {
    const use = lumenUse(at(target));
    const known = through.some(({ ref }) => ref === target.ref);
    const [of = target.ref] = use.refs;
    return use.value === 'infusing' && !known
      ? [{ ...nameOf(target.ref), ref: target.ref, of, stopping: 'find-out' }]
      : [];
  });
  return [...through, ...connected];
}

/** What is to be done about what runs, as a sentence. */
export function aboutWhatRuns(
  running: readonly RunningSaid[],
  stop: WhatRunsSentences['what-runs']['stop'],
): { readonly code: 'what-runs' } & WhatRunsSentences['what-runs'] {
  return {
    code: 'what-runs',
    running: running.map(({ lumen, drug, unsure, stopping }) => ({
      ...(lumen ? { lumen } : {}),
      ...(drug ? { drug } : {}),
      ...(unsure ? { unsure } : {}),
      stopping,
    })),
    stop,
  };
}

/** Whether a hold by some rules leaves no choice: it began with a finding after which nothing may run on. */
export function stopBy(rules: readonly Pick<Rule, 'begins'>[]): 'now' | 'or-say-why' {
  const found = rules.some(
    ({ begins }) =>
      begins.kind === 'triggered' &&
      begins.by.some((one) => one.kind === 'finding' && findingRow(one.finding).stopsWhatRuns),
  );
  return found ? 'now' : 'or-say-why';
}
