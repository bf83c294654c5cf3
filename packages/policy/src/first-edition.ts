import { codeSystem } from '@dwellward/profiles';
import { camelCase } from './facts.js';
import type { Findings } from './findings.js';
import { isObject, listOf } from './json.js';
import type { Action } from './shapes.js';

// The first edition of the language said some things with elements that mean something else in R4. Each is refused with
// the way to say it now.

/** Elements of an action that are spoken of here, and nowhere else. */
export const firstEditionElements: ReadonlySet<string> = new Set([
  'requiredBehavior',
  'output',
  'dynamicValue',
  'doNotPerform',
]);

/** How a ban is said. */
export const banCure =
  'To forbid, name an ActivityDefinition with doNotPerform true and kind ServiceRequest by definitionCanonical; the ban begins with a trigger, or applies while a condition is true.';

/** How a chain is said. */
export const chainCure =
  'Give the action a trigger of type data-added with data of type Procedure and the code of the other act, and timingDuration for how long after it.';

/** Refuses what the first edition said otherwise. */
export function reportFirstEdition(action: Action, findings: Findings): void {
  const behavior = action['requiredBehavior'];
  if (behavior !== undefined) {
    findings.error(
      'requiredBehavior',
      'required-behavior',
      'says no longer what a rule asks for',
      behavior === 'could'
        ? `In R4 could permits. ${banCure}`
        : `Leave it out: a rule asks unless its definition forbids. ${banCure}`,
    );
  }
  if (action['output'] !== undefined) {
    findings.error(
      'output',
      'output-as-end',
      'ends nothing: in R4 it is what the action makes',
      `Give the action a condition of kind stop: ${stopOf(action['output'])}.`,
    );
  }
  if (action['doNotPerform'] !== undefined)
    findings.error('doNotPerform', 'ban-elsewhere', 'is no element of an action in R4', banCure);
  listOf(action['dynamicValue']).forEach((value, index) => {
    const path = isObject(value) ? value['path'] : undefined;
    if (typeof path === 'string' && path.startsWith('input:'))
      findings.error(`dynamicValue[${index}].path`, 'input-path', ...inputPath(path));
    else
      findings.warning(
        `dynamicValue[${index}]`,
        'unused-element',
        'is not used',
        'Leave it out, or say in documentation what it stands for.',
      );
  });
  if (Array.isArray(action['dynamicValue']) && action['dynamicValue'].length === 0)
    findings.warning('dynamicValue', 'unused-element', 'is not used', 'Leave it out.');
}

/** Why `input:step` and its like are refused, and what says the same now. */
export function inputPath(path: string): readonly [message: string, cure: string] {
  const name = path.slice('input:'.length);
  const [extension, value] =
    name === 'step'
      ? ['work-step', 'valueString, or valueExpression where a calculated value is in it']
      : name === 'supply' || name === 'caution'
        ? [`work-${name}`, 'valueString']
        : ['work-computed', `valueCode ${name}`];
  return [
    `${path} is no path of a Task`,
    `Give the ActivityDefinition the extension ${extension} with ${value}.`,
  ];
}

/** The stop condition that says what an output said, as far as it can be read. */
function stopOf(output: unknown): string {
  const ends = listOf(output).flatMap((requirement) => {
    const filters = isObject(requirement) ? listOf(requirement['codeFilter']).filter(isObject) : [];
    const codes = (path: string): readonly string[] =>
      filters
        .filter((filter) => filter['path'] === path)
        .flatMap((filter) => listOf(filter['code']))
        .filter(isObject)
        .filter(({ system }) => path === 'value' || system === codeSystem.lineFinding)
        .flatMap(({ code }) => (typeof code === 'string' ? [camelCase(code)] : []));
    const [finding] = codes('code');
    if (finding === undefined) return [];
    const values = codes('value');
    return values.length === 0 ? [`%found.${finding}`] : values.map((value) => `%found.${finding}.${value}`);
  });
  const names = ends.length > 0 ? ends : ['%found.bloodReturn.brisk'];
  return `${ends.length > 0 ? '' : 'such as '}${names.map((name) => `${name} >= %began`).join(' or ')}`;
}
