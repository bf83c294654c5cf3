import {
  activitiesWhere,
  activityOfRole,
  activityRow,
  chartedItems,
  codeSystem,
  deviceCodes,
  insertionCodes,
  lineCareActivities,
  lineFindings,
  lineTypes,
  otherDeviceCodes,
  standard,
  type ChartedItem,
  type Concept,
} from '@dwellward/profiles';
import type { LineCareActivity, LineFinding, LineType } from '@dwellward/profiles';
import type { Codeable } from './shapes.js';

/** Codes of one of our systems among the codings; a coding without a system is taken where its code is ours. */
export function ownCodes(
  system: keyof typeof codeSystem,
  concepts: readonly Concept[],
  ...concept: readonly (Codeable | undefined)[]
): string[] {
  const found: string[] = [];
  for (const one of concept) {
    for (const { system: where, code } of one?.coding ?? []) {
      if (code === undefined || (where !== undefined && where !== codeSystem[system])) continue;
      if (codesIn(concepts).has(code)) found.push(code);
    }
  }
  return found;
}

// The lists of the profiles, which are few: every coding of a record is looked for in one of them or several.
const sets = new WeakMap<readonly Concept[], ReadonlySet<string>>();

function codesIn(concepts: readonly Concept[]): ReadonlySet<string> {
  let set = sets.get(concepts);
  if (set === undefined) sets.set(concepts, (set = new Set(concepts.map(([code]) => code))));
  return set;
}

/** A code of one of our systems that is not in it: a spelling mistake or a newer version. */
export function unknownOwnCode(
  system: keyof typeof codeSystem,
  concepts: readonly Concept[],
  concept: Codeable | undefined,
): string | undefined {
  return concept?.coding?.find(
    ({ system: where, code }) =>
      where === codeSystem[system] && (code === undefined || !codesIn(concepts).has(code)),
  )?.code;
}

/** Codes of a system among the codings. */
export function codesOf(system: string, concept: Codeable | undefined): string[] {
  const found: string[] = [];
  for (const { system: where, code } of concept?.coding ?? []) if (where === system && code) found.push(code);
  return found;
}

/**
 * Search tokens for Device.type of everything that is read as a line or a lumen. Our codes stand without a system:
 * records hold them with another, or with none.
 */
export const lineDeviceTokens: readonly string[] = [
  ...lineTypes.map(([code]) => code),
  ...[...deviceCodes.keys()].map((code) => `${standard.snomed}|${code}`),
];

const begins = activityOfRole('begins-line');

/** Search tokens for the code of a ServiceRequest or an Appointment that plans an insertion. */
export const insertionTokens: readonly string[] = [
  begins,
  ...(activityRow(begins).snomed ?? []).map((code) => `${standard.snomed}|${code}`),
];

/** What type of line a Device is; `unknown` for a line whose type is not said; undefined for no line at all. */
export function lineTypeOf(type: Codeable | undefined): LineType | 'unknown' | 'lumen' | undefined {
  const own = ownCodes('lineType', lineTypes, type)[0];
  if (own) return own as LineType | 'lumen';
  const coded = codesOf(standard.snomed, type).flatMap((code) => deviceCodes.get(code) ?? []);
  const known = coded.find((one) => one.type !== undefined)?.type;
  if (known) return known;
  if (coded.length > 0 || unknownOwnCode('lineType', lineTypes, type)) return 'unknown';
  return undefined;
}

/** How many lumens the code of a Device says that it has. */
export function lumensByCode(type: Codeable | undefined): number | undefined {
  const said = codesOf(standard.snomed, type).flatMap((code) => deviceCodes.get(code)?.lumens ?? []);
  return said[0];
}

/** Whether a Device is plainly something else than a line. */
export function isOtherDevice(type: Codeable | undefined): boolean {
  return codesOf(standard.snomed, type).some((code) => otherDeviceCodes.has(code));
}

/** What the code of an insertion says of the line that was put in. */
export function typeByInsertion(code: Codeable | undefined): LineType | 'dialysis' | undefined {
  return codesOf(standard.snomed, code).flatMap((one) => insertionCodes.get(one) ?? [])[0];
}

/**
 * The line-care activity of a Procedure or an order.
 * @param onLine whether a line or a lumen is named: then codes count that stand for other tubes and wounds, too.
 */
export function activityOf(code: Codeable | undefined, onLine = false): LineCareActivity | undefined {
  const own = ownCodes('lineCareActivity', lineCareActivities, code)[0];
  return (
    (own as LineCareActivity | undefined) ??
    codesOf(standard.snomed, code).flatMap((one) =>
      activitiesWhere(
        ({ snomed, snomedOnLine }) => snomed?.includes(one) || (onLine && snomedOnLine?.includes(one)),
      ),
    )[0]
  );
}

/** The line finding of an Observation or one of its components. */
export function findingOf(code: Codeable | undefined): LineFinding | undefined {
  return ownCodes('lineFinding', lineFindings, code)[0] as LineFinding | undefined;
}

/** Whether a map of codes says that it concerns no line. */
export function isOtherBusiness(code: Codeable | undefined): boolean {
  return codesOf(codeSystem.chartedItem, code).some(
    (one) => chartedItems[one as ChartedItem]?.tells === 'nothing',
  );
}

/** Whether it is a row of a chart that tells of a line, and was used as one. */
export function isChartedItem(code: Codeable | undefined): boolean {
  return [codeSystem.chartedItem, codeSystem.lineType].some((system) => codesOf(system, code).length > 0);
}
