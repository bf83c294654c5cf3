/** Units that people write otherwise than UCUM does. */
const written: Readonly<Record<string, string>> = {
  '1': '',
  Cel: '°C',
  '[degF]': '°F',
  '[Ch]': 'French',
  '[lb_av]': 'lb',
  '[oz_av]': 'oz',
  '[IU]': 'units',
  '[iU]': 'units',
};

/** A UCUM unit as people write it: `°C`, `10^9/L`, `mL`; empty where the number stands alone. */
export function unitText(ucum: string): string {
  const known = Object.hasOwn(written, ucum) ? written[ucum] : undefined;
  if (known !== undefined) return known;
  return (
    ucum
      // An annotation says what was counted, and is no part of the unit: {cells}/uL, {INR}.
      .replace(/\{[^}]*\}/g, '')
      .replaceAll('10*', '10^')
      .replace(/(^|\/)u(?=[Lglm])/g, '$1µ')
      .replace(/(^|\/|m|d|c|µ)l\b/g, '$1L')
  );
}

/** A number with its unit as people write it. */
export function amountText(value: string, ucum: string): string {
  return `${value} ${unitText(ucum)}`.trim();
}
