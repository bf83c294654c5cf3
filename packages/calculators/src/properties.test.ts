import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CalculatorName, calculators } from './catalog.js';
import {
  type Decimal,
  compare,
  decimal,
  divide,
  minus,
  parseDecimal,
  plus,
  times,
  toText,
} from './lib/decimal.js';
import { CalculatorError } from './lib/error.js';
import type { Spec, Specs } from './lib/input.js';

// `npm run show:calculators` raises the number, so that all calculators together take a million inputs.
const runs = Number(process.env['PROPERTY_RUNS'] ?? 60);
const names = Object.keys(calculators) as CalculatorName[];

type Input = Readonly<Record<string, unknown>>;
type Output = Readonly<Record<string, unknown>>;

const run = (name: CalculatorName, input: unknown): Output =>
  calculators[name].run(input) as unknown as Output;

/** The output, or undefined where the calculator refuses; any other error is a failure. */
function attempt(name: CalculatorName, input: unknown): Output | undefined {
  try {
    return run(name, input);
  } catch (error) {
    if (error instanceof CalculatorError) return undefined;
    throw error;
  }
}

/** A decimal between two others, at a thousandth of the way, as text; the ends come up often. */
function between(min: string, max: string): fc.Arbitrary<string> {
  const span = minus(decimal(max), decimal(min));
  const at = (thousandths: number): Decimal =>
    plus(decimal(min), divide(times(span, decimal(String(thousandths))), decimal('1000'), 5, 'down'));
  // Small values matter most where the range spans many powers of ten.
  const low = fc
    .integer({ min: 1, max: 999 })
    .map((n) => plus(decimal(min), times(span, decimal(`${n}e-6`))));
  const text = fc.integer({ min: 0, max: 1000 }).map(at);
  return fc.oneof({ weight: 4, arbitrary: text }, { weight: 2, arbitrary: low }).map(toText);
}

const dates = fc.integer({ min: 0, max: 800 }).map((n) => new Date(Date.UTC(2026, 0, 1 + n)).toISOString());

function accepted(spec: Spec): fc.Arbitrary<unknown> {
  switch (spec.kind) {
    case 'quantity':
      return between(spec.min, spec.max).chain((text) => fc.constantFrom<unknown>(text, Number(text)));
    case 'whole':
      return fc.oneof(
        fc.integer({ min: Number(spec.min), max: Number(spec.max) }),
        fc.integer({ min: Number(spec.min), max: Math.min(Number(spec.max), Number(spec.min) + 40) }),
      );
    case 'choice':
      return fc.constantFrom(...spec.choices);
    case 'flag':
      return fc.boolean();
    case 'date':
      return dates.map((text) => text.slice(0, 10));
    case 'local-time':
      return fc.tuple(dates, fc.integer({ min: 0, max: 1439 })).map(([text, minutes]) => {
        const clock = new Date(minutes * 60_000).toISOString().slice(11, 16);
        return `${text.slice(0, 10)}T${clock}`;
      });
    case 'name':
      return fc.constantFrom('red', 'white', 'blue', 'proximal', 'distal', 'middle');
    case 'list':
      return fc.array(inputFor(spec.of), {
        minLength: spec.minEntries,
        maxLength: Math.max(spec.minEntries, Math.min(spec.maxEntries, 5)),
      });
  }
}

/** Inputs that are each accepted; together they may still be refused. */
function inputFor(specs: Specs): fc.Arbitrary<Input> {
  const entries = Object.entries(specs);
  const required = entries.filter(([, spec]) => spec.optional !== true).map(([key]) => key);
  return fc.record(Object.fromEntries(entries.map(([key, spec]) => [key, accepted(spec)])), {
    requiredKeys: required,
    noNullPrototype: true,
  }) as fc.Arbitrary<Input>;
}

const amongst = (...keys: readonly string[]): fc.Arbitrary<Input> => {
  const { inputs } = calculators['absolute-neutrophil-count'];
  return fc.record(Object.fromEntries(keys.map((key) => [key, accepted((inputs as Specs)[key]!)])), {
    noNullPrototype: true,
  }) as fc.Arbitrary<Input>;
};

