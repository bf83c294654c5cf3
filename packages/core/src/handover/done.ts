import type { LineCareActivity } from '@dwellward/profiles';
import type { Policy } from '@dwellward/policy';
import { instantMs, type Calendar } from '../timeline/calendar.js';
import { dueCare } from '../due/due-care.js';
import type { DueItem, LineCare, Target } from '../model/care.js';
import { targetsOf } from '../timeline/targets.js';
import type { Timed } from '../timeline/timed.js';
import { compareText, timelineOf } from '../timeline/timeline.js';
import type { CareEvent, LineRecord } from '../model/record.js';
import type { DoneItem, Timing } from './model.js';
import { narrowed } from './narrowed.js';
import type { SpanMs } from './projection.js';

/**
 * What was done to a line within a span, in the order of time, and whether in time: judged by the item that was open
 * the moment before. An event known only by its day counts where any part of that day lies in the span; one that was
 * charted twice stands once.
 */
export function doneItems(
  line: LineRecord,
  care: LineCare,
  policy: Policy,
  calendar: Calendar,
  { fromMs, toMs }: SpanMs,
): DoneItem[] {
  const events = timelineOf(line, calendar, toMs).events.filter(({ ms, latestMs, imprecise }) =>
    imprecise ? ms < toMs && latestMs > fromMs : ms >= fromMs && ms < toMs,
  );
  const opened = new Map<string, ReadonlyMap<string, DueItem>>();
  /** The items of an activity that were open just before a moment, by their identity. */
  const openBefore = (activity: LineCareActivity, ms: number) => {
    const key = `${activity} ${ms}`;
    const known = opened.get(key);
    if (known) return known;
    const when = { asOf: calendar.text(ms - 1), zone: calendar.zone };
    const { items } = dueCare(line, narrowed(policy, activity), when);
    const found = new Map(items.map((item) => [item.id, item]));
    opened.set(key, found);
    return found;
  };
  const items = events
    .flatMap((timed): DoneItem[] => {
      const { fact: event, ms, imprecise } = timed;
      const base = {
        activity: event.activity,
        by: event.ref,
        at: calendar.text(ms),
        ...(imprecise ? { imprecise } : {}),
      };
      const met = care.met.filter(
        ({ by, activity, target }) =>
          by === event.ref &&
          activity === event.activity &&
          (event.lumen === undefined || target.scope !== 'lumen' || target.ref === event.lumen),
      );
      if (met.length === 0)
        return [{ ...base, target: targetOf(line, event), timing: { is: 'not-asked-for' } }];
      // One event charted for several lumens meets the same item of the line more than once.
      const targets = new Map(met.map(({ target }) => [`${target.scope}\u0000${target.ref}`, target]));
      return [...targets.values()].map((target) => {
        const before = openBefore(event.activity, ms);
        const item = met
          .filter((one) => one.target.scope === target.scope && one.target.ref === target.ref)
          .flatMap(({ id, otherIds = [] }) => [id, ...otherIds].map((one) => before.get(one)))
          .find((one) => one !== undefined);
        return { ...base, target, timing: timingOf(timed, item) };
      });
    })
    .sort(
      (a, b) =>
        instantMs(a.at) - instantMs(b.at) ||
        compareText(a.activity, b.activity) ||
        compareText(a.target.ref, b.target.ref) ||
        compareText(a.target.scope, b.target.scope) ||
        compareText(a.by, b.by),
    );
  const seen = new Set<string>();
  return items.filter(({ by, activity, target }) => {
    const key = [by, activity, target.scope, target.ref].join('\u0000');
    return !seen.has(key) && seen.add(key);
  });
}

/** What an item can count from without knowing whether the care had been done before. */
const startOfRecord = new Set<DueItem['countedFrom']['basis']>(['insertion', 'earliest-event', 'nothing']);

function timingOf({ ms, latestMs, imprecise }: Timed<CareEvent>, item: DueItem | undefined): Timing {
  if (item === undefined) return { is: 'not-asked-for' };
  const { dueBy } = item;
  const dueMs = instantMs(dueBy);
  if (ms > dueMs) {
    if (startOfRecord.has(item.countedFrom.basis))
      return { is: 'not-known', dueBy, because: 'first-on-record' };
    return { is: 'late', dueBy, byMinutes: Math.floor((ms - dueMs) / 60_000) };
  }
  // The end of a day is the first moment after it.
  if (imprecise && latestMs - 1 > dueMs) return { is: 'not-known', dueBy, because: 'no-exact-time' };
  return { is: 'on-time', dueBy };
}

function targetOf(line: LineRecord, event: CareEvent): Target {
  const lumen = targetsOf(line, 'lumen').find(({ ref }) => ref === event.lumen);
  const [whole] = targetsOf(line, event.site === 'incision' ? 'incision' : 'line');
  return lumen ?? (whole as Target);
}
