// Whether what the outputs ask of one patient at one moment can all be followed. What a step demands of the patient’s
// position, of the site and of what goes through the line is read from this table of phrases, and a test sees to it
// that no first step that speaks of them is left out of it.
import {
  Calendar,
  english,
  instantMs,
  speaker,
  type DueItem,
  type Handover,
  type Hold,
  type HomeLine,
  type HomeSheet,
  type LineCare,
} from '@dwellward/core';
import { activityRow } from '@dwellward/profiles';

/** What a step demands that another may forbid. */
export type Demand =
  | 'lie'
  | 'lie-flat'
  | 'left-side'
  | 'get-up'
  | 'stay-still'
  | 'move'
  | 'press'
  | 'do-not-press'
  | 'stay-clamped'
  | 'draw-back'
  | 'dressing-stays'
  | 'dressing-off'
  | 'nothing-through-the-line'
  | 'nothing-through-what-is-damaged';

/** Steps that begin with their condition, or speak of these things without asking for them. */
const askNothing: readonly RegExp[] = [
  /^(No pulse|Bleeds|Line out altogether|Blood returns|No blood returns|Shivers|Drains much|Swells|Short of breath|Growing|They began with)\b.*:/,
  /^In the first days/,
  /^Resuscitat/i,
  /^When it has stopped/,
  /lay it out straight/,
  /still (bleeds|be seen)/,
];

const phrases: readonly (readonly [RegExp, Demand])[] = [
  [/left side/i, 'left-side'],
  [/let the patient (sit up|up)|then stand|before the patient sits up/i, 'get-up'],
  // Until the bleeding stops: on record that is what ends the hold on getting up, and is looked at by a test of its own.
  [/^(?!.*lying until it has stopped).*patient lying|lie down/i, 'lie'],
  [/lay the patient flat|flat for \d|keep the patient flat|flat on the back|lie flat/i, 'lie-flat'],
  [/keep the (patient and the )?(limb|arm) still/i, 'stay-still'],
  [/lift the arm|have the patient turn/i, 'move'],
  [/^press /i, 'press'],
  [/do not press/i, 'do-not-press'],
  [/keep the line clamped/i, 'stay-clamped'],
  // A step that itself gives way to the clamp asks for nothing that contradicts it.
  [/^(?!.*clamp it instead).*\bdraw back what/i, 'draw-back'],
  [/(?<!drawn )dressing.*\bstays on\b/i, 'dressing-stays'],
  [/take .*dressing off/i, 'dressing-off'],
  [
    /do not use the line|nothing runs through the line|do not flush|keep the line clamped|nothing in or out/i,
    'nothing-through-the-line',
  ],
  [/do not use what is damaged/i, 'nothing-through-what-is-damaged'],
];

/** Words by which a step speaks of a position or of the use of the line, so that the table has to know it. */
export const telling =
  /\b(lay|lying|lie|flat|left side|sit|sits|stand|still|get up|upright|head down|do not use|nothing runs|nothing in|do not flush|keep the line clamped|do not press|stays on)\b/i;

/** What a patient can’t do at once, whichever lines ask for it. */
const ofThePatient: readonly (readonly [Demand, Demand])[] = [
  ['get-up', 'lie'],
  ['get-up', 'lie-flat'],
  ['get-up', 'left-side'],
  ['get-up', 'stay-still'],
  ['lie-flat', 'left-side'],
  ['move', 'stay-still'],
];

/** What can’t be done with one line at once; another line of the patient has its own site and clamp. */
const ofOneLine: readonly (readonly [Demand, Demand])[] = [
  ['press', 'do-not-press'],
  ['draw-back', 'stay-clamped'],
  ['dressing-off', 'dressing-stays'],
];

/** What a step demands; undefined where it is not known to the table. */
export function demandsOf(step: string): readonly Demand[] | undefined {
  if (askNothing.some((phrase) => phrase.test(step))) return [];
  const demands = phrases.filter(([phrase]) => phrase.test(step)).map(([, demand]) => demand);
  return demands.length > 0 ? demands : undefined;
}

type Item = Pick<DueItem, 'activity' | 'line' | 'target' | 'rule' | 'work' | 'dueBy'>;

/** What is said of one line: what is to be done now, and what is not. */
interface Said {
  readonly line: string;
  readonly asked: readonly Item[];
  readonly holds: readonly Hold[];
}

const texts = speaker(english, new Calendar('UTC'));
const nameOf = ({ activity, target, rule }: Item) => `${activity} on ${target.ref} (${rule.id})`;

