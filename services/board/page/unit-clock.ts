// The clock on the wall of the unit: this machine may stand in another zone.

function partsIn(ms: number, zone: string): Record<string, string> {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  return Object.fromEntries(format.formatToParts(ms).map(({ type, value }) => [type, value]));
}

/** `2026-11-25T07:30`, as an input of the browser has it. */
export function localText(ms: number, zone: string): string {
  const { year, month, day, hour, minute } = partsIn(ms, zone);
  return `${year}-${month}-${day}T${hour}:${minute}`;
}

/**
 * The instant at which the unit’s clock shows a text such as `2026-11-25T07:30`. Where the clock shows it twice, the
 * first; where it skips it, moved on by the gap.
 */
export function instantOf(local: string, zone: string): string {
  const wantedMs = Date.parse(`${local}:00Z`);
  const offset = (ms: number) => Date.parse(`${localText(ms, zone)}:00Z`) - Math.floor(ms / 60_000) * 60_000;
  const candidates = [wantedMs - offset(wantedMs - 86_400_000), wantedMs - offset(wantedMs + 86_400_000)];
  const fits = candidates.filter((ms) => localText(ms, zone) === local).sort((a, b) => a - b);
  return new Date(fits[0] ?? candidates[0] ?? wantedMs).toISOString();
}
