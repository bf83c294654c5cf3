import type { Status } from './status.js';

/** The counters and gauges in the text format of Prometheus (version 0.0.4). */
export function metricsText(status: Status, ready: boolean): string {
  const { counters, completedMs, nowMs, held } = status;
  const lines: string[] = [];
  const add = (kind: 'counter' | 'gauge', name: string, help: string, value: number) =>
    lines.push(
      `# HELP dwellward_${name} ${help}`,
      `# TYPE dwellward_${name} ${kind}`,
      `dwellward_${name} ${value}`,
    );
  for (const [name, value] of Object.entries(counters) as [string, number][]) {
    const snake = name.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
    add('counter', `${snake}_total`, `${snake.replaceAll('_', ' ')} since the start`, value);
  }
  add(
    'counter',
    'calls_timed_out_total',
    'calls without an answer within the time limit',
    status.callsTimedOut,
  );
  add('gauge', 'ready', '1 where care is kept in step', ready ? 1 : 0);
  if (completedMs !== undefined)
    add('gauge', 'last_round_age_seconds', 'age of the last completed round', (nowMs - completedMs) / 1000);
  add('gauge', 'patients', 'patients with a line or about to have one', status.patients);
  add('gauge', 'patients_failing', 'patients who could not be brought in step', status.failing.length);
  add('gauge', 'patients_held', 'patients of whom closings are held back', held.length);
  add('gauge', 'open_tasks', 'open Tasks of the adapter, as far as they were read', status.openTasks);
  add(
    'gauge',
    'clock_skew_seconds',
    'by how much the FHIR server’s clock is ahead',
    status.clockSkewMs / 1000,
  );
  return `${lines.join('\n')}\n`;
}
