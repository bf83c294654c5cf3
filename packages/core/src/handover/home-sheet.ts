import { activityRow, displayOf, type LineCareActivity } from '@dwellward/profiles';
import type { Policy } from '@dwellward/policy';
import { Temporal } from 'temporal-polyfill';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { AsOf, Hold, LineCare } from '../model/care.js';
import { compareText } from '../timeline/timeline.js';
import type { LineRecord, Records, Ref } from '../model/record.js';
import { always, bring, broken, emergencies, never, signs, type Advice } from './home-advice.js';
import type { ShiftItem, Supplies } from './model.js';
import { heldForNow, projectedItems } from './projection.js';
import { suppliesOf } from './supplies.js';

/** The sheet looks so many days ahead, today among them. */
export const homeDays = 14;

/** Something to do, in plain words, with its latest time on the clock of the zone. */
export interface HomeTodo {
  /** One sentence, for example `By 10:30: change the dressing.` */
  readonly text: string;
}

/** One day of the plan. */
export interface HomeDay {
  /** ISO 8601 date. */
  readonly date: string;
  /** For people: `Wed 25 Nov`. */
  readonly name: string;
  readonly todo: readonly HomeTodo[];
}

/** The plan of one line. */
export interface HomeLine {
  readonly line: Ref;
  readonly name: string;
  /** Trouble on record, in the words of its rules: before all else. */
  readonly callNow: readonly string[];
  readonly late: readonly HomeTodo[];
  readonly notNow: readonly string[];
  readonly everyDay: readonly HomeTodo[];
  readonly days: readonly HomeDay[];
  readonly supplies: Supplies;
  /** True where a protective reading was taken because something is not on record. */
  readonly safeSide: boolean;
}

/** A sheet for patient and family: plain data; advice keeps its sources. */
export interface HomeSheet {
  readonly patient: Ref;
  readonly name?: string;
  /** When it was made, for people. */
  readonly made: string;
  readonly lines: readonly HomeLine[];
  readonly emergencies: readonly Advice[];
  readonly broken: readonly Advice[];
  readonly signs: readonly Advice[];
  /** Lines that are not in yet: when they go in, and what to do before. */
  readonly planned: readonly { readonly when?: string; readonly todo: readonly HomeTodo[] }[];
  readonly always: readonly Advice[];
  readonly never: readonly Advice[];
  readonly bring: readonly Advice[];
}

/**
 * What a patient and the family do on which day of the next 14, what to bring, what to watch for and whom to call, in
 * plain words. `cares` is due care at `when.asOf`. The days ahead take it that care is done when it is due.
 *
 * It advises and never orders: it says to call the unit, and gives no number and no dose. Pure and deterministic;
 * throws a RangeError where the moment is no instant with an offset or the zone no IANA zone.
 */
export function homeSheet(
  records: Records,
  cares: readonly LineCare[],
  policy: Policy,
  when: AsOf,
  patient: Ref,
): HomeSheet {
  const calendar = new Calendar(when.zone);
  const nowMs = instantMs(when.asOf);
  const careOf = new Map(cares.map((care) => [care.line, care]));
  const own = records.lines
    .filter((line) => line.patient.ref === patient)
    .sort((a, b) => compareText(a.ref, b.ref));
  const inPlace = own.filter((line) => careOf.get(line.ref)?.inPlace);
  const name = own[0]?.patient.name;
  const types = new Set(inPlace.map(({ type }) => type));
  const fits = (advice: Advice) =>
    // A line whose type is not known may be one of them.
    advice.types === undefined || types.has(undefined) || advice.types.some((type) => types.has(type));
  return {
    patient,
    ...(name === undefined ? {} : { name }),
    made: `${dayName(nowMs, calendar)}, ${clock(nowMs, calendar)}`,
    lines: inPlace.flatMap((line) => {
      const care = careOf.get(line.ref);
      return care ? [homeLine(line, care, policy, calendar, nowMs)] : [];
    }),
    planned: own.flatMap((line) => {
      const care = careOf.get(line.ref);
      return care?.closed === 'not-inserted-yet' ? [plannedLine(care, calendar, nowMs)] : [];
    }),
    emergencies: emergencies.filter(fits),
    broken: broken.filter(fits),
    signs: signs.filter(fits),
    always: always.filter(fits),
    never: never.filter(fits),
    bring: bring.filter(fits),
  };
}

function plannedLine(
  { plannedFor, items }: LineCare,
  calendar: Calendar,
  nowMs: number,
): HomeSheet['planned'][number] {
  const day = (text: string) => `${dayName(instantMs(text), calendar)}, ${clock(instantMs(text), calendar)}`;
  const todo = [...items]
    .sort((a, b) => instantMs(a.dueBy) - instantMs(b.dueBy) || compareText(a.activity, b.activity))
    .flatMap(({ activity, dueBy }) => {
      const { atHome } = activityRow(activity);
      if (atHome === undefined || atHome === 'team') return [];
      const by = instantMs(dueBy) < nowMs ? 'Late, do this now or call the unit' : `By ${day(dueBy)}`;
      return [{ text: `${by}: ${homeText(activity, 'the line')}.` }];
    });
  return { ...(plannedFor === undefined ? {} : { when: day(plannedFor) }), todo };
}

