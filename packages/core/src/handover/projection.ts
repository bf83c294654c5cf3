import { activityRow } from '@dwellward/profiles';
import type { Policy, Rule } from '@dwellward/policy';
import { Calendar, instantMs, nominalMs } from '../timeline/calendar.js';
import { putsDressingOn } from '../timeline/dressings.js';
import { dueCare } from '../due/due-care.js';
import type { DueItem, LineCare } from '../model/care.js';
import { pressing, priorityOf } from '../rules/priority.js';
import { compareText } from '../timeline/timeline.js';
import type { CareEvent, LineRecord, RecordedTime } from '../model/record.js';
import type { ShiftItem } from './model.js';
import { narrowed } from './narrowed.js';

/**
 * How often one item may follow itself within a span. A rule of five minutes over twelve hours asks 144 times; what
 * asks more often is a rule by mistake, and a list of it helps nobody.
 */
const mostRepeats = 200;

/** A span of time in milliseconds since 1970 UTC, without its end. */
export interface SpanMs {
  readonly fromMs: number;
  readonly toMs: number;
}

/**
 * The care of a line within a span, seen from its start: what is open and due before its end, and what is expected to
 * follow. An open item is taken to be done when it is due, what is overdue at the start of the span, with the same
 * dressing; the next one is then worked out by the same rules from there, with nothing else charted. What a fact that
 * only the time changes (a count that grows stale) would make due is expected too.
 *
 * Nothing here is open care: expected items have no identity of their own, and no Task is made from them.
 */
export function projectedItems(
  line: LineRecord,
  care: LineCare,
  policy: Policy,
  zone: string,
  { fromMs, toMs }: SpanMs,
): ShiftItem[] {
  const calendar = new Calendar(zone);
  const known = knownAt(line, calendar, fromMs);
  const open = care.items.filter(({ dueBy }) => instantMs(dueBy) < toMs);
  const items = open.map((item) => shiftItem(item, 'open', item.id, 0));
  // What prepares an insertion, or follows a removal, is done once.
  if (!care.inPlace) return items.sort(compareShiftItems);
  for (const item of open) items.push(...repeats(known, item, policy, calendar, { fromMs, toMs }));
  return [...items, ...byTimeAlone(known, care, policy, calendar, { fromMs, toMs })].sort(compareShiftItems);
}

/** The more pressing first, then in the order of time; equal ones in an order of their own. */
export function compareShiftItems(a: ShiftItem, b: ShiftItem): number {
  return (
    pressing[a.priority] - pressing[b.priority] ||
    instantMs(a.dueBy) - instantMs(b.dueBy) ||
    compareText(a.activity, b.activity) ||
    compareText(a.target.ref, b.target.ref) ||
    compareText(a.target.scope, b.target.scope) ||
    compareText(a.id, b.id) ||
    a.nth - b.nth
  );
}

/** An item of due care as one of the shift. */
export function shiftItem(item: DueItem, kind: ShiftItem['kind'], id: string, nth: number): ShiftItem {
  return {
    kind,
    id,
    nth,
    activity: item.activity,
    line: item.line,
    patient: item.patient,
    target: item.target,
    rule: item.rule,
    priority: priorityOf(item),
    opens: item.opens,
    dueBy: item.dueBy,
    ...(item.heldBy ? { heldBy: item.heldBy } : {}),
    ...(kind === 'open' && item.visit !== undefined ? { visit: item.visit } : {}),
    work: item.work,
    questions: item.questions,
    remarks: item.remarks,
  };
}

/** Whether a hold stands that only an event ends: no time can be given for the item. */
export function heldForNow({ heldBy }: Pick<ShiftItem, 'heldBy'>): boolean {
  return heldBy !== undefined && heldBy.until === undefined;
}