// Left to chance, hardly any set of its many optional inputs would go together.
const neutrophilInput = fc
  .tuple(
    fc.oneof(amongst('leucocytesPerUl'), amongst('leucocytes', 'leucocytesUnit')),
    fc.oneof(
      amongst('segmentedPercent', 'bandsPercent'),
      amongst('segmentedPercent'),
      amongst('neutrophilsPercent'),
    ),
  )
  .map(([leucocytes, differential]) => ({ ...leucocytes, ...differential }));

const likelyFor = (name: CalculatorName): fc.Arbitrary<Input> => {
  const any = inputFor(calculators[name].inputs);
  return name === 'absolute-neutrophil-count'
    ? fc.oneof({ weight: 4, arbitrary: neutrophilInput }, any)
    : any;
};

const junk = fc.oneof(
  fc.constantFrom<unknown>(
    '',
    '-1',
    'NaN',
    NaN,
    Infinity,
    -Infinity,
    -0,
    1e308,
    '1e999',
    '1e-999',
    null,
    [],
    {},
    '2026-02-30',
  ),
  fc.constantFrom<unknown>(
    '0',
    '1e40',
    '-1e-40',
    '9'.repeat(41),
    '0.5 mL',
    '½',
    '٣',
    true,
    5n,
    Symbol('x'),
    () => 1,
  ),
  fc.anything(),
);

/** Inputs with something wrong in most of them. */
function wildFor(specs: Specs): fc.Arbitrary<unknown> {
  const entries = Object.entries(specs);
  const each = entries.map(
    ([key, spec]) =>
      [key, fc.oneof({ weight: 5, arbitrary: accepted(spec) }, { weight: 1, arbitrary: junk })] as const,
  );
  const record = fc.record(Object.fromEntries(each), { requiredKeys: [], noNullPrototype: true });
  const extra = fc
    .tuple(record, fc.string(), junk)
    .map(([input, key, value]) => ({ ...input, [key]: value }));
  return fc.oneof(
    { weight: 6, arbitrary: record },
    { weight: 1, arbitrary: extra },
    { weight: 1, arbitrary: junk },
  );
}

function everyText(value: unknown): readonly unknown[] {
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(everyText) : [value];
}

function soundResult(name: CalculatorName, output: Output): void {
  const { value, unit, cautions, source, steps } = output as {
    value: unknown;
    unit: unknown;
    cautions: readonly unknown[];
    source: unknown;
    steps: readonly unknown[];
  };
  for (const each of everyText(output)) {
    if (typeof each === 'number' && !(Number.isInteger(each) && each >= 0)) throw new Error(`number ${each}`);
    if (typeof each === 'string' && /NaN|undefined|Infinity|\[object|(^|[ (])-\d/.test(each))
      throw new Error(each);
    if (each === '' && name !== 'precipitate-agent' && unit !== '') throw new Error('empty text');
  }
  const word = typeof value === 'string' && value !== '';
  const amount = typeof value === 'string' && /^(0|[1-9]\d*)(\.\d*[1-9])?$/.test(value);
  if (!(word || typeof value === 'number')) throw new Error('no value');
  if (calculators[name].unit.match(/^(mL|mm|%|kPa|U|U\/d|\/uL|cm|mg|mL\/min|\[Ch\])$/) && !amount) {
    throw new Error(`not an amount: ${String(value)}`);
  }
  if (typeof unit !== 'string' || typeof source !== 'string' || source === '')
    throw new Error('no unit or source');
  if (cautions.length === 0 || steps.length === 0) throw new Error('no caution or no step');
}

describe.each(names)('%s', (name) => {
  const { inputs } = calculators[name];
  it('answers soundly, the same each time, or refuses with its own error; whatever comes in', () => {
    let answered = 0;
    fc.assert(
      fc.property(likelyFor(name), (input) => {
        const before = JSON.stringify(input);
        const output = attempt(name, input);
        if (output === undefined) return;
        answered += 1;
        soundResult(name, output);
        expect(attempt(name, input)).toEqual(output);
        expect(JSON.stringify(input)).toBe(before);
      }),
      { numRuns: runs },
    );
    fc.assert(
      fc.property(wildFor(inputs), (input) => {
        const output = attempt(name, input);
        if (output !== undefined) soundResult(name, output);
      }),
      { numRuns: runs },
    );
    expect(answered).toBeGreaterThan(0);
  });
});

describe('the way a number is written', () => {
  it.each(names)('changes nothing in %s', (name) => {
    const rewritten = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(rewritten);
      if (typeof value === 'object' && value !== null) {
        return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, rewritten(each)]));
      }
      if (typeof value === 'number') return `0${value}${String(value).includes('.') ? '00' : '.00'}`;
      return typeof value === 'string' && /^\d+(\.\d+)?$/.test(value) ? `${value}e0` : value;
    };
    fc.assert(
      fc.property(likelyFor(name), (input) => {
        fc.pre(!JSON.stringify(input).includes('e-'));
        expect(attempt(name, rewritten(input))).toEqual(attempt(name, input));
      }),
      { numRuns: 30 },
    );
  });
});

