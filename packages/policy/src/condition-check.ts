import type { ConditionKind } from './condition.js';
import { faultsOfLiteral, thresholdOf, type Threshold } from './condition-literals.js';
import { timeOf, type TimeLink } from './condition-times.js';
import type { ConditionFault } from './expression.js';
import { factGroups, factKind, factNames, isFactName, type FactName } from './facts.js';
import type { LintCode } from './lint-codes.js';
import { nearest, suggestion } from './nearest.js';
import { operandOf, sides, strip, type Operand, type Tree } from './tree.js';

/** What the walk over a condition’s tree found. */
export interface Checked {
  readonly faults: readonly ConditionFault[];
  readonly uses: readonly FactName[];
  readonly thresholds: readonly Threshold[];
  /** Quantity facts that are used other than in a comparison with a literal: their limits can’t be tried out. */
  readonly opaque: readonly FactName[];
  /** The times that are compared with one another. */
  readonly links: readonly TimeLink[];
}

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
  // A pattern can take longer than anybody waits; values are codes, which = and in tell apart.
  matches: 'may never come to an end',
  matchesFull: 'may never come to an end',
  replaceMatches: 'may never come to an end',
};

/** Facts of the first edition of the language, with what says the same now. */
const goneFacts: Readonly<Record<string, string>> = {
  'line.tipConfirmed':
    'Ask %last.tipConfirmation.exists(), or %last.tipConfirmation.empty() for its opposite.',
  'line.incisionHealed': 'Ask %latest.incisionHealed.',
  'line.asepticInsertion': 'Ask %latest.asepticInsertion.',
  'line.signDwellDays':
    'Ask %line.dwellDays in a condition of kind start: it is judged when the finding is made.',
  'lumen.lookMinutesAfterDose':
    'Ask %began >= %last.occlusionTreatment + 120 minutes in a condition of kind start.',
};

/** Which kinds of condition may ask for what only a trigger gives. */
const triggerFacts: Readonly<Record<string, readonly ConditionKind[]>> = {
  began: ['start', 'stop'],
  answered: ['stop'],
};

type FactOperand = Extract<Operand, { kind: 'fact' }>;

class Check {
  readonly faults: ConditionFault[] = [];
  readonly uses = new Set<FactName>();
  readonly thresholds: Threshold[] = [];
  readonly opaque = new Set<FactName>();
  readonly links: TimeLink[] = [];
  private readonly loose: Extract<Operand, { kind: 'quantity' }>[] = [];

  constructor(
    private readonly kind: ConditionKind,
    private readonly named: readonly string[],
  ) {}

  fault(code: LintCode, message: string, cure: string): void {
    if (!this.faults.some((known) => known.message === message)) this.faults.push({ code, message, cure });
  }

  /** Notes the use of a fact; undefined where there is none of that name. */
  use(fact: FactOperand): FactName | undefined {
    const { name, group } = fact;
    if (isFactName(name)) {
      const kinds = triggerFacts[name];
      if (kinds !== undefined && !kinds.includes(this.kind)) {
        this.fault(
          'trigger-fact',
          `%${name} is only known of a rule that a trigger began`,
          `Ask for it in a condition of kind ${kinds.join(' or ')}, beside a trigger.`,
        );
      }
      this.uses.add(name);
      return name;
    }
    const gone = Object.hasOwn(goneFacts, name) ? goneFacts[name] : undefined;
    const above = name.split('.').slice(0, -1).join('.');
    if (gone !== undefined) this.fault('fact-gone', `%${name} is a fact no longer`, gone);
    else if (!factGroups.includes(group)) this.unknownGroup(fact);
    else if (fact.member === '') {
      const example = factNames.find((one) => one.startsWith(`${group}.`)) ?? group;
      this.fault(
        'part-of-fact',
        `%${group} by itself says nothing`,
        `Ask for one of its facts, such as %${example}.`,
      );
    } else if (isFactName(above) && factKind(above)?.kind !== 'time') {
      this.fault(
        'part-of-fact',
        `.${name.split('.').pop() ?? ''} asks for a part of a value`,
        'Facts have no parts: compare the fact itself.',
      );
    } else {
      this.fault('unknown-fact', `%${name} is not a fact`, suggestedFact(name, group));
    }
    return undefined;
  }

  private unknownGroup({ group, name }: FactOperand): void {
    const known = [...factNames, ...this.named].map((one) => `%${one}`);
    const close = nearest(`%${name}`, known);
    this.fault(
      'unknown-fact',
      `%${group} is not known`,
      close === undefined
        ? suggestion(
            `%${group}`,
            [...factGroups, ...this.named].map((one) => `%${one}`),
          )
        : `Did you mean ${close}?`,
    );
  }

