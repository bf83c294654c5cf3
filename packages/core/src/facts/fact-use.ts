import { factKind, type FactName, type Facts, type QuantityRange } from '@dwellward/policy';
import { known, type Moment } from './facts.js';
import type { FactUse } from '../model/care.js';
import type { Calendar } from '../timeline/calendar.js';

/** A fact as it was known, for people and for the record of why. */
export function factUse(fact: FactName, at: Moment): FactUse {
  const found = known(fact, at);
  const { calendar } = at.timeline;
  const { sinceMs } = found;
  return {
    fact,
    value: found.value === undefined ? 'unknown' : valueText(fact, found.value, calendar),
    ...(sinceMs === undefined ? {} : { since: calendar.text(sinceMs) }),
    refs: found.refs,
    ...(found.remark ? { remark: found.remark } : {}),
  };
}

function valueText(fact: FactName, value: NonNullable<Facts[FactName]>, calendar: Calendar): string {
  if (typeof value !== 'object') return String(value);
  if ('lowMs' in value) return calendar.text(value.lowMs);
  const unit = factKind(fact)?.kind === 'quantity' && value.unit !== '1' ? value.unit : '';
  return `${rangeText(value)} ${unit}`.trim();
}

/** “0.15”, “< 0.1”, “0 to 0.8”, “> 5”. */
export function rangeText({ low, high, lowIncluded, highIncluded }: QuantityRange): string {
  if (low !== undefined && low === high) return low;
  if (high === undefined) return low === undefined ? 'any' : `${lowIncluded ? '≥' : '>'} ${low}`;
  if (low === undefined || low === '0') return `${highIncluded ? '≤' : '<'} ${high}`;
  return `${low} to ${high}`;
}
