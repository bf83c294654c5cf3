import type { z } from 'zod';
import { lastStep, sentence } from './sentence.js';

/** One thing that the lint says of a policy. */
export interface LintFinding {
  /** An error refuses the policy; a warning tells what is not used; information tells how something was read. */
  readonly severity: 'error' | 'warning' | 'information';
  /** The layer it is in, 0 the lowest. */
  readonly layer: number;
  /** FHIRPath of the element, for example `PlanDefinition.action[3].condition[0].expression.expression`. */
  readonly path: string;
  readonly ruleId?: string;
  /** What is wrong. */
  readonly message: string;
  /** What to do. */
  readonly cure: string;
}

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

  error(below: string, message: string, cure: string): undefined {
    return this.add('error', below, message, cure);
  }

  warning(below: string, message: string, cure: string): undefined {
    return this.add('warning', below, message, cure);
  }

  information(below: string, message: string, cure: string): undefined {
    return this.add('information', below, message, cure);
  }

  /** Every issue of a failed zod parse. */
  issues(error: z.ZodError, expected: string): void {
    for (const issue of error.issues) {
      const below = issue.path.reduce<string>(
        (path, step) => joinPath(path, typeof step === 'number' ? `[${step}]` : String(step)),
        '',
      );
      this.error(below, issue.message, `Give it as HL7 FHIR R4 defines ${expected}.`);
    }
  }

  private add(severity: LintFinding['severity'], below: string, message: string, cure: string): undefined {
    const path = joinPath(this.path, below);
    const rule = this.ruleId === undefined ? {} : { ruleId: this.ruleId };
    this.list.push({
      severity,
      layer: this.layer,
      path,
      ...rule,
      message: sentence(message, lastStep(path)),
      cure,
    });
    return undefined;
  }
}

/** `a` and `b` as one path: `a.b`, or `a[0]` where `b` is an index. */
export function joinPath(path: string, below: string): string {
  if (below === '') return path;
  return path === '' || below.startsWith('[') ? `${path}${below}` : `${path}.${below}`;
}
