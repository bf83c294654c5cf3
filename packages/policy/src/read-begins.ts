import type { Beginning, When } from './beginning.js';
import { elementsOf } from './json.js';
import { readBefore } from './read-before.js';
import type { WholeAction } from './read-group.js';
import { readRecurrence } from './read-recurrence.js';
import { readTriggered } from './read-triggered.js';

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
  if (triggers.length > 0) return readTriggered(given);
  if (startOrStopAlone(whole)) return undefined;
  if (related.length > 0) return readBefore(given, related);
  if (effect === 'forbid') return banWithoutTrigger(given, timings[0]);
  if (action['timingTiming'] !== undefined) return readRecurrence(whole);
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
  const wrong = conditions.filter(({ value: { kind } }) => kind === 'start' || kind === 'stop');
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
  if (conditions === undefined) return undefined;
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
