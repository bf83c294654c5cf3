import { findingRow, type LineCareActivity } from '@dwellward/profiles';
import { chainCure } from './first-edition.js';
import type { Findings } from './findings.js';
import { elementsOf, isObject } from './json.js';
import type { Begins, Effect, Span, Trigger } from './model.js';
import type { Conditions } from './read-conditions.js';
import type { WholeAction } from './read-group.js';
import { readDuration } from './read-settings.js';
import { readTrigger, type ReadTrigger } from './read-trigger.js';
import type { RelatedAction } from './shapes.js';
import { readTiming } from './timing.js';

/** A rule that is counted back from an act that another action plans, which is found when the layers are merged. */
export interface Link {
  readonly actionId: string;
  readonly offset: Span;
  readonly timesOfDay?: readonly string[];
  /** The element that names the other action. */
  readonly at: Findings;
}

/** When a rule begins, and how long a ban lasts. */
export interface When {
  readonly begins: Begins | Link;
  readonly lasts?: Span;
  readonly notes: readonly string[];
}

/** What is known of an action when it is read how it begins. */
interface Beginning {
  readonly whole: WholeAction;
  readonly effect: Effect;
  /** What it does, where that could be read. */
  readonly activity: LineCareActivity | undefined;
  readonly conditions: Conditions;
}

/** Whether a rule is counted back from an act that another action plans. */
export function isLink(begins: Begins | Link): begins is Link {
  return !('kind' in begins);
}

/** Reads when a rule begins. Undefined where that can’t be kept; the findings say why. */
export function readBegins(given: Beginning): When | undefined {
  const { whole, effect } = given;
  const { action, findings } = whole;
  const timings = elementsOf(action).filter((key) => key.startsWith('timing'));
  for (const key of timings) {
    if (key !== 'timingTiming' && key !== 'timingDuration')
      whole
        .placeOf(key)
        .error(
          key,
          'timing-type',
          'can’t be kept',
          'Give an interval as timingTiming, or a time after a trigger as timingDuration.',
        );
  }
  if (timings.some((key) => key !== 'timingTiming' && key !== 'timingDuration')) return undefined;
  if (timings.length > 1) {
    return findings.error(
      'timingDuration',
      'two-beginnings',
      'stands beside timingTiming',
      'An action has one timing: keep one of the two.',
    );
  }
  const triggers = action.trigger ?? [];
  const related = action.relatedAction ?? [];
  if (triggers.length > 0 && related.length > 0) {
    return findings.error(
      '',
      'two-beginnings',
      'has both trigger and relatedAction',
      'Make an action of each, with an id of its own: the most protective one decides.',
    );
  }
  if (triggers.length > 0) return fromTriggers(given);
  if (startOrStopAlone(whole)) return undefined;
  if (related.length > 0) return fromRelated(given, related);
  if (effect === 'forbid') return banWithoutTrigger(given, timings[0]);
  if (action['timingTiming'] !== undefined) return fromTiming(whole);
  if (action['timingDuration'] !== undefined) {
    return whole
      .placeOf('timingDuration')
      .error(
        'timingDuration',
        'duration-without-trigger',
        'counts from nothing',
        'Give the action a trigger, such as one of type Procedure for the insertion: it is due so long after.',
      );
  }
  return whileApplies(given);
}

/** Conditions of kind start and stop have a meaning beside a trigger only. */
function startOrStopAlone({ conditions }: WholeAction): boolean {
  const wrong = conditions.filter(({ value }) => value.kind !== 'applicability');
  for (const { value, at } of wrong) {
    at.error(
      'kind',
      'condition-without-trigger',
      `${value.kind} is judged from a trigger on, and there is none`,
      'Give the action a trigger, or make it a condition of kind applicability.',
    );
  }
  return wrong.length > 0;
}

function whileApplies({ whole, conditions }: Beginning): When | undefined {
  if (conditions.applicability.text !== '') return { begins: { kind: 'while' }, notes: [] };
  return whole.findings.error(
    '',
    'bare-action',
    'says neither when nor while what it is to be done, and another reader would propose it',
    'Give it timingTiming, a trigger or a condition of kind applicability. What others count from is a trigger of theirs, of type Procedure; an act that an order plans has a trigger of type ServiceRequest.',
  );
}

function banWithoutTrigger(given: Beginning, timing: string | undefined): When | undefined {
  if (timing === undefined) return whileApplies(given);
  return given.whole
    .placeOf(timing)
    .error(
      timing,
      'ban-timing',
      'a ban is no act that is done at times',
      'Let it begin with a trigger, or apply while a condition of kind applicability is true.',
    );
}

