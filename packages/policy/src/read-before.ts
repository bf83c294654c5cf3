import type { Beginning, Link, When } from './beginning.js';
import { chainCure } from './first-edition.js';
import type { Findings } from './findings.js';
import { elementsOf } from './json.js';
import type { WholeAction } from './read-group.js';
import { readRecurrence } from './read-recurrence.js';
import { readDuration } from './read-settings.js';
import type { RelatedAction } from './shapes.js';

/** Reads an action that is counted back from another; undefined where that can’t be kept, which is said. */
export function readBefore(
  { whole, effect }: Beginning,
  related: readonly RelatedAction[],
): When | undefined {
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
  const link: Link = { actionId, offset, path: at.path, ...(timesOfDay === undefined ? {} : { timesOfDay }) };
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
  const begins = readRecurrence(whole)?.begins;
  if (begins === undefined) return undefined;
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
