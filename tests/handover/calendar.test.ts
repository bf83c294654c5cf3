import { calendarFeed, oneLine, readFeed, type CalendarFeedOptions, type DueItem } from '@dwellward/core';
import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { demo } from './support.js';

const { records, cares, policy, when } = demo();
const items = cares.flatMap((care) => care.items);
const options: CalendarFeedOptions = {
  stamp: when.asOf,
  sequence: 3,
  zone: when.zone,
  lines: records.lines,
};

// What only an event sets free has no alarm: no time can be given for it.
const waiting = new Set(
  items
    .filter(({ heldBy }) => heldBy !== undefined && heldBy.until === undefined)
    .map(({ id }) => `${id}@dwellward.example`),
);

/** The events of a feed as an independent reader of calendars, ical.js, gives them. */
function readBack(feed: string) {
  const calendar = new ICAL.Component(ICAL.parse(feed) as ConstructorParameters<typeof ICAL.Component>[0]);
  return calendar.getAllSubcomponents('vevent').map((component) => {
    const event = new ICAL.Event(component);
    const ms = (time: ICAL.Time) => {
      expect(time.zone.tzid).toBe('UTC');
      return time.toUnixTime() * 1000;
    };
    return {
      uid: event.uid,
      startMs: ms(event.startDate),
      endMs: ms(event.endDate),
      sequence: event.sequence,
      summary: event.summary,
      description: event.description,
      status: component.getFirstPropertyValue('status') as string,
      stampMs: ms(component.getFirstPropertyValue('dtstamp') as ICAL.Time),
      changedMs: ms(component.getFirstPropertyValue('last-modified') as ICAL.Time),
      priority: component.getFirstPropertyValue('priority') as number | null,
      alarms: component.getAllSubcomponents('valarm').map((alarm) => ({
        action: alarm.getFirstPropertyValue('action') as string,
        description: alarm.getFirstPropertyValue('description') as string,
        ms: ms(alarm.getFirstPropertyValue('trigger') as ICAL.Time),
      })),
    };
  });
}

const seconds = (text: string) => Math.floor(Date.parse(text) / 1000) * 1000;
const octets = (text: string) => Buffer.byteLength(text, 'utf8');
const someItem = (more: Partial<DueItem> = {}): DueItem => ({ ...items[0]!, ...more });
const titled = (title: string): DueItem => someItem({ rule: { ...items[0]!.rule, title } });

