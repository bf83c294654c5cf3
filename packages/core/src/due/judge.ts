import { asksTheSame, type Rule } from '@dwellward/policy';
import type { LineCareActivity } from '@dwellward/profiles';
import { instantMs } from '../timeline/calendar.js';
import { appliesSince } from '../rules/applies.js';
import type { DueByRule } from '../rules/candidates.js';
import { startOf } from '../rules/starts.js';
import { holdsOf, type TimedHold } from '../rules/bans.js';
import type { InForce } from './in-force.js';
import type { DueItem, Target } from '../model/care.js';
import { CoreError } from '../model/error.js';
import { grouped } from '../model/gather.js';
import type { Moment } from '../facts/facts.js';
import { demandsOf, openItem } from './open-item.js';
import { orderRules } from './orders.js';
import { timelineOf, type Timeline } from '../timeline/timeline.js';
import { stayedRemark, movedRemark } from './version-remarks.js';

/** The rules of a stretch, those that ask by their activity, and since when each that began by itself counts. */
interface Asking {
  readonly rules: readonly Rule[];
  readonly byActivity: ReadonlyMap<LineCareActivity, readonly Rule[]>;
  readonly sinceMs: ReadonlyMap<string, number>;
}

/** An activity on a target: all rules of the two make one item. */
export interface Group {
  readonly activity: LineCareActivity;
  readonly target: Target;
}

/**
 * Judges each item by the version of the policy that was in force when its window opened:
 *
 * - An item stays with an older version where, by that version and by what the record tells of the time up to the last
 *   instant in which it was in force, its window had opened (`opens` before the next version’s first instant), where
 *   it still is the same item (its activity was not done since), and where the older version still has it open that
 *   early. Of several such versions the oldest counts.
 * - A window that would open exactly when a version comes into force is judged by that version.
 * - Every other item is judged by the version in force now. So an item of a rule that the version dropped is gone,
 *   unless its window had opened: then it stays until it is done.
 * - A rule that the version before lacked, or that asked for something else there, never makes an item open or due
 *   before the version came into force.
 * - What arose since, a finding, an event that a chain counts from or a condition that began to hold, is judged by the
 *   version in force now also where the item stays with an older one: the more protective of the two decides.
 * - A hold for a time is judged by the version in force when it began, one that waits for an event by the version in
 *   force now. Patients’ orders are no part of any version.
 */
export class Judge {
  /** Every hold that the record has given rise to, over or not. */
  readonly holds: readonly TimedHold[];
  readonly #now: InForce;
  readonly #older: readonly InForce[];
  /** Of a line with one lumen, whatever some rule asks for on the lumen: asked for on the line it is the same care. */
  readonly #ofTheLumen: ReadonlySet<LineCareActivity>;
  readonly #askings = new Map<Timeline, Map<InForce, Asking>>();
  readonly #thens = new Map<InForce, { timeline: Timeline; holds: readonly TimedHold[] }>();

