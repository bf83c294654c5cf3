import { Decimal } from 'decimal.js';
import { factKinds, type FactName } from './facts.js';
import { suggestion } from './nearest.js';
import { operandOf, sides, strip, variableName, type Operand, type Tree } from './tree.js';
import { convertUnit } from './units.js';

/** What is wrong with a condition, and what to do. */
export interface ConditionFault {
  readonly message: string;
  readonly cure: string;
}

/** A quantity literal as it stands, and in the unit of its fact. */
export interface Threshold {
  readonly node: Tree;
  readonly fact?: FactName;
  readonly value: Decimal;
  readonly unit: string;
}

/** What the walk over a condition’s tree found. */
export interface Checked {
  readonly faults: readonly ConditionFault[];
  readonly uses: readonly FactName[];
  readonly thresholds: readonly Threshold[];
  /** Quantity facts that are used other than in a comparison with a literal: their limits can’t be tried out. */
  readonly opaque: readonly FactName[];
}

const factNames = Object.keys(factKinds) as FactName[];
const groups = [...new Set(factNames.map((name) => name.split('.')[0] ?? ''))];

// Functions that would make the same facts give another answer another time or in another place.
const unsteady: Readonly<Record<string, string>> = {
  now: 'reads a clock',
  today: 'reads a clock',
  timeOfDay: 'reads a clock',
  resolve: 'reads from a server',
  memberOf: 'reads from a server',
  subsumes: 'reads from a server',
  subsumedBy: 'reads from a server',
  weight: 'reads from a server',
  trace: 'writes to a log',
  repeat: 'need not come to an end',
  repeatAll: 'need not come to an end',
};

/** Whether a full name is that of a fact. */
export function isFactName(name: string): name is FactName {
  return Object.hasOwn(factKinds, name);
}

type FactOperand = Extract<Operand, { kind: 'fact' }>;

class Check {
  readonly faults: ConditionFault[] = [];
  readonly uses = new Set<FactName>();
  readonly thresholds: Threshold[] = [];
  readonly opaque = new Set<FactName>();
  private readonly loose: Extract<Operand, { kind: 'quantity' }>[] = [];

  fault(message: string, cure: string): void {
    if (!this.faults.some((known) => known.message === message)) this.faults.push({ message, cure });
  }

  /** Notes the use of a fact; undefined where there is none of that name. */
  use(fact: FactOperand): FactName | undefined {
    if (isFactName(fact.name)) {
      this.uses.add(fact.name);
      return fact.name;
    }
    if (!groups.includes(fact.group)) {
      this.fault(`%${fact.group} is not known`, suggestion(`%${fact.name}`, factNames.map(asWritten)));
    } else {
      const members = factNames.filter((name) => name.startsWith(`${fact.group}.`));
      this.fault(`%${fact.name} is not a fact`, suggestion(`%${fact.name}`, members.map(asWritten)));
    }
    return undefined;
  }

  walk(tree: Tree): void {
    const node = strip(tree);
    const operand = operandOf(node);
    if (operand.kind === 'fact') {
      const name = this.use(operand);
      if (name !== undefined && factKinds[name].kind === 'quantity') this.opaque.add(name);
      return;
    }
    if (operand.kind === 'quantity') this.loose.push(operand);
    switch (node.type) {
      case 'EqualityExpression':
      case 'InequalityExpression':
      case 'MembershipExpression':
        return this.compare(node);
      case 'InvocationExpression':
        return this.invocation(node);
      case 'ExternalConstantTerm': {
        const name = variableName(node);
        if (groups.includes(name))
          this.fault(
            `%${name} by itself says nothing`,
            `Ask for one of its facts, such as ${example(name)}.`,
          );
        else this.fault(`%${name} is not known`, suggestion(`%${name}`, factNames.map(asWritten)));
        return;
      }
      case 'MemberInvocation':
        return this.fault(
          `${node.text} is not a fact`,
          `A condition can only ask about facts, which begin with %: ${groups.map((name) => `%${name}`).join(', ')}.`,
        );
      case 'TypeSpecifier':
        return;
      case 'Functn':
        if (Object.hasOwn(unsteady, node.text ?? '')) {
          this.fault(
            `${node.text}() ${unsteady[node.text ?? '']}`,
            'Ask about the facts only: the answer must follow from them.',
          );
        }
        for (const child of (node.children ?? []).slice(1)) this.walk(child);
        return;
      default:
        for (const child of node.children ?? []) this.walk(child);
    }
  }

  private invocation(node: Tree): void {
    const pair = sides(node);
    if (pair === undefined) return;
    const [subject, call] = pair;
    const operand = operandOf(subject);
    const named = call.type === 'FunctionInvocation' ? call.text : undefined;
    const bare = call.children?.[0]?.children?.length === 1;
    if (operand.kind === 'fact' && bare && (named === 'exists' || named === 'empty')) {
      this.use(operand);
      return;
    }
    this.walk(subject);
    if (call.type === 'MemberInvocation') {
      this.fault(`.${call.text} asks for a part of a value`, 'Facts have no parts: compare the fact itself.');
      return;
    }
    this.walk(call);
  }

