import {
  activitiesWhere,
  activityOfRole,
  activityRow,
  codeSystem,
  lineCareActivities,
  lineFindings,
  lineTypes,
  standard,
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
  return concept
    .flatMap((one) => one?.coding ?? [])
    .filter((coding) => coding.system === undefined || coding.system === codeSystem[system])
    .flatMap((coding) => (concepts.some(([code]) => code === coding.code) ? [coding.code as string] : []));
}

/** A code of one of our systems that is not in it: a spelling mistake or a newer version. */
export function unknownOwnCode(
  system: keyof typeof codeSystem,
  concepts: readonly Concept[],
  concept: Codeable | undefined,
): string | undefined {
  return concept?.coding?.find(
    ({ system: where, code }) => where === codeSystem[system] && !concepts.some(([known]) => known === code),
  )?.code;
}

/** Codes of a system among the codings. */
export function codesOf(system: string, concept: Codeable | undefined): string[] {
  return (concept?.coding ?? []).flatMap(({ system: where, code }) =>
    where === system && code ? [code] : [],
  );
}

// SNOMED CT codes seen in published implementation guides; anything else is left to the hospital’s own mapping.
const snomedLineTypes: Readonly<Record<string, LineType>> = {
  '445085009': 'tunneled-cvc',
  '398176008': 'picc',
  '1344705000': 'midline',
  '398013009': 'implanted-port',
};
/** “Central venous catheter”: a line, of a type that is not said. */
const snomedAnyCentralLine = '52124006';

/**
 * Search tokens for Device.type of everything that is read as a line or a lumen. Our codes stand without a system:
 * records hold them with another, or with none.
 */
export const lineDeviceTokens: readonly string[] = [
  ...lineTypes.map(([code]) => code),
  ...[...Object.keys(snomedLineTypes), snomedAnyCentralLine].map((code) => `${standard.snomed}|${code}`),
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
  const snomed = codesOf(standard.snomed, type);
  const known = snomed.flatMap((code) => snomedLineTypes[code] ?? [])[0];
  if (known) return known;
  if (snomed.includes(snomedAnyCentralLine) || unknownOwnCode('lineType', lineTypes, type)) return 'unknown';
  return undefined;
}

/** The line-care activity of a Procedure or an order. */
export function activityOf(code: Codeable | undefined): LineCareActivity | undefined {
  const own = ownCodes('lineCareActivity', lineCareActivities, code)[0];
  return (
    (own as LineCareActivity | undefined) ??
    codesOf(standard.snomed, code).flatMap((one) => activitiesWhere(({ snomed }) => snomed?.includes(one)))[0]
  );
}

/** The line finding of an Observation or one of its components. */
export function findingOf(code: Codeable | undefined): LineFinding | undefined {
  return ownCodes('lineFinding', lineFindings, code)[0] as LineFinding | undefined;
}
