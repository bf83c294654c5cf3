import type { Computed } from '@dwellward/adapter';
import {
  Calendar,
  english,
  speaker,
  type DueItem,
  type LineCare,
  type LineRecord,
  type Say,
} from '@dwellward/core';
import { displayOf } from '@dwellward/profiles';

/** What was computed of every patient, by reference. */
export type UnitCare = ReadonlyMap<string, Computed>;

/**
 * What is different between two looks at a unit, one sentence each: done, newly due, moved in time. What only grew
 * older (due that is now overdue) is counted.
 * @param zone IANA zone in which times are shown.
 */
export function changesBetween(before: UnitCare, after: UnitCare, zone: string): string[] {
  const clock = clockIn(zone);
  const say = speaker(english, new Calendar(zone));
  const told: string[] = [];
  let older = 0;
  for (const [patient, now] of after) {
    const then = itemsOf(before.get(patient)?.cares ?? []);
    const lines = new Map(now.records.lines.map((line) => [line.ref, line]));
    const met = new Map(now.cares.flatMap((care) => care.met).map((one) => [one.id, one]));
    const items = itemsOf(now.cares);
    for (const [id, item] of items) {
      const was = then.get(id);
      if (was === undefined)
        told.push(
          `${titleOf(item, lines, say)}: next due by ${clock(item.dueBy)}, open from ${clock(item.opens)}.`,
        );
      else if (was.dueBy !== item.dueBy) {
        told.push(
          `${titleOf(item, lines, say)}: now due by ${clock(item.dueBy)}, was ${clock(was.dueBy)}. ${reasonOf(item)}`,
        );
      } else if (was.state !== item.state) older += 1;
    }
    for (const [id, was] of then) {
      const done = met.get(id);
      if (items.has(id)) continue;
      const how = done === undefined ? 'no longer asked for' : `done at ${clock(done.at)} (${done.by})`;
      told.push(`${titleOf(was, lines, say)}: ${how}.`);
    }
  }
  if (older > 0)
    told.push(
      `${older} more ${older === 1 ? 'item' : 'items'} came nearer as time passed: upcoming became due, or due overdue.`,
    );
  return told;
}

function itemsOf(cares: readonly LineCare[]): Map<string, DueItem> {
  return new Map(cares.flatMap(({ items }) => items).map((item) => [item.id, item]));
}

function titleOf(item: DueItem, lines: ReadonlyMap<string, LineRecord>, say: Say): string {
  const line = lines.get(item.line);
  const who = line?.patient.name ?? item.patient;
  const name = line ? say(line.name) : item.line;
  const part = say(item.target.name);
  return `${who}, ${name}${part === name ? '' : `, ${part}`}: ${displayOf('lineCareActivity', item.activity)}`;
}

function reasonOf(item: DueItem): string {
  const moved = item.movedBy.length > 0 ? ` (${item.movedBy.join(', ')})` : '';
  return `${item.rule.title}${moved}.`;
}

/** `Wed 25 Nov 07:30` on the clock of a zone. */
export function clockIn(zone: string): (instant: string) => string {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  return (instant) => {
    const parts = new Map(format.formatToParts(new Date(instant)).map(({ type, value }) => [type, value]));
    return `${parts.get('weekday')} ${parts.get('day')} ${parts.get('month')} ${parts.get('hour')}:${parts.get('minute')}`;
  };
}
