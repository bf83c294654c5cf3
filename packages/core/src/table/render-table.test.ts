import { describe, expect, it } from 'vitest';
import { dueCare } from '../due/due-care.js';
import type { Policy } from '@dwellward/policy';
import {
  berlin,
  days,
  dressing,
  event,
  every,
  finding,
  forbidAfter,
  hours,
  line,
  lumen,
  neutrophils,
  on,
  onFinding,
  patient,
  policyOf,
  read,
  type Resource,
  rule,
} from '../record.kit.js';
import { renderTable, type TableOptions } from './render-table.js';
import { relativeText } from '../words/english/times.js';
import { styler, wrap } from '../words/layout.js';

const when = berlin('2026-11-25T12:00:00+01:00');

function table(resources: readonly Resource[], policy: Policy, options: Partial<TableOptions> = {}): string {
  const records = read(...resources);
  const cares = records.lines.map((one) => dueCare(one, policy, when));
  return renderTable(records, cares, when, { colour: false, columns: 0, ...options });
}

const flush = (more: object = {}) =>
  rule('Flush', every(days(1)), { activity: 'flush', scope: 'lumen', ...more });
const policy = policyOf(
  rule('Gauze dressing', every(days(2))),
  flush(),
  rule('Look at the site', every(days(1)), { activity: 'site-assessment' }),
);
const small = [
  patient({ name: [{ family: 'Alder', given: ['Ann'] }] }),
  line('picc', { deviceName: [{ name: 'Right arm' }] }),
  lumen('red', { deviceName: [{ name: 'red' }] }),
  lumen('white', { deviceName: [{ name: 'white' }] }),
  event('insertion', '2026-11-20T09:00:00+01:00'),
  event('dressing-change', '2026-11-23T10:00:00+01:00'),
  event('flush', '2026-11-24T14:00:00+01:00', { id: 'f1', ...on('red') }),
  event('flush', '2026-11-24T14:00:00+01:00', { id: 'f2', ...on('white') }),
  event('site-assessment', '2026-11-25T08:00:00+01:00'),
];

const advice =
  'Advice, not an order. Local policy, the instructions of device and drug, and the licensed clinician come first.';
const notRead =
  'Not read, and so behind nothing here: prescriptions and other orders for drugs, pregnancy, and what stands in free notes only.';