  constructor(
    readonly timeline: Timeline,
    readonly times: readonly InForce[],
    readonly counts: (rule: Rule) => boolean,
  ) {
    const now = times.at(-1);
    if (!now)
      throw new CoreError('no-policy-in-force', 'A policy over time has a first stretch that no day begins.');
    this.#now = now;
    this.#older = times.slice(0, -1);
    const asked = timeline.line.lumens.length === 1 ? times.flatMap(({ policy }) => policy.rules) : [];
    this.#ofTheLumen = new Set(
      asked
        .filter(
          ({ scopes, effect, begins }) =>
            scopes.includes('lumen') && effect === 'ask' && begins.kind !== 'planned',
        )
        .map(({ activity }) => activity),
    );
    this.holds = this.#holdsOf(timeline, times);
  }

  /** The rules of a stretch, the patient’s orders among them. */
  rulesOf(time: InForce, timeline: Timeline): readonly Rule[] {
    return this.#asking(time, timeline).rules;
  }

  /** What a stretch asks for by what a timeline tells: every group asks for it. */
  #asking(time: InForce, timeline: Timeline): Asking {
    const known = this.#askings.get(timeline)?.get(time);
    if (known !== undefined) return known;
    const orders = orderRules(timeline, time.policy);
    const sinceMs = new Map(time.sinceMs);
    for (const { rule, sinceMs: ordered } of orders) sinceMs.set(rule.id, ordered);
    const ordered = orders.map(({ rule }) => rule);
    const all = [...time.policy.rules, ...ordered];
    const rules = all.map((rule) =>
      rule.effect === 'ask' && this.#ofTheLumen.has(rule.activity) ? onTheLumen(rule) : rule,
    );
    const asking = rules.filter((rule) => rule.effect === 'ask' && this.counts(rule));
    const found = { rules, sinceMs, byActivity: grouped(asking, ({ activity }) => activity) };
    const ofTimeline = this.#askings.get(timeline) ?? new Map<InForce, Asking>();
    this.#askings.set(timeline, ofTimeline.set(time, found));
    return found;
  }

  /** The open item of an activity on a target; undefined where nothing is asked for. */
  itemOf(group: Group): DueItem | undefined {
    const own = this.#older.find((time) => this.#hadOpened(group, time));
    return own === undefined ? this.#moved(group) : this.#stayed(group, own);
  }

  #moment({ target }: Group, { policy }: InForce, timeline: Timeline): Moment {
    return { timeline, target, ms: timeline.asOfMs, staleAfter: policy.labStaleAfter };
  }

  #demands(group: Group, time: InForce, timeline: Timeline): DueByRule[] {
    const { byActivity, sinceMs } = this.#asking(time, timeline);
    const rules = (byActivity.get(group.activity) ?? []).filter(({ scopes }) =>
      scopes.includes(group.target.scope),
    );
    return demandsOf(rules, this.#moment(group, time, timeline), sinceMs);
  }

  /** The item by the rules of one stretch alone. */
  #by(group: Group, time: InForce, timeline: Timeline, holds: readonly TimedHold[]): DueItem | undefined {
    const demands = this.#demands(group, time, timeline);
    return openItem(this.#moment(group, time, timeline), demands, holds, sinceIn(time));
  }

  #hadOpened(group: Group, time: InForce): boolean {
    const item = this.#by(group, time, this.timeline, this.holds);
    if (!item || instantMs(item.opens) >= time.untilMs) return false;
    const { timeline, holds } = this.#then(time);
    const before = this.#by(group, time, timeline, holds);
    return before !== undefined && before.id === item.id && instantMs(before.opens) < time.untilMs;
  }

  /** What was so in the last instant of a stretch. */
  #then(time: InForce): { timeline: Timeline; holds: readonly TimedHold[] } {
    const known = this.#thens.get(time);
    if (known) return known;
    const { line, calendar } = this.timeline;
    const timeline = timelineOf(line, calendar, time.untilMs - 1);
    const upTo = this.times.slice(0, this.times.indexOf(time) + 1);
    const then = { timeline, holds: this.#holdsOf(timeline, upTo) };
    this.#thens.set(time, then);
    return then;
  }

  #stayed(group: Group, own: InForce): DueItem | undefined {
    const { timeline } = this;
    const older = this.#demands(group, own, timeline);
    const at = this.#moment(group, this.#now, timeline);
    const arisen = this.#demands(group, this.#now, timeline).filter(
      (one) =>
        one.rule.origin.order === undefined &&
        !own.policy.rules.some((rule) => rule.id === one.rule.id && asksTheSame(rule, one.rule)) &&
        aroseMs(one, at) >= this.#now.fromMs,
    );
    const item = openItem(this.#moment(group, own, timeline), [...older, ...arisen], this.holds, (rule) =>
      sinceIn(arisen.some((one) => one.rule === rule) ? this.#now : own)(rule),
    );
    const otherwise = this.#by(group, this.#now, timeline, this.holds);
    const next = this.times[this.times.indexOf(own) + 1];
    if (!item || !next || arisen.some(({ rule }) => rule === item.rule) || same(item, otherwise)) return item;
    return { ...item, remarks: [...item.remarks, stayedRemark(item, own, next, timeline.calendar)] };
  }

  /** The item by the version in force now, with what moved it there. */
  #moved(group: Group): DueItem | undefined {
    const { timeline, times } = this;
    const item = this.#by(group, this.#now, timeline, this.holds);
    if (!item) return undefined;
    const began = startOf(timeline, item.rule, item.target).last?.ms ?? -Infinity;
    for (let at = times.length - 1; at > 0; at -= 1) {
      const [before, since] = [times[at - 1], times[at]];
      // What began under a version was never judged by one before it.
      if (!before || !since || began >= since.fromMs || beganUnder(item, since)) return item;
      const was = this.#by(group, before, timeline, this.holds);
      if (!same(item, was)) {
        return { ...item, remarks: [...item.remarks, movedRemark(was, before, since, timeline.calendar)] };
      }
    }
    return item;
  }

  #holdsOf(timeline: Timeline, times: readonly InForce[]): readonly TimedHold[] {
    const now = times.at(-1);
    return times
      .flatMap((time) =>
        holdsOf(timeline, time.policy.rules.filter(this.counts), time.policy.labStaleAfter).flatMap((one) => {
          if (one.hold.rule.lasts !== undefined)
            return time.fromMs <= one.fromMs && one.fromMs < (time === now ? Infinity : time.untilMs)
              ? [one]
              : [];
          return time === now ? [beginningIn(one, time, timeline)] : [];
        }),
      )
      .sort((a, b) => a.fromMs - b.fromMs || (a.hold.id < b.hold.id ? -1 : 1));
  }
}

