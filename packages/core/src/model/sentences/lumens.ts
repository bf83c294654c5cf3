import type { LineCareActivity, LineFinding, LumenStateCode } from '@dwellward/profiles';
import type { WhatRunsSentences } from './drugs.js';
import type { Name, Of, Plain, When } from './common.js';

/** What tells that something runs through a lumen. */
export interface RunningSentences {
  readonly 'infusion-runs': Plain;
  readonly 'infusion-was-connected': Plain;
}

/** Why a lumen is what it is. */
export interface LumenWhySentences extends RunningSentences {
  readonly 'holds-forbid-use': {
    readonly holds: readonly { readonly title: string; readonly until?: When }[];
  };
  readonly 'damage-stands': { readonly kinds: readonly string[]; readonly wholeLine: boolean };
  /** By how the last looks at it were: `blocked` is the worse of the two. */
  readonly 'not-found-open': {
    readonly grade: 'blocked' | 'sluggish';
    readonly looks: readonly LineFinding[];
  };
  readonly 'not-flushed-since': { readonly after: readonly LineCareActivity[] };
  readonly 'runs-although-held': { readonly why: Of<RunningSentences>; readonly rest: Of<WhatRunsSentences> };
  readonly 'infusion-may-still-run': Plain;
  readonly 'locked-without-flush': Plain;
  readonly 'locked-and-not-used': Plain;
  readonly 'flushed-and-not-locked': Plain;
  readonly 'use-not-on-record': Plain;
}

/** What a lumen is like, in a line of its own. */
export interface LumenSentences extends LumenWhySentences {
  readonly 'lumen-is': {
    readonly name: Name;
    readonly facts: readonly { readonly state: LumenStateCode; readonly since?: When }[];
  };
}
