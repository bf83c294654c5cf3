import { activityRow } from '@dwellward/profiles';
import type { Policy } from '@dwellward/policy';
import { Calendar, instantMs } from '../timeline/calendar.js';
import type { AsOf, Hold, InstantText, LineCare } from '../model/care.js';
import type { Name, Sentence } from '../model/sentences.js';
import type { HomeTodoSentences } from '../model/sentences/home.js';
import { compareText } from '../timeline/timeline.js';
import type { LineRecord, Records, Ref } from '../model/record.js';
import { sentenceKey } from '../words/keys.js';
import { doneBy, homeKindOf, type HomeKind } from './home-kinds.js';
import { always, bring, broken, emergencies, never, signs, type Advice } from './home-advice.js';
import type { ShiftItem, Supplies } from './model.js';
import { heldForNow, projectedItems } from './projection.js';
import { unansweredSaid } from '../due/unanswered.js';
import { suppliesOf } from './supplies.js';

/** The sheet looks so many days ahead, today among them. */
export const homeDays = 14;

/** Something to do, in plain words, with its latest time on the clock of the zone. */
export interface HomeTodo {
  /** One sentence, for example `By 10:30: change the dressing.` */
  readonly text: Sentence<keyof HomeTodoSentences>;
}

/** One day of the plan. */
export interface HomeDay {
  /** ISO 8601 date. */
  readonly date: string;
  /** The moment that it begins. */
  readonly at: InstantText;
  readonly todo: readonly HomeTodo[];
}

/** The plan of one line. */
export interface HomeLine {
  readonly line: Ref;
  readonly name: Name;
  /** Trouble on record, in the words of its rules: before all else. */
  readonly callNow: readonly Sentence<'call-about' | 'tell-nurse'>[];
  readonly late: readonly HomeTodo[];
  readonly notNow: readonly Sentence<
    'leave-at-home' | 'wait-with-this' | 'ask-before-you-do' | 'ask-what-is-in-it'
  >[];
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
  /** When it was made. */
  readonly made: InstantText;
  /** IANA zone of the clock at home. */
  readonly zone: string;
  readonly lines: readonly HomeLine[];
  readonly emergencies: readonly Advice[];
  readonly broken: readonly Advice[];
  readonly signs: readonly Advice[];
  /** Lines that are not in yet: when they go in, and what to do before. */
  readonly planned: readonly { readonly when?: InstantText; readonly todo: readonly HomeTodo[] }[];
  readonly always: readonly Advice[];
  readonly never: readonly Advice[];
  readonly bring: readonly Advice[];
}

