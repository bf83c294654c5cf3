import { policyExtension } from '@dwellward/profiles';
import { readEffectivePeriod } from './effective.js';
import { Findings, type LintFinding } from './findings.js';
import { elementsOf, isDeeper, isObject, listOf, shown } from './json.js';
import type { RuleOrigin, Span } from './model.js';
import { readNamedExpressions } from './named-expressions.js';
import {
  readOff,
  readRule,
  statedBy,
  type DraftRule,
  type GroupOf,
  type Surroundings,
  type SwitchOff,
} from './read-action.js';
import { Definitions } from './read-activity.js';
import { alone, isOff, readGroup, shapeOf, type Placed } from './read-group.js';
import { readExtensionSpan, reportExtension } from './read-settings.js';
import { shaped } from './shape.js';
import { planShape, type Action, type Extension, type Plan } from './shapes.js';

/** One layer, read by itself. */
export interface Layer {
  readonly origin: RuleOrigin;
  /** Its place among the plans that were given. */
  readonly index: number;
  readonly actions: readonly (DraftRule | SwitchOff | GroupOf)[];
  readonly labStaleAfter?: Span;
}

// Elements that describe the plan or who stands behind it, and change nothing of what it asks for.
const descriptive = new Set([
  'resourceType',
  'id',
  'meta',
  'implicitRules',
  'language',
  'text',
  'contained',
  'extension',
  'url',
  'identifier',
  'version',
  'name',
  'title',
  'subtitle',
  'type',
  'status',
  'experimental',
  'subjectCodeableConcept',
  'subjectReference',
  'date',
  'publisher',
  'contact',
  'description',
  'useContext',
  'jurisdiction',
  'purpose',
  'usage',
  'copyright',
  'approvalDate',
  'lastReviewDate',
  'effectivePeriod',
  'topic',
  'author',
  'editor',
  'reviewer',
  'endorser',
  'relatedArtifact',
  'action',
]);

/** Actions are two levels deep, what they contain a dozen more; what is deeper could only stop the reader. */
const deepest = 100;

/**
 * Reads one PlanDefinition as a layer. Undefined where it is none at all; what is wrong goes to `list`.
 * @param index its place among the plans that were given.
 * @param atHand ActivityDefinitions outside of the plan, by url.
 * @param place its place in the stack, the same for all versions of one plan.
 */
export function readLayer(
  plan: unknown,
  index: number,
  list: LintFinding[],
  atHand: ReadonlyMap<string, unknown>,
  place = index,
): Layer | undefined {
  const findings = new Findings(list, index, 'PlanDefinition');
  if (!isObject(plan) || plan['resourceType'] !== 'PlanDefinition') {
    const found = isObject(plan) ? shown(plan['resourceType']) : shown(plan);
    return findings.error(
      '',
      'not-a-plan',
      `${found} is not a PlanDefinition`,
      'Give one PlanDefinition of HL7 FHIR R4 for each layer.',
    );
  }
  if (isDeeper(plan, deepest)) {
    return findings.error(
      '',
      'not-fhir',
      `The plan is nested more than ${deepest} levels deep`,
      'Give it as HL7 FHIR R4 defines PlanDefinition: no plan needs so many.',
    );
  }
  const parsed = shaped(planShape, plan);
  if (!parsed.success) {
    findings.issues(parsed.error, 'PlanDefinition');
    return undefined;
  }
  return readShaped(parsed.data, place, atHand, findings);
}

function readShaped(
  plan: Plan,
  place: number,
  atHand: ReadonlyMap<string, unknown>,
  findings: Findings,
): Layer {
  const origin = readOrigin(plan, place, findings);
  reportElements(plan, findings);
  reportReach(plan, findings);
  const extensions = (plan.extension ?? []).map((value, index) => ({
    value,
    at: findings.at(`extension[${index}]`),
  }));
  const labStaleAfter = readLabStaleAfter(extensions);
  const named = readNamedExpressions(extensions);
  const contained = plan.contained ?? [];
  const definitions = new Definitions(contained, atHand);
  const actions = readActions(plan, { origin, definitions, named }, findings);
  named.reportUnused();
  reportUnusedContained(plan, contained, findings);
  if ((plan.action ?? []).length === 0)
    findings.warning('action', 'no-action', 'The plan has no action', 'Add one action for each rule.');
  return {
    origin,
    index: findings.layer,
    actions,
    ...(labStaleAfter === undefined ? {} : { labStaleAfter }),
  };
}

