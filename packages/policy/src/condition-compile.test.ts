import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compile, compileCondition } from './condition-compile.js';
import { factKinds, type Facts, type QuantityRange, type StaticFactName } from './facts.js';

const exact = (value: string, unit: string): QuantityRange => ({
  low: value,
  lowIncluded: true,
  high: value,
  highIncluded: true,
  unit,
});
const anc = (value: string, unit = '10*9/L') => exact(value, unit);
const below = (value: string): QuantityRange => ({
  high: value,
  lowIncluded: false,
  highIncluded: false,
  unit: '10*9/L',
});
const above = (value: string): QuantityRange => ({
  low: value,
  lowIncluded: false,
  highIncluded: false,
  unit: '10*9/L',
});
const upTo = (value: string): QuantityRange => ({ ...below(value), highIncluded: true });
const from = (value: string): QuantityRange => ({ ...above(value), lowIncluded: true });

function answers(text: string, given: Facts) {
  return (['fastest', 'engine'] as const).map((way) => {
    const reading = compile([text], way);
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    return reading.condition.evaluate(given).is;
  });
}

const gauzeAndLow = "%line.dressing = 'gauze-dressing' and %labs.anc < 0.2 '10*9/L'";
const low = "%labs.anc < 0.2 '10*9/L'";
const lowInCells = "%labs.anc < 200 '{cells}/uL'";
const port = "%line.type != 'implanted-port' or %line.accessed";

