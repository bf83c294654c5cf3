import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import {
  at,
  careOf,
  event,
  finding,
  itemOf,
  lineOf,
  places,
  policyOf,
  stepsOf,
  type Resources,
} from './line.js';

// The first hours of a new line. Common practice, no source, unless a row names one: the vein incision is cleaned and
// dressed daily until it has healed; every clamp is closed before any cap comes off; every lumen is tested for blood
// and flow, never by force; excessive drainage gets pressure, a swelling gets cold; nothing runs before the tip is
// confirmed. Pulses of about 1 mL: INS, MASCC (from memory). First dressing the day after: NHS Ayrshire & Arran G004
// (seen).

const policy = policyOf('post-insertion', 'trouble');
const inserted = at('10:00:00');
/** The line of these tests, put in this morning, its tip confirmed half an hour later. */
const fresh = (type = 'tunneled-cvc'): Resources => [
  ...lineOf({ type }).filter(({ resourceType }) => resourceType !== 'Procedure'),
  event('inserted', 'insertion', inserted),
  event('confirmed', 'tip-confirmation', at('10:30:00')),
];
const onSite = (site: 'exit-site' | 'incision') => ({
  bodySite: { coding: [{ system: codeSystem.lineSite, code: site }] },
});
const dressed = (id: string, when: string) => ({
  ...event(id, 'dressing-change', when),
  bodySite: [{ coding: [{ system: codeSystem.lineSite, code: 'incision' }] }],
});
const at26 = (time: string) => `2026-11-26T${time}+01:00`;
const on = (resources: Resources, activity: string, scope: string, when = at('10:20:00')) =>
  careOf(resources, policy, when).items.find(
    (item) => item.activity === activity && item.target.scope === scope,
  );

describe('every clamp closed before any cap comes off, as the first step', () => {
  it.each([
    ['site-assessment', 'exit-site'],
    ['site-assessment', 'incision'],
    ['patency-assessment', 'lumen'],
    ['dressing-change', 'exit-site'],
    ['dressing-change', 'incision'],
  ])('%s of the %s', (activity, scope) => {
    expect(stepsOf(on(fresh(), activity, scope))[0]).toMatch(
      /every clamp is closed before any cap comes off/,
    );
  });
  it.each(['exit-site', 'incision'] as const)('new-site-response of the %s', (site) => {
    const seen = { ...finding('much', 'exit-site', at('10:15:00'), 'drainage'), ...onSite(site) };
    expect(stepsOf(on([...fresh(), seen], 'new-site-response', site))[0]).toMatch(/every clamp is closed/);
  });
});

describe('the patency of each lumen', () => {
  it('is tested in the first hour, in order: blood drawn back, pulses without force, the lumens compared', () => {
    for (const lumen of ['red', 'white']) {
      const item = itemOf(careOf(fresh(), policy, at('10:20:00')), 'patency-assessment', lumen);
      expect(item?.dueBy).toBe(at('11:00:00'));
      const found = places(stepsOf(item), [
        /clamp is closed/,
        /^Draw back until blood is seen/,
        /^Flush .*pushes of about 1 mL.*Never force/,
        /^Compare the lumens/,
        /^Chart blood return and resistance/,
      ]);
      expect(found).not.toContain(-1);
      expect(found).toEqual([...found].sort((a, b) => a - b));
    }
    // Twice the internal volume (INS): 0.8 and 0.7 mL.
    const flush = (lumen: string) =>
      stepsOf(itemOf(careOf(fresh(), policy, at('10:20:00')), 'patency-assessment', lumen)).join(' ');
    expect(flush('red')).toContain('Flush with at least 1.6 mL');
    expect(flush('white')).toContain('Flush with at least 1.4 mL');
  });

  it('of one lumen says nothing of the other', () => {
    const tested = [...fresh(), event('tested', 'patency-assessment', at('10:40:00'), 'red')];
    const care = careOf(tested, policy, at('10:50:00'));
    expect(itemOf(care, 'patency-assessment', 'red')).toBeUndefined();
    expect(itemOf(care, 'patency-assessment', 'white')?.dueBy).toBe(at('11:00:00'));
  });
});

describe('the vein incision is cleaned and dressed daily until it has healed', () => {
  it.each(['tunneled-cvc', 'tunneled-dialysis-catheter', 'implanted-port'])('of a %s', (type) => {
    const item = on(fresh(type), 'dressing-change', 'incision');
    expect([item?.rule.id, item?.dueBy]).toEqual(['dressing-change-incision', at26('10:00:00')]);
  });
  it.each(['picc', 'nontunneled-cvc', 'midline'])('a %s has none', (type) => {
    expect(on(fresh(type), 'dressing-change', 'incision')).toBeUndefined();
  });
  it('counts from the last dressing of the incision, and not of the exit site', () => {
    const done = [
      ...fresh(),
      dressed('clean', at('18:00:00')),
      event('other', 'dressing-change', at('19:00:00')),
    ];
    expect(on(done, 'dressing-change', 'incision', at('20:00:00'))?.dueBy).toBe(at26('18:00:00'));
  });
  it('is asked for while the record does not say that it has healed: unknown counts as not healed', () => {
    const later = '2026-12-20T10:00:00+01:00';
    const soon = '2026-12-10T10:00:00+01:00';
    expect(on(fresh(), 'dressing-change', 'incision', soon)?.byUnknown).toEqual(['latest.incisionHealed']);
    // For three weeks: after that the record has to say that it is still open.
    expect(on(fresh(), 'dressing-change', 'incision', later)).toBeUndefined();
    const no = [...fresh(), finding('not-yet', 'incision-healed', '2026-12-19T10:00:00+01:00', false)];
    expect(on(no, 'dressing-change', 'incision', later)?.rule.id).toBe('dressing-change-incision');
    const yes = [...fresh(), finding('healed', 'incision-healed', '2026-12-19T10:00:00+01:00', true)];
    expect(on(yes, 'dressing-change', 'incision', later)).toBeUndefined();
  });
});

