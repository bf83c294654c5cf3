import { codeSystem, type LineCareActivity } from '@dwellward/profiles';
import { bundledActivities } from './bundled.js';
import { inputPath } from './first-edition.js';
import { Findings, type LintFinding } from './findings.js';
import { elementsOf, isObject, listOf, shown } from './json.js';
import type { Effect, Work } from './model.js';
import { suggestion } from './nearest.js';
import { hasWork, noWork, readWork } from './read-work.js';
import { shaped } from './shape.js';
import { activityShape, type Activity } from './shapes.js';

/** What an action’s ActivityDefinition says: whether it asks or forbids, and what the Task carries. */
export interface Definition {
  readonly effect: Effect;
  readonly work: Work;
}

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
  'useContext',
  'jurisdiction',
  'purpose',
  'usage',
  'copyright',
  'approvalDate',
  'lastReviewDate',
  'topic',
  'author',
  'editor',
  'reviewer',
  'endorser',
  'relatedArtifact',
  'kind',
  'intent',
  'doNotPerform',
  'code',
  'dynamicValue',
]);

/** A definition as it was read once, with what is to be said wherever it is used. */
interface Read {
  readonly definition: Definition;
  readonly code?: string;
  readonly said: readonly LintFinding[];
}

/** The ActivityDefinitions that the actions of a plan may name: those in the plan, those given beside it, the bundled. */
export class Definitions {
  private readonly read = new Map<unknown, Read | undefined>();

  constructor(
    private readonly contained: readonly unknown[],
    /** By url, without version. */
    private readonly others: ReadonlyMap<string, unknown>,
  ) {}

  /**
   * The definition that `definitionCanonical` names; undefined where there is none or it is wrong, which is said.
   * @param activity what the action does, where that could be read.
   */
  of(
    canonical: string | undefined,
    activity: LineCareActivity | undefined,
    findings: Findings,
  ): Definition | undefined {
    if (canonical === undefined) return { effect: 'ask', work: noWork };
    const place = this.find(canonical, findings);
    if (place === undefined) return undefined;
    const at = new Findings(findings.list, findings.layer, place.path, findings.ruleId);
    let read = this.read.get(place.resource);
    if (read === undefined) {
      read = readDefinition(place.resource);
      this.read.set(place.resource, read);
    }
    const before = findings.errors;
    for (const { severity, path, code, message, cure } of read.said) at[severity](path, code, message, cure);
    checkCode(read, activity, at);
    return findings.errors > before ? undefined : read.definition;
  }

  private find(
    canonical: string,
    findings: Findings,
  ): { readonly path: string; readonly resource: unknown } | undefined {
    if (canonical.startsWith('#')) {
      const id = canonical.slice(1);
      const index = this.contained.findIndex((resource) => isObject(resource) && resource['id'] === id);
      // Contained resources hang from the plan, not from the action that points to them.
      if (index >= 0) return { path: `PlanDefinition.contained[${index}]`, resource: this.contained[index] };
      const ids = this.contained.flatMap((resource) =>
        isObject(resource) && typeof resource['id'] === 'string' ? [`#${resource['id']}`] : [],
      );
      return findings.error(
        'definitionCanonical',
        'unknown-definition',
        `${canonical} is not contained in the plan`,
        ids.length === 0 ? 'Contain the ActivityDefinition in the plan.' : suggestion(canonical, ids),
      );
    }
    const [url = '', version] = canonical.split('|');
    const resource = this.others.get(url);
    if (resource === undefined) {
      return findings.error(
        'definitionCanonical',
        'unknown-definition',
        `${url} is not at hand`,
        `Give the ActivityDefinition beside the layers, contain it in the plan, or name a bundled one. ${suggestion(url, [...this.others.keys()])}`,
      );
    }
    const own = isObject(resource) ? resource['version'] : undefined;
    if (version !== undefined && version !== own) {
      return findings.error(
        'definitionCanonical',
        'unknown-definition',
        `Version ${version} of ${url} is not at hand; what is, is ${typeof own === 'string' ? `version ${own}` : 'without a version'}`,
        'Give that version beside the layers, or leave the version out.',
      );
    }
    return { path: `ActivityDefinition.where(url = '${url}')`, resource };
  }
}

/**
 * The definitions at hand outside of a plan, by url: those given, then the bundled. What is no ActivityDefinition with a
 * url of its own is refused.
 */