function homeLine(
  line: LineRecord,
  care: LineCare,
  policy: Policy,
  calendar: Calendar,
  nowMs: number,
): HomeLine {
  const startMs = calendar.startOfDay(nowMs);
  const toMs = calendar.add(startMs, { value: homeDays, unit: 'd' });
  const items = projectedItems(line, care, policy, calendar.zone, { fromMs: nowMs, toMs }).filter(
    ({ activity }) => activityRow(activity).atHome !== 'team',
  );
  const timed = items.filter((item) => !heldForNow(item) && !isTrouble(item));
  const late = timed.filter(({ dueBy }) => instantMs(dueBy) < nowMs);
  const ahead = timed.filter(({ dueBy }) => instantMs(dueBy) >= nowMs);
  const days = Array.from({ length: homeDays }, (_, i) => calendar.add(startMs, { value: i, unit: 'd' }));
  const byDay = days.map((ms, i) => {
    const endMs = days[i + 1] ?? toMs;
    return todoOf(
      ahead.filter(({ dueBy }) => instantMs(dueBy) >= ms && instantMs(dueBy) < endMs),
      calendar,
      true,
    );
  });
  const daily = new Set(everyDay(byDay));
  return {
    line: line.ref,
    name: line.name,
    callNow: [
      ...new Set(
        items.filter(isTrouble).map(({ rule }) => sentence(rule.title.replace(/: first steps$/, ''))),
      ),
    ].sort(compareText),
    late: todoOf(late, calendar),
    notNow: [
      ...new Set(care.holds.flatMap((hold) => holdText(hold, care.holds, line, calendar))),
      ...todoOf(
        items.filter((item) => heldForNow(item) && !isTrouble(item)),
        calendar,
      ).map(({ text }) => `Wait with this until the unit says so: ${text}`),
    ],
    everyDay: [...daily].map((text) => ({ text })),
    days: days.map((ms, i) => ({
      date: calendar.text(ms).slice(0, 10),
      name: dayName(ms, calendar),
      todo: (byDay[i] ?? []).filter(({ text }) => !daily.has(text)),
    })),
    supplies: suppliesOf(timed.filter(({ activity }) => activityRow(activity).atHome === 'patient')),
    safeSide: care.items.some(({ remarks }) => remarks.some((remark) => /protective reading/.test(remark))),
  };
}

/** What nobody does at home by a plan: an emergency, or pressing care that has no plain words here. */
function isTrouble({ priority, activity }: ShiftItem): boolean {
  return priority === 'stat' || (priority !== 'routine' && activityRow(activity).atHome === undefined);
}

/** What stands on every day but at most the first, which may be over already at its time. */
function everyDay(byDay: readonly (readonly HomeTodo[])[]): string[] {
  const [, second = [], ...rest] = byDay;
  return second
    .map(({ text }) => text)
    .filter((text) => rest.every((day) => day.some((todo) => todo.text === text)));
}

/** Items that differ only in their lumen are one thing to do. */
function todoOf(items: readonly ShiftItem[], calendar: Calendar, withTime = false): HomeTodo[] {
  const groups = new Map<string, ShiftItem[]>();
  for (const item of items) {
    const time = withTime ? clock(instantMs(item.dueBy), calendar) : '';
    const key = [time, item.activity, item.target.scope].join('\u0000');
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  const texts = [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (!first) return [];
    const what = doText(first, group);
    return [
      withTime
        ? `By ${clock(instantMs(first.dueBy), calendar)}: ${what}.`
        : `${what.charAt(0).toUpperCase()}${what.slice(1)}.`,
    ];
  });
  return [...new Set(texts)].map((text) => ({ text }));
}

function doText(item: ShiftItem, group: readonly ShiftItem[]): string {
  if (item.activity === 'site-assessment' && item.target.scope === 'incision')
    return 'look at the small cut over the vein';
  return homeText(item.activity, tubesText(group));
}

/** What to do, in the words of the table; what has none is named by its display, and is left to the unit. */
function homeText(activity: LineCareActivity, lumens: string): string {
  const { atHome, homeWords } = activityRow(activity);
  if (homeWords === undefined)
    return `ask the unit about this: ${displayOf('lineCareActivity', activity).toLowerCase()}`;
  const words = onLumens(homeWords, lumens);
  return atHome === 'unit' ? `have the unit ${words}` : words;
}

/** The words of the table, with what it is done to in its place. */
function onLumens(words: string, lumens: string): string {
  return words.replace('{lumens}', () => lumens);
}

/** Lumens that nobody has named are just the line. */
const unnamed = new Set(['the lumen', 'lumen', 'only', 'the line']);

function tubesText(group: readonly ShiftItem[]): string {
  const names = [...new Set(group.map(({ target }) => target.name))].filter((name) => !unnamed.has(name));
  if (names.length === 0) return 'the line';
  return names.length === 1 ? `this tube: ${names[0]}` : `these tubes: ${names.join(', ')}`;
}

function holdText(
  { activity, until, target }: Hold,
  holds: readonly Hold[],
  line: LineRecord,
  calendar: Calendar,
): string[] {
  const lumen = target.scope === 'lumen' && line.lumens.length > 1;
  // What is held of the whole line need not be said again of one of its tubes.
  const said = holds.some(
    (one) => one.activity === activity && one.until === until && one.target.scope === 'line',
  );
  if (lumen && said) return [];
  const { heldWords } = activityRow(activity);
  if (heldWords === undefined) return [];
  const what = onLumens(heldWords, lumen ? `this tube: ${target.name}` : 'the line');
  if (until === undefined) return [sentence(`${what}. Wait until the unit says so`)];
  const ms = instantMs(until);
  return [sentence(`${what} until ${dayName(ms, calendar)}, ${clock(ms, calendar)}`)];
}

function sentence(text: string): string {
  return `${text.replace(/\.+$/, '')}.`;
}

const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

function dayName(ms: number, { zone }: Calendar): string {
  const at = Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(zone);
  return `${weekdays[at.dayOfWeek - 1]} ${at.day} ${months[at.month - 1]}`;
}

function clock(ms: number, calendar: Calendar): string {
  return calendar.text(ms).slice(11, 16);
}
