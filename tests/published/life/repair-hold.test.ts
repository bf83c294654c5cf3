import { readRecords, renderTable, repairJudgement } from '@dwellward/core';
import { describe, expect, it } from 'vitest';
import {
  at,
  careOf,
  event,
  finding,
  fromSkin,
  infusion,
  itemOf,
  lineOf,
  places,
  policyOf,
  recordOf,
  stepsOf,
  zone,
  type Resources,
} from './line.js';
import { said } from '../../said.js';

// From damage to repair, and from migration to confirmation. Common practice, no source: a damaged line is clamped and
// not used until it is repaired or replaced; it is repaired as soon as it can be; air in the new segment is drawn back
// until blood fills it, then flush and lock. Imaging of the tip before a line that moved is used: INS 2016 and 2021,
// from memory. Clamp between the damage and the body: home sheet (seen).

const policy = policyOf('trouble', 'repair-care', 'occlusion');
// Well away from the skin: what is damaged there is the lumen that the finding names, and no other.
const damage = (device: string, value: string | boolean = 'leak', when = at('09:00:00')) =>
  fromSkin(8, finding(`leak-${device}`, 'damage', when, value, device));
const holdsOf = (resources: Resources, when: string) =>
  careOf(resources, policy, when)
    .holds.filter(({ rule }) => rule.id.includes('while-damaged'))
    .map(({ activity, target }) => `${activity} ${target.scope === 'lumen' ? target.ref : 'line'}`)
    .sort();
const barred = [
  'blockage-response',
  'blood-sampling',
  'flush',
  'infusion-start',
  'lock',
  'occlusion-treatment',
  'patency-assessment',
];
const ofLine = barred.map((activity) => `${activity} line`);
const ofLumen = (lumen: string) => barred.map((activity) => `${activity} Device/${lumen}`);

describe('a damaged line is not used until it is repaired', () => {
  it('not infused, flushed, locked, drawn from, tested, nor treated with a drug', () => {
    expect(holdsOf([...lineOf(), damage('line')], at('09:05:00'))).toEqual(ofLine);
  });
  it('the damage of a lumen holds that lumen alone: the damaged part is what is clamped (home sheet, seen)', () => {
    expect(holdsOf([...lineOf(), damage('red')], at('09:05:00'))).toEqual(ofLumen('red'));
  });
  it('not before it was found, nor where there is none', () => {
    expect(holdsOf([...lineOf(), damage('red')], at('08:59:59'))).toEqual([]);
    for (const none of [false, 'none', 'absent'])
      expect(holdsOf([...lineOf(), damage('red', none)], at('09:05:00'))).toEqual([]);
  });
  it('care that was due meanwhile is held, and says by what; the other lumen is flushed and locked', () => {
    const care = careOf([...lineOf(), damage('red')], policy, at('09:05:00'));
    for (const activity of ['flush', 'lock']) {
      const item = itemOf(care, activity, 'red');
      expect([item?.state, item?.heldBy?.activity]).toEqual(['held', activity]);
      expect(said(item?.remarks ?? []).join(' ')).toMatch(/Held until the repair is done/);
      expect(itemOf(care, activity, 'white')?.heldBy).toBeUndefined();
    }
  });
  it('until the repair, and from then on without infusion until the kit’s time is over', () => {
    const mended = [...lineOf(), damage('red'), event('mended', 'repair', at('10:00:00'), 'red')];
    expect(holdsOf(mended, at('09:59:59'))).not.toEqual([]);
    expect(holdsOf(mended, at('10:00:00'))).toEqual([]);
    const after = careOf(mended, policy, at('10:00:00')).holds;
    expect(after.map(({ activity, until }) => [activity, until])).toEqual([['infusion-start', undefined]]);
  });
  it('a repair before the damage does not end it', () => {
    const before = [...lineOf(), event('mended', 'repair', at('08:00:00'), 'red'), damage('red')];
    expect(holdsOf(before, at('10:30:00'))).toEqual(ofLumen('red'));
  });
  it('a repair that names another lumen leaves the damaged lumen unused', () => {
    const other = [...lineOf(), damage('red'), event('mended', 'repair', at('10:00:00'), 'white')];
    expect(holdsOf(other, at('10:05:00'))).toEqual(ofLumen('red'));
  });
  it('damage of the line as a whole holds every lumen, and a repair of one frees none (protective, no source)', () => {
    const one = [...lineOf(), damage('line'), event('red-mended', 'repair', at('10:00:00'), 'red')];
    expect(holdsOf(one, at('10:05:00'))).toEqual(ofLine);
    const both = [...one, event('white-mended', 'repair', at('11:00:00'), 'white')];
    expect(holdsOf(both, at('10:59:59'))).toEqual(ofLine);
    expect(holdsOf(both, at('11:00:00'))).toEqual([]);
  });
  it('damage found again between two repairs of single lumens is not freed by the second', () => {
    const again = [
      ...lineOf(),
      damage('line'),
      event('red-mended', 'repair', at('10:00:00'), 'red'),
      { ...damage('line', 'leak', at('10:30:00')), id: 'again' },
      event('white-mended', 'repair', at('11:00:00'), 'white'),
    ];
    expect(holdsOf(again, at('11:05:00'))).toEqual(ofLine);
    const mended = [...again, event('mended', 'repair', at('12:00:00'))];
    expect(holdsOf(mended, at('12:00:00'))).toEqual([]);
  });
  it('the first steps themselves are not held: they are an emergency', () => {
    const care = careOf([...lineOf(), damage('red')], policy, at('09:05:00'));
    expect(itemOf(care, 'breakage-response')?.heldBy).toBeUndefined();
  });
});

