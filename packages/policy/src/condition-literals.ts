import { Decimal } from 'decimal.js';
import type { ConditionFault } from './expression.js';
import { factKind, type FactName, type Kind } from './facts.js';
import { suggestion } from './nearest.js';
import type { Operand, Tree } from './tree.js';
import { convertUnit } from './units.js';

/** A quantity literal as it stands, and in the unit of its fact. */
export interface Threshold {
  readonly node: Tree;
  readonly fact?: FactName;
  readonly value: Decimal;
  readonly unit: string;
}

type Literal = Exclude<Operand, { kind: 'fact' } | { kind: 'other' }>;
type Quantity = Extract<Operand, { kind: 'quantity' }>;

/** What is wrong with the literal that a fact is compared with. */
export function faultsOfLiteral(
  name: FactName,
  operator: string,
  literal: Literal,
): readonly ConditionFault[] {
  const kind = factKind(name);
  const ordered = ['<', '<=', '>', '>='].includes(operator);
  switch (kind?.kind) {
    case 'code':
      return ofCode(name, kind.codes, operator, literal);
    case 'boolean': {
      const cure = `Write %${name} or %${name}.not().`;
      if (literal.kind !== 'boolean')
        return [fault('bad-comparison', `%${name} is true or false, not a ${literal.kind}`, cure)];
      return ordered ? [fault('bad-comparison', `%${name} is true or false and has no order`, cure)] : [];
    }
    case 'integer':
      return literal.kind === 'number'
        ? []
        : [
            fault(
              'bad-comparison',
              `%${name} is a whole number, not a ${literal.kind}`,
              `Compare it with a number without a unit, such as %${name} >= 3.`,
            ),
          ];
    case 'quantity':
      return ofQuantity(name, kind, literal);
    default:
      return [];
  }
}

function fault(code: ConditionFault['code'], message: string, cure: string): ConditionFault {
  return { code, message, cure };
}

function ofCode(
  name: FactName,
  codes: readonly string[],
  operator: string,
  literal: Literal,
): readonly ConditionFault[] {
  const values =
    literal.kind === 'set' ? literal.values : literal.kind === 'string' ? [literal.value] : undefined;
  if (values === undefined) {
    return [
      fault(
        'bad-comparison',
        `%${name} is a code, not a ${literal.kind}`,
        `Compare it with one of: ${quoted(codes)}.`,
      ),
    ];
  }
  const found: ConditionFault[] = [];
  if (['<', '<=', '>', '>='].includes(operator)) {
    const message = `%${name} is a code: codes have no order`;
    found.push(fault('bad-comparison', message, 'Compare it with =, != or in.'));
  }
  if (literal.kind === 'set' && operator !== 'in' && operator !== 'contains') {
    found.push(
      fault(
        'bad-comparison',
        `%${name} ${operator} a list never holds`,
        `Write %${name} in (${quoted(literal.values, ' | ')}).`,
      ),
    );
  }
  for (const value of values) {
    if (!codes.includes(value))
      found.push(fault('unknown-value', `'${value}' is not a value of %${name}`, suggestion(value, codes)));
  }
  return found;
}

function ofQuantity(
  name: FactName,
  { unit }: Extract<Kind, { kind: 'quantity' }>,
  literal: Literal,
): readonly ConditionFault[] {
  if (literal.kind !== 'quantity' || literal.calendar) {
    return [
      fault(
        'bad-unit',
        `%${name} is a quantity and is compared with something that has no unit it could have`,
        `Give the number with its UCUM unit in quotes, such as 2 '${unit}'.`,
      ),
    ];
  }
  if (thresholdOf(literal, name) !== undefined) return [];
  return [
    fault(
      'bad-unit',
      `'${literal.unit}' is not a unit that can be converted`,
      `Give a UCUM unit that converts to that of %${name} in ${unit}.`,
    ),
  ];
}

/** A quantity literal in the unit of the fact that it meets; undefined where it can’t be converted. */
export function thresholdOf(literal: Quantity, fact: FactName): Threshold | undefined {
  const kind = factKind(fact);
  if (kind?.kind !== 'quantity' || literal.calendar) return undefined;
  const converted = convertUnit(literal.value, literal.unit, kind.unit);
  return converted.ok
    ? { node: literal.node, fact, value: new Decimal(converted.value), unit: kind.unit }
    : undefined;
}

function quoted(values: readonly string[], between = ', '): string {
  return values.map((value) => `'${value}'`).join(between);
}
