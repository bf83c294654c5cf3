import type { LineType } from './codes.js';
import type { DrugRow } from './drug-row.js';
import { drugsInTissue } from './drugs-in-tissue.js';
import { drugsNotToStop } from './drugs-not-to-stop.js';

/** Drugs of which a line’s care must know more than that they run: the one list of them. */
export const drugs = { ...drugsNotToStop, ...drugsInTissue } as const satisfies Readonly<
  Record<string, DrugRow>
>;

export type DrugCode = keyof typeof drugs;

const rows: Readonly<Record<DrugCode, DrugRow>> = drugs;

/** Every drug of the table. */
export const drugCodes = Object.keys(drugs) as readonly DrugCode[];

/**
 * What the table says of a drug.
 * @example
 * ```ts
 * drugRow('norepinephrine').ifStopped; // 'circulation'
 * ```
 */
export function drugRow(drug: DrugCode): DrugRow {
  return rows[drug];
}

/** Lines whose tip lies in a small vein: what harms tissue must not run through them (vascularaccess.com.au 2017, seen). */
export const tipInSmallVein: ReadonlySet<LineType> = new Set(['midline']);
