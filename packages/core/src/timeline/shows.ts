import { saysNo } from '@dwellward/profiles';
import type { Finding } from '../model/record.js';

/** Whether a finding has one of these values; where none are named, whether it says that something is there. */
export function shows(
  fact: Pick<Finding, 'finding' | 'values' | 'flag' | 'quantity'>,
  values: readonly string[],
): boolean {
  if (values.length > 0) {
    // A yes or a no says what present or absent would.
    const said = fact.flag === undefined ? fact.values : [...fact.values, fact.flag ? 'present' : 'absent'];
    return said.some((value) => values.includes(value));
  }
  if (fact.flag !== undefined) return fact.flag;
  if (fact.values.length === 0) return fact.quantity !== undefined;
  return fact.values.some((value) => !saysNo(fact.finding, value));
}
