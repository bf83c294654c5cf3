// Verhoeff’s tables: multiplication in the dihedral group of order ten, and the permutation by place.
const product = [
  '0123456789',
  '1234067895',
  '2340178956',
  '3401289567',
  '4012395678',
  '5987604321',
  '6598710432',
  '7659821043',
  '8765932104',
  '9876543210',
];
const permutation = [
  '0123456789',
  '1576283094',
  '5803796142',
  '8916043527',
  '9453126870',
  '4286573901',
  '2793806415',
  '7046913258',
];

/** Whether the last digit of a SNOMED CT identifier fits the others. SNOMED CT technical guide: Verhoeff’s check digit. */
export function isSnomedId(code: string): boolean {
  if (!/^[1-9]\d{5,17}$/.test(code)) return false;
  const sum = [...code]
    .reverse()
    .reduce((check, digit, i) => Number(product[check]?.[Number(permutation[i % 8]?.[Number(digit)])]), 0);
  return sum === 0;
}

/** Whether the digit after the hyphen of a LOINC code fits the others. LOINC users’ guide: modulus 10 (Luhn). */
export function isLoincCode(code: string): boolean {
  const [, number = '', check] = /^(\d{1,7})-(\d)$/.exec(code) ?? [];
  if (check === undefined) return false;
  const sum = [...number].reverse().reduce((total, digit, i) => {
    const doubled = i % 2 === 0 ? Number(digit) * 2 : Number(digit);
    return total + (doubled > 9 ? doubled - 9 : doubled);
  }, 0);
  return (10 - (sum % 10)) % 10 === Number(check);
}

/** Whether a code, or the beginning of one, has the form of the ATC classification. */
export function isAtcCode(code: string): boolean {
  return /^[ABCDGHJLMNPRSV](\d{2}([A-Z]([A-Z](\d{2})?)?)?)?$/.test(code);
}

/** Whether a code has the form of RxNorm: a whole number without a check digit. */
export function isRxNormCode(code: string): boolean {
  return /^[1-9]\d{0,7}$/.test(code);
}

const checks: readonly (readonly [system: string, name: string, isCode: (code: string) => boolean])[] = [
  ['http://snomed.info/sct', 'SNOMED CT', isSnomedId],
  ['http://loinc.org', 'LOINC', isLoincCode],
  ['http://www.nlm.nih.gov/research/umls/rxnorm', 'RxNorm', isRxNormCode],
  ['http://www.whocc.no/atc', 'ATC', isAtcCode],
];

/** The codes of a JSON resource that can’t be codes of the system that they name. */
export function wrongCodesInJson(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return [];
  const { system, code } = value as { system?: unknown; code?: unknown };
  const [check] = checks.filter(([url]) => url === system);
  const own =
    check !== undefined && typeof code === 'string' && !check[2](code) ? [`${check[1]} ${code}`] : [];
  return [...own, ...Object.values(value).flatMap(wrongCodesInJson)];
}

// A number of that many digits in quotation marks, in a tick, or after a bar, is a code of SNOMED CT unless it is listed here.
const otherNumbers: ReadonlySet<string> = new Set([
  '200317', // RxNorm, soybean oil
  '150000', // cells in a microlitre
  '100000', // pascals in a bar
  '1000000', // cells
  '20261125', // the seed of the properties
  '2147483648', // one more than 32 bits hold
  '123456789012', // a decimal of many digits
]);

/** The codes in a text of code, FHIR Shorthand or documentation that can’t be what their form says. */
export function wrongCodesInText(text: string): string[] {
  const found = (pattern: RegExp) => [...text.matchAll(pattern)].map(([, code = '']) => code);
  const snomed = found(/['"`|#](\d{6,18})['"`|#\s]/g).filter((code) => !otherNumbers.has(code));
  const loinc = found(/['"`|#](\d{2,5}-\d)['"`|\s]/g);
  return [
    ...snomed.filter((code) => !isSnomedId(code)).map((code) => `SNOMED CT ${code}`),
    ...loinc.filter((code) => !isLoincCode(code)).map((code) => `LOINC ${code}`),
    ...found(/\['([A-Z]\d{2}[A-Z0-9]*)',/g)
      .filter((code) => !isAtcCode(code))
      .map((code) => `ATC ${code}`),
  ];
}
