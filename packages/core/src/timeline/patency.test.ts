import { describe, expect, it } from 'vitest';
import { berlin, event, finding, line, patient, readLine } from '../record.kit.js';
import { Calendar, instantMs } from './calendar.js';
import { lastFoundOpen, standingBlockages } from './patency.js';
import { targetsOf } from './targets.js';
import { timelineOf } from './timeline.js';

// US label of alteplase for catheter occlusion (reported): that a lumen works is that blood can be drawn. That an easy
// flush alone shows nothing where blood return was poor is common practice, no source.

type Look = readonly [finding: string, value: string, time: string];

function read(...looks: readonly Look[]) {
  const record = readLine(
    patient(),
    line(),
    event('insertion', '2026-11-20T10:00:00+01:00'),
    ...looks.map(([what, value, time], i) =>
      finding(what, value, time.includes('T') || time.includes('-') ? time : `2026-11-25T${time}:00+01:00`, {
        id: `look-${i}`,
      }),
    ),
  );
  const { asOf } = berlin('2026-11-26T12:00:00+01:00');
  const timeline = timelineOf(record, new Calendar('Europe/Berlin'), instantMs(asOf));
  const [lumen] = targetsOf(record, 'lumen');
  return {
    open: lastFoundOpen(timeline, lumen!, timeline.asOfMs)?.fact.ref,
    standing: standingBlockages(timeline, lumen!, timeline.asOfMs).map(({ found }) => found.fact.ref),
  };
}

const blocked: Look = ['flush-resistance', 'blocked', '08:00'];

describe('a lumen is found open', () => {
  it.each<[string, readonly Look[], string | undefined, readonly string[]]>([
    ['never, where nobody looked', [], undefined, []],
    ['by brisk blood return', [blocked, ['blood-return', 'brisk', '09:00']], 'Observation/look-1', []],
    [
      'by an easy flush where blood return was never looked at',
      [blocked, ['flush-resistance', 'none', '09:00']],
      'Observation/look-1',
      [],
    ],
    [
      'by no easy flush where blood return is missing',
      [blocked, ['blood-return', 'none', '08:30'], ['flush-resistance', 'none', '09:00']],
      undefined,
      ['Observation/look-1'],
    ],
    [
      'by no easy flush where blood return was sluggish before',
      [['blood-return', 'sluggish', '07:00'], blocked, ['flush-resistance', 'none', '09:00']],
      undefined,
      ['Observation/look-0'],
    ],
    [
      'by nothing that is charted at the same time as the trouble',
      [blocked, ['blood-return', 'brisk', '08:00']],
      undefined,
      ['Observation/look-0'],
    ],
    [
      'by nothing that may have been before the trouble: it is known by its day',
      [
        ['flush-resistance', 'blocked', '2026-11-25'],
        ['blood-return', 'brisk', '09:00'],
      ],
      undefined,
      ['Observation/look-0'],
    ],
    [
      'once more, after it was blocked again and opened',
      [['blood-return', 'brisk', '07:00'], blocked, ['blood-return', 'brisk', '09:00']],
      'Observation/look-2',
      [],
    ],
  ])('%s', (_, looks, open, standing) => {
    expect(read(...looks)).toEqual({ open, standing });
  });
});