type Direction = 'rises' | 'falls';

/** Calculator, input that grows, result that must not go the other way. */
const monotone: readonly (readonly [CalculatorName, string, Direction, string?])[] = [
  ['french-to-mm', 'french', 'rises'],
  ['mm-to-french', 'outerDiameterMm', 'rises'],
  ['mm-to-gauge', 'outerDiameterMm', 'falls'],
  ['gauge-to-mm', 'gauge', 'falls'],
  ['gauge-to-mm', 'gauge', 'falls', 'innerDiameterMm'],
  ['lumen-volume', 'innerDiameterMm', 'rises'],
  ['lumen-volume', 'lengthCm', 'rises'],
  ['pressure-in-kpa', 'pressure', 'rises'],
  ['poiseuille-flow', 'innerDiameterMm', 'rises'],
  ['poiseuille-flow', 'pressure', 'rises'],
  ['poiseuille-flow', 'viscosityMPaS', 'falls'],
  ['poiseuille-flow', 'lengthCm', 'falls'],
  ['poiseuille-flow', 'densityKgPerL', 'rises', 'reynoldsNumber'],
  ['catheter-to-vein-ratio', 'catheterFrench', 'rises'],
  ['catheter-to-vein-ratio', 'veinDiameterMm', 'falls'],
  ['flush-volume', 'catheterVolumeMl', 'rises'],
  ['flush-volume', 'addOnVolumeMl', 'rises'],
  ['lock-volume', 'catheterVolumeMl', 'rises'],
  ['lock-volume', 'addOnVolumeMl', 'rises'],
  ['lock-volume', 'catheterVolumeMl', 'rises', 'onSyringeMl'],
  ['flush-volume', 'catheterVolumeMl', 'rises', 'onSyringeMl'],
  ['measurable-volume', 'volumeMl', 'rises'],
  ['push-pull-cycle', 'deadSpaceMl', 'rises'],
  ['push-pull-cycle', 'weightKg', 'rises', 'mostMl'],
  ['syringe-pressure', 'forceN', 'rises'],
  ['syringe-pressure', 'barrelDiameterMm', 'falls'],
  ['heparin-per-lock', 'concentrationUnitsPerMl', 'rises'],
  ['heparin-per-lock', 'volumeMl', 'rises'],
  ['heparin-per-day', 'weightKg', 'falls', 'unitsPerKgPerDay'],
  ['heparin-given', 'weightKg', 'falls', 'unitsPerKg'],
  ['discard-volume', 'deadSpaceMl', 'rises'],
  ['sample-total', 'discardMl', 'rises', 'drawnMl'],
  ['total-blood-volume', 'weightKg', 'rises'],
  ['total-blood-volume', 'haemoglobinGPerL', 'rises'],
  ['safe-draw-today', 'weightKg', 'rises'],
  ['safe-draw-today', 'dailyPercent', 'rises'],
  ['safe-draw-today', 'monthlyPercent', 'rises'],
  ['safe-draw-today', 'lostLast24HoursMl', 'falls'],
  ['safe-draw-today', 'lostLast30DaysMl', 'falls'],
  ['safe-draw-today', 'eightWeekPercent', 'rises'],
  ['safe-draw-today', 'lostLast8WeeksMl', 'falls'],
  ['cell-count-per-ul', 'count', 'rises'],
  ['absolute-neutrophil-count', 'leucocytesPerUl', 'rises'],
  ['absolute-neutrophil-count', 'leucocytes', 'rises'],
  ['absolute-neutrophil-count', 'segmentedPercent', 'rises'],
  ['absolute-neutrophil-count', 'bandsPercent', 'rises'],
  ['absolute-neutrophil-count', 'neutrophilsPercent', 'rises'],
  ['neutrophils-from-absolute-counts', 'segmented', 'rises'],
  ['neutrophils-from-absolute-counts', 'bands', 'rises'],
  ['neutropenia-grade', 'neutrophilsPerUl', 'falls'],
  ['thrombolytic-dose', 'weightKg', 'rises'],
  ['thrombolytic-dose', 'lumenVolumeMl', 'rises'],
  ['thrombolytic-clock', 'asOf', 'rises', 'minutesSinceInstillation'],
  ['precipitate-agent', 'lumenVolumeMl', 'rises', 'volumeMl'],
  ['segment-air-volume', 'innerDiameterMm', 'rises'],
  ['segment-air-volume', 'lengthCm', 'rises'],
  ['repair-plan', 'newSegmentLengthCm', 'rises', 'externalLengthAfterCm'],
  ['repair-plan', 'newSegmentInnerDiameterMm', 'rises', 'airToWithdrawMl'],
  ['repair-plan', 'trimCm', 'falls', 'cutAtCm'],
  ['repair-times', 'repairedAt', 'rises'],
  ['repair-times', 'noInfusionHours', 'rises'],
  ['repair-times', 'splintHours', 'rises', 'splintOffAt'],
  ['count-back-times', 'plannedAt', 'rises'],
  ['phlebitis-grade', 'pain', 'rises'],
  ['phlebitis-grade', 'erythema', 'rises'],
  ['phlebitis-grade', 'oedema', 'rises'],
  ['phlebitis-grade', 'streak', 'rises'],
  ['phlebitis-grade', 'cordLengthCm', 'rises'],
  ['phlebitis-grade', 'purulence', 'rises'],
  ['vip-score', 'pain', 'rises'],
  ['vip-score', 'erythema', 'rises'],
  ['vip-score', 'swelling', 'rises'],
  ['vip-score', 'palpableCord', 'rises'],
  ['vip-score', 'pyrexia', 'rises'],
  ['infiltration-grade', 'oedemaCm', 'rises'],
  ['infiltration-grade', 'blanched', 'rises'],
  ['infiltration-grade', 'cool', 'rises'],
  ['infiltration-grade', 'translucent', 'rises'],
  ['infiltration-grade', 'numbness', 'rises'],
  ['infiltration-grade', 'tightOrLeaking', 'rises'],
  ['infiltration-grade', 'bruised', 'rises'],
  ['infiltration-grade', 'deepPitting', 'rises'],
  ['infiltration-grade', 'circulationImpaired', 'rises'],
  ['dwell-days', 'asOfDate', 'rises'],
  ['dwell-days', 'insertedOn', 'falls'],
  ['catheter-days', 'periodTo', 'rises'],
  ['catheter-days', 'periodFrom', 'falls'],
  ['catheter-days', 'countRemovalDay', 'rises'],
  ['arm-circumference-change', 'nowCm', 'rises', 'suggestsThrombosis'],
  ['arm-circumference-change', 'atInsertionCm', 'falls', 'suggestsThrombosis'],
  ['arm-circumference-change', 'oedema', 'rises', 'suggestsThrombosis'],
  ['differential-time-to-positivity', 'lineMinutes', 'falls', 'supportsLineInfection'],
  ['differential-time-to-positivity', 'peripheralMinutes', 'rises', 'supportsLineInfection'],
  ['paired-culture-ratio', 'lineColoniesPerMl', 'rises'],
  ['paired-culture-ratio', 'peripheralColoniesPerMl', 'falls'],
];

