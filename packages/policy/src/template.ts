import type { PlanDefinition } from 'fhir/r4.js';
import { templateFsh, templateJson } from './generated/template.js';

/** What the starting policy is to be called. */
export interface TemplateOptions {
  readonly title?: string;
  /** Canonical url, the unit’s own and without a version. */
  readonly url?: string;
}

/**
 * A starting policy of a unit’s own: a PlanDefinition of HL7 FHIR R4 with one example of each kind of rule, to be laid
 * over the bundled base. JSON has no comments, so they stand in `usage` and in the rules’ `documentation`.
 *
 * Every rule in it is an example and no recommendation: keep what your unit decides, delete the rest. It is a draft
 * until somebody who may decide it says otherwise.
 */
export function policyTemplate({ title, url }: TemplateOptions = {}): PlanDefinition {
  const plan = JSON.parse(templateJson) as PlanDefinition;
  return { ...plan, ...(url === undefined ? {} : { url }), ...(title === undefined ? {} : { title }) };
}

/**
 * The same starting policy in FHIR Shorthand, with the words that its rules are written in: one file, which compiles
 * by itself.
 */
export function policyTemplateFsh({ title, url }: TemplateOptions = {}): string {
  const plan = policyTemplate();
  const put = (text: string, element: string, from: string | undefined, to: string | undefined): string =>
    to === undefined
      ? text
      : text.replace(`* ${element} = ${quoted(from ?? '')}`, () => `* ${element} = ${quoted(to)}`);
  return put(put(templateFsh, 'url', plan.url, url), 'title', plan.title, title);
}

/** A text of FSH. */
function quoted(text: string): string {
  return `"${text.replace(/[\\"]/g, (character) => `\\${character}`)}"`;
}
