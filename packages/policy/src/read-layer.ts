import { policyExtension } from '@dwellward/profiles';
import { readEffectivePeriod } from './effective.js';
import { Findings, type LintFinding } from './findings.js';
import { elementsOf, isObject, shown } from './json.js';
import type { RuleOrigin, Span } from './model.js';
import {
  readAction,
  readExtensionSpan,
  reportExtension,
  type DraftRule,
  type SwitchOff,
} from './read-action.js';
import { planShape, type Plan } from './shapes.js';

/** One layer, read by itself. */
export interface Layer {
  readonly origin: RuleOrigin;
  /** Its place among the plans that were given. */
  readonly index: number;
  readonly actions: readonly (DraftRule | SwitchOff)[];
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

/**
 * Reads one PlanDefinition as a layer. Undefined where it is none at all; what is wrong goes to `list`.
 * @param index its place among the plans that were given.
 * @param place its place in the stack, the same for all versions of one plan.
 */
export function readLayer(
  plan: unknown,
  index: number,
  list: LintFinding[],
  place = index,
): Layer | undefined {
  const findings = new Findings(list, index, 'PlanDefinition');
  if (!isObject(plan) || plan['resourceType'] !== 'PlanDefinition') {
    const found = isObject(plan) ? shown(plan['resourceType']) : shown(plan);
    return findings.error(
      '',
      `${found} is not a PlanDefinition`,
      'Give one PlanDefinition of HL7 FHIR R4 for each layer.',
    );
  }
  const parsed = planShape.safeParse(plan);
  if (!parsed.success) {
    findings.issues(parsed.error, 'PlanDefinition');
    return undefined;
  }
  return readShaped(parsed.data, place, findings);
}

function readShaped(plan: Plan, place: number, findings: Findings): Layer {
  const effective = readEffectivePeriod(plan['effectivePeriod'], findings.at('effectivePeriod'));
  const { url = '' } = plan;
  if (url === '') {
    findings.error(
      'url',
      'is missing',
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
  };
  if (url.includes('|'))
    findings.warning('url', 'has a version in it', 'Give the version as the element version.');
  if (origin.version === '') {
    findings.warning(
      'version',
      'is missing',
      'Give a version: without one nobody can tell later by which policy a Task was made.',
    );
  }
  if (plan.status === 'retired') {
    findings.warning('status', 'the plan is retired', 'Use the plan that replaced it.');
  } else if (!['draft', 'active', 'unknown'].includes(plan.status ?? '')) {
    findings.error('status', `${shown(plan.status)} is not a status`, 'Use draft or active.');
  }
  for (const key of elementsOf(plan)) {
    if (key === 'modifierExtension' || key === 'implicitRules')
      findings.error(key, 'its meaning is not known', 'Leave it out.');
    else if (!descriptive.has(key))
      findings.warning(key, 'is not used', 'Leave it out, or say in description what it stands for.');
  }
  reportReach(plan, findings);
  for (const key of elementsOf(plan)) {
    if (descriptive.has(key) && !readElsewhere.has(key)) reportPrimitives(plan[key], findings.at(key));
  }
  const labStaleAfter = readLabStaleAfter(plan, findings);
  const contained = plan.contained ?? [];
  const ids = new Map<string, number>();
  const actions = (plan.action ?? []).flatMap((action, index) => {
    const at = findings.at(`action[${index}]`);
    const id = isObject(action) && typeof action['id'] === 'string' ? action['id'] : undefined;
    const earlier = id === undefined ? undefined : ids.get(id);
    if (id !== undefined && earlier !== undefined) {
      at.at('', id).error(
        'id',
        `${id} is also the id of action[${earlier}]`,
        'Give every action of a plan an id of its own.',
      );
      return [];
    }
    if (id !== undefined) ids.set(id, index);
    const read = readAction(action, contained, origin, at);
    return read === undefined ? [] : [read];
  });
  reportUnusedContained(plan, contained, findings);
  if ((plan.action ?? []).length === 0)
    findings.warning('action', 'the plan has no action', 'Add one action for each rule.');
  return {
    origin,
    index: findings.layer,
    actions,
    ...(labStaleAfter === undefined ? {} : { labStaleAfter }),
  };
}

/** Elements whose inside is looked at where they are read. */
const readElsewhere = new Set(['action', 'contained', 'extension', 'text', 'useContext']);

/** Extensions of a primitive value (`_type` beside `type`) may say that the value is another or missing. */
function reportPrimitives(value: unknown, findings: Findings): void {
  if (Array.isArray(value)) value.forEach((one, index) => reportPrimitives(one, findings.at(`[${index}]`)));
  if (!isObject(value)) return;
  for (const key of elementsOf(value)) {
    if (key.startsWith('_'))
      findings.warning(key, 'is not read', 'Leave it out, or say in description what it stands for.');
    else reportPrimitives(value[key], findings.at(key));
  }
}

/** Who a plan is for, and what it says it can’t do without: neither is read, so neither may go by in silence. */
function reportReach(plan: Plan, findings: Findings): void {
  const cure = 'Say it as a condition of the actions, or lay the plan only over the units that it is for.';
  if (plan['useContext'] !== undefined) {
    findings.warning('useContext', 'does not limit whom the plan is applied to', cure);
  }
  const subject = plan['subjectCodeableConcept'];
  const codes = isObject(subject) && Array.isArray(subject['coding']) ? (subject['coding'] as unknown[]) : [];
  if (subject !== undefined && !codes.some((one) => isObject(one) && one['code'] === 'Patient')) {
    findings.warning('subjectCodeableConcept', 'is not Patient and is not used', cure);
  }
  if (plan['subjectReference'] !== undefined) findings.warning('subjectReference', 'is not used', cure);
  const artifacts: readonly unknown[] = Array.isArray(plan['relatedArtifact']) ? plan['relatedArtifact'] : [];
  artifacts.forEach((artifact, index) => {
    const type = isObject(artifact) ? artifact['type'] : undefined;
    if (type !== undefined && (typeof type !== 'string' || !needing.has(type))) return;
    findings.warning(
      `relatedArtifact[${index}]`,
      `${shown(type ?? 'what has no type')} is not read`,
      'Put what is needed into the plan itself, or lay the other plan under it as a layer.',
    );
  });
}

/** Related artifacts that a plan is incomplete without; the others cite, or tell where it came from. */
const needing = new Set(['depends-on', 'composed-of']);

function readLabStaleAfter(plan: Plan, findings: Findings): Span | undefined {
  let found: Span | undefined;
  (plan.extension ?? []).forEach((extension, index) => {
    const at = findings.at(`extension[${index}]`);
    if (extension.url !== policyExtension.labStaleAfter) return reportExtension(extension.url, at);
    if (found !== undefined) at.error('url', `${extension.url} stands here twice`, 'Keep one.');
    found = readExtensionSpan(extension, at);
    if (found?.value === 0)
      at.error('valueDuration.value', 'would make every result stale', 'Give a time above 0.');
  });
  return found;
}

function reportUnusedContained(plan: Plan, contained: readonly unknown[], findings: Findings): void {
  const used = new Set(
    (plan.action ?? []).map((action) => (isObject(action) ? action['definitionCanonical'] : undefined)),
  );
  contained.forEach((resource, index) => {
    const id = isObject(resource) ? resource['id'] : undefined;
    if (typeof id !== 'string' || !used.has(`#${id}`)) {
      findings.warning(
        `contained[${index}]`,
        'is not used',
        'Point to it by definitionCanonical, or leave it out.',
      );
    }
  });
}
