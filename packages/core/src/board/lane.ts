import { unansweredSaid } from '../due/unanswered.js';
import { unknownsOf } from '../due/unknowns.js';
import { keepsFromUse } from '../lumens/use-against-holds.js';
import type { AsOf, DueItem, Hold, LineCare } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import { priorityOf } from '../rules/priority.js';
import { holdRows } from '../table/hold-rows.js';
import {
  compareItems,
  firstStepsIn,
  isEmergency,
  lineHead,
  nameOf,
  sorted,
  together,
  whatIn,
  whyIn,
  type Group,
} from '../table/rows.js';
import { instantMs } from '../timeline/calendar.js';
import { lumenIs, lumenReasons } from '../words/lumen.js';
import { questionsInFull } from '../words/questions.js';
import type { Say } from '../words/say.js';
import { recordableOf } from './asks.js';
import type { BoardHold, BoardLine, BoardRow } from './model.js';

/** A line that may have no record: what its care was computed from was given by itself. */
export interface LaneOf {
  readonly care: LineCare;
  readonly line: LineRecord | undefined;
  readonly when: AsOf;
  readonly say: Say;
}

/** The items of a line as its rows, the most pressing first. */
export function groupsOf({ items }: LineCare): Group[] {
  return together(items.map(sorted).sort(compareItems));
}

/** One line as a lane. */
export function laneOf({ care, line, when, say }: LaneOf): BoardLine {
  const nowMs = instantMs(when.asOf);
  return {
    line: care.line,
    name: say(nameOf(care.line, line)),
    text: say(lineHead(care, line, when)),
    ...(care.closed === undefined
      ? {}
      : { closedText: say({ code: 'closed-because', because: care.closed }) }),
    ...(line?.type ? { type: line.type } : {}),
    notComputed: care.notComputed === true,
    warnings: [...care.warnings, ...questionsInFull(care.items)].map(say),
    unanswered: unansweredSaid(care).map(say),
    notKnown: unknownsOf(care.items).map((unknown) => say({ code: 'read-protectively', ...unknown })),
    lumens: care.lumens.map((lumen) => ({
      ref: lumen.lumen,
      device: lumen.device,
      name: say({ code: 'short-name', of: lumen.name }),
      state: lumen.state,
      stateText: say({ code: 'lumen-state', state: lumen.state }),
      text: say(lumenIs(lumen)),
      reasons: lumenReasons(lumen).map(say),
      keptFromUse: keepsFromUse(lumen),
    })),
    holds: holdsOf(care, (line?.lumens.length ?? 0) > 1, say),
    rows: groupsOf(care).map((group) => boardRow(group, nowMs, say)),
  };
}

/** Holds of one target and one end as one, each with the time that it binds. */
function holdsOf({ holds }: LineCare, several: boolean, say: Say): BoardHold[] {
  const kinds = new Map<string, Hold[]>();
  for (const hold of holds) {
    const key = [hold.target.scope, hold.target.ref, hold.until ?? ''].join('\u0000');
    kinds.set(key, [...(kinds.get(key) ?? []), hold]);
  }
  return [...kinds.values()].flatMap((own) =>
    holdRows(own, several).map((row) => ({
      text: say(row),
      ofLine: own.some(({ target }) => target.scope === 'line'),
      from: own.map(({ from }) => from).sort((a, b) => instantMs(a) - instantMs(b))[0] ?? '',
      ...(own[0]?.until === undefined ? {} : { until: own[0].until }),
    })),
  );
}

function boardRow(group: Group, nowMs: number, say: Say): BoardRow {
  const [{ item, dueMs }] = group;
  const unmoved = unmovedDueBy(item);
  return {
    ...recordableOf(
      whatIn(group, say),
      group.map(({ item: one }) => one),
      say,
    ),
    ids: group.map(({ item: one }) => one.id),
    state: item.state,
    stateText: say({ code: 'due-state', state: item.state }),
    priority: priorityOf(item),
    emergency: isEmergency(item),
    dueText: say({ code: 'clock', at: dueMs }),
    relativeText: say({ code: 'relative', ms: dueMs - nowMs }),
    opens: item.opens,
    dueBy: item.dueBy,
    ...(unmoved === undefined ? {} : { unmovedDueBy: unmoved }),
    why: whyIn(group, say),
    firstSteps: firstStepsIn(item, say),
  };
}

/** When it would be due without what moved it: by the next rule that holds, or before the hold. */
function unmovedDueBy({ movedBy, others, dueBy, dueByUnheld }: DueItem): string | undefined {
  if (dueByUnheld !== undefined) return dueByUnheld;
  if (movedBy.length === 0) return undefined;
  return others.map((one) => one.dueBy).find((other) => instantMs(other) > instantMs(dueBy));
}
