import { describe, expect, it } from 'vitest';
import {
  edited,
  operandOf,
  parse,
  Places,
  sides,
  stringLiteral,
  strip,
  unquoted,
  variableName,
  variablesIn,
  type Operand,
} from './tree.js';

/** What a text is, without its place in the tree. */
function operand(text: string): Record<string, unknown> {
  const { node, ...rest } = { node: undefined, ...operandOf(parse(text)) } as Operand & { node?: unknown };
  expect(node === undefined).toBe(rest.kind !== 'fact' && rest.kind !== 'quantity');
  return rest;
}
const fact = (name: string) => {
  const [group, ...members] = name.split('.');
  return { kind: 'fact', group, member: members.join('.'), name };
};

// FHIRPath 2.0 (HL7): literals, their escapes, and environment variables, quoted or not.
describe('a part of a condition', () => {
  it.each<[string, Record<string, unknown>]>([
    ["'picc'", { kind: 'string', value: 'picc' }],
    ["''", { kind: 'string', value: '' }],
    [String.raw`'it\'s'`, { kind: 'string', value: "it's" }],
    ['12', { kind: 'number', value: 12 }],
    ['1.50', { kind: 'number', value: 1.5 }],
    ['-12', { kind: 'number', value: -12 }],
    ['+12', { kind: 'number', value: 12 }],
    ['-(12)', { kind: 'number', value: -12 }],
    ["-'a'", { kind: 'other' }],
    ['-%labs.anc', { kind: 'other' }],
    ["-(2 'cm')", { kind: 'other' }],
    ['true', { kind: 'boolean', value: true }],
    ['false', { kind: 'boolean', value: false }],
    ["2.50 'cm'", { kind: 'quantity', value: '2.50', unit: 'cm', calendar: false }],
    ['3 days', { kind: 'quantity', value: '3', unit: 'days', calendar: true }],
    ["('a' | 'b')", { kind: 'set', values: ['a', 'b'] }],
    ["('a' | ('b' | 'c'))", { kind: 'set', values: ['a', 'b', 'c'] }],
    ["('a' | 1)", { kind: 'other' }],
    ["(1 | 'a')", { kind: 'other' }],
    ['%began', fact('began')],
    ['%labs.anc', fact('labs.anc')],
    ['(%labs . anc)', fact('labs.anc')],
    ['%found.bloodReturn.brisk', fact('found.bloodReturn.brisk')],
    ['%`labs`.`anc`', fact('labs.anc')],
    ["%'labs'.anc", fact('labs.anc')],
    ['%labs.anc.exists()', { kind: 'other' }],
    ['%labs.exists().anc', { kind: 'other' }],
    ['%a + %b', { kind: 'other' }],
    ['anc', { kind: 'other' }],
  ])('%s is %j', (text, expected) => {
    expect(operand(text)).toEqual(expected);
    // From what was parsed before, too.
    expect(operand(text)).toEqual(expected);
  });

  it.each([
    [String.raw`'a\nb'`, 'a\nb'],
    [String.raw`'\r\t\f'`, '\r\t\f'],
    [String.raw`'\u00e4\u20AC'`, 'ä€'],
    [String.raw`'\\n'`, '\\n'],
    [String.raw`'\'\"\/'`, '\'"/'],
    [String.raw`'\u00e'`, 'u00e'],
    [String.raw`'\unit'`, 'unit'],
    [String.raw`'tau'`, 'tau'],
  ])('%s says %j', (literal, value) => {
    expect(unquoted(literal)).toBe(value);
  });

  it('is a text only where it is nothing else', () => {
    expect([stringLiteral("'a'"), stringLiteral(" ('a') ")]).toEqual(['a', 'a']);
    for (const other of ["'a' + 'b'", '1', "'a", '', '%a'])
      expect([other, stringLiteral(other)]).toEqual([other, undefined]);
  });

  it('has two sides, or is none of two', () => {
    const pair = sides(strip(parse('%a and %b')));
    expect(pair?.map((one) => variablesIn(one).map(({ name }) => name))).toEqual([['a'], ['b']]);
    expect(sides({ type: 'x' })).toBeUndefined();
    expect(sides({ type: 'x', children: [{ type: 'y' }] })).toBeUndefined();
    expect(sides({ type: 'x', children: [{ type: 'y' }, { type: 'y' }, { type: 'y' }] })).toBeUndefined();
  });

  it('names its variables, each time that it asks for one', () => {
    const text = "%labs.anc < 1 and (%'line'.type = 'a' or %labs.anc.exists()) and %n";
    expect(variablesIn(parse(text)).map(({ name }) => name)).toEqual([
      'labs.anc',
      'line.type',
      'labs.anc',
      'n',
    ]);
    expect(variablesIn(parse('1 + 1 = 2'))).toEqual([]);
    expect(variableName({ type: 'x' })).toBe('');
  });

  it('is read anew after many thousand others', () => {
    const first = parse('%n0 > 0');
    for (let index = 0; index < 1_005; index += 1) parse(`%n${index} > ${index}`);
    expect(variablesIn(parse('%n0 > 0'))).toEqual(variablesIn(first));
    expect(() => parse('%n >')).toThrow(/./);
  });
});