/** The same activity on the same target, again and again, each done when it is due. */
function repeats(
  line: LineRecord,
  first: DueItem,
  policy: Policy,
  calendar: Calendar,
  { fromMs, toMs }: SpanMs,
): ShiftItem[] {
  if (heldForNow(first)) return [];
  const own = narrowed(policy, first.activity);
  if (!mayRepeatWithin(toMs - Math.max(instantMs(first.dueBy), fromMs), first, own)) return [];
  const found: ShiftItem[] = [];
  // The last time decides; all of them are kept only where a rule counts how often.
  const counts = rulesOf(first, own).some(
    ({ begins }) => begins.kind === 'interval' && begins.atMost !== undefined,
  );
  let done: CareEvent[] = [];
  let dueMs = Math.max(instantMs(first.dueBy), fromMs);
  for (let nth = 1; nth <= mostRepeats; nth++) {
    const doneMs = dueMs;
    done = [...(counts ? done : []), doneAs(first, nth, doneMs, line, calendar)];
    const care = dueCare({ ...line, events: [...line.events, ...done] }, own, {
      asOf: calendar.text(doneMs),
      zone: calendar.zone,
    });
    const next = care.items.find((item) => sameWork(item, first));
    if (!next || heldForNow(next)) break;
    dueMs = instantMs(next.dueBy);
    // What is due at once again would repeat for ever.
    if (dueMs >= toMs || dueMs <= doneMs) break;
    found.push(shiftItem(next, 'expected', first.id, nth));
  }
  return found;
}

// A calendar day is shorter than 24 h where the clock goes forward, and a month shorter than 30 days.
const shortestOfNominal = 0.9;

/** Whether any rule asks for the activity so often: most items of a shift need no look at what follows them. */
function mayRepeatWithin(spanMs: number, item: DueItem, own: Policy): boolean {
  return rulesOf(item, own).some(({ begins }) => {
    if (begins.kind === 'fixed-times') return true;
    if (begins.kind !== 'interval') return false;
    return nominalMs(begins.every) * shortestOfNominal < spanMs;
  });
}

/** Every rule that may ask for the item’s activity; a patient’s own order is among those that the item tells of. */
function rulesOf({ rule, others }: DueItem, own: Policy): Rule[] {
  const policies = [own, ...(own.versions ?? []).map(({ policy }) => policy)];
  return [rule, ...others.map((other) => other.rule), ...policies.flatMap(({ rules }) => rules)];
}

/** What becomes due before the end of the span with nothing charted: a rule that comes to hold as time goes by. */
function byTimeAlone(
  line: LineRecord,
  care: LineCare,
  policy: Policy,
  calendar: Calendar,
  { fromMs, toMs }: SpanMs,
): ShiftItem[] {
  const later = dueCare(line, policy, { asOf: calendar.text(toMs - 1), zone: calendar.zone });
  return later.items
    .filter((item) => {
      const dueMs = instantMs(item.dueBy);
      const seen = care.items.find((one) => sameWork(one, item));
      // With nothing to count from an item is due whenever one looks: at the start of the span it was due already.
      return (
        dueMs >= fromMs &&
        dueMs < toMs &&
        !heldForNow(item) &&
        (seen === undefined || instantMs(seen.dueBy) >= toMs)
      );
    })
    .map((item) => shiftItem(item, 'expected', item.id, 0));
}

function sameWork(a: DueItem, b: DueItem): boolean {
  return a.activity === b.activity && a.target.scope === b.target.scope && a.target.ref === b.target.ref;
}

/** The item as if it had been done: a dressing is renewed with one of its kind. */
function doneAs(item: DueItem, nth: number, ms: number, line: LineRecord, calendar: Calendar): CareEvent {
  const always = activityRow(item.activity).putsDressingOn === 'always';
  const dressing = always ? dressingInPlace(line) : undefined;
  return {
    ref: `expected/${item.id}/${String(nth).padStart(3, '0')}`,
    activity: item.activity,
    status: 'completed',
    at: { text: calendar.text(ms), precision: 'instant' },
    ...(item.target.scope === 'lumen' ? { lumen: item.target.ref } : {}),
    site: item.target.scope === 'incision' ? 'incision' : 'exit-site',
    ...(dressing ? { dressing } : {}),
  };
}

function dressingInPlace({ events }: LineRecord): CareEvent['dressing'] {
  return events.filter((event) => event.status === 'completed' && putsDressingOn(event)).at(-1)?.dressing;
}

/** The record as it was known at a moment: what was charted for later does not exist yet. */
function knownAt(line: LineRecord, calendar: Calendar, ms: number): LineRecord {
  const known = ({ at }: { readonly at?: RecordedTime }) => at === undefined || calendar.earliest(at) <= ms;
  return {
    ...line,
    events: line.events.filter(known),
    findings: line.findings.filter(known),
    patient: { ...line.patient, measurements: line.patient.measurements.filter(known) },
  };
}