describe('a calendar reads the feed back', () => {
  const events = readBack(calendarFeed(items, options));

  it('one event for each open item, with the same instants', () => {
    expect(events).toHaveLength(items.length);
    expect(items.length).toBeGreaterThan(100);
    for (const item of items) {
      const event = events.find(({ uid }) => uid === `${item.id}@dwellward.example`);
      expect(event?.endMs).toBe(seconds(item.dueBy));
      if (Date.parse(item.opens) < Date.parse(item.dueBy)) expect(event?.startMs).toBe(seconds(item.opens));
      expect(event).toMatchObject({
        sequence: 3,
        status: 'CONFIRMED',
        stampMs: Date.parse(when.asOf),
        changedMs: Date.parse(when.asOf),
      });
    }
  });

  it('with one alarm before it is due, of each visit one, and one more when pressing care may be done', () => {
    const timed = events.filter(({ uid }) => !waiting.has(uid));
    const ringing = timed.filter(({ alarms }) => alarms.length > 0);
    expect(ringing.length).toBeGreaterThan(50);
    const visits = new Set(
      items.filter(({ id }) => !waiting.has(`${id}@dwellward.example`)).map(({ id, visit }) => visit ?? id),
    );
    expect(ringing).toHaveLength(visits.size);
    for (const { alarms, startMs, endMs, summary } of ringing) {
      const soonMs = endMs - Math.min(3_600_000, (endMs - startMs) / 2);
      expect(alarms.every(({ action }) => action === 'DISPLAY')).toBe(true);
      expect(alarms.every(({ description }) => description.endsWith(summary))).toBe(true);
      if (alarms.length === 2) expect(alarms.map(({ ms }) => ms)).toEqual([startMs, soonMs]);
      // A night is at most nine hours.
      else expect(soonMs - (alarms[0]?.ms ?? 0)).toBeLessThanOrEqual(9 * 3_600_000);
    }
  });

  it('with the caution, and by default without name, result or reference', () => {
    const names = records.lines.map(({ patient }) => patient.name!).filter(Boolean);
    expect(names.length).toBeGreaterThan(10);
    for (const { summary, description } of events) {
      expect(description).toContain('Advice, not an order.');
      for (const secret of [
        ...names,
        'Device/',
        'Procedure/',
        'Observation/',
        'Patient/',
        '10*9/L',
        '10^9/L',
      ])
        expect(`${summary} ${description}`).not.toContain(secret);
    }
    const named = readBack(calendarFeed(items, { ...options, tells: 'name' }));
    expect(named.every(({ summary }) => names.some((name) => summary.includes(name)))).toBe(true);
    const full = readBack(calendarFeed(items, { ...options, tells: 'full', policy }));
    expect(full.some(({ description }) => description.includes('Source: '))).toBe(true);
  });

  it('a later feed updates the same UIDs with a higher SEQUENCE, and cancels what is done', () => {
    const before = readFeed(calendarFeed(items, options));
    expect(before.sequence).toBe(3);
    expect(before.events).toHaveLength(items.length);
    const done = items[7]!;
    const rest = items.filter(({ id }) => id !== done.id);
    const after = readBack(
      calendarFeed(rest, {
        ...options,
        stamp: '2026-11-25T08:30:00+01:00',
        sequence: 4,
        previous: before.events,
      }),
    );
    expect(after.map(({ uid }) => uid)).toEqual(events.map(({ uid }) => uid));
    expect(new Set(after.map(({ sequence }) => sequence))).toEqual(new Set([4]));
    const gone = after.filter(({ status }) => status === 'CANCELLED');
    const was = events.find(({ uid }) => uid === `${done.id}@dwellward.example`);
    expect(gone.map(({ uid, startMs, endMs, summary }) => ({ uid, startMs, endMs, summary }))).toEqual([
      { uid: was?.uid, startMs: was?.startMs, endMs: was?.endMs, summary: was?.summary },
    ]);
    expect(gone[0]?.alarms).toEqual([]);
  });

  it('gives no alarm while only an event can end a hold', () => {
    const { rule, target } = items[0]!;
    const heldBy = { id: 'h', rule, activity: rule.activity, target, from: when.asOf };
    const [event] = readBack(calendarFeed([someItem({ state: 'held', heldBy })], options));
    expect(event?.alarms).toEqual([]);
    expect(event?.summary).toMatch(/^On hold: /);
  });

  it('marks emergencies in words and by the highest PRIORITY (RFC 5545 section 3.8.1.9: 1)', () => {
    const [event] = readBack(
      calendarFeed([someItem({ rule: { ...items[0]!.rule, priority: 'stat' } })], options),
    );
    expect(event?.priority).toBe(1);
    expect(event?.summary).toMatch(/^EMERGENCY: /);
  });
});

