import type { z } from 'zod';
import type { LintCode } from './lint-codes.js';
import type { LoosenedRule } from './model.js';
import { lastStep, sentence } from './sentence.js';

/** One thing that the lint says of a policy. */
export interface LintFinding {
  /** An error refuses the policy; a warning tells what is not used; information tells how something was read. */
  readonly severity: 'error' | 'warning' | 'information';
  /** What it is about, for programs: the same from version to version. */
  readonly code: LintCode;
  /** The layer it is in, 0 the lowest. */
  readonly layer: number;
  /** FHIRPath of the element, for example `PlanDefinition.action[3].condition[0].expression.expression`. */
  readonly path: string;
  readonly ruleId?: string;
  /** What is wrong. */
  readonly message: string;
  /** What to do. */
  readonly cure: string;
  /** Of a rule that is loosened: both sides as data, to be said with their conditions in words, in place of `message`. */
  readonly loosened?: Pick<LoosenedRule, 'published' | 'now' | 'sources' | 'reasons'>;
}

/** What a finding has beside its words. */
type More = Pick<LintFinding, 'loosened'>;

/** Collects the findings of one place in one layer. */
export class Findings {
  constructor(
    readonly list: LintFinding[],
    readonly layer: number,
    readonly path: string,
    readonly ruleId?: string,
  ) {}

  /** The same list, for an element below. */
  at(below: string, ruleId = this.ruleId): Findings {
    return new Findings(this.list, this.layer, joinPath(this.path, below), ruleId);
  }

  error(below: string, code: LintCode, message: string, cure: string, more?: More): undefined {
    return this.add('error', below, code, message, cure, more);
  }

  warning(below: string, code: LintCode, message: string, cure: string, more?: More): undefined {
    return this.add('warning', below, code, message, cure, more);
  }

  information(below: string, code: LintCode, message: string, cure: string): undefined {
    return this.add('information', below, code, message, cure);
  }

  /** How many errors there are so far, of all layers. */
  get errors(): number {
    return this.list.filter(({ severity }) => severity === 'error').length;
  }

  /** Every issue of a failed zod parse. */
  issues(error: z.ZodError, expected: string): void {
    for (const issue of error.issues) {
      const below = issue.path.reduce<string>(
        (path, step) => joinPath(path, typeof step === 'number' ? `[${step}]` : String(step)),
        '',
      );
      this.error(below, 'not-fhir', issue.message, `Give it as HL7 FHIR R4 defines ${expected}.`);
    }
  }

  private add(
    severity: LintFinding['severity'],
    below: string,
    code: LintCode,
    message: string,
    cure: string,
    more: More = {},
  ): undefined {
    const path = joinPath(this.path, below);
    const rule = this.ruleId === undefined ? {} : { ruleId: this.ruleId };
    this.list.push({
      severity,
      code,
      layer: this.layer,
      path,
      ...rule,
      message: sentence(message, lastStep(path)),
      cure,
      ...more,
    });
    return undefined;
  }
}

/** `a` and `b` as one path: `a.b`, or `a[0]` where `b` is an index. */
export function joinPath(path: string, below: string): string {
  if (below === '') return path;
  return path === '' || below.startsWith('[') ? `${path}${below}` : `${path}.${below}`;
}
