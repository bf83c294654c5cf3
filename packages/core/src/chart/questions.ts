import type { Policy } from '@dwellward/policy';
import { activityRow, findingRow } from '@dwellward/profiles';
import { dueCareOfEach } from '../due/due-care-of-each.js';
import type { AsOf, Hold, LineCare } from '../model/care.js';
import type { LineRecord, Lumen, Ref } from '../model/record.js';
import type { Name } from '../model/sentences.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { timelineOf } from '../timeline/timeline.js';
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
 * What to ask before an act is charted: it was held at that time, the line was out or not in yet, it is on record already;
 * and what can’t be charted at all. It advises: whoever did it says what was done.
 * @param policy what forbids, at the time of which it is charted. @param when the moment at which it is charted.
 * @example
 * ```ts
 * const act = { id: 'a', line: cares[0]!.line, activity: 'site-assessment', findings: [], at: when.asOf } as const;
 * chartQuestions(act, records.lines[0]!, policy, when).filter(({ refused }) => refused).length; // 0
 * ```
 */
export function chartQuestions(
  charted: Charted,
  line: LineRecord,
  policy: Policy,
  when: AsOf,
): ChartQuestion[] {
  const { asOf, zone } = when;
  const { activity, at, lumen: ref } = charted;
  const calendar = new Calendar(zone);
  const [atMs, nowMs] = [instantMs(at), instantMs(asOf)];
  const lumen = line.lumens.find((one) => one.ref === ref);
  const on: Name = lumen?.name ?? { code: 'the-line' };
  const found: ChartQuestion[] = [];
  const put = (sentence: ChartQuestion['sentence'], refused = false) =>
    found.push({ code: sentence.code, refused, sentence });

  if (ref !== undefined && lumen === undefined && ref !== line.ref) put({ code: 'charts-on-unknown' }, true);
  if (lumen && isCounted(lumen, line) && isOfLumen(charted))
    put({ code: 'charts-on-counted-lumen', on }, true);
  if (atMs > nowMs + clockSkewMs) put({ code: 'charts-in-future', at, now: asOf }, true);
  if (activity === undefined) return found;
  if (activityRow(activity).namesLumen && ref === undefined && line.lumens.length > 1)
    put({ code: 'charts-on-no-lumen', activity }, true);
  // What was forbidden then is worked out for then: a hold that is over now bound what was done while it lasted.
  const [then] = dueCareOfEach([line], policy, { asOf: at, zone });
  if (then === undefined || then.notComputed) {
    put({ code: 'charts-against-unknown' });
    return found;
  }
  const hold = holdOn(then, activity, sameTarget(line, ref), instantMs(at));
  if (hold)
    put({
      code: 'charts-against-hold',
      activity,
      on: hold.target.name,
      title: hold.rule.title,
      ...(hold.until === undefined ? {} : { until: hold.until }),
    });
  const timeline = timelineOf(line, calendar, Math.max(atMs, nowMs));
  const { insertion } = timeline;
  const { role, preparesInsertion } = activityRow(activity);
  // Preparing for an insertion and looking after a removal are care of a line that is not in.
  const expected =
    role === 'begins-line' || preparesInsertion || then.items.some((item) => item.activity === activity);
  if (!expected && insertion && atMs < insertion.ms)
    put({ code: 'charts-before-insertion', at, insertedAt: calendar.text(insertion.ms) });
  else if (!expected && then.closed !== undefined)
    put({ code: 'charts-of-closed-line', because: then.closed });
  const before = timeline.events.find(
    ({ fact, ms, imprecise }) =>
      fact.activity === activity &&
      sameTarget(line, fact.lumen) === sameTarget(line, ref) &&
      imprecise === undefined &&
      Math.abs(ms - atMs) <= doubleMs,
  );
  if (before) put({ code: 'charts-twice', activity, on, at: calendar.text(before.ms) });
  return found;
}

/** Of several lumens one that has no Device of its own: what is written of it stands on the line. */
function isCounted({ device }: Lumen, { ref, lumens }: LineRecord): boolean {
  return device === ref && lumens.length > 1;
}

function isOfLumen({ activity, findings }: Charted): boolean {
  const ofActivity = activity !== undefined && activityRow(activity).scope === 'lumen';
  return ofActivity || findings.some(({ finding }) => findingRow(finding).scope === 'lumen');
}

/** The only lumen of a line and the line are one. */
function sameTarget({ ref: line, lumens }: LineRecord, ref: Ref | undefined): Ref | undefined {
  return ref === undefined || ref === line || lumens.length === 1 ? undefined : ref;
}

function holdOn(
  { holds }: LineCare,
  activity: string,
  lumen: Ref | undefined,
  atMs: number,
): Hold | undefined {
  return holds.find(
    ({ activity: held, target, from, until }) =>
      held === activity &&
      (target.scope !== 'lumen' || lumen === undefined || target.ref === lumen) &&
      instantMs(from) <= atMs &&
      (until === undefined || atMs < instantMs(until)),
  );
}
