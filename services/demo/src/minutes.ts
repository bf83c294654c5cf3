import type { LineCareActivity } from '@dwellward/profiles';

/** What the invented unit takes its care to need, in minutes; nobody’s measurement. */
export const demoMinutes: Readonly<Partial<Record<LineCareActivity, number>>> = {
  'dressing-change': 25,
  flush: 4,
  lock: 4,
  'needleless-connector-change': 5,
  'administration-set-change': 10,
  'site-assessment': 3,
  'external-length-measurement': 3,
  'necessity-review': 2,
  bath: 20,
  'blood-sampling': 10,
};