describe('conditions give the same answer as closures and on the reference FHIRPath engine', () => {
  it.each<[string, Facts, 'true' | 'false' | 'unknown']>([
    [gauzeAndLow, { 'line.dressing': 'gauze-dressing', 'labs.anc': anc('0.1') }, 'true'],
    [gauzeAndLow, { 'line.dressing': 'gauze-dressing', 'labs.anc': anc('0.2') }, 'false'],
    [gauzeAndLow, { 'line.dressing': 'transparent-dressing' }, 'false'],
    [gauzeAndLow, { 'labs.anc': anc('1') }, 'false'],
    [gauzeAndLow, { 'labs.anc': anc('0.1') }, 'unknown'],
    [gauzeAndLow, {}, 'unknown'],
    // The limit itself, in both units: the library's own conversion of 200 {cells}/uL lies below 0.2 10*9/L.
    [low, { 'labs.anc': anc('200', '{cells}/uL') }, 'false'],
    [low, { 'labs.anc': anc('199', '{cells}/uL') }, 'true'],
    [lowInCells, { 'labs.anc': anc('0.2') }, 'false'],
    [lowInCells, { 'labs.anc': anc('0.199') }, 'true'],
    ["%labs.anc <= 200 '/uL'", { 'labs.anc': anc('0.2') }, 'true'],
    ["%labs.anc = 200 '/mm3'", { 'labs.anc': anc('0.2') }, 'true'],
    ["%labs.anc != 200 '/mm3'", { 'labs.anc': anc('0.2') }, 'false'],
    ["200 '/uL' > %labs.anc", { 'labs.anc': anc('0.2') }, 'false'],
    ["200 '/uL' >= %labs.anc", { 'labs.anc': anc('0.2') }, 'true'],
    ["%labs.anc >= 0.5 '10*9/L'", { 'labs.anc': anc('500', '/uL') }, 'true'],
    // Between limits: decided only where the whole range agrees.
    [low, { 'labs.anc': below('0.1') }, 'true'],
    [low, { 'labs.anc': below('0.2') }, 'true'],
    [low, { 'labs.anc': upTo('0.2') }, 'unknown'],
    [low, { 'labs.anc': below('0.5') }, 'unknown'],
    [low, { 'labs.anc': above('10') }, 'false'],
    [low, { 'labs.anc': from('0.2') }, 'false'],
    [low, { 'labs.anc': above('0.1') }, 'unknown'],
    ["%labs.anc <= 0.2 '10*9/L'", { 'labs.anc': above('0.2') }, 'false'],
    ["%labs.anc <= 0.2 '10*9/L'", { 'labs.anc': from('0.2') }, 'unknown'],
    ["%labs.anc = 0.2 '10*9/L'", { 'labs.anc': upTo('0.2') }, 'unknown'],
    ["%labs.anc = 0.2 '10*9/L'", { 'labs.anc': below('0.2') }, 'false'],
    ["%labs.anc = 0.2 '10*9/L'", { 'labs.anc': below('0.5') }, 'unknown'],
    ["%labs.anc != 0.2 '10*9/L'", { 'labs.anc': above('0.1') }, 'unknown'],
    ["%labs.anc < 0.2 '10*9/L' or %labs.anc >= 0.2 '10*9/L'", { 'labs.anc': below('0.5') }, 'true'],
    [gauzeAndLow, { 'line.dressing': 'no-dressing', 'labs.anc': below('0.5') }, 'false'],
    ['%labs.anc.exists()', { 'labs.anc': below('0.5') }, 'true'],
    // A unit that does not convert leaves the fact unknown.
    [low, { 'labs.anc': anc('0.1', 'kg') }, 'unknown'],
    [low, { 'labs.anc': { ...below('0.1'), unit: 'kg' } }, 'unknown'],
    [low, { 'labs.anc': { ...above('10'), unit: 'kg' } }, 'unknown'],
    [port, { 'line.type': 'picc' }, 'true'],
    [port, { 'line.type': 'implanted-port', 'line.accessed': true }, 'true'],
    [port, { 'line.type': 'implanted-port', 'line.accessed': false }, 'false'],
    [port, { 'line.type': 'implanted-port' }, 'unknown'],
    [port, { 'line.accessed': true }, 'true'],
    [port, { 'line.accessed': false }, 'unknown'],
    ['%line.accessed.not()', { 'line.accessed': false }, 'true'],
    ['%line.accessed = false', { 'line.accessed': false }, 'true'],
    ['%line.accessed != true', {}, 'unknown'],
    ["%line.type in ('picc' | 'midline')", { 'line.type': 'midline' }, 'true'],
    ["%line.type in ('picc' | 'midline')", { 'line.type': 'tunneled-cvc' }, 'false'],
    ["%line.type in ('picc' | 'midline')", {}, 'unknown'],
    ["('picc' | 'midline') contains %line.type", { 'line.type': 'picc' }, 'true'],
    ["(%line.type in ('picc' | 'midline')).not()", {}, 'unknown'],
    ["%lumen.use != 'infusing'", { 'lumen.use': 'locked' }, 'true'],
    ["%lumen.use != 'infusing'", {}, 'unknown'],
    ['%line.dressing.exists()', {}, 'false'],
    ['%line.dressing.empty()', {}, 'true'],
    ['%line.dwellDays > 3', { 'line.dwellDays': 3 }, 'false'],
    ['%line.dwellDays >= 3', { 'line.dwellDays': 3 }, 'true'],
    ['3 < %line.dwellDays', { 'line.dwellDays': 4 }, 'true'],
    ['%line.dwellDays > -1', { 'line.dwellDays': 0 }, 'true'],
    ['%line.dwellDays < -1', { 'line.dwellDays': 0 }, 'false'],
    ['%line.dwellDays > +1', { 'line.dwellDays': 2 }, 'true'],
    ['-%line.dwellDays < -2', { 'line.dwellDays': 3 }, 'true'],
    ['%line.dwellDays > -%line.lumenCount', { 'line.dwellDays': 3, 'line.lumenCount': 2 }, 'true'],
    ['-%line.dwellDays < -2', { 'line.dwellDays': 2 }, 'false'],
    ['%patient.ageDays < 60 implies %line.cuffed', { 'patient.ageDays': 61 }, 'true'],
    ['%patient.ageDays < 60 implies %line.cuffed', { 'patient.ageDays': 59 }, 'unknown'],
    ['%patient.ageDays < 60 implies %line.cuffed', { 'line.cuffed': true }, 'true'],
    ['%line.cuffed xor %line.accessed', { 'line.cuffed': true, 'line.accessed': false }, 'true'],
    ['%line.cuffed xor %line.accessed', { 'line.cuffed': true }, 'unknown'],
    ["%patient.weight < 3000 'g'", { 'patient.weight': exact('2.9', 'kg') }, 'true'],
    ["%lumen.primingVolume <= 1 'mL'", { 'lumen.primingVolume': exact('1000', 'uL') }, 'true'],
    ["%lumen.primingVolume <= 1 'mL'", { 'lumen.primingVolume': exact('1.01', 'mL') }, 'false'],
    ["%line.externalLengthChange >= 2 'cm'", { 'line.externalLengthChange': exact('20', 'mm') }, 'true'],
    ["%line.externalLengthChange >= 2 'cm'", { 'line.externalLengthChange': exact('19', 'mm') }, 'false'],
    ["%patient.weight < 3000 'g'", { 'patient.weight': exact('3', 'kg') }, 'false'],
    // 1 [oz_av] is 0.028349523125 kg: limits are held to 8 places, in both ways.
    ["%patient.weight < 1 '[oz_av]'", { 'patient.weight': exact('0.02834952', 'kg') }, 'false'],
    ["%patient.weight = 1 '[oz_av]'", { 'patient.weight': exact('0.02834952', 'kg') }, 'true'],
    ['true', {}, 'true'],
    ['false', {}, 'false'],
    // These shapes have no closure: both ways are the engine.
    ["%line.type.startsWith('tunneled')", { 'line.type': 'tunneled-cvc' }, 'true'],
    ["%line.type.startsWith('tunneled')", {}, 'unknown'],
    ['%line.dwellDays in (1 | 2)', { 'line.dwellDays': 2 }, 'true'],
    ["%labs.anc * 2 < 400 '/uL'", { 'labs.anc': anc('0.19') }, 'true'],
    ["%labs.anc * 2 < 400 '/uL'", { 'labs.anc': below('0.1') }, 'unknown'],
    ['%labs.anc < %labs.platelets', { 'labs.anc': anc('1'), 'labs.platelets': anc('20') }, 'true'],
    ['%labs.anc < %labs.platelets', { 'labs.anc': below('1'), 'labs.platelets': anc('20') }, 'unknown'],
    [
      'iif(%line.cuffed, %line.dwellDays > 10, %line.dwellDays > 5)',
      { 'line.cuffed': false, 'line.dwellDays': 7 },
      'true',
    ],
  ])('%s of %j is %s', (text, given, expected) => {
    expect(answers(text, given)).toEqual([expected, expected]);
  });

  const codeFacts = (Object.keys(factKinds) as StaticFactName[]).flatMap((name) => {
    const kind = factKinds[name];
    return kind.kind === 'code' ? [{ name, codes: [...kind.codes] as string[] }] : [];
  });
  const quantityNames = ['labs.anc', 'labs.platelets'] as const;
  const amounts = fc.constantFrom('0', '0.1', '0.2', '0.5', '1', '20', '200');
  const literals = fc.constantFrom(
    "0.1 '10*9/L'",
    "200 '{cells}/uL'",
    "0.2 '10*9/L'",
    "0.5 '10*3/uL'",
    "20 '10*9/L'",
  );
  const operators = fc.constantFrom('<', '<=', '>', '>=', '=', '!=');

  const leaf = fc.oneof(
    fc.constantFrom(...codeFacts).chain(({ name, codes }) =>
      fc.oneof(
        fc
          .tuple(fc.constantFrom('=', '!='), fc.constantFrom(...codes))
          .map(([op, code]) => `%${name} ${op} '${code}'`),
        fc
          .subarray(codes, { minLength: 1 })
          .map((list) => `%${name} in (${list.map((code) => `'${code}'`).join(' | ')})`),
        fc.constantFrom(`%${name}.exists()`, `%${name}.empty()`),
      ),
    ),
    fc.constantFrom(
      '%line.cuffed',
      '%line.accessed',
      '%line.accessed = false',
      '%line.used.not()',
      'true',
      'false',
    ),
    fc.tuple(operators, fc.integer({ min: 0, max: 9 })).map(([op, n]) => `%line.dwellDays ${op} ${n}`),
    fc
      .tuple(fc.constantFrom(...quantityNames), operators, literals)
      .map(([name, op, literal]) => `%${name} ${op} ${literal}`),
    fc.tuple(operators, literals).map(([op, literal]) => `${literal} ${op} %labs.anc`),
  );
  const { condition } = fc.letrec<{ condition: string }>((tie) => ({
    condition: fc.oneof(
      { maxDepth: 3, withCrossShrink: true },
      leaf,
      fc
        .tuple(tie('condition'), fc.constantFrom('and', 'or', 'xor', 'implies'), tie('condition'))
        .map(([a, op, b]) => `(${a}) ${op} (${b})`),
      tie('condition').map((a) => `(${a}).not()`),
    ),
  }));

  const maybe = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined, freq: 3 });
  const range = fc
    .tuple(maybe(amounts), maybe(amounts), fc.boolean(), fc.boolean(), fc.boolean())
    .map(([a, b, point, l, h]): QuantityRange | undefined => {
      if (a === undefined && b === undefined) return undefined;
      if (point) return anc(a ?? b ?? '0');
      if (a !== undefined && b !== undefined && Number(a) >= Number(b)) return anc(a);
      return {
        ...(a === undefined ? {} : { low: a }),
        ...(b === undefined ? {} : { high: b }),
        lowIncluded: l,
        highIncluded: h,
        unit: '10*9/L',
      };
    });
  const someFacts = fc
    .record({
      codes: fc.tuple(
        ...codeFacts.map(({ name, codes }) =>
          maybe(fc.constantFrom(...codes)).map((value) => [name, value] as const),
        ),
      ),
      cuffed: maybe(fc.boolean()),
      accessed: maybe(fc.boolean()),
      used: maybe(fc.boolean()),
      dwellDays: maybe(fc.integer({ min: 0, max: 9 })),
      anc: range,
      platelets: range,
    })
    .map(({ codes, anc: count, platelets, ...line }): Facts => {
      const all = [
        ...Object.entries(line).map(([name, value]) => [`line.${name}`, value] as const),
        ['labs.anc', count] as const,
        ['labs.platelets', platelets] as const,
        ...codes,
      ];
      return Object.fromEntries(all.filter(([, value]) => value !== undefined));
    });

  it('for any combination of common shapes and any facts', () => {
    fc.assert(
      fc.property(condition, someFacts, (text, given) => {
        const closure = compile([text], 'fastest');
        const engine = compile([text], 'engine');
        if (!closure.ok || !engine.ok) throw new Error(JSON.stringify([closure, engine]));
        expect(closure.condition.via).toBe('closure');
        expect(engine.condition.via).toBe('engine');
        expect(closure.condition.evaluate(given).is).toBe(engine.condition.evaluate(given).is);
      }),
      { numRuns: 400 },
    );
  });

  it('a true or false answer stays when a missing fact becomes known', () => {
    fc.assert(
      fc.property(condition, someFacts, someFacts, (text, known, more) => {
        const reading = compileCondition([text]);
        // Whether a fact is on record is the one thing that learning it changes.
        if (!reading.ok || /exists|empty/.test(text)) return;
        const before = reading.condition.evaluate(known);
        const after = reading.condition.evaluate({ ...more, ...known });
        if (before.is !== 'unknown') expect(after.is).toBe(before.is);
      }),
    );
  });
});

