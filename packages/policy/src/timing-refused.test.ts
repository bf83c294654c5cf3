import { describe, expect, it } from 'vitest';
import { readTiming } from './timing.js';

const daily = { frequency: 1, period: 1, periodUnit: 'd' };
const bounds = { value: 3, code: 'd', system: 'http://unitsofmeasure.org' };
const problemsOf = (timing: unknown) => {
  const reading = readTiming(timing);
  return reading.ok ? [] : reading.problems.map(({ path, message }) => `${path}: ${message}`);
};
const repeat = (more: object) => problemsOf({ repeat: { ...daily, ...more } });

// What is refused is said in the words of its element: the owner of a plan has to find it there.
describe('what can’t be kept of a Timing is said', () => {
  it.each<[string, unknown, readonly RegExp[]]>([
    ['fixed dates', { event: [], repeat: daily }, [/^event: Fixed dates can’t be kept/]],
    [
      'a modifier',
      { modifierExtension: [], repeat: daily },
      [/^modifierExtension: The meaning of modifierExtension/],
    ],
    ['an element of none', { how: 1, repeat: daily }, [/^how: how is not an element of Timing that/]],
    ['no repeat', {}, [/^repeat: No repeat is given/]],
    ['a code alone', { code: {} }, [/^code: A code alone can’t be kept/]],
    ['no Timing', 7, [/^: 7 is not a Timing/]],
    ['a repeat that is none', { repeat: 'daily' }, [/^repeat: No repeat/]],
  ])('%s', (_, timing, said) => {
    const found = problemsOf(timing);
    expect(found).toHaveLength(said.length);
    said.forEach((one, at) => expect(found[at]).toMatch(one));
  });

  it.each<[string, object, RegExp]>([
    ['meals', { when: ['AC'] }, /^repeat\.when\[0\]: Times by meals or sleep/],
    ['an offset', { offset: 15 }, /^repeat\.offset: Minutes from a meal/],
    ['a range', { boundsRange: {} }, /^repeat\.boundsRange: A range of possible lengths/],
    ['a period of the calendar', { boundsPeriod: {} }, /^repeat\.boundsPeriod: Calendar dates/],
    ['a duration', { duration: 1 }, /^repeat\.duration: The length of the act itself/],
    ['a longest duration', { durationMax: 1 }, /^repeat\.durationMax: The length of the act itself/],
    ['a unit of it', { durationUnit: 'h' }, /^repeat\.durationUnit: The length of the act itself/],
    ['an element of none', { how: 1 }, /^repeat\.how: how is not an element of Timing\.repeat/],
    ['a frequency of 0', { frequency: 0 }, /^repeat\.frequency: 0 is not a whole number above 0/],
    ['a frequency that is text', { frequency: '2' }, /^repeat\.frequency: “?"?2"?”? is not a whole number/],
    ['an endless frequency', { frequency: Infinity }, /^repeat\.frequency: .* is not a whole number/],
    ['a third of a time at most', { frequencyMax: 0.3 }, /^repeat\.frequencyMax: 0\.3 is not a whole number/],
    ['half a count', { count: 0.5 }, /^repeat\.count: 0\.5 is not a whole number/],
    ['half a count at most', { countMax: 1.5 }, /^repeat\.countMax: 1\.5 is not a whole number/],
    ['a period below 0', { period: -1 }, /^repeat\.period: -1 is not a number above 0/],
    ['a longest period below 0', { periodMax: -1 }, /^repeat\.periodMax: -1 is not a number above 0/],
    [
      'a unit in words',
      { periodUnit: 'day' },
      /^repeat\.periodUnit: .*day.* is not one of s, min, h, d, wk, mo, a/,
    ],
    ['no unit', { periodUnit: undefined }, /^repeat\.periodUnit: .* is not one of s/],
    ['bounds that are no time', { boundsDuration: { value: 3, code: 'kg' } }, /^repeat\.boundsDuration/],
    ['bounds that are nothing', { boundsDuration: null }, /^repeat\.boundsDuration: /],
    ['no period', { period: undefined }, /^repeat\.period: No period is given/],
    [
      'a second',
      { period: 1, periodUnit: 's' },
      /^repeat\.period: 1 s \/ 1 is not an interval of a minute or more/,
    ],
  ])('%s', (_, more, said) => {
    const found = repeat(more);
    expect(
      found.filter((one) => said.test(one)),
      found.join('; '),
    ).toHaveLength(1);
  });

  it.each<[string, object, RegExp]>([
    [
      'a day that is none',
      { dayOfWeek: ['sol'] },
      /^repeat\.dayOfWeek\[0\]: .*sol.* is not one of mon, tue, wed, thu, fri, sat, sun/,
    ],
    ['a day that is a number', { dayOfWeek: ['mon', 3] }, /^repeat\.dayOfWeek\[1\]: 3 is not one of/],
    [
      'a time that is none',
      { timeOfDay: ['8:00'] },
      /^repeat\.timeOfDay\[0\]: .*8:00.* is not a time of day/,
    ],
    ['a time with more behind it', { timeOfDay: ['08:00:00Z'] }, /^repeat\.timeOfDay\[0\]: /],
    ['a time with more before it', { timeOfDay: ['T08:00:00'] }, /^repeat\.timeOfDay\[0\]: /],
    ['a time that is a number', { timeOfDay: [8] }, /^repeat\.timeOfDay\[0\]: 8 is not a time of day/],
    ['parts of a second', { timeOfDay: ['08:00:00.5'] }, /^repeat\.timeOfDay\[0\]: /],
    ['a most count', { countMax: 2 }, /^repeat\.countMax: countMax can’t be kept together with/],
    ['an end', { boundsDuration: bounds }, /^repeat\.boundsDuration: boundsDuration can’t be kept together/],
    ['a longest period', { periodMax: 2 }, /^repeat\.periodMax: periodMax can’t be kept together/],
    ['a most frequency', { frequencyMax: 2 }, /^repeat\.frequencyMax: frequencyMax can’t be kept together/],
    ['a cycle of two days', { period: 2 }, /^repeat\.period: Together with dayOfWeek or timeOfDay only 1 d/],
    ['a week without days', { period: 1, periodUnit: 'wk' }, /^repeat\.period: Together with/],
    ['a cycle of one hour', { period: 1, periodUnit: 'h' }, /^repeat\.period: Together with/],
    ['a unit alone', { period: undefined, frequency: undefined }, /^repeat\.period: Together with/],
    ['more times than are named', { frequency: 2 }, /^repeat\.frequency: 2 times do not go with the 1 that/],
  ])('beside times of day: %s', (_, more, said) => {
    const found = repeat({ timeOfDay: ['08:00:00'], ...more });
    expect(
      found.filter((one) => said.test(one)),
      found.join('; '),
    ).toHaveLength(1);
  });

  it('and what can be kept is kept beside times of day', () => {
    const kept = (more: object) => repeat({ timeOfDay: ['08:00:00', '20:00'], ...more });
    expect(kept({})).toEqual([]);
    expect(kept({ frequency: 2 })).toEqual([]);
    expect(kept({ frequency: undefined })).toEqual([]);
    expect(kept({ frequency: undefined, period: undefined, periodUnit: undefined })).toEqual([]);
    const weekly = { period: 1, periodUnit: 'wk', dayOfWeek: ['mon', 'thu', 'fri'] };
    expect(kept(weekly)).toEqual([]);
    expect(kept({ ...weekly, frequency: 6 })).toEqual([]);
    expect(kept({ ...weekly, frequency: 2 })).toHaveLength(1);
    expect(kept({ id: 'r', extension: [] })).toEqual([]);
    expect(kept({ timeOfDay: ['08:00:00.000'] })).toEqual([]);
    expect(repeat({ dayOfWeek: ['mon'] }).join()).toContain('Days without times of day can’t be kept');
  });
});

