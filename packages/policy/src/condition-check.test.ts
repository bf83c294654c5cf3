import { describe, expect, it } from 'vitest';
import { checkTree } from './condition-check.js';
import type { ConditionKind } from './condition.js';
import { parse } from './tree.js';

const check = (text: string, kind?: ConditionKind, named?: readonly string[]) =>
  checkTree(parse(text), kind, named);

describe('what a condition may not say, with what to do instead', () => {
  it.each<[string, string, string, RegExp]>([
    [
      '%line.tipConfirmed',
      'fact-gone',
      '%line.tipConfirmed is a fact no longer',
      /%last\.tipConfirmation\.exists/,
    ],
    ['%line.incisionHealed', 'fact-gone', '%line.incisionHealed is', /%latest\.incisionHealed/],
    ['%line.asepticInsertion', 'fact-gone', '%line.asepticInsertion is', /%latest\.asepticInsertion/],
    ['%line.signDwellDays > 3', 'fact-gone', '%line.signDwellDays is', /%line\.dwellDays/],
    ['%lumen.lookMinutesAfterDose > 3', 'fact-gone', '%lumen.look', /%last\.occlusionTreatment/],
    ['%labz.anc.exists()', 'unknown-fact', '%labz is not known', /^Did you mean %labs\.anc\?$/],
    ['%zzzzzzzz', 'unknown-fact', '%zzzzzzzz is not known', /%line, .*%labs, .*%answered/],
    ['%labs', 'part-of-fact', '%labs by itself says nothing', /such as %labs\./],
    ['%labs.ank < 3', 'unknown-fact', '%labs.ank is not a fact', /^Did you mean %labs\.anc\?$/],
    ['%labs.zzzzzzzz < 3', 'unknown-fact', '%labs.zzzzzzzz is not a fact', /%labs\.anc.*%labs\./],
    ['%labs.anc.value < 3', 'part-of-fact', '.value asks for a part of a value', /Facts have no parts/],
    [
      '(%labs.anc | %labs.anc).value.exists()',
      'part-of-fact',
      '.value asks for a part',
      /Facts have no parts/,
    ],
    ['line.cuffed', 'unknown-fact', 'line is not a fact', /begin with %: %line, .*%labs, /],
    ['%began < @2026-01-01', 'time-comparison', 'A date or a time of day can’t be kept', /effectivePeriod/],
    ['%began < @2026-01-01T10:00:00Z', 'time-comparison', 'A date or a time of day', /effectivePeriod/],
    ['%began < @T10:00', 'time-comparison', 'A date or a time of day', /effectivePeriod/],
    ['now() > now()', 'unsteady-function', 'now() reads a clock', /facts only/],
    ['%line.cuffed and today().exists()', 'unsteady-function', 'today() reads a clock', /facts only/],
    ["%line.type.matches('a+')", 'unsteady-function', 'matches() may never come to an end', /facts only/],
    ["%line.type.trace('x') = 'picc'", 'unsteady-function', 'trace() writes to a log', /facts only/],
    ["%line.type.resolve() = 'picc'", 'unsteady-function', 'resolve() reads from a server', /facts only/],
    ['(1 | 2).repeat(1).exists()', 'unsteady-function', 'repeat() need not come to an end', /facts only/],
    ['%last.flush', 'time-comparison', '%last.flush is a time', /%began, or ask %last\.flush\.exists\(\)/],
    ['%last.flush and true', 'time-comparison', '%last.flush is a time', /\.empty\(\)/],
    ['%last.flush + 1 hour', 'time-comparison', '%last.flush is a time', /%began/],
    ['%last.flush = 3', 'time-comparison', '%last.flush is a time', /%began/],
    ['%last.flush in %last.lock', 'time-comparison', '%last.flush is a time', /%began/],
    ["%line.type ~ 'picc'", 'unknown-as-false', '~ takes an unknown fact as false', /^Write = instead/],
    ["%line.type !~ 'picc'", 'unknown-as-false', '!~ takes an unknown fact as false', /^Write != instead/],
    ["'picc' ~ %line.type", 'unknown-as-false', '~ takes an unknown fact as false', /^Write = instead/],
    [
      "%labs.anc * 2 < 1 'kg'",
      'bad-unit',
      "'kg' is not a unit that can be converted",
      /that of %labs\.anc in 10\*9\/L/,
    ],
    ["1 'kg' < 2 'kg'", 'bad-unit', "'kg' is not a unit", /^Compare it with a fact that is a quantity/],
    ['3 days > 2 days', 'time-arithmetic', '3 days is a length of time', /days are plain numbers/],
    ['%began', 'trigger-fact', '%began is only known of a rule that a trigger began', /kind start or stop/],
    ['%answered', 'trigger-fact', '%answered is only known', /condition of kind stop,/],
  ])('%s', (text, code, message, cure) => {
    const { faults } = check(text);
    const found = faults.find((one) => one.code === code && one.message.startsWith(message));
    expect(found, JSON.stringify(faults)).toBeDefined();
    expect(found?.cure).toMatch(cure);
  });

  it('says the same of a condition once, and everything that is wrong with it', () => {
    const { faults } = check('%labs.ank < 3 and %labs.ank > 1 and %line.kuffed');
    expect(faults.map(({ message }) => message)).toEqual([
      '%labs.ank is not a fact',
      '%line.kuffed is not a fact',
    ]);
  });

  it('knows the names of the plan', () => {
    expect(check('%lowKount', 'applicability', ['lowCount']).faults[0]?.cure).toBe('Did you mean %lowCount?');
    expect(check('%zzzzzzzz', 'applicability', ['lowCount']).faults[0]?.cure).toContain('%lowCount');
    expect(check('%zzzzzzzz').faults[0]?.cure).not.toContain('%lowCount');
  });

  it('does not list the values of findings, of which there is no end', () => {
    expect(check('%found.zzzzzzzz.exists()').faults[0]?.cure).not.toMatch(/%found\.\w+\.\w+/);
  });
});

