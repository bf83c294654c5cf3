import { describe, expect, it } from 'vitest';
import { compileCondition } from './condition-compile.js';
import { factGroups, factKind, factSubject } from './facts.js';

const codes = (text: string) => {
  const reading = compileCondition([text]);
  return reading.ok ? [] : reading.problems.map(({ code }) => code);
};

// What docs say a condition can ask for. A fact of another kind than its name tells would refuse what is right, or keep
// what is never true: a rule that asks for nothing, and says nothing of it.
describe('a condition may ask', () => {
  it.each([
    "%line.type in ('picc' | 'midline')",
    '%line.lumenCount >= 2',
    '%line.dwellDays < 30',
    "%line.securement = 'adhesive-device'",
    '%line.sutured',
    "%line.clamp = 'integral' or %line.clamp = 'none'",
    '%line.removedDays <= 1',
    "%line.externalLengthChange > 2 'cm'",
    "%lumen.use in ('infusing' | 'locked' | 'open')",
    "%lumen.infusionPattern in ('continuous' | 'intermittent')",
    '%lumen.keepsCirculation and %lumen.vesicantRuns.not()',
    '%lumen.dosesGiven < 2',
    '%patient.ageDays <= 28',
    '%patient.deceased.not()',
    "%patient.setting in ('inpatient' | 'intensive-care' | 'ambulatory' | 'home')",
    "%patient.weight < 5 'kg'",
    "%labs.anc < 500 '/uL'",
    "%labs.platelets < 50 '10*9/L'",
    "%labs.inr > 1.5 '1'",
    "%latest.bodyTemperature >= 38 'Cel'",
    '%found.damage.exists()',
  ])('%s', (text) => {
    expect(codes(text)).toEqual([]);
  });

  it.each([
    ["%line.type = 'lumen'", 'unknown-value'],
    ["%line.securement = 'sutures'", 'unknown-value'],
    ["%lumen.use = 'closed'", 'unknown-value'],
    ["%line.type in ('picc' | 'nothing')", 'unknown-value'],
    ['%line.type = 3', 'bad-comparison'],
    ['%line.type = true', 'bad-comparison'],
    ["%line.type < 'picc'", 'bad-comparison'],
    ["%line.type <= 'picc'", 'bad-comparison'],
    ["%line.type > 'picc'", 'bad-comparison'],
    ["%line.type >= 'picc'", 'bad-comparison'],
    ["%line.type = ('picc' | 'midline')", 'bad-comparison'],
    ["%line.cuffed = 'yes'", 'bad-comparison'],
    ['%line.cuffed = 1', 'bad-comparison'],
    ['%line.cuffed < true', 'bad-comparison'],
    ['%line.cuffed <= true', 'bad-comparison'],
    ['%line.cuffed > false', 'bad-comparison'],
    ['%line.cuffed >= false', 'bad-comparison'],
    ["%line.lumenCount >= 2 '1'", 'bad-comparison'],
    ["%lumen.dosesGiven = 'two'", 'bad-comparison'],
    ["%line.removedDays < 1 'd'", 'bad-comparison'],
    ['%labs.anc < 500', 'bad-unit'],
    ["%labs.anc < 500 'kg'", 'bad-unit'],
    ['%labs.anc < 5 days', 'bad-unit'],
    ["%labs.inr > 'high'", 'bad-unit'],
  ])('not %s: %s', (text, code) => {
    expect(codes(text)).toEqual([code]);
  });
});

describe('the name of a fact', () => {
  it.each([
    ['found.bloodReturn.brisk', { group: 'found', finding: 'blood-return', value: 'brisk' }],
    ['found.damage', { group: 'found', finding: 'damage' }],
    ['latest.bodyTemperature', { group: 'latest', finding: 'body-temperature' }],
    ['last.dressingChange', { group: 'last', activity: 'dressing-change' }],
    ['line.type', undefined],
    ['unfound.damage.crack', undefined],
    ['found.damage.crack!', undefined],
    ['found.nothing.crack', undefined],
    ['found.', undefined],
  ])('%s is about %j', (name, subject) => {
    expect(factSubject(name as Parameters<typeof factSubject>[0])).toEqual(subject);
  });

  it('tells its kind, and what stands before the dot its group', () => {
    expect(factKind('last.repair')).toEqual({ kind: 'time' });
    expect(factKind('began')).toEqual({ kind: 'time' });
    expect(factKind('line.nothing')).toBeUndefined();
    expect([...factGroups].sort()).toEqual([
      'answered',
      'began',
      'found',
      'labs',
      'last',
      'latest',
      'line',
      'lumen',
      'patient',
    ]);
  });
});