/** What is asked of a line is asked of its only lumen. */
function onTheLumen(rule: Rule): Rule {
  if (!rule.scopes.includes('line')) return rule;
  const scopes = rule.scopes.map((scope) => (scope === 'line' ? 'lumen' : scope));
  return { ...rule, scopes: [...new Set(scopes)] };
}

/** Since when a rule of a stretch has been in force without a break. */
function sinceIn({ sinceMs }: InForce): (rule: Rule) => number {
  return (rule) => sinceMs.get(rule.id) ?? -Infinity;
}

/** A hold that waits for an event, not before its rule came into force. */
function beginningIn(one: TimedHold, time: InForce, { calendar }: Timeline): TimedHold {
  const sinceMs = time.sinceMs.get(one.hold.rule.id) ?? -Infinity;
  if (sinceMs <= one.fromMs) return one;
  return { ...one, fromMs: sinceMs, hold: { ...one.hold, from: calendar.text(sinceMs) } };
}

/** When what a rule asks for arose: its finding, the event before it, or its condition; -Infinity where it always was. */
function aroseMs({ rule, countedFrom }: DueByRule, at: Moment): number {
  const byEvent = countedFrom.basis === 'finding' || countedFrom.basis === 'chain-event';
  const eventMs = byEvent && countedFrom.at !== undefined ? instantMs(countedFrom.at) : -Infinity;
  return Math.max(eventMs, appliesSince(rule, at) ?? -Infinity);
}

/** Whether the finding or event behind an item came only when a version was in force. */
function beganUnder({ countedFrom: { basis, at } }: DueItem, { fromMs }: InForce): boolean {
  return (basis === 'finding' || basis === 'chain-event') && at !== undefined && instantMs(at) >= fromMs;
}

/** Whether two versions give the same item: the same window by a rule that asks for the same. */
function same(a: DueItem, b: DueItem | undefined): boolean {
  return b !== undefined && a.dueBy === b.dueBy && a.opens === b.opens && asksTheSame(a.rule, b.rule);
}