describe('what a condition may say', () => {
  it.each<[string, ConditionKind, readonly string[]]>([
    ['true', 'applicability', []],
    ['%line.cuffed and %labs.anc.exists()', 'applicability', ['labs.anc', 'line.cuffed']],
    ['%labs.anc.empty()', 'applicability', ['labs.anc']],
    ['%began >= %last.flush', 'start', ['began', 'last.flush']],
    ['%began >= %last.flush', 'stop', ['began', 'last.flush']],
    ['%answered < %last.flush + 2 hours', 'stop', ['answered', 'last.flush']],
    ['%last.flush.exists()', 'applicability', ['last.flush']],
    ["%line.type in ('picc' | 'midline')", 'applicability', ['line.type']],
    ['%line.type is String', 'applicability', ['line.type']],
  ])('%s as %s', (text, kind, uses) => {
    const found = check(text, kind);
    expect(found.faults).toEqual([]);
    expect(found.uses).toEqual(uses);
  });

  it('tells its limits, in the unit of the fact, so that a preview can try both sides of each', () => {
    const { thresholds, opaque } = check("%labs.anc < 500 '/uL' and 0.1 '10*9/L' < %labs.anc");
    expect(thresholds.map(({ value, unit }) => [String(value), unit])).toEqual([
      ['0.5', '10*9/L'],
      ['0.1', '10*9/L'],
    ]);
    expect(opaque).toEqual([]);
  });

  it('tells the limits of what is worked out, and which facts stand where no limit can be seen', () => {
    const found = check("%labs.anc * 2 < 1 '10*9/L'");
    expect(found.thresholds.map(({ value, unit }) => [String(value), unit])).toEqual([['1', '10*9/L']]);
    expect(found.opaque).toEqual(['labs.anc']);
    expect(found.faults).toEqual([]);
    expect(check("%labs.anc * 2 < 1 '1'").faults).toEqual([]);
  });

  it('tells how far apart the times are that it compares', () => {
    expect(check('%began + 1 hour >= %last.flush + 30 minutes', 'start').links).toEqual([
      { left: 'began', right: 'last.flush', apartMs: -1_800_000 },
    ]);
  });
});
