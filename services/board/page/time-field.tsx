import type { BoardLine, BoardRow, BoardShift } from '@dwellward/core';
import { words } from './words/english.js';

const hourMs = 3_600_000;
/** From so long ago to so far ahead: the shift before, this one and the next two. */
export const field = { beforeMs: 8 * hourMs, afterMs: 24 * hourMs } as const;

const width = 640;
const barHeight = 12;
const stride = 17;
const top = 16;

interface Bar {
  readonly row: BoardRow;
  readonly x: number;
  readonly width: number;
  readonly track: number;
  readonly ghostX: number | undefined;
}

/** Where a moment stands, in the units of the picture; moments beyond the field stand at its edge. */
function xOf(ms: number, nowMs: number): number {
  const share = (ms - (nowMs - field.beforeMs)) / (field.beforeMs + field.afterMs);
  return Math.min(1, Math.max(0, share)) * width;
}

/** Bars side by side where they do not touch, else on the next track. */
function barsOf(rows: readonly BoardRow[], nowMs: number): Bar[] {
  const ends: number[] = [];
  return rows
    .filter(({ opens }) => Date.parse(opens) <= nowMs + field.afterMs)
    .map((row) => {
      const x = xOf(Date.parse(row.opens), nowMs);
      const end = Math.max(xOf(Date.parse(row.dueBy), nowMs), x + 3);
      const free = ends.findIndex((one) => one + 4 <= x);
      const track = free === -1 ? ends.length : free;
      ends[track] = end;
      const ghostX = row.unmovedDueBy === undefined ? undefined : xOf(Date.parse(row.unmovedDueBy), nowMs);
      return { row, x, width: end - x, track, ghostX };
    });
}

function Ticks({ nowMs, height, zone }: { nowMs: number; height: number; zone: string }) {
  const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', timeZone: zone });
  const first = Math.ceil((nowMs - field.beforeMs) / (4 * hourMs)) * 4 * hourMs;
  const ticks: number[] = [];
  for (let ms = first; ms < nowMs + field.afterMs; ms += 4 * hourMs) ticks.push(ms);
  return (
    <g class="ticks">
      {ticks.map((ms) => (
        <g key={ms}>
          <line x1={xOf(ms, nowMs)} x2={xOf(ms, nowMs)} y1={top - 4} y2={height} />
          {Math.abs(xOf(ms, nowMs) - xOf(nowMs, nowMs)) > 30 && (
            <text x={xOf(ms, nowMs) + 2} y={10}>
              {clock.format(ms)}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

/** Every second shift on a ground of its own, with a line where each begins. */
function Bands({ shifts, nowMs, height }: { shifts: readonly BoardShift[]; nowMs: number; height: number }) {
  return (
    <g class="bands">
      {shifts.map(({ from, until }, at) => {
        const x = xOf(Date.parse(from), nowMs);
        const end = xOf(Date.parse(until), nowMs);
        if (end <= x) return null;
        return (
          <g key={from}>
            {at % 2 === 1 && <rect x={x} y={top - 4} width={end - x} height={height - top + 4} />}
            {x > 0 && <line x1={x} x2={x} y1={top - 4} y2={height} />}
          </g>
        );
      })}
    </g>
  );
}

/**
 * One line as a lane: each item a bar from when it may be done to when it is due by, the present a vertical rule, holds
 * hatched over the lane. What it shows stands in the list beside it, so nothing in it has to be read.
 */
export function TimeField({
  lane,
  nowMs,
  zone,
  shifts,
}: {
  lane: BoardLine;
  nowMs: number;
  zone: string;
  shifts: readonly BoardShift[];
}) {
  const bars = barsOf(lane.rows, nowMs);
  const tracks = Math.max(1, ...bars.map(({ track }) => track + 1));
  const height = top + tracks * stride + 4;
  const now = xOf(nowMs, nowMs);
  return (
    <svg
      class="time-field"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={words.picture(lane.name, bars.length)}
    >
      <defs>
        <pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect class="hatch-ground" width="6" height="6" />
          <line class="hatch-line" x1="0" y1="0" x2="0" y2="6" />
        </pattern>
      </defs>
      <Bands shifts={shifts} nowMs={nowMs} height={height} />
      <Ticks nowMs={nowMs} height={height} zone={zone} />
      {lane.holds.map((hold, at) => {
        const x = xOf(Date.parse(hold.from), nowMs);
        const end = hold.until === undefined ? width : xOf(Date.parse(hold.until), nowMs);
        return (
          <rect
            key={at}
            class={hold.ofLine ? 'hold of-line' : 'hold'}
            x={x}
            y={top - 3}
            width={Math.max(2, end - x)}
            height={hold.ofLine ? height - top + 2 : 6}
            fill="url(#hatch)"
          />
        );
      })}
      {bars.map(({ row, x, width: wide, track, ghostX }) => {
        const y = top + track * stride + 3;
        return (
          <g key={row.ids[0]} class={`bar ${row.state}${row.emergency ? ' emergency' : ''}`}>
            {ghostX !== undefined && (
              <line class="ghost" x1={ghostX} x2={ghostX} y1={y - 1} y2={y + barHeight + 1} />
            )}
            <rect x={x} y={y} width={wide} height={barHeight} />
            {row.state === 'overdue' && now - (x + wide) > 4 && (
              <line class="overrun" x1={x + wide} x2={now} y1={y + barHeight / 2} y2={y + barHeight / 2} />
            )}
          </g>
        );
      })}
      <line class="now" x1={now} x2={now} y1={0} y2={height} />
      <text class="now-text" x={now + 3} y={10}>
        {words.now}
      </text>
    </svg>
  );
}