describe('the repair is asked for at once', () => {
  const items = (resources: Resources, when = at('09:05:00')) =>
    careOf(resources, policy, when)
      .items.filter(({ activity }) => activity === 'repair')
      .map(({ target, dueBy, rule }) => [...said([target.name]), dueBy, rule.priority]);
  it('once, on the lumen where one is named, else on the line', () => {
    expect(items([...lineOf(), damage('red')])).toEqual([['red', at('09:00:00'), 'urgent']]);
    expect(items([...lineOf(), damage('line')])).toEqual([['the line', at('09:00:00'), 'urgent']]);
    expect(items([...lineOf(), damage('red'), damage('white')])).toEqual([
      ['red', at('09:00:00'), 'urgent'],
      ['white', at('09:00:00'), 'urgent'],
    ]);
  });
  it('clamp first, then whether it can be repaired, then who decides else', () => {
    const item = itemOf(careOf([...lineOf(), damage('red')], policy, at('09:05:00')), 'repair');
    const found = places(stepsOf(item), [
      /^Keep the clamp between the damage and the body/,
      /who may do it.*this lumen size.*intact outside the skin/,
      /responsible clinician decides on a replacement/,
      /^Draw back the air.*until blood fills it/,
      /^Then flush/,
      /^Then lock/,
      /^Chart the repair with its time and its lumen/,
    ]);
    expect(found).not.toContain(-1);
    expect(found).toEqual([...found].sort((a, b) => a - b));
  });
  it('it is met by a repair of that lumen, and closed with the line', () => {
    const of = (device: string) => [
      ...lineOf(),
      damage('red'),
      event('mended', 'repair', at('10:00:00'), device),
    ];
    expect(items(of('red'), at('10:05:00'))).toEqual([]);
    expect(items(of('white'), at('10:05:00'))).toEqual([['red', at('09:00:00'), 'urgent']]);
    const out = [...lineOf(), damage('red'), event('out', 'removal', at('10:00:00'))];
    expect(items(out, at('10:05:00'))).toEqual([]);
  });
  it('after it the test says: air back first, then flush, then lock', () => {
    const mended = [...lineOf(), damage('red'), event('mended', 'repair', at('10:00:00'), 'red')];
    const item = itemOf(careOf(mended, policy, at('10:05:00')), 'patency-assessment');
    // Kits take from minutes to a day: it may be done from the repair on.
    expect([item?.opens, item?.dueBy]).toEqual([at('10:00:00'), '2026-11-26T10:00:00+01:00']);
    const found = places(stepsOf(item), [
      /^Draw back: air.*until blood fills it/,
      /^Flush/,
      /^Then lock/,
      /^Chart/,
    ]);
    expect(found).not.toContain(-1);
    expect(found).toEqual([...found].sort((a, b) => a - b));
  });
});

