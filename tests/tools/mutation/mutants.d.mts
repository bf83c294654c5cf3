export function partOf<T>(mutants: readonly T[], part: number, parts: number): T[];
export function sampleOf<T>(mutants: readonly T[], count: number, seed: number): T[];
