import {
  activityCodes,
  codeSystem,
  findingCodes,
  findingRow,
  valueSystemOf,
  valuesOf,
  type LineCareActivity,
} from '@dwellward/profiles';
import type { Findings } from './findings.js';
import { elementsOf } from './json.js';
import type { Trigger } from './model.js';
import { suggestion } from './nearest.js';
import type { DataRequirement, TriggerElement } from './shapes.js';

/** A trigger of a rule, or an order that plans an act. */
export type ReadTrigger = Trigger | { readonly kind: 'order'; readonly activity: LineCareActivity };

/** Reads one trigger of an action; undefined where it can’t be kept, which is said. */
export function readTrigger(trigger: TriggerElement, findings: Findings): ReadTrigger | undefined {
  const before = findings.errors;
  if (trigger.type !== 'data-added') {
    findings.error(
      'type',
      'trigger-type',
      `${trigger.type} can’t be kept`,
      'Only data-added, for a finding, an act or an order that was recorded, can be.',
    );
  }
  for (const key of elementsOf(trigger)) {
    if (['id', 'extension', 'type', 'name', 'data'].includes(key)) continue;
    findings.error(
      key,
      'unread-element',
      '{element} can’t be kept',
      key === 'condition'
        ? 'Give the action a condition of kind start: it is judged when the trigger occurs.'
        : 'Put what is meant on the action.',
    );
  }
  const [data, ...more] = trigger.data ?? [];
  if (data === undefined || more.length > 0) {
    return findings.error(
      'data',
      'trigger-data',
      '{element} needs exactly one data requirement',
      'Name one finding or one act by a codeFilter with path code; give several triggers for any of several.',
    );
  }
  const read = readData(data, findings.at('data[0]'));
  return findings.errors > before ? undefined : read;
}

function readData(data: DataRequirement, at: Findings): ReadTrigger | undefined {
  for (const key of elementsOf(data)) {
    if (!['id', 'extension', 'type', 'codeFilter'].includes(key))
      at.error(key, 'unread-element', '{element} can’t be kept', 'Use codeFilter only.');
  }
  const isFinding = data.type === 'Observation';
  if (!isFinding && data.type !== 'Procedure' && data.type !== 'ServiceRequest') {
    return at.error(
      'type',
      'trigger-data',
      `${data.type} can’t be kept`,
      'Findings are of type Observation, acts that were done of type Procedure, acts that are ordered of type ServiceRequest.',
    );
  }
  const system = isFinding ? codeSystem.lineFinding : codeSystem.lineCareActivity;
  const { codes, values } = readFilters(data, system, at);
  if (isFinding) return findingOf(codes, values, at);
  const activity = activityCodes.find((code) => code === codes[0]);
  if (activity === undefined || codes.length !== 1) {
    return at.error(
      'codeFilter',
      'unknown-activity',
      `${codes.join(', ') || 'nothing'} is not one line-care activity`,
      suggestion(codes[0] ?? '', activityCodes),
    );
  }
  if (values.length > 0)
    return at.error(
      'codeFilter',
      'trigger-data',
      'An act has no value',
      'Give the codeFilter with path code only.',
    );
  return { kind: data.type === 'Procedure' ? 'event' : 'order', activity };
}

/** A value that a data requirement names. One without a system is read as ours, where the finding has values of its own. */
interface Value {
  readonly code: string;
  readonly system: string | undefined;
}

/** The codes that a data requirement names, and the values. */
function readFilters(
  data: DataRequirement,
  wanted: string,
  at: Findings,
): { readonly codes: readonly string[]; readonly values: readonly Value[] } {
  const codes: string[] = [];
  const values: Value[] = [];
  (data.codeFilter ?? []).forEach((filter, index) => {
    const here = at.at(`codeFilter[${index}]`);
    for (const key of elementsOf(filter)) {
      if (!['id', 'extension', 'path', 'code'].includes(key))
        here.error(key, 'unread-element', '{element} can’t be kept', 'Name the codes one by one in code.');
    }
    const named = (filter.code ?? []).map(({ code }) => code ?? '');
    if (named.length === 0)
      here.error('code', 'trigger-data', '{element} names no code', 'Name the codes one by one in code.');
    if (filter.path === 'code') {
      if ((filter.code ?? []).some(({ system }) => system !== wanted))
        here.error(
          'code',
          'code-system',
          `{element} is not of the code system of ${data.type}`,
          `Use system ${wanted}.`,
        );
      codes.push(...named);
    } else if (filter.path === 'value')
      values.push(...(filter.code ?? []).map(({ code = '', system }) => ({ code, system })));
    else {
      here.error(
        'path',
        'trigger-data',
        `${filter.path ?? 'no path'} can’t be kept`,
        'Use path code for the finding or the act, and path value for the values of a finding.',
      );
    }
  });
  return { codes, values };
}

function findingOf(codes: readonly string[], given: readonly Value[], at: Findings): Trigger | undefined {
  const finding = findingCodes.find((code) => code === codes[0]);
  if (finding === undefined || codes.length !== 1) {
    return at.error(
      'codeFilter',
      'unknown-finding',
      `${codes.join(', ') || 'nothing'} is not one finding`,
      suggestion(codes[0] ?? '', findingCodes),
    );
  }
  const { kind } = findingRow(finding);
  const values = given.map(({ code }) => code);
  if (values.length > 0 && (kind === 'boolean' || kind === 'quantity')) {
    return at.error(
      'codeFilter',
      'unknown-value',
      `${finding} has no coded value`,
      'Leave the values out, and ask for its latest value in a condition of kind start.',
    );
  }
  const list = valuesOf(finding);
  const wanted = valueSystemOf(finding);
  for (const { code, system } of given)
    if (list !== undefined && system !== undefined && system !== wanted)
      at.error(
        'codeFilter',
        'code-system',
        `${code} is not of the code system of the values of ${finding}`,
        `Use system ${wanted}.`,
      );
  const unknown = list === undefined ? [] : values.filter((value) => !list.includes(value));
  for (const value of unknown)
    at.error(
      'codeFilter',
      'unknown-value',
      `${value} is not a value of ${finding}`,
      suggestion(value, list ?? []),
    );
  return unknown.length > 0 ? undefined : { kind: 'finding', finding, values };
}
