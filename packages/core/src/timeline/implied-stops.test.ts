import { describe, expect, it } from 'vitest';
import type { Resource } from '../record.kit.js';
import { berlin, event, line, lumen, on, patient, readLine } from '../record.kit.js';
import { Calendar, instantMs } from './calendar.js';
import { infusionPattern, lumenUse } from '../facts/lumen-use.js';
import { targetsOf } from './targets.js';
import { eventsOn, timelineOf } from './timeline.js';
import { timelineIssues } from './timeline-issues.js';

const day = '2026-11-25T';
const at = (time: string) => `${day}${time}:00+01:00`;

const infusion = (id: string, device: string, start?: string, end?: string, more: object = {}): Resource => ({
  resourceType: 'MedicationAdministration',
  id,
  status: end === undefined ? 'in-progress' : 'completed',
  subject: { reference: 'Patient/p' },
  device: [{ reference: `Device/${device}` }],
  effectivePeriod: { ...(start ? { start } : {}), ...(end ? { end } : {}) },
  ...more,
});

const base = [
  patient(),
  line(),
  lumen('red'),
  lumen('white'),
  event('insertion', '2026-11-01T10:00:00+01:00'),
];

function timeline(resources: readonly Resource[], now = at('12:00')) {
  const { asOf, zone } = berlin(now);
  return timelineOf(readLine(...base, ...resources), new Calendar(zone), instantMs(asOf));
}

function stopsOf(resources: readonly Resource[], now?: string, name = 'red') {
  const known = timeline(resources, now);
  const target = targetsOf(known.line, 'lumen').find(({ ref }) => ref === `Device/${name}`)!;
  return eventsOn(known, 'infusion-stop', target).map(({ fact, ms }) => [fact.ref, known.calendar.text(ms)]);
}

const drip = (id: string) => `MedicationAdministration/${id}`;

describe('an infusion that ended', () => {
  const ended = infusion('a', 'red', at('08:00'), at('10:00'));

  it('is a stop of its lumen at its end, by its own reference, and of no other lumen', () => {
    expect(stopsOf([ended])).toEqual([[drip('a'), at('10:00')]]);
    expect(stopsOf([ended], undefined, 'white')).toEqual([]);
  });

  it('is none before its end, and none while it runs', () => {
    expect(stopsOf([ended], at('09:59'))).toEqual([]);
    expect(stopsOf([ended], at('10:00'))).toHaveLength(1);
    expect(stopsOf([infusion('a', 'red', at('08:00'))])).toEqual([]);
  });

  it('that was given at one moment stops then', () => {
    const push = infusion('push', 'red', undefined, undefined, {
      status: 'completed',
      effectivePeriod: undefined,
      effectiveDateTime: at('10:00'),
    });
    expect(stopsOf([push])).toEqual([[drip('push'), at('10:00')]]);
  });

  it('whose start is not known stops all the same', () => {
    expect(stopsOf([infusion('a', 'red', undefined, at('10:00'))])).toEqual([[drip('a'), at('10:00')]]);
  });

  it('raises no issue, and leaves the lumen open', () => {
    const known = timeline([ended]);
    const target = targetsOf(known.line, 'lumen').find(({ ref }) => ref === 'Device/red')!;
    const moment = {
      timeline: known,
      target,
      ms: known.asOfMs,
      staleAfter: { value: 7, unit: 'd' },
    } as const;
    expect(timelineIssues(known, undefined, new Set())).toEqual([]);
    expect(lumenUse(moment)).toMatchObject({ value: 'open', refs: [drip('a')] });
    expect(infusionPattern(moment).value).toBeUndefined();
    expect(known.events.map(({ fact }) => fact.activity)).toEqual(['insertion']);
  });
});

describe('bag after bag', () => {
  const first = infusion('a', 'red', at('06:00'), at('08:00'));

  it('without a gap is one infusion that stops once', () => {
    const second = infusion('b', 'red', at('08:00'), at('10:00'));
    expect(stopsOf([first, second])).toEqual([[drip('b'), at('10:00')]]);
    expect(stopsOf([first, infusion('b', 'red', at('08:00'))])).toEqual([]);
  });

  it('within the minutes of a change of bags is one infusion', () => {
    const second = infusion('b', 'red', at('08:10'), at('10:00'));
    expect(stopsOf([first, second])).toEqual([[drip('b'), at('10:00')]]);
  });

  it('until the next one has begun, the first has stopped', () => {
    expect(stopsOf([first, infusion('b', 'red', at('08:05'))], at('08:04'))).toHaveLength(1);
    expect(stopsOf([first, infusion('b', 'red', at('08:05'))], at('08:05'))).toHaveLength(0);
  });

  it('with a gap, or through the other lumen, stops twice', () => {
    const later = infusion('b', 'red', at('08:11'), at('10:00'));
    expect(stopsOf([first, later])).toEqual([
      [drip('a'), at('08:00')],
      [drip('b'), at('10:00')],
    ]);
    expect(stopsOf([first, infusion('b', 'white', at('08:00'))])).toEqual([[drip('a'), at('08:00')]]);
  });
});

