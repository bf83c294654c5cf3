import {
  Calendar,
  dueCare,
  instantMs,
  type CareEvent,
  type DueItem,
  type LineRecord,
  type Records,
} from '@dwellward/core';
import { activityRow } from '@dwellward/profiles';
import { addDays, day } from '../days/calendar-days.js';
import { FiguresError } from '../error.js';
import type { CarePeriod, CarePolicy } from './windows.js';

/** Care that a policy would have asked for. */
export interface AskedCare {
  readonly patient: string;
  readonly line: string;
  readonly activity: DueItem['activity'];
  readonly layer: string;
  readonly at: string;
  readonly urgent: boolean;
  /** Whether a lumen is opened for it. */
  readonly opensLumen: boolean;
  readonly supplies: readonly string[];
}

/** What a policy would have cost over a period. */
export interface Burden {
  /** Times that care was asked for. */
  readonly items: number;
  /** What falls due for one patient within an hour is one visit: common practice, no source. */
  readonly visits: number;
  readonly openings: number;
  readonly urgent: number;
  readonly supplies: Readonly<Record<string, number>>;
  readonly byActivity: readonly {
    readonly activity: DueItem['activity'];
    readonly layer: string;
    readonly items: number;
  }[];
}

const hourMs = 3_600_000;
/** More than any line is asked for in a year; beyond it a policy asks without end. */
const mostAsked = 50_000;

/**
 * What a policy would have asked for over a past period, had it been in force and everything been done at the moment it was
 * due. Lines, infusions, samples, findings and results are those of the record; the care that the policy asks for is left
 * out of it and put in anew, for what was charted was the answer to another policy.
 *
 * - Ranges: the period as `careWindows` has it.
 * - Errors: throws a FiguresError for a period that is none or a line that is asked for more than 50,000 times, and a CoreError for a zone that is none.
 * - Cautions: a model, for comparing two policies with each other and not with what was charted. Findings that other care
 *   would have prevented stay. Held care is not asked for until its hold ends. What begins to hold by time alone, such as an
 *   age, is seen when the next care falls due.
 *
 * @param told told after each line how many of how many are through.
 * @example
 * ```ts
 * const none = { lines: [], issues: [], notUnderstood: [], otherBusiness: [], unitStays: [] };
 * const policy = { layers: [], rules: [], labStaleAfter: { value: 7, unit: 'd' } } as const;
 * careAskedBy(none, policy, { from: '2026-04-01', to: '2026-04-30', zone: 'Europe/Berlin' }); // []
 * ```
 */
export function careAskedBy(
  records: Records,
  policy: CarePolicy,
  period: CarePeriod,
  told: (done: number, of: number) => void = () => undefined,
): readonly AskedCare[] {
  const { from, to, zone } = period;
  if (day('to', to) < day('from', from))
    throw new FiguresError('inconsistent', 'to', to, `a day not before ${from}`);
  const calendar = new Calendar(zone);
  const span = {
    fromMs: calendar.earliest({ text: from, precision: 'day' }),
    toMs: calendar.earliest({ text: addDays(to, 1), precision: 'day' }),
  };
  const asked = askedActivities(policy);
  return records.lines.flatMap((line, at) => {
    const found = new Replay(line, policy, calendar, asked, zone).over(span.fromMs, span.toMs);
    told(at + 1, records.lines.length);
    return found;
  });
}

/**
 * What the care that was asked for comes to.
 * @example
 * ```ts
 * burdenOf([]).visits; // 0
 * ```
 */
export function burdenOf(asked: readonly AskedCare[]): Burden {
  const supplies: Record<string, number> = {};
  const byActivity = new Map<string, { activity: DueItem['activity']; layer: string; items: number }>();
  for (const { activity, layer, supplies: taken } of asked) {
    for (const one of taken) supplies[one] = (supplies[one] ?? 0) + 1;
    const key = `${activity}\u0000${layer}`;
    const row = byActivity.get(key) ?? { activity, layer, items: 0 };
    byActivity.set(key, { ...row, items: row.items + 1 });
  }
  return {
    items: asked.length,
    visits: visitsOf(asked),
    openings: asked.filter(({ opensLumen }) => opensLumen).length,
    urgent: asked.filter(({ urgent }) => urgent).length,
    supplies,
    byActivity: [...byActivity].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, row]) => row),
  };
}

function visitsOf(asked: readonly AskedCare[]): number {
  const byPatient = new Map<string, number[]>();
  for (const { patient, at } of asked)
    byPatient.set(patient, [...(byPatient.get(patient) ?? []), instantMs(at)]);
  let visits = 0;
  for (const times of byPatient.values()) {
    let began = -Infinity;
    for (const ms of times.sort((a, b) => a - b)) {
      if (ms - began < hourMs) continue;
      visits += 1;
      began = ms;
    }
  }
  return visits;
}

