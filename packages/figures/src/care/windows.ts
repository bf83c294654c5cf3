import { Calendar, dueCare, instantMs, type DueItem, type LineRecord, type Records } from '@dwellward/core';
import { activityRow } from '@dwellward/profiles';
import { addDays, day, type DaySpan } from '../days/calendar-days.js';
import { unitAt } from '../days/unit-at.js';
import { FiguresError } from '../error.js';

/** The policy as the due care is worked out by. */
export type CarePolicy = Parameters<typeof dueCare>[1];

/** Over what the care is looked at. */
export interface CarePeriod extends DaySpan {
  /** The unit’s IANA time zone. */
  readonly zone: string;
  /** When a shift begins, as hours of the day; 7 and 19 where absent: common practice, no source. */
  readonly shifts?: readonly number[];
}

/** How a window of care ended. */
export type WindowOutcome =
  /** Done by the time it was due. */
  | 'on-time'
  /** Done after it. */
  | 'late'
  /** Not done by the end of the period, or before the line was out. */
  | 'missed'
  /** A hold forbade it when it was due. */
  | 'held';

/** Care that was due, from when it might be done to how it ended. */
export interface CareWindow {
  /** As the due item had it. */
  readonly id: string;
  readonly activity: DueItem['activity'];
  readonly line: string;
  readonly patient: string;
  readonly rule: string;
  /** The title of the layer that the rule stands in. */
  readonly layer: string;
  readonly unit: string;
  /** The shift in which it was due, as `07 to 19`. */
  readonly shift: string;
  readonly opens: string;
  readonly dueBy: string;
  readonly outcome: WindowOutcome;
  /** What it was done by, and when. */
  readonly by?: string;
  readonly at?: string;
  /** Days from when it was due to when it was done, or to the end of the time that is looked at; 0 where it was on time. */
  readonly daysOverdue: number;
  /** Why it was not done when it was due, where that was charted. */
  readonly reason?: string;
  readonly urgent: boolean;
  readonly supplies: readonly string[];
}

const dayMs = 86_400_000;

/**
 * Every window of care that closed in a period: at the time it was due, or when it was done where that was sooner. What was
 * due is what {@link dueCare} answers, asked just before each act that was charted, before the line came out, and at the end
 * of the period; nothing is judged a second time.
 *
 * - Ranges: the period as {@link lineDays} has it; shifts from 0 to 23, at least one.
 * - Errors: throws a {@link FiguresError} for a day or a shift that is none, and a CoreError for a zone that is none.
 * - Cautions: what was charted late counts for when it was done. Care that was not done counts once, however long it was
 *   overdue; looks of a series that lapsed into the next are not counted apart. What is not charted counts as not done.
 *
 * @example
 * ```ts
 * const none = { lines: [], issues: [], notUnderstood: [], otherBusiness: [], unitStays: [] };
 * careWindows(none, { layers: [], rules: [], labStaleAfter: { value: 7, unit: 'd' } }, { from: '2026-04-01', to: '2026-04-30', zone: 'Europe/Berlin' }); // []
 * ```
 */
export function careWindows(records: Records, policy: CarePolicy, period: CarePeriod): readonly CareWindow[] {
  const look = new Look(records, policy, period);
  return records.lines
    .flatMap((line) => look.windowsOf(line))
    .sort((a, b) => (a.dueBy < b.dueBy ? -1 : a.dueBy > b.dueBy ? 1 : a.id < b.id ? -1 : 1));
}

class Look {
  readonly #calendar: Calendar;
  readonly #fromMs: number;
  readonly #toMs: number;
  readonly #shifts: readonly number[];

  constructor(
    readonly records: Records,
    readonly policy: CarePolicy,
    readonly period: CarePeriod,
  ) {
    const { from, to, zone, shifts = [7, 19] } = period;
    const bad = shifts.find((hour) => !Number.isInteger(hour) || hour < 0 || hour > 23);
    if (bad !== undefined || shifts.length === 0)
      throw new FiguresError('out-of-range', 'shifts', bad ?? 'none', 'hours from 0 to 23');
    if (day('to', to) < day('from', from))
      throw new FiguresError('inconsistent', 'to', to, `a day not before ${from}`);
    this.#calendar = new Calendar(zone);
    this.#fromMs = this.#calendar.earliest({ text: from, precision: 'day' });
    this.#toMs = this.#calendar.earliest({ text: addDays(to, 1), precision: 'day' });
    this.#shifts = [...new Set(shifts)].sort((a, b) => a - b);
  }

