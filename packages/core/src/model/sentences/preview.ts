import type { DueState, LineCareActivity } from '@dwellward/profiles';
import type { FactName } from '@dwellward/policy';
import type { Ref } from '../basics.js';
import type { LayerName } from './remarks.js';
import type { Name, Plain, Scheduled, When } from './common.js';

/** What becomes of an item: see `preview/`. */
export type PreviewedAs =
  'earlier' | 'later' | 'opens' | 'appears' | 'vanishes' | 'held' | 'released' | 'reason';

/** When an item is due by one of the two policies; absent where it does not ask for it. */
export interface PreviewedWindow {
  readonly dueBy: When;
  readonly state?: DueState;
}

/** What would change for whom with another policy. */
export interface PreviewSentences {
  readonly 'preview-head': {
    readonly plan: string;
    readonly items: number;
    readonly patients: number;
    readonly byNotKnown: number;
  };
  readonly 'preview-hold': {
    readonly kind: 'appears' | 'vanishes';
    readonly activity: LineCareActivity;
    readonly target: Name;
    readonly until?: When;
    readonly title: string;
  };
  readonly 'preview-item': {
    readonly activity: LineCareActivity;
    readonly target: Name;
    readonly line: Ref;
    readonly kind: PreviewedAs;
    /** How much later it is due, negative where earlier; 0 where it is not. */
    readonly shiftMs: number;
  };
  readonly 'preview-window': { readonly before?: PreviewedWindow; readonly after?: PreviewedWindow };
  readonly 'preview-rule': {
    readonly asks: boolean;
    readonly title: string;
    readonly schedule: Scheduled;
    readonly id: string;
    readonly layer: LayerName;
  };
  readonly 'preview-because': {
    readonly how: 'replaced' | 'switched-off';
    readonly by: LayerName;
    readonly notes: readonly string[];
  };
  readonly 'preview-not-known': { readonly facts: readonly FactName[] };
  readonly 'preview-rest': { readonly items: number; readonly patients: number };
  readonly 'nothing-was-written': Plain;
}
