import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run } from '@dwellward/cli';
import { inventedYear } from '@dwellward/fixtures';
import { chartSvg, uChart, type Figures } from '@dwellward/figures';
import type { Bundle, FhirResource, Measure, MeasureReport } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { faultsOf } from '../conformance/r4-validators.js';
import { demo, publishedValues, yearFigures } from './demo.js';

describe('npm run figures:demo', () => {
  it('prints the tables and how many published values are reproduced', async () => {
    let out = '';
    expect(await demo((text) => void (out += text))).toBe(0);
    expect(out).toMatch(/Thimblewood Unit +\d+ +\d+ +0\.\d\d/);
    expect(out).toContain('not computed: 0.9 predicted, fewer than 1');
    const seen = publishedValues().filter((one) => one.seen === 'seen').length;
    expect(seen).toBeGreaterThan(90);
    expect(out).toContain(`\n${seen} of ${seen} published values reproduced\n`);
  });
});

describe('dwellward figures over the invented year', () => {
  it('is the same from the same seed', () => {
    expect(inventedYear()).toEqual(inventedYear());
    expect(inventedYear(1)).not.toEqual(inventedYear(2));
  });

  it('gives units that add up: infections, line days, and every culture either counted or left out', async () => {
    const { exit, out } = await yearFigures('--format', 'json');
    expect(exit).toBe(0);
    const { units, days, infections, leftOut } = JSON.parse(out) as Figures;
    expect(units.map(({ unit }) => unit)).toEqual(['Marlpit Unit', 'Thimblewood Unit']);
    const sum = (numbers: number[]) => numbers.reduce((a, b) => a + b, 0);
    expect(sum(units.map((one) => one.lineDays))).toBe(sum(days.rows.map((one) => one.lineDays)));
    expect(sum(units.map((one) => one.infections))).toBe(
      infections.filter((one) => one.lineAssociated).length,
    );
    const cultures = inventedYear().flatMap(({ id }) => (id?.includes('culture') ? `Observation/${id}` : []));
    const told = new Set([...infections.flatMap(({ refs }) => refs), ...leftOut.map(({ ref }) => ref)]);
    expect(cultures.length).toBeGreaterThan(15);
    expect(cultures.filter((ref) => !told.has(ref))).toEqual([]);
  });

  it('keeps to one unit, and to a spreadsheet’s rows', async () => {
    const { out } = await yearFigures('--unit', 'Marlpit Unit', '--format', 'csv');
    const rows = out.trim().split('\r\n');
    expect(rows).toHaveLength(13);
    expect(rows.slice(1).every((row) => row.startsWith('Marlpit Unit,2025-'))).toBe(true);
  });

  it('is FHIR that two validators find nothing against, with what was left out in the narrative', async () => {
    const { out } = await yearFigures('--format', 'fhir');
    const bundle = JSON.parse(out) as Bundle;
    const [measure, report] = (bundle.entry ?? []).map(({ resource }) => resource!);
    for (const one of [bundle, measure!, report!]) expect(faultsOf(one as FhirResource)).toEqual([]);
    expect(report).toMatchObject({ resourceType: 'MeasureReport', measure: (measure as Measure).url });
    const { group = [], text } = report as MeasureReport;
    expect(group.map(({ code }) => code?.text)).toEqual(['Marlpit Unit', 'Thimblewood Unit']);
    const counts = group[0]?.population?.map(({ count }) => count) as number[];
    expect(group[0]?.measureScore?.value).toBeCloseTo((1000 * counts[2]!) / counts[1]!, 3);
    expect(text?.div).toContain('found in one specimen only');
    expect(faultsOf({ ...report, status: 'done' } as never)).not.toEqual([]);
  });

  it('draws a chart that can be heard, with nothing told by colour alone', async () => {
    const { exit, out } = await yearFigures('--unit', 'Marlpit Unit', '--format', 'svg');
    expect(exit).toBe(0);
    expect(out).toMatch(/<svg [^>]*role="img"[^>]*aria-labelledby="chart-title chart-desc"/);
    expect(out).toMatch(/<desc id="chart-desc">Centre \d+\.\d\d of 1,000 line days\. 2025-01: /);
    expect(new Set(out.match(/#[0-9a-f]{3}\b/g))).toEqual(new Set(['#222', '#fff']));
    const chart = uChart([
      ...Array.from({ length: 9 }, () => ({ events: 0, days: 500 })),
      { events: 9, days: 500 },
    ]);
    const drawn = chartSvg(chart, { title: 'A <b> & "c"', labels: [], unit: '' });
    expect(drawn).toContain('<title id="chart-title">A &lt;b&gt; &amp; &quot;c&quot;</title>');
    // Signals are squares: the last point, and the eighth and ninth of the run before it.
    expect(drawn.match(/<rect x=/g)).toHaveLength(3);
    expect(drawn.match(/<circle/g)).toHaveLength(7);
  });

  it('takes the older method by name, and says which it took', async () => {
    const { out } = await yearFigures('--method', 'exact-or-byar');
    expect(out).toContain('June 2011');
    expect(out).not.toContain('since February 2014');
  });

  it.each([
    [['--unit', 'Nowhere'], '--unit Nowhere: there are Marlpit Unit, Thimblewood Unit.'],
    [['--predicted', 'Marlpit Unit'], 'a unit and a number above 0'],
    [['--predicted', 'Nowhere=2'], 'there is no unit of this name'],
    [['--method', 'guess'], 'one of mid-p-or-byar, exact-or-byar'],
    [['--format', 'pdf'], 'one of table, csv'],
    [['--format', 'svg'], 'which --unit names'],
    [['--to', '2024-01-01'], 'to is 2024-01-01'],
    [['--zone', 'Nowhere/Land'], 'Nowhere/Land is not'],
    [['--excluded', '/nowhere.json'], 'can’t be read'],
  ])('refuses %s', async (args, said) => {
    const { exit, out, err } = await yearFigures(...args);
    expect(exit).not.toBe(0);
    expect(out).toBe('');
    expect(err).toContain(said);
  });

  it('says that a rate of 0 means nothing without lists of organisms', async () => {
    const file = join(mkdtempSync(join(tmpdir(), 'dwellward-year-')), 'year.ndjson');
    writeFileSync(
      file,
      inventedYear()
        .map((one) => `${JSON.stringify(one)}\n`)
        .join(''),
    );
    let out = '';
    const period = ['--from', '2025-01-01', '--to', '2025-12-31', '--zone', 'Europe/Berlin'];
    await run(['figures', file, ...period], {
      stdin: (async function* () {})(),
      write: (text) => void (out += text),
      warn: () => undefined,
      ...{ colour: false, columns: 0, progress: false, now: () => '' },
    });
    expect(out).toContain('No list of organisms was given');
  });
});
