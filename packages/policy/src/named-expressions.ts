import { policyExtension } from '@dwellward/profiles';
import { checkTree } from './condition-check.js';
import { expanded, parsed, type NamedTexts } from './expression.js';
import { factGroups } from './facts.js';
import type { Findings } from './findings.js';
import { elementsOf, isObject, shown } from './json.js';
import type { Placed } from './read-group.js';
import type { Extension } from './shapes.js';
import { operandOf, variablesIn, type Tree } from './tree.js';

/** The named expressions of a plan, and which of them something asks for. */
export class NamedExpressions {
  private readonly used = new Set<string>();

  constructor(
    readonly texts: NamedTexts,
    /** Names of which an error was said already. */
    private readonly broken: ReadonlySet<string>,
    private readonly places: ReadonlyMap<string, Findings>,
  ) {}

  /** Notes which expressions a condition asks for; false where one of them is wrong, which was said where it stands. */
  use(text: string): boolean {
    const read = parsed(text);
    if (!read.ok) return true;
    const names = variablesIn(read.tree).map(({ name }) => name);
    for (const name of names) this.used.add(name);
    return !names.some((name) => this.broken.has(name));
  }

  /** Warns of every expression that nothing asks for. */
  reportUnused(): void {
    for (const [name, at] of this.places) {
      if (!this.used.has(name))
        at.warning('', 'unused-named-expression', `%${name} is asked for by no condition`, 'Leave it out.');
    }
  }
}

/** Variables that FHIRPath itself knows, or a step of the work. */
const taken = new Set(['context', 'resource', 'rootResource', 'ucum', 'sct', 'loinc', 'calculated']);

interface Entry {
  readonly name: string;
  readonly at: Findings;
  readonly text: string;
  readonly tree: Tree;
  /** What it asks for, facts among it. */
  readonly asks: readonly string[];
}

/** Reads the extensions `named-expression` of a plan, in their order; what is wrong becomes an error. */
export function readNamedExpressions(extensions: readonly Placed<Extension>[]): NamedExpressions {
  const places = new Map<string, Findings>();
  const entries = new Map<string, Entry>();
  const broken = new Set<string>();
  for (const { value, at } of extensions) {
    if (value.url !== policyExtension.namedExpression) continue;
    const name = nameOf(value, at);
    if (name === undefined) continue;
    if (places.has(name)) {
      at.error('valueExpression.name', 'doubled-name', `%${name} stands here twice`, 'Keep one.');
      continue;
    }
    places.set(name, at);
    const entry = entryOf(name, value, at);
    if (entry === undefined) broken.add(name);
    else entries.set(name, entry);
  }
  const texts = new Map<string, string>();
  for (const entry of entries.values()) {
    const text = writtenOut(entry, entries, texts, broken);
    if (text === undefined) broken.add(entry.name);
    else texts.set(entry.name, text);
  }
  const named = new NamedExpressions(texts, broken, places);
  for (const { text } of entries.values()) named.use(text);
  return named;
}

function nameOf(extension: Extension, at: Findings): string | undefined {
  const expression = extension['valueExpression'];
  const name = isObject(expression) ? expression['name'] : undefined;
  if (typeof name !== 'string' || !/^[A-Za-z_]\w*$/.test(name)) {
    return at.error(
      'valueExpression.name',
      'bad-name',
      `${shown(name)} is not a name`,
      'Give a name of letters and digits, such as isArmLine: conditions then ask for %isArmLine.',
    );
  }
  if (!factGroups.includes(name) && !taken.has(name)) return name;
  return at.error(
    'valueExpression.name',
    'bad-name',
    `%${name} is the name of something else`,
    `Give a name that is none of: ${[...factGroups, ...taken].join(', ')}.`,
  );
}

function entryOf(name: string, extension: Extension, at: Findings): Entry | undefined {
  const here = at.at('valueExpression');
  const expression = extension['valueExpression'];
  if (!isObject(expression)) return undefined;
  for (const key of elementsOf(expression)) {
    if (!['id', 'name', 'description', 'language', 'expression'].includes(key))
      here.error(key, 'unread-element', 'can’t be kept', 'Give name, language and expression only.');
  }
  if (expression['language'] !== 'text/fhirpath') {
    return here.error(
      'language',
      'not-fhirpath',
      `${shown(expression['language'])} can’t be read`,
      'Write the expression in text/fhirpath.',
    );
  }
  const given = expression['expression'];
  const read = parsed(typeof given === 'string' ? given : '');
  if (!read.ok) {
    for (const { code, message, cure } of read.faults) here.error('expression', code, message, cure);
    return undefined;
  }
  const { text, tree } = read;
  return { name, at, text, tree, asks: variablesIn(tree).map((variable) => variable.name) };
}

/** The text of an expression with what it names written out; undefined where that can’t be, which is said. */
function writtenOut(
  { name, at, text, tree, asks }: Entry,
  entries: ReadonlyMap<string, Entry>,
  above: NamedTexts,
  broken: ReadonlySet<string>,
): string | undefined {
  const here = at.at('valueExpression');
  if (reaches(name, name, entries)) {
    return here.error(
      'expression',
      'circular-name',
      `%${name} asks for itself`,
      'Let it ask for expressions that stand above it only.',
    );
  }
  if (asks.some((one) => broken.has(one))) return undefined;
  const later = asks.find((one) => entries.has(one) && !above.has(one));
  if (later !== undefined) {
    return here.error(
      'expression',
      'named-below',
      `%${later} stands below %${name}`,
      `Put %${later} above it.`,
    );
  }
  const whole = expanded(text, tree, above);
  const checked = parsed(whole);
  // What asks for no fact, a limit or a list, is checked where it is compared.
  if (!checked.ok || operandOf(checked.tree).kind === 'other' || operandOf(checked.tree).kind === 'fact') {
    const { faults } = checked.ok ? checkTree(checked.tree, 'stop', [...above.keys()]) : checked;
    for (const fault of faults) here.error('expression', fault.code, fault.message, fault.cure);
    if (faults.length > 0) return undefined;
  }
  return whole;
}

/** Whether an expression asks for another, itself or through others. */
function reaches(
  from: string,
  to: string,
  entries: ReadonlyMap<string, Entry>,
  seen = new Set<string>(),
): boolean {
  if (seen.has(from)) return false;
  seen.add(from);
  const asks = entries.get(from)?.asks ?? [];
  return asks.includes(to) || asks.some((one) => reaches(one, to, entries, seen));
}