function readOrigin(plan: Plan, place: number, findings: Findings): RuleOrigin {
  const effective = readEffectivePeriod(plan['effectivePeriod'], findings.at('effectivePeriod'));
  const { url = '' } = plan;
  if (url === '') {
    findings.error(
      'url',
      'missing-url',
      '{element} is missing',
      'Give a canonical url of your own: it names the policy on every Task.',
    );
  }
  const origin: RuleOrigin = {
    // A version belongs in its own element; behind a bar it would make two canonicals of one plan.
    url: url.split('|')[0] ?? url,
    version: plan.version ?? '',
    title: plan.title ?? plan.name ?? url,
    layer: place,
    ...(effective === undefined ? {} : { effective }),
    ...unapproved(plan),
  };
  if (url.includes('|'))
    findings.warning(
      'url',
      'url-with-version',
      '{element} has a version in it',
      'Give the version as the element version.',
    );
  if (origin.version === '') {
    findings.warning(
      'version',
      'missing-version',
      '{element} is missing',
      'Give a version: without one nobody can tell later by which policy a Task was made.',
    );
  }
  return origin;
}

function unapproved({ status, experimental }: Plan): Pick<RuleOrigin, 'unapproved'> {
  if (status === 'draft' || status === 'retired' || status === 'unknown') return { unapproved: status };
  return experimental === true ? { unapproved: 'experimental' } : {};
}

/** The state of the plan, and what of it is not used or not known. */
function reportElements(plan: Plan, findings: Findings): void {
  if (plan.status === 'retired') {
    findings.warning('status', 'retired', 'The plan is retired', 'Use the plan that replaced it.');
  } else if (!['draft', 'active', 'unknown'].includes(plan.status ?? '')) {
    findings.error('status', 'bad-status', `${shown(plan.status)} is not a status`, 'Use draft or active.');
  } else if (plan.status !== 'active' || plan.experimental === true) {
    const what = plan.status === 'active' ? 'experimental' : `of status ${plan.status ?? ''}`;
    findings.warning(
      plan.status === 'active' ? 'experimental' : 'status',
      'not-approved',
      `The plan is ${what}: the sidecar refuses it unless it is allowed by name`,
      'Make it active and not experimental once whoever may decide it has done so.',
    );
  }
  for (const key of elementsOf(plan)) {
    if (key === 'modifierExtension' || key === 'implicitRules')
      findings.error(key, 'unknown-modifier', 'The meaning of {element} is not known', 'Leave it out.');
    else if (!descriptive.has(key))
      findings.warning(
        key,
        'unused-element',
        '{element} is not used',
        'Leave it out, or say in description what it stands for.',
      );
    else if (!readElsewhere.has(key)) reportPrimitives(plan[key], findings.at(key));
  }
}

/** Reads the actions of a plan: rules, groups with their rules, and what is switched off. No two have one id. */
function readActions(
  plan: Plan,
  surroundings: Surroundings,
  findings: Findings,
): readonly (DraftRule | SwitchOff | GroupOf)[] {
  const ids = new Map<string, string>();
  const isNew = ({ value: { id }, at }: Placed<Action>): boolean => {
    if (id === undefined) return true;
    const earlier = ids.get(id);
    if (earlier === undefined) {
      ids.set(id, at.path.replace(/^PlanDefinition\./, ''));
      return true;
    }
    at.error(
      'id',
      'doubled-id',
      `${id} is also the id of ${earlier}`,
      'Give every action of a plan an id of its own.',
    );
    return false;
  };
  return (plan.action ?? []).flatMap((given, index): (DraftRule | SwitchOff | GroupOf)[] => {
    const shape = shapeOf(given, findings.at(`action[${index}]`));
    if (shape === undefined || !isNew(shape)) return [];
    if (isOff(shape.value)) return [readOff(alone(shape), surroundings)];
    if (shape.value.action === undefined) {
      const rule = readRule(alone(shape), surroundings);
      return rule === undefined ? [] : [rule];
    }
    const members = readGroup(shape).members.filter(({ action, findings: at }) =>
      isNew({ value: action, at }),
    );
    const { stated } = statedBy(alone(shape), surroundings);
    return [{ ...stated, kind: 'group' }, ...members.flatMap((one) => readRule(one, surroundings) ?? [])];
  });
}

