// Prints the figures of an invented unit's year, and how many published values are reproduced.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run } from '@dwellward/cli';
import { inventedYear, organismLists, yearPeriod } from '@dwellward/fixtures';
import { datesOf, infectionRows } from './infection-rows.js';
import { asPrinted, statisticsRows, workedOut } from './statistics-rows.js';

/** Every published value of the tables, with what we make of it. */
export function publishedValues(): {
  what: string;
  seen: string;
  printed: string;
  ours: string | undefined;
}[] {
  return [
    ...statisticsRows.flatMap((row) => {
      const ours = workedOut(row);
      return Object.entries(row.expect).map(([name, printed]) => ({
        what: `${row.figure} ${name}: ${row.source}, ${row.where}`,
        seen: row.seen,
        printed,
        ours: asPrinted(ours[name], printed),
      }));
    }),
    ...infectionRows.flatMap((row) => {
      const ours = datesOf(row);
      return Object.entries(row.expect).map(([name, printed]) => ({
        what: `${row.figure} ${name}: ${row.source}, ${row.where}`,
        seen: row.seen,
        printed,
        ours: ours[name],
      }));
    }),
  ];
}

/** The command over the year, written to a folder of its own. */
export async function yearFigures(...more: string[]): Promise<{ exit: number; out: string; err: string }> {
  const folder = mkdtempSync(join(tmpdir(), 'dwellward-year-'));
  const write = (name: string, text: string) => {
    const path = join(folder, name);
    writeFileSync(path, text);
    return path;
  };
  try {
    const year = write(
      'year.ndjson',
      inventedYear()
        .map((one) => `${JSON.stringify(one)}\n`)
        .join(''),
    );
    const { pathogens, commensals } = organismLists();
    let [out, err] = ['', ''];
    const { from, to, zone } = yearPeriod;
    const exit = await run(
      [
        ...['figures', year, '--from', from, '--to', to, '--zone', zone],
        ...['--pathogens', write('pathogens.json', JSON.stringify(pathogens))],
        ...['--commensals', write('commensals.json', JSON.stringify(commensals))],
        ...more,
      ],
      {
        stdin: (async function* () {})(),
        write: (text) => void (out += text),
        warn: (text) => void (err += text),
        ...{ colour: false, columns: 0, progress: false, now: () => '' },
      },
    );
    return { exit, out, err };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** What `npm run figures:demo` does; gives its exit code. */
export async function demo(write: (text: string) => void): Promise<number> {
  const { exit, out, err } = await yearFigures(
    '--predicted',
    'Thimblewood Unit=4.2',
    '--predicted',
    'Marlpit Unit=0.9',
  );
  write(`${out}\n${err}`);
  const values = publishedValues();
  const wrong = values.filter(({ printed, ours }) => printed !== ours);
  for (const { what, printed, ours } of wrong)
    write(`not reproduced: ${what}: printed ${printed}, ours ${ours}\n`);
  const score = (seen: string) => {
    const of = values.filter((one) => one.seen === seen);
    return `${of.filter((one) => !wrong.includes(one)).length} of ${of.length}`;
  };
  write(
    `${score('computed')} values that another statistics library gives by the published method reproduced\n`,
  );
  write(`${score('from memory')} published values that are known from memory only reproduced\n`);
  write(`${score('seen')} published values reproduced\n`);
  return exit === 0 && wrong.length === 0 ? 0 : 1;
}
