import {
  connectorConditions,
  dressingConditions,
  dressingTypes,
  type DressingType,
  type LineFinding,
} from '@dwellward/profiles';
import { unknownOwnCode } from './codes.js';
import type { IssueList } from './issues.js';
import type { Ref } from '../model/record.js';
import type { Shape } from './shapes.js';

/** A finding whose value is not said, or is misspelt, can bring nothing about: it must not pass unseen. */
export function reportValue(
  finding: LineFinding,
  value: Shape<'Observation'>,
  values: readonly string[],
  ref: Ref,
  issues: IssueList,
  details: object,
): void {
  const wrong =
    unknownOwnCode('dressingCondition', dressingConditions, value.valueCodeableConcept) ??
    unknownOwnCode('connectorCondition', connectorConditions, value.valueCodeableConcept);
  if (wrong) {
    issues.add(
      'unknown-code',
      ref,
      'Observation.value',
      { code: 'not-a-value-of-finding', given: wrong, finding },
      details,
    );
  } else if (
    values.length === 0 &&
    value.valueBoolean === undefined &&
    value.valueQuantity === undefined &&
    (value.component ?? []).length === 0
  ) {
    issues.add('unreadable', ref, 'Observation.value', { code: 'finding-without-value', finding }, details);
  }
}

/** A dressing whose code is misspelt: which one was put on, and so how long it may stay, is not known by it. */
export function reportDressings(
  value: Shape<'Procedure'>,
  known: DressingType | undefined,
  ref: Ref,
  issues: IssueList,
  details: object,
): void {
  for (const used of value.usedCode ?? []) {
    const wrong = unknownOwnCode('dressingType', dressingTypes, used);
    if (!wrong) continue;
    issues.add(
      'unknown-code',
      ref,
      'Procedure.usedCode',
      { code: 'not-a-dressing', given: wrong, another: known !== undefined },
      details,
    );
  }
}