/** What the rules ask for by themselves: not what an order plans, nor the insertion and the removal. */
function askedActivities({ rules }: CarePolicy): ReadonlySet<string> {
  return new Set(
    rules
      .filter(({ effect, begins }) => effect === 'ask' && begins.kind !== 'planned')
      .map(({ activity }) => activity)
      .filter((activity) => activityRow(activity).role === undefined),
  );
}

class Replay {
  readonly #events: CareEvent[];
  readonly #facts: readonly number[];
  /** Items that stay open though they are done: asked for once. */
  readonly #stuck = new Set<string>();
  readonly #asked: AskedCare[] = [];

  constructor(
    readonly line: LineRecord,
    readonly policy: CarePolicy,
    readonly calendar: Calendar,
    asked: ReadonlySet<string>,
    readonly zone: string,
  ) {
    this.#events = line.events.filter(({ activity }) => !asked.has(activity));
    const { findings, infusions, patient } = line;
    const times = [...this.#events, ...findings, ...patient.measurements].flatMap(({ at }) => at ?? []);
    const runs = infusions.flatMap(({ from, until }) => [from, until]).filter((one) => one !== undefined);
    this.#facts = [...new Set([...times, ...runs].map((one) => calendar.latest(one)))].sort((a, b) => a - b);
  }

  over(fromMs: number, toMs: number): readonly AskedCare[] {
    for (let ms = fromMs; ms < toMs;) {
      // Half a figure would be compared as if it were whole.
      if (this.#asked.length >= mostAsked)
        throw new FiguresError(
          'out-of-range',
          `what the policy asks of ${this.line.ref}`,
          `${mostAsked} times and more`,
          'a shorter period, or a policy that asks less often',
        );
      const items = this.#openAt(ms);
      const nextFact = this.#facts.find((one) => one > ms) ?? Infinity;
      const nextDue = Math.min(...items.map(({ dueBy }) => Math.max(ms, instantMs(dueBy))), Infinity);
      if (nextDue > nextFact || nextDue >= toMs) {
        if (nextFact === Infinity) break;
        ms = nextFact;
        continue;
      }
      // What has come to be due by then, or is not any more: time itself moves conditions.
      const now = this.#openAt(nextDue).filter(({ dueBy }) => instantMs(dueBy) <= nextDue);
      for (const item of now) this.#do(item, nextDue);
      ms = now.length > 0 ? nextDue : nextDue + 60_000;
    }
    return this.#asked;
  }

  /** What is open: of what a hold forbids, what it lets go at a time that is known, and by then. */
  #openAt(ms: number): readonly DueItem[] {
    const line: LineRecord = { ...this.line, events: this.#events };
    const { items } = dueCare(line, this.policy, { asOf: this.calendar.text(ms), zone: this.zone });
    return items
      .filter(({ id, basedOn }) => !basedOn && !this.#stuck.has(id))
      .filter(({ state, dueBy }) => state !== 'held' || instantMs(dueBy) > ms);
  }

  #do(item: DueItem, ms: number): void {
    const { id, activity, target, rule, work } = item;
    const at = this.calendar.text(ms);
    this.#asked.push({
      ...{ patient: this.line.patient.ref, line: this.line.ref, activity, layer: rule.origin.title, at },
      urgent: rule.priority !== 'routine',
      opensLumen: target.scope === 'lumen' && !activityRow(activity).look,
      supplies: work.flatMap(({ kind, text }) =>
        kind === 'supply' && text.code === 'policy-text' ? [text.text] : [],
      ),
    });
    this.#stuck.add(id);
    this.#events.push({
      ref: `Procedure/replayed-${this.#asked.length}`,
      activity,
      status: 'completed',
      at: { text: at, precision: 'instant' },
      ...(target.scope === 'lumen' ? { lumen: target.ref } : {}),
      site: target.scope === 'incision' ? 'incision' : 'exit-site',
      ...this.#putOn(activity),
    });
  }

  /** A new dressing is of the kind that was put on last: which one is a choice that no policy makes. */
  #putOn(activity: DueItem['activity']): Pick<CareEvent, 'dressing'> {
    if (activityRow(activity).putsDressingOn !== 'always') return {};
    const last = this.line.events.filter(({ dressing }) => dressing !== undefined).at(-1)?.dressing;
    return { dressing: last ?? 'transparent-dressing' };
  }
}
