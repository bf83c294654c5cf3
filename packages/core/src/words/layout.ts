import { Temporal } from 'temporal-polyfill';
import type { DueState } from '@dwellward/profiles';
import type { Calendar } from '../timeline/calendar.js';

const days = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** Wall-clock time for people: `Wed 25 Nov 07:30`. */
export function clockText(ms: number, calendar: Calendar): string {
  const at = Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(calendar.zone);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${days[at.dayOfWeek - 1]} ${at.day} ${months[at.month - 1]} ${two(at.hour)}:${two(at.minute)}`;
}

/** A day for people, with its year: `25 Nov 2026`. */
export function dayText(ms: number, calendar: Calendar): string {
  const at = Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(calendar.zone);
  return `${at.day} ${months[at.month - 1]} ${at.year}`;
}

/** `in 3 h`, `2 d ago`, `now`: one unit, rounded down, so that nothing sounds later than it is. */
export function relativeText(differenceMs: number): string {
  const minutes = Math.floor(Math.abs(differenceMs) / 60_000);
  if (minutes === 0) return 'now';
  const size =
    minutes < 60
      ? `${minutes} min`
      : minutes < 48 * 60
        ? `${Math.floor(minutes / 60)} h`
        : `${Math.floor(minutes / 1440)} d`;
  return differenceMs < 0 ? `${size} ago` : `in ${size}`;
}

export type Styler = (kind: DueState | 'strong', text: string) => string;

const ansi: Readonly<Record<DueState | 'strong', string>> = {
  strong: '1',
  overdue: '1;35',
  due: '36',
  held: '33',
  upcoming: '2',
};

/** Puts ANSI styles around text, or leaves it as it is. */
export function styler(colour: boolean): Styler {
  return (kind, text) => (colour ? `\u001b[${ansi[kind]}m${text}\u001b[0m` : text);
}

/** Breaks a text at spaces so that no line is longer than `columns`; later lines are indented. 0 leaves it as it is. */
export function wrap(text: string, indent: number, columns: number): string {
  if (columns <= 0 || text.length <= columns) return text;
  const start = /^ */.exec(text)?.[0] ?? '';
  const lines: string[] = [];
  let line = start;
  // Runs of spaces are columns of the table: only single ones are places to break.
  for (const word of text.slice(start.length).split(/(?<! ) (?! )/)) {
    if (line.trim() !== '' && line.length + 1 + word.length > columns) {
      lines.push(line);
      line = ' '.repeat(indent) + word;
    } else {
      line = line.trim() === '' ? line + word : `${line} ${word}`;
    }
  }
  return [...lines, line].join('\n');
}