/** Elements whose inside is looked at where they are read. */
const readElsewhere = new Set(['action', 'contained', 'extension', 'text', 'useContext']);

/** Extensions of a primitive value (`_type` beside `type`) may say that the value is another or missing. */
function reportPrimitives(value: unknown, findings: Findings): void {
  if (Array.isArray(value)) value.forEach((one, index) => reportPrimitives(one, findings.at(`[${index}]`)));
  if (!isObject(value)) return;
  for (const key of elementsOf(value)) {
    if (key.startsWith('_'))
      findings.warning(
        key,
        'unused-element',
        '{element} is not read',
        'Leave it out, or say in description what it stands for.',
      );
    else reportPrimitives(value[key], findings.at(key));
  }
}

/** Who a plan is for, and what it says it can’t do without: neither is read, so neither may go by in silence. */
function reportReach(plan: Plan, findings: Findings): void {
  const cure = 'Say it as a condition of the actions, or lay the plan only over the units that it is for.';
  if (plan['useContext'] !== undefined) {
    findings.warning(
      'useContext',
      'plan-reach',
      '{element} does not limit whom the plan is applied to',
      cure,
    );
  }
  const subject = plan['subjectCodeableConcept'];
  const codes = isObject(subject) && Array.isArray(subject['coding']) ? (subject['coding'] as unknown[]) : [];
  if (subject !== undefined && !codes.some((one) => isObject(one) && one['code'] === 'Patient')) {
    findings.warning(
      'subjectCodeableConcept',
      'plan-reach',
      '{element} is not Patient and is not used',
      cure,
    );
  }
  if (plan['subjectReference'] !== undefined)
    findings.warning('subjectReference', 'plan-reach', '{element} is not used', cure);
  const artifacts: readonly unknown[] = Array.isArray(plan['relatedArtifact']) ? plan['relatedArtifact'] : [];
  artifacts.forEach((artifact, index) => {
    const type = isObject(artifact) ? artifact['type'] : undefined;
    if (type !== undefined && (typeof type !== 'string' || !needing.has(type))) return;
    findings.warning(
      `relatedArtifact[${index}]`,
      'needed-artifact',
      `${shown(type ?? 'what has no type')} is not read`,
      'Put what is needed into the plan itself, or lay the other plan under it as a layer.',
    );
  });
}

/** Related artifacts that a plan is incomplete without; the others cite, or tell where it came from. */
const needing = new Set(['depends-on', 'composed-of']);

function readLabStaleAfter(extensions: readonly Placed<Extension>[]): Span | undefined {
  let found: Span | undefined;
  for (const { value, at } of extensions) {
    if (value.url === policyExtension.namedExpression) continue;
    if (value.url !== policyExtension.labStaleAfter) {
      reportExtension(value.url, at);
      continue;
    }
    if (found !== undefined)
      at.error('url', 'doubled-extension', `${value.url} stands here twice`, 'Keep one.');
    found = readExtensionSpan(value, at);
    if (found?.value === 0)
      at.error(
        'valueDuration.value',
        'bad-extension',
        '{element} would make every result stale',
        'Give a time above 0.',
      );
  }
  return found;
}

function reportUnusedContained(plan: Plan, contained: readonly unknown[], findings: Findings): void {
  const actions = (plan.action ?? []).filter(isObject);
  const used = new Set(
    [...actions, ...actions.flatMap((action) => listOf(action['action']).filter(isObject))].map(
      (action) => action['definitionCanonical'],
    ),
  );
  contained.forEach((resource, index) => {
    const id = isObject(resource) ? resource['id'] : undefined;
    if (typeof id !== 'string' || !used.has(`#${id}`)) {
      findings.warning(
        `contained[${index}]`,
        'unused-definition',
        '{element} is not used',
        'Point to it by definitionCanonical, or leave it out.',
      );
    }
  });
}