  private compare(node: Tree): void {
    const pair = sides(node);
    const operator = node.text ?? '';
    if (pair === undefined) return;
    const operands = pair.map(operandOf);
    const [left, right] = operands;
    if (left === undefined || right === undefined) return;
    const at = left.kind === 'fact' ? 0 : 1;
    const fact = operands[at];
    const other = operands[1 - at];
    if (operator === '~' || operator === '!~') {
      if (left.kind === 'fact' || right.kind === 'fact') {
        this.fault(
          `${operator} takes an unknown fact as false`,
          `Write ${operator === '~' ? '=' : '!='} instead.`,
        );
      }
    }
    if (fact?.kind !== 'fact' || other === undefined || other.kind === 'fact' || other.kind === 'other') {
      for (const side of pair) this.walk(side);
      return;
    }
    const name = this.use(fact);
    if (name !== undefined) this.literal(name, operator, other);
  }

  /** Checks the literal that a fact is compared with. */
  private literal(name: FactName, operator: string, literal: Exclude<Operand, FactOperand>): void {
    const kind = factKinds[name];
    const ordered = ['<', '<=', '>', '>='].includes(operator);
    const member = operator === 'in' || operator === 'contains';
    if (kind.kind === 'code') {
      const values =
        literal.kind === 'set' ? literal.values : literal.kind === 'string' ? [literal.value] : undefined;
      if (values === undefined) {
        return this.fault(
          `%${name} is a code, not a ${literal.kind}`,
          `Compare it with one of: ${quoted(kind.codes)}.`,
        );
      }
      if (ordered) this.fault(`%${name} is a code: codes have no order`, 'Compare it with =, != or in.');
      if (literal.kind === 'set' && !member) {
        this.fault(
          `%${name} ${operator} a list never holds`,
          `Write %${name} in (${quoted(literal.values, ' | ')}).`,
        );
      }
      for (const value of values) {
        if (!(kind.codes as readonly string[]).includes(value)) {
          this.fault(`'${value}' is not a value of %${name}`, suggestion(value, kind.codes));
        }
      }
      return;
    }
    if (kind.kind === 'boolean') {
      if (literal.kind !== 'boolean')
        this.fault(`%${name} is true or false, not a ${literal.kind}`, `Write %${name} or %${name}.not().`);
      else if (ordered)
        this.fault(`%${name} is true or false and has no order`, `Write %${name} or %${name}.not().`);
      return;
    }
    if (kind.kind === 'integer') {
      if (literal.kind !== 'number') {
        this.fault(
          `%${name} is a whole number, not a ${literal.kind}`,
          `Compare it with a number without a unit, such as %${name} >= 3.`,
        );
      }
      return;
    }
    if (literal.kind !== 'quantity' || literal.calendar) {
      return this.fault(
        `%${name} is a quantity and is compared with something that has no unit it could have`,
        `Give the number with its UCUM unit in quotes, such as 2 '${kind.unit}'.`,
      );
    }
    this.threshold(literal, [name]);
  }

  private threshold(
    literal: Extract<Operand, { kind: 'quantity' }>,
    names: readonly FactName[],
    keepUnitless = false,
  ): void {
    for (const name of names) {
      const kind = factKinds[name];
      if (kind.kind !== 'quantity') continue;
      const converted = convertUnit(literal.value, literal.unit, kind.unit);
      if (converted.ok) {
        const compared = keepUnitless ? {} : { fact: name };
        this.thresholds.push({
          node: literal.node,
          ...compared,
          value: new Decimal(converted.value),
          unit: kind.unit,
        });
        return;
      }
    }
    if (keepUnitless && literal.unit === '1') return;
    const units = names.flatMap((name) =>
      factKinds[name].kind === 'quantity' ? [`%${name} in ${unitOf(name)}`] : [],
    );
    this.fault(
      `'${literal.unit}' is not a unit that can be converted`,
      units.length === 0
        ? 'Compare it with a fact that is a quantity.'
        : `Give a UCUM unit that converts to that of ${units.join(' or ')}.`,
    );
  }

  /** Literals that are not compared with a fact directly: those of an arithmetic expression. */
  settle(): void {
    const quantities = [...this.uses].filter((name) => factKinds[name].kind === 'quantity');
    for (const literal of this.loose) {
      if (literal.calendar)
        this.fault(
          `${literal.value} ${literal.unit} is a length of time`,
          'No fact is one: days are plain numbers.',
        );
      else this.threshold(literal, quantities, true);
    }
  }
}

function asWritten(name: FactName): string {
  return `%${name}`;
}

function unitOf(name: FactName): string {
  const kind = factKinds[name];
  return kind.kind === 'quantity' ? kind.unit : '';
}

function quoted(values: readonly string[], between = ', '): string {
  return values.map((value) => `'${value}'`).join(between);
}

function example(group: string): string {
  return `%${factNames.find((name) => name.startsWith(`${group}.`)) ?? group}`;
}

/** Walks a condition’s tree: which facts it asks about, which limits it sets, and what is wrong with it. */
export function checkTree(tree: Tree): Checked {
  const check = new Check();
  check.walk(tree);
  check.settle();
  return {
    faults: check.faults,
    uses: [...check.uses].sort(),
    thresholds: check.thresholds,
    opaque: [...check.opaque].sort(),
  };
}
