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
  const origin: RuleOrigin = {
    // A version belongs in its own element; behind a bar it would make two canonicals of one plan.
    url: plan.url.split('|')[0] ?? plan.url,
    version: plan.version ?? '',
    title: plan.title ?? plan.name ?? plan.url,
    layer: place,
    ...(effective === undefined ? {} : { effective }),
  };
  if (plan.url.includes('|'))
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
