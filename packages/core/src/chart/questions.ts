import { activityRow } from '@dwellward/profiles';
import type { LineCare } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { Name } from '../model/sentences.js';
import type { Charted, ChartQuestion } from './model.js';

const minuteMs = 60_000;
/**
 * Clocks at the bedside differ by so much: what is charted a little ahead of ours is meant as now. Longer, and a slip
 * of an hour passes unseen; shorter, and nobody can chart at once. Common practice, no source.
 */
const clockSkewMs = 2 * minuteMs;
/** Two records of one act on one target this close are likely one act charted twice. Common practice, no source. */
const doubleMs = 2 * minuteMs;

/**
 * What to ask before an act is charted: it is held, the line is out or was not in yet, it is on record already; and what
 * can’t be charted at all. It advises: whoever did it says what was done.
 * @param care the care of the line at the moment at which it is charted, with the holds that are in force then.
 * @param asOf that moment.
 * @example
 * ```ts
 * const act = { id: 'a', line: cares[0]!.line, activity: 'site-assessment', findings: [], at: when.asOf } as const;
 * chartQuestions(act, records.lines[0]!, cares[0]!, when).filter(({ refused }) => refused).length; // 0
 * ```
 */
export function chartQuestions(
  charted: Charted,
  line: LineRecord,
  care: LineCare,
  { asOf, zone }: { readonly asOf: string; readonly zone: string },
): ChartQuestion[] {
  const { activity, at, lumen: ref } = charted;
  const calendar = new Calendar(zone);
  const [atMs, nowMs] = [instantMs(at), instantMs(asOf)];
  const lumen = line.lumens.find((one) => one.ref === ref);
  const on: Name = lumen?.name ?? { code: 'the-line' };
  const found: ChartQuestion[] = [];
  const put = (sentence: ChartQuestion['sentence'], refused = false) =>
    found.push({ code: sentence.code, refused, sentence });

  if (ref !== undefined && lumen === undefined) put({ code: 'charts-on-unknown' }, true);
  if (atMs > nowMs + clockSkewMs) put({ code: 'charts-in-future', at, now: asOf }, true);
  if (activity === undefined) return found;
  if (activityRow(activity).namesLumen && ref === undefined && line.lumens.length > 1)
    put({ code: 'charts-on-no-lumen', activity }, true);
  const hold = care.holds.find(
    ({ activity: held, target, from, until }) =>
      held === activity &&
      (target.scope === 'line' || ref === undefined || target.ref === ref) &&
      instantMs(from) <= atMs &&
      (until === undefined || atMs < instantMs(until)),
  );
  if (hold)
    put({
      code: 'charts-against-hold',
      activity,
      on: hold.target.name,
      title: hold.rule.title,
      ...(hold.until === undefined ? {} : { until: hold.until }),
    });
  const begins = activityRow(activity).role === 'begins-line';
  if (care.closed !== undefined && !begins && outAt(line, calendar) <= atMs)
    put({ code: 'charts-of-closed-line', because: care.closed });
  const inserted = line.events.findLast(
    ({ activity: one, status, at: time }) =>
      activityRow(one).role === 'begins-line' && status === 'completed' && time !== undefined,
  )?.at;
  if (inserted && !begins && !activityRow(activity).preparesInsertion && atMs < calendar.earliest(inserted))
    put({
      code: 'charts-before-insertion',
      at,
      insertedAt: calendar.text(calendar.earliest(inserted)),
    });
  const before = line.events.find(
    (event) =>
      event.activity === activity &&
      event.status === 'completed' &&
      event.lumen === ref &&
      event.at?.precision === 'instant' &&
      Math.abs(calendar.earliest(event.at) - atMs) <= doubleMs,
  );
  if (before?.at)
    put({ code: 'charts-twice', activity, on, at: calendar.text(calendar.earliest(before.at)) });
  return found;
}

/** From when on the line was out: what is charted for an earlier time was done while it was in. */
function outAt(line: LineRecord, calendar: Calendar): number {
  const out = line.events.findLast(
    ({ activity, status, at }) =>
      activityRow(activity).role === 'ends-line' && status === 'completed' && at !== undefined,
  )?.at;
  return out ? calendar.earliest(out) : -Infinity;
}