function demandsIn({ work }: Item): ReadonlySet<Demand> {
  const steps = work.filter(({ kind }) => kind === 'step').map(({ text }) => texts(text));
  return new Set(steps.flatMap((step) => demandsOf(step) ?? []));
}

/** Whether something is done through the line, or tries to. */
function goesThrough({ activity }: Item): boolean {
  return activityRow(activity).throughLumen === true || activity === 'blockage-response';
}

/** First steps that somebody ordered say what to do in a trouble that is not on record: they bind nothing else now. */
function isOrderedFirstSteps({ activity, rule }: Item): boolean {
  return rule.origin.order !== undefined && activity.endsWith('-response');
}

/** Two things that are asked for and exclude each other, on whichever line of the patient. */
function excludingEachOther(said: readonly Said[]): string[] {
  const all = said
    .flatMap(({ asked }) => asked)
    .filter((item) => !isOrderedFirstSteps(item))
    .map((item) => ({ item, demands: demandsIn(item) }));
  return all.flatMap((one) =>
    all.flatMap((other) =>
      [...ofThePatient, ...(one.item.line === other.item.line ? ofOneLine : [])]
        .filter(([a, b]) => one.item !== other.item && one.demands.has(a) && other.demands.has(b))
        .map(([a, b]) => `${a}: ${nameOf(one.item)}; ${b}: ${nameOf(other.item)}`),
    ),
  );
}

/** What is asked for while it is held. */
function againstHolds({ asked, holds }: Said, nowMs: number): string[] {
  return holds.flatMap((hold) =>
    asked
      .filter(
        (item) =>
          hold.activity === item.activity &&
          (hold.target.scope === 'line' || hold.target.ref === item.target.ref) &&
          instantMs(hold.from) <= nowMs &&
          (hold.until === undefined || instantMs(item.dueBy) < instantMs(hold.until)) &&
          item.rule.priority !== 'stat',
      )
      .map((item) => `held by ${hold.rule.id}: ${nameOf(item)}`),
  );
}

/** What goes through a line, or a lumen, while a step says that nothing may. */
function againstSteps({ asked, holds }: Said): string[] {
  const bound = asked.filter((item) => !isOrderedFirstSteps(item));
  return bound.flatMap((item) => {
    const demands = demandsIn(item);
    const of = ({ target }: Item) => item.target.scope !== 'lumen' || target.ref === item.target.ref;
    const through = demands.has('nothing-through-the-line')
      ? asked.filter((other) => other !== item && goesThrough(other) && of(other))
      : [];
    const free =
      demands.has('nothing-through-what-is-damaged') && !holds.some(({ activity }) => activity === 'flush');
    return [
      ...through.map((other) => `nothing through the line: ${nameOf(item)}; ${nameOf(other)}`),
      ...(free ? [`nothing is held: ${nameOf(item)}`] : []),
    ];
  });
}

function among(said: readonly Said[], nowMs: number): string[] {
  return [
    ...new Set([
      ...excludingEachOther(said),
      ...said.flatMap((one) => [...againstHolds(one, nowMs), ...againstSteps(one)]),
    ]),
  ].sort();
}

/** Every two things that due care asks or forbids of one patient and that can’t both be followed. */
export function contradictionsIn(cares: readonly LineCare[], asOf: string): string[] {
  const said = cares.map(({ line, items, holds }) => ({
    line,
    asked: items.filter(({ state }) => state === 'due' || state === 'overdue'),
    holds,
  }));
  return among(said, instantMs(asOf));
}

/** The same of a hand-over: what is late, due or expected in the shift, against its holds and first steps. */
export function contradictionsInHandover({ patients, from }: Handover): string[] {
  return patients.flatMap(({ lines }) =>
    among(
      lines.map(({ line, overdue, due, holds }) => ({ line, asked: [...overdue, ...due], holds })),
      instantMs(from),
    ),
  );
}

/** The same of a sheet for home: what it gives to do, against what it says to leave. */
export function contradictionsAtHome({ lines }: HomeSheet): string[] {
  return lines.flatMap((line) => {
    const tasks = tasksOf(line);
    return line.notNow.flatMap((one) => {
      if (one.code !== 'leave-at-home' || one.until !== undefined) return [];
      const { activity, tube } = one;
      return tasks
        .filter(
          (task) =>
            task.activity === activity &&
            (tube === undefined || task.tubes.some((name) => texts(name) === texts(tube))),
        )
        .map((task) => `${texts(one)} ${texts(task)}`);
    });
  });
}

function tasksOf({ late, everyDay, days }: HomeLine) {
  return [...late, ...everyDay, ...days.flatMap(({ todo }) => todo)].flatMap(({ text }) =>
    'tasks' in text ? text.tasks : [text.task],
  );
}