// The words of a condition are put in at the places where its names stand: one place off, and another condition is kept.
describe('the place of a variable', () => {
  const stretches = (text: string) => {
    const places = new Places(text);
    return variablesIn(parse(text)).map(({ node }) => {
      const stretch = places.ofVariable(node);
      return stretch && text.slice(stretch.from, stretch.to);
    });
  };

  it.each<[string, (string | undefined)[]]>([
    ['%n', ['%n']],
    ['  %n and %labs.anc > 1', ['%n', '%labs.anc']],
    ['%a\n  or\n\n %found.bloodReturn.brisk >= %began', ['%a', '%found.bloodReturn.brisk', '%began']],
    ['%labs . anc > 1', ['%labs . anc']],
    ['%`labs`.`anc` > 1', ['%`labs`.`anc`']],
    ['%labs.`a` > 1', ['%labs.`a`']],
    ['(%labs).anc > 1', [undefined]],
    ['%labs /* %a */ .anc > 1', [undefined]],
  ])('%j: %j', (text, expected) => {
    expect(stretches(text)).toEqual(expected);
  });

  it('is none where the tree does not say where it stands', () => {
    const places = new Places('%a\n%b');
    expect(places.startOf({ type: 'x' })).toBeUndefined();
    expect(places.startOf({ type: 'x', start: { line: 3, column: 1 } })).toBeUndefined();
    expect(places.startOf({ type: 'x', start: { line: 2, column: 2 } })).toBe(4);
    const start = { line: 1, column: 1 };
    const name = { type: 'x', start: { line: 1, column: 2 }, length: 1 };
    const root = (more: object, of?: object) => ({
      type: 'ExternalConstantTerm',
      ...more,
      children: [{ type: 'x', ...(of === undefined ? {} : { children: [of as typeof name] }) }],
    });
    expect(places.ofVariable(root({ start }, name))).toEqual({ from: 0, to: 2 });
    expect(places.ofVariable(root({}, name))).toBeUndefined();
    expect(places.ofVariable(root({ start }))).toBeUndefined();
    expect(places.ofVariable(root({ start }, { type: 'x', length: 1 }))).toBeUndefined();
    expect(places.ofVariable(root({ start }, { type: 'x', start }))).toBeUndefined();
    expect(places.ofVariable({ type: 'ExternalConstantTerm', start })).toBeUndefined();
    expect(places.ofVariable({ type: 'ExternalConstantTerm', start, children: [] })).toBeUndefined();
    expect(places.ofVariable({ type: 'InvocationExpression', start })).toBeUndefined();
    expect(
      places.ofVariable({ type: 'InvocationExpression', children: [root({ start }, name)] }),
    ).toBeUndefined();
  });

  it('is where other words are put in, however many', () => {
    const by = (from: number, to: number, words: string) => ({ from, to, by: words });
    expect(edited('%a or %b', [by(0, 2, '(long)'), by(6, 8, '1')])).toBe('(long) or 1');
    expect(edited('%a or %b', [by(6, 8, '1'), by(0, 2, '(long)')])).toBe('(long) or 1');
    expect(edited('%a', [])).toBe('%a');
  });
});
