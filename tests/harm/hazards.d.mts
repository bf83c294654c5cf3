import type { Switch } from './without-control.js';

export interface Hazard {
  readonly id: string;
  readonly rows?: readonly string[];
  readonly hazard: string;
  readonly harm: string;
  readonly likelihood: string;
  readonly severity: string;
  readonly control: string;
  readonly test: { readonly file: string; readonly name: string };
  readonly without: readonly Switch[];
}

export const likelihoods: readonly string[];
export const severities: readonly string[];
export const rowsByTable: Readonly<Record<string, readonly string[]>>;
export function readHazards(): Hazard[];
export function faultsOf(hazard: Hazard): string[];
export function hazardsPage(hazards: readonly Hazard[]): string;