describe('what a Timing says in two ways is read as the shorter, and said', () => {
  const notesOf = (more: object) => {
    const reading = readTiming({
      id: 't',
      extension: [],
      code: { text: 'x' },
      repeat: { ...daily, ...more },
    });
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    return reading.notes;
  };

  it.each<[object, readonly RegExp[]]>([
    [{}, []],
    [{ periodMax: 1 }, []],
    [{ frequencyMax: 1 }, []],
    [{ count: 2, countMax: 2 }, []],
    [{ period: 4, periodMax: 6, periodUnit: 'h' }, [/^a period from 4 to 6 h is read as 4 h, the shorter$/]],
    [{ period: 6, periodMax: 4, periodUnit: 'h' }, [/^a period from 6 to 4 h is read as 4 h, the shorter$/]],
    [{ frequency: 3, frequencyMax: 4 }, [/^3 to 4 times is read as 4 times/]],
    [{ frequency: 4, frequencyMax: 3 }, [/^4 to 3 times is read as 4 times/]],
    [{ count: 2, countMax: 4 }, [/^a count of 2 to 4 is read as 4$/]],
  ])('%j', (more, said) => {
    const notes = notesOf(more);
    expect(notes).toHaveLength(said.length);
    said.forEach((one, at) => expect(notes[at]).toMatch(one));
  });
});
