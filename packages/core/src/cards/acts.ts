import type { Policy } from '@dwellward/policy';
import { activityRow } from '@dwellward/profiles';
import type { Procedure } from 'fhir/r4.js';
import type { BoardRow } from '../board/model.js';
import { chartedBundle } from '../chart/charted-bundle.js';
import type { Charted } from '../chart/model.js';
import { chartQuestions } from '../chart/questions.js';
import { uuidUrn } from '../fhir/references.js';
import type { AsOf, DueItem, LineCare } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { Say } from '../words/say.js';
import type { CardAct } from './model.js';

interface Of {
  readonly line: LineRecord;
  readonly care: LineCare;
  readonly policy: Policy;
  readonly when: AsOf;
  readonly say: Say;
}

/**
 * What of a row may be recorded with one click, activity by activity. Where anything would be asked first, or the record
 * would not say of what it was done, there is none: it is charted where that can be answered.
 */
export function actsOf(row: BoardRow, items: readonly DueItem[], of: Of): CardAct[] {
  return row.parts.flatMap(({ activity }): CardAct[] => {
    const own = items.filter((item) => item.activity === activity);
    const procedures = own.map((item) => procedureOf(item, of));
    if (procedures.length === 0 || !procedures.every((one) => one !== undefined)) return [];
    const targets = own.map(({ target }) => target.name);
    return [
      {
        label: of.say({ code: 'record-as-done', activity, targets }),
        procedures: procedures.map((resource, at) => ({
          text: of.say({
            code: 'record-as-done',
            activity,
            targets: targets.slice(at, at + 1),
          }),
          resource,
        })),
      },
    ];
  });
}

function procedureOf(item: DueItem, { line, care, policy, when }: Of): Procedure | undefined {
  const { activity, target, questions, heldBy } = item;
  const { role } = activityRow(activity);
  // The line’s own beginning and end change everything that is asked for, and a line that is out may be the wrong one.
  if (role === 'begins-line' || role === 'ends-line' || !care.inPlace) return undefined;
  if (questions.length > 0 || (heldBy !== undefined && item.state === 'held')) return undefined;
  // A Procedure has no place for the incision here, nor for one of several lumens that have no Device.
  if (target.scope === 'incision') return undefined;
  if (target.scope === 'lumen' && target.device === line.ref && line.lumens.length > 1) return undefined;
  const charted: Charted = {
    id: uuidUrn(item.id).slice('urn:uuid:'.length),
    line: line.ref,
    ...(target.scope === 'lumen' ? { lumen: target.ref } : {}),
    activity,
    findings: [],
    at: new Calendar(when.zone).text(instantMs(when.asOf)),
  };
  if (chartQuestions(charted, line, policy, when).length > 0) return undefined;
  return chartedBundle(charted, line).entry?.[0]?.resource as Procedure | undefined;
}