/**
 * What a patient and the family do on which day of the next 14, what to bring, what to watch for and whom to call, in
 * plain words. `cares` is due care at `when.asOf`. The days ahead take it that care is done when it is due.
 *
 * It advises and never orders: it says to call the unit, and gives no number and no dose. Pure and deterministic;
 * throws a CoreError where the moment is no instant with an offset or the zone no IANA zone.
 * @example
 * ```ts
 * homeSheet(records, cares, policy, when, records.lines[0]!.patient.ref).lines.length > 0; // true
 * ```
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
  const kinds = new Set(inPlace.map((line) => homeKindOf(line, calendar, nowMs)));
  const fits = (advice: Advice) =>
    // A line whose type is not known may be one of them.
    (advice.types === undefined || types.has(undefined) || advice.types.some((type) => types.has(type))) &&
    (advice.kinds === undefined || kinds.size === 0 || advice.kinds.some((kind) => kinds.has(kind)));
  return {
    patient,
    ...(name === undefined ? {} : { name }),
    made: calendar.text(nowMs),
    zone: calendar.zone,
    lines: inPlace.flatMap((line) => {
      const care = careOf.get(line.ref);
      return care ? [homeLine(line, care, policy, calendar, nowMs)] : [];
    }),
    planned: own.flatMap((line) => {
      const care = careOf.get(line.ref);
      return care?.closed === 'not-inserted-yet' ? [plannedLine(care, nowMs)] : [];
    }),
    emergencies: emergencies.filter(fits),
    broken: broken.filter(fits),
    signs: signs.filter(fits),
    always: always.filter(fits),
    never: never.filter(fits),
    bring: bring.filter(fits),
  };
}

function plannedLine({ plannedFor, items }: LineCare, nowMs: number): HomeSheet['planned'][number] {
  const todo = [...items]
    .sort((a, b) => instantMs(a.dueBy) - instantMs(b.dueBy) || compareText(a.activity, b.activity))
    .flatMap(({ activity, dueBy }): HomeTodo[] => {
      const { atHome } = activityRow(activity);
      if (atHome === undefined || atHome === 'team') return [];
      const task = { code: 'home-task', activity, at: 'line', tubes: [] } as const;
      const late = instantMs(dueBy) < nowMs;
      if (atHome === 'unit')
        return [{ text: { code: late ? 'nurse-late' : 'nurse-does-by', at: dueBy, tasks: [task] } }];
      return [{ text: late ? { code: 'do-late', task } : { code: 'do-by-day', at: dueBy, task } }];
    });
  return { ...(plannedFor === undefined ? {} : { when: plannedFor }), todo };
}

function homeLine(
  line: LineRecord,
  care: LineCare,
  policy: Policy,
  calendar: Calendar,
  nowMs: number,
): HomeLine {
  const kind = homeKindOf(line, calendar, nowMs);
  const startMs = calendar.startOfDay(nowMs);
  const toMs = calendar.add(startMs, { value: homeDays, unit: 'd' });
  const items = projectedItems(line, care, policy, calendar.zone, { fromMs: nowMs, toMs }).filter(
    (item) => activityRow(item.activity).atHome !== 'team' && (isTrouble(item) || concerns(item, kind)),
  );
  const timed = items.filter((item) => !heldForNow(item) && !isTrouble(item) && !waitsForAnswer(item));
  const late = timed.filter(({ dueBy }) => instantMs(dueBy) < nowMs);
  const ahead = timed.filter(({ dueBy }) => instantMs(dueBy) >= nowMs);
  const days = Array.from({ length: homeDays }, (_, i) => calendar.add(startMs, { value: i, unit: 'd' }));
  const byDay = days.map((ms, i) => {
    const endMs = days[i + 1] ?? toMs;
    return todoOf(
      ahead.filter(({ dueBy }) => instantMs(dueBy) >= ms && instantMs(dueBy) < endMs),
      calendar,
      { kind, late: false, times: true },
    );
  });
  const everyDay = onEveryDay(byDay);
  const daily = new Set(everyDay.map(keyOf));
  return {
    line: line.ref,
    name: line.name,
    callNow: [
      ...distinct(
        items
          .filter(isTrouble)
          .map(({ activity, rule }) => ({ code: 'call-about', activity, title: rule.title }) as const),
      ).sort((a, b) => compareText(a.title, b.title)),
      ...unansweredSaid(care).map((found) => ({ code: 'tell-nurse', found }) as const),
    ],
    late: todoOf(late, calendar, { kind, late: true }),
    notNow: [
      ...askFirst(
        items.filter((item) => !isTrouble(item)),
        calendar,
        kind,
      ),
      ...distinct(
        care.holds
          .filter(({ activity }) => toldOf(activity, kind))
          .flatMap((hold) => heldAtHome(hold, care.holds, line)),
      ),
      ...todoOf(
        items.filter((item) => heldForNow(item) && !isTrouble(item)),
        calendar,
        { kind, late: false },
      ).map(({ text: todo }) => ({ code: 'wait-with-this', todo }) as const),
    ],
    everyDay,
    days: days.map((ms, i) => ({
      date: calendar.text(ms).slice(0, 10),
      at: calendar.text(ms),
      todo: (byDay[i] ?? []).filter((todo) => !daily.has(keyOf(todo))),
    })),
    supplies: suppliesOf(timed.filter(({ activity }) => doneBy(activity, kind) === 'patient')),
    safeSide: care.items.some(({ remarks }) => remarks.some(({ code }) => code === 'protective-reading')),
  };
}

/** Whether something that it uses is kept back until the clinician has answered: nobody does it at home meanwhile. */
function waitsForAnswer({ questions, activity }: ShiftItem): boolean {
  return activityRow(activity).atHome === 'patient' && questions.some(({ withheld }) => withheld);
}

/** What waits for an answer, and what may hold something that the record speaks against. */
function askFirst(items: readonly ShiftItem[], calendar: Calendar, kind: HomeKind): HomeLine['notNow'] {
  const waiting = items.filter(waitsForAnswer);
  const others = items.filter((item) => doneBy(item.activity, kind) === 'patient' && !waitsForAnswer(item));
  const inThem = distinct(
    others.flatMap(({ questions }) =>
      questions.map(({ substance }) => ({ code: 'ask-what-is-in-it', substance }) as const),
    ),
  );
  const activities = [...new Set(waiting.map(({ activity }) => activity))];
  const toWait = activities.flatMap((activity) => {
    const own = waiting.filter((item) => item.activity === activity);
    const against = own.flatMap(({ questions }) => questions.map(({ substance }) => substance));
    const substances = [...new Set(against)].sort(compareText);
    return todoOf(own, calendar, { kind, late: false }).map(
      ({ text: todo }) => ({ code: 'ask-before-you-do', todo, substances }) as const,
    );
  });
  return [...toWait, ...inThem];
}

