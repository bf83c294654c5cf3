import { recordedTime } from '../record/times.js';
import { instantMs } from '../timeline/calendar.js';

/** An object without some of its elements. */
export function without<Whole extends object, Key extends keyof Whole>(
  whole: Whole,
  ...keys: readonly Key[]
): Omit<Whole, Key> {
  const rest = { ...whole };
  for (const key of keys) Reflect.deleteProperty(rest, key);
  return rest;
}

/** The instant that an element gives, milliseconds since 1970; NaN, which no comparison is true of, where it gives none. */
export function msIn(text: string | undefined): number {
  const time = recordedTime(text);
  return time?.precision === 'instant' ? instantMs(time.text) : NaN;
}
