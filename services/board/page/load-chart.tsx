import type { BoardShift, LoadHour } from '@dwellward/core';
import { words } from './words/english.js';

const wide = 26;
const high = 56;

/** What falls due hour by hour, so that a shift sees its peaks; the table says the same. */
export function LoadChart({ load, shifts }: { load: readonly LoadHour[]; shifts: readonly BoardShift[] }) {
  const most = Math.max(1, ...load.map(({ items }) => items));
  const ahead = shifts.filter(({ runs, from }) => runs || Date.parse(from) > Date.parse(load[0]?.from ?? ''));
  const begins = new Set(ahead.map(({ from }) => Date.parse(from)));
  const hasMinutes = load.some(({ minutes }) => minutes > 0);
  return (
    <section class="load" aria-labelledby="load-head">
      <h2 id="load-head">{words.load}</h2>
      <ul class="shifts" aria-label={words.shifts}>
        {ahead.map(({ from, text }) => (
          <li key={from}>{text}</li>
        ))}
      </ul>
      <svg viewBox={`0 0 ${load.length * wide} ${high + 30}`} role="img" aria-labelledby="load-head">
        {load.map(({ from, clock, items, emergencies }, at) => {
          const tall = (items / most) * high;
          const urgent = (emergencies / most) * high;
          return (
            <g key={from}>
              {at > 0 && begins.has(Date.parse(from)) && (
                <line class="shift-begins" x1={at * wide} x2={at * wide} y1={0} y2={high + 28} />
              )}
              <rect class="load-bar" x={at * wide + 3} y={high + 12 - tall} width={wide - 6} height={tall} />
              {emergencies > 0 && (
                <rect
                  class="load-urgent"
                  x={at * wide + 3}
                  y={high + 12 - urgent}
                  width={wide - 6}
                  height={urgent}
                />
              )}
              {items > 0 && (
                <text class="load-count" x={at * wide + wide / 2} y={high + 9 - tall}>
                  {items}
                </text>
              )}
              <text class="load-clock" x={at * wide + wide / 2} y={high + 25}>
                {clock}
              </text>
            </g>
          );
        })}
      </svg>
      <details>
        <summary>{words.hour}</summary>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.hour}</th>
              <th scope="col">{words.items}</th>
              {hasMinutes && <th scope="col">{words.minutes}</th>}
            </tr>
          </thead>
          <tbody>
            {load
              .filter(({ items }) => items > 0)
              .map(({ from, clock, items, minutes }) => (
                <tr key={from}>
                  <td>{clock}:00</td>
                  <td>{items}</td>
                  {hasMinutes && <td>{minutes}</td>}
                </tr>
              ))}
          </tbody>
        </table>
        <p>
          {words.loadLate} {hasMinutes && words.loadNote}
        </p>
      </details>
    </section>
  );
}