/** What nobody does at home by a plan: an emergency, or pressing care that has no plain words here. */
function isTrouble({ priority, activity }: ShiftItem): boolean {
  return priority === 'stat' || (priority !== 'routine' && activityRow(activity).atHome === undefined);
}

function keyOf({ text }: HomeTodo): string {
  return sentenceKey(text);
}

/** What stands on every day but at most the first, which may be over already at its time. */
function onEveryDay(byDay: readonly (readonly HomeTodo[])[]): readonly HomeTodo[] {
  const [, second = [], ...rest] = byDay;
  return second.filter((todo) => rest.every((day) => day.some((one) => keyOf(one) === keyOf(todo))));
}

/** Items that differ only in their lumen are one thing to do. */
function todoOf(
  items: readonly ShiftItem[],
  calendar: Calendar,
  { kind, late, times = false }: { kind: HomeKind; late: boolean; times?: boolean },
): HomeTodo[] {
  const ours = items.filter(({ activity }) => doneBy(activity, kind) === 'unit');
  const own = items.filter(({ activity }) => doneBy(activity, kind) !== 'unit');
  const tasks = distinct(grouped(ours, '').map((group) => taskOf(group, kind)));
  const nurse: HomeTodo['text'][] =
    tasks.length === 0 ? [] : [{ code: late ? 'nurse-late' : 'nurse-does', tasks }];
  const texts = grouped(own, times ? calendar : '').map((group): HomeTodo['text'] => {
    const [{ activity, dueBy }] = group;
    const task = taskOf(group, kind);
    return times && !activityRow(activity).look
      ? { code: 'do-by-clock', clock: clock(instantMs(dueBy), calendar), task }
      : { code: 'do-it', task };
  });
  return distinct([...texts, ...nurse]).map((text) => ({ text }));
}

type Group = readonly [ShiftItem, ...ShiftItem[]];

/** Items of one activity and place, and of one time where a calendar is given. */
function grouped(items: readonly ShiftItem[], by: Calendar | ''): readonly Group[] {
  const groups = new Map<string, [ShiftItem, ...ShiftItem[]]>();
  for (const item of items) {
    const time = by === '' ? '' : clock(instantMs(item.dueBy), by);
    const key = [time, item.activity, item.target.scope].join('\u0000');
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return [...groups.values()];
}

function taskOf(group: Group, kind: HomeKind): Sentence<'home-task'> {
  const [
    {
      activity,
      target: { scope },
    },
  ] = group;
  const place = kind === 'port' || kind === 'port-with-needle' ? 'port' : 'line';
  return {
    code: 'home-task',
    activity,
    at: activityRow(activity).look && scope === 'incision' ? 'incision' : place,
    tubes: tubesOf(group),
  };
}

/** What is done to what is outside: of a port with no needle in it nothing is, and staff see to a needle. */
function concerns({ activity, target: { scope } }: ShiftItem, kind: HomeKind): boolean {
  if (kind !== 'port') return true;
  const { look, atHome } = activityRow(activity);
  return scope !== 'exit-site' || look === true || atHome === 'anybody';
}

/** Whether a hold is news to the person: of what they do themselves, or would feel. */
function toldOf(activity: ShiftItem['activity'], kind: HomeKind): boolean {
  return activityRow(activity).atHome !== 'patient' || kind === 'tube';
}

/** Records write these where a lumen has no name. */
const noNames: ReadonlySet<string> = new Set(['lumen', 'only']);

/** The names of the lumens; those that nobody has named are just the line. */
function tubesOf(group: readonly ShiftItem[]): readonly Name[] {
  return distinct(group.map(({ target }) => target.name)).filter(
    (name) => name.code === 'lumen-number' || (name.code === 'named' && !noNames.has(name.name)),
  );
}

function distinct<One extends Sentence>(all: readonly One[]): One[] {
  return [...new Map(all.map((one) => [sentenceKey(one), one])).values()];
}

function heldAtHome(
  { activity, until, target }: Hold,
  holds: readonly Hold[],
  line: LineRecord,
): Sentence<'leave-at-home'>[] {
  const lumen = target.scope === 'lumen' && line.lumens.length > 1;
  // What is held of the whole line need not be said again of one of its tubes.
  const said = holds.some(
    (one) => one.activity === activity && one.until === until && one.target.scope === 'line',
  );
  if ((lumen && said) || !activityRow(activity).leftAtHome) return [];
  return [
    {
      code: 'leave-at-home',
      activity,
      ...(lumen ? { tube: target.name } : {}),
      ...(until === undefined ? {} : { until }),
    },
  ];
}

function clock(ms: number, calendar: Calendar): string {
  return calendar.text(ms).slice(11, 16);
}