/** Amounts, numbers and truth values compare as decimals, dates and times as the text they are. */
function order(a: unknown, b: unknown): number {
  const [x, y] = [a, b].map((each) => parseDecimal(String(typeof each === 'boolean' ? Number(each) : each)));
  if (x !== undefined && y !== undefined) return compare(x, y);
  return String(a) < String(b) ? -1 : Number(a !== b);
}

describe('monotone', () => {
  const cases = monotone.map(
    ([name, key, direction, field = 'value']) => [name, field, direction, key] as const,
  );
  it.each(cases)('%s: %s %s with %s', (name, field, direction, key) => {
    const { inputs } = calculators[name];
    const spec = (inputs as Specs)[key];
    if (spec === undefined) throw new Error(`${name} has no ${key}`);
    let compared = 0;
    fc.assert(
      fc.property(likelyFor(name), accepted(spec), accepted(spec), (input, one, other) => {
        const [low, high] = order(one, other) <= 0 ? [one, other] : [other, one];
        const before = attempt(name, { ...input, [key]: low })?.[field];
        const after = attempt(name, { ...input, [key]: high })?.[field];
        if (before === undefined || after === undefined) return;
        compared += 1;
        const change = order(after, before);
        expect(direction === 'rises' ? change >= 0 : change <= 0, `${before} to ${after}`).toBe(true);
      }),
      { numRuns: Math.max(runs, 150) },
    );
    expect(compared).toBeGreaterThan(0);
  });
});

