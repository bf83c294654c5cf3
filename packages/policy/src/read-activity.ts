import { codeSystem } from '@dwellward/profiles';
import { Findings } from './findings.js';
import { elementsOf, isObject, shown } from './json.js';
import type { ComputedInput, Step, Work } from './model.js';
import { suggestion } from './nearest.js';
import { activityShape } from './shapes.js';
import { readStep } from './steps.js';
import { stringLiteral } from './tree.js';

const computedInputs: readonly ComputedInput[] = [
  'flush-volume',
  'lock-volume',
  'syringe-size',
  'thrombolytic-dose',
];
const inputs = [...computedInputs, 'step', 'supply', 'caution'];
const described = new Set([
  'resourceType',
  'id',
  'meta',
  'language',
  'text',
  'extension',
  'identifier',
  'url',
  'version',
  'name',
  'title',
  'subtitle',
  'status',
  'experimental',
  'subjectCodeableConcept',
  'subjectReference',
  'date',
  'publisher',
  'contact',
  'description',
  'purpose',
  'usage',
  'copyright',
  'topic',
  'relatedArtifact',
  'kind',
  'intent',
  'code',
  'dynamicValue',
]);

/** Work of an action that names no ActivityDefinition. */
export const noWork: Work = { computed: [], supplies: [], cautions: [] };

/**
 * Reads what the Task carries from the contained ActivityDefinition that `definitionCanonical` names (`#id`):
 * `dynamicValue` with path `input:flush-volume`, `input:lock-volume`, `input:syringe-size` or
 * `input:thrombolytic-dose` asks for a computed value; `input:supply` and `input:caution` give a FHIRPath string
 * literal; `input:step` gives a step, in order, which may join calculated values to its text (`steps.ts`).
 */
export function readWork(
  canonical: string | undefined,
  contained: readonly unknown[],
  activity: string | undefined,
  findings: Findings,
): Work {
  if (canonical === undefined) return noWork;
  if (!canonical.startsWith('#')) {
    findings.warning(
      'definitionCanonical',
      `${canonical} lies outside of the plan and is not used`,
      'Contain the ActivityDefinition in the plan and point to it as #id.',
    );
    return noWork;
  }
  const index = contained.findIndex(
    (resource) => isObject(resource) && resource['id'] === canonical.slice(1),
  );
  if (index < 0) {
    const ids = contained.flatMap((resource) =>
      isObject(resource) && typeof resource['id'] === 'string' ? [`#${resource['id']}`] : [],
    );
    findings.error(
      'definitionCanonical',
      `${canonical} is not contained in the plan`,
      ids.length === 0 ? 'Contain the ActivityDefinition in the plan.' : suggestion(canonical, ids),
    );
    return noWork;
  }
  // Contained resources hang from the plan, not from the action that points to them.
  const at = new Findings(
    findings.list,
    findings.layer,
    `PlanDefinition.contained[${index}]`,
    findings.ruleId,
  );
  return workOf(contained[index], activity, at);
}

function workOf(resource: unknown, activity: string | undefined, findings: Findings): Work {
  const parsed = activityShape.safeParse(resource);
  if (!parsed.success) {
    findings.issues(parsed.error, 'ActivityDefinition');
    return noWork;
  }
  const definition = parsed.data;
  for (const key of elementsOf(definition)) {
    if (key === 'modifierExtension') findings.error(key, 'its meaning is not known', 'Leave it out.');
    else if (!described.has(key))
      findings.warning(key, 'is not used', 'Say it as a supply or a caution, or leave it out.');
  }
  const own = definition.code?.coding?.find(({ system }) => system === codeSystem.lineCareActivity)?.code;
  if (definition.code !== undefined && own === undefined) {
    findings.warning(
      'code',
      'names no line-care activity and is not used',
      `Give one coding of system ${codeSystem.lineCareActivity}, or leave it out.`,
    );
  }
  const kind = definition['kind'];
  if (kind !== undefined && kind !== 'Task') {
    findings.warning('kind', `is ${shown(kind)}, but a Task is made`, 'Give Task, or leave it out.');
  }
  if (own !== undefined && activity !== undefined && own !== activity) {
    findings.warning(
      'code',
      `is ${own}, but the action is ${activity}`,
      'Use an ActivityDefinition of the action’s own activity.',
    );
  }
  const computed: ComputedInput[] = [];
  const steps: Step[] = [];
  const supplies: string[] = [];
  const cautions: string[] = [];
  (definition.dynamicValue ?? []).forEach((value, index) => {
    const at = findings.at(`dynamicValue[${index}]`);
    const name = value.path.startsWith('input:') ? value.path.slice('input:'.length) : undefined;
    if (name === undefined || !inputs.includes(name)) {
      at.warning(
        'path',
        `${value.path} is not used`,
        suggestion(
          value.path,
          inputs.map((input) => `input:${input}`),
        ),
      );
      return;
    }
    const wanted = computedInputs.find((input) => input === name);
    if (wanted !== undefined) {
      computed.push(wanted);
      return;
    }
    if (name === 'step') {
      const reading = readStep(value.expression.expression ?? '');
      if (reading.ok) steps.push(reading.step);
      else at.error('expression.expression', reading.message, reading.cure);
      return;
    }
    const text = stringLiteral(value.expression.expression ?? '');
    if (text === undefined || text.trim() === '') {
      at.error(
        'expression.expression',
        'is not a text in single quotes',
        "Write it as a FHIRPath text, such as 'sterile gloves' in quotes.",
      );
    } else (name === 'supply' ? supplies : cautions).push(text);
  });
  return { computed, ...(steps.length > 0 ? { steps } : {}), supplies, cautions };
}
