// The dates that the surveillance manual prints, worked out again.
import { readFileSync } from 'node:fs';
import {
  dateOfEvent,
  eligibleDays,
  infectionWindow,
  onsetOf,
  repeatTimeframe,
  secondaryAttribution,
  type DaySpan,
  type LineTime,
} from '@dwellward/figures';

interface Published<Figure extends string, Input> {
  readonly figure: Figure;
  readonly input: Input;
  readonly expect: Readonly<Record<string, string>>;
  readonly source: string;
  readonly where: string;
  readonly seen: 'seen';
}

export type InfectionRow =
  | Published<'window', { test: string }>
  | Published<'date-of-event', { test: string; elements: string[] }>
  | Published<'timeframe', { event: string }>
  | Published<'secondary', { test: string; event: string }>
  | Published<'onset', { event: string; admitted: string }>
  | Published<'eligible', { lines: LineTime[]; until: string }>;

const file = new URL('../../fixtures/published/figures-infections.json', import.meta.url);

export const infectionRows = (JSON.parse(readFileSync(file, 'utf8')) as { rows: InfectionRow[] }).rows;

const span = (given: DaySpan | undefined) => (given ? { ...given } : {});

export function datesOf(row: InfectionRow): Readonly<Record<string, string>> {
  switch (row.figure) {
    case 'window':
      return span(infectionWindow(row.input.test));
    case 'date-of-event':
      return { date: dateOfEvent(row.input.test, row.input.elements) };
    case 'timeframe':
      return span(repeatTimeframe(row.input.event));
    case 'secondary': {
      const found = secondaryAttribution(row.input.test, row.input.event);
      const days = (Date.parse(found.to) - Date.parse(found.from)) / 86_400_000 + 1;
      return { ...found, ...(row.expect['days'] === undefined ? {} : { days: String(days) }) };
    }
    case 'onset':
      return { onset: onsetOf(row.input.event, row.input.admitted) };
    case 'eligible': {
      const spans = eligibleDays(row.input.lines, { until: row.input.until });
      return spans.length === 1 ? span(spans[0]) : { spans: String(spans.length) };
    }
  }
}
