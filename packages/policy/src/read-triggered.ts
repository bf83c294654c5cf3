import { findingRow } from '@dwellward/profiles';
import type { Beginning, When } from './beginning.js';
import { elementsOf, isObject } from './json.js';
import type { Span, Trigger } from './model.js';
import type { WholeAction } from './read-group.js';
import { readDuration } from './read-settings.js';
import { readTrigger, type ReadTrigger } from './read-trigger.js';

/** Reads an action that triggers begin; undefined where that can’t be kept, which is said. */
export function readTriggered(given: Beginning): When | undefined {
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
        '{element} stands beside a trigger',
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
        'A ban begins at once',
        'For how long it lasts give timingTiming.repeat.boundsDuration.',
      );
  }
  const timing = action['timingTiming'];
  if (timing === undefined) {
    if (conditions === undefined || conditions.stop !== undefined) return undefined;
    return findings.error(
      '',
      'endless-ban',
      '{element} forbids, and nothing ends it',
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
  for (const key of others) at.error(key, 'ban-timing', '{element} can’t be kept of a ban', cure);
  if (!isObject(repeat) || repeat['boundsDuration'] === undefined)
    return at.error('repeat.boundsDuration', 'ban-timing', '{element} is missing', cure);
  return readDuration(
    repeat['boundsDuration'],
    at.at('repeat.boundsDuration'),
    'Give a Duration, such as 2 h.',
  );
}

/** A stop that waits for what was found to be put right can only end what something can put right. */
function answerable({ whole, conditions }: Beginning, by: readonly Trigger[]): boolean {
  const stop = conditions?.stop;
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

/**
 * An act that an order plans: it makes no item, others are counted back from it. While a condition is true it is how the
 * act is done: a policy may have one such action for each kind of line or patient.
 */
function planned(given: Beginning, found: readonly ReadTrigger[]): When | undefined {
  const { whole, effect, activity } = given;
  const place = whole.placeOf('trigger');
  const wrong = (below: string, message: string, cure: string): undefined =>
    place.error(below, 'planned-act', message, cure);
  if (found.length > 1)
    return wrong(
      'trigger',
      'An order stands beside other triggers',
      'Make an action of each, with an id of its own.',
    );
  if (found[0]?.kind === 'order' && activity !== undefined && found[0].activity !== activity) {
    return wrong(
      'trigger[0].data[0].codeFilter',
      `{element} is ${found[0].activity}, but the action is ${activity}`,
      'The order that plans an act has the act’s own code. For care before it use relatedAction with offsetDuration.',
    );
  }
  if (effect === 'forbid')
    return wrong(
      'trigger',
      'A ban can’t begin with an order',
      'Let it begin with a finding or an act, or while a condition is true.',
    );
  const timed = elementsOf(whole.action).some((key) => key.startsWith('timing'));
  const beginsOrEnds = whole.conditions.some(({ value }) => value.kind !== 'applicability');
  if (timed || beginsOrEnds)
    return wrong(
      'trigger',
      'An act that an order plans has no timing, and no condition that begins or ends it',
      'Give them to the actions that are counted back from it.',
    );
  return { begins: { kind: 'planned' }, notes: [] };
}
