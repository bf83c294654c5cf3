/** What was left out of a figure, or counted on an assumption, and why. */
export interface LeftOut {
  readonly ref: string;
  readonly counted: boolean;
  readonly reason: string;
}