describe('RFC 5545, section by section', () => {
  it('3.1: lines end with CRLF and have at most 75 octets; unfolding restores them', () => {
    const feed = calendarFeed(items, options);
    expect(feed.endsWith('END:VCALENDAR\r\n')).toBe(true);
    expect(feed.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    for (const line of feed.split('\r\n')) expect(octets(line)).toBeLessThanOrEqual(75);
    const long = 'This is a long description that exists on a long line.';
    const unfolded = calendarFeed([titled(long)], options).replaceAll(/\r\n[ \t]/g, '');
    expect(unfolded).toContain(`DESCRIPTION:${long.slice(0, -1)}. (`);
  });

  it('3.3.5, form #2: UTC as in the example, 19980119T070000Z', () => {
    const feed = calendarFeed(
      [someItem({ opens: '1998-01-19T01:00:00-05:00', dueBy: '1998-01-19T02:00:00-05:00' })],
      options,
    );
    expect(feed).toContain('\r\nDTEND:19980119T070000Z\r\n');
    expect(feed).toContain('\r\nDTSTART:19980119T060000Z\r\n');
  });

  it('3.3.11: the example of a TEXT value is written as it stands there; comma, semicolon, backslash', () => {
    const unfolded = (title: string) => calendarFeed([titled(title)], options).replaceAll(/\r\n[ \t]/g, '');
    // A name of the record is one line; what another feed gave out keeps its own.
    const example = 'Project XYZ Final Review\nConference Room - 3B\nCome Prepared.';
    const at = { start: '1998-01-19T01:00:00-05:00', end: '1998-01-19T02:00:00-05:00' };
    const previous = [{ id: 'example', ...at, summary: example }];
    expect(calendarFeed([], { ...options, previous }).replaceAll(/\r\n[ \t]/g, '')).toContain(
      'SUMMARY:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.',
    );
    expect(unfolded('a, b; c \\ d: e "f"')).toContain('DESCRIPTION:a\\, b\\; c \\\\ d: e "f"');
  });

  it('3.6.1: in an event every property stands before the alarms', () => {
    const names: string[] = [];
    for (const line of calendarFeed(items, options)
      .replaceAll(/\r\n[ \t]/g, '')
      .split('\r\n')) {
      const name = line.split(/[:;]/)[0]!;
      if (line === 'BEGIN:VEVENT') names.length = 0;
      names.push(line.startsWith('BEGIN:') || line.startsWith('END:') ? line : name);
      if (line !== 'END:VEVENT') continue;
      if (!names.includes('BEGIN:VALARM')) continue;
      const alarm = names.indexOf('BEGIN:VALARM');
      const afterAlarms = names.slice(names.lastIndexOf('END:VALARM') + 1);
      expect(alarm).toBeGreaterThan(0);
      expect(afterAlarms).toEqual(['END:VEVENT']);
      for (const once of ['UID', 'DTSTAMP', 'DTSTART', 'DTEND', 'SEQUENCE', 'STATUS', 'LAST-MODIFIED'])
        expect(names.slice(0, alarm).filter((one) => one === once)).toHaveLength(1);
    }
  });

  it('3.8.2.2: DTEND is later than DTSTART, also of care that is due at once', () => {
    const dueBy = '2026-11-25T07:30:00.400+01:00';
    const [event] = readBack(calendarFeed([someItem({ opens: dueBy, dueBy })], options));
    expect(event).toMatchObject({
      startMs: Date.parse('2026-11-25T07:15:00+01:00'),
      endMs: Date.parse('2026-11-25T07:30:00+01:00'),
    });
  });

  it.each([-1, 1.5, 2_147_483_648, NaN])('3.3.8: SEQUENCE %s is no integer of the standard', (sequence) => {
    expect(() => calendarFeed(items, { ...options, sequence })).toThrow(
      expect.objectContaining({ code: 'no-sequence', given: sequence }),
    );
  });
});

describe('for any input', () => {
  it('the bytes do not depend on the order of the items, nor on the machine’s clock', () => {
    const expected = calendarFeed(items, { ...options, previous: [] });
    fc.assert(
      fc.property(
        fc.shuffledSubarray(items, { minLength: items.length }),
        (shuffled) => calendarFeed(shuffled, options) === expected,
      ),
      { numRuns: 8 },
    );
    const previous = readFeed(expected).events;
    const one = calendarFeed([], { ...options, previous });
    expect(calendarFeed([], { ...options, previous: [...previous].reverse() })).toBe(one);
  });

  it('text in any language survives folding, and no line is longer than 75 octets', () => {
    const text = fc.oneof(
      fc.string({ unit: 'grapheme', maxLength: 200 }),
      fc.string({ unit: 'binary', maxLength: 200 }),
      fc
        .array(
          fc.constantFrom(
            'Verbandwechsel ',
            'перевязка',
            '換藥',
            'تغيير',
            '👩🏽‍⚕️',
            '\u{10FFFF}',
            '\r\n',
            '\\n',
            ',',
          ),
          {
            maxLength: 40,
          },
        )
        .map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(text, (title) => {
        const feed = calendarFeed([titled(title)], options);
        for (const line of feed.split('\r\n')) expect(octets(line)).toBeLessThanOrEqual(75);
        const [event, ...more] = readBack(feed);
        expect(more).toEqual([]);
        // What is not safe in a text for people is replaced or left out; every other sign comes back.
        expect(event?.description.startsWith(`${oneLine(title)} (`)).toBe(true);
      }),
      { numRuns: 150 },
    );
  });

  it('a file of another maker, or no calendar at all, tells of no event of ours', () => {
    expect(
      readFeed('BEGIN:VEVENT\nUID:1@other.example\nDTSTART:20261125T070000Z\nEND:VEVENT').events,
    ).toEqual([]);
    fc.assert(
      fc.property(fc.string(), (text) => readFeed(text).events.length === 0),
      { numRuns: 50 },
    );
  });
});