describe('two infusions at once', () => {
  it('stop with the last of them', () => {
    const long = infusion('a', 'red', at('06:00'), at('10:00'));
    const short = infusion('b', 'red', at('07:00'), at('08:00'));
    expect(stopsOf([long, short])).toEqual([[drip('a'), at('10:00')]]);
  });

  it('that end together are one stop, whatever the order of the input', () => {
    const pair = [
      infusion('z', 'red', at('06:00'), at('10:00')),
      infusion('b', 'red', at('07:00'), at('10:00')),
    ];
    expect(stopsOf(pair)).toEqual([[drip('z'), at('10:00')]]);
    expect(stopsOf([...pair].reverse())).toEqual(stopsOf(pair));
  });

  it('stop where it is not known whether the other runs on', () => {
    const unsure = infusion('b', 'red', at('07:00'), undefined, { status: 'stopped' });
    expect(stopsOf([infusion('a', 'red', at('06:00'), at('10:00')), unsure])).toEqual([
      [drip('a'), at('10:00')],
    ]);
  });
});

describe('an end that is known only by its day', () => {
  const dated = infusion('a', 'red', '2026-11-24T20:00:00+01:00', '2026-11-25');

  it('is no stop before the day is over, when it is read as running', () => {
    expect(stopsOf([dated], at('23:59'))).toEqual([]);
  });

  it('counts from the start of the day then', () => {
    expect(stopsOf([dated], '2026-11-26T00:00:00+01:00')).toEqual([[drip('a'), '2026-11-25T00:00:00+01:00']]);
  });

  it('counts from the start of the infusion where that is later', () => {
    const today = infusion('a', 'red', at('14:00'), '2026-11-25');
    expect(stopsOf([today], '2026-11-26T00:00:00+01:00')).toEqual([[drip('a'), at('14:00')]]);
  });
});

describe('charted by both ways', () => {
  const ended = infusion('a', 'red', at('08:00'), at('10:00'));
  const charted = (time: string, device = 'red', more: object = {}) =>
    event('infusion-stop', time.length === 5 ? at(time) : time, {
      id: `stop-${time}`,
      ...on(device),
      ...more,
    });

  it.each(['09:50', '10:00', '10:10'])('an event of its own at %s is the stop', (time) => {
    expect(stopsOf([ended, charted(time)])).toEqual([[`Procedure/stop-${time}`, at(time)]]);
  });

  it.each(['09:49', '10:11'])('one at %s is another', (time) => {
    expect(stopsOf([ended, charted(time)])).toHaveLength(2);
  });

  it('of another lumen, or not done, is not the stop', () => {
    expect(stopsOf([ended, charted('10:00', 'white')])).toEqual([[drip('a'), at('10:00')]]);
    expect(stopsOf([ended, charted('10:00', 'red', { status: 'not-done' })])).toEqual([
      [drip('a'), at('10:00')],
    ]);
  });

  it('what was stopped before the infusion began was another one', () => {
    const short = infusion('b', 'red', at('10:04'), at('10:08'));
    expect(stopsOf([charted('10:00'), short])).toEqual([
      ['Procedure/stop-10:00', at('10:00')],
      [drip('b'), at('10:08')],
    ]);
  });

  it('on the day that is all that is known of the end, it is the stop', () => {
    const dated = infusion('a', 'red', at('08:00'), '2026-11-25');
    expect(stopsOf([dated, charted('10:00')], '2026-11-26T00:00:00+01:00')).toEqual([
      ['Procedure/stop-10:00', at('10:00')],
    ]);
  });
});

it('a line that states no lumens has its stops on the one that it has', () => {
  const { asOf, zone } = berlin(at('12:00'));
  const record = readLine(patient(), line(), infusion('a', 'line', at('08:00'), at('10:00')));
  const known = timelineOf(record, new Calendar(zone), instantMs(asOf));
  const [target] = targetsOf(record, 'lumen');
  expect(eventsOn(known, 'infusion-stop', target!).map(({ fact }) => fact.ref)).toEqual([drip('a')]);
});