describe('what a syringe shows', () => {
  it('is never further from the volume than one step, never on its wrong side, and always on a mark', () => {
    const sizes = ['1-ml', '3-ml', '5-ml', '10-ml', '20-ml', '50-ml'] as const;
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 50_000 }),
        fc.constantFrom(...sizes),
        fc.constantFrom('up', 'down'),
        (thousandths, leastSyringe, rounding) => {
          const volumeMl = toText(decimal(`${thousandths}e-3`));
          const shown = run('measurable-volume', { volumeMl, rounding, leastSyringe });
          const [value, step] = [Number(shown['value']), Number(shown['stepMl'])];
          const off = rounding === 'up' ? value - Number(volumeMl) : Number(volumeMl) - value;
          expect(off).toBeGreaterThanOrEqual(-1e-9);
          expect(off).toBeLessThan(step);
          expect(Math.abs(value / step - Math.round(value / step))).toBeLessThan(1e-6);
        },
      ),
    );
  });
});

describe('what may be believed', () => {
  const rank = { implausible: 0, questionable: 1, plausible: 2 } as const;
  const verdictOf = (name: CalculatorName, input: Input): number =>
    rank[run(name, input)['value'] as keyof typeof rank];
  it('a weight is believed less the further it lies from the usual, at every age', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 9000 }),
        fc.option(fc.integer({ min: 22, max: 42 }), { nil: undefined }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (ageDays, gestationWeeks, a, b) => {
          const of = (weightKg: number) =>
            verdictOf('weight-plausibility', { weightKg: weightKg.toFixed(3), ageDays, gestationWeeks });
          const limits = run('weight-plausibility', { weightKg: 5, ageDays, gestationWeeks });
          const [lowest, low, high, highest] = ['lowestKg', 'usualLowKg', 'usualHighKg', 'highestKg'].map(
            (key) => Number(limits[key]),
          ) as [number, number, number, number];
          expect([lowest, low, high, highest]).toEqual([lowest, low, high, highest].sort((x, y) => x - y));
          expect(of(low)).toBe(2);
          expect(of(high)).toBe(2);
          const [near, far] = [Math.max(a, b), Math.min(a, b)];
          expect(of(low * near)).toBeGreaterThanOrEqual(of(low * far));
          expect(of(high / near)).toBeGreaterThanOrEqual(of(high / far));
        },
      ),
      { numRuns: Math.max(runs, 300) },
    );
  });
  it('no dose of the drug comes out of a weight that nobody has', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 9000 }),
        fc.integer({ min: 20, max: 30_000 }),
        (ageDays, grams) => {
          const weightKg = toText(decimal(`${grams}e-2`));
          const dose = attempt('thrombolytic-dose', { weightKg, ageDays, lumenVolumeMl: '0.5' });
          const believed = verdictOf('weight-plausibility', { weightKg, ageDays }) > 0;
          expect(dose !== undefined).toBe(believed);
        },
      ),
      { numRuns: Math.max(runs, 300) },
    );
  });
  it('more of a count, or an INR further out, is never believed more', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('neutrophils', 'platelets', 'inr'),
        fc.integer({ min: 100, max: 500_000 }),
        fc.integer({ min: 0, max: 500_000 }),
        (of, tenths, more) => {
          const at = (n: number) =>
            verdictOf('laboratory-plausibility', { of, amount: toText(decimal(`${n}e-1`)) });
          expect(at(tenths)).toBeGreaterThanOrEqual(at(tenths + more));
        },
      ),
    );
  });
});