function fromTiming(whole: WholeAction): When | undefined {
  const at = whole.placeOf('timingTiming').at('timingTiming');
  const reading = readTiming(whole.action['timingTiming']);
  if (!reading.ok) {
    for (const { path, message, cure } of reading.problems) {
      at.error(
        path,
        'bad-timing',
        message,
        cure ?? 'Give an interval as frequency, period and periodUnit, or timeOfDay with dayOfWeek.',
      );
    }
    return undefined;
  }
  for (const note of reading.notes)
    at.information('', 'shorter-reading', note, 'Give one exact value where another reading is wanted.');
  return { begins: reading.begins, notes: reading.notes };
}

function fromTriggers(given: Beginning): When | undefined {
  const { whole, effect } = given;
  const place = whole.placeOf('trigger');
  const elements = whole.action.trigger ?? [];
  const read = elements.map((one, index) => readTrigger(one, place.at(`trigger[${index}]`)));
  const before = whole.findings.errors;
  const lasts = effect === 'forbid' ? lengthOfBan(given) : undefined;
  const after = effect === 'ask' ? delayOf(whole) : undefined;
  if (whole.findings.errors > before || read.includes(undefined)) return undefined;
  const found = read.filter((one) => one !== undefined);
  if (found.some(({ kind }) => kind === 'order')) return planned(given, found);
  const by = found.filter((one) => one.kind !== 'order');
  if (!answerable(given, by)) return undefined;
  return {
    begins: { kind: 'triggered', by, ...(after === undefined ? {} : { after }) },
    ...(lasts === undefined ? {} : { lasts }),
    notes: [],
  };
}

/** How long after its trigger an ask is due. */
function delayOf(whole: WholeAction): Span | undefined {
  const { action } = whole;
  if (action['timingTiming'] !== undefined) {
    return whole
      .placeOf('timingTiming')
      .error(
        'timingTiming',
        'two-beginnings',
        'stands beside a trigger',
        'Make an action of each, with an id of its own; for a time after the trigger give timingDuration.',
      );
  }
  if (action['timingDuration'] === undefined) return undefined;
  const at = whole.placeOf('timingDuration').at('timingDuration');
  return readDuration(action['timingDuration'], at, 'Give a Duration, such as 48 h.');
}

/** How long a ban lasts from its trigger on; where it does not say so, something else has to end it. */
function lengthOfBan({ whole, conditions }: Beginning): Span | undefined {
  const { action, findings } = whole;
  if (action['timingDuration'] !== undefined) {
    return whole
      .placeOf('timingDuration')
      .error(
        'timingDuration',
        'ban-timing',
        'a ban begins at once',
        'For how long it lasts give timingTiming.repeat.boundsDuration.',
      );
  }
  const timing = action['timingTiming'];
  if (timing === undefined) {
    if (conditions.stop !== undefined) return undefined;
    return findings.error(
      '',
      'endless-ban',
      'forbids, and nothing ends it',
      'Give a condition of kind stop, such as %last.repair >= %began, or timingTiming.repeat.boundsDuration for how long it lasts.',
    );
  }
  const at = whole.placeOf('timingTiming').at('timingTiming');
  const repeat = isObject(timing) ? timing['repeat'] : undefined;
  const others = [
    ...(isObject(timing) ? elementsOf(timing).filter((key) => key !== 'repeat') : []),
    ...(isObject(repeat)
      ? elementsOf(repeat)
          .filter((key) => key !== 'boundsDuration')
          .map((key) => `repeat.${key}`)
      : []),
  ];
  const cure = 'Of a ban give repeat.boundsDuration alone: how long it lasts.';
  for (const key of others) at.error(key, 'ban-timing', 'can’t be kept of a ban', cure);
  if (!isObject(repeat) || repeat['boundsDuration'] === undefined)
    return at.error('repeat.boundsDuration', 'ban-timing', 'is missing', cure);
  return readDuration(
    repeat['boundsDuration'],
    at.at('repeat.boundsDuration'),
    'Give a Duration, such as 2 h.',
  );
}

/** A stop that waits for what was found to be put right can only end what something can put right. */
function answerable({ whole, conditions: { stop } }: Beginning, by: readonly Trigger[]): boolean {
  if (stop === undefined || !stop.uses.includes('answered')) return true;
  const never = by.filter((one) => one.kind === 'event' || findingRow(one.finding).answeredBy === undefined);
  const only = stop.ends?.every((one) => 'answered' in one) === true;
  if (never.length === 0 || (never.length < by.length && !only)) return true;
  const names = never.map((one) => (one.kind === 'event' ? one.activity : one.finding));
  const place = whole.conditions.find(({ value }) => value.kind === 'stop')?.at ?? whole.findings;
  place.error(
    'expression.expression',
    'never-answered',
    `%answered is never known of ${names.join(', ')}: no act puts it right`,
    'Say what ends it, such as %found.bloodReturn.brisk >= %began.',
  );
  return false;
}

