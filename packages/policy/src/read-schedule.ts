import { codeSystem, findingCodes, valuesOf } from '@dwellward/profiles';
import { elementsOf } from './json.js';
import type { Findings } from './findings.js';
import type { Schedule, Sign, Span } from './model.js';
import { suggestion } from './nearest.js';
import type { Action, DataRequirement, RelatedAction, Trigger } from './shapes.js';
import { readSpan } from './spans.js';
import { readTiming } from './timing.js';

/** A chain, a hold or care before another, whose other activity is found when the layers are merged. */
export interface Link {
  readonly kind: 'chain' | 'before' | 'hold';
  readonly actionId: string;
  readonly offset?: Span;
  readonly timesOfDay?: readonly string[];
  readonly from?: Sign;
  readonly until?: readonly Sign[];
  readonly path: string;
}

/** When an action asks for its activity: a schedule of its own, or a link to another action. */
export type When =
  { readonly schedule: Schedule; readonly notes: readonly string[] } | { readonly link: Link };

/** Reads when an action asks for its activity. Undefined where that can’t be kept; the findings say why. */
export function readWhen(action: Action, findings: Findings): When | undefined {
  const timings = elementsOf(action).filter((key) => key.startsWith('timing'));
  for (const key of timings) {
    if (key !== 'timingTiming') findings.error(key, 'can’t be kept', 'Give the interval as timingTiming.');
  }
  const triggers = action.trigger ?? [];
  const related = action.relatedAction ?? [];
  const ways = [timings.length > 0, triggers.length > 0, related.length > 0].filter(Boolean).length;
  const begun = triggers.length > 0 && action.requiredBehavior === 'could';
  const counted = timings.length > 0 && related.some(({ relationship }) => isBefore(relationship));
  // A hold may begin with a finding, and care before another may have its time of day.
  if (ways > 2 || (ways === 2 && !(related.length > 0 && (begun || counted)))) {
    return findings.error(
      '',
      'has more than one of timing, trigger and relatedAction',
      'Make an action of each, with an id of its own: the most protective one decides.',
    );
  }
  if (action.output !== undefined && related.length === 0 && triggers.length === 0)
    findings.warning('output', 'is not used here', 'It only has a meaning beside relatedAction or trigger.');
  const timing = action['timingTiming'];
  if (timing === undefined && timings.length > 0) return undefined;
  if (related.length > 0) return fromRelated(action, related, findings);
  if (timing !== undefined) return fromTiming(timing, findings.at('timingTiming'));
  if (triggers.length > 0) {
    return fromFinding(action, triggers, findings);
  }
  return { schedule: { kind: 'anchor' }, notes: [] };
}

/** What a finding alone begins: care at once or, with requiredBehavior could, a hold that only a finding ends. */
function fromFinding(action: Action, triggers: readonly Trigger[], findings: Findings): When | undefined {
  const before = findings.list.length;
  const from = fromTriggers(triggers, findings);
  const until = readUntil(action.output, findings);
  const hold = action.requiredBehavior === 'could';
  if (hold && action.output === undefined) {
    findings.error(
      'requiredBehavior',
      'makes a hold that nothing ends',
      'Give the finding that ends it as output, or the action that does as relatedAction.',
    );
  }
  if (from === undefined || findings.list.length > before) return undefined;
  const ends = until === undefined ? {} : { until };
  return {
    schedule: hold ? { kind: 'hold', from, ...ends } : { kind: 'at-once', ...from, ...ends },
    notes: [],
  };
}

function fromTiming(timing: unknown, findings: Findings): When | undefined {
  const reading = readTiming(timing);
  if (!reading.ok) {
    for (const { path, message } of reading.problems) {
      findings.error(
        path,
        message,
        'Give an interval as frequency, period and periodUnit, or timeOfDay with dayOfWeek.',
      );
    }
    return undefined;
  }
  for (const note of reading.notes) {
    findings.information('', note, 'Give one exact value where another reading is wanted.');
  }
  return { schedule: reading.schedule, notes: reading.notes };
}

