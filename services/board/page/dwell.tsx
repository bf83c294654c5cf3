import type { BoardEvent, LineView } from '@dwellward/core';
import { words } from './words/english.js';

const width = 900;
const left = 62;
const tracks: readonly { readonly kind: BoardEvent['kind']; readonly name: string }[] = [
  { kind: 'care', name: words.care },
  { kind: 'finding', name: words.findings },
  { kind: 'infusion', name: words.infusions },
];
const trackHigh = 26;
const curveHigh = 110;

/** The whole dwell of a line, drawn from its record: what was done, found and ran, holds, and the neutrophil curve. */
export function Dwell({ view }: { view: LineView }) {
  const nowMs = Date.parse(view.at);
  const times = [
    ...view.events.map(({ at }) => Date.parse(at)),
    ...(view.insertedAt ? [Date.parse(view.insertedAt)] : []),
  ];
  if (times.length === 0) return null;
  const fromMs = Math.min(...times);
  const toMs = Math.max(
    nowMs,
    ...view.line.rows.map(({ dueBy }) => Math.min(Date.parse(dueBy), nowMs + 7 * 86_400_000)),
  );
  const x = (ms: number) => left + ((ms - fromMs) / Math.max(1, toMs - fromMs)) * (width - left - 8);
  const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: view.zone });
  const counts = view.neutrophils.filter(({ at }) => Date.parse(at) >= fromMs);
  const top = tracks.length * trackHigh + 22;
  const most = Math.max(1, ...counts.map(({ value }) => value), ...view.neutrophilLimits);
  const y = (value: number) => top + curveHigh - (value / most) * (curveHigh - 12);
  const height = counts.length > 0 ? top + curveHigh + 22 : top + 4;
  const ticks = Array.from({ length: 7 }, (_, at) => fromMs + ((toMs - fromMs) * at) / 6);
  return (
    <section class="dwell" aria-labelledby="dwell-head">
      <h2 id="dwell-head">{words.dwell}</h2>
      <svg
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={words.dwellPicture(day.format(fromMs), view.events.length)}
      >
        {ticks.map((ms) => (
          <g key={ms} class="ticks">
            <line x1={x(ms)} x2={x(ms)} y1={14} y2={height} />
            <text x={Math.min(x(ms) + 2, width - 40)} y={10}>
              {day.format(ms)}
            </text>
          </g>
        ))}
        {view.line.holds.map((hold, at) => (
          <rect
            key={at}
            class="hold"
            fill="url(#hatch-line)"
            x={x(Math.max(fromMs, Date.parse(hold.from)))}
            y={14}
            width={Math.max(
              3,
              x(Math.min(toMs, hold.until ? Date.parse(hold.until) : toMs)) - x(Date.parse(hold.from)),
            )}
            height={tracks.length * trackHigh}
          />
        ))}
        <defs>
          <pattern
            id="hatch-line"
            width="6"
            height="6"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <line class="hatch-line" x1="0" y1="0" x2="0" y2="6" />
          </pattern>
        </defs>
        {tracks.map(({ kind, name }, at) => (
          <g key={kind} class={`track ${kind}`}>
            <text class="track-name" x={0} y={14 + at * trackHigh + 17}>
              {name}
            </text>
            {view.events
              .filter((event) => event.kind === kind)
              .map((event) => {
                const from = x(Date.parse(event.at));
                const to =
                  event.kind === 'infusion' ? x(event.until ? Date.parse(event.until) : nowMs) : from;
                return (
                  <rect
                    key={`${event.ref} ${event.at}`}
                    x={from - 1}
                    y={14 + at * trackHigh + 5}
                    width={Math.max(2.5, to - from)}
                    height={trackHigh - 10}
                  >
                    <title>{`${event.text}${event.on ? `, ${event.on}` : ''}`}</title>
                  </rect>
                );
              })}
          </g>
        ))}
        {counts.length > 0 && (
          <g class="counts-curve">
            <text class="track-name" x={0} y={top + 2}>
              {words.counts}
            </text>
            {view.neutrophilLimits.map((limit) => (
              <g key={limit}>
                <line class="limit" x1={left} x2={width - 8} y1={y(limit)} y2={y(limit)} />
                <text class="limit-text" x={width - 110} y={y(limit) - 3}>
                  {words.limit(limit)}
                </text>
              </g>
            ))}
            <polyline points={counts.map(({ at, value }) => `${x(Date.parse(at))},${y(value)}`).join(' ')} />
            {counts.map(({ at, value, text }) => (
              <circle key={at} cx={x(Date.parse(at))} cy={y(value)} r="2.6">
                <title>{text}</title>
              </circle>
            ))}
          </g>
        )}
        <line class="now" x1={x(nowMs)} x2={x(nowMs)} y1={12} y2={height} />
      </svg>
      <EventTable view={view} />
    </section>
  );
}

function EventTable({ view }: { view: LineView }) {
  const moment = new Intl.DateTimeFormat('en-GB', {
    dateStyle: 'medium',
    timeStyle: 'short',
    timeZone: view.zone,
  });
  const rows = [
    ...view.events.map(({ at, text, on }) => ({ at, text, on })),
    ...view.neutrophils.map(({ at, text }) => ({ at, text: `${words.counts}: ${text}`, on: undefined })),
  ].sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
  return (
    <details>
      <summary>{words.event}</summary>
      <div class="wide" tabIndex={0} role="region" aria-label={words.dwell}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.time}</th>
              <th scope="col">{words.event}</th>
              <th scope="col">{words.on}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ at, text, on }, index) => (
              <tr key={`${at} ${text} ${index}`}>
                <td>{moment.format(Date.parse(at))}</td>
                <td>{text}</td>
                <td>{on ?? ''}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
