import ical, {
  ICalAlarmType,
  ICalEventStatus,
  ICalEventTransparency,
  type ICalEventData,
} from 'ical-generator';
import { timedOf, type Policy } from '@dwellward/policy';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { DueItem, InstantText } from '../model/care.js';
import { CoreError } from '../model/error.js';
import { priorityOf } from '../rules/priority.js';
import { compareText } from '../timeline/timeline.js';
import { explain } from '../explain/explain.js';
import type { LineRecord, Ref } from '../model/record.js';
import type { Sentence } from '../model/sentences.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { speaker, type Say } from '../words/say.js';
import { byTurn, rowsOf } from '../due/visits.js';
import { heldForNow } from './projection.js';

/** The part of every UID after the identity of the item; `.example` is a reserved name (RFC 2606). */
export const feedDomain = 'dwellward.example';

/** An event of a feed that was given out before. */
export interface FeedEvent {
  /** The identity of the item: the UID without its domain. */
  readonly id: string;
  readonly start: InstantText;
  readonly end: InstantText;
  readonly summary: string;
}

export interface CalendarFeedOptions {
  /** DTSTAMP and LAST-MODIFIED: when the feed is made. Instant with offset; given by the caller, never a clock. */
  readonly stamp: string;
  /** SEQUENCE, 0 or more: higher than that of the feed given out before, so that a calendar takes the change. */
  readonly sequence: number;
  /** IANA zone of the times in the texts. The events themselves are in UTC. */
  readonly zone: string;
  /** Lines by reference: a patient with more than one has the line's name in the summary. */
  readonly lines?: readonly LineRecord[];
  /**
   * What others may see who look at the phone. `care` (default): the activity and where, without the patient's name,
   * results or references. `name` puts the patient's name in front. `full` adds the explanation with its references.
   */
  readonly tells?: 'care' | 'name' | 'full';
  /** Wanted for `tells: 'full'`: the policy that the items were computed with. */
  readonly policy?: Policy;
  /** What was given out before: what is no longer open is sent as cancelled. */
  readonly previous?: readonly FeedEvent[];
  /** The second alarm, so many minutes before `dueBy`; half the window where that is shorter. 60 where absent. */
  readonly alarmMinutes?: number;
  /**
   * Care that is not pressing rings within these hours of the zone alone, the last one included; `07:00` to `22:00`
   * where absent: common practice, no source. Pressing care rings at any hour.
   */
  readonly waking?: { readonly from: string; readonly to: string };
  /** Of the texts; English where none is given. */
  readonly language?: Language;
}

/** A window of no length, such as of care that is due at once, is shown as so long: DTEND must be later than DTSTART. */
const shortestMs = 15 * 60_000;

const acceptedSequence = 'a whole number from 0 to 2147483647';

/**
 * Open care as an iCalendar object (RFC 5545): one VEVENT for each item, from the moment it opens to the moment it is
 * due, in UTC to the second, with an alarm before it is due, at waking hours; pressing care has one when it opens too, and
 * both at any hour. What is done in one visit rings once. The UID is the item's identity, so that the next feed updates
 * the same event, and the event of care that is done goes.
 *
 * The same items and options give the same bytes, whatever the order of the items. Throws a CoreError where the stamp
 * is not an instant, the sequence not a whole number from 0 to 2147483647, or the zone not an IANA zone.
 *
 * A calendar reminds, it is no order and no record: what it shows is as old as its stamp.
 * @example
 * ```ts
 * const items = cares.flatMap((care) => care.items);
 * calendarFeed(items, { stamp: when.asOf, sequence: 0, zone: when.zone }).startsWith('BEGIN:VCALENDAR'); // true
 * ```
 */
export function calendarFeed(items: readonly DueItem[], options: CalendarFeedOptions): string {
  const { sequence } = options;
  if (!Number.isInteger(sequence) || sequence < 0 || sequence > 2_147_483_647)
    throw new CoreError('no-sequence', `sequence: ${acceptedSequence} (RFC 5545 section 3.3.8).`, {
      given: sequence,
      accepted: acceptedSequence,
    });
  const calendar = new Calendar(options.zone);
  const stamp = utcText(instantMs(options.stamp));
  const language = options.language ?? english;
  const say = speaker(language, calendar);
  const feed = ical({
    prodId: `//Dwellward//Line care//${language.tag.toUpperCase()}`,
    name: say({ code: 'line-care' }),
    description: say({ code: 'alarms-at', ...(options.waking ?? wakingHours) }),
  });
  const open = new Map(items.map((item) => [item.id, item]));
  const rings = new Set(rowsOf([...open.values()].sort(byTurn), ({ id }) => id).map(([first]) => first.id));
  const events = [
    ...[...open.values()].map((item) => ({
      id: item.id,
      data: eventOf(item, rings.has(item.id), options, calendar, say),
    })),
    ...distinct(options.previous ?? [])
      .filter(({ id }) => !open.has(id))
      .map((event) => ({ id: event.id, data: cancelled(event, say) })),
  ].sort((a, b) => compareText(a.id, b.id));
  for (const { id, data } of events) {
    // Without these the library would read the clock and draw a random UID.
    feed.createEvent({ ...data, id: `${id}@${feedDomain}`, stamp, lastModified: stamp, sequence });
  }
  // RFC 5545 section 3.1: every content line ends with CRLF, the last one too.
  return `${propertiesFirst(feed.toString())}\r\n`;
}

