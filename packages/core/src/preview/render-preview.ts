import { timedOf } from '@dwellward/policy';
import type { DueItem } from '../model/care.js';
import type { Records, Ref } from '../model/record.js';
import type { PreviewedWindow } from '../model/sentences/preview.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { wrap } from '../words/layout.js';
import { oneLine } from '../words/safe-text.js';
import { speaker, type Say } from '../words/say.js';
import { itemOf, type PolicyPreview, type PreviewChange } from './preview-policy.js';

export interface PreviewTextOptions {
  /** What the plan that is tried is called. */
  readonly plan: string;
  /** IANA zone of the unit. */
  readonly zone: string;
  /** Columns of the terminal; 0 for no limit. */
  readonly columns: number;
  /** English where none is given. */
  readonly language?: Language;
}

/**
 * What would change for whom, patient by patient.
 * @example
 * ```ts
 * const wider = readPolicy([...defaultPlans(), bundledPlan('neutropenia')]);
 * wider.ok && renderPreview(previewPolicy(records, policy, wider.policy, when), records, { ...when, colour: false, columns: 80 }).length > 0; // true
 * ```
 */
export function renderPreview(
  preview: PolicyPreview,
  { lines }: Records,
  options: PreviewTextOptions,
): string {
  const { changes, holds, same, changedPatients, unchangedPatients } = preview;
  const say = speaker(options.language ?? english, new Calendar(options.zone));
  const names = new Map(lines.map(({ patient }) => [patient.ref, patient.name]));
  const wrapped = (text: string) => wrap(text, 4, options.columns);
  const head = (patient: Ref) =>
    oneLine(`${names.get(patient) ?? say({ code: 'name-not-known' })} (${patient})`);
  return [
    say({
      code: 'preview-head',
      plan: options.plan,
      items: changes.length,
      patients: changedPatients.length,
      byNotKnown: changes.filter(({ notKnown }) => notKnown.length > 0).length,
    }),
    ...changedPatients.flatMap((patient) => [
      '',
      head(patient),
      ...changes
        .filter((one) => one.patient === patient)
        .flatMap((one) => changeLines(one, say))
        .map(wrapped),
      ...holds
        .filter((one) => one.patient === patient)
        .map(({ kind, hold: { activity, target, until, rule } }) =>
          wrapped(
            `  ${say({
              code: 'preview-hold',
              kind,
              activity,
              target: target.name,
              ...(until === undefined ? {} : { until }),
              title: rule.title,
            })}`,
          ),
        ),
    ]),
    '',
    say({ code: 'preview-rest', items: same, patients: unchangedPatients.length }),
    say({ code: 'nothing-was-written' }),
    '',
  ].join('\n');
}

function changeLines(change: PreviewChange, say: Say): string[] {
  const { kind, before, after, rule, because, notKnown, dueByShiftMs = 0 } = change;
  const { activity, target, line } = itemOf(change);
  return [
    `  ${say({ code: 'preview-item', activity, target: target.name, line, kind, shiftMs: dueByShiftMs })}`,
    `    ${say({
      code: 'preview-window',
      ...(before ? { before: { dueBy: before.dueBy } } : {}),
      ...(after ? { after: windowOf(after) } : {}),
    })}`,
    `    ${say({
      code: 'preview-rule',
      asks: kind !== 'vanishes',
      title: rule.title,
      schedule: timedOf(rule),
      id: rule.id,
      layer: rule.origin,
    })}`,
    ...(because
      ? [`    ${say({ code: 'preview-because', how: because.how, by: because.by, notes: because.notes })}`]
      : []),
    ...(notKnown.length > 0 ? [`    ${say({ code: 'preview-not-known', facts: notKnown })}`] : []),
  ];
}

function windowOf({ dueBy, state }: DueItem): PreviewedWindow {
  return { dueBy, ...(state === 'upcoming' ? {} : { state }) };
}
