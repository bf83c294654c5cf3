export interface Outcome {
  readonly status: string;
}
export function scoreOf(
  mutants: readonly { readonly id: string }[],
  outcomes: ReadonlyMap<string, Outcome>,
): { killed: number; survived: number; counted: number; invalid: number; score: number | undefined };
export function wilson(hits: number, count: number): [number, number];