/**
 * The library writes some properties of an event after its alarms, where RFC 5545 section 3.6.1 has all of them before.
 * No text can look like such a line: line breaks within a text are escaped, and folded lines begin with a space.
 */
function propertiesFirst(feed: string): string {
  return feed.replace(
    /((?:BEGIN:VALARM\r\n[^]*?\r\nEND:VALARM\r\n)+)((?:(?!BEGIN:)[^]*?\r\n)??)END:VEVENT\r\n/g,
    '$2$1END:VEVENT\r\n',
  );
}

function eventOf(
  item: DueItem,
  rings: boolean,
  options: CalendarFeedOptions,
  calendar: Calendar,
  say: Say,
): ICalEventData {
  const endMs = instantMs(item.dueBy);
  const startMs = Math.min(instantMs(item.opens), endMs);
  // Seconds are the finest that iCalendar has.
  const shown = { startMs: wholeSecond(startMs), endMs: wholeSecond(endMs) };
  if (shown.startMs >= shown.endMs) shown.startMs = shown.endMs - shortestMs;
  const summary = plainText(say(summaryOf(item, options)));
  const priority = { stat: 1, asap: 3, urgent: 3, routine: undefined }[priorityOf(item)];
  return {
    start: utcText(shown.startMs),
    end: utcText(shown.endMs),
    summary,
    description: plainText(descriptionOf(item, options, calendar, say)),
    status: ICalEventStatus.CONFIRMED,
    // Care does not fill the days between: nobody is busy for all of it.
    transparency: ICalEventTransparency.TRANSPARENT,
    ...(priority === undefined ? {} : { priority }),
    alarms: heldForNow(item) || !rings ? [] : alarmsOf(item, shown, summary, options, calendar, say),
  };
}

const wakingHours = { from: '07:00', to: '22:00' };

function alarmsOf(
  item: DueItem,
  { startMs, endMs }: { startMs: number; endMs: number },
  summary: string,
  { alarmMinutes = 60, waking = wakingHours }: CalendarFeedOptions,
  calendar: Calendar,
  say: Say,
) {
  const beforeMs = wholeSecond(Math.min(alarmMinutes * 60_000, (endMs - startMs) / 2));
  const pressingNow = priorityOf(item) !== 'routine';
  const soonMs = endMs - beforeMs;
  const soon = {
    type: ICalAlarmType.display,
    trigger: utcText(pressingNow ? soonMs : wakingBefore(soonMs, waking, calendar)),
    description: say({ code: 'due-soon', summary }),
  };
  if (!pressingNow) return [soon];
  const opens = {
    type: ICalAlarmType.display,
    trigger: utcText(startMs),
    description: say({ code: 'may-be-done-from-now', summary }),
  };
  return [opens, soon];
}

/** The last moment at or before another at which people are awake: an alarm that comes too early can still be heeded. */
function wakingBefore(
  ms: number,
  { from, to }: { readonly from: string; readonly to: string },
  calendar: Calendar,
): number {
  const clock = calendar.text(ms).slice(11, 16);
  return from <= clock && clock <= to ? ms : calendar.lastSlot(ms, [`${to}:00`]);
}

function cancelled({ start, end, summary }: FeedEvent, say: Say): ICalEventData {
  return {
    start: utcText(instantMs(start)),
    end: utcText(instantMs(end)),
    summary: plainText(summary),
    description: `${say({ code: 'no-longer-open' })} ${say({ code: 'advice-not-order' })}`,
    status: ICalEventStatus.CANCELLED,
    transparency: ICalEventTransparency.TRANSPARENT,
  };
}