describe('unit-invariant', () => {
  const count = fc.integer({ min: 0, max: 90_000 }).map((n) => toText(decimal(`${n}e-3`)));
  // Two of them stay within what a neutrophil count can be.
  const half = fc.integer({ min: 0, max: 50_000 }).map((n) => toText(decimal(`${n}e-3`)));
  const share = fc.integer({ min: 0, max: 1000 }).map((n) => toText(decimal(`${n}e-1`)));
  const thousandfold = (text: string): string => toText(times(decimal(text), decimal('1000')));

  it('neutrophils come out the same whether leucocytes are in 10*9/L or per microlitre', () => {
    fc.assert(
      fc.property(count, share, (leucocytes, neutrophilsPercent) => {
        const name = 'absolute-neutrophil-count';
        const inLitres = run(name, { leucocytes, leucocytesUnit: '10*9/L', neutrophilsPercent });
        const direct = run(name, { leucocytesPerUl: thousandfold(leucocytes), neutrophilsPercent });
        expect(inLitres['value']).toBe(direct['value']);
      }),
    );
  });
  it('cell counts, and sums of them, come out the same in every spelling of a unit', () => {
    const thousands = ['10*3/uL', '10^9/L', 'K/uL', 'k/mm3', 'thou/mcL', 'x10^9/L', 'G/l'];
    fc.assert(
      fc.property(half, half, fc.constantFrom(...thousands), (a, b, countUnit) => {
        const one = run('neutrophils-from-absolute-counts', { segmented: a, bands: b, countUnit });
        const two = run('neutrophils-from-absolute-counts', {
          segmented: thousandfold(a),
          bands: thousandfold(b),
          countUnit: '/mm3',
        });
        expect(one['value']).toBe(two['value']);
        expect(run('cell-count-per-ul', { count: a, countUnit })['value']).toBe(thousandfold(a));
      }),
    );
  });
  it('flow comes out the same whether the pressure is in bar, kPa or centimetres of water', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2000 }), fc.integer({ min: 1, max: 50 }), (n, d) => {
        const flow = (pressure: string, pressureUnit: string): unknown =>
          run('poiseuille-flow', {
            innerDiameterMm: toText(decimal(`${d}e-1`)),
            lengthCm: 30,
            viscosityMPaS: '1.002',
            pressure,
            pressureUnit,
          })['value'];
        const kPa = times(decimal(String(n)), decimal('0.0980665'));
        expect(flow(String(n), 'cm[H2O]')).toBe(flow(toText(kPa), 'kPa'));
        expect(flow(toText(times(kPa, decimal('0.01'))), 'bar')).toBe(flow(toText(kPa), 'kPa'));
      }),
    );
  });
  it('a French size comes back from millimetres where it is divisible by three', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 13 }), (n) => {
        const mm = run('french-to-mm', { french: 3 * n })['value'];
        expect(run('mm-to-french', { outerDiameterMm: mm })['value']).toBe(String(3 * n));
      }),
    );
  });
  it('every gauge comes back from its outer diameter', () => {
    for (const gauge of [14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27, 28, 30]) {
      const mm = run('gauge-to-mm', { gauge })['value'];
      expect(run('mm-to-gauge', { outerDiameterMm: mm })['value']).toBe(gauge);
    }
  });
});

