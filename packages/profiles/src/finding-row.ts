import type { Scope } from './activity-row.js';

/** One value that a finding may have. */
export interface FindingValue {
  readonly display: string;
  /** It says that nothing of the kind was found. */
  readonly saysNo?: true;
  /** How far a lumen is from open: 0 open, 1 sluggish, 2 blocked. */
  readonly grade?: 0 | 1 | 2;
}

/** What the engine must know of a finding. A column that is absent says no. */
export interface FindingRow<Code extends string = string, Activity extends string = string> {
  readonly display: string;
  readonly definition: string;
  /** What it is seen on where the record does not say. */
  readonly scope: Scope;
  /**
   * `coded`: one of its values. `components`: those of its components that are present. `presence`: present or absent,
   * or a grade in the hospital’s own words. `boolean`, `quantity`: as they are.
   */
  readonly kind: 'coded' | 'components' | 'presence' | 'boolean' | 'quantity';
  /** The UCUM unit of its quantity, or of a quantity that may stand beside its value. */
  readonly unit?: 'cm' | 'Cel';
  /** Its values, where they are of this code system alone. */
  readonly values?: Readonly<Record<string, FindingValue>>;
  /** The code system that its values are of, where that is another. */
  readonly valuesFrom?: 'dressingCondition' | 'connectorCondition';
  /** The finding that it is a part of. */
  readonly component?: Code;
  /** The activity that puts it right: until then it stands. */
  readonly answeredBy?: Activity;
  /** The look that finds it: who charts it has looked. */
  readonly toldBy?: Activity;
  /** Of the patient as a whole: it is seen on every line that is in. */
  readonly ofPatient?: true;
  /** That there is none of it is a finding of its own, and the worst: no value of it says no. */
  readonly lackCounts?: true;
  /** Values by which all is well, beside those that say no. */
  readonly well?: readonly string[];
  /** The answer of a yes or no that tells of something wrong; neither does where absent. */
  readonly wrongIf?: 'yes' | 'no';
  /** The fact by which policies judge its quantity, where that is not the quantity itself. */
  readonly judgedBy?: string;
  /** It tells whether a lumen is open, by the grades of its values. */
  readonly tellsPatency?: true;
  /** A new site does so while it settles, and an older one where it is infected. */
  readonly whileNew?: true;
  /** Where it was found nothing may run on: a hold that it begins says so without an “or”. */
  readonly stopsWhatRuns?: true;
  /** Said of one of several lumens it says nothing of the line: it must name the line, or every lumen at one time. */
  readonly wholeLine?: true;
  /** How the sentence on a rule that it begins names it before its values; its name with “is” where absent. */
  readonly toldAs?: string;
}
