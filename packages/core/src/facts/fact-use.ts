import { factKinds, type FactName, type QuantityRange } from '@dwellward/policy';
import { known, type Moment } from './known.js';
import type { FactUse } from '../model/care.js';

/** A fact as it was known, for people and for the record of why. */
export function factUse(fact: FactName, at: Moment): FactUse {
  const found = known(fact, at);
  const { sinceMs } = found;
  return {
    fact,
    value: found.value === undefined ? 'unknown' : valueText(fact, found.value),
    ...(sinceMs === undefined ? {} : { since: at.timeline.calendar.text(sinceMs) }),
    refs: found.refs,
    ...(found.remark ? { remark: found.remark } : {}),
  };
}

function valueText(fact: FactName, value: string | number | boolean | QuantityRange): string {
  if (typeof value !== 'object') return String(value);
  const unit = factKinds[fact].kind === 'quantity' && value.unit !== '1' ? value.unit : '';
  return `${rangeText(value)} ${unit}`.trim();
}

/** “0.15”, “< 0.1”, “0 to 0.8”, “> 5”. */
export function rangeText({ low, high, lowIncluded, highIncluded }: QuantityRange): string {
  if (low !== undefined && low === high) return low;
  if (high === undefined) return low === undefined ? 'any' : `${lowIncluded ? '≥' : '>'} ${low}`;
  if (low === undefined || low === '0') return `${highIncluded ? '≤' : '<'} ${high}`;
  return `${low} to ${high}`;
}