/** An act that an order plans: it makes no item, others are counted back from it. */
function planned(given: Beginning, found: readonly ReadTrigger[]): When | undefined {
  const { whole, effect, activity, conditions } = given;
  const place = whole.placeOf('trigger');
  const wrong = (below: string, message: string, cure: string): undefined =>
    place.error(below, 'planned-act', message, cure);
  if (found.length > 1)
    return wrong(
      'trigger',
      'an order stands beside other triggers',
      'Make an action of each, with an id of its own.',
    );
  if (found[0]?.kind === 'order' && activity !== undefined && found[0].activity !== activity) {
    return wrong(
      'trigger[0].data[0].codeFilter',
      `is ${found[0].activity}, but the action is ${activity}`,
      'The order that plans an act has the act’s own code. For care before it use relatedAction with offsetDuration.',
    );
  }
  if (effect === 'forbid')
    return wrong(
      'trigger',
      'a ban can’t begin with an order',
      'Let it begin with a finding or an act, or while a condition is true.',
    );
  const timed = elementsOf(whole.action).some((key) => key.startsWith('timing'));
  if (timed || conditions.start || conditions.stop || conditions.applicability.text !== '')
    return wrong(
      'trigger',
      'an act that an order plans has neither timing nor condition',
      'Give them to the actions that are counted back from it.',
    );
  return { begins: { kind: 'planned' }, notes: [] };
}

function fromRelated({ whole, effect }: Beginning, related: readonly RelatedAction[]): When | undefined {
  const place = whole.placeOf('relatedAction');
  const before = whole.findings.errors;
  const [first] = related;
  if (first === undefined || related.length > 1) {
    return place.error(
      'relatedAction',
      'two-beginnings',
      'names several actions',
      'Make an action for each, with an id of its own.',
    );
  }
  const at = place.at('relatedAction[0]');
  checkRelated(first, at);
  if (effect === 'forbid')
    at.error(
      '',
      'ban-timing',
      'a ban can’t be counted back',
      'Let it begin with a trigger, or apply while a condition is true.',
    );
  if (whole.action['timingDuration'] !== undefined) {
    whole
      .placeOf('timingDuration')
      .error(
        'timingDuration',
        'two-beginnings',
        'stands beside relatedAction',
        'Give the time as offsetDuration.',
      );
  }
  const timesOfDay = timesBefore(whole);
  const offset =
    first['offsetDuration'] === undefined
      ? undefined
      : readDuration(first['offsetDuration'], at.at('offsetDuration'), 'Give a Duration, such as 48 h.');
  if (whole.findings.errors > before || offset === undefined) return undefined;
  const { actionId } = first;
  const link: Link = { actionId, offset, at, ...(timesOfDay === undefined ? {} : { timesOfDay }) };
  return { begins: link, notes: [] };
}

function checkRelated(related: RelatedAction, at: Findings): void {
  const { relationship } = related;
  if (relationship.startsWith('after')) {
    at.error(
      'relationship',
      'chain-by-related-action',
      'counts from an action that another reader would propose',
      chainCure,
    );
  } else if (relationship !== 'before' && relationship !== 'before-start') {
    at.error(
      'relationship',
      'bad-relationship',
      `${relationship} can’t be kept`,
      'Only before and before-start can be.',
    );
  }
  if (related['offsetRange'] !== undefined)
    at.error('offsetRange', 'unread-element', 'can’t be kept', 'Give one offsetDuration.');
  else if (related['offsetDuration'] === undefined && !relationship.startsWith('after')) {
    at.error(
      'offsetDuration',
      'missing-offset',
      'is missing',
      'Say how long before the other action this one is due.',
    );
  }
  for (const key of elementsOf(related)) {
    if (!['id', 'extension', 'actionId', 'relationship', 'offsetDuration', 'offsetRange'].includes(key))
      at.error(key, 'unread-element', 'can’t be kept', 'Use actionId, relationship and offsetDuration only.');
  }
}

/** The times of day at which care before another action is to be done. */
function timesBefore(whole: WholeAction): readonly string[] | undefined {
  if (whole.action['timingTiming'] === undefined) return undefined;
  const begins = fromTiming(whole)?.begins;
  if (begins === undefined || isLink(begins)) return undefined;
  if (begins.kind === 'fixed-times' && begins.daysOfWeek.length === 0) return begins.timesOfDay;
  return whole
    .placeOf('timingTiming')
    .error(
      'timingTiming',
      'two-beginnings',
      'can’t be kept together with relatedAction',
      'Beside an action that comes before another only timeOfDay has a meaning.',
    );
}