describe('whether damage was repaired is answered alike everywhere (design, safety)', () => {
  /** What each part of the answer says: is it damaged still? */
  const answers = (resources: Resources, lumen: 'red' | 'white') => {
    const care = careOf(resources, policy, at('10:05:00'));
    const ref = `Device/${lumen}`;
    const state = care.lumens.find((one) => one.lumen === ref);
    const facts = state ? [state, ...state.also] : [];
    const { damage: judged } = repairJudgement(recordOf(resources), { lumen: ref }, policy, {
      asOf: at('10:05:00'),
      zone,
    });
    const isOf = ({ scope, ref: of }: { scope: string; ref: string }) => scope === 'line' || of === ref;
    return {
      state: facts.some((one) => one.state === 'damaged'),
      hold: care.holds.some(({ rule, target }) => rule.id === 'flush-while-damaged' && isOf(target)),
      item: care.items.some(({ activity, target }) => activity === 'repair' && isOf(target)),
      judged: judged !== undefined,
    };
  };
  const all = (damaged: boolean) => ({ state: damaged, hold: damaged, item: damaged, judged: damaged });
  const mended = (device: string) => event(`mended-${device}`, 'repair', at('10:00:00'), device);
  it.each([
    ['one lumen, not repaired', [damage('red')], true, false],
    ['one lumen, repaired', [damage('red'), mended('red')], false, false],
    ['one lumen, a repair that names none', [damage('red'), mended('line')], false, false],
    ['one lumen, a repair of the other', [damage('red'), mended('white')], true, false],
    ['both lumens, one repaired', [damage('red'), damage('white'), mended('red')], false, true],
    ['both lumens, a repair that names none', [damage('red'), damage('white'), mended('line')], true, true],
    ['the line, repaired', [damage('line'), mended('line')], false, false],
    ['the line, one lumen repaired', [damage('line'), mended('red')], true, true],
    ['the line, each lumen repaired', [damage('line'), mended('red'), mended('white')], false, false],
    [
      'one lumen, later looked at and found whole',
      [damage('red'), { ...damage('red', false, at('09:30:00')), id: 'whole' }],
      false,
      false,
    ],
  ])('%s', (_, resources, red, white) => {
    const record = [...lineOf(), ...resources];
    expect(answers(record, 'red')).toEqual(all(red));
    expect(answers(record, 'white')).toEqual(all(white));
    const first = itemOf(careOf(record, policy, at('10:05:00')), 'breakage-response');
    expect(first !== undefined).toBe(red || white);
  });
  it('a repair that leaves open which lumen it was of is told, until that is known', () => {
    const issuesOf = (resources: Resources) =>
      careOf([...lineOf(), ...resources], policy, at('10:05:00'))
        .issues.filter(({ code }) => code === 'unknown-lumen')
        .map(({ resource, sentence }) => [resource, ...said([sentence])]);
    const both = [damage('red'), damage('white')];
    const [[resource, message] = []] = issuesOf([...both, mended('line')]);
    expect(resource).toBe('Procedure/mended-line');
    expect(message).toMatch(/does not say of which lumen: damage of red and white/);
    expect(issuesOf([damage('line'), mended('red')])).toHaveLength(1);
    for (const clear of [
      [...both, mended('line'), mended('red'), mended('white')],
      [damage('red'), mended('line')],
      [damage('line'), mended('line')],
      [mended('line')],
    ])
      expect(issuesOf(clear)).toEqual([]);
  });
  it('the repair that names no lumen is the one that the item of the only damaged lumen waited for', () => {
    const before = careOf([...lineOf(), damage('red')], policy, at('09:05:00'));
    const after = careOf([...lineOf(), damage('red'), mended('line')], policy, at('10:05:00'));
    const item = itemOf(before, 'repair', 'red');
    expect(after.met.find(({ id }) => id === item?.id)?.by).toBe('Procedure/mended-line');
  });
});

describe('a repaired segment stays on record', () => {
  const mended = [...lineOf(), damage('red'), event('mended', 'repair', at('10:00:00'), 'red')];
  const judged = (resources: Resources, lumen: string) =>
    repairJudgement(recordOf(resources), { lumen: `Device/${lumen}` }, policy, {
      asOf: at('11:00:00'),
      zone,
    });
  it('with its lumen, in every later judgement', () => {
    expect(judged(mended, 'red').earlierRepairs).toEqual([
      { ref: 'Procedure/mended', at: at('10:00:00'), lumen: 'Device/red' },
    ]);
  });
  it('with its day and its lumen, where the line is listed', () => {
    const listed = (when: string) => {
      const records = readRecords(mended.map((resource) => ({ resource })));
      const text = renderTable(
        records,
        [careOf(mended, policy, when)],
        { asOf: when, zone },
        { colour: false, columns: 0 },
      );
      return text.split('\n').find((line) => line.includes('(Device/line)'));
    };
    expect(listed(at('11:00:00'))).toMatch(/; repaired 25 Nov 2026, red$/);
    expect(listed(at('09:30:00'))).not.toContain('repaired');
  });
  it('the repair of one lumen answers no damage of the other', () => {
    const both = [...mended, damage('white')];
    expect(judged(both, 'red').damage).toBeUndefined();
    expect(judged(both, 'white').damage?.ref).toBe('Observation/leak-white');
  });
});

describe('a line that has moved is not infused until its tip is confirmed (INS 2016 and 2021, from memory)', () => {
  const moved = [...lineOf(), finding('moved', 'migration', at('09:00:00'))];
  const held = (resources: Resources, when: string) =>
    careOf(resources, policy, when)
      .holds.filter(({ activity }) => activity === 'infusion-start')
      .map(({ rule, until, because }) => [rule.id, until, because]);
  it('also where it had been confirmed before, and was in use', () => {
    const used = [...moved, infusion('drip', 'red', at('06:00:00'))];
    for (const resources of [moved, used])
      expect(held(resources, at('09:05:00'))).toEqual([
        ['infusion-start-after-migration', undefined, 'Observation/moved'],
      ]);
    expect(itemOf(careOf(moved, policy, at('09:05:00')), 'tip-confirmation')?.dueBy).toBe(at('09:00:00'));
  });
  it('until it is confirmed after that', () => {
    const again = [...moved, event('again', 'tip-confirmation', at('11:00:00'))];
    expect(held(again, at('10:59:59'))).toHaveLength(1);
    expect(held(again, at('11:00:00'))).toEqual([]);
  });
});