describe.each(['exit-site', 'incision'] as const)('trouble at the new %s', (site) => {
  const seen = (value: string, when = at('10:15:00')) => ({
    ...finding('seen', 'exit-site', when, value),
    ...onSite(site),
  });
  it('much drainage gets pressure, a swelling gets cold, at once', () => {
    for (const value of ['drainage', 'swelling']) {
      const item = on([...fresh(), seen(value)], 'new-site-response', site);
      expect([item?.dueBy, item?.rule.priority]).toEqual([at('10:15:00'), 'urgent']);
      expect(places(stepsOf(item), [/^Drains much: press/, /^Swells: cold/])).not.toContain(-1);
    }
  });
  it('is a matter of this site alone, and ends when the first steps are charted', () => {
    const other = site === 'incision' ? 'exit-site' : 'incision';
    expect(on([...fresh(), seen('swelling')], 'new-site-response', other)).toBeUndefined();
    const done = {
      ...event('done', 'new-site-response', at('10:20:00')),
      bodySite: [onSite(site).bodySite],
    };
    expect(
      on([...fresh(), seen('swelling'), done], 'new-site-response', site, at('10:25:00')),
    ).toBeUndefined();
  });
  it('redness is no matter of pressure or cold, and after the first days neither is asked for', () => {
    expect(on([...fresh(), seen('redness')], 'new-site-response', site)).toBeUndefined();
    const third = '2026-11-28T12:00:00+01:00';
    expect(on([...fresh(), seen('drainage', third)], 'new-site-response', site, third)).toBeDefined();
    const fourth = '2026-11-29T12:00:00+01:00';
    expect(on([...fresh(), seen('drainage', fourth)], 'new-site-response', site, fourth)).toBeUndefined();
  });
  // What is a sign of infection: IDSA 2009 table 4 (seen). That drainage and swelling of a new site are none yet, and up
  // to which day, is common practice, no source.
  it('drainage and swelling are no sign of infection yet, redness, tenderness and pus are', () => {
    const both = (resources: Resources, when?: string) =>
      ['new-site-response', 'infection-sign-response'].map(
        (activity) => on([...fresh(), ...resources], activity, site, when)?.dueBy,
      );
    for (const value of ['drainage', 'swelling'])
      expect(both([seen(value)])).toEqual([at('10:15:00'), undefined]);
    for (const value of ['redness', 'tenderness', 'pus'])
      expect(both([seen(value)])).toEqual([undefined, at('10:15:00')]);
    const red = { ...seen('redness', at('10:18:00')), id: 'red' };
    expect(both([seen('drainage'), red])).toEqual([at('10:15:00'), at('10:18:00')]);
    const fourth = '2026-11-29T12:00:00+01:00';
    expect(both([seen('drainage', fourth)], fourth)).toEqual([undefined, fourth]);
  });
  it('what was seen in the first days is not read anew as a sign of infection later', () => {
    const done = { ...event('done', 'new-site-response', at('10:20:00')), bodySite: [onSite(site).bodySite] };
    const fourth = '2026-11-29T12:00:00+01:00';
    const treated = [...fresh(), seen('drainage'), done];
    expect(on(treated, 'infection-sign-response', site, fourth)).toBeUndefined();
    const again = { ...seen('drainage', fourth), id: 'again' };
    expect(on([...treated, again], 'infection-sign-response', site, fourth)?.dueBy).toBe(fourth);
  });
  it('of a line whose insertion is not on record both are signs of infection', () => {
    const unknown = fresh().filter(({ id }) => id !== 'inserted');
    expect(on([...unknown, seen('drainage')], 'infection-sign-response', site)?.byUnknown).toEqual([
      'line.dwellDays',
    ]);
    expect(on([...unknown, seen('drainage')], 'new-site-response', site)).toBeUndefined();
  });
  it('bleeding is an emergency: press, call, gauze', () => {
    const bleeds = { ...finding('bleeds', 'bleeding', at('10:15:00')), ...onSite(site) };
    const item = on([...fresh(), bleeds], 'bleeding-response', 'line');
    expect([item?.dueBy, item?.rule.priority]).toEqual([at('10:15:00'), 'stat']);
    expect(places(stepsOf(item), [/^Press on the site/, /^Call/, /gauze dressing/])).not.toContain(-1);
  });
});

describe('the first dressing and the tip', () => {
  it('the first dressing is changed the day after (NHS Ayrshire & Arran G004, seen)', () => {
    const item = on(fresh('picc'), 'dressing-change', 'exit-site');
    expect([item?.rule.id, item?.dueBy]).toEqual(['dressing-change-first', at26('10:00:00')]);
  });
  it('nothing is infused until the tip is confirmed (a dialysis catheter’s leaflet, seen)', () => {
    const held = (resources: Resources, when: string) =>
      careOf(resources, policy, when).holds.filter(({ activity }) => activity === 'infusion-start').length;
    const unconfirmed = fresh().filter(({ id }) => id !== 'confirmed');
    expect(held(unconfirmed, at('10:20:00'))).toBe(1);
    expect(held(fresh(), at('10:31:00'))).toBe(0);
  });
});
