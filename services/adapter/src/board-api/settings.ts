import { readFile } from 'node:fs/promises';
import { figuresView, type Figures, type FiguresView } from '@dwellward/figures';
import { activityCodes, type LineCareActivity } from '@dwellward/profiles';
import { z } from 'zod';
import { ConfigError } from '../config.js';

export type Minutes = Readonly<Partial<Record<LineCareActivity, number>>>;

const minutes = z.partialRecord(
  z.enum(activityCodes as readonly [LineCareActivity, ...LineCareActivity[]]),
  z.number().min(0).max(1440),
);

/**
 * Reads the minutes that a unit takes each activity to need.
 * @throws ConfigError where the file can’t be read, or names another activity or no number.
 */
export async function readMinutes(file: string): Promise<Minutes> {
  const read = minutes.safeParse(await jsonIn(file, 'DWELLWARD_BOARD_MINUTES'));
  if (read.success) return read.data as Minutes;
  throw new ConfigError(
    read.error.issues.map(
      ({ path, message }) =>
        `DWELLWARD_BOARD_MINUTES: “${file}”, ${path.join('.') || 'content'}: ${message}.`,
    ),
  );
}

const [text, number] = [z.string(), z.number()];
/** What everything in words is made from: another file is told from it. */
const figures = z.looseObject({
  days: z.looseObject({ period: z.looseObject({ from: z.string(), to: z.string() }) }),
  units: z.array(z.looseObject({ unit: text, patientDays: number, lineDays: number, infections: number })),
  infections: z.array(z.looseObject({ patient: text, dateOfEvent: text, because: z.array(text) })),
  dwell: z.array(z.looseObject({ unit: text, lines: number, removed: number, curve: z.array(z.unknown()) })),
  leftOut: z.array(z.looseObject({ ref: text, counted: z.boolean(), reason: text })),
  cautions: z.array(z.string()),
});

/**
 * Reads figures in words, as they stand in the file now.
 * @throws ConfigError where they can’t be read.
 */
export async function readFigures(file: string): Promise<FiguresView> {
  const read = figures.safeParse(await jsonIn(file, 'DWELLWARD_FIGURES'));
  const problem = `DWELLWARD_FIGURES: “${file}” is not what dwellward figures --format json writes.`;
  if (!read.success) throw new ConfigError([problem]);
  try {
    return figuresView(read.data as unknown as Figures);
  } catch (error) {
    if (error instanceof TypeError) throw new ConfigError([problem]);
    throw error;
  }
}

async function jsonIn(file: string, setting: string): Promise<unknown> {
  try {
    return JSON.parse(await readFile(file, 'utf8'));
  } catch (error) {
    const why = error instanceof SyntaxError ? 'is not JSON' : 'can’t be read';
    throw new ConfigError([`${setting}: “${file}” ${why}.`]);
  }
}