function summaryOf(item: DueItem, { lines, tells }: CalendarFeedOptions): Sentence {
  const line = lines?.find(({ ref }) => ref === item.line);
  const several = line && ownLines(lines ?? [], line.patient.ref) > 1;
  const name = tells === 'name' || tells === 'full' ? line?.patient.name : undefined;
  const urgency =
    priorityOf(item) === 'stat' ? 'emergency' : item.state === 'overdue' ? item.state : undefined;
  return {
    code: 'feed-summary',
    ...(urgency ? { urgency } : {}),
    held: item.state === 'held',
    ...(name ? { patient: name } : {}),
    activity: item.activity,
    target: item.target.name,
    ...(several ? { line: line.name } : {}),
  };
}

function ownLines(lines: readonly LineRecord[], patient: Ref): number {
  return lines.filter((line) => line.valid && line.patient.ref === patient).length;
}

function descriptionOf(
  item: DueItem,
  { tells, policy }: CalendarFeedOptions,
  { zone }: Calendar,
  say: Say,
): string {
  const { rule, dueBy, heldBy } = item;
  const why: Sentence =
    tells === 'full' && policy
      ? explain(item, policy).sentence
      : {
          code: 'feed-description',
          title: rule.title,
          schedule: timedOf(rule),
          dueBy,
          zone,
          ...(heldBy ? { held: heldBy.rule.title } : {}),
        };
  return `${say(why)} ${say({ code: 'advice-not-order' })}`;
}

/**
 * Text that iCalendar can carry: RFC 5545 section 3.3.11 forbids control characters other than a line break (which is
 * written as `\n`) and a tab, and half of a surrogate pair has no UTF-8.
 */
function plainText(text: string): string {
  return text.replace(forbidden, '\uFFFD');
}

// eslint-disable-next-line no-control-regex
const forbidden = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]|\p{Cs}/gu;

function wholeSecond(ms: number): number {
  return Math.floor(ms / 1000) * 1000;
}

const utc = new Calendar('UTC');

function utcText(ms: number): string {
  return utc.text(ms);
}

/** The last word on each event. */
function distinct(events: readonly FeedEvent[]): FeedEvent[] {
  return [...new Map([...events].sort(compareEvents).map((event) => [event.id, event])).values()];
}

function compareEvents(a: FeedEvent, b: FeedEvent): number {
  return (
    compareText(a.id, b.id) ||
    instantMs(a.start) - instantMs(b.start) ||
    instantMs(a.end) - instantMs(b.end) ||
    compareText(a.summary, b.summary)
  );
}

/**
 * The events of a feed that {@link calendarFeed} made, to tell the next one what was given out before. Events of other
 * makers, and what is no event, are passed over; it is no general reader of calendars.
 * @example
 * ```ts
 * const feed = calendarFeed(cares[0]!.items, { stamp: when.asOf, sequence: 3, zone: when.zone });
 * readFeed(feed).sequence; // 3
 * ```
 */
export function readFeed(text: string): { readonly events: readonly FeedEvent[]; readonly sequence: number } {
  const events: FeedEvent[] = [];
  let sequence = 0;
  let found = new Map<string, string>();
  // An alarm has a DESCRIPTION and no UID of its own, but other makers' may: only the event's own lines count.
  let depth = 0;
  for (const line of text.replace(/\r?\n[ \t]/g, '').split(/\r?\n/)) {
    const [, name = '', value = ''] = /^([A-Z-]+)(?:;[^:]*)?:(.*)$/.exec(line) ?? [];
    if (name === 'BEGIN' && value === 'VEVENT') [found, depth] = [new Map(), 1];
    else if (name === 'BEGIN') depth += 1;
    else if (name === 'END' && value === 'VEVENT') {
      const event = feedEvent(found);
      if (event) events.push(event);
      sequence = Math.max(sequence, Number(found.get('SEQUENCE') ?? 0) || 0);
      depth = 0;
    } else if (name === 'END') depth -= 1;
    else if (depth === 1) found.set(name, value);
  }
  return { events, sequence };
}

function feedEvent(found: ReadonlyMap<string, string>): FeedEvent | undefined {
  const [id, domain] = (found.get('UID') ?? '').split('@');
  const [start, end] = [utcOf(found.get('DTSTART')), utcOf(found.get('DTEND'))];
  if (!id || domain !== feedDomain || start === undefined || end === undefined) return undefined;
  const summary = (found.get('SUMMARY') ?? '').replace(/\\([\\;,nN])/g, (_, sign: string) =>
    sign === 'n' || sign === 'N' ? '\n' : sign,
  );
  return { id, start, end, summary };
}

function utcOf(value: string | undefined): InstantText | undefined {
  const parts = /^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z$/.exec(value ?? '');
  if (!parts) return undefined;
  const [, year, month, day, hour, minute, second] = parts;
  const text = `${year}-${month}-${day}T${hour}:${minute}:${second}+00:00`;
  try {
    instantMs(text);
  } catch {
    return undefined;
  }
  return text;
}
