import type { SubstanceCode } from './substances.js';

/** What of a line something is done to, or seen on. */
export type Scope = 'line' | 'lumen' | 'exit-site' | 'incision';

/** What the engine must know of an activity. A column that is absent says no. */
export interface ActivityRow {
  readonly display: string;
  readonly definition: string;
  /** What it is due on where neither a rule nor an order says: what some one lumen gets, whichever, is due on the line. */
  readonly scope: Scope;
  /** The line is in place from it on, or until it. */
  readonly role?: 'begins-line' | 'ends-line';
  /** Something goes into the lumen or comes out of it. */
  readonly throughLumen?: true;
  /** What the lumen is afterwards; `as-it-was` where what was connected stays so, and what was not does not. */
  readonly leavesLumen?: 'infusing' | 'locked' | 'open' | 'as-it-was';
  /** In this order they follow each other where all are charted at one time on one lumen. */
  readonly turn?: number;
  /** Done to one lumen: of a line with several, one that does not say which counts for none, and that is said. */
  readonly namesLumen?: true;
  /** The lumen is to be flushed after it. */
  readonly flushAfter?: true;
  /**
   * It counts however it came out, because the lumen is changed all the same: the drug is in it, blood went through it,
   * something was connected. To pass it over would lift what follows from it.
   */
  readonly countsUnsuccessful?: true;
  /** From then on the line counts as used. */
  readonly putsToUse?: true;
  /** It puts the needle of a port in, or takes it out. */
  readonly needle?: 'in' | 'out';
  /** That an infusion starts or ends tells that it was done, also where nobody charted it. */
  readonly impliedBy?: 'start-of-infusion' | 'end-of-infusion' | 'what-hangs';
  /** It finds out how things are at that moment and leaves them unchanged. */
  readonly look?: true;
  /** It is done for the patient as a whole: once for all lines that are in. */
  readonly ofPatient?: true;
  /** What of one visit is due together is done, shown and rung for once. */
  readonly visit?: 'lumen' | 'site';
  /** It may be done for a line that is not in yet. */
  readonly preparesInsertion?: true;
  /** It puts a dressing on the exit site: always, or only where it says which. */
  readonly putsDressingOn?: 'always' | 'where-said';
  /** The length outside the skin is compared with what it was then. */
  readonly setsExternalLength?: true;
  /**
   * Who does it for a patient at home: anybody, whatever the line is; the patient or the family, on a line whose care is
   * taught to them; the unit or a nurse; or the team among itself, so that
   * it is not on the sheet for home. Absent: it has no plain words, and is left to the unit.
   */
  readonly atHome?: 'anybody' | 'patient' | 'unit' | 'team';
  /** The patient or the family would do it: while it must not be done, the sheet for home says so. */
  readonly leftAtHome?: true;
  /** It finds out where the tip lies: while it is asked for, nothing should run. */
  readonly confirmsTip?: true;
  /**
   * What it may use where its ActivityDefinition names no substance, each with the values that are worked out for it.
   */
  readonly mayUse?: Readonly<
    Partial<Record<SubstanceCode, readonly ('lock-volume' | 'thrombolytic-dose')[]>>
  >;
  /** Codes of SNOMED CT that are read as it, seen in published implementation guides. */
  readonly snomed?: readonly string[];
  /** Codes of SNOMED CT that are read as it only where a line or a lumen is named: they stand for other tubes and wounds, too. */
  readonly snomedOnLine?: readonly string[];
}
