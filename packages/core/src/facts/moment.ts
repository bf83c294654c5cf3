import { activityRow, type LineCareActivity } from '@dwellward/profiles';
import type { Span } from '@dwellward/policy';
import type { FactRemark } from '../model/sentences.js';
import type { Ref } from '../model/record.js';
import type { Target } from '../model/care.js';
import type { Timed } from '../timeline/timed.js';
import { kept, lastUpTo } from '../timeline/in-time.js';
import type { Timeline } from '../timeline/timeline.js';

/** One fact as it was known at a moment. */
export interface Known<Value> {
  readonly value?: Value;
  readonly refs: readonly Ref[];
  /** When it came to be so. */
  readonly sinceMs?: number;
  readonly remark?: FactRemark;
}

/** What set a rule going: the finding, or the act, that its trigger names. */
export interface Occurrence extends Timed<{ readonly ref: Ref }> {
  readonly of: 'finding' | 'event';
  /** The act that puts right what was found, where there is one. */
  readonly answeredBy?: LineCareActivity;
  /** When the act that puts it right was done, of a finding that one answers; absent while it stands. */
  readonly answeredMs?: number;
}

/** A line, one of its targets, and a moment not later than the timeline's own. */
export interface Moment {
  readonly timeline: Timeline;
  readonly target: Target;
  readonly ms: number;
  readonly staleAfter: Span;
  /** What set the rule going that asks, where it asks for when it begins or ends. */
  readonly began?: Occurrence;
}

/** Nothing on record tells of it. */
export const nothing = { refs: [] } as const;

/** A completed event with its place in time. */
export type Event = Timeline['events'][number];

/** Picks events. One function for one thing to pick: what it picks is kept under it. */
export type Pick = (event: Event['fact']) => boolean;

function picked(timeline: Timeline, matches: Pick): readonly Event[] {
  return kept(timeline, matches, () => timeline.events.filter(({ fact }) => matches(fact)));
}

/** The latest event at the moment that matches. */
export function lastEvent({ timeline, ms }: Moment, matches: Pick): Event | undefined {
  return lastUpTo(picked(timeline, matches), ms);
}

/** The first event that matches, where it lies at or before the moment. */
export function firstEvent({ timeline, ms }: Moment, matches: Pick): Event | undefined {
  const [first] = picked(timeline, matches);
  return first !== undefined && first.ms <= ms ? first : undefined;
}

/** The last time that a needle was put into a port, or taken out. */
export function lastNeedle(at: Moment): Event | undefined {
  return lastEvent(at, concernsNeedle);
}

const concernsNeedle: Pick = ({ activity }) => activityRow(activity).needle !== undefined;
