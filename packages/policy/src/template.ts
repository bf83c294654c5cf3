import type { PlanDefinition } from 'fhir/r4.js';
import { examplesFsh, examplesJson, templateFsh, templateJson } from './generated/template.js';

/** What the starting policy is to be called. */
export interface TemplateOptions {
  readonly title?: string;
  /** Canonical url, the unit’s own and without a version. */
  readonly url?: string;
}

/**
 * A starting policy of a unit’s own: a PlanDefinition of HL7 FHIR R4 to be laid over the bundled base. It has no rule
 * yet, so it changes nothing, and is a draft until somebody who may decide it says otherwise.
 * @example
 * ```ts
 * policyTemplate().resourceType; // 'PlanDefinition'
 * ```
 */
export function policyTemplate(options: TemplateOptions = {}): PlanDefinition {
  return named(templateJson, options);
}

/**
 * The same starting policy in FHIR Shorthand, with the words that rules are written in: one file, which compiles by itself.
 * @example
 * ```ts
 * policyTemplateFsh().includes('Instance:'); // true
 * ```
 */
export function policyTemplateFsh(options: TemplateOptions = {}): string {
  return namedFsh(templateFsh, policyTemplate(), options);
}

/**
 * A PlanDefinition with an example of each kind of rule, to copy from. As it stands it is refused: its sources and reasons
 * are still to be written, so nobody runs by an example. No rule in it is a recommendation.
 * @example
 * ```ts
 * policyExamples().action.length > 0; // true
 * ```
 */
export function policyExamples(options: TemplateOptions = {}): PlanDefinition {
  return named(examplesJson, options);
}

/**
 * The same examples in FHIR Shorthand, one file that compiles by itself.
 * @example
 * ```ts
 * policyExamplesFsh().includes('Instance:'); // true
 * ```
 */
export function policyExamplesFsh(options: TemplateOptions = {}): string {
  return namedFsh(examplesFsh, policyExamples(), options);
}

function named(json: string, { title, url }: TemplateOptions): PlanDefinition {
  const plan = JSON.parse(json) as PlanDefinition;
  return { ...plan, ...(url === undefined ? {} : { url }), ...(title === undefined ? {} : { title }) };
}

function namedFsh(fsh: string, plan: PlanDefinition, { title, url }: TemplateOptions): string {
  const put = (text: string, element: string, from: string | undefined, to: string | undefined): string =>
    to === undefined
      ? text
      : text.replace(`* ${element} = ${quoted(from ?? '')}`, () => `* ${element} = ${quoted(to)}`);
  return put(put(fsh, 'url', plan.url, url), 'title', plan.title, title);
}

/** A text of FSH. */
function quoted(text: string): string {
  return `"${text.replace(/[\\"]/g, (character) => `\\${character}`)}"`;
}