function fromTriggers(triggers: readonly Trigger[], findings: Findings): Sign | undefined {
  const read = triggers.map((trigger, index) => fromTrigger(trigger, findings.at(`trigger[${index}]`)));
  const found = read.filter((one) => one !== undefined);
  const [first] = found;
  if (first === undefined || found.length < triggers.length) return undefined;
  if (found.some(({ finding }) => finding !== first.finding)) {
    return findings.error(
      'trigger',
      'names several findings',
      'Make an action of each finding, with an id of its own.',
    );
  }
  // A trigger without values is met by any: it takes in what the others name.
  const values = found.some((one) => one.values.length === 0)
    ? []
    : [...new Set(found.flatMap((one) => one.values))];
  return { finding: first.finding, values };
}

function fromTrigger(trigger: Trigger, findings: Findings): Sign | undefined {
  const before = findings.list.length;
  if (trigger.type !== 'data-added') {
    findings.error(
      'type',
      `${trigger.type} can’t be kept`,
      'Only data-added, for a finding that was recorded, can be.',
    );
  }
  const others = elementsOf(trigger).filter(
    (key) => !['id', 'extension', 'type', 'name', 'data'].includes(key),
  );
  for (const key of others) findings.error(key, 'can’t be kept', 'Put the condition on the action.');
  const [data, ...more] = trigger.data ?? [];
  if (data === undefined || more.length > 0) {
    return findings.error(
      'data',
      'needs exactly one data requirement',
      'Name one finding by a codeFilter with path code.',
    );
  }
  const named = readFinding(data, findings.at('data[0]'));
  return findings.list.length > before ? undefined : named;
}

/** The finding that a data requirement names by its code, with the values it names; the findings say what is wrong. */
function readFinding(data: DataRequirement, at: Findings): Sign | undefined {
  const before = at.list.length;
  if (data.type !== 'Observation')
    at.error('type', `${data.type} can’t be kept`, 'Findings are of type Observation.');
  for (const key of elementsOf(data)) {
    if (!['id', 'extension', 'type', 'codeFilter'].includes(key))
      at.error(key, 'can’t be kept', 'Use codeFilter only.');
  }
  let codes: readonly string[] = [];
  let values: readonly string[] = [];
  (data.codeFilter ?? []).forEach((filter, index) => {
    const here = at.at(`codeFilter[${index}]`);
    for (const key of elementsOf(filter)) {
      if (!['id', 'extension', 'path', 'code'].includes(key))
        here.error(key, 'can’t be kept', 'Name the codes one by one in code.');
    }
    const named = (filter.code ?? []).map(({ code }) => code ?? '');
    if (named.length === 0) here.error('code', 'names no code', 'Name the codes one by one in code.');
    if (filter.path === 'code') {
      if ((filter.code ?? []).some(({ system }) => system !== codeSystem.lineFinding)) {
        here.error('code', 'is not of the code system of findings', `Use system ${codeSystem.lineFinding}.`);
      }
      codes = [...codes, ...named];
    } else if (filter.path === 'value') values = [...values, ...named];
    else
      here.error(
        'path',
        `${filter.path ?? 'no path'} can’t be kept`,
        'Use path code for the finding and path value for its values.',
      );
  });
  const finding = findingCodes.find((code) => code === codes[0]);
  if (finding === undefined || codes.length !== 1) {
    at.error(
      'codeFilter',
      `${codes.join(', ') || 'nothing'} is not one finding`,
      suggestion(codes[0] ?? '', findingCodes),
    );
  } else {
    for (const value of values) {
      const list = valuesOf(finding);
      if (list !== undefined && !list.includes(value)) {
        at.error('codeFilter', `${value} is not a value of ${finding}`, suggestion(value, list));
      }
    }
  }
  return finding === undefined || at.list.length > before ? undefined : { finding, values };
}

const befores = ['before', 'before-start', 'before-end'];
const afters = ['after', 'after-end'];

function isBefore(relationship: string): boolean {
  return befores.includes(relationship);
}

