import type { QuantityRange } from '@dwellward/policy';

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

/** “0.15 10^9/L”, “below 0.5 10^9/L”, “at least 2 cm”, “3 to 5 cm”; a low end of 0 is none: nothing measured is less. */
export function rangeText({ low, lowIncluded, high, highIncluded, unit }: QuantityRange): string {
  if (low !== undefined && low === high) return amountText(low, unit);
  const below = high === undefined ? '' : `${highIncluded ? 'at most' : 'below'} ${amountText(high, unit)}`;
  if (low === undefined || Number(low) === 0) return below || 'not known';
  if (high === undefined) return `${lowIncluded ? 'at least' : 'above'} ${amountText(low, unit)}`;
  return lowIncluded && highIncluded
    ? `${low} to ${amountText(high, unit)}`
    : `${lowIncluded ? 'at least' : 'above'} ${amountText(low, unit)} and ${below}`;
}
