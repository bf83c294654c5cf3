import {
  dueCare,
  homeSheet,
  readRecords,
  renderHomeHtml,
  renderHomeText,
  type Advice,
  type HomeSheet,
  type HomeTodo,
} from '@dwellward/core';
import { demoUnit } from '@dwellward/fixtures';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { countsOf, fleschReadingEase, schoolGrade } from './readability.js';
import { demo, elementsOf } from './support.js';
import { said } from '../said.js';

const { records, cares, policy, when } = demo();
const patients = [...new Set(records.lines.map(({ patient }) => patient.ref))];
const sheets = new Map(
  patients.map((patient) => [patient, homeSheet(records, cares, policy, when, patient)] as const),
);
const sheetOf = (patient: string): HomeSheet => sheets.get(patient)!;
const spindle = sheetOf('Patient/spindle-wagtail');
const adviceOf = ({ emergencies, broken, signs, always, never, bring }: HomeSheet): Advice[] => [
  ...emergencies,
  ...broken,
  ...signs,
  ...always,
  ...never,
  ...bring,
];

const adviceText = ({ advice }: Advice): string => said([{ code: 'home-advice', advice }]).join();
const textsOf = (todo: readonly HomeTodo[] = []): string[] => said(todo.map(({ text }) => text));

/** The running text: no titles, no lines to fill in, no supplies, no days; a sentence that comes again counts once. */
function runningText(sheet: HomeSheet): string {
  let list = '';
  const text = renderHomeText(sheet)
    .split('\n\n')
    .filter((part) => {
      const title = /^[A-Z0-9 ,:]+$/.test(part.trim());
      if (title) list = part.trim();
      return !title && !list.startsWith('HAVE THESE') && !list.startsWith('WHOM TO CALL');
    })
    .join('\n')
    .replaceAll(/^=+$/gm, '')
    .replaceAll(/^Your line: .*$/gm, '')
    .replaceAll(/^For .*$/gm, '')
    .replaceAll(/^ {2}(Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d+ [A-Z][a-z]+/gm, '')
    .replaceAll(/^ *\* /gm, '');
  return [...new Set(text.split(/(?<=[.!?])\s+/).map((one) => one.replaceAll(/\s+/g, ' ')))].join(' ');
}

describe('how easy it reads', () => {
  it('is measured by Flesch’s formula', () => {
    // Worked numbers as published: 15 words a sentence at 1.5 syllables 64.71, 20 at 1.2 85.02
    // (https://bit1024.com/tool/Flesch-Reading-Ease-Score-Calculator).
    expect(fleschReadingEase({ words: 300, sentences: 20, syllables: 450 })).toBeCloseTo(64.71, 2);
    expect(fleschReadingEase({ words: 300, sentences: 15, syllables: 360 })).toBeCloseTo(85.015, 2);
  });

  it('with counts that give the published scores of known sentences', () => {
    // Wikipedia, Flesch–Kincaid readability tests (from memory): 116; 37.5 for 13 words of 24 syllables.
    const cat = countsOf('The cat sat on the mat.');
    expect(cat).toEqual({ words: 6, sentences: 1, syllables: 6 });
    expect(fleschReadingEase(cat)).toBeCloseTo(116, 0);
    const platypus = countsOf(
      'The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.',
    );
    expect(platypus).toEqual({ words: 13, sentences: 1, syllables: 24 });
    expect(fleschReadingEase(platypus)).toBeCloseTo(37.5, 1);
    expect(countsOf('Australian reptilian', true).syllables).toBeGreaterThan(6);
  });

  it.each(patients)('%s: at least 60, also where vowels in doubt count twice', (patient) => {
    const text = runningText(sheetOf(patient));
    expect(countsOf(text).words).toBeGreaterThan(150);
    expect(fleschReadingEase(countsOf(text))).toBeGreaterThanOrEqual(80);
    expect(fleschReadingEase(countsOf(text, true))).toBeGreaterThanOrEqual(60);
    for (const sentence of text.split(/[.!?:]+\s/)) expect(countsOf(sentence).words).toBeLessThanOrEqual(20);
  });
});

describe('C12: only what the person or the family can do', () => {
  const texts = (sheet: HomeSheet) => renderHomeText(sheet).replaceAll(/\s+/g, ' ');
  const whitebeam = sheetOf('Patient/whitebeam-plover');
  const portOf = ({ lines }: HomeSheet) => lines.find(({ line }) => line.includes('port'));
  /** The sheet of the demo patient whose port has no needle in, with nothing else of theirs. */
  const portAlone = homeSheet(
    { ...records, lines: records.lines.filter(({ ref }) => ref === 'Device/whitebeam-port') },
    cares,
    policy,
    when,
    'Patient/whitebeam-plover',
  );

  it('C12: a port with no needle in it is flushed by the nurse, on a day that is named', () => {
    const port = portOf(whitebeam);
    const own = textsOf([
      ...(port?.late ?? []),
      ...(port?.everyDay ?? []),
      ...(port?.days ?? []).flatMap(({ todo }) => todo),
    ]);
    expect(own).toEqual(['Your nurse does this: flush the port; put the lock fluid into the port.']);
    expect(port?.days[2]?.date).toBe('2026-11-27');
    expect(port?.supplies.counts).toEqual([]);
  });

  it('C12: nobody with only a port is told of a tube end, a dressing or a line that falls out', () => {
    const text = texts(portAlone);
    expect(text).not.toMatch(/Scrub the end|dressing is wet|falls out|longer or shorter|loop|hard to flush/);
    expect(text).toContain('The skin over the port is red');
    expect(portAlone.lines[0]?.everyDay).toEqual([]);
  });

  it('C12: a dialysis line is opened by the dialysis unit alone', () => {
    const sheet = sheetOf('Patient/buckthorn-bittern');
    const line = sheet.lines.find((one) => one.line.includes('dialysis'));
    const own = textsOf([...(line?.everyDay ?? []), ...(line?.days ?? []).flatMap(({ todo }) => todo)]);
    expect(
      own
        .filter((one) => /flush|lock fluid|cap|dressing/.test(one))
        .every((one) => one.startsWith('Your nurse')),
    ).toBe(true);
    expect(texts(sheet)).toContain('Never let anyone but the dialysis unit open the line.');
  });

  it.each([...patients, 'a port alone'])(
    'C12: says on every sheet what to do when the cap is off: %s',
    (patient) => {
      const text = texts(patient === 'a port alone' ? portAlone : sheetOf(patient));
      expect(text).toContain(
        'The cap is off, or the tube is open. Close the clamp at once, near your body. Lie down. Then call.',
      );
    },
  );

  it.each(patients)('C12: has one line on fever, and the two scales say the same: %s', (patient) => {
    const text = texts(sheetOf(patient));
    expect(text.match(/\d+(?:\.\d+)? °[CF]/g)).toEqual(['38.0 °C', '100.4 °F']);
    expect((38.0 * 9) / 5 + 32).toBeCloseTo(100.4, 9);
  });

  it('C12: names the supplies in words of every day', () => {
    const supplies = [...sheets.values()].flatMap(({ lines }) =>
      lines.flatMap(({ supplies: { counts } }) =>
        said(counts.map(({ text: what, count }) => ({ code: 'home-supply', count, what }) as const)),
      ),
    );
    expect(supplies.length).toBeGreaterThan(20);
    for (const supply of supplies)
      expect(supply).not.toMatch(
        /hub|lumen|policy|prescribed|connector|securement|in place$|administration set/,
      );
  });

  it.each(patients)(
    'C12: is read in the sixth year of school, also where vowels in doubt count twice: %s',
    (patient) => {
      const text = runningText(sheetOf(patient));
      expect(schoolGrade(countsOf(text))).toBeLessThanOrEqual(4);
      expect(schoolGrade(countsOf(text, true))).toBeLessThanOrEqual(6);
    },
  );

  it('T7: trouble is told in words of its own, by what answers it and not by what a title ends with', () => {
    const told = (activity: 'air-entry-response' | 'removal', title: string) =>
      said([{ code: 'call-about', activity, title }]).join();
    expect(told('air-entry-response', 'Something: first steps')).toBe(
      'Air may have got into the line. Close the clamp, lie down, and call the emergency number.',
    );
    expect(told('removal', 'Line out: first steps')).toBe('Line out: first steps.');
  });

  it('T7: that a plan is on the safe side is told by a code, where a reading was taken for want of a fact', () => {
    const sure = (sheet: HomeSheet) => texts(sheet).includes('this plan is on the safe side');
    expect(sure(sheetOf('Patient/dogwood-dipper'))).toBe(true);
    expect([...sheets.values()].filter((sheet) => !sure(sheet)).length).toBeGreaterThan(0);
  });
});

describe('what it says', () => {
  it('every advice keeps its source, and none of the sources is printed', () => {
    const text = renderHomeText(spindle) + renderHomeHtml(spindle);
    for (const { source } of adviceOf(spindle)) {
      expect(source.length).toBeGreaterThan(10);
      expect(text).not.toContain(source);
    }
  });

  // Red flags as published in home sheets of hospitals (facts 12.10, 12.11, 12.12 and 6.1 of the reference): call for
  // fever from 38.0 °C (100.5 °F in both), chills after a flush, redness, drainage, rash, swollen arm or neck, the cuff
  // seen, a hard flush, a break, a wet dressing; emergency for chest pain, dyspnoea, the line fallen out.
  it.each([
    ['emergencies', /chest hurts/],
    ['emergencies', /hard to breathe/],
    ['emergencies', /falls out\. Press/],
    ['broken', /Clamp it at once, between the break and your body\. Put clean gauze .* Then call/],
    ['signs', /fever of 38\.0 °C \(100\.4 °F\) or more/],
    ['signs', /after a flush/],
    ['signs', /red, or fluid/],
    ['signs', /rash/],
    ['signs', /arm or your neck swells/],
    ['signs', /see the cuff/],
    ['signs', /hard to flush\. Stop, and do not force/],
    ['signs', /dressing is wet/],
    ['always', /Wash your hands/],
    ['always', /15 seconds/],
    ['always', /dry/],
    ['always', /loop/],
    ['never', /force a flush/],
    ['never', /under water/],
    ['never', /blood pressure .* arm/],
  ] as const)('%s: %s', (list, text) => {
    expect(spindle[list].some((advice) => text.test(adviceText(advice)))).toBe(true);
  });

  it('says nothing of the arm where the line is not in one', () => {
    const chest = sheetOf('Patient/larch-lapwing');
    expect(chest.never.some((advice) => /blood pressure/.test(adviceText(advice)))).toBe(false);
  });

  it('has late care, what comes every day, and 14 days in their order', () => {
    // The daily gauze change of low neutrophils was due 06:30; it is taken to be done now, 07:30.
    const [line] = spindle.lines;
    expect(textsOf(line?.late)).toEqual(['Change the dressing.']);
    expect(textsOf(line?.everyDay)).toContain('By 07:30: change the dressing.');
    expect(line?.days.map(({ date }) => date)).toEqual(
      Array.from({ length: 14 }, (_, i) => new Date(Date.UTC(2026, 10, 25 + i)).toISOString().slice(0, 10)),
    );
    expect(line?.days[2]?.date).toBe('2026-11-27');
    expect(renderHomeText(spindle)).toContain('  Fri 27 Nov  ');
    expect(textsOf(line?.days[2]?.todo)).toContain('By 20:00: flush these tubes: purple, red.');
  });

  it('gives no phone number, no reference and no code: only lines to fill in', () => {
    const text = renderHomeText(spindle);
    expect(text).toMatch(/Your unit, day and night: _{20,}\n\n {2}Emergency number: _{20,}/);
    expect(text).not.toMatch(/\d{3,}(?!\.)(?![^\n]*mL)|[A-Z][a-z]+\/[a-z]|-[a-z]+-/);
    expect(text).toContain('If you are not sure, call the unit.');
    expect(text).toContain('do what the unit says');
  });

  it('says that a hold lasts until the unit says so, where nothing on record gives its end', () => {
    const held = renderHomeText(sheetOf('Patient/hornbeam-curlew'));
    expect(held).toContain('NOT NOW');
    expect(held.replaceAll(/\s+/g, ' ')).toContain(
      'Let nothing run through the line. Wait until the unit says so.',
    );
  });

  it('says what is held in words of home, each once, and nothing that only the unit does', () => {
    const damage = {
      resourceType: 'Observation' as const,
      id: 'leak',
      status: 'final' as const,
      code: { coding: [{ system: codeSystem.lineFinding, code: 'damage' }] },
      subject: { reference: 'Patient/spindle-wagtail' },
      focus: [{ reference: 'Device/spindle-picc-red' }],
      effectiveDateTime: '2026-11-25T07:00:00+01:00',
      valueString: 'leak',
      component: [
        {
          code: { coding: [{ system: codeSystem.lineFinding, code: 'distance-from-skin' }] },
          valueQuantity: { value: 8, unit: 'cm', system: 'http://unitsofmeasure.org', code: 'cm' },
        },
      ],
    };
    const unit = (demoUnit().entry ?? []).map(({ resource }) => resource);
    const own = readPolicy([bundledPlan('base'), bundledPlan('repair-care')]);
    if (!own.ok) throw new Error('The bundled layers are refused.');
    const broken = readRecords([...unit, damage].map((resource) => ({ resource })));
    const cares = broken.lines.map((line) => dueCare(line, own.policy, when));
    const sheet = homeSheet(broken, cares, own.policy, when, 'Patient/spindle-wagtail');
    const notNow = said(sheet.lines.flatMap((line) => line.notNow));
    // Only the damaged tube is held (home sheet, seen: the damaged part is what is clamped).
    const flush = 'Do not flush this tube: red. Wait until the unit says so.';
    expect(notNow.filter((text) => text.startsWith('Do not flush'))).toEqual([flush]);
    expect(notNow).toContain('Let nothing run through this tube: red. Wait until the unit says so.');
    expect(new Set(notNow).size).toBe(notNow.length);
    expect(notNow.join(' ')).not.toMatch(/patency|occlusion|sampling|Do not do this/);
  });

  it('says of a planned line when it goes in and what to do before', () => {
    const sheet = sheetOf('Patient/sloe-sandpiper');
    const text = renderHomeText(sheet).replaceAll(/\s+/g, ' ');
    expect(text).toContain('BEFORE YOUR LINE GOES IN');
    expect(text).toContain('Your line goes in on Thu 26 Nov, 09:00.');
    expect(text).toContain('By Wed 25 Nov, 20:00: wash with the soap you were given.');
    expect(text).toContain(
      'This is late, and your nurse does it: look at your blood test. Call the unit and ask when.',
    );
    expect(text).not.toContain('We have no line');
    expect(renderHomeHtml(sheet)).toContain('<li>Your line goes in on Thu 26 Nov, 09:00.</li>');
  });

  it('says that there is no line where none is in place', () => {
    const none = homeSheet(records, [], policy, when, 'Patient/spindle-wagtail');
    expect(renderHomeText(none)).toContain('We have no line on record for you. Ask the unit.');
    expect(elementsOf(renderHomeHtml(none)).some(({ name }) => name === 'table')).toBe(false);
  });
});

describe('the HTML page', () => {
  it.each(patients)('%s: well formed, headings in order, table headers with scope, no colour', (patient) => {
    const html = renderHomeHtml(sheetOf(patient));
    const elements = elementsOf(html);
    expect(elements[0]).toMatchObject({ name: 'html', attributes: { lang: 'en' } });
    expect(elements.filter(({ name }) => name === 'title')).toHaveLength(1);
    const levels = elements.flatMap(({ name }) => (/^h[1-6]$/.test(name) ? [Number(name[1])] : []));
    expect(levels[0]).toBe(1);
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    for (const [i, level] of levels.entries())
      expect(level - (levels[i - 1] ?? level)).toBeLessThanOrEqual(1);
    const headers = elements.filter(({ name }) => name === 'th');
    // The days are of lines that are in.
    if (sheetOf(patient).lines.length === 0) return expect(headers).toEqual([]);
    expect(headers.length).toBeGreaterThanOrEqual(16);
    expect(new Set(headers.map(({ attributes }) => attributes['scope']))).toEqual(new Set(['col', 'row']));
    expect([...html.matchAll(/#[0-9a-f]{3,6}\b/g)].map(([colour]) => colour).sort()).toEqual([
      '#000',
      '#fff',
    ]);
    expect(html).not.toMatch(/<script|src=|url\(|https?:/);
  });

  it('says the same as the text', () => {
    const flat = (text: string) => text.replaceAll(/[\s*=|]+/g, ' ');
    const text = flat(renderHomeText(spindle));
    const shown = elementsOf(renderHomeHtml(spindle))
      .filter(({ name }) => ['li', 'td', 'th'].includes(name))
      .map(({ text: own }) => flat(own));
    expect(shown.length).toBeGreaterThan(40);
    for (const part of shown.filter((one) => one !== 'Day' && one !== 'What to do'))
      expect(text).toContain(part);
  });

  it('carries any name and takes none for markup', () => {
    const [line] = spindle.lines;
    const odd = `<b onload="x">&amp; 'Ω' 換藥 \u0000\uD800</b>`;
    const elements = elementsOf(
      renderHomeHtml({
        ...spindle,
        name: odd,
        lines: [
          {
            ...line!,
            name: { code: 'named', name: odd },
            callNow: [{ code: 'call-about', activity: 'removal', title: odd }],
          },
        ],
      }),
    );
    expect(elements.some(({ name }) => name === 'b')).toBe(false);
  });
});
