import { activityCodes, activityRow, findingCodes, findingRow, type Scope } from '@dwellward/profiles';
import type { Target } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { speaker } from '../words/say.js';
import { askOf, recordableOf } from './asks.js';
import type { OtherCare } from './model.js';

/**
 * Everything that can be recorded of a line, whether it is asked for or not: what nurses do and see keeps to no list of
 * what is due.
 * @example
 * ```ts
 * otherCare(records.lines[0]!).care.some(({ text }) => text === 'Blood sampling'); // true
 * ```
 */
export function otherCare(line: LineRecord, language: Language = english): OtherCare {
  const say = speaker(language, new Calendar('UTC'));
  return {
    care: activityCodes.map((activity) =>
      recordableOf(
        say({ code: 'activity', activity }),
        targetsOf(line, activityRow(activity).scope).map((target) => ({
          id: `${activity} ${target.ref}`,
          activity,
          target,
        })),
        say,
      ),
    ),
    findings: findingCodes.flatMap((finding) =>
      targetsOf(line, findingRow(finding).scope).map((target) => askOf(finding, target.ref, target, say)),
    ),
  };
}

function targetsOf({ ref, lumens }: LineRecord, scope: Scope): Target[] {
  if (scope === 'lumen')
    return lumens.map((lumen) => ({ scope, ref: lumen.ref, device: lumen.device, name: lumen.name }));
  const names = { line: 'the-line', 'exit-site': 'the-exit-site', incision: 'the-vein-incision' } as const;
  return [{ scope, ref, device: ref, name: { code: names[scope] } }];
}
