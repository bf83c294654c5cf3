import type { Calendar, Records } from '@dwellward/core';
import { unnamedUnit } from './line-days.js';

/** The unit of a patient’s last stay that had begun by a moment and was not over. */
export function unitAt(
  { unitStays }: Pick<Records, 'unitStays'>,
  patient: string,
  ms: number,
  calendar: Calendar,
): string {
  const stays = unitStays.filter(
    (stay) =>
      stay.patient === patient &&
      (stay.from === undefined || calendar.earliest(stay.from) <= ms) &&
      (stay.until === undefined || ms < calendar.latest(stay.until)),
  );
  return stays.at(-1)?.unit ?? unnamedUnit;
}
