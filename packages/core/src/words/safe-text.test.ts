import { describe, expect, it } from 'vitest';
import { Calendar } from '../timeline/calendar.js';
import { english } from './english.js';
import { forTerminal, oneLine, safeJson } from './safe-text.js';
import { say } from './say.js';

// Unicode 16, chapter 23: controls, format characters and bidirectional formatting; ECMA-48 for the escape sequences.
const hostile: readonly (readonly [string, string, string])[] = [
  ['an escape sequence', 'Ann\u001b[2J\u001b[31mAlder', 'Ann\ufffd[2J\ufffd[31mAlder'],
  ['a C1 control sequence', 'Ann\u009b31m', 'Ann\ufffd31m'],
  ['a title of the window', 'Ann\u001b]0;x\u0007', 'Ann\ufffd]0;x\ufffd'],
  ['a row of its own', 'Ann\n    !! overdue  now  Give heparin', 'Ann !! overdue now Give heparin'],
  ['a carriage return', 'Ann\r-> due', 'Ann -> due'],
  ['a line separator', 'Ann\u2028-> due\u2029x', 'Ann -> due x'],
  ['blanks that push it to the next row', `Ann${' '.repeat(200)}-> due`, 'Ann -> due'],
  ['letters that look like blanks', 'Ann\u3164\u2800\u3000x', 'Ann x'],
  ['an override of direction', 'Ann\u202eredlA\u202c', 'Ann\ufffdredlA\ufffd'],
  ['an isolate', '\u2066Ann\u2069', '\ufffdAnn\ufffd'],
  ['marks of direction', 'Ann\u200e\u200f\u061c', 'Ann\ufffd\ufffd\ufffd'],
  ['zero-width signs', 'A\u200bn\ufeffn\u2060', 'Ann'],
  ['joiners where nothing joins', 'A\u200dn\u200cn\ufe0f', 'Ann'],
  ['tags', 'Ann\u{e0041}\u{e007f}', 'Ann'],
  ['a soft hyphen', 'A\u00adnn', 'Ann'],
  ['half of a pair', 'Ann\ud800', 'Ann\ufffd'],
];

describe('a name of others', () => {
  it.each(hostile)('T1: with %s is one line that a terminal does not obey', (_, given, safe) => {
    expect(oneLine(given)).toBe(safe);
    expect(oneLine(safe)).toBe(safe);
  });

  it('T1: is made safe wherever a sentence names it, also within another sentence', () => {
    const name = { code: 'named', name: 'red\n    !! overdue \u001b[31m' } as const;
    const text = say(
      { code: 'activity-on', activity: 'flush', targets: [name] },
      english,
      new Calendar('UTC'),
    );
    expect(text).toBe('Flush: red !! overdue \ufffd[31m');
  });

  it.each(['Zoë Müller-Łódź', 'Мария', 'مریم می‌روم', '換藥', '👩🏽‍⚕️', 'क्‍ष', 'O’Brien (1)'])(
    'of any script stays as it is: %s',
    (name) => {
      expect(oneLine(name)).toBe(name);
    },
  );
});

describe('a whole output', () => {
  it('T1: keeps its line breaks and the layout’s own styles, and nothing else of what a terminal obeys', () => {
    const text = '\u001b[1mHead\u001b[0m\r\n  row\tx\n\u001b[2J\u009d\u202e';
    expect(forTerminal(text, true)).toBe('\u001b[1mHead\u001b[0m\r\n  row\tx\n\ufffd[2J\ufffd\ufffd');
    expect(forTerminal(text)).toBe('\ufffd[1mHead\ufffd[0m\r\n  row\tx\n\ufffd[2J\ufffd\ufffd');
  });

  it('T1: as JSON is the same data, with nothing in it that a terminal obeys', () => {
    const data = { name: 'Ann\u009b31m\u202e\u200b\u001b' };
    const json = safeJson(JSON.stringify(data));
    // eslint-disable-next-line no-control-regex
    expect(json).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u202a-\u202e]/);
    expect(JSON.parse(json)).toEqual(data);
  });
});