describe('the order of a list', () => {
  const shuffled = <T>(entry: fc.Arbitrary<T>) =>
    fc
      .array(entry, { minLength: 1, maxLength: 6 })
      .chain((entries) =>
        fc.tuple(fc.constant(entries), fc.shuffledSubarray(entries, { minLength: entries.length })),
      );
  const headline = (output: Output): Output => ({ ...output, steps: [] });

  it.each([
    ['blood-loss', 'draws', {}],
    ['neutrophil-trend', 'counts', {}],
    ['catheter-days', 'lines', { periodFrom: '2026-01-01', periodTo: '2028-03-01' }],
  ] as const)('changes no result of %s', (name, key, rest) => {
    const spec = (calculators[name].inputs as Specs)[key];
    if (spec?.kind !== 'list') throw new Error(`${key} is no list`);
    fc.assert(
      fc.property(shuffled(inputFor(spec.of)), ([one, other]) => {
        const a = attempt(name, { ...rest, [key]: one });
        const b = attempt(name, { ...rest, [key]: other });
        expect(a && headline(a)).toEqual(b && headline(b));
      }),
    );
  });
});

describe('what more of something may not do', () => {
  it('more days never forbid a PICC more, and beyond 14 days no rule of the choice speaks', () => {
    const strictness = ['no-rule', 'not-preferred', 'inappropriate'];
    const days = fc.integer({ min: 1, max: 40 });
    fc.assert(
      fc.property(days, days, fc.boolean(), fc.boolean(), (a, b, peripherallyCompatible, criticallyIll) => {
        const picc = (expectedDays: number): number =>
          strictness.indexOf(
            run('device-by-duration', { expectedDays, peripherallyCompatible, criticallyIll })[
              'picc'
            ] as string,
          );
        expect(picc(Math.max(a, b))).toBeLessThanOrEqual(picc(Math.min(a, b)));
        expect(picc(Math.max(a, b) + 14)).toBe(0);
      }),
    );
  });
  it('a higher flow never makes a dialysis catheter worse, by any reading', () => {
    const badness = ['works', 'cannot-be-judged', 'first-measures', 'dysfunction'];
    const flow = fc.integer({ min: 150, max: 350 });
    fc.assert(
      fc.property(
        fc.array(fc.record({ meanFlowMlPerMin: flow, recurrentPressureAlarms: fc.boolean() }), {
          minLength: 1,
          maxLength: 4,
        }),
        fc.integer({ min: 0, max: 200 }),
        fc.constantFrom('below-200', 'below-250', 'allon-2018'),
        fc.boolean(),
        (sessions, more, reading, afterFirstMeasures) => {
          const bad = (list: readonly object[]): number =>
            badness.indexOf(
              run('dialysis-flow-check', { reading, sessions: list, afterFirstMeasures })['value'] as string,
            );
          const raised = sessions.map((each) => ({
            ...each,
            meanFlowMlPerMin: each.meanFlowMlPerMin + more,
          }));
          expect(bad(raised)).toBeLessThanOrEqual(bad(sessions));
        },
      ),
    );
  });
});
