export interface Mutated {
  readonly wanted: number;
  readonly parts: number;
  readonly tests: string[];
  readonly withoutTests: string[];
  readonly notMutated: string[];
}
export const root: string;
export const packages: Readonly<Record<'calculators' | 'core' | 'policy', Mutated>>;
export function mutatedFiles(name: keyof typeof packages): string[];