  walk(tree: Tree): void {
    const node = strip(tree);
    const operand = operandOf(node);
    if (operand.kind === 'fact') return this.bare(operand);
    if (operand.kind === 'quantity') this.loose.push(operand);
    switch (node.type) {
      case 'EqualityExpression':
      case 'InequalityExpression':
      case 'MembershipExpression':
        return this.compare(node);
      case 'InvocationExpression':
        return this.invocation(node);
      case 'MemberInvocation':
        return this.fault(
          'unknown-fact',
          `${node.text} is not a fact`,
          `A condition can only ask about facts, which begin with %: ${factGroups.map((name) => `%${name}`).join(', ')}.`,
        );
      case 'DateTimeLiteral':
      case 'DateLiteral':
      case 'TimeLiteral':
        return this.fault(
          'time-comparison',
          'A date or a time of day can’t be kept in a condition',
          'Compare times that are facts with one another, or give the plan an effectivePeriod.',
        );
      case 'TypeSpecifier':
        return;
      case 'Functn':
        if (Object.hasOwn(unsteady, node.text ?? '')) {
          this.fault(
            'unsteady-function',
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

  /** A fact that is used in a way that is looked at no closer. */
  private bare(operand: FactOperand): void {
    const name = this.use(operand);
    const kind = name === undefined ? undefined : factKind(name)?.kind;
    if (name !== undefined && kind === 'quantity') this.opaque.add(name);
    if (kind === 'time') this.notATime(operand.name);
  }

  private notATime(name: string): void {
    this.fault(
      'time-comparison',
      `%${name} is a time`,
      `Compare it with another time, such as %began, or ask %${name}.exists() or %${name}.empty().`,
    );
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
      this.fault(
        'part-of-fact',
        `.${call.text} asks for a part of a value`,
        'Facts have no parts: compare the fact itself.',
      );
      return;
    }
    this.walk(call);
  }

  private compare(node: Tree): void {
    const pair = sides(node);
    const operator = node.text ?? '';
    if (pair === undefined) return;
    const [left, right] = [operandOf(pair[0]), operandOf(pair[1])];
    if ((operator === '~' || operator === '!~') && (left.kind === 'fact' || right.kind === 'fact')) {
      this.fault(
        'unknown-as-false',
        `${operator} takes an unknown fact as false`,
        `Write ${operator === '~' ? '=' : '!='} instead.`,
      );
    }
    if (this.times(pair, operator)) return;
    const [fact, literal] = left.kind === 'fact' ? [left, right] : [right, left];
    if (fact.kind !== 'fact' || literal.kind === 'fact' || literal.kind === 'other') {
      for (const side of pair) this.walk(side);
      return;
    }
    const name = this.use(fact);
    if (name === undefined) return;
    this.faults.push(...faultsOfLiteral(name, operator, literal));
    if (literal.kind === 'quantity') {
      const threshold = thresholdOf(literal, name);
      if (threshold !== undefined) this.thresholds.push(threshold);
    }
  }

  /** Checks a comparison of times; false where neither side is one. */
  private times(pair: readonly [Tree, Tree], operator: string): boolean {
    const read = [timeOf(pair[0]), timeOf(pair[1])] as const;
    const [left, right] = read;
    if (left === undefined && right === undefined) return false;
    for (const side of read) {
      if (side?.ok === false) this.fault(side.fault.code, side.fault.message, side.fault.cure);
    }
    if (left?.ok !== true || right?.ok !== true) {
      const before = this.faults.length;
      for (const [index, side] of read.entries()) if (side === undefined) this.walk(pair[index] as Tree);
      // What is no time beside one is said of the time, unless it is wrong itself.
      const time = read.find((side) => side?.ok === true);
      if (time?.ok === true && read.includes(undefined) && this.faults.length === before)
        this.notATime(time.term.fact);
      return true;
    }
    for (const { term } of [left, right]) {
      this.use({ kind: 'fact', group: term.fact, member: '', name: term.fact, node: pair[0] });
    }
    if (!['<', '<=', '>', '>=', '=', '!='].includes(operator)) {
      if (operator !== '~' && operator !== '!~') this.notATime(left.term.fact);
      return true;
    }
    const apartMs = right.term.offsetMs - left.term.offsetMs;
    this.links.push({ left: left.term.fact, right: right.term.fact, apartMs });
    return true;
  }

  /** Literals that are not compared with a fact directly: those of an arithmetic expression. */
  settle(): void {
    const quantities = [...this.uses].filter((name) => factKind(name)?.kind === 'quantity');
    for (const literal of this.loose) {
      if (literal.calendar) {
        this.fault(
          'time-arithmetic',
          `${literal.value} ${literal.unit} is a length of time`,
          'A length of time is only added to a time, or taken from one; days are plain numbers.',
        );
        continue;
      }
      const found = quantities
        .map((name) => thresholdOf(literal, name))
        .find((threshold) => threshold !== undefined);
      if (found !== undefined) {
        const { node, value, unit } = found;
        this.thresholds.push({ node, value, unit });
      } else if (literal.unit !== '1') {
        const units = quantities.map((name) => `%${name} in ${unitOf(name)}`);
        this.fault(
          'bad-unit',
          `'${literal.unit}' is not a unit that can be converted`,
          units.length === 0
            ? 'Compare it with a fact that is a quantity.'
            : `Give a UCUM unit that converts to that of ${units.join(' or ')}.`,
        );
      }
    }
  }
}

function unitOf(name: FactName): string {
  const kind = factKind(name);
  return kind?.kind === 'quantity' ? kind.unit : '';
}

function suggestedFact(name: string, group: string): string {
  const members = factNames.filter((one) => one.startsWith(`${group}.`)).map((one) => `%${one}`);
  const close = nearest(`%${name}`, members);
  if (close !== undefined) return `Did you mean ${close}?`;
  // Of a finding’s values the list would have no end that a reader reaches.
  return suggestion(
    `%${name}`,
    members.filter((one) => one.split('.').length === 2),
  );
}

/**
 * Walks a condition’s tree: which facts it asks about, which limits it sets, and what is wrong with it.
 * @param named names that stand for expressions of the plan: what a name that is not known is compared with.
 */
export function checkTree(
  tree: Tree,
  kind: ConditionKind = 'applicability',
  named: readonly string[] = [],
): Checked {
  const check = new Check(kind, named);
  check.walk(tree);
  check.settle();
  return {
    faults: check.faults,
    uses: [...check.uses].sort(),
    thresholds: check.thresholds,
    opaque: [...check.opaque].sort(),
    links: check.links,
  };
}
