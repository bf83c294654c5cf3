import type { Ref } from '../basics.js';
import type { Name, Of, Plain, When, WordSentences } from './common.js';

/** What must be so before a repair. */
export type PreconditionName =
  | 'intact-length'
  | 'kit-size'
  | 'kit-for-device'
  | 'no-clot'
  | 'stump-left'
  | 'length-afterwards'
  | 'who-may-repair';

/** Why a precondition is met, or is not. */
export interface PreconditionSentences {
  readonly 'find-out-first': { readonly what: PreconditionName };
  readonly 'maker-and-policy-say-who': Plain;
}

/** Why, in our words or in those of the calculator. */
export type PreconditionReason = Of<PreconditionSentences & Pick<WordSentences, 'calculator-text'>>;

/** What is done at once where a line is not to be repaired. */
export interface SafeStepSentences {
  readonly 'keep-it-clamped': Plain;
  readonly 'nothing-in-or-out': Plain;
  readonly 'call-the-line-team': Plain;
}

export interface RepairSentences extends PreconditionSentences, SafeStepSentences {
  readonly 'source-of-safe-steps': Plain;
  readonly 'repair-head': {
    readonly name: Name;
    readonly line: Ref;
    readonly lumen?: Name;
    readonly patient: Ref;
    readonly at: When;
  };
  readonly 'repair-verdict': { readonly verdict: 'possible' | 'not-possible' | 'not-known' | 'no-damage' };
  readonly 'damage-on-record': {
    readonly kinds: readonly string[];
    readonly at: When;
    readonly ref: Ref;
    readonly fromSkinCm?: string;
  };
  readonly precondition: {
    readonly name: PreconditionName;
    readonly met: 'yes' | 'no' | 'not-known';
    readonly reason: PreconditionReason;
  };
  readonly 'cut-at': { readonly cm: string };
  readonly 'outside-afterwards': { readonly cm: string };
  readonly 'air-to-withdraw': { readonly ml: string };
}