export function definitionsAtHand(
  given: readonly unknown[],
  list: LintFinding[],
): ReadonlyMap<string, unknown> {
  const found = new Map<string, unknown>(bundledActivities.map((one) => [one.url ?? '', one]));
  for (const resource of given) {
    const url = isObject(resource) && typeof resource['url'] === 'string' ? resource['url'] : undefined;
    const at = new Findings(
      list,
      0,
      url === undefined ? 'ActivityDefinition' : `ActivityDefinition.where(url = '${url}')`,
    );
    if (!isObject(resource) || resource['resourceType'] !== 'ActivityDefinition') {
      const type = isObject(resource) ? shown(resource['resourceType']) : shown(resource);
      at.error(
        '',
        'not-an-activity',
        `${type} is not an ActivityDefinition`,
        'Give ActivityDefinitions of HL7 FHIR R4.',
      );
    } else if (url === undefined || url === '')
      at.error(
        'url',
        'missing-url',
        '{element} is missing',
        'Give it a canonical url of your own: actions name it by that.',
      );
    else if (found.has(url))
      at.error(
        'url',
        'same-url',
        `${url} is also the url of another`,
        'Give it a url of its own, and let the actions name that.',
      );
    else found.set(url, resource);
  }
  return found;
}

/** Says of a definition that is not to be used any more, or whose status is none. */
function reportStatus(resource: unknown, findings: Findings): void {
  const status = isObject(resource) ? resource['status'] : undefined;
  if (status === 'retired')
    findings.warning('status', 'retired', 'The definition is retired', 'Use the one that replaced it.');
  else if (status !== undefined && status !== 'draft' && status !== 'active' && status !== 'unknown')
    findings.warning('status', 'bad-status', `${shown(status)} is not a status`, 'Use draft or active.');
}

function readDefinition(resource: unknown): Read {
  const said: LintFinding[] = [];
  const findings = new Findings(said, 0, '');
  const nothing: Definition = { effect: 'ask', work: noWork };
  const parsed = shaped(activityShape, resource);
  if (!parsed.success) {
    findings.issues(parsed.error, 'ActivityDefinition');
    return { definition: nothing, said };
  }
  const activity = parsed.data;
  for (const key of elementsOf(activity)) {
    if (key === 'modifierExtension')
      findings.error(key, 'unknown-modifier', 'The meaning of {element} is not known', 'Leave it out.');
    else if (!described.has(key))
      findings.warning(
        key,
        'unused-element',
        '{element} is not used',
        'Say it as a supply or a caution, or leave it out.',
      );
  }
  reportStatus(resource, findings);
  const effect = readEffect(activity, findings);
  reportDynamicValues(activity, findings);
  const work = readWork(activity.extension ?? [], findings);
  if (effect === 'forbid' && hasWork(activity.extension ?? [])) {
    findings.error(
      'extension',
      'ban-with-work',
      'A ban makes no Task that could carry work',
      'Leave steps, supplies, cautions and volumes out.',
    );
  }
  const code = activity.code?.coding?.find(({ system }) => system === codeSystem.lineCareActivity)?.code;
  return { definition: { effect, work }, ...(code === undefined ? {} : { code }), said };
}

function readEffect({ kind, intent, doNotPerform }: Activity, findings: Findings): Effect {
  if (doNotPerform === true) {
    if (kind !== 'ServiceRequest') {
      findings.error(
        'kind',
        'ban-kind',
        `is ${shown(kind ?? 'missing')}, and the definition forbids`,
        'Give ServiceRequest: a Task of R4 can’t say that something must not be done.',
      );
    }
    return 'forbid';
  }
  if (kind !== 'Task') {
    findings.warning(
      'kind',
      'not-a-task',
      kind === undefined
        ? '{element} is missing, and a Task is made'
        : `{element} is ${shown(kind)}, but a Task is made`,
      'Give Task.',
    );
  }
  if (intent !== undefined && intent !== 'plan') {
    findings.warning(
      'intent',
      'not-a-plan-intent',
      `{element} is ${shown(intent)}, but the Task is a plan`,
      'Give plan.',
    );
  }
  return 'ask';
}

/** The code of a definition has to be what the action does: another reader goes by the definition. */
function checkCode({ definition, code }: Read, activity: LineCareActivity | undefined, at: Findings): void {
  const cure = `Give one coding of system ${codeSystem.lineCareActivity}: the action’s own activity.`;
  if (code === undefined) {
    if (definition.effect === 'forbid')
      at.error('code', 'definition-code', '{element} names no line-care activity', cure);
    else at.warning('code', 'definition-code', '{element} names no line-care activity', cure);
  } else if (activity !== undefined && code !== activity) {
    at.error(
      'code',
      'definition-code',
      `{element} is ${code}, but the action is ${activity}`,
      'Use an ActivityDefinition of the action’s own activity.',
    );
  }
}

function reportDynamicValues(activity: Activity, findings: Findings): void {
  listOf(activity['dynamicValue']).forEach((value, index) => {
    const at = findings.at(`dynamicValue[${index}]`);
    const path = isObject(value) ? value['path'] : undefined;
    if (typeof path === 'string' && path.startsWith('input:'))
      at.error('path', 'input-path', ...inputPath(path));
    else
      at.warning(
        '',
        'unused-element',
        '{element} is not used',
        'Say it as a step, a supply or a caution, or leave it out.',
      );
  });
}