function fromRelated(
  action: Action,
  related: readonly RelatedAction[],
  findings: Findings,
): When | undefined {
  const before = findings.list.length;
  const behavior = action.requiredBehavior;
  const until = readUntil(action.output, findings);
  const [first] = related;
  if (first === undefined || related.length > 1) {
    return findings.error(
      'relatedAction',
      'names several actions',
      'Make an action for each, with an id of its own.',
    );
  }
  const at = findings.at('relatedAction[0]');
  if (!isBefore(first.relationship) && !afters.includes(first.relationship)) {
    at.error(
      'relationship',
      `${first.relationship} can’t be kept`,
      `Only ${[...befores, ...afters].join(', ')} can be.`,
    );
  }
  if (first['offsetRange'] !== undefined)
    at.error('offsetRange', 'can’t be kept', 'Give one offsetDuration.');
  for (const key of elementsOf(first)) {
    if (!['id', 'extension', 'actionId', 'relationship', 'offsetDuration', 'offsetRange'].includes(key)) {
      at.error(key, 'can’t be kept', 'Use actionId, relationship and offsetDuration only.');
    }
  }
  if (behavior === 'must-unless-documented') {
    findings.error(
      'requiredBehavior',
      `${behavior} can’t be kept`,
      'Use must for care that follows, could for a hold.',
    );
  }
  const kind = isBefore(first.relationship) ? 'before' : behavior === 'could' ? 'hold' : 'chain';
  if (kind === 'before' && behavior === 'could') {
    findings.error(
      'requiredBehavior',
      'a hold before another action can’t be kept',
      'Let the hold count from an action after which it is: relationship after.',
    );
  }
  if (kind === 'before' && until !== undefined) {
    findings.error('output', 'can’t end care before another action', 'Give it to a chain or a hold.');
  }
  const from = action.trigger === undefined ? undefined : fromTriggers(action.trigger, findings);
  const timesOfDay = timesBefore(action['timingTiming'], findings.at('timingTiming'));
  let offset: Span | undefined;
  if (first['offsetDuration'] !== undefined) {
    const reading = readSpan(first['offsetDuration']);
    if (reading.ok) offset = reading.span;
    else at.at('offsetDuration').error(reading.path, reading.message, 'Give a Duration, such as 48 h.');
  } else if (kind !== 'hold') {
    at.error(
      'offsetDuration',
      'is missing',
      `Say how long ${kind === 'chain' ? 'after' : 'before'} the other action this one is due.`,
    );
  }
  if (from !== undefined && offset !== undefined) {
    at.error(
      'offsetDuration',
      'can’t be kept with a trigger',
      'A hold that begins with a finding lasts until the other action is done after it.',
    );
  }
  if (findings.list.length > before) return undefined;
  const link: Link = {
    kind,
    actionId: first.actionId,
    path: at.path,
    ...(offset === undefined ? {} : { offset }),
    ...(timesOfDay === undefined ? {} : { timesOfDay }),
    ...(from === undefined ? {} : { from }),
    ...(until === undefined ? {} : { until }),
  };
  return { link };
}

/** The times of day at which care before another action is to be done. */
function timesBefore(timing: unknown, findings: Findings): readonly string[] | undefined {
  if (timing === undefined) return undefined;
  const when = fromTiming(timing, findings);
  if (when === undefined || !('schedule' in when)) return undefined;
  const { schedule } = when;
  if (schedule.kind === 'fixed-times' && schedule.daysOfWeek.length === 0) return schedule.timesOfDay;
  return findings.error(
    '',
    'can’t be kept together with relatedAction',
    'Beside an action that comes before another only timeOfDay has a meaning.',
  );
}

/** The findings of which any one ends it before its time: the action’s output, once one is on record. */
function readUntil(
  output: readonly DataRequirement[] | undefined,
  findings: Findings,
): readonly Sign[] | undefined {
  const signs = (output ?? []).map((one, index) => readFinding(one, findings.at(`output[${index}]`)));
  return signs.length === 0 ? undefined : signs.filter((one) => one !== undefined);
}
