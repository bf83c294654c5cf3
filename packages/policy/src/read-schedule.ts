import {
  codeSystem,
  connectorConditions,
  dressingConditions,
  lineFindings,
  type LineFinding,
} from '@dwellward/profiles';
import { elementsOf } from './json.js';
import type { Findings } from './findings.js';
import type { Schedule, Span, Until } from './model.js';
import { suggestion } from './nearest.js';
import type { Action, DataRequirement, RelatedAction, Trigger } from './shapes.js';
import { readSpan } from './spans.js';
import { readTiming } from './timing.js';

/** A chain or a hold whose activity is that of another action, found when the layers are merged. */
export interface Link {
  readonly kind: 'chain' | 'hold';
  readonly actionId: string;
  readonly offset?: Span;
  readonly until?: Until;
  readonly path: string;
}

/** When an action asks for its activity: a schedule of its own, or a link to another action. */
export type When =
  { readonly schedule: Schedule; readonly notes: readonly string[] } | { readonly link: Link };

const known = (concepts: readonly (readonly [string, ...unknown[]])[]): readonly string[] =>
  concepts.map(([code]) => code);

const findingCodes = known(lineFindings) as readonly LineFinding[];

// The values of findings that have a closed list; of the others any value is taken.
const valuesOf: Readonly<Partial<Record<LineFinding, readonly string[]>>> = {
  'dressing-condition': known(dressingConditions),
  'connector-condition': known(connectorConditions),
  'exit-site': ['redness', 'swelling', 'tenderness', 'drainage'],
  'blood-return': ['brisk', 'sluggish', 'none'],
  'flush-resistance': ['none', 'some', 'blocked'],
  damage: ['leak', 'cut', 'puncture'],
};

/** Reads when an action asks for its activity. Undefined where that can’t be kept; the findings say why. */
export function readWhen(action: Action, findings: Findings): When | undefined {
  const timings = elementsOf(action).filter((key) => key.startsWith('timing'));
  for (const key of timings) {
    if (key !== 'timingTiming') findings.error(key, 'can’t be kept', 'Give the interval as timingTiming.');
  }
  const triggers = action.trigger ?? [];
  const related = action.relatedAction ?? [];
  const ways = [timings.length > 0, triggers.length > 0, related.length > 0].filter(Boolean).length;
  if (ways > 1) {
    return findings.error(
      '',
      'has more than one of timing, trigger and relatedAction',
      'Make an action of each, with an id of its own: the most protective one decides.',
    );
  }
  if (action.output !== undefined && related.length === 0)
    findings.warning('output', 'is not used here', 'It only has a meaning beside relatedAction.');
  if (action['timingTiming'] !== undefined)
    return fromTiming(action['timingTiming'], findings.at('timingTiming'));
  if (timings.length > 0) return undefined;
  if (triggers.length > 0) return fromTriggers(triggers, findings);
  if (related.length > 0)
    return fromRelated(related, action.requiredBehavior, readUntil(action.output, findings), findings);
  return { schedule: { kind: 'anchor' }, notes: [] };
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

function fromTriggers(triggers: readonly Trigger[], findings: Findings): When | undefined {
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
  return { schedule: { kind: 'at-once', finding: first.finding, values }, notes: [] };
}

function fromTrigger(
  trigger: Trigger,
  findings: Findings,
): { finding: LineFinding; values: readonly string[] } | undefined {
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
function readFinding(data: DataRequirement, at: Findings): Until | undefined {
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
      const list = valuesOf[finding];
      if (list !== undefined && !list.includes(value)) {
        at.error('codeFilter', `${value} is not a value of ${finding}`, suggestion(value, list));
      }
    }
  }
  return finding === undefined || at.list.length > before ? undefined : { finding, values };
}

function fromRelated(
  related: readonly RelatedAction[],
  behavior: string | undefined,
  until: Until | undefined,
  findings: Findings,
): When | undefined {
  const before = findings.list.length;
  const [first] = related;
  if (first === undefined || related.length > 1) {
    return findings.error(
      'relatedAction',
      'names several actions',
      'Make an action for each, with an id of its own.',
    );
  }
  const at = findings.at('relatedAction[0]');
  if (first.relationship !== 'after' && first.relationship !== 'after-end') {
    at.error('relationship', `${first.relationship} can’t be kept`, 'Only after and after-end can be.');
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
  const kind = behavior === 'could' ? 'hold' : 'chain';
  let offset: Span | undefined;
  if (first['offsetDuration'] !== undefined) {
    const reading = readSpan(first['offsetDuration']);
    if (reading.ok) offset = reading.span;
    else at.at('offsetDuration').error(reading.path, reading.message, 'Give a Duration, such as 48 h.');
  } else if (kind === 'chain') {
    at.error('offsetDuration', 'is missing', 'Say how long after the other action this one is due.');
  }
  if (findings.list.length > before) return undefined;
  const link = { kind, actionId: first.actionId, path: at.path, ...(until ? { until } : {}) } as const;
  return { link: offset === undefined ? link : { ...link, offset } };
}

/** The finding that ends a chain or a hold before its time: the action’s output, once it is on record. */
function readUntil(output: readonly DataRequirement[] | undefined, findings: Findings): Until | undefined {
  const [first, ...more] = output ?? [];
  if (first === undefined) return undefined;
  if (more.length > 0)
    return findings.error('output', 'names several findings', 'Name the one finding that ends it.');
  return readFinding(first, findings.at('output[0]'));
}