  windowsOf(line: LineRecord): CareWindow[] {
    const end = this.#careAt(line, this.#toMs - 1);
    const outMs = removedMs(line, this.#calendar);
    const lastMs = Math.min(this.#toMs, outMs ?? Infinity);
    const done = new Map<string, CareWindow>();
    const ended = new Set<string>();
    for (const [ms, met] of byTime(end.met.map((one) => [instantMs(one.at), one] as const))) {
      for (const { id, otherIds = [] } of met) for (const one of [id, ...otherIds]) ended.add(one);
      if (ms < this.#fromMs || ms >= this.#toMs) continue;
      const { items } = this.#careAt(line, ms - 1);
      for (const { id, otherIds = [], by, at } of met) {
        const item = items.find((one) => one.id === id || otherIds.includes(one.id));
        if (item === undefined || Math.min(instantMs(item.dueBy), ms) < this.#fromMs) continue;
        done.set(item.id, this.#window(line, item, ms, { by, at }));
      }
    }
    const left = lastMs <= this.#fromMs ? [] : this.#careAt(line, lastMs - 1).items;
    const missed = left
      .filter((item) => !done.has(item.id) && !ended.has(item.id))
      .filter(({ dueBy }) => instantMs(dueBy) < lastMs && instantMs(dueBy) >= this.#fromMs)
      .map((item) => this.#window(line, item, lastMs));
    return [...done.values(), ...missed];
  }

  #careAt(line: LineRecord, ms: number) {
    return dueCare(line, this.policy, { asOf: this.#calendar.text(ms), zone: this.period.zone });
  }

  #window(
    line: LineRecord,
    item: DueItem,
    endMs: number,
    act: Pick<CareWindow, 'by' | 'at'> = {},
  ): CareWindow {
    const { ref, patient } = line;
    const dueMs = instantMs(item.dueBy);
    const reason = outcomeReason(line, item, endMs, this.#calendar);
    const isLate = endMs > dueMs;
    const outcome =
      item.state === 'held' && act.by === undefined
        ? 'held'
        : act.by === undefined
          ? 'missed'
          : isLate
            ? 'late'
            : 'on-time';
    return {
      ...{ id: item.id, activity: item.activity, line: ref, patient: patient.ref },
      ...{ rule: item.rule.id, layer: item.rule.origin.title },
      ...{ unit: unitAt(this.records, patient.ref, dueMs, this.#calendar), shift: this.#shiftAt(dueMs) },
      ...{ opens: item.opens, dueBy: item.dueBy, outcome, ...act },
      daysOverdue: isLate && outcome !== 'held' ? (endMs - dueMs) / dayMs : 0,
      ...(reason === undefined || !isLate ? {} : { reason }),
      urgent: item.rule.priority !== 'routine',
      supplies: item.work.flatMap(({ kind, text }) =>
        kind === 'supply' && text.code === 'policy-text' ? [text.text] : [],
      ),
    };
  }

  #shiftAt(ms: number): string {
    const hour = Number(this.#calendar.text(ms).slice(11, 13));
    const began = this.#shifts.filter((one) => one <= hour).at(-1) ?? this.#shifts.at(-1) ?? 0;
    const next = this.#shifts[(this.#shifts.indexOf(began) + 1) % this.#shifts.length] ?? began;
    return [began, next].map((one) => String(one).padStart(2, '0')).join(' to ');
  }
}

/** What was charted last as the reason why it was not done, from when it might be done on. */
function outcomeReason(
  { events }: LineRecord,
  { activity, target, opens }: DueItem,
  endMs: number,
  calendar: Calendar,
): string | undefined {
  const openMs = instantMs(opens);
  return events
    .filter(
      (one) =>
        one.activity === activity &&
        one.status === 'not-done' &&
        (target.scope !== 'lumen' || one.lumen === undefined || one.lumen === target.ref),
    )
    .filter(({ at }) => {
      const ms = at === undefined ? NaN : calendar.latest(at);
      return openMs <= ms && ms <= endMs;
    })
    .at(-1)?.reason;
}

/** When a line came out, as late as the record lets it be; undefined while it is in. */
function removedMs({ events }: LineRecord, calendar: Calendar): number | undefined {
  const out = events.filter(
    ({ activity, status, at }) => activityRow(activity).role === 'ends-line' && status === 'completed' && at,
  );
  const last = out.at(-1)?.at;
  return last === undefined ? undefined : calendar.earliest(last);
}

function byTime<One>(timed: readonly (readonly [number, One])[]): [number, One[]][] {
  const groups = new Map<number, One[]>();
  for (const [ms, one] of timed) groups.set(ms, [...(groups.get(ms) ?? []), one]);
  return [...groups].sort(([a], [b]) => a - b);
}
