import type { Trigger } from './model.js';

/** Whether whatever begins by `other` also begins by `trigger`. */
export function takesIn(trigger: Trigger, other: Trigger): boolean {
  if (trigger.kind === 'event') return other.kind === 'event' && trigger.activity === other.activity;
  if (other.kind === 'event' || trigger.finding !== other.finding) return false;
  if (trigger.values.length === 0) return true;
  return other.values.length > 0 && other.values.every((value) => trigger.values.includes(value));
}