describe('the table', () => {
  it('of a small record is this', () => {
    expect(table(small, policy).split('\n')).toEqual([
      'Line care due at Wed 25 Nov 12:00 (Europe/Berlin)',
      '1 line in place, 1 patient: 1 overdue, 2 due, 0 held, 1 upcoming',
      '',
      'Ann Alder (Patient/p)',
      '  Right arm (Device/line), peripherally inserted central catheter, 2 lumens',
      '    Lumen red: flushed, no lock since Tue 24 Nov 14:00',
      '    Lumen white: flushed, no lock since Tue 24 Nov 14:00',
      '    !! overdue  Wed 25 Nov 10:00  2 h ago    Dressing change: exit site                      Gauze dressing (every 2 days).',
      '    -> due      Wed 25 Nov 14:00  in 2 h     Flush: red, white                               Flush (every day).',
      '    .. upcoming Thu 26 Nov 08:00  in 20 h    Site assessment: exit site                      Look at the site (every day).',
      '',
      notRead,
      advice,
      '',
    ]);
  });

  it('tells what each lumen is like, the most serious first, where the line has care to show or a lumen can’t be used', () => {
    const trouble = finding('blood-return', 'none', '2026-11-25T09:00:00+01:00', {
      focus: [{ reference: 'Device/red' }],
    });
    const text = table([...small, trouble], policy, { columns: 60 });
    expect(text).toContain(
      '    Lumen red: blocked since Wed 25 Nov 09:00; flushed, no\n          lock since Tue 24 Nov 14:00',
    );
    const calm = rule('Look at the site', every(days(30)), { activity: 'site-assessment' });
    // Quiet where nothing is to be done, but for a lumen that can't be used.
    const soon = { upcomingWithinHours: 12 };
    expect(table(small, policyOf(calm), soon)).not.toContain('Lumen');
    expect(table([...small, trouble], policyOf(calm), soon)).toContain('Lumen red: blocked since');
  });

  it('has colour only where it is asked for, and never as the only sign', () => {
    const plain = table(small, policy);
    const coloured = table(small, policy, { colour: true });
    expect(plain).not.toContain('\u001b');
    expect(coloured).toContain('\u001b[');
    // eslint-disable-next-line no-control-regex -- the escape character is what is looked for
    expect(coloured.replace(/\u001b\[[0-9;]*m/g, '')).toBe(plain);
    for (const word of ['overdue', 'due', 'upcoming']) expect(plain).toContain(` ${word} `);
  });

  it.each([80, 100, 120])('is wrapped at spaces to %d columns, and loses no word', (columns) => {
    const wide = table(small, policy);
    const narrow = table(small, policy, { columns });
    const rows = narrow.split('\n').filter((row) => row.startsWith('    '));
    for (const row of rows) expect(row.length, row).toBeLessThanOrEqual(columns);
    expect(rows.length).toBeGreaterThan(3);
    const words = (text: string) => text.split(/\s+/).join(' ');
    expect(words(narrow)).toBe(words(wide));
  });

  it('counts what opens later than is asked for, and hides nothing else', () => {
    const within = (upcomingWithinHours: number) => table(small, policy, { upcomingWithinHours });
    // The site assessment opens six hours before 08:00 on the next day.
    expect(within(13)).toContain('    .. and 1 that opens later');
    expect(within(13)).toContain('!! overdue');
    expect(within(14)).toContain('Site assessment');
    expect(within(14)).toBe(table(small, policy));
  });

  it('names a hold above its line, and an item that it holds', () => {
    const holding = policyOf(
      flush(),
      rule('Rest after repair', forbidAfter('repair', hours(2)), { activity: 'flush', scope: 'line' }),
    );
    const text = table([...small, event('repair', '2026-11-25T11:30:00+01:00')], holding);
    expect(text).toContain('    Hold: no flush on the line until Wed 25 Nov 13:30 (Rest after repair)\n');
    expect(text).toContain('|| held     Wed 25 Nov 14:00  in 2 h     Flush: red, white');
  });

  it('says of which lumen a hold is, and puts the holds of one lumen and one end in one row', () => {
    const rest = (activity: 'flush' | 'lock' | 'blood-sampling', title: string) =>
      rule(title, forbidAfter('occlusion-treatment', hours(2)), { activity, scope: 'lumen' });
    const holding = policyOf(flush(), rest('lock', 'No lock meanwhile'), rest('flush', 'No flush meanwhile'));
    const dose = event('occlusion-treatment', '2026-11-25T11:30:00+01:00', on('red'));
    expect(table([...small, dose], holding)).toContain(
      '    Hold: no flush or lock on red until Wed 25 Nov 13:30 (No flush meanwhile; No lock meanwhile)\n',
    );
    // More titles would fill the row: what all of them follow is said in their place.
    const more = policyOf(
      flush(),
      ...(['flush', 'lock', 'blood-sampling'] as const).map((activity) => rest(activity, `No ${activity}`)),
    );
    expect(table([...small, dose], more)).toContain(
      '    Hold: no blood sampling, flush or lock on red until Wed 25 Nov 13:30 (because of the occlusion treatment)\n',
    );
  });

  it('tells of a lumen that is not to be used, also where nothing is shown that is to be done', () => {
    const resting = policyOf(
      rule('No infusion straight after a repair', forbidAfter('repair', hours(2)), {
        activity: 'infusion-start',
        scope: 'lumen',
      }),
    );
    const repair = event('repair', '2026-11-25T11:30:00+01:00', on('white'));
    const text = table([...small, repair], resting);
    expect(text).toContain('Lumen white: not to be used since Wed 25 Nov 11:30');
    expect(table(small, resting)).not.toContain('Lumen white');
  });

  it('puts an emergency first, then what is overdue, and the patient of it on top', () => {
    const urgent = policyOf(
      flush({ priority: 'routine' }),
      rule('Blood in the connector', onFinding('connector-condition', ['blood-residue']), {
        activity: 'needleless-connector-change',
        scope: 'lumen',
        priority: 'stat',
      }),
      rule('Gauze dressing', every(days(2))),
    );
    const other = [
      patient({ id: 'q', name: [{ text: 'Bea Birch' }] }),
      { ...line('picc'), id: 'other', patient: { reference: 'Patient/q' } },
      event('insertion', '2026-11-20T09:00:00+01:00', { id: 'in2', ...on('other') }),
      event('dressing-change', '2026-11-25T09:00:00+01:00', { id: 'd2', ...on('other') }),
      event('flush', '2026-11-25T11:00:00+01:00', { id: 'f9', ...on('other') }),
      {
        resourceType: 'Observation',
        id: 'blood',
        status: 'final',
        code: { coding: [{ code: 'connector-condition' }] },
        focus: [{ reference: 'Device/other' }],
        effectiveDateTime: '2026-11-25T11:59:00+01:00',
        valueCodeableConcept: { coding: [{ code: 'blood-residue' }] },
      },
    ];
    const text = table([...small, ...other], urgent);
    expect(text.indexOf('Bea Birch')).toBeLessThan(text.indexOf('Ann Alder'));
    const activities = [
      ...text.matchAll(/ {2}(Flush|Dressing change|EMERGENCY: Needleless connector change):/g),
    ].map(([, name]) => name);
    expect(activities[0]).toBe('EMERGENCY: Needleless connector change');
  });

  it('C19: says of an emergency in words that it is one, with its first steps, and counts it on top', () => {
    const fever = policyOf(
      flush({ priority: 'routine' }),
      rule('Fever: first steps', onFinding('fever'), {
        activity: 'fever-response',
        scope: 'line',
        priority: 'stat',
        work: {
          computed: [],
          steps: [['Call the clinician.'], ['Take cultures.']],
          supplies: [],
          cautions: [],
        },
      }),
    );
    const seen = finding('fever', 'present', '2026-11-25T11:50:00+01:00');
    const text = table([...small, seen], fever);
    const rows = text.split('\n').map((row) => row.trim().replace(/\s+/g, ' '));
    expect(rows[1]).toContain('1 patient: 1 EMERGENCY, ');
    const at = rows.findIndex((row) => row.includes('EMERGENCY: Fever response: line'));
    expect(at).toBeGreaterThan(0);
    expect(rows.slice(at + 1, at + 3)).toEqual(['1. Call the clinician.', '2. Take cultures.']);
    expect(rows.findIndex((row) => / Flush: /.test(row))).toBeGreaterThan(at);
  });

  it('C1: gives the first steps of what is to be done as soon as possible, too: what must not be stopped stands there', () => {
    const swollen = policyOf(
      rule('Swelling: first steps', onFinding('arm-neck-swelling'), {
        activity: 'swelling-response',
        scope: 'line',
        priority: 'asap',
        work: { computed: [], steps: [['Call the clinician first.']], supplies: [], cautions: [] },
      }),
    );
    const seen = finding('arm-neck-swelling', 'present', '2026-11-25T11:50:00+01:00');
    const text = table([...small, seen], swollen);
    expect(text).toMatch(/Swelling response: line[^]*1\. Call the clinician first\./);
    const waiting = finding('arm-neck-swelling', 'absent', '2026-11-25T11:50:00+01:00');
    expect(table([...small, waiting], swollen)).not.toContain('Call the clinician first.');
  });

  it('names lines that are not in place, and what is to be put right in the record', () => {
    const text = table(
      [...small, event('removal', '2026-11-25T11:00:00+01:00'), event('bath', undefined, { id: 'bath' })],
      policy,
    );
    expect(text).toContain('0 lines in place, 0 patients: 0 overdue, 0 due, 0 held, 0 upcoming');
    expect(text).toContain('Not in place: Right arm (Device/line), line removed.');
    expect(text).toContain(
      '1 thing in the record to put right:\n  The event has no time that can be read; it does not count. (Procedure/bath, Procedure.performed)',
    );
  });

  it('says the count that a rule is about, and what is not known', () => {
    const low = policyOf(rule('Daily gauze', every(days(1)), { when: "%labs.anc < 0.2 '10*9/L'" }));
    expect(table([...small, neutrophils(0.1, '2026-11-25T06:00:00+01:00')], low)).toContain(
      'Daily gauze (every day). Neutrophils 0.1 10^9/L.',
    );
    expect(table(small, low)).toContain('Not known: the neutrophil count. The protective reading is taken.');
  });

  it('says of a patient and a line what is known', () => {
    expect(
      table([line(''), event('insertion', '2026-11-20T09:00:00+01:00', dressing('gauze-dressing'))], policy),
    ).toContain('Name not known (Patient/p)\n  Device/line (Device/line), type not known\n');
  });
});

describe('relative time', () => {
  const minute = 60_000;
  it.each([
    [0, 'now'],
    [59_999, 'now'],
    [minute, 'in 1 min'],
    [59 * minute + 59_000, 'in 59 min'],
    [60 * minute, 'in 1 h'],
    [47 * 60 * minute + 59 * minute, 'in 47 h'],
    [48 * 60 * minute, 'in 2 d'],
    [-minute, '1 min ago'],
    [-90 * minute, '1 h ago'],
    [-10 * 1440 * minute, '10 d ago'],
  ])('%d ms is “%s”: one unit, rounded down', (ms, text) => {
    expect(relativeText(ms)).toBe(text);
  });
});

describe('wrapping', () => {
  it('leaves alone what fits or has no limit', () => {
    expect(wrap('one two', 2, 7)).toBe('one two');
    expect(wrap('one two three', 2, 0)).toBe('one two three');
  });

  it('breaks at single spaces, keeps columns together and indents what follows', () => {
    expect(wrap('one two three', 2, 8)).toBe('one two\n  three');
    expect(wrap('    row  column one two', 6, 16)).toBe('    row  column\n      one two');
    expect(wrap('unbreakable', 2, 4)).toBe('unbreakable');
  });
});

describe('styles', () => {
  it('are put around the text, or not at all', () => {
    expect(styler(false)('overdue', 'x')).toBe('x');
    expect(styler(true)('overdue', 'x')).toMatch(/^\u001b\[[0-9;]+mx\u001b\[0m$/); // eslint-disable-line no-control-regex -- as above
  });
});