describe('compileCondition', () => {
  it('always holds where there is no expression', () => {
    const reading = compileCondition([]);
    expect(reading).toMatchObject({ ok: true, condition: { text: '', uses: [], via: 'closure' } });
    if (reading.ok) expect(reading.condition.evaluate({})).toEqual({ is: 'true' });
  });

  it('joins several by and, and names the facts that it uses and misses', () => {
    const reading = compileCondition([low, "%line.dressing = 'gauze-dressing'"]);
    if (!reading.ok) throw new Error('refused');
    expect(reading.condition.text).toBe(`(${low}) and (%line.dressing = 'gauze-dressing')`);
    expect(reading.condition.uses).toEqual(['labs.anc', 'line.dressing']);
    expect(reading.condition.evaluate({})).toEqual({
      is: 'unknown',
      missing: ['labs.anc', 'line.dressing'],
    });
    expect(
      reading.condition.evaluate({ 'line.dressing': 'gauze-dressing', 'labs.anc': below('0.5') }),
    ).toEqual({
      is: 'unknown',
      missing: ['labs.anc'],
    });
    expect(reading.condition.evaluate({ 'line.dressing': 'no-dressing' })).toEqual({ is: 'false' });
  });

  it.each(['fastest', 'engine'] as const)('names only the facts that are missing (%s)', (way) => {
    const reading = compile(["%line.dressing = 'gauze-dressing' and %line.accessed"], way);
    if (!reading.ok) throw new Error('refused');
    expect(reading.condition.evaluate({ 'line.accessed': true })).toEqual({
      is: 'unknown',
      missing: ['line.dressing'],
    });
  });

  it.each([
    ["%line.dresing = 'gauze-dressing'", '%line.dresing is not a fact.', 'Did you mean %line.dressing?'],
    ['%lien.accessed', '%lien is not known.', 'Did you mean %line.accessed?'],
    ["%line.type = 'pick'", "'pick' is not a value of %line.type.", 'Did you mean picc?'],
    [
      "%line.type in ('picc' | 'mid-line')",
      "'mid-line' is not a value of %line.type.",
      'Did you mean midline?',
    ],
    ["%labs.anc < 0.2 'kg'", "'kg' is not a unit that can be converted.", '10*9/L'],
    ["%labs.anc < 0.2 'G/l'", "'G/l' is not a unit that can be converted.", '10*9/L'],
    ['%labs.anc < 200', 'has no unit', "'10*9/L'"],
    ['%labs.anc < 3 days', 'has no unit', "'10*9/L'"],
    ['%line.dwellDays < 3 days', '%line.dwellDays is a whole number', 'without a unit'],
    ["%line.type = ('picc' | 'midline')", 'never holds', "in ('picc' | 'midline')"],
    ["%line.type ~ 'picc'", 'takes an unknown fact as false', '='],
    ["%line.type < 'picc'", 'codes have no order', '='],
    ["%line.accessed = 'true'", 'is true or false', '%line.accessed.not()'],
    ['%line.accessed < true', 'has no order', '%line.accessed.not()'],
    ["line.type = 'picc'", 'line is not a fact.', '%line'],
    ['%line', 'by itself', '%line.type'],
    ['%resource.id', '%resource', 'Use one of'],
    ['%labs.anc.value < 3', 'part of a value', 'no parts'],
    ['today() > @2026-01-01', 'reads a clock', 'facts'],
    ["%line.type.memberOf('http://x')", 'reads from a server', 'facts'],
    ["%line.type.repeat($this & 'a').exists()", 'come to an end', 'facts'],
    ['%line.type', 'not true or false', '%line.dressing'],
    ['%line.accessed.frob()', 'frob', '%line.dressing'],
    ['%found.damge.exists()', '%found.damge is not a fact.', 'Did you mean %found.damage?'],
    ['%found.bloodReturn.brisc.exists()', 'is not a fact', 'Did you mean %found.bloodReturn.brisk?'],
    ['%last.tipConfirmd.empty()', 'is not a fact', 'Did you mean %last.tipConfirmation?'],
    ['%latest.migration', '%latest.migration is not a fact', 'Did you mean'],
    ["%latest.bodyTemperature >= 38.0 'mm'", "'mm' is not a unit that can be converted.", 'Cel'],
    // What the first edition of the language asked for.
    ['%line.tipConfirmed', '%line.tipConfirmed is a fact no longer.', '%last.tipConfirmation.exists()'],
    ['%line.incisionHealed', 'is a fact no longer', '%latest.incisionHealed'],
    ['%line.asepticInsertion.not()', 'is a fact no longer', '%latest.asepticInsertion'],
    ['%line.signDwellDays > 2', 'is a fact no longer', '%line.dwellDays in a condition of kind start'],
    ['%lumen.lookMinutesAfterDose >= 120', 'is a fact no longer', '%last.occlusionTreatment + 120 minutes'],
    ['%line.accessed and (', 'not FHIRPath', '%line.dressing'],
    ['', 'empty', '%line.dressing'],
    ['('.repeat(5000), 'more than', 'several'],
  ])('refuses %s', (text, message, cure) => {
    const reading = compileCondition([text]);
    if (reading.ok) throw new Error('accepted');
    expect(reading.problems[0]?.message).toContain(message);
    expect(reading.problems[0]?.cure).toContain(cure);
  });

  it('says which of several expressions is wrong', () => {
    const reading = compileCondition([low, '%labs.ank < 1']);
    expect(reading).toMatchObject({ ok: false, problems: [{ expression: 1 }] });
  });

  it('never throws', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), condition0()), (text) => {
        const reading = compileCondition([text]);
        if (reading.ok) expect(typeof reading.condition.evaluate({}).is).toBe('string');
        else expect(reading.problems.length).toBeGreaterThan(0);
      }),
    );
  });
});

/** Texts made of the words of conditions in any order: most are wrong in their own way. */
function condition0() {
  const words = fc.constantFrom(
    '%line',
    '.type',
    '%labs.anc',
    '=',
    '<',
    "'picc'",
    '0.2',
    "0.2 '10*9/L'",
    '(',
    ')',
    'and',
    'or',
    '.not()',
    '|',
    'in',
    '%x',
    '-',
    '{}',
    '*',
    '3 days',
  );
  return fc.array(words, { maxLength: 9 }).map((list) => list.join(' '));
}
